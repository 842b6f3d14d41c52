package phrasecensus.music.score;

import phrasecensus.music.time.Fraction;

/**
 * Something the transcriber wrote that may tell where a phrase or a section begins or ends.
 *
 * @param kind what it is
 * @param onset where it stands or starts, in quarter notes from the start of the solo
 * @param end where it ends: for slurs and brackets the onset of the last note under it; else equal
 *     to {@code onset}
 * @param text rehearsal letter or words; empty otherwise
 */
public record Mark(Kind kind, Fraction onset, Fraction end, String text) {
  /** The kinds of marks that are kept. */
  public enum Kind {
    /** A slur, from its first to its last note. */
    SLUR,
    /** A bracket or dashed line over notes. */
    BRACKET,
    /** A breath mark after the note that starts at the onset. */
    BREATH,
    /** A caesura after the note that starts at the onset. */
    CAESURA,
    /** A fermata on the note that starts at the onset. */
    FERMATA,
    /** A rehearsal mark: letter or number of a section. */
    REHEARSAL,
    /** A double or final bar line at the onset. */
    DOUBLE_BAR
  }
}
