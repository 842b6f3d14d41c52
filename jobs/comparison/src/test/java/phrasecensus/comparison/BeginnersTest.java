package phrasecensus.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.TableRow;

/**
 * The built-in aims on invented beginners' solos, against what a teacher would say of each ({@code
 * ../shared/beginners}, its README says what an empty field allows), and on 220 solos of masters:
 * an aim that masters fail is a wrong aim. The corpus has no say in an answer. Runs where the data
 * lie beside the project.
 */
class BeginnersTest {
  private static final Path SHARED = Path.of(System.getProperty("project.root"), "../shared");
  private static final List<String> QUESTIONS =
      List.of("tonal_centre", "landings", "movement", "phrases");
  private static final Map<String, String> ASKED_BY =
      Map.of(
          "outside_key", "tonal_centre",
          "weak_landings", "landings",
          "long_notes", "movement",
          "no_breath", "phrases",
          "fragments", "phrases");

  @Test
  void saysOfEveryBeginnerWhatATeacherWouldSay() throws IOException {
    Path folder = SHARED.resolve("beginners");
    assumeTrue(Files.exists(folder), "no beginners' solos beside the project");
    Lessons lessons = Lessons.in(folder);
    List<String> wrong = new ArrayList<>();
    int solos = 0;

    for (Map<String, String> truth : table(folder.resolve("truth.csv"))) {
      solos++;
      wrong.addAll(differences(lessons, truth));
    }
    System.out.printf(
        "Beginners: %d of %d solos as the teacher says%n",
        solos - (int) wrong.stream().map(text -> text.split(" ")[0]).distinct().count(), solos);

    assertThat(wrong).isEmpty();
    assertThat(solos).isEqualTo(33);
  }

  /** Where answers differ from what a teacher says; an empty field allows what the README says. */
  private static List<String> differences(Lessons lessons, Map<String, String> truth) {
    String file = truth.get("file");
    Map<String, TableRow> answers = lessons.bySolo().get(file);
    List<String> wrong = new ArrayList<>();
    String first = lessons.first(file);
    if (!first.equals(truth.get("first"))) {
      wrong.add(file + " first " + first + ", should be " + truth.get("first"));
    }
    int decided = QUESTIONS.indexOf(ASKED_BY.getOrDefault(truth.get("first"), "tonal_centre"));
    for (String question : QUESTIONS) {
      String verdict = answers.get(question).text("verdict");
      String said = truth.get(question);
      boolean right =
          said.isEmpty()
              ? QUESTIONS.indexOf(question) > decided
                  || Set.of("met", "not_enough").contains(verdict)
              : verdict.equals(said);
      if (!right) {
        wrong.add(file + " " + question + " " + verdict + ", should be " + said);
      }
    }
    return wrong;
  }

  @Test
  void mastersMeetTheAimsOfBeginners() {
    Path folder = SHARED.resolve("data/solos/xml");
    assumeTrue(Files.exists(folder), "no solos beside the project");
    Map<String, Integer> met = new LinkedHashMap<>();
    Map<String, Integer> told = new LinkedHashMap<>();
    int allMet = 0;
    int solos = 0;

    for (Map<String, TableRow> answers : Lessons.in(folder).bySolo().values()) {
      solos++;
      boolean all = true;
      for (String question : QUESTIONS) {
        String verdict = answers.get(question).text("verdict");
        if (!verdict.equals("not_enough")) {
          told.merge(question, 1, Integer::sum);
          met.merge(question, verdict.equals("met") ? 1 : 0, Integer::sum);
        }
        all &= !verdict.equals("not_yet");
      }
      allMet += all ? 1 : 0;
    }
    System.out.printf("Masters: %s met of %s told, all four %d of %d%n", met, told, allMet, solos);

    for (String question : QUESTIONS) {
      assertThat((double) met.get(question) / told.get(question))
          .as(question)
          .isGreaterThanOrEqualTo(.85);
    }
    assertThat((double) allMet / solos).isGreaterThanOrEqualTo(.72);
  }

  private static List<Map<String, String>> table(Path file) throws IOException {
    List<String> lines = Files.readAllLines(file, StandardCharsets.UTF_8);
    String[] header = lines.get(0).split(",");
    List<Map<String, String>> rows = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      Map<String, String> row = new LinkedHashMap<>();
      for (int i = 0; i < header.length; i++) {
        row.put(header[i], cells[i]);
      }
      rows.add(row);
    }
    return rows;
  }
}
