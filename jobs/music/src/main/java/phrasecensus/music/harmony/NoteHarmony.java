package phrasecensus.music.harmony;

import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.score.ChordSpan;

/**
 * A note seen from the harmony around it.
 *
 * @param chord the chord it is judged by; null where no symbol holds or the symbol says no chord
 * @param degree what it is over that chord; null without a chord or with unknown content
 * @param anticipated true when it is judged by the next chord, because it starts within the last
 *     half beat of a chord and sounds into the next
 * @param centre tonal centre in force; {@link TonalCentre#UNKNOWN} when none
 * @param inCentreScale true when it belongs to the scale of the centre; false for an unknown centre
 * @param scale the scale that 'in the key' means here; null for an unknown centre
 * @param inKey true when it belongs to that scale or to the chord it is judged by; false for an
 *     unknown centre
 */
public record NoteHarmony(
    ChordSpan chord,
    ChordDegree degree,
    boolean anticipated,
    TonalCentre centre,
    boolean inCentreScale,
    CentreScale scale,
    boolean inKey) {
  /** True when a verdict on chord tones is possible. */
  public boolean hasVerdict() {
    return degree != null;
  }

  public boolean isCoreChordTone() {
    return degree != null && degree.isCoreChordTone();
  }
}
