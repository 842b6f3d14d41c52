package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Makes the figures of {@link ShippedFigures} from solos with halves: how much of a solo's variance
 * its length makes, how it goes with tempo, and how alike solos of a player are. Each depends on
 * the others, so they are made in turn until nothing moves.
 */
public final class ShippedTraining {
  private static final int MOST_ROUNDS = 40;
  private static final double SETTLED = 1e-12;
  private static final double MOST_NOISE = .9;
  private static final double LEAST_CORRELATION = .06;
  private static final double MOST_CORRELATION = .6;

  private ShippedTraining() {}

  /**
   * The figures of one statistic.
   *
   * @param statistic its key
   * @param scale on which it is compared
   * @param corpus every solo, all with a tempo, sorted into groups by style; those without a value
   *     are left out of everything but the range of tempo
   * @throws IllegalArgumentException if a solo has no tempo, or fewer than two solos have halves
   */
  public static ShippedFigures figures(String statistic, Scale scale, List<HalvedSolo> corpus) {
    double[] tempos = corpus.stream().mapToDouble(each -> each.solo().tempo()).toArray();
    if (!corpus.stream().allMatch(each -> each.solo().hasTempo())) {
      throw new IllegalArgumentException("Invalid corpus: a solo has no tempo");
    }
    TempoScale tempoScale =
        new TempoScale(
            Arrays.stream(tempos).min().orElseThrow(), Arrays.stream(tempos).max().orElseThrow());
    List<HalvedSolo> halved =
        corpus.stream().filter(each -> !Double.isNaN(each.solo().on(scale))).toList();
    int n = halved.size();
    double[] x = new double[n];
    double[] u = new double[n];
    double[] uu = new double[n];
    int[] group = new int[n];
    Map<String, List<Integer>> members = new LinkedHashMap<>();
    for (int i = 0; i < n; i++) {
      ComparedSolo solo = halved.get(i).solo();
      x[i] = solo.on(scale);
      u[i] = tempoScale.doublings(solo.tempo());
      uu[i] = u[i] * u[i];
      List<Integer> own = members.computeIfAbsent(solo.group(), name -> new ArrayList<>());
      own.add(i);
    }
    int code = 0;
    for (List<Integer> own : members.values()) {
      for (int i : own) {
        group[i] = code;
      }
      code++;
    }
    double noise = 0;
    for (int round = 0; ; round++) {
      double[] variance = new double[n];
      for (int i = 0; i < n; i++) {
        variance[i] = RelativeVariance.of(noise, halved.get(i).solo().count());
      }
      TempoSlopes.Sums sums = TempoSlopes.sums(x, u, uu, group, members.size(), variance);
      TempoSlopes slopes = sums.alone();
      List<GroupSums> parts = new ArrayList<>();
      for (List<Integer> own : members.values()) {
        double[] values = new double[own.size()];
        double[] relative = new double[own.size()];
        int[] player = new int[own.size()];
        Map<String, Integer> players = new HashMap<>();
        for (int i = 0; i < values.length; i++) {
          int at = own.get(i);
          values[i] = x[at] - slopes.at(u[at], uu[at]);
          relative[i] = variance[at];
          player[i] =
              players.computeIfAbsent(halved.get(at).solo().player(), name -> players.size());
        }
        parts.add(GroupSums.of(values, player, relative));
      }
      OtherGroups.Pooled pooled = OtherGroups.Pooled.of(parts, Correlation.flat());
      double correlation = pooled.correlation();
      Reliability reliability =
          Reliability.of(
              HalvedSolo.on(
                  scale,
                  halved,
                  solo -> {
                    double doublings = tempoScale.doublings(solo.tempo());
                    return slopes.at(doublings, doublings * doublings);
                  }));
      double found =
          Math.min(
              MOST_NOISE,
              reliability.phraseVariance()
                  / RelativeVariance.USUAL_PHRASES
                  / ((1 - correlation) * pooled.variance()));
      boolean settled = Math.abs(found - noise) < SETTLED;
      if (!settled) {
        noise = found;
      }
      if (settled || round == MOST_ROUNDS - 1) {
        return new ShippedFigures(
            statistic,
            scale,
            noise,
            Math.min(MOST_CORRELATION, Math.max(LEAST_CORRELATION, correlation)),
            new TempoSlopes.Shipped(
                slopes,
                sums.uu() / sums.weight(),
                sums.uq() / sums.weight(),
                sums.qq() / sums.weight()),
            tempoScale,
            reliability.phrasesForHalf());
      }
    }
  }
}
