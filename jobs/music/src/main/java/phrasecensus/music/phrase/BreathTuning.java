package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import phrasecensus.music.phrase.BoundaryAgreement.FirstNote;
import phrasecensus.music.score.Solo;

/**
 * Finds the numbers of the {@code breath} rule from solos whose phrases people marked.
 *
 * <p>The weights come from a logistic regression with a small ridge penalty, by Newton's method
 * from zero, in a fixed order: the same solos give the same numbers. Each solo is heard as written,
 * and again with its shorter rests, or all of them, heard as part of the notes before: so the rule
 * also learns lines whose transcriber wrote few rests or none. A weight whose sign would make no
 * musical sense ({@link BreathFeature#sign()}) is left out and the rest fitted again. Threshold and
 * length weight are the ones with the best mean F1 on the same solos; what the written rests cannot
 * teach is fixed by hand ({@link #byHand()}).
 */
public final class BreathTuning {
  /** Beats below which silences are filled in each hearing of a solo. */
  private static final double[] FILLED_BEATS = {0, 1, 2, Double.POSITIVE_INFINITY};

  /** What a note of each hearing weighs. */
  private static final double[] HEARING_WEIGHTS = {1, 0.1, 0.1, 0.5};

  /** Each note of a solo weighs this over the phrases of the solo, so that solos weigh alike. */
  private static final double TYPICAL_PHRASES = 20;

  private static final double RIDGE = 1;
  private static final int FEATURES = BreathFeature.values().length;
  private static final int COLUMNS = 2 + 2 * FEATURES;
  private static final boolean[] ALIKE = new boolean[FEATURES];

  static {
    for (BreathFeature feature : BreathFeature.values()) {
      ALIKE[feature.ordinal()] = feature.isAlike();
    }
  }

  private static final int NEWTON_STEPS = 7;
  private static final double[] THRESHOLDS = {-0.6, -0.4, -0.2, 0};

  private BreathTuning() {}

  /**
   * A solo and where people hear phrases begin.
   *
   * @param name of the solo, unique
   * @param group what must not be on both sides of a cross-validation: the player
   * @param solo the solo
   * @param truth inner boundaries, ascending
   */
  public record Example(String name, String group, Solo solo, List<Integer> truth) {
    public Example {
      truth = List.copyOf(truth);
    }
  }

  /**
   * The rule with the numbers that fit all examples.
   *
   * @throws IllegalArgumentException if there is no example
   */
  public static BreathRule tuned(List<Example> examples) {
    return tunedOn(heard(examples));
  }

  /**
   * Boundaries that the rule finds in each example when tuned without that example's group; in the
   * order of the examples. Groups are dealt to the folds in the order of their names.
   *
   * @param folds at least 2, at most the number of groups
   */
  public static List<List<Integer>> crossValidated(List<Example> examples, int folds) {
    List<Heard> heard = heard(examples);
    List<String> groups =
        List.copyOf(new TreeSet<>(examples.stream().map(Example::group).toList()));
    if (folds < 2 || folds > groups.size()) {
      throw new IllegalArgumentException(
          "Cannot divide " + groups.size() + " groups into " + folds + " folds");
    }
    List<BreathRule> rules = new ArrayList<>();
    for (int fold = 0; fold < folds; fold++) {
      List<Heard> training = new ArrayList<>();
      for (Heard one : heard) {
        if (groups.indexOf(one.example.group()) % folds != fold) {
          training.add(one);
        }
      }
      rules.add(tunedOn(training));
    }
    List<List<Integer>> found = new ArrayList<>();
    for (Heard one : heard) {
      BreathRule rule = rules.get(groups.indexOf(one.example.group()) % folds);
      found.add(rule.boundaries(one.views[0]));
    }
    return found;
  }

  /**
   * The text of {@code breath.properties} for a rule.
   *
   * @param comment lines that say what the numbers were made from, with licence, and how
   */
  public static String properties(BreathRule rule, List<String> comment) {
    StringBuilder text = new StringBuilder();
    comment.forEach(line -> text.append("# ").append(line).append('\n'));
    rule.numbers()
        .forEach(
            (name, value) ->
                text.append(name)
                    .append(" = ")
                    .append(String.format(Locale.ROOT, "%.4f", value))
                    .append('\n'));
    return text.toString();
  }

