package phrasecensus.report.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.report.rows.Answer;
import phrasecensus.tables.row.AnswerScope;
import phrasecensus.tables.row.AnswerVerdict;

class CourseTest {
  private static Answer share(double value, int n) {
    return new Answer(
        AnswerScope.SOLO,
        "s",
        "tonal_centre",
        1,
        AnswerVerdict.MET,
        "none",
        "in_key_share",
        value,
        0.7,
        null,
        "notes",
        n,
        null,
        null,
        false);
  }

  private static List<Answer> shares(String hundredths, int n) {
    return Arrays.stream(hundredths.split(" "))
        .map(each -> share(Integer.parseInt(each) / 100.0, n))
        .toList();
  }

  /** The first row is the example that teachers were shown: it has to be called a rise. */
  @ParameterizedTest
  @CsvSource({
    "67 73 100 100 94 100, 100, RISE",
    "100 94 100 100 73 67, 100, FALL",
    "80 82 79 81, 100, OPEN",
    "60 90 60 90, 100, OPEN",
    "40 60 80, 10, OPEN",
    "40 60 80, 100, RISE",
    "50 100, 100, OPEN"
  })
  void aClearWayIsToldAndNoOther(String hundredths, int n, Course course) {
    assertThat(Course.of(shares(hundredths, n))).isEqualTo(course);
  }

  @Test
  void solosThatDoNotTellArePassedOver() {
    List<Answer> answers =
        List.of(
            share(0.4, 100),
            new Answer(
                AnswerScope.SOLO,
                "t",
                "tonal_centre",
                1,
                AnswerVerdict.NOT_ENOUGH,
                "not_enough",
                "in_key_share",
                null,
                0.7,
                null,
                "notes",
                0,
                "no_notes",
                null,
                true),
            share(0.6, 100),
            share(0.9, 100));

    assertThat(Course.of(answers)).isEqualTo(Course.RISE);
  }

  /** Two shares of ten notes may differ by a third without telling anything. */
  @Test
  void aDifferenceThatChanceWouldMakeIsNotClear() {
    assertThat(Course.isClear(share(0.5, 10), share(0.8, 10))).isFalse();
    assertThat(Course.isClear(share(0.5, 100), share(0.8, 100))).isTrue();
    assertThat(Course.isClear(share(0.95, 1000), share(0.98, 1000))).isFalse();
  }
}
