package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/**
 * The comparison held against real players: each is left out in turn and compared, as a student,
 * with solos of others of the same group, once as played and twice with known shifts put in. What
 * is found as played is a false alarm; of what was put in, the share found is the power.
 */
public final class Acceptance {
  private static final int[] SHIFTS = {0, 2, 3};
  private static final double STRICT = .01;

  private final List<Statistic> statistics;
  private final TreeMap<String, TreeMap<String, Double>> deviations = new TreeMap<>();
  private final Map<String, List<CorpusModel>> models = new HashMap<>();
  private final TreeMap<Integer, TreeMap<Integer, LinkedHashMap<String, List<Counted>>>> counted =
      new TreeMap<>();

  /**
   * One statistic of the whole corpus.
   *
   * @param key in the catalogue
   * @param facet which question it belongs to
   * @param headline true where it answers the question
   * @param shipped what is known of it beforehand
   * @param solos every solo of the corpus
   */
  public record Statistic(
      String key,
      String facet,
      boolean headline,
      ShippedFigures shipped,
      List<ComparedSolo> solos) {}

  /**
   * One round.
   *
   * @param student solos of the player who is the student
   * @param reference solos of the group that the student is held against
   * @param question facet that the shifts are in
   * @param shifted statistics that are shifted, with their signs
   */
  public record Round(
      int k,
      String round,
      String group,
      String player,
      List<String> student,
      Set<String> reference,
      String question,
      Map<String, Integer> shifted) {}

  /** A figure of one round. */
  private record Counted(String player, double value) {}

  /**
   * A figure over rounds.
   *
   * @param k solos of a student
   * @param shift in standard deviations of the group's solos
   * @param error standard error, players being independent
   * @param players players of groups behind it
   */
  public record Figure(
      int k, int shift, String measure, double value, double error, int rounds, int players) {}

  /** An acceptance of these statistics; nothing is counted yet. */
  public Acceptance(List<Statistic> statistics) {
    this.statistics = List.copyOf(statistics);
    for (Statistic statistic : statistics) {
      Set<String> groups = new HashSet<>();
      statistic.solos.forEach(solo -> groups.add(solo.group()));
      CorpusModel whole = CorpusModel.of(statistic.shipped, statistic.solos, false);
      TreeMap<String, Double> own = new TreeMap<>();
      groups.forEach(group -> own.put(group, whole.deviation(group)));
      deviations.put(statistic.key, own);
    }
  }

