package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class TaskTest {
  private static final List<String> FINDINGS =
      List.of(
          "outside_key",
          "weak_landings",
          "long_notes",
          "no_breath",
          "fragments",
          "none",
          "not_enough",
          "own");

  private static final Map<String, String> IN_G =
      Map.of(
          "home",
          "G",
          "third",
          "B",
          "fifth",
          "D",
          "five",
          "G A B C D",
          "key",
          "G major",
          "click",
          "60");

  static Stream<String> kinds() {
    List<String> kinds = new ArrayList<>();
    for (String finding : FINDINGS) {
      for (int level = Task.FIRST_LEVEL; level <= Task.LAST_LEVEL; level++) {
        kinds.add(finding + "." + level);
      }
    }
    return kinds.stream();
  }

  private static List<Task> tasks(String kind) {
    int dot = kind.indexOf('.');
    return Task.all(kind.substring(0, dot), Integer.parseInt(kind.substring(dot + 1)));
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void everyFindingHasThreeTasksOrMoreOnEveryLevel(String kind) {
    assertThat(tasks(kind)).hasSizeGreaterThanOrEqualTo(3);
    assertThat(new HashSet<>(tasks(kind).stream().map(Task::title).toList()))
        .hasSameSizeAs(tasks(kind));
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void everyTaskSaysWhatOverWhatHowLongAndHowSlowAndHowItWouldShow(String kind) {
    for (Task task : tasks(kind)) {
      assertThat(task.play()).containsPattern("(?i)play|sing|find|write");
      if (!kind.startsWith("not_enough")) {
        assertThat(task.play())
            .as(task.title())
            .containsPattern("over|tune|blues|chord|through|\\{home\\}|of that key|each home");
      }
      assertThat(task.time()).as(task.title()).containsPattern("minutes").contains("{click}");
      assertThat(task.sign()).as(task.title()).startsWith("Next week");
    }
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void aTaskIsShortAndEasyToRead(String kind) {
    for (Task task : tasks(kind)) {
      Task told = task.with(IN_G);
      String text = told.play() + " " + told.time() + " " + told.sign();
      assertThat(ReadingGrade.of(text)).as(text).isLessThanOrEqualTo(6);
      assertThat(ReadingGrade.words(text)).as(text).hasSizeLessThanOrEqualTo(75);
      assertThat(text).doesNotContain("{");
    }
  }

  /** What nobody should be told: the notes for teachers name these. */
  @Test
  void noTaskSaysWhatATeacherWouldNotSay() {
    for (String key : Task.keys()) {
      String text = Task.all(key.split("\\.")[0], Integer.parseInt(key.split("\\.")[1])).toString();
      assertThat(text.toLowerCase(java.util.Locale.ROOT))
          .doesNotContain(
              "wrong note", "play faster", "play less", "play more", "perfect", "talent");
    }
  }

  @Test
  void theSameTaskNeverComesTwiceInARow() {
    for (String finding : FINDINGS) {
      for (int solo = 1; solo < 12; solo++) {
        assertThat(Task.of(finding, 1, solo)).isNotEqualTo(Task.of(finding, 1, solo - 1));
      }
    }
  }

  @Test
  void everyKeyBelongsToATask() {
    Set<String> keys = new HashSet<>();
    kinds()
        .forEach(
            kind -> {
              for (int i = 1; i <= tasks(kind).size(); i++) {
                for (String part : List.of("title", "play", "time", "sign")) {
                  keys.add(kind + "." + i + "." + part);
                }
              }
            });
    assertThat(Task.keys()).containsExactlyInAnyOrderElementsOf(keys);
  }

  @Test
  void aFindingWithoutTasksIsAFault() {
    assertThatThrownBy(() -> Task.all("no_such", 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot find a task for: no_such.1.");
  }
}
