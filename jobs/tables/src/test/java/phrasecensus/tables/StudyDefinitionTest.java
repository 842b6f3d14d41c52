package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StudyDefinitionTest {
  @TempDir private Path folder;

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("study.yaml"), text);
  }

  @Test
  void relativeFoldersCountFromTheStudyFile() throws IOException {
    StudyDefinition study = StudyDefinition.read(file("corpus: solos\nstudents: ../pupils\n"));

    assertThat(study.corpus()).isEqualTo(folder.resolve("solos").toString());
    assertThat(study.students()).isEqualTo(folder.resolveSibling("pupils").toString());
  }

  @Test
  void everythingButTheCorpusHasADefault() throws IOException {
    StudyDefinition study = StudyDefinition.read(file("corpus: solos\n"));

    assertThat(study.name()).isEqualTo("study");
    assertThat(study.settings()).isEqualTo(StudySettings.defaults());
    assertThat(study.metadata()).isEqualTo(MetadataDefinition.DEFAULT);
    assertThat(study.by()).isEmpty();
  }

  @Test
  void whichScoresItIsAboutIsRead() throws IOException {
    StudyDefinition study =
        StudyDefinition.read(
            file(
                """
                corpus: solos
                students: pupils
                only: {Style: [swing, bebop], year: {from: 1940, to: 1949}, player: Ada Lark}
                student-only: {level: 2}
                """));

    assertThat(study.only())
        .isEqualTo(
            MetadataChoice.of(List.of("style=swing|bebop", "year=1940..1949", "player=Ada Lark")));
    assertThat(study.studentOnly()).isEqualTo(MetadataChoice.of(List.of("level=2")));
  }

  @Test
  void howItsTablesAreCitedIsRead() throws IOException {
    StudyDefinition study =
        StudyDefinition.read(
            file(
                """
                corpus: solos
                authors:
                  - "Lark, Ada"
                  - {family: Reed, given: Bo, orcid: https://orcid.org/0000-0002-1825-0097}
                  - The Harbour Group
                version: "1.10"
                date: 2026-03-14
                doi: https://doi.org/10.1234/abcd
                licence: CC-BY-4.0
                """));

    assertThat(study.publication())
        .isEqualTo(
            new Publication(
                List.of(
                    new Publication.Author("Lark", "Ada", "", ""),
                    new Publication.Author("Reed", "Bo", "", "0000-0002-1825-0097"),
                    new Publication.Author("The Harbour Group", "", "", "")),
                "1.10",
                "2026-03-14",
                "10.1234/abcd",
                "CC-BY-4.0"));
  }

  /** The check digit of 0000-0002-1825-0097 is ORCID's own published example. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "authors: [{family: Reed, orcid: 0000-0002-1825-0096}]",
        "authors: [{family: Reed, name: Bo}]",
        "authors: [{given: Bo}]",
        "authors: [Reed]\ndate: March",
        "authors: [Reed]\nversion: 1.10",
        "authors: [Reed]\ndoi: abcd",
        "doi: 10.1234/abcd",
        "only: swing",
        "only: {year: {least: 1940}}",
        "only: {year: {from: late}}",
        "only: {style: []}"
      })
  void whatCannotBeMeantIsRefusedByName(String lines) {
    assertThatThrownBy(() -> StudyDefinition.read(file("corpus: solos\n" + lines + "\n")))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot use the study file ");
  }

  @Test
  void settingsAreRead() throws IOException {
    StudyDefinition study =
        StudyDefinition.read(
            file(
                """
                corpus: solos
                by: [style, instrument]
                metadata: {file: who.csv, key: song}
                phrase-marks: {file: marks.csv, key: song}
                settings:
                  phrase-rule: silence
                  phrase-rule-settings: {minimum-beats: 3/4}
                  sensitivity: [breath, silence minimum-beats=1]
                  anticipation: false
                  as-played: true
                  even-eighths: true
                  keep-slash-noteheads: true
                  limits: {file-size: 1000000}
                report: {pseudonyms: true}
                """));

    assertThat(study.by()).containsExactly("style", "instrument");
    assertThat(study.metadata())
        .isEqualTo(new MetadataDefinition(folder.resolve("who.csv").toString(), "song"));
    assertThat(study.phraseMarks())
        .isEqualTo(new MetadataDefinition(folder.resolve("marks.csv").toString(), "song"));
    assertThat(study.settings().sensitivity()).containsExactly("breath", "silence minimum-beats=1");
    assertThat(study.settings().phraseRuleSettings()).containsEntry("minimum-beats", "3/4");
    assertThat(study.settings().anticipation()).isFalse();
    assertThat(study.settings().asPlayed()).isTrue();
    assertThat(study.settings().evenEighths()).isTrue();
    assertThat(study.settings().keepSlashNoteheads()).isTrue();
    assertThat(study.settings().limits()).containsExactly(Map.entry("file-size", "1000000"));
    assertThat(study.pseudonyms()).isTrue();
  }

  @Test
  void metadataMayHaveTheirOwnNamesDelimiterAndEncoding() throws IOException {
    StudyDefinition study =
        StudyDefinition.read(
            file(
                """
                corpus: solos
                metadata:
                  file: liste.csv
                  key: Datei
                  columns: {performer: Spieler, style: "Stil (grob)"}
                  delimiter: semicolon
                  encoding: windows-1252
                """));

    assertThat(study.metadata())
        .isEqualTo(
            new MetadataDefinition(
                folder.resolve("liste.csv").toString(),
                "Datei",
                Map.of("performer", "Spieler", "style", "Stil (grob)"),
                "semicolon",
                "windows-1252"));
  }

  @Test
  void columnsOfMetadataMayHaveTypes() throws IOException {
    StudyDefinition study =
        StudyDefinition.read(
            file("corpus: solos\nmetadata: {types: {Year: integer, recorded: date}}\n"));

    assertThat(study.metadata().types())
        .containsOnly(
            Map.entry("year", MetadataType.INTEGER), Map.entry("recorded", MetadataType.DATE));
  }

  @Test
  void anUnknownTypeNamesThoseThereAre() throws IOException {
    Path file = file("corpus: solos\nmetadata: {types: {year: int}}\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageEndingWith(
            "the column 'year' under 'types' is 'int'; use one of integer, number, date, text.");
  }

  @Test
  void aColumnWithAMeaningOfItsOwnTakesNoType() throws IOException {
    Path file = file("corpus: solos\nstudent-metadata: {types: {date: text}}\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("the column 'date' under 'types' has a meaning of its own");
  }

  @Test
  void anUnknownDelimiterNamesThoseThereAre() throws IOException {
    Path file = file("corpus: solos\nmetadata: {file: a.csv, delimiter: pipe}\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageEndingWith("'delimiter' is 'pipe'; use one of comma, semicolon, tab.");
  }

  @Test
  void dataAndExpectedResultsAreNamed() throws IOException {
    StudyDefinition study =
        StudyDefinition.read(
            file(
                """
                corpus: solos
                data: {name: Open Solos 2, licence: CC-BY-4.0}
                expected: results.yaml
                """));

    assertThat(study.data()).isEqualTo(new DataSource("Open Solos 2", "CC-BY-4.0", "", ""));
    assertThat(study.expected()).isEqualTo(folder.resolve("results.yaml").toString());
  }

  @Test
  void anUnknownKeyIsNamedWithTheNearestKnownOne() throws IOException {
    Path file = file("corpus: solos\nstudnets: x\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith(
            "Cannot use the study file "
                + file
                + ": unknown key 'studnets'. Did you mean 'students'? Known keys: name, title");
  }

  @Test
  void anUnknownSettingIsNamedWithItsPlace() throws IOException {
    Path file = file("corpus: solos\nsettings: {phrase_rule: silence}\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .hasMessageContaining(
            "unknown key 'phrase_rule' under 'settings'. Did you mean 'phrase-rule'?");
  }

  @Test
  void groupsAreColumnsBandsOfNumbersOrSeveralCrossed() throws IOException {
    Path file =
        file(
            "corpus: solos\nby: [style, {tempo: [0, 120.5, 400]}, [style, {year: [1900, 2000]}],"
                + " style x key]\nreference: style\n");

    StudyDefinition study = StudyDefinition.read(file);

    assertThat(study.by())
        .containsExactly(
            "style", "tempo in 0 120.5 400", "style x year in 1900 2000", "style x key");
    assertThat(study.reference()).isEqualTo("style");
  }

  @Test
  void bandsThatAreNoneAreRefused() throws IOException {
    Path unordered = file("corpus: solos\nby: [{tempo: [0, 180, 120]}]\n");
    assertThatThrownBy(() -> StudyDefinition.read(unordered))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot group by bands of 'tempo': the edges 180 and 120 are not in ascending order.");
    Path words = file("corpus: solos\nby: [{tempo: [slow, fast]}]\n");
    assertThatThrownBy(() -> StudyDefinition.read(words))
        .hasMessage(
            "Cannot group by bands of 'tempo': the edge 'slow' is no number. Write the edges as in"
                + " [0, 120, 180, 400].");
    Path single = file("corpus: solos\nby: [{tempo: 120}]\n");
    assertThatThrownBy(() -> StudyDefinition.read(single))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("'{tempo_qpm: [0, 120, 180, 400]}'");
  }

  @Test
  void brokenYamlIsReportedWithItsLine() throws IOException {
    Path file = file("corpus: solos\nby: [style\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot read the study file " + file + ", line ");
  }

  @Test
  void aMissingFileIsSaidToBeMissing() {
    assertThatThrownBy(() -> StudyDefinition.read(folder.resolve("none.yaml")))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot read the study file " + folder.resolve("none.yaml") + ": no such file.");
  }

  @Test
  void aStudyWithoutCorpusAndStudentsIsRefused() throws IOException {
    Path file = file("name: x\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .hasMessage(
            "Cannot use the study file "
                + file
                + ": it names no corpus. Add a line 'corpus: FOLDER', or 'students: FOLDER' for"
                + " lessons without one.");
  }

  @Test
  void limitsAreNamesWithValues() throws IOException {
    Path file = file("corpus: solos\nsettings: {limits: [file-size]}\n");

    assertThatThrownBy(() -> StudyDefinition.read(file))
        .hasMessage(
            "Cannot use the study file " + file + ": 'limits' must hold 'name: value' lines.");
  }

  @Test
  void recordedSettingsAreReadBack() {
    StudySettings settings =
        new StudySettings(
            "silence",
            Map.of("minimum-beats", "1"),
            false,
            true,
            true,
            true,
            "P2",
            List.of("breath", "silence minimum-beats=2"),
            Map.of("reading-time", "5000"));

    Map<String, String> recorded = settings.recorded(settings.phraseRuleSettings());

    assertThat(recorded).containsEntry("limit.reading-time", "5000");
    assertThat(StudySettings.of(recorded)).isEqualTo(settings);
  }

  @Test
  void aStudyWithPhraseMarksRecordsThemAndItsRuleWhereThereAreNone() {
    StudySettings settings = StudySettings.defaults();

    Map<String, String> recorded = settings.recorded(Map.of("threshold", "0"), "marks.csv", "0a1b");

    assertThat(recorded)
        .containsEntry("phrase-rule", "given")
        .containsEntry("phrase-marks", "marks.csv")
        .containsEntry("phrase-marks-sha256", "0a1b")
        .containsEntry("phrase-rule-without-marks", StudySettings.DEFAULT_PHRASE_RULE)
        .containsEntry("phrase-rule.threshold", "0");
    assertThat(StudySettings.recordsGivenPhrases(recorded)).isTrue();
    assertThat(StudySettings.recordsGivenPhrases(settings.recorded(Map.of()))).isFalse();
    assertThat(StudySettings.of(recorded).phraseRule())
        .isEqualTo(StudySettings.DEFAULT_PHRASE_RULE);
  }

  @Test
  void limitsAtTheirDefaultsAreNotRecorded() {
    assertThat(StudySettings.defaults().recorded(Map.of()).keySet())
        .noneMatch(name -> name.startsWith("limit."));
  }
}
