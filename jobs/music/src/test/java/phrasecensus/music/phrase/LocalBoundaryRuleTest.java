package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * Worked example: the formula of Cambouropoulos 2001 on a melody of ten notes, computed in R 4.2.2:
 * {@code r <- function(x) {a<-x[-length(x)];b<-x[-1];ifelse(a+b==0,0,abs(a-b)/(a+b))}; s <-
 * function(x) {q<-r(x); x*(c(0,q)+c(q,0))}}, each profile divided by its maximum, weights .25 .50
 * .25.
 */
class LocalBoundaryRuleTest {
  private static final LocalBoundaryRule RULE = LocalBoundaryRule.DEFAULT;

  @Test
  void strengthsOfTheWorkedExample() {
    double[] expected = {0, .030435, .030435, .132065, 1, .108152, .030435, .018261, .027391};

    assertThat(RULE.strengths(Tunes.of(Tunes.M))).containsExactly(expected, within(1e-6));
  }

  @Test
  void theOnePeakOfTheWorkedExampleBeginsAPhraseAtTheSixthNote() {
    assertThat(RULE.boundaries(Tunes.of(Tunes.M))).containsExactly(5);
  }

  @Test
  void aLowerThresholdLetsSmallerPeaksIn() {
    var rule = new LocalBoundaryRule(.02, .25, .5, .25, 1);

    // strengths peak at intervals 5 and 9; interval 2 equals 3 and is the first of the two
    assertThat(rule.boundaries(Tunes.of(Tunes.M))).containsExactly(2, 5, 9);
  }

  @Test
  void aQuantileScaleKeepsOneOutlierFromRulingTheLine() {
    var line =
        Tunes.of("0:1/2:60 1/2:1/2:62 1:1/2:60 3:1/2:62 7/2:1/2:60 4:1/2:62 40:1/2:60 41:1/2:62");
    var published = new LocalBoundaryRule(.2, 0, 1, 0, 1);
    var robust = new LocalBoundaryRule(.2, 0, 1, 0, .75);

    assertThat(published.boundaries(line)).containsExactly(6);
    assertThat(robust.boundaries(line)).containsExactly(3, 6);
  }

  @Test
  void aLineWithoutChangeHasNoBoundary() {
    assertThat(RULE.boundaries(Tunes.of("0:1:60 1:1:60 2:1:60 3:1:60"))).isEmpty();
  }

  @Test
  void rejectsAThresholdAboveOne() {
    assertThatThrownBy(() -> new LocalBoundaryRule(1.5, .25, .5, .25, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid threshold: 1.5 is not in [0, 1]");
  }
}