  /** The numbers that are not tuned. */
  static Map<String, Double> byHand() {
    Map<String, Double> numbers = new LinkedHashMap<>();
    numbers.put(BreathRule.LENGTH_WEIGHT, 0.1);
    numbers.put(BreathRule.LENGTH_WEIGHT_WITHOUT_RESTS, 0.3);
    numbers.put(BreathRule.PREFERRED_BEATS, 8.0);
    numbers.put(BreathRule.EXPECTED_BEATS, 8.0);
    numbers.put(BreathRule.BAR_BONUS, 0.5);
    return numbers;
  }

  private static List<Heard> heard(List<Example> examples) {
    if (examples.isEmpty()) {
      throw new IllegalArgumentException("Cannot tune on no example");
    }
    return examples.stream().map(Heard::new).toList();
  }

  private static BreathRule tunedOn(List<Heard> training) {
    Map<String, Double> numbers = byHand();
    numbers.put(BreathRule.THRESHOLD, 0.0);
    numbers.putAll(weights(training));
    BreathRule best = null;
    double bestF1 = -1;
    for (double threshold : THRESHOLDS) {
      numbers.put(BreathRule.THRESHOLD, threshold);
      BreathRule rule = new BreathRule(numbers);
      double f1 = meanF1(rule, training);
      if (f1 > bestF1) {
        bestF1 = f1;
        best = rule;
      }
    }
    return best;
  }

  private static double meanF1(BreathRule rule, List<Heard> heard) {
    return BoundaryAgreement.mean(
            heard.stream()
                .map(
                    one ->
                        BoundaryAgreement.exact(
                            one.example.truth(),
                            rule.boundaries(one.views[0]),
                            one.example.solo().notes().size(),
                            FirstNote.NOT_COUNTED))
                .toList())
        .f1();
  }

  /** Weights by name, with signs as {@link BreathFeature#sign()} asks. */
  private static Map<String, Double> weights(List<Heard> training) {
    Regression regression = new Regression(training);
    boolean[] used = new boolean[COLUMNS];
    Arrays.fill(used, true);
    while (true) {
      double[] weights = regression.weights(used);
      boolean sensible = true;
      for (int regime = 0; regime < 2; regime++) {
        for (BreathFeature feature : BreathFeature.values()) {
          int column = column(regime, feature);
          if (weights[column] * feature.sign() < 0) {
            used[column] = false;
            sensible = false;
          }
        }
      }
      if (sensible) {
        Map<String, Double> named = new LinkedHashMap<>();
        for (int regime = 0; regime < 2; regime++) {
          named.put(BreathRule.REGIMES.get(regime) + "." + BreathRule.ODDS, weights[regime]);
          for (BreathFeature feature : BreathFeature.values()) {
            named.put(BreathRule.numberName(regime, feature), weights[column(regime, feature)]);
          }
        }
        return named;
      }
    }
  }

  /** Column of a feature in the regression; the first two are the intercepts. */
  private static int column(int regime, BreathFeature feature) {
    int first = feature.isAlike() ? 0 : regime * FEATURES;
    return 2 + first + feature.ordinal();
  }

  /** An example with its hearings. */
  private static final class Heard {
    private final Example example;
    private final BreathView[] views = new BreathView[FILLED_BEATS.length];
    private final boolean[] boundary;
    private final double weight;

    Heard(Example example) {
      this.example = example;
      for (int hearing = 0; hearing < views.length; hearing++) {
        views[hearing] = new BreathView(example.solo(), FILLED_BEATS[hearing]);
      }
      boundary = new boolean[Math.max(0, example.solo().notes().size() - 1)];
      example.truth().forEach(note -> boundary[note - 1] = true);
      weight = TYPICAL_PHRASES / (1 + example.truth().size());
    }
  }

  /** Logistic regression with a ridge penalty on standardised columns. */
  private static final class Regression {
    private final List<Heard> training;
    private final double[] deviations;

