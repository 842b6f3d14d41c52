package phrasecensus.readers.musicxml;

import java.util.List;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/**
 * Everything read of one part. Places are a bar's index and an offset from the start of that bar in
 * quarter notes, so that bars can be put into another order.
 *
 * @param description names and sounds from the list of parts
 * @param staves number of staves
 * @param percussionClef true when its first clef is a percussion clef
 * @param bars in order
 * @param notes in order of the file; grace notes and all voices among them, cue notes not
 * @param chords in order of the file
 * @param keys in order of the file
 * @param clefs in order of the file
 * @param times in order of the file
 * @param tempi in order of the file
 * @param lines brackets and dashes, in order of the file
 * @param rehearsals in order of the file
 * @param doubleBars in order of the file
 * @param unknown stretches that are neither note nor rest
 */
record PartReading(
    PartDescription description,
    int staves,
    boolean percussionClef,
    List<BarReading> bars,
    List<NoteReading> notes,
    List<ChordReading> chords,
    List<KeyReading> keys,
    List<ClefReading> clefs,
    List<TimeReading> times,
    List<TempoReading> tempi,
    List<LineEnd> lines,
    List<Rehearsal> rehearsals,
    List<Place> doubleBars,
    List<Stretch> unknown) {

  /** Names of a part; texts are empty when the file has none. */
  record PartDescription(String id, String name, String instrument, boolean drumChannel) {}

  /**
   * A bar.
   *
   * @param number the file's text; empty when it has none
   * @param implicit true when the file says its number is not counted
   * @param onset from the start of the part
   * @param length in quarter notes
   * @param metre in force at its start
   * @param transposition of the first staff at its end
   * @param signs repeats, endings and jumps
   */
  record BarReading(
      String number,
      boolean implicit,
      Fraction onset,
      Fraction length,
      Metre metre,
      Transposition transposition,
      BarSigns signs) {}

  /** A place in a bar; its end when {@code atEnd}, whatever the offset. */
  record Place(int bar, Fraction offset, boolean atEnd) {}

  /** A stretch inside one bar. */
  record Stretch(int bar, Fraction offset, Fraction end) {}

  /**
   * A chord symbol.
   *
   * @param offset where its element stands with its offset in the file, from the start of the bar
   * @param place where it counts, from the start of the bar; see {@link ChordPlaces}
   * @param goesOn true for a symbol that names no chord, so that the one before it goes on
   * @param written as in the file
   * @param concert as it sounds
   * @param kindWord the file's text for the kind, trimmed; empty for none
   * @param text the kind's text attribute; empty for none
   * @param alternate true for another reading of the chord beside it
   */
  record ChordReading(
      int bar,
      Fraction offset,
      Fraction place,
      boolean goesOn,
      int staff,
      Chord written,
      Chord concert,
      String kindWord,
      String text,
      boolean alternate) {
    /** The same chord counting at another place. */
    ChordReading at(Fraction other) {
      return new ChordReading(
          bar, offset, other, goesOn, staff, written, concert, kindWord, text, alternate);
    }
  }

  /** A key signature; fifths are null when it is not on the circle of fifths, mode when missing. */
  record KeyReading(
      int bar, Fraction offset, int staff, Integer written, Integer concert, String mode) {}

  /** A clef as letter, line and octaves, as in {@code G2-8}; empty for none on five lines. */
  record ClefReading(int bar, Fraction offset, int staff, String clef) {}

  /** A time signature; staff 0 means all. */
  record TimeReading(int bar, Fraction offset, int staff, Metre metre) {}

  /** A tempo in quarters a minute; sounded is false for one that is only printed. */
  record TempoReading(int bar, Fraction offset, double quartersPerMinute, boolean sounded) {}

  /** One end of a bracket or of dashes. */
  record LineEnd(int bar, Fraction offset, boolean dashes, int number, boolean start) {}

  /** A rehearsal mark. */
  record Rehearsal(int bar, Fraction offset, String text) {}

  /** Where a bar's first moment stands; the end of the part for the bar after the last. */
  Fraction onsetOf(int bar) {
    if (bar < bars.size()) {
      return bars.get(bar).onset();
    }
    if (bars.isEmpty()) {
      return Fraction.ZERO;
    }
    BarReading last = bars.get(bars.size() - 1);
    return last.onset().plus(last.length());
  }
}
