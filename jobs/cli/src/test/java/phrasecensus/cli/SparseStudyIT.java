package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * Corpora that lack what comparison would like to know: tempos, other players, players' names, or
 * anything in which solos differ. Each study must end well, with words and no number that is none,
 * in tables, pages and export.
 */
class SparseStudyIT {
  private static final Path CORPUS = SampleCorpus.FOLDER.resolve("corpus");
  private static final Path STUDENT = SampleCorpus.FOLDER.resolve("students/hester-loom");

  @TempDir private Path temporary;

  private static List<Path> scores(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith(".musicxml")).sorted().toList();
    }
  }

  private static String withoutTempo(String score) {
    return score
        .replaceAll("(?s)<metronome.*?</metronome>", "<words>walking</words>")
        .replaceAll("<sound tempo=\"[^\"]*\"\\s*/>", "")
        .replaceAll(" tempo=\"[^\"]*\"", "");
  }

  private static String atTempo(String score, int tempo) {
    return score
        .replaceAll("<per-minute>[^<]*</per-minute>", "<per-minute>" + tempo + "</per-minute>")
        .replaceAll(" tempo=\"[^\"]*\"", " tempo=\"" + tempo + "\"");
  }

  /**
   * Makes a study of the first 24 solos of the sample corpus in two groups.
   *
   * @param score what becomes of the i-th score
   * @param player of the i-th solo
   * @param students solos of the one student, each given twice as often as there are, until so many
   * @param name of the student
   */
  private CommandRun study(
      IntFunction<UnaryOperator<String>> score,
      IntFunction<String> player,
      String name,
      int students)
      throws IOException {
    Path corpus = Files.createDirectories(temporary.resolve("corpus"));
    StringBuilder metadata = new StringBuilder("file,performer,style\n");
    List<Path> scores = scores(CORPUS).subList(0, 24);
    for (int i = 0; i < scores.size(); i++) {
      String file = String.format("solo-%02d.musicxml", i);
      Files.writeString(
          corpus.resolve(file), score.apply(i).apply(Files.readString(scores.get(i))));
      metadata
          .append(file)
          .append(',')
          .append(player.apply(i))
          .append(i % 2 == 0 ? ",even\n" : ",odd\n");
    }
    Files.writeString(corpus.resolve("solos.csv"), metadata);
    Path own = Files.createDirectories(temporary.resolve("students").resolve(name));
    StringBuilder styles = new StringBuilder("file,style\n");
    List<Path> given = scores(STUDENT);
    for (int i = 0; i < students; i++) {
      String file = String.format("solo-%02d.musicxml", i);
      // A comment more, so that no two files are the same.
      Files.writeString(
          own.resolve(file), Files.readString(given.get(i % given.size())) + "<!-- " + i + " -->");
      styles.append(name).append('/').append(file).append(",even\n");
    }
    Files.writeString(temporary.resolve("students/solos.csv"), styles);
    CommandRun run =
        CommandRun.of(
            "study",
            corpus.toString(),
            "--students",
            temporary.resolve("students").toString(),
            "--by",
            "style",
            "--into",
            temporary.resolve("study").toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out() + run.err()).doesNotContainPattern("NaN|Infinity|Exception");
    return run;
  }

  private CommandRun study(IntFunction<UnaryOperator<String>> score, IntFunction<String> player)
      throws IOException {
    return study(score, player, "hester-loom", 3);
  }

  private List<TableRow> rows(String table) {
    try (StudyFolder folder =
        StudyFolder.finished(temporary.resolve("study").toString(), StudyFolder.configuration())) {
      return folder.source().rows(table);
    }
  }

  private List<TableRow> reference() {
    return rows("departures").stream()
        .filter(row -> row.flag("reference") && row.text("scope").equals("pooled"))
        .toList();
  }

  private String page(String name) throws IOException {
    return SampleStudy.withoutScripts(
            Files.readString(temporary.resolve("study/report").resolve(name)))
        .replaceAll("<[^>]+>", " ")
        .replaceAll("[\\s\u00a0]+", " ");
  }

  /** No table, page or exported file shows what is no number. */
  private void requireNumbers() throws IOException {
    List<String> tables = new ArrayList<>(TableSchemas.OF_READING);
    tables.addAll(TableSchemas.OF_STUDY);
    for (String table : tables) {
      for (TableRow row : rows(table)) {
        for (int i = 0; i < row.schema().columns().size(); i++) {
          if (row.value(i) instanceof Double number) {
            assertThat(number).as("%s: %s", table, row).isFinite();
          }
        }
      }
    }
    Path export = temporary.resolve("export");
    assertThat(
            CommandRun.of(
                    "export", temporary.resolve("study").toString(), "--into", export.toString())
                .exitCode())
        .isEqualTo(ExitCode.DONE);
    List<Path> written = new ArrayList<>();
    for (Path folder : List.of(temporary.resolve("study/report"), export.resolve("csv"))) {
      try (Stream<Path> files = Files.list(folder)) {
        files
            .filter(file -> file.toString().matches(".*\\.(html|csv)"))
            .filter(file -> !file.endsWith("statistics.csv"))
            .forEach(written::add);
      }
    }
    assertThat(written).hasSizeGreaterThan(30);
    for (Path file : written) {
      assertThat(SampleStudy.withoutScripts(Files.readString(file)))
          .as(file.toString())
          .doesNotContainPattern("\\bNaN\\b|\\bInfinity\\b|\\bnull\\b");
    }
  }

  @Test
  void whereHalfTheTemposAreMissingTempoIsTakenOutAllTheSame() throws IOException {
    study(i -> i % 4 < 2 ? SparseStudyIT::withoutTempo : each -> each, i -> "player " + i % 6);

    assertThat(rows("solos").stream().filter(row -> row.isMissing("tempo_qpm"))).hasSize(12);
    assertThat(reference())
        .filteredOn(row -> row.integer("solos") > 0)
        .isNotEmpty()
        .allMatch(row -> row.flag("tempo_taken_out"));
    requireNumbers();
  }

  @Test
  void withoutAnyTempoItIsLeftInAndSaid() throws IOException {
    study(i -> SparseStudyIT::withoutTempo, i -> "player " + i % 6);

    assertThat(reference()).isNotEmpty().noneMatch(row -> row.flag("tempo_taken_out"));
    assertThat(page("student-hester-loom.html")).containsIgnoringCase("tempo");
    requireNumbers();
  }

  @Test
  void solosOfOneTempoAreCompared() throws IOException {
    study(i -> each -> atTempo(each, 120), i -> "player " + i % 6);

    assertThat(reference()).anyMatch(row -> !row.isMissing("p_value"));
    requireNumbers();
  }

  @Test
  void solosOfOnePlayerAreSaidToBeThatPlayers() throws IOException {
    study(i -> each -> each, i -> "Ada Reed");

    assertThat(reference())
        .filteredOn(row -> row.integer("norm_n") > 0)
        .isNotEmpty()
        .allMatch(row -> row.flag("one_player"));
    assertThat(page("student-hester-loom.html")).contains("Further solos of the same player");
    requireNumbers();
  }

  @Test
  void solosWithoutAPlayersNameCountOneByOneAndItIsSaid() throws IOException {
    study(i -> each -> each.replaceAll("(?s)<creator.*?</creator>", ""), i -> "");

    assertThat(reference())
        .filteredOn(row -> row.integer("norm_n") > 0)
        .isNotEmpty()
        .allMatch(row -> row.integer("norm_players") == row.integer("norm_n"))
        .allMatch(row -> row.integer("norm_unnamed") == row.integer("norm_n"));
    assertThat(rows("contrasts"))
        .filteredOn(row -> !row.isMissing("unnamed_solos"))
        .isNotEmpty()
        .allMatch(row -> row.integer("first_players") == row.integer("first_n"))
        .allMatch(row -> row.text("dealt").equals("players"));
    assertThat(page("student-hester-loom.html"))
        .contains("12 of its solos name no player. Each counts as a player of its own");
    requireNumbers();
  }

  @Test
  void aStudentWhoIsAPlayerOfTheCorpusIsComparedWithTheOthers() throws IOException {
    study(i -> each -> each, i -> i < 4 ? "Hester Loom" : "player " + i % 5, "Hester Loom", 3);

    assertThat(reference())
        .filteredOn(row -> row.integer("norm_n") > 0)
        .isNotEmpty()
        .allMatch(row -> row.integer("left_out_as_player") == 4)
        .allMatch(row -> row.integer("norm_n") <= 20);
    requireNumbers();
  }

  @Test
  void aStudentMayHaveFortySolos() throws IOException {
    study(i -> each -> each, i -> "player " + i % 6, "hester-loom", 40);

    assertThat(reference()).anyMatch(row -> row.integer("solos") == 40);
    assertThat(page("student-hester-loom.html")).contains("40 solos with");
    requireNumbers();
  }

  @Test
  void aStatisticThatIsConstantIsSaidToBe() throws IOException {
    String same = Files.readString(SampleCorpus.A_SOLO);
    study(i -> each -> same, i -> "player " + i % 6);

    assertThat(reference())
        .isNotEmpty()
        .allMatch(row -> row.isMissing("p_value"))
        .anyMatch(row -> row.text("verdict").equals("constant"));
    assertThat(rows("contrasts")).isNotEmpty().allMatch(row -> row.isMissing("p_value"));
    assertThat(page("index.html")).contains("All these solos have the same value");
    requireNumbers();
  }

  private static String onOnePitch(String score) {
    return score.replaceAll(
        "(?s)<pitch>.*?</pitch>", "<pitch><step>C</step><octave>4</octave></pitch>");
  }

  /** On one pitch all intervals are repetitions, and rhythm is as it was. */
  @Test
  void oneConstantStatisticAmongOthersIsSaidToBeAndTheOthersAreCompared() throws IOException {
    study(i -> SparseStudyIT::onOnePitch, i -> "player " + i % 6);

    assertThat(reference())
        .filteredOn(
            row -> List.of("repetition_share", "step_share").contains(row.text("statistic")))
        .hasSize(2)
        .allMatch(row -> row.text("verdict").equals("constant") && row.isMissing("p_value"));
    assertThat(reference())
        .filteredOn(row -> row.text("statistic").equals("notes_per_bar"))
        .hasSize(1)
        .noneMatch(row -> row.isMissing("p_value"));
    assertThat(rows("contrasts"))
        .filteredOn(row -> row.text("statistic").equals("repetition_share"))
        .hasSize(1)
        .allMatch(row -> row.isMissing("p_value"));
    requireNumbers();
  }
}