    Regression(List<Heard> training) {
      this.training = training;
      double[] sums = new double[COLUMNS];
      double[] squares = new double[COLUMNS];
      double[] row = new double[COLUMNS];
      double total = 0;
      for (Heard one : training) {
        for (int hearing = 0; hearing < FILLED_BEATS.length; hearing++) {
          BreathView view = one.views[hearing];
          double weight = HEARING_WEIGHTS[hearing] * one.weight;
          for (double[] features : view.features) {
            fill(row, features, view.withoutRests);
            for (int column = 0; column < COLUMNS; column++) {
              sums[column] += weight * row[column];
              squares[column] += weight * row[column] * row[column];
            }
            total += weight;
          }
        }
      }
      deviations = new double[COLUMNS];
      for (int column = 0; column < COLUMNS; column++) {
        double mean = sums[column] / total;
        deviations[column] = Math.sqrt(Math.max(0, squares[column] / total - mean * mean));
      }
    }

    /** Weight of each used column on its own scale; zero for the others and for constant ones. */
    double[] weights(boolean[] used) {
      int[] kept = new int[COLUMNS];
      int count = 0;
      for (int column = 0; column < COLUMNS; column++) {
        if (used[column] && deviations[column] > 1e-9) {
          kept[count++] = column;
        }
      }
      double[] weights = new double[COLUMNS];
      double[] row = new double[COLUMNS];
      for (int step = 0; step < NEWTON_STEPS; step++) {
        double[][] curvature = new double[count][count];
        double[] slope = new double[count];
        for (Heard one : training) {
          for (int hearing = 0; hearing < FILLED_BEATS.length; hearing++) {
            BreathView view = one.views[hearing];
            double noteWeight = HEARING_WEIGHTS[hearing] * one.weight;
            for (int i = 0; i < view.features.length; i++) {
              fill(row, view.features[i], view.withoutRests);
              double sum = 0;
              for (int k = 0; k < count; k++) {
                sum += weights[kept[k]] * row[kept[k]];
              }
              double probability = BreathRule.probability(sum);
              double residual = noteWeight * ((one.boundary[i] ? 1 : 0) - probability);
              double weight = noteWeight * probability * (1 - probability);
              for (int k = 0; k < count; k++) {
                double value = row[kept[k]];
                if (value != 0) {
                  slope[k] += residual * value;
                  double scaled = weight * value;
                  double[] line = curvature[k];
                  for (int l = 0; l <= k; l++) {
                    line[l] += scaled * row[kept[l]];
                  }
                }
              }
            }
          }
        }
        for (int k = 0; k < count; k++) {
          int column = kept[k];
          if (column >= 2) {
            double penalty = RIDGE * deviations[column] * deviations[column];
            curvature[k][k] += penalty;
            slope[k] -= penalty * weights[column];
          }
        }
        double[] change = solved(curvature, slope);
        for (int k = 0; k < count; k++) {
          weights[kept[k]] += change[k];
        }
      }
      return weights;
    }

    /** A row of the regression: the intercepts, then the features of both regimes. */
    private static void fill(double[] row, double[] features, double withoutRests) {
      row[0] = 1 - withoutRests;
      row[1] = withoutRests;
      for (int feature = 0; feature < FEATURES; feature++) {
        double value = features[feature];
        if (ALIKE[feature]) {
          row[2 + feature] = value;
        } else {
          row[2 + feature] = (1 - withoutRests) * value;
          row[2 + FEATURES + feature] = withoutRests * value;
        }
      }
    }

    /** Solves a symmetric positive definite system given by its lower half, by Cholesky. */
    private static double[] solved(double[][] lower, double[] right) {
      int n = right.length;
      for (int i = 0; i < n; i++) {
        for (int j = 0; j <= i; j++) {
          double sum = lower[i][j];
          for (int k = 0; k < j; k++) {
            sum -= lower[i][k] * lower[j][k];
          }
          lower[i][j] = i == j ? Math.sqrt(sum) : sum / lower[j][j];
        }
      }
      double[] result = right.clone();
      for (int i = 0; i < n; i++) {
        for (int k = 0; k < i; k++) {
          result[i] -= lower[i][k] * result[k];
        }
        result[i] /= lower[i][i];
      }
      for (int i = n - 1; i >= 0; i--) {
        for (int k = i + 1; k < n; k++) {
          result[i] -= lower[k][i] * result[k];
        }
        result[i] /= lower[i][i];
      }
      return result;
    }
  }
}
