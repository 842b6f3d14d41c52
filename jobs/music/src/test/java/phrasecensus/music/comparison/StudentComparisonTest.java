package phrasecensus.music.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class StudentComparisonTest {
  private static final TempoScale TEMPOS = new TempoScale(50, 350);

  private static ShippedFigures shipped(Scale scale) {
    return new ShippedFigures(
        "made",
        scale,
        .4,
        .22,
        new TempoSlopes.Shipped(new TempoSlopes(.2, -.05), .38, -.18, .31),
        TEMPOS,
        12);
  }

  private static ComparedSolo solo(
      String id, String player, String group, double value, double tempo) {
    return new ComparedSolo(id, player, group, value, 60, 20, tempo);
  }

  /** Solos of groups a, b, c by four players each, about .5. */
  private static List<ComparedSolo> corpus(SplittableRandom random, int solosOfPlayer) {
    List<ComparedSolo> corpus = new ArrayList<>();
    for (String group : List.of("a", "b", "c")) {
      for (int player = 0; player < 4; player++) {
        for (int i = 0; i < solosOfPlayer; i++) {
          corpus.add(
              solo(
                  group + player + i,
                  group + player,
                  group,
                  .3 + .4 * random.nextDouble(),
                  80 + 200 * random.nextDouble()));
        }
      }
    }
    return corpus;
  }

  /**
   * In ten thousand random comparisons a value lies inside its interval exactly where it is not
   * clear. This is what the method promises.
   */
  @Test
  void verdictAndIntervalNeverContradictEachOther() {
    SplittableRandom random = new SplittableRandom(16);
    int clear = 0;
    for (int round = 0; round < 500; round++) {
      List<ComparedSolo> corpus = corpus(random, 1 + random.nextInt(5));
      boolean withOthers = random.nextBoolean();
      List<StudentVerdicts.Tested> tested = new ArrayList<>();
      List<StudentComparison> compared = new ArrayList<>();
      for (int statistic = 0; statistic < 20; statistic++) {
        CorpusModel model =
            CorpusModel.of(shipped(Scale.values()[statistic % 4]), corpus, random.nextBoolean());
        int solos = 1 + random.nextInt(5);
        double apart = .6 * random.nextDouble() - .3;
        List<ComparedSolo> student = new ArrayList<>();
        for (int i = 0; i < solos; i++) {
          student.add(
              solo(
                  "s" + i,
                  "student",
                  "",
                  .5 + apart + .1 * random.nextDouble(),
                  60 + 250 * random.nextDouble()));
        }
        StudentComparison comparison =
            StudentComparison.of(withOthers ? model.group("a") : model.whole(), student);
        compared.add(comparison);
        tested.add(
            new StudentVerdicts.Tested(
                "statistic " + statistic,
                "facet " + statistic % 3,
                statistic < 6,
                comparison.p(),
                comparison.phrases(),
                statistic % 7 == 6 ? 1000 : 12));
      }
      StudentVerdicts verdicts = StudentVerdicts.of(tested);
      for (int i = 0; i < compared.size(); i++) {
        StudentVerdicts.Verdict verdict = verdicts.statistics().get(i);
        if (!verdict.isTested()) {
          continue;
        }
        PredictiveMixture.Range range = compared.get(i).range(verdict.level());
        boolean outside = !range.holds(compared.get(i).mean().value());
        assertThat(outside).isEqualTo(verdict.p() <= verdict.level());
        if (verdict.family() != StudentVerdicts.Family.NONE) {
          assertThat(verdict.clear()).isEqualTo(outside);
          assertThat(verdict.clear()).isEqualTo(verdict.adjusted() <= TestFamily.LEVEL);
        }
        clear += verdict.clear() ? 1 : 0;
      }
    }
    assertThat(clear).isBetween(500, 9500);
  }

  /** R 4.2.2: print(pt(c(-4, -1, .3, 2.5, 12), 7), digits = 10). */
  @Test
  void theShortSeriesOfStudentsTIsRight() {
    double[] t = {-4, -1, .3, 2.5, 12};
    double[] ofSeven = {
      0.002594956675, 0.175308331410, 0.613554974799, 0.979503890707, 0.999996820845
    };
    for (int i = 0; i < t.length; i++) {
      assertThat(new StudentT(7).below(t[i])).isCloseTo(ofSeven[i], within(1e-9));
    }
    for (int freedom = 1; freedom <= 60; freedom++) {
      StudentT distribution = new StudentT(freedom);
      for (double each : t) {
        assertThat(distribution.below(each))
            .isCloseTo(distribution.exactBelow(each), within(1e-14));
      }
    }
  }

  @Test
  void aStatisticThatDoesNotVaryIsNotTested() {
    List<ComparedSolo> corpus = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      corpus.add(solo("c" + i, "p" + i % 5, i % 2 == 0 ? "a" : "b", .5, Double.NaN));
    }
    StudentComparison compared =
        StudentComparison.of(
            CorpusModel.of(shipped(Scale.PLAIN), corpus, true).group("a"),
            List.of(solo("s", "student", "", .9, 120)));

    assertThat(compared.isTested()).isFalse();
    assertThat(compared.p()).isNaN();
  }

  @Test
  void withoutAnyTempoNothingIsTakenOut() {
    SplittableRandom random = new SplittableRandom(4);
    List<ComparedSolo> corpus =
        corpus(random, 3).stream()
            .map(each -> solo(each.soloId(), each.player(), each.group(), each.value(), Double.NaN))
            .toList();
    CorpusModel model = CorpusModel.of(shipped(Scale.SHARE), corpus, true);
    StudentComparison compared =
        StudentComparison.of(model.group("a"), List.of(solo("s", "student", "", .5, 120)));

    assertThat(model.isTempoTakenOut()).isFalse();
    assertThat(model.group("a").others().speak()).isTrue();
    assertThat(compared.p()).isBetween(0.0, 1.0);
    assertThat(compared.shown()).isCloseTo(.5, within(1e-12));
  }

  @Test
  void halfTheTemposWillDoAndAGroupWithoutAnySaysNothing() {
    SplittableRandom random = new SplittableRandom(5);
    List<ComparedSolo> corpus =
        corpus(random, 3).stream()
            .map(
                each ->
                    each.group().equals("c") || each.soloId().endsWith("1")
                        ? solo(each.soloId(), each.player(), each.group(), each.value(), Double.NaN)
                        : each)
            .toList();
    CorpusModel model = CorpusModel.of(shipped(Scale.SHARE), corpus, true);

    assertThat(model.knowsTempoOf("a")).isTrue();
    assertThat(model.knowsTempoOf("c")).isFalse();
    assertThat(model.isTempoTakenOut()).isTrue();
    assertThat(model.group("a").others().freedom()).isEqualTo(11);
    assertThat(model.whole().mixture()).isPresent();
  }

  @Test
  void solosAtOneTempoLeaveSlopesToWhatIsShipped() {
    SplittableRandom random = new SplittableRandom(6);
    List<ComparedSolo> corpus =
        corpus(random, 3).stream()
            .map(each -> solo(each.soloId(), each.player(), each.group(), each.value(), 120))
            .toList();
    TempoSlopes slopes = CorpusModel.of(shipped(Scale.SHARE), corpus, true).slopes();

    assertThat(slopes.first()).isCloseTo(.2, within(1e-9));
    assertThat(slopes.second()).isCloseTo(-.05, within(1e-9));
  }

  @Test
  void aGroupOfOnePlayerIsAskedForFurtherSolosOfThisPlayer() {
    List<ComparedSolo> corpus = new ArrayList<>();
    for (int i = 0; i < 9; i++) {
      corpus.add(solo("c" + i, "Ada Reed", "a", .4 + .02 * i, 120));
    }
    GroupComparison group = CorpusModel.of(shipped(Scale.SHARE), corpus, true).whole();

    assertThat(group.isOnePlayer()).isTrue();
    assertThat(group.mixture().orElseThrow().freedom()).isEqualTo(8);
    assertThat(group.mixture().orElseThrow().correlation()).isZero();
  }

  @Test
  void solosOfUnknownPlayersAreOnesOfTheirOwn() {
    List<ComparedSolo> corpus = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      corpus.add(solo("c" + i, "", "a", .4 + .02 * i, 120));
    }
    GroupComparison group = CorpusModel.of(shipped(Scale.SHARE), corpus, true).whole();

    assertThat(group.isOnePlayer()).isFalse();
    assertThat(group.players()).isEqualTo(12);
  }

  @Test
  void tooFewSolosAreNoGroundForATest() {
    SplittableRandom random = new SplittableRandom(7);
    CorpusModel model = CorpusModel.of(shipped(Scale.SHARE), corpus(random, 3), true);

    assertThat(model.sample("a", Set.of("a00", "a01", "a10", "a11", "a20")).mixture()).isEmpty();
    assertThat(model.sample("a", Set.of("a00", "a01", "a10", "a11", "a20", "a30")).mixture())
        .isPresent();
    assertThat(CorpusModel.of(shipped(Scale.SHARE), corpus(random, 2), true).group("a").others())
        .matches(others -> !others.speak());
  }

  /**
   * Comparison of a student with 20 solos by 6 players, standard deviations of a usual solo, others
   * of 100 degrees of freedom. Figures of the method's own description, of two digits; the variance
   * of the centre there is that of players with 3 or 4 solos each, 1 / U at rho .2.
   */
  @Test
  void powerIsThatOfThePlanningFormula() {
    double u = 0;
    for (int solos : new int[] {3, 3, 3, 3, 4, 4}) {
      u += 1 / (.2 + .8 / solos);
    }
    Planning withOthers = new Planning(.2, 1 / (u + 9 * .8), 30, 100);

    assertThat(withOthers.power(2, 1, 1, .05)).isCloseTo(.42, within(.02));
    assertThat(withOthers.power(2, 3, 1, .05)).isCloseTo(.75, within(.03));
    assertThat(withOthers.power(2, 10, 1, .05)).isCloseTo(.90, within(.03));
  }

  private static List<ComparedSolo> copied(List<ComparedSolo> corpus, boolean newPlayers) {
    List<ComparedSolo> both = new ArrayList<>(corpus);
    for (ComparedSolo solo : corpus) {
      both.add(
          solo(
              solo.soloId() + " again",
              solo.player() + (newPlayers ? " again" : ""),
              solo.group(),
              solo.value(),
              solo.tempo()));
    }
    return both;
  }

  /**
   * Held against the model of a corpus that has really grown: each solo once more, by a new player
   * or by the same. Degrees of freedom are then the same, and so is the variance of the centre at
   * equal correlation; that of the grown corpus is its own, so it is near only.
   */
  @Test
  void aGrownCorpusIsPlannedAsTheModelOfOneWouldBe() {
    List<ComparedSolo> corpus = corpus(new SplittableRandom(11), 3);
    GroupComparison here = CorpusModel.of(shipped(Scale.PLAIN), corpus, true).whole();
    for (boolean newPlayers : new boolean[] {true, false}) {
      Planning planned = here.planning(newPlayers ? 1 : 2, newPlayers ? 2 : 1).orElseThrow();
      GroupComparison grown =
          CorpusModel.of(shipped(Scale.PLAIN), copied(corpus, newPlayers), true).whole();
      Planning found = grown.planning().orElseThrow();

      assertThat(planned.freedom()).isEqualTo(found.freedom());
      assertThat(planned.correlation()).isEqualTo(here.planning().orElseThrow().correlation());
      assertThat(planned.centreVariance() / found.centreVariance()).isBetween(.8, 1.25);
    }
  }

  @Test
  void morePlayersBringMoreThanMoreSolosOfTheSame() {
    GroupComparison here =
        CorpusModel.of(shipped(Scale.PLAIN), corpus(new SplittableRandom(12), 3), true).group("a");
    Planning now = here.planning().orElseThrow();
    Planning solos = here.planning(2, 1).orElseThrow();
    Planning players = here.planning(1, 2).orElseThrow();

    assertThat(here.planning(1, 1).orElseThrow()).isEqualTo(now);
    assertThat(solos.centreVariance()).isLessThan(now.centreVariance());
    assertThat(players.centreVariance()).isLessThan(solos.centreVariance());
    assertThat(players.power(2, 3, 1, .05)).isGreaterThan(now.power(2, 3, 1, .05));
    assertThat(players.solosNeeded(2, 1, .05, .8).orElse(201))
        .isLessThanOrEqualTo(now.solosNeeded(2, 1, .05, .8).orElse(201));
  }

  @Test
  void wherePlayersDifferMoreThanTheDifferenceNoNumberOfSolosWillDo() {
    assertThat(new Planning(.6, .05, 30, 100).solosNeeded(1, 1, .05, .8)).isEmpty();
    assertThat(new Planning(0, .01, 30, 100).solosNeeded(1, 1, .05, .8)).isPresent();
  }
}
