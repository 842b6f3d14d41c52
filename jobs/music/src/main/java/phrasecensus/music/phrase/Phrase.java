package phrasecensus.music.phrase;

import phrasecensus.music.time.Fraction;

/**
 * A phrase: a run of notes of the line.
 *
 * @param index place in the solo from 0
 * @param firstNote index of its first note
 * @param lastNote index of its last note, at least {@code firstNote}
 * @param onset onset of the first note, in quarter notes from the start of the solo
 * @param end end of the last note
 */
public record Phrase(int index, int firstNote, int lastNote, Fraction onset, Fraction end) {
  public int noteCount() {
    return lastNote - firstNote + 1;
  }

  public Fraction length() {
    return end.minus(onset);
  }

  public boolean contains(int noteIndex) {
    return noteIndex >= firstNote && noteIndex <= lastNote;
  }
}
