package phrasecensus.music.harmony;

import phrasecensus.music.time.Fraction;

/**
 * A stretch of a solo with one tonal centre.
 *
 * @param onset in quarter notes from the start of the solo
 * @param end after its last moment
 * @param centre never null
 * @param margin how much worse the best reading with another centre for this stretch scores; at
 *     least 0, in the score's own unit; larger is surer
 * @param source where it comes from
 */
public record TonalCentreSpan(
    Fraction onset, Fraction end, TonalCentre centre, double margin, Source source) {
  /** What a tonal centre was found from. */
  public enum Source {
    /** The chord symbols. */
    CHORDS,
    /** The notes alone, where no chord is written. */
    NOTES,
    /** A key that the study gives. */
    STUDY,
    /** Nothing to find it from. */
    NONE;

    /** The word in tables: lower case. */
    public String word() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }
}
