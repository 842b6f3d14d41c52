package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Could these solos be those of one more player of the group? The test behind the word "clear": a
 * solo outside the middle half is nothing odd, half of all solos are.
 *
 * <p>Each value becomes a normal score by its place in the group, Φ⁻¹((r - 3/8) / (n + 1/4)), read
 * off between the values of the group and carried on beyond them no steeper than the middle is, so
 * that skewed statistics are treated like others and a value far outside still counts as far. The
 * solos of each player of the group are scored against the other players, as the student is against
 * all, so that the variance of the scores is that of a newcomer. It has a part for players and a
 * part for solos, by one-way analysis of variance, so that many solos of one student do not pass
 * for many players:
 *
 * <p>V = s²(players) (1 + Σ n² / N²) + s²(solos) (1/k + 1/N), k solos of the student, N of the
 * group, n of each player; degrees of freedom by F. E. Satterthwaite (Biometrics Bulletin 2 (1946)
 * 110-114, doi:10.2307/3002019). Where every player has one solo the whole variance counts as that
 * of players; where players differ no more than solos do, as that of solos, with the degrees of
 * freedom of players. Normal scores by G. Blom 1958 (from memory); the combination is our own and
 * is checked by {@link CoverageSimulation}.
 *
 * @param statistic mean score of the student less that of the group, over its standard error
 * @param degreesOfFreedom of the t distribution it is held against
 * @param pValue two-sided, in [0, 1]
 */
public record ExchangeabilityTest(double statistic, double degreesOfFreedom, double pValue) {
  /** Fewer solos than this in the group are no ground for a test. */
  public static final int LEAST_SOLOS = NormLevel.QUARTILES.leastSize();

  /**
   * A group ready to be held against any number of students.
   *
   * <p>Cost of making one: solos times players; of a test: the student's solos.
   */
  public static final class Group {
    private final Scores scores;
    private final double mean;
    private final int solos;
    private final int players;
    private final double squaredSizes;

    /** Null when every player has one solo. */
    private final IntraclassCorrelation between;

    private final double totalVariance;

    private Group(Sample sample, List<double[]> byPlayer) {
      this.scores = Scores.of(sample.values());
      this.solos = sample.size();
      this.players = byPlayer.size();
      List<double[]> scored = new ArrayList<>();
      double sum = 0;
      double squares = 0;
      for (double[] player : byPlayer) {
        double[] own = Scores.of(without(sample.values(), player)).each(player);
        scored.add(own);
        squares += (double) own.length * own.length;
        sum += Arrays.stream(own).sum();
      }
      this.squaredSizes = squares;
      this.mean = sum / solos;
      double distances = 0;
      for (double[] player : scored) {
        for (double score : player) {
          distances += (score - mean) * (score - mean);
        }
      }
      this.totalVariance = distances / (solos - 1);
      this.between = players < solos ? IntraclassCorrelation.of(scored) : null;
    }

    /**
     * The group of these solos.
     *
     * @param values one for each solo, in any order; undefined ones are left out
     * @return empty when fewer than eleven solos or three players have a value, or no two players
     *     differ
     */
    public static Optional<Group> of(List<NormValue> values) {
      TreeMap<String, List<Double>> byPlayer = new TreeMap<>();
      for (NormValue value : values) {
        if (value.value() != null) {
          byPlayer.computeIfAbsent(value.player(), player -> new ArrayList<>()).add(value.value());
        }
      }
      Sample sample = Sample.of(byPlayer.values().stream().flatMap(List::stream).toList());
      if (sample.size() < LEAST_SOLOS || byPlayer.size() < Norm.LEAST_PLAYERS) {
        return Optional.empty();
      }
      List<double[]> players =
          byPlayer.values().stream().map(player -> Sample.of(player).values()).toList();
      // A group whose values are equal but for one player's gives that player no scale.
      boolean varied =
          players.stream()
              .map(player -> without(sample.values(), player))
              .allMatch(others -> others[0] < others[others.length - 1]);
      return varied ? Optional.of(new Group(sample, players)) : Optional.empty();
    }

