package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Classes by the definition of Huron (1996); Parsons code by that of Parsons (1975). */
class ContourTest {
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "60 64 67, ascending",
    "67 64 60, descending",
    "60 67 62, convex",
    "67 60 65, concave",
    "60 64 64, ascending-horizontal",
    "67 64 64, descending-horizontal",
    "60 60 64, horizontal-ascending",
    "60 60 57, horizontal-descending",
    "60 60 60, horizontal",
    "60 58 62 60, horizontal"
  })
  void firstMeanAndLastTellTheClass(String pitches, String expected) {
    assertThat(Contour.huronClass(numbers(pitches)).word()).isEqualTo(expected);
  }

  /** The mean 60.33 lies above 60 although it rounds to it. */
  @Test
  void meanOfTheInnerPitchesIsNotRounded() {
    assertThat(Contour.huronClass(60, 60, 60, 61, 60)).isEqualTo(Contour.Shape.CONVEX);
  }

  @Test
  void twoNotesHaveNoContour() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Contour.huronClass(60, 62))
        .withMessage("Cannot classify a contour: 2 pitches, at least 3 needed");
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "60 62 64 65 67 72 71 69 67 64, *uuuuudddd",
    "60 60 67 67 69 69 67, *rururd",
    "60, *"
  })
  void parsonsCodeTellsDirections(String pitches, String expected) {
    assertThat(Contour.parsons(numbers(pitches))).isEqualTo(expected);
  }

  @Test
  void parsonsCodeOfNothingIsEmpty() {
    assertThat(Contour.parsons()).isEmpty();
  }

  private static int[] numbers(String text) {
    return Arrays.stream(text.split(" ")).mapToInt(Integer::parseInt).toArray();
  }
}
