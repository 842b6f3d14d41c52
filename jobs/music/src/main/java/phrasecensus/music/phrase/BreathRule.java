package phrasecensus.music.phrase;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import phrasecensus.music.score.Solo;

/**
 * A phrase begins where the line breathes: this project's own rule.
 *
 * <p>Between each note and the next it weighs silence in beats and seconds, the onset gap alone and
 * against its surroundings, how far the nearest longer pauses and rests lie, interval, metre,
 * section borders and the ends of the line. Besides silence itself, all has two weights, one for
 * lines in which rests tell the phrases and one for lines without rests, and a line takes its place
 * between them by how often it rests. The weighted sum is the logarithm of the odds for a boundary.
 * Then:
 *
 * <ol>
 *   <li>A line without rests that would have fewer boundaries than one in {@code expected-beats}
 *       beats has all its odds raised until it has as many: it must be sung, too. A line with few
 *       rests needs fewer in proportion.
 *   <li>Dynamic programming takes the boundaries with the largest sum of log odds above the {@code
 *       threshold}, less the squared log2 of each phrase's length against {@code preferred-beats}
 *       (onset to onset) times a weight, plus a bonus, in lines without rests, for a phrase that
 *       begins at the same place in the bar as the one before, and as much again if an even number
 *       of bars lies between.
 * </ol>
 *
 * Slashes and other stretches that are neither note nor rest always end a phrase. A file without
 * tempo is heard at 120 beats a minute. The numbers are in {@code breath.properties}, with what
 * they were made from and how; each is a setting. Cost: linear in the notes, and in the square of
 * the few places that come into question within 64 beats.
 */
public final class BreathRule implements PhraseRule {
  /** The name under which studies know the rule. */
  public static final String NAME = "breath";

  static final String THRESHOLD = "threshold";
  static final String LENGTH_WEIGHT = "length-weight";
  static final String LENGTH_WEIGHT_WITHOUT_RESTS = "length-weight-without-rests";
  static final String PREFERRED_BEATS = "preferred-beats";
  static final String EXPECTED_BEATS = "expected-beats";
  static final String BAR_BONUS = "bar-bonus";
  static final String ODDS = "odds";
  static final List<String> REGIMES = List.of("with-rests", "without-rests");

  private static final double PER_OCTAVE = 1 / StrictMath.log(2);

  /** Beyond three octaves of difference in length nothing more is charged. */
  private static final double LARGEST_LENGTH_COST = 9;

  /** The rule with the numbers of {@code breath.properties}. */
  public static final BreathRule DEFAULT = new BreathRule(resource());

  private final Map<String, Double> numbers;
  private final double[][] weights;
  private final double[] odds;

  /**
   * @param numbers a value for each of {@link #numberNames()}
   * @throws IllegalArgumentException if one is missing, unknown or out of range
   */
  BreathRule(Map<String, Double> numbers) {
    Map<String, Double> ordered = new LinkedHashMap<>();
    for (String name : numberNames()) {
      Double value = numbers.get(name);
      if (value == null || !Double.isFinite(value)) {
        throw new IllegalArgumentException(
            "Invalid " + name + " of phrase rule " + NAME + ": " + value);
      }
      ordered.put(name, value);
    }
    for (String name : List.of(LENGTH_WEIGHT, LENGTH_WEIGHT_WITHOUT_RESTS, BAR_BONUS)) {
      if (ordered.get(name) < 0) {
        throw new IllegalArgumentException(
            "Invalid " + name + ": " + ordered.get(name) + " is not zero or more");
      }
    }
    for (String name : List.of(PREFERRED_BEATS, EXPECTED_BEATS)) {
      if (ordered.get(name) <= 0) {
        throw new IllegalArgumentException(
            "Invalid " + name + ": " + ordered.get(name) + " is not positive");
      }
    }
    this.numbers = Collections.unmodifiableMap(ordered);
    BreathFeature[] features = BreathFeature.values();
    weights = new double[REGIMES.size()][features.length];
    odds = new double[REGIMES.size()];
    for (int regime = 0; regime < REGIMES.size(); regime++) {
      odds[regime] = ordered.get(REGIMES.get(regime) + "." + ODDS);
      for (BreathFeature feature : features) {
        weights[regime][feature.ordinal()] = ordered.get(numberName(regime, feature));
      }
    }
  }

