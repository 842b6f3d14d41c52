package phrasecensus.music.score;

import phrasecensus.music.chord.Chord;
import phrasecensus.music.time.Fraction;

/**
 * A chord and how long it holds.
 *
 * @param onset start, in quarter notes from the start of the solo
 * @param end where the next chord begins, or the end of the solo
 * @param concert the chord as it sounds; {@code N.C.} spans are present with {@link Chord#isNone()}
 * @param written the chord as the solo's player reads it
 * @param text the symbol's text as the file has it; empty when the file has none
 */
public record ChordSpan(Fraction onset, Fraction end, Chord concert, Chord written, String text) {
  public Fraction length() {
    return end.minus(onset);
  }
}
