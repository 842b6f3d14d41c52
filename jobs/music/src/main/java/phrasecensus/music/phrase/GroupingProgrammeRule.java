package phrasecensus.music.phrase;

import java.util.ArrayDeque;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Phrases of a likely length that begin after large gaps, found together by dynamic programming.
 *
 * <p>After the phrase structure rules of D. Temperley, The Cognition of Basic Musical Structures,
 * 2001, chapter 3 (from memory). The best segmentation has the largest
 *
 * <pre>
 * sum over inner boundaries of (onset gap + silence) / mean onset gap
 *   - lengthWeight * sum over phrases of |log2 notes - log2 preferredNotes|
 *   + metreBonus * number of phrases that begin at the same place in the bar as the one before
 * </pre>
 *
 * Of equally good segmentations the one whose last phrase is longest wins, and so on backwards. No
 * phrase of more than {@code maximumNotes} notes is considered, so that the cost grows with the
 * number of notes times that bound. Slashes and other stretches that are neither note nor rest
 * always end a phrase.
 *
 * @param preferredNotes notes of a phrase of the likeliest length; at least 1
 * @param lengthWeight cost of an octave of difference from it; zero or more
 * @param metreBonus zero or more; zero for no such preference
 * @param maximumNotes longest phrase considered; at least 1
 */
public record GroupingProgrammeRule(
    double preferredNotes, double lengthWeight, double metreBonus, int maximumNotes)
    implements PhraseRule {
  /** The name under which studies know the rule. */
  public static final String NAME = "grouping-programme";

  /**
   * Numbers chosen in coarse steps on 220 solos of the Weimar Jazz Database (F1 .754); for songs
   * see {@link ForSongsRule}.
   */
  public static final GroupingProgrammeRule DEFAULT = new GroupingProgrammeRule(20, 2, 0, 200);

  /**
   * @throws IllegalArgumentException if a number is out of range
   */
  public GroupingProgrammeRule {
    if (!(preferredNotes >= 1) || Double.isInfinite(preferredNotes)) {
      throw new IllegalArgumentException(
          "Invalid preferred-notes: " + preferredNotes + " is not 1 or more");
    }
    if (!(lengthWeight >= 0) || Double.isInfinite(lengthWeight)) {
      throw new IllegalArgumentException(
          "Invalid length-weight: " + lengthWeight + " is not zero or more");
    }
    if (!(metreBonus >= 0) || Double.isInfinite(metreBonus)) {
      throw new IllegalArgumentException(
          "Invalid metre-bonus: " + metreBonus + " is not zero or more");
    }
    if (maximumNotes < 1) {
      throw new IllegalArgumentException("Invalid maximum-notes: " + maximumNotes + " is below 1");
    }
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Map<String, String> settings() {
    Map<String, String> settings = new LinkedHashMap<>();
    settings.put("preferred-notes", Double.toString(preferredNotes));
    settings.put("length-weight", Double.toString(lengthWeight));
    settings.put("metre-bonus", Double.toString(metreBonus));
    settings.put("maximum-notes", Integer.toString(maximumNotes));
    return Collections.unmodifiableMap(settings);
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    int notes = solo.notes().size();
    if (notes == 0) {
      return List.of();
    }
    Scores scores = new Scores(solo);
    double[] best = new double[notes + 1];
    int[] start = new int[notes + 1];
    int forced = 0;
    for (int end = 1; end <= notes; end++) {
      best[end] = Double.NEGATIVE_INFINITY;
      for (int first = Math.max(forced, end - maximumNotes); first < end; first++) {
        double score = best[first] + scores.phrase(first, end);
        if (score > best[end]) {
          best[end] = score;
          start[end] = first;
        }
      }
      if (end < notes && scores.unknown[end]) {
        forced = end;
      }
    }
    ArrayDeque<Integer> boundaries = new ArrayDeque<>();
    for (int first = start[notes]; first > 0; first = start[first]) {
      boundaries.addFirst(first);
    }
    return List.copyOf(boundaries);
  }

  /**
   * Score of a segmentation by the formula of this rule.
   *
   * @param boundaries indices of the notes that begin a phrase, ascending, without the first
   */
  public double score(Solo solo, List<Integer> boundaries) {
    Scores scores = new Scores(solo);
    double sum = 0;
    int first = 0;
    for (int boundary : boundaries) {
      sum += scores.phrase(first, boundary);
      first = boundary;
    }
    return solo.notes().isEmpty() ? 0 : sum + scores.phrase(first, solo.notes().size());
  }

  /** What a phrase adds to the score: its first boundary, its length, the metre of its follower. */
  private final class Scores {
    private final double[] gap;
    private final boolean[] unknown;
    private final Fraction[] placeInBar;
    private final double[] lengthCost;

    Scores(Solo solo) {
      List<Joint> joints = Joint.of(solo);
      int notes = solo.notes().size();
      gap = new double[notes];
      unknown = new boolean[notes];
      placeInBar = new Fraction[notes];
      lengthCost = new double[notes + 1];
      for (int length = 1; length <= notes; length++) {
        lengthCost[length] = lengthWeight * Math.abs(log2(length) - log2(preferredNotes));
      }
      double mean =
          joints.stream().mapToDouble(joint -> joint.onsetGap().toDouble()).average().orElse(1);
      for (Joint joint : joints) {
        gap[joint.note()] = joint.onsetGap().plus(joint.silence()).toDouble() / mean;
        unknown[joint.note()] = joint.unknown();
      }
      int bar = 0;
      for (int i = 0; i < notes && !solo.bars().isEmpty(); i++) {
        Fraction onset = solo.notes().get(i).onset();
        bar = Joint.barAt(solo.bars(), bar, onset);
        placeInBar[i] = solo.bars().get(bar).positionOf(onset);
      }
    }

    /** What the phrase from note {@code first} to note {@code end - 1} adds. */
    double phrase(int first, int end) {
      double score = first == 0 ? 0 : gap[first];
      score -= lengthCost[end - first];
      boolean sameStart =
          end < gap.length
              && placeInBar[first] != null
              && placeInBar[first].equals(placeInBar[end]);
      return sameStart ? score + metreBonus : score;
    }
  }

  private static double log2(double value) {
    return StrictMath.log(value) / StrictMath.log(2);
  }
}
