package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.MetadataType;
import phrasecensus.tables.TableRow;

/** Metadata as people have them: a list of a German spreadsheet, saved for Windows. */
class MetadataIT {
  @TempDir private static Path shared;
  private static List<String> files;
  private static CommandRun run;
  private static Path study;

  @BeforeAll
  static void study() throws IOException {
    Path corpus = SampleCorpus.firstSolos(shared.resolve("corpus"), 7);
    Files.delete(corpus.resolve("solos.csv"));
    try (Stream<Path> scores = Files.list(corpus)) {
      files = scores.map(score -> score.getFileName().toString()).sorted().toList();
    }
    StringBuilder list = new StringBuilder("Datei;Spieler;Stil;Notiz\r\n");
    for (String file : files.subList(0, 6)) {
      list.append(file).append(";Zoë;kühl;=1+1\r\n");
    }
    list.append("verloren.xml;Zoë;kühl;\r\n");
    Files.write(
        shared.resolve("liste.csv"), list.toString().getBytes(Charset.forName("windows-1252")));
    Path file =
        Files.writeString(
            shared.resolve("study.yaml"),
            """
            corpus: corpus
            metadata: {file: liste.csv, key: Datei, columns: {performer: Spieler, style: Stil}}
            by: [style]
            """);
    study = shared.resolve("study");
    run = CommandRun.of("study", file.toString(), "--into", study.toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
  }

  @Test
  void mappedColumnsFillTheTableUnderTheStudysNames() {
    try (StudyFolder folder = StudyFolder.finished(study.toString(), StudyFolder.configuration())) {
      List<TableRow> solos = folder.source().rows("solos");

      assertThat(solos).hasSize(7);
      assertThat(solos.subList(0, 6))
          .allSatisfy(
              solo -> {
                assertThat(solo.text("performer")).isEqualTo("Zoë");
                assertThat(solo.text("style")).isEqualTo("kühl");
                assertThat(solo.text("notiz")).isEqualTo("=1+1");
              });
      assertThat(folder.source().rows("norms", Map.of("group_by", "style", "group_value", "kühl")))
          .isNotEmpty()
          .allMatch(norm -> norm.integer("n") + norm.integer("undefined") == 6);
    }
  }

  @Test
  void whatWasGuessedAndWhatDoesNotMatchIsSaid() {
    List<String> said = new ArrayList<>(run.complaints());

    assertThat(said)
        .containsExactlyInAnyOrder(
            "The metadata file "
                + shared.resolve("liste.csv")
                + " is not UTF-8; it was read as"
                + " Windows-1252.",
            "Rows of the metadata file liste.csv without a file, 1 of 7: verloren.xml.",
            "Files of the corpus without a row in the metadata file liste.csv, 1 of 7: "
                + files.get(6)
                + ".");
  }

  @Test
  void theManifestListsThemAll() throws IOException {
    Manifest manifest =
        Manifest.parse("manifest.json", Files.readAllBytes(study.resolve("manifest.json")));

    assertThat(manifest.metadata())
        .singleElement()
        .satisfies(
            metadata -> {
              assertThat(metadata.columns())
                  .containsExactly(Map.entry("performer", "Spieler"), Map.entry("style", "Stil"));
              assertThat(metadata.rowsWithoutFile()).containsExactly("verloren.xml");
              assertThat(metadata.filesWithoutRow()).containsExactly(files.get(6));
            });
  }

  @Test
  void aStudyOfOneFolderReadsNoOther() throws IOException {
    Path corpus = SampleCorpus.firstSolos(shared.resolve("folders"), 4);
    Files.createDirectories(corpus.resolve("early"));
    for (String score : files.subList(0, 3)) {
      Files.move(corpus.resolve(score), corpus.resolve("early").resolve(score));
    }
    Path into = shared.resolve("early-study");

    CommandRun chosen =
        CommandRun.of(
            "study",
            corpus.toString(),
            "--only",
            "folder=early",
            "--by",
            "folder",
            "--into",
            into.toString());

    assertThat(chosen.exitCode()).as(chosen.err()).isEqualTo(ExitCode.DONE);
    assertThat(chosen.complaints())
        .contains("Of 4 files of the corpus 3 are studied, as the study asks (folder: early).");
    try (StudyFolder folder = StudyFolder.finished(into.toString(), StudyFolder.configuration())) {
      assertThat(folder.source().rows("solos"))
          .hasSize(3)
          .allMatch(solo -> solo.text("folder").equals("early"));
      assertThat(folder.manifest().settings()).containsEntry("only", "{\"folder\":[\"early\"]}");
    }
  }

  /** Four solos: a year that is none, days, takes with a half, and numbers that are codes. */
  private static Path typedStudy(String name, String types) throws IOException {
    Path folder = Files.createDirectories(shared.resolve(name));
    Path corpus = folder.resolve("corpus");
    if (!Files.exists(corpus)) {
      SampleCorpus.firstSolos(corpus, 4);
      Files.writeString(
          corpus.resolve("solos.csv"),
          "file,year,recorded,take,matrix\n"
              + String.join(",", files.get(0), "1958", "1958-03-02", "1", "007\n")
              + String.join(",", files.get(1), "ca. 1960", "1960-02-29", "2.5", "012\n")
              + String.join(",", files.get(2), "", "1961-01-01", "2", "100\n")
              + String.join(",", files.get(3), "1961", "1961-01-02", "10", "101\n"));
    }
    return Files.writeString(
        folder.resolve("study.yaml"),
        "corpus: corpus\nmetadata: {types: {" + types + "}}\nby: [year, {take: [0, 2, 20]}]\n");
  }

  private static CommandRun run(Path file, Path into) {
    CommandRun run = CommandRun.of("study", file.toString(), "--into", into.toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    return run;
  }

  private static List<Object> column(Path into, String column) {
    try (StudyFolder folder = StudyFolder.finished(into.toString(), StudyFolder.configuration())) {
      return folder.source().rows("solos").stream().map(solo -> solo.value(column)).toList();
    }
  }

  @Test
  void columnsHaveTheTypesThatAreDeclaredOrThatAllTheirCellsHave() throws IOException {
    Path into = shared.resolve("typed-study");

    CommandRun told = run(typedStudy("typed", "year: integer"), into);

    assertThat(column(into, "year")).containsExactly(1958L, null, null, 1961L);
    assertThat(column(into, "recorded"))
        .containsExactly(
            LocalDate.of(1958, 3, 2),
            LocalDate.of(1960, 2, 29),
            LocalDate.of(1961, 1, 1),
            LocalDate.of(1961, 1, 2));
    assertThat(column(into, "take")).containsExactly(1.0, 2.5, 2.0, 10.0);
    assertThat(column(into, "matrix")).containsExactly("007", "012", "100", "101");
    assertThat(told.complaints())
        .contains(
            "Cells of the metadata file solos.csv that are empty in the tables, because column"
                + " 'year' is of type integer, 1: row 3 'ca. 1960'. Write each as a whole number"
                + " such as 1958, or declare the column as text in the study file.");
    Manifest.MetadataFile recorded =
        Manifest.parse("manifest.json", Files.readAllBytes(into.resolve("manifest.json")))
            .metadata()
            .get(0);
    assertThat(recorded.types())
        .containsOnly(
            Map.entry("year", MetadataType.INTEGER),
            Map.entry("recorded", MetadataType.DATE),
            Map.entry("take", MetadataType.NUMBER),
            Map.entry("matrix", MetadataType.TEXT));
    assertThat(recorded.declaredTypes()).containsExactly("year");
    assertThat(recorded.emptiedCells())
        .containsExactly(new Manifest.EmptiedCell(3, "year", "ca. 1960"));
  }

  @Test
  void solosAreGroupedByNumbersAsByWords() throws IOException {
    Path into = shared.resolve("grouped-study");

    run(typedStudy("grouped", "year: integer"), into);

    try (StudyFolder folder = StudyFolder.finished(into.toString(), StudyFolder.configuration())) {
      assertThat(folder.source().rows("norms").stream().map(norm -> norm.text("group_value")))
          .contains("1958", "1961", "(none)", "0 to below 2", "2 to 20");
    }
  }

  @Test
  void aRerunWithAnotherTypeIsThatOfAFreshRun() throws IOException {
    Path into = shared.resolve("retyped-study");
    run(typedStudy("retyped", "year: integer"), into);
    Path changed = typedStudy("retyped", "year: text, matrix: integer");
    Path fresh = shared.resolve("retyped-study-fresh");

    run(changed, into);
    run(changed, fresh);

    assertThat(column(into, "year")).containsExactly("1958", "ca. 1960", null, "1961");
    assertThat(column(into, "matrix")).containsExactly(7L, 12L, 100L, 101L);
    assertThat(Files.readString(into.resolve("manifest.json")))
        .isEqualTo(Files.readString(fresh.resolve("manifest.json")));
  }

  /** The year that is none is no year, and a day lies in its year. */
  @Test
  void solosAreChosenByYearsAndDays() throws IOException {
    Path into = shared.resolve("chosen-study");
    Path file = typedStudy("chosen", "year: integer");
    Files.writeString(
        file,
        Files.readString(file)
            + "only: {year: {from: 1950, to: 1970}, recorded: {from: 1959, to: 1961}}\n");

    CommandRun told = run(file, into);

    assertThat(column(into, "file")).containsExactly(files.get(3));
    assertThat(told.complaints())
        .contains(
            "Of 4 files of the corpus 1 is studied, as the study asks (recorded: 1959 to 1961;"
                + " year: 1950 to 1970).");
  }

  @Test
  void aTypeOfAColumnThatIsNotThereIsRefused() throws IOException {
    Path file = typedStudy("misnamed", "yaer: integer");

    CommandRun refused =
        CommandRun.of("study", file.toString(), "--into", shared.resolve("no").toString());

    assertThat(refused.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(refused.err())
        .contains(
            "Cannot use the types of the metadata: there is no column 'yaer'. Did you mean 'year'?"
                + " Columns: matrix, recorded, take, year.");
  }

  @Test
  void anExportKeepsWhatLooksLikeAFormulaFromBeingOne() throws IOException {
    Path export = shared.resolve("export");

    CommandRun exported = CommandRun.of("export", study.toString(), "--into", export.toString());

    assertThat(exported.exitCode()).as(exported.err()).isEqualTo(ExitCode.DONE);
    assertThat(Files.readString(export.resolve("csv/solos.csv"))).contains(",'=1+1,", ",kühl");
  }
}
