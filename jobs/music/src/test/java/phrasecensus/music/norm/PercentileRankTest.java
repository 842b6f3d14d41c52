package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PercentileRankTest {
  private static final Sample X10 = QuantilesTest.X10;

  @ParameterizedTest(name = "R: 100*(mean(x10<{0})+0.5*mean(x10=={0})) is {1}")
  @CsvSource({"1, 0", "2, 20", "3.2, 50", "4, 70", "8, 95", "9, 100"})
  void percentAgreesWithR(double value, double expected) {
    assertThat(PercentileRank.of(X10, value).percent()).isCloseTo(expected, within(1e-12));
  }

  @ParameterizedTest(name = "{0} is {1}; {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "1   | below all n = 10 solos                     | shorter than all 10 solos",
        "1.5 | about the 5th percentile of n = 10 solos   | shorter than about 9 of 10 solos",
        "2   | about the 20th percentile of n = 10 solos  | shorter than about 8 of 10 solos",
        "3.2 | about the 50th percentile of n = 10 solos"
            + " | in the middle: about as many solos are longer as shorter",
        "4   | about the 70th percentile of n = 10 solos  | longer than about 7 of 10 solos",
        "5   | about the 80th percentile of n = 10 solos  | longer than 8 of 10 solos",
        "8   | about the 95th percentile of n = 10 solos  | longer than about 9 of 10 solos",
        "9   | above all n = 10 solos                     | longer than all 10 solos"
      })
  void saysHowManyAndNeverZeroOrHundred(double value, String statement, String words) {
    PercentileRank rank = PercentileRank.of(X10, value);

    assertThat(rank.statement("solos")).isEqualTo(statement);
    assertThat(rank.words("longer", "shorter", "solos")).isEqualTo(words);
  }

  @ParameterizedTest(name = "{0} below of 200: {1}; {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "199 | about the 99th percentile of n = 200 phrases | longer than 199 of 200 phrases",
        "194 | about the 97th percentile of n = 200 phrases | longer than 194 of 200 phrases",
        "142 | about the 71st percentile of n = 200 phrases | longer than 142 of 200 phrases",
        "22  | about the 11th percentile of n = 200 phrases | shorter than 178 of 200 phrases",
        "1   | about the 1st percentile of n = 200 phrases  | shorter than 199 of 200 phrases"
      })
  void largeGroupsAreCountedOutToo(int below, String statement, String words) {
    PercentileRank rank = new PercentileRank(below, 0, 200);

    assertThat(rank.statement("phrases")).isEqualTo(statement);
    assertThat(rank.words("longer", "shorter", "phrases")).isEqualTo(words);
  }

  @Test
  void noWordingOfAMemberOfTheRangeClaimsAllOrNone() {
    for (int n = 2; n <= 300; n++) {
      for (int below = 1; below < n; below++) {
        PercentileRank rank = new PercentileRank(below, 0, n);

        assertThat(rank.statement("solos") + " / " + rank.words("more", "fewer", "solos"))
            .as("%s below of %s", below, n)
            .doesNotContain(" all ")
            .doesNotContain(" 0 ")
            .doesNotContain("than " + n + " of " + n);
      }
    }
  }

  @Test
  void equalToEveryoneIsSaidSo() {
    PercentileRank rank = PercentileRank.of(Sample.of(2, 2, 2, 2, 2, 2, 2), 2);

    assertThat(rank.percent()).isEqualTo(50);
    assertThat(rank.statement("solos")).isEqualTo("equal to all n = 7 solos");
    assertThat(rank.words("longer", "shorter", "solos")).isEqualTo("the same as all 7 solos");
  }

  @Test
  void oneSoloIsNoGroup() {
    assertThat(PercentileRank.of(Sample.of(2), 3).statement("solos"))
        .isEqualTo("above the only value, n = 1");
    assertThat(PercentileRank.of(Sample.of(2), 1).words("longer", "shorter", "solos"))
        .isEqualTo("shorter than the only one");
  }

  @Test
  void fewValuesAreCountedNotRanked() {
    assertThat(PercentileRank.of(Sample.of(1, 2, 4), 3).statement("solos"))
        .isEqualTo("above 2 and below 1 of n = 3 solos");
  }

  @Test
  void hugeGroupsDoNotOverflow() {
    double[] values = IntStream.range(0, 1_000_000).asDoubleStream().toArray();
    Arrays.sort(values);

    assertThat(PercentileRank.of(Sample.of(values), 700_000).percent())
        .isCloseTo(70.00005, within(1e-9));
  }

  @Test
  void refusesWhatCannotBeRanked() {
    assertThatThrownBy(() -> PercentileRank.of(X10, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value to rank: NaN");
    assertThatThrownBy(() -> PercentileRank.of(Sample.of(), 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot rank a value: the group is empty");
  }
}
