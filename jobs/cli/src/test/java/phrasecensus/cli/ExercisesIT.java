package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Exercises of a student of the sample study, read back as any score. */
class ExercisesIT {
  private static Path study;

  @TempDir private Path temporary;

  @BeforeAll
  static void makeAStudy() {
    study = SampleStudy.folder();
  }

  private CommandRun exercises(String... options) {
    List<String> all = new ArrayList<>(List.of("exercises", study.toString()));
    all.addAll(List.of(options));
    all.addAll(List.of("--into", temporary.resolve("handout").toString()));
    return CommandRun.of(all.toArray(String[]::new));
  }

  private JsonNode sheet() throws IOException {
    return new ObjectMapper()
        .readTree(
            CommandRun.of(
                    "inspect",
                    temporary.resolve("handout/exercises.musicxml").toString(),
                    "--json",
                    "--phrase-rule",
                    "silence")
                .out());
  }

  @Test
  void theSheetHoldsThePhraseAndWhatIsMadeOfIt() throws IOException {
    CommandRun run = exercises("--student", "Jory Venn");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out())
        .contains("As you played it, bars ", "The same notes as eighths", "in another key");
    long captions = run.out().lines().filter(line -> line.startsWith("  ")).count();
    String page = Files.readString(temporary.resolve("handout/exercises.html"));
    assertThat(page.split("<figure ", -1)).hasSize((int) captions + 1);
    // What is the student's own needs no word about the rights of others.
    assertThat(page).doesNotContain("under copyright");
  }

  /** The first notes of the sheet are those of the phrase in the student's own file. */
  @Test
  void thePhraseIsTheStudents() throws IOException {
    CommandRun run = exercises("--student", "Jory Venn", "--solo", "1", "--phrase", "1");
    Path file =
        SampleCorpus.FOLDER
            .resolve("students")
            .resolve(run.out().lines().findFirst().orElseThrow());
    JsonNode solo =
        new ObjectMapper().readTree(CommandRun.of("inspect", file.toString(), "--json").out());
    JsonNode first = solo.path("phrases").path(0);

    for (int i = first.path("firstNote").asInt(); i <= first.path("lastNote").asInt(); i++) {
      assertThat(sheet().path("notes").path(i).path("midiConcert").asInt())
          .isEqualTo(solo.path("notes").path(i).path("midiConcert").asInt());
    }
  }

  @Test
  void theStudentsPageShowsSomeOfThem() throws IOException {
    String page = Files.readString(study.resolve("report/student-jory-venn.html"));

    assertThat(page).contains("<h2 id=\"exercises-h\">", "Exercises from your own phrase");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "Nobody | | 3 | There is: ",
        "Jory Venn | --solo 99 | 2 | It goes from 1 to ",
        "Jory Venn | --phrase 999 | 2 | It goes from 1 to "
      })
  void whatThereIsNotIsSaid(String student, String option, int exitCode, String said) {
    List<String> options = new ArrayList<>(List.of("--student", student));
    if (option != null) {
      options.addAll(List.of(option.split(" ")));
    }

    CommandRun run = exercises(options.toArray(String[]::new));

    assertThat(run.exitCode()).as(run.err()).isEqualTo(exitCode);
    assertThat(run.err()).contains(said).doesNotContain("Exception");
    assertThat(temporary.resolve("handout")).doesNotExist();
  }
}
