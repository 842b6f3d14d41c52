package phrasecensus.report.engraving;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/** How rhythms are written down: common practice, no source. */
class NotationTest {
  private static final String[] LETTERS = {"w", "h", "q", "e", "s", "t", "x"};

  /**
   * The signs of every bar: letter, dot, ~ for a tie on, r for a rest, [n for a tuplet, outermost
   * first.
   */
  private static String written(SoloLine solo) {
    return Notation.of(solo).stream()
        .map(
            bar -> bar.signs().stream().map(NotationTest::written).collect(Collectors.joining(" ")))
        .collect(Collectors.joining(" | "));
  }

  private static String written(WrittenBar.Sign sign) {
    String value =
        sign.value() == null
            ? "bar"
            : LETTERS[sign.value().halvings()] + ".".repeat(sign.value().dots());
    return (sign.isRest() ? "r" : "")
        + value
        + sign.tuplets().stream().map(t -> "[" + t.count()).collect(Collectors.joining())
        + (sign.tied() ? "~" : "");
  }

  @ParameterizedTest(name = "{0}: {1} is written {2}")
  @CsvSource(
      delimiter = ';',
      value = {
        "4/4; C5 4; w",
        "4/4; C5 1/2, C5 1, C5 1/2, C5 2; e q e h",
        "4/4; C5 3/2, C5 1, C5 3/2; q. e~ e q.",
        "4/4; C5 1, C5 2, C5 1; q h q",
        "4/4; C5 1, C5 3; q h.",
        "4/4; C5 3, C5 1; h. q",
        "4/4; C5 5/2, C5 3/2; h~ e q.",
        "4/4; C5 1/2, C5 7/2; e q.~ h",
        "4/4; C5 3, C5 2, C5 3; h. q~ | q h.",
        "4/4; C5 1, - 2, C5 1; q rq rq q",
        "4/4; C5 1/8, D5 3/16, E5 3/16, C5 7/2; t t. t. q.~ h",
        "4/4; C5 1/8, D5 3/8, E5 1/4, F5 1/4, C5 3; t s. s s h.",
        "4/4; C5 3/8, D5 1/4, E5 3/8, C5 3; s. t~ t s. h.",
        "4/4; C5 1/2, - 3/2, - 2; e re rq rh",
        "4/4; - 4, C5 4; rbar | w",
        "4/4; C5 1/3, D5 1/3, E5 1/3, C5 3; e[3 e[3 e[3 h.",
        "4/4; C5 2/3, D5 1/3, C5 3; q[3 e[3 h.",
        "4/4; C5 2/3, D5 2/3, E5 2/3, C5 2; q[3 q[3 q[3 h",
        "4/4; C5 1/3, D5 2/3, C5 3; e[3 q[3 h.",
        "4/4; C5 2/3, D5 4/3, C5 2; q[3 e[3~ q h",
        "4/4; C5 1/5, D5 1/5, E5 1/5, F5 1/5, G5 1/5, C5 3; s[5 s[5 s[5 s[5 s[5 h.",
        "4/4; C5 3/4, D5 1/4, C5 3; e. s h.",
        "4/4; C5 1/6, D5 1/6, E5 1/6, F5 1/2, C5 3; s[3 s[3 s[3 e h.",
        "4/4; F5 1/2, C5 1/6, D5 1/6, E5 1/6, C5 3; e s[3 s[3 s[3 h.",
        "4/4; C5 1/6, D5 1/6, E5 1/6, F5 1/6, G5 1/6, A5 1/6, C5 3; s[3 s[3 s[3 s[3 s[3 s[3 h.",
        "3/4; C5 3; h.",
        "3/4; C5 2, C5 1; h q",
        "3/4; C5 1, C5 2; q h",
        "3/4; C5 3/2, C5 3/2; q. q.",
        "3/4; C5 3/2, C5 1/2, C5 1; q. e q",
        "3/4; C5 1/2, C5 3/2, C5 1; e q. q",
        "3/4; C5 1, - 2; q rq rq",
        "6/8; C5 3/2, C5 1, C5 1/2; q. q e",
        "6/8; C5 1, C5 1, C5 1; q e~ e q",
        "6/8; C5 3; h.",
        "5/4; C5 2, C5 3; h h.",
        "4/4; C5 1/3, C5 1/3, C5 1/9, D5 1/9, E5 1/9, C5 3; e[3 e[3 s[3[3 s[3[3 s[3[3 h.",
        "6/8; C5 3/10, C5 3/10, C5 3/10, C5 3/10, C5 3/10, C5 3/2; e[5 e[5 e[5 e[5 e[5 q."
      })
  void rhythmsAreWrittenAsPlayersExpect(String metre, String line, String expected) {
    assertThat(written(LineBuilder.solo(metre, Fraction.ZERO, line))).isEqualTo(expected);
  }

