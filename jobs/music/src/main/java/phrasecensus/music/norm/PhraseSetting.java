package phrasecensus.music.norm;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The circumstances of a phrase, so that phrases can be held side by side that are alike in all but
 * what is to be shown.
 *
 * @param tempo quarter notes per minute; null when not known
 * @param lengthBars length in bars; null in free metre
 * @param chordQualities quality of each chord under it; empty when not known
 */
public record PhraseSetting(Double tempo, Double lengthBars, List<String> chordQualities) {
  public PhraseSetting {
    chordQualities = List.copyOf(chordQualities);
  }

  /** How many doublings the tempi are apart; 1 where one is unknown, 0 where both are. */
  public double tempoDistance(PhraseSetting other) {
    return doublings(tempo, other.tempo);
  }

  /** How many doublings the lengths are apart; 1 where one is unknown, 0 where both are. */
  public double lengthDistance(PhraseSetting other) {
    return doublings(lengthBars, other.lengthBars);
  }

  /**
   * How different the chords are, in [0, 1]: the {@link JensenShannon} distance of their qualities,
   * each chord counted once; 1 where one phrase has no chords, 0 where neither has.
   */
  public double chordDistance(PhraseSetting other) {
    if (chordQualities.equals(other.chordQualities)) {
      return 0;
    }
    if (chordQualities.isEmpty() || other.chordQualities.isEmpty()) {
      return 1;
    }
    Map<String, Integer> own = counts(chordQualities);
    Map<String, Integer> others = counts(other.chordQualities);
    TreeSet<String> qualities = new TreeSet<>(own.keySet());
    qualities.addAll(others.keySet());
    return JensenShannon.of(counts(qualities, own), counts(qualities, others)).distance();
  }

  private static double doublings(Double first, Double second) {
    boolean known = first != null && first > 0;
    boolean otherKnown = second != null && second > 0;
    if (!known || !otherKnown) {
      return known == otherKnown ? 0 : 1;
    }
    return Math.abs(Math.log(first / second)) / Math.log(2);
  }

  private static Map<String, Integer> counts(List<String> qualities) {
    Map<String, Integer> counts = new TreeMap<>();
    qualities.forEach(quality -> counts.merge(quality, 1, Integer::sum));
    return counts;
  }

  private static double[] counts(TreeSet<String> qualities, Map<String, Integer> counts) {
    return qualities.stream().mapToDouble(quality -> counts.getOrDefault(quality, 0)).toArray();
  }
}
