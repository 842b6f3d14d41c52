package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The command that holds phrase rules against human marks. */
class ScorePhrasesIT {
  private static final Path ROOT = Path.of(System.getProperty("project.root"));

  @TempDir private Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... arguments) {
    return Main.run(new PrintWriter(out, true), new PrintWriter(err, true), arguments);
  }

  private String score() throws IOException {
    Path score;
    try (var files = Files.list(ROOT.resolve("sample-corpus/corpus"))) {
      score =
          files.filter(f -> f.toString().endsWith(".musicxml")).sorted().findFirst().orElseThrow();
    }
    Files.copy(score, folder.resolve("solo.musicxml"));
    return folder.resolve("solo.musicxml").toString();
  }

  @Test
  void marksThatAreTheRulesOwnAgreeWholly() throws IOException {
    assertThat(run("inspect", "--json", score())).isZero();
    JsonNode read = new ObjectMapper().readTree(out.toString());
    StringBuilder marks = new StringBuilder("file,note_index\n");
    for (JsonNode phrase : read.path("phrases")) {
      marks.append("solo,").append(phrase.path("firstNote").asInt()).append('\n');
    }
    Files.writeString(folder.resolve("marks.csv"), marks);
    out.getBuffer().setLength(0);

    int exit =
        run("score-phrases", folder.toString(), "--marks", folder.resolve("marks.csv").toString());

    assertThat(exit).isZero();
    assertThat(out.toString())
        .containsPattern(
            "inner boundaries only, exact, mean over scores +1\\.000 +1\\.000 +1\\.000 +1\\.000");
  }

  /** A rule that finds nothing, counted by hand: two inner marks, three with the first note. */
  @Test
  void theTableHasEveryScoreUnderEveryConvention() throws IOException {
    score();
    String marks = "file,note_index\nsolo,0\nsolo,7\nsolo,9\n";
    Path table = folder.resolve("agreement.csv");

    int exit =
        run(
            "score-phrases",
            folder.toString(),
            "--marks",
            Files.writeString(folder.resolve("marks.csv"), marks).toString(),
            "--phrase-rule",
            "silence",
            "--phrase-rule-setting",
            "minimum-beats=100",
            "--table",
            table.toString());

    assertThat(exit).as(err.toString()).isZero();
    assertThat(Files.readAllLines(table))
        .hasSize(7)
        .startsWith(
            "file,first_note,tolerance,marked,found,matched,places,precision,recall,f1,kappa")
        .anyMatch(line -> line.matches("solo.musicxml,not-counted,exact,2,0,0,\\d+,0,0,0,0"))
        .anyMatch(
            line ->
                line.matches(
                    "solo.musicxml,counted,half-a-beat,3,1,1,\\d+,1,0\\.333\\d+,0\\.5,0\\..*"));
  }

  @Test
  void marksBeyondALineLeaveOutThatScoreAlone() throws IOException {
    score();
    Files.copy(folder.resolve("solo.musicxml"), folder.resolve("other.musicxml"));
    Path marks =
        Files.writeString(
            folder.resolve("marks.csv"), "file,note_index\nsolo,0\nsolo,7\nother,99999\n");

    int exit = run("score-phrases", folder.toString(), "--marks", marks.toString());

    assertThat(exit).isZero();
    assertThat(out.toString()).contains(", 1 scores");
    assertThat(err.toString())
        .contains("Cannot score the phrases of other.musicxml: the marks name note 99999, ");
  }

  @Test
  void furtherPeopleAreHeldAgainstEachOther() throws IOException {
    score();
    Path one = Files.writeString(folder.resolve("one.csv"), "file,note_index\nsolo,0\nsolo,7\n");
    Path two = Files.writeString(folder.resolve("two.csv"), "file,note_index\nsolo,0\nsolo,7\n");

    int exit =
        run(
            "score-phrases",
            folder.toString(),
            "--marks",
            one.toString(),
            "--more-marks",
            two.toString());

    assertThat(exit).isZero();
    assertThat(out.toString())
        .containsPattern("the rule and the marks +-?\\d\\.\\d{3}")
        .containsPattern("2 people +1\\.000")
        .containsPattern("2 people and the rule +-?\\d\\.\\d{3}");
  }

  @Test
  void aMissingColumnIsNamed() throws IOException {
    score();
    Path marks = Files.writeString(folder.resolve("marks.csv"), "file,start\nsolo,0\n");

    int exit = run("score-phrases", folder.toString(), "--marks", marks.toString());

    assertThat(exit).isEqualTo(ExitCode.INPUT);
    assertThat(err.toString().strip())
        .isEqualTo(
            "Cannot use the phrase marks "
                + marks
                + ": there is no column 'note_index'. Its columns: file, start.");
  }

  @Test
  void marksOfOtherScoresAreSaidToBeSo() throws IOException {
    score();
    Path marks = Files.writeString(folder.resolve("marks.csv"), "file,note_index\nother,0\n");

    int exit = run("score-phrases", folder.toString(), "--marks", marks.toString());

    assertThat(exit).isEqualTo(ExitCode.INPUT);
    assertThat(err.toString())
        .contains("No phrase marks for solo.musicxml")
        .contains("--marks-key");
  }

  /**
   * Figures of the first two rules: made independently by the bench of the data set
   * (data/solos/baselines.txt: gap >= 3/4, first note not counted; LBDM k=0.20).
   */
  @ParameterizedTest
  @CsvSource({"silence, 0.889 +0.834 +0.829", "boundary-strength, 0.795 +0.796 +0.767"})
  void publishedRulesGiveTheFiguresOfTheBench(String rule, String figures) {
    Path solos = ROOT.resolve("../shared/data/solos").normalize();
    assumeThat(solos).as("the development solos are not beside the checkout").isDirectory();

    run(
        "score-phrases",
        solos.resolve("xml").toString(),
        "--marks",
        solos.resolve("phrases.csv").toString(),
        "--marks-key",
        "song",
        "--phrase-rule",
        rule);

    assertThat(out.toString())
        .containsPattern("inner boundaries only, exact, mean over scores +" + figures.strip());
  }
}
