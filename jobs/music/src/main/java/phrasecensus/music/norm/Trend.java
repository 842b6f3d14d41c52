package phrasecensus.music.norm;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * How the values of a statistic move over the days on which a player was heard.
 *
 * <p>The slope is the median of the slopes between all pairs of solos of different days (H. Theil,
 * 1950; P. K. Sen, "Estimates of the regression coefficient based on Kendall's tau", Journal of the
 * American Statistical Association 63 (1968) 1379-1389, doi:10.1080/01621459.1968.10480934). Its
 * interval takes two of those slopes by rank from the exact distribution of Kendall's statistic,
 * several solos of a day allowed for; above fifty solos from its normal form. Five dates are the
 * fewest with a 95 % interval when there is one solo a date.
 *
 * <p>A movement is clear when the interval leaves out 0. Where there are too few solos for an
 * interval it is called clear when every pair of dates goes the same way and the change comes to
 * half the group's spread at least; {@link #restsOnDirectionAlone} then says so, for three solos go
 * the same way by chance alone one time in three.
 *
 * @param solos number of values
 * @param dates number of different days
 * @param slopePerDay in the unit of the values a day; null below three dates, like the next two
 * @param change of the fitted line from the first day to the last, in the unit of the values
 * @param distanceChange how much further the fitted line lies from the middle band at the end than
 *     at the start, in the unit of the values; negative when nearer; null also without a band
 * @param slopeInterval 95 %, in the unit of the values a day; null when there are too few solos
 * @param movement the statement
 */
public record Trend(
    int solos,
    int dates,
    Double slopePerDay,
    Double change,
    Double distanceChange,
    Interval slopeInterval,
    Movement movement) {
  /** Fewer different days than this make no trend. */
  public static final int LEAST_DATES = 3;

  /** Without an interval, a change of less than this many spreads is no clear movement. */
  private static final double LEAST_CHANGE_IN_SPREADS = 0.5;

  /** Above this many solos the normal form is used. */
  private static final int MOST_EXACT = 50;

  /** The trend of {@code values}, in any order, held against a norm. */
  public static Trend of(List<DatedValue> values, Norm norm) {
    List<DatedValue> sorted =
        values.stream()
            .sorted(Comparator.comparing(DatedValue::date).thenComparingDouble(DatedValue::value))
            .toList();
    TreeMap<LocalDate, Integer> solosByDate = new TreeMap<>();
    sorted.forEach(value -> solosByDate.merge(value.date(), 1, Integer::sum));
    int n = sorted.size();
    if (solosByDate.size() < LEAST_DATES) {
      return new Trend(n, solosByDate.size(), null, null, null, null, Movement.TOO_FEW_DATES);
    }
    LocalDate first = solosByDate.firstKey();
    double[] days =
        sorted.stream()
            .mapToDouble(value -> value.date().toEpochDay() - first.toEpochDay())
            .toArray();
    List<Double> between = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        if (days[i] != days[j]) {
          between.add((sorted.get(j).value() - sorted.get(i).value()) / (days[j] - days[i]));
        }
      }
    }
    Sample slopes = Sample.of(between);
    double slope = slopes.median();
    double[] starts = new double[n];
    for (int i = 0; i < n; i++) {
      starts[i] = sorted.get(i).value() - slope * days[i];
    }
    double start = Sample.of(starts).median();
    double change = slope * days[n - 1];
    Interval interval =
        interval(slopes, solosByDate.values().stream().mapToInt(Integer::intValue).toArray());
    if (!norm.hasMiddleBand()) {
      return new Trend(n, solosByDate.size(), slope, change, null, interval, Movement.NO_NORM);
    }
    double distanceChange = distance(norm, start + change) - distance(norm, start);
    boolean inside = sorted.stream().allMatch(value -> distance(norm, value.value()) == 0);
    boolean clear =
        interval != null
            ? !interval.contains(0)
            : (slopes.min() > 0 || slopes.max() < 0)
                && Math.abs(change) >= LEAST_CHANGE_IN_SPREADS * norm.spread().size();
    Movement movement =
        inside
            ? Movement.STAYED_INSIDE
            : !clear || distanceChange == 0
                ? Movement.NO_CLEAR_MOVEMENT
                : distanceChange < 0 ? Movement.TOWARD_BAND : Movement.AWAY_FROM_BAND;
    return new Trend(n, solosByDate.size(), slope, change, distanceChange, interval, movement);
  }

  /** True when a movement is stated although there are too few solos for an interval. */
  public boolean restsOnDirectionAlone() {
    return slopeInterval == null
        && (movement == Movement.TOWARD_BAND || movement == Movement.AWAY_FROM_BAND);
  }

  private static double distance(Norm norm, double value) {
    return Math.max(0, Math.max(norm.p25() - value, value - norm.p75()));
  }

  private static Interval interval(Sample slopes, int[] solosOfDates) {
    double tail = (1 - Interval.USUAL_CONFIDENCE) / 2;
    int n = 0;
    for (int solos : solosOfDates) {
      n += solos;
    }
    int rank;
    if (n <= MOST_EXACT) {
      rank = RankCounts.rankWithin(tail, solosOfDates);
    } else {
      double variance = varianceTimes18(n);
      for (int solos : solosOfDates) {
        variance -= varianceTimes18(solos);
      }
      double z = NormalDistribution.of(0, 1).inverseSurvivalProbability(tail);
      rank = (int) Math.floor((slopes.size() - z * Math.sqrt(variance / 18)) / 2);
    }
    return rank < 1 || slopes.size() + 1 - 2 * rank < 0
        ? null
        : new Interval(
            slopes.at(rank - 1), slopes.at(slopes.size() - rank), Interval.USUAL_CONFIDENCE);
  }

  private static double varianceTimes18(double n) {
    return n * (n - 1) * (2 * n + 5);
  }
}
