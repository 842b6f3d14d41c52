package phrasecensus.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.norm.NormValue;
import phrasecensus.tables.MixDefinition;

class GroupMixTest {
  private static final MixDefinition MIX =
      new MixDefinition("mix", "a mix", List.of("first", "second", "third"));

  private static GroupMix mix(Double[]... solos) {
    List<CorpusGroup> shares = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      List<CorpusSolo> values = new ArrayList<>();
      for (int solo = 0; solo < solos.length; solo++) {
        values.add(
            new CorpusSolo("s" + solo, new NormValue("p" + solo, solos[solo][i]), List.of()));
      }
      shares.add(new CorpusGroup("all", "all", values));
    }
    return GroupMix.of(MIX, shares);
  }

  @Test
  void everySoloWithAMixCountsOnce() {
    GroupMix mix =
        mix(new Double[] {.5, .3, .2}, new Double[] {null, null, null}, new Double[] {.2, .3, .5});

    assertThat(mix.solos()).isEqualTo(2);
    assertThat(mix.mean()).containsExactly(new double[] {.35, .3, .35}, within(1e-15));
    assertThat(mix.distances().isEmpty()).isTrue();
  }

  @Test
  void aSoloIsHeldAgainstTheOthersNotAgainstItself() {
    Double[][] solos = new Double[11][];
    Arrays.fill(solos, new Double[] {.2, .3, .5});
    solos[4] = new Double[] {.5, .3, .2};

    // R: sqrt of the Jensen-Shannon divergence of (.5 .3 .2) and (.2 .3 .5), base 2: .30954095.
    assertThat(mix(solos).distances().max()).isCloseTo(.30954095, within(1e-8));
  }

  @Test
  void aGroupWithoutAnyMixHasNone() {
    assertThat(mix(new Double[] {null, null, null}).solos()).isZero();
    assertThat(mix(new Double[] {0.0, 0.0, 0.0}).solos()).isZero();
  }
}
