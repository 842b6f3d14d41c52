package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.commons.statistics.descriptive.Quantile;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;
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
   * <p>Cost of making one: solos times their logarithm, however many players there are; of a test:
   * the student's solos times that logarithm.
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
      this.scores = Scores.of(new Ascending(sample.values(), new int[0]));
      this.solos = sample.size();
      this.players = byPlayer.size();
      List<double[]> scored = new ArrayList<>();
      double sum = 0;
      double squares = 0;
      for (double[] player : byPlayer) {
        double[] own = Scores.of(Ascending.without(sample, player)).each(player);
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
              .map(player -> Ascending.without(sample, player))
              .allMatch(others -> others.at(0) < others.at(others.size() - 1));
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
  }

  /**
   * Ascending values of which some are passed over, without a copy.
   *
   * @param all ascending
   * @param absent places that are passed over, ascending
   */
  private record Ascending(double[] all, int[] absent) {
    /** All but some, which are among them and ascending. */
    static Ascending without(Sample sample, double[] some) {
      double[] all = sample.values();
      int[] absent = new int[some.length];
      for (int i = 0; i < some.length; i++) {
        // Of equal values the first ones.
        boolean again = i > 0 && some[i] == some[i - 1];
        absent[i] = again ? absent[i - 1] + 1 : sample.countBelow(some[i]);
      }
      return new Ascending(all, absent);
    }

    int size() {
      return all.length - absent.length;
    }

    double at(int place) {
      int low = 0;
      int high = absent.length;
      while (low < high) {
        int middle = (low + high) >>> 1;
        if (absent[middle] - middle > place) {
          high = middle;
        } else {
          low = middle + 1;
        }
      }
      return all[place + low];
    }

    /** How many values are below one, or at most it. */
    int count(double value, boolean atMost) {
      int low = 0;
      int high = size();
      while (low < high) {
        int middle = (low + high) >>> 1;
        double there = at(middle);
        if (atMost ? there <= value : there < value) {
          low = middle + 1;
        } else {
          high = middle;
        }
      }
      return low;
    }

    double quantile(double probability) {
      return Quantile.withDefaults()
          .with(EstimationMethod.HF8)
          .evaluate(size(), this::at, probability);
    }

    /** As {@link Spread}, which is asked only where the quartiles are equal. */
    double spread(double p25, double p75) {
      if (p75 > p25) {
        return (p75 - p25) / Quantiles.NORMAL_INTERQUARTILE_RANGE;
      }
      double[] copy = new double[size()];
      for (int i = 0; i < copy.length; i++) {
        copy[i] = at(i);
      }
      return Spread.of(Sample.of(copy)).size();
    }
  }

  /**
   * Normal scores of a group, as a line through its different values. The scores themselves are
   * made when asked for: of most groups only a player's few are.
   */
  private record Scores(Ascending values, double lowerSlope, double upperSlope) {
    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    static Scores of(Ascending values) {
      Scores inside = new Scores(values, 0, 0);
      double p25 = values.quantile(0.25);
      double p75 = values.quantile(0.75);
      double min = values.at(0);
      double max = values.at(values.size() - 1);
      double middle = 1 / values.spread(p25, p75);
      double lower =
          p25 > min ? Math.min(middle, (inside.at(p25) - inside.at(min)) / (p25 - min)) : middle;
      double upper =
          p75 < max ? Math.min(middle, (inside.at(max) - inside.at(p75)) / (max - p75)) : middle;
      return new Scores(values, lower, upper);
    }

    double[] each(double[] given) {
      return Arrays.stream(given).map(this::at).toArray();
    }

    /** The score of a value of the group, of equal ones the middle rank. */
    private double score(int below, int atMost) {
      double rank = (below + 1 + atMost) / 2.0;
      return NORMAL.inverseCumulativeProbability((rank - 0.375) / (values.size() + 0.25));
    }

    private double scoreOf(double member) {
      return score(values.count(member, false), values.count(member, true));
    }

    private double at(double value) {
      int size = values.size();
      int below = values.count(value, false);
      int atMost = values.count(value, true);
      if (atMost > below) {
        return score(below, atMost);
      }
      if (below == 0) {
        double min = values.at(0);
        return scoreOf(min) - lowerSlope * (min - value);
      }
      if (below == size) {
        double max = values.at(size - 1);
        return scoreOf(max) + upperSlope * (value - max);
      }
      double under = values.at(below - 1);
      double over = values.at(below);
      double part = (value - under) / (over - under);
      double low = scoreOf(under);
      return low + part * (scoreOf(over) - low);
    }
  }
}
