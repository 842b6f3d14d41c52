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
 * @param scale the scale that 'in the key' means in it; null for an unknown centre, and for a modal
 *     one whose chords tell it from note to note
 */
public record TonalCentreSpan(
    Fraction onset,
    Fraction end,
    TonalCentre centre,
    double margin,
    Source source,
    CentreScale scale) {
  /** A centre whose scale follows from its mode. */
  public TonalCentreSpan(
      Fraction onset, Fraction end, TonalCentre centre, double margin, Source source) {
    this(onset, end, centre, margin, source, CentreScale.ofMode(centre));
  }

  /** What a tonal centre was found from. */
  public enum Source {
    /** The chord symbols. */
    CHORDS,
    /** The key signature together with the notes, where no chord is written. */
    SIGNATURE,
    /** The notes alone, where neither chord nor signature tells. */
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
