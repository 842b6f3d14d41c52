package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.Manifest;
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

  @Test
  void anExportKeepsWhatLooksLikeAFormulaFromBeingOne() throws IOException {
    Path export = shared.resolve("export");

    CommandRun exported = CommandRun.of("export", study.toString(), "--into", export.toString());

    assertThat(exported.exitCode()).as(exported.err()).isEqualTo(ExitCode.DONE);
    assertThat(Files.readString(export.resolve("csv/solos.csv"))).contains(",'=1+1,", ",kühl");
  }
}
