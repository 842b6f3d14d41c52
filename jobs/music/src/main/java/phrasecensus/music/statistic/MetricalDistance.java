package phrasecensus.music.statistic;

import java.util.List;
import phrasecensus.music.time.Fraction;

/**
 * Weighted note-to-beat distance (Gómez, Melvin, Rappaport and Toussaint 2005, from memory): with
 * {@code T} the distance of an onset to the nearest beat as a fraction of a beat, a note adds 0 on
 * a beat, {@code 1/T} when it ends before or at the next beat, {@code 2/T} when it ends after that
 * beat but not after the one following, {@code 1/T} when it ends later. Notes last to the next
 * onset.
 */
public final class MetricalDistance {
  private MetricalDistance() {}

  /**
   * The mean over notes.
   *
   * @param onsets in beats, ascending; whole numbers are beats
   * @param end of the last note, in beats
   * @return at least 0; {@link Double#NaN} without notes
   */
  public static double weighted(List<Fraction> onsets, Fraction end) {
    double sum = 0;
    for (int i = 0; i < onsets.size(); i++) {
      sum += term(onsets.get(i), i + 1 < onsets.size() ? onsets.get(i + 1) : end);
    }
    return onsets.isEmpty() ? Double.NaN : sum / onsets.size();
  }

  /** What one note adds to the sum. */
  static double term(Fraction onset, Fraction end) {
    if (onset.isWhole()) {
      return 0;
    }
    long beat = onset.floor();
    long numerator = Math.subtractExact(onset.numerator(), beat * onset.denominator());
    double into = (double) numerator / onset.denominator();
    double distance = Math.min(into, 1 - into);
    boolean crossesOneBeat =
        end.isAfter(Fraction.of(beat + 1)) && !end.isAfter(Fraction.of(beat + 2));
    return (crossesOneBeat ? 2 : 1) / distance;
  }
}
