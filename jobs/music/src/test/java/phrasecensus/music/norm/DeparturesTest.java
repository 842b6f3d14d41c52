package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class DeparturesTest {
  /** 1 to 59: quartiles 15 1/6 and 44 5/6, spread 29 2/3 over 1.349. */
  private static final Norm NORM = norm(IntStream.rangeClosed(1, 59).asDoubleStream());

  private static final double SPREAD = (44 + 5 / 6.0 - 15 - 1 / 6.0) / 1.349;

  @Test
  void insideTheMiddleBandIsNoDeparture() {
    Departure departure = Departures.of(value("a", "line", 20.0, 10));

    assertThat(departure.verdict()).isEqualTo(Verdict.INSIDE_BAND);
    assertThat(departure.size()).isZero();
    assertThat(departure.discounted()).isZero();
  }

  @Test
  void theEndsOfTheBandAreInside() {
    assertThat(Departures.of(value("a", "line", NORM.p25(), 10)).verdict())
        .isEqualTo(Verdict.INSIDE_BAND);
    assertThat(Departures.of(value("a", "line", NORM.p75(), 10)).verdict())
        .isEqualTo(Verdict.INSIDE_BAND);
  }

  @Test
  void sizeIsTheDistanceBeyondTheBandInSpreads() {
    Departure above = Departures.of(value("a", "line", 74.5, 10));
    Departure below = Departures.of(value("a", "line", -14.5, 10));

    assertThat(above.verdict()).isEqualTo(Verdict.ABOVE);
    assertThat(above.size()).isCloseTo((74.5 - 44 - 5 / 6.0) / SPREAD, within(1e-12));
    assertThat(above.discounted()).isCloseTo(above.size() * 10 / 15, within(1e-12));
    assertThat(above.rank().statement("solos")).isEqualTo("above all n = 59 solos");
    assertThat(below.verdict()).isEqualTo(Verdict.BELOW);
    assertThat(below.size()).isCloseTo(above.size(), within(1e-12));
  }

  @Test
  void fewerThanThreePhrasesAreTooLittle() {
    assertThat(Departures.of(value("a", "line", 70.0, 2)).verdict()).isEqualTo(Verdict.TOO_LITTLE);
    assertThat(Departures.of(value("a", "line", 70.0, 3)).verdict()).isEqualTo(Verdict.ABOVE);
  }

  @Test
  void otherFiguresSayHowMuchTheyNeed() {
    StudentValue fourNotes = new StudentValue("a", "line", 70.0, 4, 20, null, NORM);

    assertThat(Departures.of(fourNotes).verdict()).isEqualTo(Verdict.TOO_LITTLE);
  }

  @Test
  void anUndefinedValueIsTooLittle() {
    Departure departure = Departures.of(value("a", "line", null, 12));

    assertThat(departure.verdict()).isEqualTo(Verdict.TOO_LITTLE);
    assertThat(departure.rank()).isNull();
    assertThat(departure.size()).isNull();
  }

  @Test
  void tenSolosGiveARankButNoBand() {
    Norm small = norm(IntStream.rangeClosed(1, 10).asDoubleStream());

    Departure departure = Departures.of(new StudentValue("a", "line", 99.0, 12, small));

    assertThat(departure.verdict()).isEqualTo(Verdict.NO_NORM);
    assertThat(departure.rank().percent()).isEqualTo(100);
    assertThat(departure.size()).isNull();
  }

  @Test
  void noSoloAtAllGivesNoRank() {
    Departure departure =
        Departures.of(new StudentValue("a", "line", 9.0, 12, Norms.of(List.of())));

    assertThat(departure.verdict()).isEqualTo(Verdict.NO_NORM);
    assertThat(departure.rank()).isNull();
  }

  @Test
  void whereMostSolosAreEqualTheWholeRangeIsTheUnit() {
    Norm mostlyZero = norm(DoubleStream.concat(DoubleStream.of(0.1, 0.4), zeros(20)));

    Departure departure = Departures.of(new StudentValue("a", "line", 0.6, 5, mostlyZero));

    assertThat(departure.spread()).isEqualTo(new Spread(0.4, Spread.Basis.RANGE));
    assertThat(departure.size()).isCloseTo(1.5, within(1e-12));
  }

  @Test
  void whereAllSolosAreEqualThereIsADepartureWithoutSize() {
    Norm allZero = norm(zeros(20));

    Departure departure = Departures.of(new StudentValue("a", "line", 0.6, 5, allZero));

    assertThat(departure.verdict()).isEqualTo(Verdict.ABOVE);
    assertThat(departure.size()).isNull();
    assertThat(departure.rank().statement("solos")).isEqualTo("above all n = 20 solos");
  }

  @Test
  void anIntervalApartFromTheBandMakesADepartureClear() {
    Interval apart = new Interval(50, 80, .95);
    Interval touching = new Interval(44, 80, .95);

    assertThat(Departures.of(new StudentValue("a", "line", 70.0, 9, 3, apart, NORM)).isClear())
        .isTrue();
    assertThat(Departures.of(new StudentValue("a", "line", 70.0, 9, 3, touching, NORM)).isClear())
        .isFalse();
    assertThat(Departures.of(value("a", "line", 70.0, 9)).isClear()).isFalse();
  }

  @Test
  void eachFacetHasItsGreatestFirst() {
    List<Departure> departures =
        Departures.of(
            List.of(
                value("eighths", "movement", 200.0, 20),
                value("halves", "movement", 190.0, 20),
                value("quarters", "movement", 180.0, 20),
                value("landing", "harmony", 90.0, 20),
                value("inside", "harmony", 30.0, 20),
                value("length", "phrasing", 100.0, 20)));

    assertThat(Departures.ranked(departures))
        .extracting(Departure::key)
        .containsExactly("eighths", "length", "landing", "halves", "quarters");
  }

  @Test
  void aWeakDepartureDoesNotGoBeforeStrongOnesOfOtherFacets() {
    record Found(String key, String facet, Double strength) {}

    List<Found> found =
        List.of(
            new Found("weak", "line", 0.49),
            new Found("enough", "harmony", 0.5),
            new Found("strong", "movement", 3.0),
            new Found("second", "movement", 2.0),
            new Found("spreadless", "phrasing", null));

    assertThat(Departures.ranked(found, Found::facet, Found::strength, Found::key))
        .extracting(Found::key)
        .containsExactly("strong", "enough", "second", "weak", "spreadless");
  }

  @Test
  void littleMaterialCountsForLess() {
    List<Departure> departures =
        Departures.of(List.of(value("many", "line", 80.0, 40), value("few", "phrasing", 85.0, 3)));

    assertThat(Departures.ranked(departures))
        .extracting(Departure::key)
        .containsExactly("many", "few");
  }

  @Test
  void equalSizesGoByKeyAndInputOrderDoesNotMatter() {
    List<Departure> departures = new ArrayList<>();
    Norm allZero = norm(zeros(20));
    for (String key : List.of("d", "b", "a", "c")) {
      departures.add(Departures.of(value(key, "line", 80.0, 10)));
    }
    departures.add(Departures.of(new StudentValue("spreadless", "line", 1.0, 10, allZero)));
    Random random = new Random(1);

    for (int i = 0; i < 20; i++) {
      Collections.shuffle(departures, random);

      assertThat(Departures.ranked(departures))
          .extracting(Departure::key)
          .containsExactly("a", "b", "c", "d", "spreadless");
    }
  }

  @Test
  void refusesWhatIsNotANumber() {
    assertThatThrownBy(() -> value("landing_share", "line", Double.POSITIVE_INFINITY, 3))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value of landing_share: Infinity");
  }

  private static StudentValue value(String key, String facet, Double value, int n) {
    return new StudentValue(key, facet, value, n, NORM);
  }

  private static DoubleStream zeros(int n) {
    return DoubleStream.generate(() -> 0).limit(n);
  }

  private static Norm norm(DoubleStream values) {
    return Norms.of(
        values.mapToObj(value -> new NormValue("player " + Math.round(value) % 4, value)).toList());
  }
}
