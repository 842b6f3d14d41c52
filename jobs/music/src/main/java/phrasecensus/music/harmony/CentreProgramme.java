package phrasecensus.music.harmony;

import java.util.Arrays;
import java.util.List;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.harmony.TonalCentre.Mode;

/**
 * Finds the most fitting sequence of tonal centres for a sequence of chords by dynamic programming
 * over twelve tonics in major, minor and blues.
 *
 * <p>The score of a reading is the sum over chords of weight × √(length / 4 quarters), plus a bonus
 * for a tonic chord that follows a dominant or suspended chord a fifth or a semitone above the
 * tonic, plus one when the first chord stands on the tonic of its centre, minus the cost of each
 * change of centre: one cost on the same tonic, otherwise another plus the distance of the relative
 * major keys on the circle of fifths, 0 to 6 (blues counts as major). The numbers are {@link
 * Rules}. Ties go to the earlier state in the order major, minor, blues, each from C upwards.
 * Linear in chords.
 *
 * <p>Reading harmony as an optimal segmentation of the chord sequence follows A. Choi, Jazz
 * Harmonic Analysis as Optimal Tonality Segmentation, Computer Music Journal 35:2 (2011); scores
 * and weights are our own and stand in {@code chord-function-weights.csv}.
 */
public final class CentreProgramme {
  /**
   * The numbers beside the weights.
   *
   * @param cadence bonus for a dominant that resolves to a tonic chord
   * @param bluesCadence the same where the tonic chord is itself a dominant seventh
   * @param start bonus for a first chord on the tonic
   * @param changeOfMode cost of another mode on the same tonic
   * @param changeOfTonic cost of another tonic, before the distance in fifths is added
   */
  record Rules(
      double cadence,
      double bluesCadence,
      double start,
      double changeOfMode,
      double changeOfTonic) {
    /** As first set by hand; the reference values of the tests belong to these. */
    static final Rules FIRST = new Rules(2, 2, 4, 9, 8);

    /**
     * In use: V7 to I7 is no cadence, since I7 to IV7 looks the same, and a change costs 1 more.
     * Chosen on the key labels of 201 solos (see {@code HumanKeysIT}), where every cost from 8 to
     * 12 gives nearly the same.
     */
    static final Rules STANDARD = new Rules(2, 0, 4, 10, 9);
  }

  private static final Mode[] MODES = {Mode.MAJOR, Mode.MINOR, Mode.BLUES};
  private static final int STATES = 36;

  /** More than the rounding error of any score. */
  private static final double ROUNDING = 1e-6;

  private static final CentreWeights WEIGHTS = CentreWeights.read();
  private static final CentreProgramme STANDARD = new CentreProgramme(Rules.STANDARD);

  private final Rules rules;
  private final double[] cost;
  private final double spread;

  CentreProgramme(Rules rules) {
    this.rules = rules;
    this.cost = costs(rules);
    double dearest = Arrays.stream(cost).max().orElseThrow();
    double cheapest = Arrays.stream(cost).filter(change -> change > 0).min().orElseThrow();
    this.spread = dearest - cheapest;
  }

  /** The programme in use. */
  public static CentreProgramme standard() {
    return STANDARD;
  }

  /**
   * A chord as the programme sees it.
   *
   * @param root pitch class, 0 (C) to 11
   * @param chordClass what it does in a key
   * @param quarters how long it holds, positive
   */
  public record Step(int root, ChordClass chordClass, double quarters) {}

  private static double[] costs(Rules rules) {
    double[] costs = new double[STATES * STATES];
    for (int from = 0; from < STATES; from++) {
      for (int to = 0; to < STATES; to++) {
        int fifths = Math.abs(relativeMajor(from) - relativeMajor(to));
        costs[from * STATES + to] =
            from == to
                ? 0
                : from % 12 == to % 12
                    ? rules.changeOfMode()
                    : rules.changeOfTonic() + Math.min(fifths, 12 - fifths);
      }
    }
    return costs;
  }

  /** Place of a state's relative major on the circle of fifths, 0 to 11. */
  private static int relativeMajor(int state) {
    int tonic = state / 12 == 1 ? state + 3 : state;
    return tonic % 12 * 7 % 12;
  }

  /** The state of a centre; -1 for one that is neither major, minor nor blues. */
  static int state(TonalCentre centre) {
    int mode = Arrays.asList(MODES).indexOf(centre.mode());
    return mode < 0 ? -1 : 12 * mode + centre.tonic();
  }

  static TonalCentre centre(int state) {
    return new TonalCentre(state % 12, MODES[state / 12]);
  }

  /** The best reading of a chord sequence; with score 0 and no centres for an empty one. */
  public Reading read(List<Step> steps) {
    int n = steps.size();
    double[][] emission = new double[n][STATES];
    double[][] forward = new double[n][STATES];
    int[][] back = new int[n][STATES];
    for (int i = 0; i < n; i++) {
      emit(steps, i, emission[i]);
      if (i > 0) {
        reach(forward[i - 1], back[i], forward[i]);
      }
      for (int state = 0; state < STATES; state++) {
        forward[i][state] += emission[i][state];
      }
    }
    int[] path = new int[n];
    if (n > 0) {
      path[n - 1] = first(forward[n - 1]);
      for (int i = n - 1; i > 0; i--) {
        path[i - 1] = back[i][path[i]];
      }
    }
    return new Reading(path, emission, forward, backward(emission));
  }

