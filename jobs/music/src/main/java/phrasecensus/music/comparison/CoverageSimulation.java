package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.apache.commons.statistics.distribution.NormalDistribution;
import phrasecensus.music.norm.BenjaminiHochberg;
import phrasecensus.music.norm.BootstrapDistribution;
import phrasecensus.music.norm.CliffsDelta;
import phrasecensus.music.norm.Cluster;
import phrasecensus.music.norm.ClusterBootstrap;
import phrasecensus.music.norm.ClusterBootstrap.Draw;
import phrasecensus.music.norm.CounterRandom;
import phrasecensus.music.norm.HodgesLehmann;
import phrasecensus.music.norm.Interval;
import phrasecensus.music.norm.NormValue;
import phrasecensus.music.norm.Norms;
import phrasecensus.music.norm.QuantileInterval;
import phrasecensus.music.norm.ResampledStatistic;
import phrasecensus.music.norm.Sample;

/**
 * Checks the intervals and tests of norms and comparison against a truth that is known, because the
 * corpus is drawn from it.
 *
 * <p>Model: the value of a phrase is player + solo + phrase, three independent normal parts whose
 * variances add up to 1. Phrases per solo are log-normal with median 19 and 5 and 95 % points at
 * about 6 and 53, at least 3: figures measured on transcribed jazz solos, where the intraclass
 * correlation of phrases in solos (player and solo part together) was .17 for notes in a phrase,
 * .30 for bars and .06 for chord-tone endings. The value of a solo is the mean of its phrases.
 * Monotone changes of scale do not matter to ranks; for means a skewed variant takes the
 * exponential of each solo's value.
 *
 * <p>Every draw comes from {@link CounterRandom}: the same settings give the same figures.
 */
public final class CoverageSimulation {
  private static final double MEDIAN_PHRASES = 19;
  private static final double SPREAD_OF_LOG_PHRASES = 0.66;
  private static final int LEAST_PHRASES = 3;

  private static final double THRESHOLD = 0.3;

  /** Equally likely numbers of phrases over which true values are averaged. */
  private static final int PHRASE_COUNTS = 2000;

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private CoverageSimulation() {}

  /**
   * A corpus to draw.
   *
   * @param players at least 1
   * @param solosOfEach solos of each player, at least 1
   * @param ofPlayers share of the variance of phrases that lies between players
   * @param ofSolos share that lies between solos of a player
   */
  public record Model(int players, int solosOfEach, double ofPlayers, double ofSolos) {
    /**
     * @throws IllegalArgumentException if a number is out of range
     */
    public Model {
      if (players < 1 || solosOfEach < 1) {
        throw new IllegalArgumentException(
            "Invalid corpus: " + players + " players of " + solosOfEach + " solos");
      }
      if (!(ofPlayers >= 0 && ofSolos >= 0 && ofPlayers + ofSolos < 1)) {
        throw new IllegalArgumentException(
            "Invalid shares of variance: " + ofPlayers + " and " + ofSolos);
      }
    }

