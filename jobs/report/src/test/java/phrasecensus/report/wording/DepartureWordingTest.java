package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Interval;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.row.DepartureVerdict;

/** What a departure is called and the figures beside it, over random comparisons. */
class DepartureWordingTest {
  private static final int ROUNDS = 100;
  private static final Pattern RANGE = Pattern.compile("([0-9.,]+)\u00a0to\u00a0([0-9.,]+)");

  private final Wording wording = new Wording(new Numbers(Locale.ENGLISH));

  private static List<StatisticDefinition> compared() {
    return StatisticsCatalogue.builtIn().all().stream()
        .filter(StatisticDefinition::compared)
        .toList();
  }

  /**
   * A comparison of any verdict, with a value on either side of its band or near one of its ends.
   */
  private static Wording.Standing random(StatisticDefinition definition, Random random) {
    double whole = definition.percent() ? 1 : 12;
    double low = whole * random.nextDouble() * 0.9;
    double high = low + (whole - low) * random.nextDouble() * 0.9;
    double median = low + (high - low) * random.nextDouble();
    double value =
        switch (random.nextInt(4)) {
          case 0 -> low * random.nextDouble();
          case 1 -> high + (whole - high) * random.nextDouble();
          case 2 -> Math.max(0, low - 0.004 * whole * random.nextDouble());
          default -> Math.min(whole, high + 0.004 * whole * random.nextDouble());
        };
    boolean below = value < median;
    int solos = 11 + random.nextInt(60);
    int under = below ? random.nextInt(solos / 3) : solos - random.nextInt(solos / 3);
    DepartureVerdict verdict =
        random.nextBoolean()
            ? DepartureVerdict.INSIDE
            : below ? DepartureVerdict.BELOW : DepartureVerdict.ABOVE;
    return new Wording.Standing(
        definition,
        new Comparison(
            "A",
            true,
            "",
            Group.ALL,
            true,
            null,
            0,
            0,
            definition.key(),
            value,
            40,
            3,
            definition.percent() ? (Double) value : null,
            solos,
            0,
            false,
            new Interval(median, low, high),
            true,
            under,
            0,
            verdict,
            1,
            0.01,
            0.02,
            40,
            new Interval(null, low * 0.9, Math.min(whole, high * 1.1)),
            false,
            false,
            new Interval(below ? -0.5 : 0.5, null, null),
            new Interval(value - median, null, null)),
        null);
  }

  private static List<Wording.Standing> randoms() {
    Random random = new Random(1611);
    List<Wording.Standing> standings = new ArrayList<>();
    for (StatisticDefinition definition : compared()) {
      for (int i = 0; i < ROUNDS; i++) {
        standings.add(random(definition, random));
      }
    }
    return standings;
  }

  private static double number(String text) {
    Matcher matcher = Pattern.compile("^[0-9.,]+").matcher(text);
    assertThat(matcher.find()).as(text).isTrue();
    return Double.parseDouble(matcher.group().replace(",", ""));
  }

  @Test
  void everyShareOfWhichFewerIsCalledMoreHasANameForTheRest() {
    assertThat(compared())
        .filteredOn(d -> d.percent() && d.lower().startsWith("more "))
        .isNotEmpty()
        .allSatisfy(d -> assertThat(d.complement()).as(d.key()).isNotBlank());
  }

  @Test
  void moreOfSomethingIsNeverPrintedBesideAFigureBelowWhatIsUsual() {
    for (Wording.Standing standing : randoms()) {
      String direction = Wording.direction(standing);
      if (standing.definition().percent() && direction.startsWith("more ")) {
        Wording.Standing told = standing.told();
        assertThat(direction).isEqualTo(told.definition().higher());
        assertThat(told.comparison().value())
            .as(direction)
            .isGreaterThanOrEqualTo(told.comparison().band().value());
        assertThat(number(wording.figure(standing)))
            .as(direction)
            .isCloseTo(100 * told.comparison().value(), within(0.51));
        assertThat(wording.standing(standing)).contains(direction + " than ");
      }
    }
  }

  @Test
  void aValueOutsideTheMiddleHalfIsPrintedOutsideIt() {
    for (Wording.Standing standing : randoms()) {
      Comparison told = standing.told().comparison();
      double value = told.value();
      double apart = Math.max(told.band().low() - value, value - told.band().high());
      // Nearer than a thousandth of the last decimal no number of decimals that one would read
      // parts them.
      if (apart > 1e-3) {
        Matcher band = RANGE.matcher(wording.band(standing));
        assertThat(band.find()).isTrue();
        double printed = number(wording.figure(standing));
        assertThat(printed < number(band.group(1)) || printed > number(band.group(2)))
            .as(standing.definition().key() + ": " + printed + " beside " + band.group())
            .isTrue();
      }
    }
  }

  @Test
  void turnedTwiceIsAsItWas() {
    for (Wording.Standing standing : randoms()) {
      Comparison once = standing.comparison().ofTheRest();
      assertThat(once.ofTheRest().verdict()).isEqualTo(standing.comparison().verdict());
      assertThat(once.below()).isEqualTo(once.normSolos() - standing.comparison().below());
      assertThat(once.band().low()).isEqualTo(1 - standing.comparison().band().high());
      assertThat(standing.told().isTurned()).as(standing.definition().key()).isFalse();
    }
  }

  @Test
  void countsOverAllSolosAreTurnedToo() {
    StatisticDefinition offBeat =
        StatisticsCatalogue.builtIn().named("off_beat_share").orElseThrow();
    Random random = new Random(3);
    Wording.Standing standing;
    do {
      standing = random(offBeat, random);
    } while (!standing.isTurned());

    long rest = Math.round((1 - standing.comparison().value()) * 40);

    assertThat(wording.standing(standing))
        .contains("Counted over all of them: " + rest + " of 40\u00a0notes");
  }
}