  private void emit(List<Step> steps, int index, double[] into) {
    Step step = steps.get(index);
    double size = Math.sqrt(step.quarters() / 4);
    for (int state = 0; state < STATES; state++) {
      int tonic = state % 12;
      Mode mode = MODES[state / 12];
      double score = WEIGHTS.weight(mode, step.root() - tonic, step.chordClass()) * size;
      if (step.root() == tonic) {
        if (index == 0) {
          score += rules.start();
        } else if (isTonicChord(mode, step.chordClass()) && leadsTo(steps.get(index - 1), tonic)) {
          score += step.chordClass() == ChordClass.DOM7 ? rules.bluesCadence() : rules.cadence();
        }
      }
      into[state] = score;
    }
  }

  static boolean isTonicChord(Mode mode, ChordClass chordClass) {
    return switch (chordClass) {
      case MAJ, MAJ6 -> mode == Mode.MAJOR || mode == Mode.BLUES;
      case MAJ7 -> mode == Mode.MAJOR;
      case DOM7 -> mode == Mode.BLUES;
      case MIN, MIN6, MIN7 -> mode == Mode.MINOR || mode == Mode.MODAL;
      case MINMAJ7 -> mode == Mode.MINOR;
      case SUS -> mode == Mode.MODAL;
      case HDIM7, DIM -> false;
    };
  }

  static boolean leadsTo(Step step, int tonic) {
    int above = Math.floorMod(step.root() - tonic, 12);
    return (step.chordClass() == ChordClass.DOM7 || step.chordClass() == ChordClass.SUS)
        && (above == 7 || above == 1);
  }

  /**
   * Finds for each state the best one before it, of equals the first, and what is left of its score
   * after the change.
   *
   * <p>Whatever the target, the best state gets there at the dearest change at most, so a state of
   * another tonic that scores less by more than dearest minus cheapest change cannot win.
   */
  private void reach(double[] scores, int[] before, double[] left) {
    for (int state = 0; state < STATES; state++) {
      left[state] = Double.NEGATIVE_INFINITY;
      for (int from = state % 12; from < STATES; from += 12) {
        double candidate = scores[from] - cost[from * STATES + state];
        if (candidate > left[state]) {
          left[state] = candidate;
          before[state] = from;
        }
      }
    }
    double least = scores[first(scores)] - spread - ROUNDING;
    for (int from = 0; from < STATES; from++) {
      if (scores[from] < least) {
        continue;
      }
      for (int state = 0; state < STATES; state++) {
        double candidate = scores[from] - cost[from * STATES + state];
        if (candidate > left[state] || candidate == left[state] && from < before[state]) {
          left[state] = candidate;
          before[state] = from;
        }
      }
    }
  }

  private static int first(double[] scores) {
    int best = 0;
    for (int state = 1; state < STATES; state++) {
      if (scores[state] > scores[best]) {
        best = state;
      }
    }
    return best;
  }

  /** Best score of what follows a step, by the state at that step. Costs are symmetric. */
  private double[][] backward(double[][] emission) {
    int n = emission.length;
    double[][] backward = new double[n][STATES];
    double[] following = new double[STATES];
    int[] next = new int[STATES];
    for (int i = n - 2; i >= 0; i--) {
      for (int state = 0; state < STATES; state++) {
        following[state] = backward[i + 1][state] + emission[i + 1][state];
      }
      reach(following, next, backward[i]);
    }
    return backward;
  }

  /** The best sequence of centres for a chord sequence, and what the others would score. */
  public static final class Reading {
    private final int[] path;
    private final double[][] emission;
    private final double[][] forward;
    private final double[][] backward;

    private Reading(int[] path, double[][] emission, double[][] forward, double[][] backward) {
      this.path = path;
      this.emission = emission;
      this.forward = forward;
      this.backward = backward;
    }

    /** How many chords were read. */
    public int size() {
      return path.length;
    }

    /** The centre at a chord. */
    public TonalCentre centre(int index) {
      return CentreProgramme.centre(path[index]);
    }

    int state(int index) {
      return path[index];
    }

    /** The score of the reading; 0 for an empty one. */
    public double score() {
      int last = path.length - 1;
      return last < 0 ? 0 : forward[last][path[last]];
    }

    /**
     * How much worse the best reading is that has one other centre from one chord to another.
     *
     * @param first index of the first chord
     * @param last index of the last one, at least {@code first}
     * @return at least 0 when the stretch has one centre in the best reading
     */
    public double margin(int first, int last) {
      double second = Double.NEGATIVE_INFINITY;
      for (int state = 0; state < STATES; state++) {
        if (state != path[first]) {
          double score = forward[first][state] + backward[last][state];
          for (int i = first + 1; i <= last; i++) {
            score += emission[i][state];
          }
          second = Math.max(second, score);
        }
      }
      return Math.max(0, score() - second);
    }
  }
}
