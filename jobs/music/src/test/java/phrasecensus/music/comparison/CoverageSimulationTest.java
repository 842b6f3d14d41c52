package phrasecensus.music.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.comparison.CoverageSimulation.Figure;
import phrasecensus.music.comparison.CoverageSimulation.Kind;
import phrasecensus.music.comparison.CoverageSimulation.Model;
import phrasecensus.music.comparison.CoverageSimulation.Reason;

/** Few rounds, so wide bounds: the command runs many and quotes them. */
class CoverageSimulationTest {
  private static final Model CORPUS = new Model(8, 4, .05, .12);

  @Test
  void intervalsHoldTheTruthAboutAsOftenAsTheySay() {
    List<Figure> figures = CoverageSimulation.coverage(CORPUS, 200, 3);

    assertThat(share(figures, "interval of the median")).isBetween(.90, 1.0);
    assertThat(share(figures, "interval of the mean")).isBetween(.90, .99);
    assertThat(share(figures, "interval of the mean, skewed")).isBetween(.89, .99);
    assertThat(share(figures, "interval of the share")).isBetween(.90, .99);
  }

  @Test
  void ignoringPlayersCostsCoverage() {
    List<Figure> figures =
        CoverageSimulation.coverageOfOthers(new Model(8, 8, .20, .10), 100, 400, 3);

    assertThat(share(figures, "mean, solos drawn: expanded"))
        .isLessThan(share(figures, "mean, players drawn: expanded") - .1);
  }

  /** With the number of solos less one as degrees of freedom it was .925 over 2,000 rounds. */
  @Test
  void aStudentOfFiveUnequalSolosIsHeldAsOftenAsTheIntervalSays() {
    List<Figure> figures = CoverageSimulation.effectSizes(new Model(8, 6, 0, .17), 5, .5, 400, 5);

    assertThat(share(figures, "Cliff's delta, clustered")).isBetween(.92, .97);
    assertThat(share(figures, "shift, clustered")).isBetween(.91, .97);
    assertThat(share(figures, "interval of the shift exists")).isGreaterThan(.9);
  }

  @Test
  void anIntervalThatIsNeverToldIsAFigureOutOfNone() {
    List<Figure> figures = CoverageSimulation.coverage(new Model(2, 3, .2, .2), 3, 3);

    assertThat(figures)
        .filteredOn(figure -> figure.what().equals("interval of the lower quartile"))
        .extracting(Figure::rounds)
        .containsExactly(0);
  }

  @Test
  void aFigureOutsideItsRangeSaysWhyAndOneInsideDoesNot() {
    assertThat(interval(.98, 1000, Reason.FEW_PLAYERS).off()).contains(Reason.FEW_PLAYERS);
    assertThat(interval(.971, 1000, null).off()).contains(Reason.CHANCE);
    assertThat(interval(.90, 1000, null).off()).contains(Reason.NOT_EXPLAINED);
    assertThat(interval(.95, 1000, Reason.FEW_PLAYERS).off()).isEmpty();
    assertThat(interval(Double.NaN, 0, Reason.FEW_PLAYERS).off()).isEmpty();
  }

  private static Figure interval(double share, int rounds, Reason known) {
    return new Figure("an interval", "a setting", share, rounds, Kind.INTERVAL, known);
  }

  @Test
  void sameSeedGivesTheSameFigures() {
    assertThat(CoverageSimulation.effectSizes(CORPUS, 3, .5, 20, 9))
        .isEqualTo(CoverageSimulation.effectSizes(CORPUS, 3, .5, 20, 9))
        .isNotEqualTo(CoverageSimulation.effectSizes(CORPUS, 3, .5, 20, 10));
  }

  @Test
  void aStudentOfTheCorpusHasFewDeparturesAndAShiftedOneMany() {
    List<Figure> none = CoverageSimulation.departures(CORPUS, 3, 10, 0, 0, 60, 4);
    List<Figure> some = CoverageSimulation.departures(CORPUS, 3, 10, 4, 4, 20, 4);

    assertThat(share(none, "false after adjustment, any of a student")).isLessThan(.1);
    assertThat(share(some, "power after adjustment, a statistic")).isGreaterThan(.8);
  }

  @Test
  void usualFiguresCoverTwelveToSixtySolos() {
    List<Figure> figures = CoverageSimulation.usual(1, 5);

    assertThat(figures)
        .filteredOn(figure -> figure.rounds() > 0)
        .hasSizeGreaterThan(100)
        .allSatisfy(figure -> assertThat(figure.share()).isBetween(0.0, 1.0));
    assertThat(figures)
        .extracting(Figure::setting)
        .contains(new Model(12, 1, 0, .17).toString(), new Model(10, 6, .10, .20).toString());
    assertThat(figures)
        .extracting(Figure::what)
        .contains("false after adjustment, any of a student", "shift, clustered");
  }

  @Test
  void refusesVariancesThatLeaveNothingToPhrases() {
    assertThatThrownBy(() -> new Model(3, 3, .5, .5))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid shares of variance: 0.5 and 0.5");
  }

  private static double share(List<Figure> figures, String what) {
    return figures.stream()
        .filter(figure -> figure.what().equals(what))
        .findFirst()
        .orElseThrow()
        .share();
  }
}