    int solos() {
      return players * solosOfEach;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%d solos of %d players, ICC %.2f of which players %.2f",
          solos(),
          players,
          ofPlayers + ofSolos,
          ofPlayers);
    }
  }

  /** What a figure counts, and where it should lie. */
  public enum Kind {
    /** How often a 95 % interval holds the truth. */
    INTERVAL(.93, .97),
    /** How often a test at .05 finds what is not there. */
    FALSE_ALARM(.04, .06),
    /** Anything else. */
    OTHER(0, 1);

    private final double low;
    private final double high;

    Kind(double low, double high) {
      this.low = low;
      this.high = high;
    }
  }

  /** Why a figure lies outside its range. */
  public enum Reason {
    CHANCE("chance of so many rounds: it lies within two standard errors of its range"),
    FEW_PLAYERS(
        "fewer than six players of several solos: quantiles are widened, since so few say little of"
            + " how players differ, which is too wide where they hardly do and still narrow for"
            + " skewed values and shares where they do"),
    WIDENED_BY_CHANCE(
        "too wide on purpose: a design effect is never taken below 1, and the interval of a mean is"
            + " the wider of two, so that where players do not differ chance alone widens it"),
    CAUTIOUS_MODEL(
        "too few false alarms on purpose: how alike a player's solos are is averaged over what is"
            + " likely, and degrees of freedom are held down, which errs toward doubt"),
    NOT_EXPLAINED("not explained");

    private final String words;

    Reason(String words) {
      this.words = words;
    }

    /** In a sentence without its capital. */
    public String words() {
      return words;
    }
  }

  /**
   * One figure.
   *
   * @param what what was counted
   * @param setting of which model
   * @param share how often, from 0 to 1; NaN out of no round
   * @param rounds out of how many; fewer than were drawn where an interval was not always told
   * @param kind where it should lie
   * @param known why it may lie elsewhere in this setting; null where nothing is known that would
   */
  public record Figure(
      String what, String setting, double share, int rounds, Kind kind, Reason known) {
    /** Why it lies outside its range; empty where it does not, or out of no round. */
    public Optional<Reason> off() {
      if (rounds == 0 || share >= kind.low && share <= kind.high) {
        return Optional.empty();
      }
      if (known != null) {
        return Optional.of(known);
      }
      double beyond = share < kind.low ? kind.low - share : share - kind.high;
      return Optional.of(beyond <= 2 * standardError() ? Reason.CHANCE : Reason.NOT_EXPLAINED);
    }

    /** Monte-Carlo standard error of the share. */
    public double standardError() {
      return Math.sqrt(share * (1 - share) / rounds);
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT, "%-44s %-58s %.3f +- %.3f", what, setting, share, standardError());
    }
  }

  /**
   * The figures that a reader of the norms wants: corpora of 12 to 60 solos with and without
   * players of their own manner, a student of three and five solos, forty statistics tested.
   *
   * @param rounds corpora drawn for each setting, at least 1
   * @param seed of the study
   */
  public static List<Figure> usual(int rounds, long seed) {
    List<Figure> figures = new ArrayList<>();
    double[][] variances = {{0, 0.17}, {0.05, 0.12}, {0.10, 0.20}};
    int[][] corpora = {{12, 1}, {4, 3}, {6, 4}, {9, 4}, {4, 15}, {10, 6}};
    for (double[] variance : variances) {
      for (int[] corpus : corpora) {
        Model model = new Model(corpus[0], corpus[1], variance[0], variance[1]);
        figures.addAll(coverage(model, rounds, seed));
      }
    }
    for (double[] variance : variances) {
      Model model = new Model(8, 6, variance[0], variance[1]);
      for (int studentSolos : new int[] {3, 5}) {
        figures.addAll(departures(model, studentSolos, 40, 0, 0, rounds, seed));
        for (double shift : new double[] {2, 3, 4}) {
          figures.addAll(departures(model, studentSolos, 40, 6, shift, rounds, seed));
        }
      }
    }
    figures.addAll(descriptions(rounds, seed));
    for (double[] variance : variances) {
      for (Pair pair : PAIRS) {
        figures.addAll(contrasts(pair, variance[0], variance[1], rounds, seed));
      }
    }
    return List.copyOf(figures);
  }

  /**
   * Two groups to draw.
   *
   * @param first players who are in the first group alone
   * @param second players who are in the second alone
   * @param both players who are in both
   * @param firstSolos solos of each player in the first group
   * @param secondSolos solos of each player in the second
   */
  public record Pair(int first, int second, int both, int firstSolos, int secondSolos) {
    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%d players of %d solos beside %d of %d, %d more in both",
          first,
          firstSolos,
          second,
          secondSolos,
          both);
    }
  }

  private static final List<Pair> PAIRS =
      List.of(
          new Pair(12, 12, 0, 1, 1),
          new Pair(4, 4, 0, 3, 3),
          new Pair(4, 4, 0, 15, 15),
          new Pair(5, 5, 0, 4, 4),
          new Pair(6, 6, 0, 4, 4),
          new Pair(4, 12, 0, 12, 2),
          new Pair(12, 4, 0, 12, 2),
          new Pair(10, 10, 0, 6, 6),
          new Pair(0, 0, 4, 3, 3),
          new Pair(0, 0, 4, 15, 5),
          new Pair(5, 5, 1, 4, 4),
          new Pair(4, 4, 2, 3, 5),
          new Pair(3, 6, 3, 6, 2));

  /**
   * How often the interval of the difference of two groups holds it, and a difference is found
   * where there is none, or one of a standard deviation of a usual solo.
   *
   * @param ofPlayers share of the variance of phrases that lies between players
   * @param ofSolos share that lies between solos of a player
   */
  public static List<Figure> contrasts(
      Pair pair, double ofPlayers, double ofSolos, int rounds, long seed) {
    Count count =
        new Count(
            String.format(
                Locale.ROOT,
                "%s, ICC %.2f of which players %.2f",
                pair,
                ofPlayers + ofSolos,
                ofPlayers),
            null);
    int each = pair.firstSolos + pair.secondSolos;
    Model model = new Model(pair.first + pair.second + pair.both, each, ofPlayers, ofSolos);
    ShippedFigures shipped = shipped(model);
    double deviation =
        Math.sqrt(ofPlayers + ofSolos + (1 - ofPlayers - ofSolos) / RelativeVariance.USUAL_PHRASES);
    for (int round = 0; round < rounds; round++) {
      List<Solo> all = solos(model, seed, round);
      List<ComparedSolo> solos = new ArrayList<>();
      List<Boolean> firsts = new ArrayList<>();
      for (int i = 0; i < all.size(); i++) {
        int player = i / each;
        boolean first = i % each < pair.firstSolos;
        if (first
            ? player < pair.first || player >= pair.first + pair.second
            : player >= pair.first) {
          solos.add(all.get(i).compared(i, 0));
          firsts.add(first);
        }
      }
      for (double shift : new double[] {0, deviation}) {
        double[] values = new double[solos.size()];
        double[] relative = new double[values.length];
        boolean[] inFirst = new boolean[values.length];
        int[] player = new int[values.length];
        Map<String, Integer> players = new HashMap<>();
        for (int i = 0; i < values.length; i++) {
          ComparedSolo solo = solos.get(i);
          inFirst[i] = firsts.get(i);
          values[i] = solo.value() + (inFirst[i] ? shift : 0);
          relative[i] = RelativeVariance.of(shipped.noise(), solo.count());
          player[i] = players.computeIfAbsent(solo.player(), any -> players.size());
        }
        GroupContrast contrast =
            GroupContrast.of(
                    values,
                    inFirst,
                    player,
                    relative,
                    Correlation.prior(shipped.correlationMean()),
                    0,
                    seed)
                .orElseThrow();
        if (shift == 0) {
          count.add("interval of a difference exists", contrast.isTested());
          count.held(
              "interval of a difference",
              contrast.isTested()
                  ? Optional.of(contrast.low() <= 0 && 0 <= contrast.high())
                  : Optional.empty());
        }
        count.held(
            shift == 0 ? "false difference" : "difference found",
            shift == 0 ? Kind.FALSE_ALARM : Kind.OTHER,
            contrast.isTested() ? Optional.of(contrast.p() <= TestFamily.LEVEL) : Optional.empty());
      }
    }
    return count.figures();
  }

  /**
   * How often the intervals of a description hold the true value: few solos of a group, five to
   * ten, each standing for itself, beside five or eight of a student. What is described is the body
   * of solos that these are drawn from, and no other player.
   */
  public static List<Figure> descriptions(int rounds, long seed) {
    List<Figure> figures = new ArrayList<>();
    for (double ofSolos : new double[] {0.06, 0.17, 0.30}) {
      for (int groupSolos : new int[] {5, 7, 10}) {
        for (int studentSolos : new int[] {5, 8}) {
          figures.addAll(
              effectSizes(new Model(groupSolos, 1, 0, ofSolos), studentSolos, 0.5, rounds, seed));
        }
      }
    }
    return figures;
  }

  /**
   * How often the 95 % intervals that norms tell hold the true value: of the median and the
   * quartiles by ranks, of the mean over solos, of a mean of skewed values and of the pooled share
   * of phrases below 0.3 by bootstrap.
   *
   * @param rounds corpora drawn
   */
  public static List<Figure> coverage(Model model, int rounds, long seed) {
    double trueShare = NORMAL.cumulativeProbability(THRESHOLD);
    double[] spreads = spreadsOfSolos(model);
    double trueMean = trueSkewedMean(spreads);
    Count count =
        new Count(
            model.toString(),
            model.solosOfEach == 1
                ? null
                : model.players < ClusterBootstrap.ENOUGH_PLAYERS
                    ? Reason.FEW_PLAYERS
                    : Reason.WIDENED_BY_CHANCE);
    double[] quantiles = {0.25, 0.5, 0.75};
    double[] trueQuantiles = Arrays.stream(quantiles).map(p -> trueQuantile(spreads, p)).toArray();
    String[] names = {"lower quartile", "median", "upper quartile"};
    for (int round = 0; round < rounds; round++) {
      List<Solo> solos = solos(model, seed, round);
      Sample values = Sample.of(solos.stream().mapToDouble(Solo::mean).toArray());
      List<NormValue> byPlayer =
          solos.stream().map(solo -> new NormValue(solo.player, solo.mean())).toList();
      double widening = Norms.widening(byPlayer);
      for (int i = 0; i < quantiles.length; i++) {
        Optional<QuantileInterval> told =
            QuantileInterval.of(values, quantiles[i], Interval.USUAL_CONFIDENCE, widening);
        count.add("interval of the " + names[i] + " exists", told.isPresent());
        count.held("interval of the " + names[i], told.map(holds(trueQuantiles[i])));
      }
      double[] means = solos.stream().mapToDouble(Solo::mean).toArray();
      double[] skewed = Arrays.stream(means).map(Math::exp).toArray();
      double[] below = solos.stream().mapToDouble(solo -> solo.below(THRESHOLD)).toArray();
      double[] phrases = solos.stream().mapToDouble(solo -> solo.phrases.length).toArray();
      ClusterBootstrap bootstrap =
          ClusterBootstrap.of(solos.stream().map(solo -> solo.cluster).toList(), seed + round);
      bootstrap
          .meanInterval(means)
          .ifPresent(told -> count.held("interval of the mean", Optional.of(told.contains(0))));
      bootstrap
          .meanInterval(skewed)
          .ifPresent(
              told ->
                  count.held("interval of the mean, skewed", Optional.of(told.contains(trueMean))));
      bootstrap
          .ratioInterval(below, phrases)
          .ifPresent(
              told -> count.held("interval of the share", Optional.of(told.contains(trueShare))));
    }
    return count.figures();
  }

  /**
   * How often intervals hold the true value that norms do not tell: the percentile interval, the
   * expanded one and BCa, whatever is drawn.
   *
   * @param rounds corpora drawn
   * @param replicates resamples of each
   */
  public static List<Figure> coverageOfOthers(Model model, int rounds, int replicates, long seed) {
    double trueShare = NORMAL.cumulativeProbability(THRESHOLD);
    double trueMean = trueSkewedMean(spreadsOfSolos(model));
    Count count = new Count(model.toString(), null);
    for (int round = 0; round < rounds; round++) {
      List<Solo> solos = solos(model, seed, round);
      double[] means = solos.stream().mapToDouble(Solo::mean).toArray();
      double[] skewed = Arrays.stream(means).map(Math::exp).toArray();
      double[] below = solos.stream().mapToDouble(solo -> solo.below(THRESHOLD)).toArray();
      double[] phrases = solos.stream().mapToDouble(solo -> solo.phrases.length).toArray();
      List<Cluster> clusters = solos.stream().map(solo -> solo.cluster).toList();
      for (Draw draw : Draw.values()) {
        List<BootstrapDistribution> distributions =
            ClusterBootstrap.of(clusters, draw, seed + round)
                .distributions(
                    List.of(
                        ResampledStatistic.mean(means),
                        ResampledStatistic.mean(skewed),
                        ResampledStatistic.ratio(below, phrases)),
                    replicates);
        String by = ", " + draw.name().toLowerCase(Locale.ROOT).replace('_', ' ') + " drawn";
        count.intervals("mean" + by, distributions.get(0), 0);
        count.intervals("mean, skewed" + by, distributions.get(1), trueMean);
        count.intervals("share" + by, distributions.get(2), trueShare);
      }
    }
    return count.figures();
  }

  /** The mean of the exponential of a normal value is e to half its variance. */
  private static double trueSkewedMean(double[] spreads) {
    return Arrays.stream(spreads).map(s -> Math.exp(s * s / 2)).average().orElseThrow();
  }

  private static Function<QuantileInterval, Boolean> holds(double truth) {
    return interval -> interval.lower() <= truth && truth <= interval.upper();
  }

  /**
   * How often 95 % intervals of a student's effect sizes, on phrases, hold the true value: Cliff's
   * delta and the shift of a student whose own level lies {@code shift} above the corpus.
   *
   * @param studentSolos at least 3
   * @param shift in standard deviations of a phrase
   */
  public static List<Figure> effectSizes(
      Model model, int studentSolos, double shift, int rounds, long seed) {
    Count count =
        new Count(
            String.format(
                Locale.ROOT, "%s; student %d solos, shift %.1f", model, studentSolos, shift),
            null);
    double ofPhrases = 1 - model.ofPlayers - model.ofSolos;
    double trueDelta =
        2 * NORMAL.cumulativeProbability(shift / Math.sqrt(1 + model.ofSolos + ofPhrases)) - 1;
    Model student = new Model(1, studentSolos, 0, model.ofSolos / (1 - model.ofPlayers));
    double scale = Math.sqrt(1 - model.ofPlayers);
    for (int round = 0; round < rounds; round++) {
      List<double[]> corpus = byPlayer(solos(model, seed, round), model);
      List<double[]> own =
          solos(student, seed + 1, round).stream()
              .map(solo -> Arrays.stream(solo.phrases).map(v -> shift + scale * v).toArray())
              .toList();
      CliffsDelta delta = CliffsDelta.ofClusters(own, corpus);
      HodgesLehmann lehmann = HodgesLehmann.ofClusters(own, corpus);
      count.held("Cliff's delta, clustered", Optional.of(delta.interval().contains(trueDelta)));
      count.add("interval of the shift exists", lehmann.interval() != null);
      count.held(
          "shift, clustered",
          Optional.ofNullable(lehmann.interval()).map(interval -> interval.contains(shift)));
    }
    return count.figures();
  }

  /**
   * False departures and power: {@code statistics} are tested for a student who is one more player
   * of the corpus but for a shift in {@code shifted} of them, and adjusted for their number.
   *
   * @param statistics at least 1
   * @param shifted how many of them are shifted, from 0
   * @param shift in standard deviations of a solo's value in the corpus
   */
  public static List<Figure> departures(
      Model model,
      int studentSolos,
      int statistics,
      int shifted,
      double shift,
      int rounds,
      long seed) {
    Count count =
        new Count(
            String.format(
                Locale.ROOT,
                "%s; student %d solos, %d of %d shifted %.1f",
                model,
                studentSolos,
                shifted,
                statistics,
                shift),
            Reason.CAUTIOUS_MODEL);
    Model withStudent =
        new Model(
            model.players + 1,
            Math.max(model.solosOfEach, studentSolos),
            model.ofPlayers,
            model.ofSolos);
    double spread =
        Math.sqrt(
            model.ofPlayers
                + model.ofSolos
                + (1 - model.ofPlayers - model.ofSolos) / MEDIAN_PHRASES);
    ShippedFigures shipped = shipped(model);
    for (int round = 0; round < rounds; round++) {
      double[] pValues = new double[statistics];
      for (int statistic = 0; statistic < statistics; statistic++) {
        List<Solo> all = solos(withStudent, seed + statistic, round);
        List<ComparedSolo> corpus = new ArrayList<>();
        List<ComparedSolo> student = new ArrayList<>();
        double move = statistic < shifted ? shift * spread : 0;
        for (int i = 0; i < all.size(); i++) {
          int place = i % withStudent.solosOfEach;
          boolean isStudent = i / withStudent.solosOfEach == model.players;
          if (isStudent && place < studentSolos) {
            student.add(all.get(i).compared(i, move));
          } else if (!isStudent && place < model.solosOfEach) {
            corpus.add(all.get(i).compared(i, 0));
          }
        }
        StudentComparison comparison =
            StudentComparison.of(CorpusModel.of(shipped, corpus, false).whole(), student);
        pValues[statistic] = comparison.isTested() ? comparison.p() : 1;
      }
      double[] adjusted = BenjaminiHochberg.adjusted(pValues);
      boolean anyFalse = false;
      for (int statistic = 0; statistic < statistics; statistic++) {
        boolean called = adjusted[statistic] <= 0.05;
        if (statistic < shifted) {
          count.add("power after adjustment, a statistic", called);
          count.add("power unadjusted, a statistic", pValues[statistic] <= 0.05);
        } else {
          count.add("false after adjustment, a statistic", called);
          count.held(
              "false unadjusted, a statistic",
              Kind.FALSE_ALARM,
              Optional.of(pValues[statistic] <= 0.05));
          anyFalse |= called;
        }
      }
      if (shifted == 0) {
        count.add("false after adjustment, any of a student", anyFalse);
      }
    }
    return count.figures();
  }

  /** Standard deviation of a solo's value for each of many equally likely numbers of phrases. */
  private static double[] spreadsOfSolos(Model model) {
    double[] spreads = new double[PHRASE_COUNTS];
    for (int i = 0; i < PHRASE_COUNTS; i++) {
      int phrases = phrases(NORMAL.inverseCumulativeProbability((i + 0.5) / PHRASE_COUNTS));
      spreads[i] =
          Math.sqrt(
              model.ofPlayers + model.ofSolos + (1 - model.ofPlayers - model.ofSolos) / phrases);
    }
    return spreads;
  }

  /** By bisection on the mixture of normal distributions that solos come from. */
  private static double trueQuantile(double[] spreads, double probability) {
    double low = -10;
    double high = 10;
    while (high - low > 1e-9) {
      double middle = (low + high) / 2;
      double below =
          Arrays.stream(spreads)
              .map(spread -> NORMAL.cumulativeProbability(middle / spread))
              .average()
              .orElseThrow();
      if (below < probability) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }

  private static int phrases(double deviate) {
    return (int)
        Math.max(
            LEAST_PHRASES, Math.rint(MEDIAN_PHRASES * Math.exp(SPREAD_OF_LOG_PHRASES * deviate)));
  }

  /** What would be shipped of such a statistic, had it been made from many such solos. */
  private static ShippedFigures shipped(Model model) {
    double ofPhrases = (1 - model.ofPlayers - model.ofSolos) / RelativeVariance.USUAL_PHRASES;
    double within = model.ofSolos + ofPhrases;
    double correlation = model.ofPlayers / (model.ofPlayers + within);
    return new ShippedFigures(
        "simulated",
        Scale.PLAIN,
        ofPhrases / within,
        Math.min(.6, Math.max(.06, correlation)),
        new TempoSlopes.Shipped(TempoSlopes.NONE, 0, 0, 0),
        new TempoScale(60, 300),
        RelativeVariance.USUAL_PHRASES);
  }

  private record Solo(String player, Cluster cluster, double[] phrases) {
    ComparedSolo compared(int number, double move) {
      return new ComparedSolo(
          Integer.toString(number),
          player,
          "",
          mean() + move,
          phrases.length,
          phrases.length,
          Double.NaN);
    }

    double mean() {
      double sum = 0;
      for (double phrase : phrases) {
        sum += phrase;
      }
      return sum / phrases.length;
    }

    double below(double threshold) {
      return Arrays.stream(phrases).filter(phrase -> phrase < threshold).count();
    }
  }

  private static List<Solo> solos(Model model, long seed, int round) {
    List<Solo> solos = new ArrayList<>();
    double phraseSpread = Math.sqrt(1 - model.ofPlayers - model.ofSolos);
    for (int player = 0; player < model.players; player++) {
      CounterRandom random = CounterRandom.of(seed, round, player);
      double level = Math.sqrt(model.ofPlayers) * random.gaussian();
      for (int solo = 0; solo < model.solosOfEach; solo++) {
        double own = level + Math.sqrt(model.ofSolos) * random.gaussian();
        double[] phrases = new double[phrases(random.gaussian())];
        for (int phrase = 0; phrase < phrases.length; phrase++) {
          phrases[phrase] = own + phraseSpread * random.gaussian();
        }
        String name = "player " + player;
        solos.add(new Solo(name, new Cluster("", name, "solo " + solo), phrases));
      }
    }
    return solos;
  }

  /** The phrases of each player together: players are the units that differ independently. */
  private static List<double[]> byPlayer(List<Solo> solos, Model model) {
    List<double[]> players = new ArrayList<>();
    for (int player = 0; player < model.players; player++) {
      int from = player * model.solosOfEach;
      players.add(
          solos.subList(from, from + model.solosOfEach).stream()
              .flatMapToDouble(solo -> Arrays.stream(solo.phrases))
              .toArray());
    }
    return players;
  }

  /** Counts how often each thing held, in the order in which things were first counted. */
  private static final class Count {
    private final String setting;
    private final Reason known;
    private final LinkedHashMap<String, int[]> counts = new LinkedHashMap<>();
    private final Map<String, Kind> kinds = new HashMap<>();

    Count(String setting, Reason known) {
      this.setting = setting;
      this.known = known;
    }

    void add(String what, boolean held) {
      int[] count = counts.computeIfAbsent(what, each -> new int[2]);
      count[0] += held ? 1 : 0;
      count[1]++;
    }

    /** An interval that was not told counts in its own figure only. */
    void held(String what, Optional<Boolean> held) {
      held(what, Kind.INTERVAL, held);
    }

    void held(String what, Kind kind, Optional<Boolean> held) {
      kinds.put(what, kind);
      counts.computeIfAbsent(what, each -> new int[2]);
      held.ifPresent(yes -> add(what, yes));
    }

    void intervals(String what, BootstrapDistribution distribution, double truth) {
      double confidence = Interval.USUAL_CONFIDENCE;
      distribution
          .percentile(confidence)
          .ifPresent(i -> add(what + ": percentile", i.contains(truth)));
      distribution
          .expandedPercentile(confidence)
          .ifPresent(i -> add(what + ": expanded", i.contains(truth)));
      distribution.bca(confidence).ifPresent(i -> add(what + ": BCa", i.contains(truth)));
    }

    List<Figure> figures() {
      return counts.entrySet().stream()
          .map(
              entry ->
                  new Figure(
                      entry.getKey(),
                      setting,
                      (double) entry.getValue()[0] / entry.getValue()[1],
                      entry.getValue()[1],
                      kinds.getOrDefault(entry.getKey(), Kind.OTHER),
                      known))
          .toList();
    }
  }
}
