package phrasecensus.music.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ShippedTableTest {
  @Test
  void everyFigureThatComesAlongIsUsable() {
    assertThat(ShippedTable.builtIn().all())
        .hasSizeGreaterThan(40)
        .allSatisfy(
            each -> {
              assertThat(each.noise()).isBetween(0.0, .9);
              assertThat(each.correlationMean()).isBetween(.06, .6);
              assertThat(each.phrasesForHalf()).isPositive();
              assertThat(each.tempo().uu() * each.tempo().qq())
                  .isGreaterThan(each.tempo().uq() * each.tempo().uq());
            });
  }

  @Test
  void aTableIsReadAsItWasWritten() {
    List<ShippedFigures> all = ShippedTable.builtIn().all();

    assertThat(ShippedTable.parse("# a remark\n" + ShippedTable.text(all)).all()).isEqualTo(all);
  }

  @Test
  void anotherTableIsRefused() {
    assertThatThrownBy(() -> ShippedTable.parse("key,value\n"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("Invalid table of shipped figures");
  }

  /**
   * Solos drawn from a model whose figures are known are told by those figures: players'
   * correlation .3, half of a solo's variance from its 20 phrases, .25 for each doubling of tempo.
   */
  @Test
  void whatWasPutInIsFoundAgain() {
    SplittableRandom random = new SplittableRandom(11);
    List<HalvedSolo> solos = new ArrayList<>();
    for (int player = 0; player < 400; player++) {
      double own = Math.sqrt(.3) * random.nextGaussian();
      for (int i = 0; i < 5; i++) {
        double solo = own + Math.sqrt(.35) * random.nextGaussian();
        double tempo = 80 + 200 * random.nextDouble();
        double slope = .25 * Math.log(tempo / 170) / Math.log(2);
        double odd = solo + Math.sqrt(.7) * random.nextGaussian();
        double even = solo + Math.sqrt(.7) * random.nextGaussian();
        solos.add(
            new HalvedSolo(
                new ComparedSolo(
                    "s" + solos.size(),
                    "p" + player,
                    "g" + player % 3,
                    10 + slope + (odd + even) / 2,
                    20,
                    20,
                    tempo),
                10 + slope + odd,
                10 + slope + even));
      }
    }
    ShippedFigures figures = ShippedTraining.figures("made", Scale.PLAIN, solos);

    assertThat(figures.correlationMean()).isCloseTo(.3, within(.05));
    assertThat(figures.noise()).isCloseTo(.35 * 20 / 19 / .7, within(.06));
    assertThat(figures.tempo().slopes().first()).isCloseTo(.25, within(.1));
    assertThat(figures.phrasesForHalf()).isCloseTo(.35 * 20 / .65, within(1.5));
  }
}