  /** Names of all numbers, in the order in which settings list them. */
  static List<String> numberNames() {
    List<String> names =
        new ArrayList<>(
            List.of(
                THRESHOLD,
                LENGTH_WEIGHT,
                LENGTH_WEIGHT_WITHOUT_RESTS,
                PREFERRED_BEATS,
                EXPECTED_BEATS,
                BAR_BONUS));
    for (BreathFeature feature : BreathFeature.values()) {
      if (feature.isAlike()) {
        names.add(feature.word());
      }
    }
    for (int regime = 0; regime < REGIMES.size(); regime++) {
      names.add(REGIMES.get(regime) + "." + ODDS);
      for (BreathFeature feature : BreathFeature.values()) {
        if (!feature.isAlike()) {
          names.add(numberName(regime, feature));
        }
      }
    }
    return names;
  }

  /** Name of the weight of a feature in one regime; the same in both when it weighs alike. */
  static String numberName(int regime, BreathFeature feature) {
    return feature.isAlike() ? feature.word() : REGIMES.get(regime) + "." + feature.word();
  }

  /** The numbers of this rule by name. */
  Map<String, Double> numbers() {
    return numbers;
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Map<String, String> settings() {
    Map<String, String> settings = new LinkedHashMap<>();
    numbers.forEach((name, value) -> settings.put(name, Double.toString(value)));
    return Collections.unmodifiableMap(settings);
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    return boundaries(new BreathView(solo));
  }

  /**
   * Probability of a boundary between each note and the next, before phrase lengths are weighed;
   * one fewer than the notes of the solo, none for a solo without notes.
   */
  public double[] probabilities(Solo solo) {
    return Arrays.stream(logOdds(new BreathView(solo))).map(BreathRule::probability).toArray();
  }

  List<Integer> boundaries(BreathView view) {
    return boundaries(view, logOdds(view));
  }

  double[] logOdds(BreathView view) {
    double[] logOdds = new double[view.features.length];
    for (int i = 0; i < logOdds.length; i++) {
      double withRests = sum(0, view.features[i]);
      double without = sum(1, view.features[i]);
      logOdds[i] = (1 - view.withoutRests) * withRests + view.withoutRests * without;
    }
    double raise = raise(logOdds, view.withoutRests * view.beats[view.notes]);
    for (int i = 0; i < logOdds.length; i++) {
      logOdds[i] += raise;
    }
    return logOdds;
  }

  private double sum(int regime, double[] row) {
    double sum = odds[regime];
    for (int feature = 0; feature < row.length; feature++) {
      sum += weights[regime][feature] * row[feature];
    }
    return sum;
  }

  /**
   * What must be added to all log odds so that enough boundaries are expected; zero if they are.
   *
   * @param beats of the line, as far as it does without rests
   */
  private double raise(double[] logOdds, double beats) {
    double wanted = Math.min(beats / numbers.get(EXPECTED_BEATS) - 1, logOdds.length / 2.0);
    double low = 0;
    double high = 32;
    if (wanted <= 0 || expected(logOdds, low) >= wanted) {
      return 0;
    }
    for (int halving = 0; halving < 24; halving++) {
      double middle = (low + high) / 2;
      if (expected(logOdds, middle) < wanted) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static double expected(double[] logOdds, double raise) {
    double sum = 0;
    for (double value : logOdds) {
      sum += probability(value + raise);
    }
    return sum;
  }

  static double probability(double logOdds) {
    return 1 / (1 + StrictMath.exp(-logOdds));
  }

  private List<Integer> boundaries(BreathView view, double[] logOdds) {
    double lengthWeight =
        numbers.get(LENGTH_WEIGHT) + view.withoutRests * numbers.get(LENGTH_WEIGHT_WITHOUT_RESTS);
    double bonus = view.withoutRests * numbers.get(BAR_BONUS);
    double threshold = numbers.get(THRESHOLD);
    double preferred = numbers.get(PREFERRED_BEATS);
    // no boundary can gain more by the lengths and places of the phrases it makes
    double mostGained = LARGEST_LENGTH_COST * lengthWeight + 4 * bonus;
    List<Integer> candidates = new ArrayList<>();
    candidates.add(0);
    for (int i = 0; i < logOdds.length; i++) {
      if (view.unknown[i] || logOdds[i] - threshold + mostGained > 0) {
        candidates.add(i + 1);
      }
    }
    candidates.add(view.notes);
    int count = candidates.size();
    double[] best = new double[count];
    int[] before = new int[count];
    double reach = preferred * StrictMath.pow(2, StrictMath.sqrt(LARGEST_LENGTH_COST));
    int far = 0;
    int bestFar = -1;
    int forced = 0;
    for (int end = 1; end < count; end++) {
      int endNote = candidates.get(end);
      best[end] = Double.NEGATIVE_INFINITY;
      while (far < end && view.beats[endNote] - view.beats[candidates.get(far)] >= reach) {
        if (far >= forced && (bestFar < forced || best[far] > best[bestFar])) {
          bestFar = far;
        }
        far++;
      }
      if (bestFar >= forced) {
        best[end] = best[bestFar] - lengthWeight * LARGEST_LENGTH_COST;
        before[end] = bestFar;
      }
      for (int start = Math.max(far, forced); start < end; start++) {
        int startNote = candidates.get(start);
        double length = (view.beats[endNote] - view.beats[startNote]) / preferred;
        double octaves = StrictMath.log(length) * PER_OCTAVE;
        double score =
            best[start]
                - lengthWeight * Math.min(LARGEST_LENGTH_COST, octaves * octaves)
                + bonus * sameStart(view, startNote, endNote);
        if (score > best[end]) {
          best[end] = score;
          before[end] = start;
        }
      }
      if (endNote < view.notes) {
        best[end] += logOdds[endNote - 1] - threshold;
        if (view.unknown[endNote - 1]) {
          forced = end;
        }
      }
    }
    Deque<Integer> boundaries = new ArrayDeque<>();
    for (int end = before[count - 1]; end > 0; end = before[end]) {
      boundaries.addFirst(candidates.get(end));
    }
    return List.copyOf(boundaries);
  }

  /** 2 for phrases an even number of bars apart, 1 for an odd number, 0 for another distance. */
  private static int sameStart(BreathView view, int start, int end) {
    if (end >= view.notes
        || view.placeInBar[start] < 0
        || view.placeInBar[start] != view.placeInBar[end]) {
      return 0;
    }
    return (view.bar[end] - view.bar[start]) % 2 == 0 ? 2 : 1;
  }

  private static Map<String, Double> resource() {
    Properties properties = new Properties();
    try (InputStream stream = BreathRule.class.getResourceAsStream("breath.properties");
        Reader reader = new InputStreamReader(stream, StandardCharsets.UTF_8)) {
      properties.load(reader);
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read the numbers of phrase rule " + NAME, e);
    }
    Map<String, Double> numbers = new LinkedHashMap<>();
    for (String name : properties.stringPropertyNames()) {
      numbers.put(name, Double.valueOf(properties.getProperty(name)));
    }
    return numbers;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof BreathRule rule && numbers.equals(rule.numbers);
  }

  @Override
  public int hashCode() {
    return numbers.hashCode();
  }

  @Override
  public String toString() {
    return NAME + numbers;
  }
}
