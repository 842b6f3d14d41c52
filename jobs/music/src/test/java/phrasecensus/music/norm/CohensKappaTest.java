package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class CohensKappaTest {
  /**
   * Fifty applications, two readers, yes or no: the worked example of many textbooks, from memory.
   */
  @Test
  void agreesWithTheTextbooksExample() {
    List<String> one = new ArrayList<>();
    List<String> other = new ArrayList<>();
    add(one, other, "yes", "yes", 20);
    add(one, other, "yes", "no", 5);
    add(one, other, "no", "yes", 10);
    add(one, other, "no", "no", 15);

    CohensKappa agreement = CohensKappa.of(one, other);

    assertThat(agreement.alike()).isEqualTo(35);
    assertThat(agreement.things()).isEqualTo(50);
    assertThat(agreement.kappa()).isCloseTo(0.4, within(1e-12));
  }

  private static void add(
      List<String> one, List<String> other, String first, String second, int times) {
    for (int i = 0; i < times; i++) {
      one.add(first);
      other.add(second);
    }
  }

  @Test
  void perfectAgreementIsOne() {
    assertThat(CohensKappa.of(List.of("a", "b", "a"), List.of("a", "b", "a")).kappa()).isEqualTo(1);
  }

  @Test
  void oneVerdictForAllSaysNothing() {
    assertThat(CohensKappa.of(List.of("a", "a"), List.of("a", "a")).kappa()).isNull();
    assertThat(CohensKappa.of(List.of(), List.of()).kappa()).isNull();
  }

  @Test
  void differentNumbersOfVerdictsAreRefused() {
    assertThatThrownBy(() -> CohensKappa.of(List.of("a"), List.of()))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