    /**
     * The test of a student's solos.
     *
     * @throws IllegalArgumentException if the student has no value
     */
    public ExchangeabilityTest test(Sample student) {
      if (student.isEmpty()) {
        throw new IllegalArgumentException("Cannot compare a student: there is no value");
      }
      double n = solos;
      double ofPlayers = 1 + squaredSizes / (n * n);
      double ofSolos = 1.0 / student.size() + 1 / n;
      double variance;
      double freedom;
      if (between == null) {
        variance = totalVariance * (1 + 1 / n);
        freedom = n - 1;
      } else if (between.varianceBetween() == 0) {
        variance = totalVariance * ofSolos;
        freedom = players - 1.0;
      } else {
        double first = ofPlayers / between.typicalSize() * between.meanSquareBetween();
        double second = (ofSolos - ofPlayers / between.typicalSize()) * between.meanSquareWithin();
        variance = first + second;
        double satterthwaite =
            variance * variance / (first * first / (players - 1) + second * second / (n - players));
        freedom = Math.max(1, satterthwaite);
      }
      double distance = Sample.of(scores.each(student.values())).mean() - mean;
      double t = distance / Math.sqrt(variance);
      double p = 2 * TDistribution.of(freedom).survivalProbability(Math.abs(t));
      return new ExchangeabilityTest(t, freedom, Math.min(1, p));
    }

    /** Removes values from an array that holds them; both ascending. */
    private static double[] without(double[] all, double[] some) {
      double[] rest = new double[all.length - some.length];
      int removed = 0;
      int kept = 0;
      for (double value : all) {
        if (removed < some.length && value == some[removed]) {
          removed++;
        } else {
          rest[kept++] = value;
        }
      }
      return rest;
    }
  }

  /**
   * Normal scores of a group, as a line through its different values. The scores themselves are
   * made when asked for: of most groups only a player's few are.
   */
  private record Scores(
      double[] values, double[] ranks, int size, double lowerSlope, double upperSlope) {
    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    /** The scores of ascending values. */
    static Scores of(double[] ascending) {
      int n = ascending.length;
      double[] values = new double[n];
      double[] ranks = new double[n];
      int different = 0;
      for (int from = 0; from < n; ) {
        int to = from;
        while (to < n && ascending[to] == ascending[from]) {
          to++;
        }
        values[different] = ascending[from];
        ranks[different++] = (from + 1 + to) / 2.0;
        from = to;
      }
      values = Arrays.copyOf(values, different);
      ranks = Arrays.copyOf(ranks, different);
      Sample sample = Sample.of(ascending);
      Scores inside = new Scores(values, ranks, n, 0, 0);
      double middle = 1 / Spread.of(sample).size();
      double p25 = Quantiles.of(sample, 0.25);
      double p75 = Quantiles.of(sample, 0.75);
      double lower =
          p25 > sample.min()
              ? Math.min(middle, (inside.at(p25) - inside.score(0)) / (p25 - sample.min()))
              : middle;
      double upper =
          p75 < sample.max()
              ? Math.min(
                  middle, (inside.score(different - 1) - inside.at(p75)) / (sample.max() - p75))
              : middle;
      return new Scores(values, ranks, n, lower, upper);
    }

    double[] each(double[] given) {
      return Arrays.stream(given).map(this::at).toArray();
    }

    private double score(int place) {
      return NORMAL.inverseCumulativeProbability((ranks[place] - 0.375) / (size + 0.25));
    }

    private double at(double value) {
      int last = values.length - 1;
      if (value <= values[0]) {
        return score(0) - lowerSlope * (values[0] - value);
      }
      if (value >= values[last]) {
        return score(last) + upperSlope * (value - values[last]);
      }
      int place = Arrays.binarySearch(values, value);
      if (place >= 0) {
        return score(place);
      }
      int above = -place - 1;
      double part = (value - values[above - 1]) / (values[above] - values[above - 1]);
      double below = score(above - 1);
      return below + part * (score(above) - below);
    }
  }
}
