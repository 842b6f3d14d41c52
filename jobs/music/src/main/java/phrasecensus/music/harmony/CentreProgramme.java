package phrasecensus.music.harmony;

import java.util.Arrays;
import java.util.List;
import phrasecensus.music.harmony.TonalCentre.Mode;

/**
 * Finds the most fitting sequence of tonal centres for a sequence of chords by dynamic programming
 * over twelve tonics in major, minor and blues.
 *
 * <p>The score of a reading is the sum over chords of weight × √(length / 4 quarters), plus {@value
 * #CADENCE} for a tonic chord that follows a dominant or suspended chord a fifth or a semitone above
 * the tonic, plus {@value #START} when the first chord stands on the tonic of its centre, minus the
 * cost of each change of centre: {@value #CHANGE_OF_MODE} on the same tonic, otherwise {@value
 * #CHANGE_OF_TONIC} plus the distance of the relative major keys on the circle of fifths, 0 to 6
 * (blues counts as major). Ties go to the earlier state in the order major, minor, blues, each from
 * C upwards. Linear in chords.
 *
 * <p>Reading harmony as an optimal segmentation of the chord sequence follows A. Choi, Jazz Harmonic
 * Analysis as Optimal Tonality Segmentation, Computer Music Journal 35:2 (2011); scores and weights
 * are our own and stand in {@code chord-function-weights.csv}.
 */
public final class CentreProgramme {
  /** Bonus for a dominant that resolves to a tonic chord. */
  static final double CADENCE = 2;

  /** Bonus for a first chord on the tonic. */
  static final double START = 4;

  static final double CHANGE_OF_MODE = 9;
  static final double CHANGE_OF_TONIC = 8;

  private static final Mode[] MODES = {Mode.MAJOR, Mode.MINOR, Mode.BLUES};
  private static final int STATES = 36;
  private static final double[] COST = costs();
  private static final CentreProgramme PUBLISHED = new CentreProgramme(CentreWeights.published());

  private final CentreWeights weights;

  CentreProgramme(CentreWeights weights) {
    this.weights = weights;
  }

  /** The programme with the weights of {@code chord-function-weights.csv}. */
  public static CentreProgramme standard() {
    return PUBLISHED;
  }

  /**
   * A chord as the programme sees it.
   *
   * @param root pitch class, 0 (C) to 11
   * @param chordClass what it does in a key
   * @param quarters how long it holds, positive
   */
  public record Step(int root, ChordClass chordClass, double quarters) {}

  private static double[] costs() {
    double[] costs = new double[STATES * STATES];
    for (int from = 0; from < STATES; from++) {
      for (int to = 0; to < STATES; to++) {
        int fifths = Math.abs(relativeMajor(from) - relativeMajor(to));
        costs[from * STATES + to] =
            from == to
                ? 0
                : from % 12 == to % 12
                    ? CHANGE_OF_MODE
                    : CHANGE_OF_TONIC + Math.min(fifths, 12 - fifths);
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
      for (int state = 0; state < STATES; state++) {
        if (i == 0) {
          forward[0][state] = emission[0][state];
        } else {
          int best = bestPredecessor(forward[i - 1], state);
          back[i][state] = best;
          forward[i][state] =
              forward[i - 1][best] - COST[best * STATES + state] + emission[i][state];
        }
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
      double score = weights.weight(mode, step.root() - tonic, step.chordClass()) * size;
      if (step.root() == tonic) {
        if (index == 0) {
          score += START;
        } else if (isTonicChord(mode, step.chordClass()) && leadsTo(steps.get(index - 1), tonic)) {
          score += CADENCE;
        }
      }
      into[state] = score;
    }
  }

  private static boolean isTonicChord(Mode mode, ChordClass chordClass) {
    return switch (chordClass) {
      case MAJ, MAJ6 -> mode != Mode.MINOR;
      case MAJ7 -> mode == Mode.MAJOR;
      case DOM7 -> mode == Mode.BLUES;
      case MIN, MIN6, MIN7, MINMAJ7 -> mode == Mode.MINOR;
      case SUS, HDIM7, DIM -> false;
    };
  }

  static boolean leadsTo(Step step, int tonic) {
    int above = Math.floorMod(step.root() - tonic, 12);
    return (step.chordClass() == ChordClass.DOM7 || step.chordClass() == ChordClass.SUS)
        && (above == 7 || above == 1);
  }

  private static int bestPredecessor(double[] scores, int state) {
    int best = 0;
    double score = Double.NEGATIVE_INFINITY;
    for (int from = 0; from < STATES; from++) {
      double candidate = scores[from] - COST[from * STATES + state];
      if (candidate > score) {
        score = candidate;
        best = from;
      }
    }
    return best;
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
  private static double[][] backward(double[][] emission) {
    int n = emission.length;
    double[][] backward = new double[n][STATES];
    double[] following = new double[STATES];
    for (int i = n - 2; i >= 0; i--) {
      for (int state = 0; state < STATES; state++) {
        following[state] = backward[i + 1][state] + emission[i + 1][state];
      }
      for (int state = 0; state < STATES; state++) {
        int best = bestPredecessor(following, state);
        backward[i][state] = following[best] - COST[best * STATES + state];
      }
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