  @Test
  void aPickupKeepsToTheBeatsOfTheFullBar() {
    assertThat(written(LineBuilder.solo("4/4", Fraction.of(3, 2), "C5 1/2, C5 1, C5 4")))
        .isEqualTo("e q | w");
  }

  /** A bar of a thousand million quarter notes would be parted into whole notes for hours. */
  @Test
  @Timeout(value = 10, unit = TimeUnit.SECONDS)
  void aBarThatIsTooLongIsNotDrawn() {
    SoloLine usual = LineBuilder.solo("4/4", Fraction.ZERO, "C5 4");
    SoloLine solo =
        new SoloLine(
            List.of(
                new SoloLine.BarSpan(
                    0,
                    "7",
                    Fraction.ZERO,
                    Fraction.of(1_000_000_007),
                    "4/4",
                    Fraction.ZERO,
                    false,
                    null)),
            List.of(),
            usual.notes(),
            List.of(),
            List.of());

    assertThatThrownBy(() -> Notation.of(solo))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Bar 7 is too long to be drawn: it has more than 1000 beats.");
  }

  @Test
  void aRhythmThatIsNotDrawnSaysWhere() {
    SoloLine solo = LineBuilder.solo("4/4", Fraction.ZERO, "C5 1/37, C5 36/37, C5 3");

    assertThatThrownBy(() -> Notation.of(solo))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Bar 1 has a rhythm of 37 in a beat, which is not drawn.");
  }

  /** Whatever is played, its signs fill the bar and last as long as it does. */
  @Test
  void signsFillEveryBarExactly() {
    Random dice = new Random(17);
    int bars = 0;
    String[] lengths = {"1/4", "1/2", "1/2", "1", "3/2", "2", "3", "3/4", "9/4", "7/2", "5"};
    for (int i = 0; i < 400; i++) {
      StringBuilder line = new StringBuilder();
      for (int k = 0; k < 24; k++) {
        String pitch = dice.nextInt(5) == 0 ? "-" : "C5";
        if (dice.nextInt(6) == 0) {
          line.append("C5 1/3, D5 1/3, E5 1/3, ");
        } else {
          line.append(pitch).append(' ').append(lengths[dice.nextInt(lengths.length)]).append(", ");
        }
      }
      String metre = List.of("4/4", "3/4", "6/8", "5/4", "2/2").get(dice.nextInt(5));
      SoloLine solo = LineBuilder.solo(metre, Fraction.ZERO, line.append("C5 1").toString());

      for (WrittenBar bar : fillable(solo)) {
        bars++;
        Fraction reached = bar.bar().exactOnset();
        for (WrittenBar.Sign sign : bar.signs()) {
          assertThat(sign.onset()).as("case %d, %s: %s", i, metre, line).isEqualTo(reached);
          reached = sign.end();
          if (sign.value() != null) {
            Fraction written =
                Fraction.of(4, 1L << sign.value().halvings())
                    .times(Fraction.of(sign.value().dots() == 0 ? 2 : 3, 2));
            Fraction ratio = Fraction.ONE;
            for (WrittenBar.Tuplet tuplet : sign.tuplets()) {
              ratio = ratio.times(Fraction.of(tuplet.normal(), tuplet.count()));
            }
            assertThat(written.times(ratio)).as("case %d: %s", i, line).isEqualTo(sign.length());
          }
        }
        assertThat(reached).isEqualTo(bar.bar().exactOnset().plus(bar.bar().exactLength()));
      }
    }
    assertThat(bars).isGreaterThan(2000);
  }

  /** Triplets that start between sixteenths part a beat in twelve, which has no sign. */
  private static List<WrittenBar> fillable(SoloLine solo) {
    try {
      return Notation.of(solo);
    } catch (IllegalArgumentException e) {
      assertThat(e).hasMessageContaining("Bar ");
      return List.of();
    }
  }
}
