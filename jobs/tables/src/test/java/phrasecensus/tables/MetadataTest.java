package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MetadataTest {
  private static final List<String> FILES = List.of("a.musicxml", "sub/b.mxl");

  private static Metadata read(String text) {
    return Metadata.read("solos.csv", text.getBytes(StandardCharsets.UTF_8), "", FILES);
  }

  @ParameterizedTest
  @ValueSource(strings = {",", ";", "\t"})
  void takesTheDelimiterOfTheHeader(String delimiter) {
    Metadata metadata = read("file,style,level\na.musicxml,cool,2\n".replace(",", delimiter));

    assertThat(metadata.of("a.musicxml"))
        .containsEntry("style", "cool")
        .containsEntry("level", "2");
  }

  @Test
  void aRowMayNameAFileWithoutItsExtension() {
    assertThat(read("file,style\nsub/b,hot\n").of("sub/b.mxl")).containsEntry("style", "hot");
  }

  @Test
  void findsTheColumnThatNamesTheScores() {
    Metadata metadata = read("id,song,style\n1,a,cool\n");

    assertThat(metadata.of("a.musicxml")).containsEntry("style", "cool").containsEntry("id", "1");
    assertThat(metadata.remarks())
        .containsExactly("Metadata from solos.csv; its column 'song' names the scores.");
  }

  @Test
  void quotedValuesAndByteOrderMarksAreRead() {
    Metadata metadata = read("\uFEFFfile,tune\na.musicxml,\"Rain, \"\"again\"\"\"\n");

    assertThat(metadata.of("a.musicxml")).containsEntry("tune", "Rain, \"again\"");
  }

  @Test
  void textThatIsNotUtf8IsReadAsWindows1252AndSaidSo() {
    byte[] bytes = "file,player\na.musicxml,Renée\n".getBytes(Charset.forName("windows-1252"));

    Metadata metadata = Metadata.read("solos.csv", bytes, "", FILES);

    assertThat(metadata.of("a.musicxml")).containsEntry("player", "Renée");
    assertThat(metadata.remarks())
        .containsExactly("The metadata file solos.csv is not UTF-8; it was read as Windows-1252.");
  }

  @Test
  void aFileThatStandsTwiceIsRefusedWithItsRow() {
    assertThatThrownBy(() -> read("file,style\na.musicxml,x\na.musicxml,y\n"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the metadata file solos.csv: 'a.musicxml' stands in it more than once,"
                + " again in row 3. Keep one row a file.");
  }

  @Test
  void aDateInAnotherFormIsRefusedWithItsRow() {
    assertThatThrownBy(() -> read("file,date\na.musicxml,14.3.2026\n"))
        .hasMessage(
            "Cannot use the metadata file solos.csv: row 2 has the date '14.3.2026'. Write dates"
                + " as 2026-03-14.");
  }

  @Test
  void aCellTooManyIsRefusedWithItsRow() {
    assertThatThrownBy(() -> read("file,tune,style\na.musicxml,Rain, again,cool\n"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the metadata file solos.csv: row 2 has more cells than there are columns,"
                + " 3. Put text that holds a delimiter between quotation marks.");
  }

  @Test
  void emptyCellsAtTheEndOfARowAreNone() {
    Metadata metadata = read("file,tune,style\na.musicxml,Rain,cool,,\nsub/b,Sun\n");

    assertThat(metadata.of("a.musicxml")).containsEntry("style", "cool");
    assertThat(metadata.of("sub/b.mxl")).containsOnly(Map.entry("tune", "Sun"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "\n\n"})
  void aFileWithoutAHeaderIsRefused(String text) {
    assertThatThrownBy(() -> read(text))
        .hasMessage(
            "Cannot use the metadata file solos.csv: it is empty. Give it a row with the names of"
                + " its columns, or delete it.");
  }

  @Test
  void aMissingKeyColumnIsRefusedWithTheColumnsThereAre() {
    assertThatThrownBy(
            () ->
                Metadata.read(
                    "solos.csv",
                    "name,style\nx,y\n".getBytes(StandardCharsets.UTF_8),
                    "song",
                    FILES))
        .hasMessageContaining(
            "it has no column 'song' that names the scores. Its columns: name, style.");
  }

  @Test
  void namesOfColumnsBecomeSnakeCase() {
    assertThat(Metadata.columnName(" Tempo (bpm) ")).isEqualTo("tempo_bpm");
  }

  @Test
  void rowsWithoutAFileAreListed() {
    assertThat(read("file,style\na,x\ngone,y\n").rowsWithoutFile(FILES)).containsExactly("gone");
  }

  private static Metadata read(byte[] bytes, MetadataDefinition definition) {
    return Metadata.read("solos.csv", bytes, definition, FILES);
  }

  private static Metadata read(String text, MetadataDefinition definition) {
    return read(text.getBytes(StandardCharsets.UTF_8), definition);
  }

  @Test
  void columnsGetTheNamesThatTheStudyGivesThem() {
    Metadata metadata =
        read(
            "Datei;Spieler;Stil (grob);Jahr\na.musicxml;Renée;kühl;1958\n",
            new MetadataDefinition(
                "", "Datei", Map.of("performer", "Spieler", "style", "Stil (grob)"), "", ""));

    assertThat(metadata.columns()).containsExactly("performer", "style", "jahr");
    assertThat(metadata.of("a.musicxml"))
        .containsOnly(
            Map.entry("performer", "Renée"), Map.entry("style", "kühl"), Map.entry("jahr", "1958"));
  }

  @Test
  void aNamedColumnThatIsNotThereIsRefusedWithTheColumnsThereAre() {
    assertThatThrownBy(
            () ->
                read(
                    "file,Stil\na.musicxml,x\n",
                    new MetadataDefinition("", "", Map.of("style", "Stiel"), "", "")))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the metadata file solos.csv: it has no column 'Stiel', which the study"
                + " calls 'style'. Its columns: file, Stil.");
  }

  @Test
  void twoColumnsOfOneNameAreRefusedAlsoWhenTheStudyMadeThemSo() {
    assertThatThrownBy(
            () ->
                read(
                    "file,style,Stil\na.musicxml,x,y\n",
                    new MetadataDefinition("", "", Map.of("style", "Stil"), "", "")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("more than one column 'style'");
  }

  @Test
  void aStatedDelimiterIsNotGuessed() {
    Metadata metadata =
        read(
            "file,a;b;c\na.musicxml,1;2;3\n",
            new MetadataDefinition("", "", Map.of(), "comma", ""));

    assertThat(metadata.of("a.musicxml")).containsExactly(Map.entry("a_b_c", "1;2;3"));
  }

  @Test
  void delimitersInsideQuotationMarksOfTheHeaderDoNotCount() {
    assertThat(read("\"file\",\"a;b;c\"\na.musicxml,1\n").of("a.musicxml"))
        .containsExactly(Map.entry("a_b_c", "1"));
  }

  /** In Windows-1252, byte 0x80 is the euro sign, which ISO 8859-1 does not have. */
  @Test
  void aStatedEncodingIsNotGuessedAndNothingIsSaid() {
    Metadata metadata =
        read(
            "file,fee\na.musicxml,\u20AC 5\n".getBytes(Charset.forName("windows-1252")),
            new MetadataDefinition("", "", Map.of(), "", "windows-1252"));

    assertThat(metadata.of("a.musicxml")).containsEntry("fee", "€ 5");
    assertThat(metadata.remarks()).isEmpty();
  }

  @Test
  void aFileThatIsNotInTheStatedEncodingIsRefused() {
    assertThatThrownBy(
            () ->
                read(
                    "file,player\na.musicxml,Renée\n".getBytes(Charset.forName("windows-1252")),
                    new MetadataDefinition("", "", Map.of(), "", "utf-8")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("it is not UTF-8, as the study says.");
  }

  @Test
  void utf16IsRefusedWithTheCure() {
    assertThatThrownBy(
            () ->
                read("file,style\n".getBytes(StandardCharsets.UTF_16), MetadataDefinition.DEFAULT))
        .isInstanceOf(InputException.class)
        .hasMessage("Cannot read the metadata file solos.csv: it is UTF-16. Save it as UTF-8.");
  }

  @Test
  void filesWithoutARowAreListed() {
    assertThat(read("file,style\nsub/b,hot\n").filesWithoutRow(FILES))
        .containsExactly("a.musicxml");
  }

  @Test
  void cellsOfAnotherTypeAreLeftOutAndToldWithTheirRows() {
    Metadata.Typed typed =
        read("file,year,style\na.musicxml,ca. 1958,cool\nsub/b,1960,hot\n")
            .typed(Map.of("year", MetadataType.INTEGER));

    assertThat(typed.misfits())
        .containsExactly(new Metadata.Misfit("a.musicxml", 2, "year", "ca. 1958"));
    assertThat(typed.metadata().of("a.musicxml")).containsOnly(Map.entry("style", "cool"));
    assertThat(typed.metadata().of("sub/b.mxl")).containsEntry("year", "1960");
  }

  @Test
  void aBlankCellIsOfEveryType() {
    Metadata.Typed typed =
        read("file,year\na.musicxml,\" \"\n").typed(Map.of("year", MetadataType.DATE));

    assertThat(typed.misfits()).isEmpty();
    assertThat(typed.metadata().of("a.musicxml")).isEmpty();
  }

  @Test
  void aColumnHasOneTypeForBothRoles() {
    Metadata corpus = read("file,year,take\na.musicxml,1958,1\n");
    Metadata students = read("file,year,take\nsub/b,ca. 1960,2.5\n");

    assertThat(MetadataColumns.types(Map.of(), List.of(corpus, students)))
        .containsOnly(Map.entry("year", MetadataType.TEXT), Map.entry("take", MetadataType.NUMBER));
  }

  @Test
  void whatTheStudyDeclaresWinsOverTheCells() {
    Metadata corpus = read("file,year,folder,title\na.musicxml,1958,1950,12\n");

    assertThat(MetadataColumns.types(Map.of("year", MetadataType.TEXT), List.of(corpus)))
        .containsOnly(Map.entry("year", MetadataType.TEXT), Map.entry("folder", MetadataType.TEXT));
  }
}