  /**
   * Reads rounds, a line each: k, round, group, player, student and reference (solos parted by
   * semicolons), question, shifted (statistic:+1 or statistic:-1, parted by semicolons).
   *
   * @throws IllegalArgumentException if the header or a line is of another kind
   */
  public static List<Round> rounds(String text) {
    List<String> lines = text.lines().toList();
    if (lines.isEmpty()
        || !lines.get(0).equals("k,round,group,player,student,reference,question,shifted")) {
      throw new IllegalArgumentException(
          "Invalid design: its first line is not k,round,group,player,student,reference,question,"
              + "shifted");
    }
    List<Round> rounds = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      if (cells.length != 8) {
        throw new IllegalArgumentException("Invalid round: " + line);
      }
      Map<String, Integer> shifted = new LinkedHashMap<>();
      for (String part : cells[7].split(";")) {
        String[] parts = part.split(":");
        if (parts.length != 2) {
          throw new IllegalArgumentException("Invalid shift: " + part);
        }
        shifted.put(parts[0], Integer.parseInt(parts[1]));
      }
      rounds.add(
          new Round(
              Integer.parseInt(cells[0]),
              cells[1],
              cells[2],
              cells[3],
              List.of(cells[4].split(";")),
              new HashSet<>(Arrays.asList(cells[5].split(";"))),
              cells[6],
              shifted));
    }
    return rounds;
  }

  /**
   * Runs a round and counts it.
   *
   * @return p of every statistic as played, in their order; NaN where not tested
   * @throws IllegalArgumentException if the corpus does not know a solo of it
   */
  public double[] run(Round round) {
    List<CorpusModel> without =
        models.computeIfAbsent(
            round.player,
            player ->
                statistics.stream()
                    .map(
                        statistic ->
                            CorpusModel.of(
                                statistic.shipped,
                                statistic.solos.stream()
                                    .filter(solo -> !solo.player().equals(round.player))
                                    .toList(),
                                true))
                    .toList());
    int size = statistics.size();
    double[][] p = new double[SHIFTS.length][size];
    double[] phrases = new double[size];
    List<Double> predicted = new ArrayList<>();
    List<Double> predictedStrong = new ArrayList<>();
    for (int j = 0; j < size; j++) {
      Statistic statistic = statistics.get(j);
      Map<String, ComparedSolo> own = new HashMap<>();
      for (ComparedSolo solo : statistic.solos) {
        if (round.student.contains(solo.soloId())) {
          own.put(solo.soloId(), solo);
        }
      }
      if (own.size() != round.student.size()) {
        throw new IllegalArgumentException(
            "Invalid round " + round.round + ": the corpus has no such solos as its student's");
      }
      GroupComparison group = without.get(j).sample(round.group, round.reference);
      StudentComparison comparison =
          StudentComparison.of(group, round.student.stream().map(own::get).toList());
      phrases[j] = comparison.phrases();
      double deviation = deviations.get(statistic.key).getOrDefault(round.group, Double.NaN);
      Integer sign = round.shifted.get(statistic.key);
      for (int s = 0; s < SHIFTS.length; s++) {
        p[s][j] =
            sign == null || SHIFTS[s] == 0
                ? s == 0 ? comparison.p() : p[0][j]
                : comparison.p(SHIFTS[s] * sign * deviation);
      }
      if (sign != null && statistic.headline && comparison.isTested()) {
        double relative = comparison.mean().solos() / comparison.mean().omega();
        double unit = deviation / Math.sqrt(group.mixture().orElseThrow().variance());
        Planning planning = group.planning().orElseThrow();
        predicted.add(
            planning.power(2 * unit, comparison.mean().solos(), relative, TestFamily.LEVEL));
        predictedStrong.add(
            planning.power(3 * unit, comparison.mean().solos(), relative, TestFamily.LEVEL));
      }
    }
    for (int s = 0; s < SHIFTS.length; s++) {
      count(round, SHIFTS[s], p[s], phrases, SHIFTS[s] == 2 ? predicted : predictedStrong);
    }
    return p[0];
  }

  private void count(Round round, int shift, double[] p, double[] phrases, List<Double> predicted) {
    List<StudentVerdicts.Tested> tested = new ArrayList<>();
    for (int j = 0; j < p.length; j++) {
      Statistic statistic = statistics.get(j);
      tested.add(
          new StudentVerdicts.Tested(
              statistic.key,
              statistic.facet,
              statistic.headline,
              p[j],
              phrases[j],
              statistic.shipped.phrasesForHalf()));
    }
    StudentVerdicts verdicts = StudentVerdicts.of(tested);
    boolean[] all = clearOfAll(p);
    int[] ok = places(p.length, j -> !Double.isNaN(p[j]));
    int[] headlines =
        places(
            p.length,
            j -> verdicts.statistics().get(j).family() == StudentVerdicts.Family.HEADLINES);
    int[] eligible =
        places(
            p.length, j -> verdicts.statistics().get(j).family() == StudentVerdicts.Family.OTHERS);
    boolean anyQuestion =
        verdicts.questions().stream().anyMatch(StudentVerdicts.Question::isDifferent);
    boolean anyHeadline = any(headlines, j -> verdicts.statistics().get(j).clear());
    boolean anyOther = any(eligible, j -> verdicts.statistics().get(j).clear());
    if (shift == 0) {
      put(round, shift, "p <= .05", share(ok, j -> p[j] <= TestFamily.LEVEL));
      put(round, shift, "p <= .01", share(ok, j -> p[j] <= STRICT));
      put(round, shift, "headline p <= .05", share(headlines, j -> p[j] <= TestFamily.LEVEL));
      put(round, shift, "any question", anyQuestion ? 1 : 0);
      put(round, shift, "any headline, BH of 6", anyHeadline ? 1 : 0);
      put(round, shift, "any other, BH of eligible", anyOther ? 1 : 0);
      put(round, shift, "any at all", anyQuestion || anyHeadline || anyOther ? 1 : 0);
      put(round, shift, "any, BH of all", any(ok, j -> all[j]) ? 1 : 0);
      put(round, shift, "eligible others", eligible.length);
      return;
    }
    int[] h = Arrays.stream(headlines).filter(j -> isShifted(round, j)).toArray();
    int[] o = Arrays.stream(eligible).filter(j -> isShifted(round, j)).toArray();
    if (h.length > 0) {
      put(round, shift, "headline alone", share(h, j -> p[j] <= TestFamily.LEVEL));
      put(
          round,
          shift,
          "headline alone, predicted",
          predicted.stream().mapToDouble(Double::doubleValue).average().orElse(Double.NaN));
      put(round, shift, "headline, BH of 6", share(h, j -> verdicts.statistics().get(j).clear()));
      put(
          round,
          shift,
          "question",
          verdicts.questions().stream()
                  .anyMatch(each -> each.facet().equals(round.question) && each.isDifferent())
              ? 1
              : 0);
    }
    if (o.length > 0) {
      put(
          round,
          shift,
          "other, BH of eligible",
          share(o, j -> verdicts.statistics().get(j).clear()));
    }
    int[] moved = Arrays.stream(ok).filter(j -> isShifted(round, j)).toArray();
    put(round, shift, "BH of all", share(moved, j -> all[j]));
    int found = (int) Arrays.stream(ok).filter(j -> all[j]).count();
    int wrong = (int) Arrays.stream(ok).filter(j -> all[j] && !isShifted(round, j)).count();
    put(round, shift, "false share, BH of all", (double) wrong / Math.max(1, found));
    put(
        round,
        shift,
        "another question",
        verdicts.questions().stream()
                .anyMatch(each -> each.isDifferent() && !each.facet().equals(round.question))
            ? 1
            : 0);
  }

  private boolean isShifted(Round round, int place) {
    return round.shifted.containsKey(statistics.get(place).key);
  }

  private static boolean[] clearOfAll(double[] p) {
    int[] ok = places(p.length, j -> !Double.isNaN(p[j]));
    TestFamily family = TestFamily.of(Arrays.stream(ok).mapToDouble(j -> p[j]).toArray());
    boolean[] clear = new boolean[p.length];
    for (int i = 0; i < ok.length; i++) {
      clear[ok[i]] = family.isClear(i);
    }
    return clear;
  }

  private static int[] places(int size, IntPredicate kept) {
    return IntStream.range(0, size).filter(kept).toArray();
  }

  private static boolean any(int[] places, IntPredicate test) {
    return Arrays.stream(places).anyMatch(test);
  }

  private static double share(int[] places, IntPredicate test) {
    return places.length == 0
        ? Double.NaN
        : (double) Arrays.stream(places).filter(test).count() / places.length;
  }

  private void put(Round round, int shift, String measure, double value) {
    if (!Double.isNaN(value)) {
      counted
          .computeIfAbsent(round.k, k -> new TreeMap<>())
          .computeIfAbsent(shift, any -> new LinkedHashMap<>())
          .computeIfAbsent(measure, any -> new ArrayList<>())
          .add(new Counted(round.group + "\u0000" + round.player, value));
    }
  }

  /** Every figure of what was run, by solos of a student, shift and measure. */
  public List<Figure> figures() {
    List<Figure> figures = new ArrayList<>();
    counted.forEach(
        (k, shifts) ->
            shifts.forEach(
                (shift, measures) ->
                    measures.forEach(
                        (measure, values) -> figures.add(figure(k, shift, measure, values)))));
    return figures;
  }

  private static Figure figure(int k, int shift, String measure, List<Counted> values) {
    double mean = values.stream().mapToDouble(Counted::value).average().orElseThrow();
    TreeMap<String, Double> apart = new TreeMap<>();
    for (Counted each : values) {
      apart.merge(each.player, each.value - mean, Double::sum);
    }
    int players = apart.size();
    double squares = apart.values().stream().mapToDouble(sum -> sum * sum).sum();
    double error = Math.sqrt(squares * players / Math.max(1, players - 1)) / values.size();
    return new Figure(k, shift, measure, mean, error, values.size(), players);
  }
}
