package phrasecensus.readers.musicxml;

import java.util.List;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.score.Syllable;
import phrasecensus.music.time.Fraction;

/**
 * A note as it stands in a part: tied notes apart, stacks apart, all voices.
 *
 * @param bar index of its bar in the part
 * @param offset from the start of the bar, in quarter notes
 * @param length in quarter notes; zero for a grace note
 * @param written pitch in the file; null for an unpitched sound
 * @param concert sounding pitch; null for an unpitched sound
 * @param voice the file's label; empty when it has none
 * @param staff from 1
 * @param grace true for a grace note
 * @param graceSlashed true for a grace note with a stroke
 * @param stacked true for a note of a stack other than its first
 * @param tieStart sounds on into a following note
 * @param tieStop continues an earlier note
 * @param kind whether it may belong to a melody
 * @param timeOnly the passes on which it sounds; empty for all
 * @param signs what is written at it
 */
record NoteReading(
    int bar,
    Fraction offset,
    Fraction length,
    Pitch written,
    Pitch concert,
    String voice,
    int staff,
    boolean grace,
    boolean graceSlashed,
    boolean stacked,
    boolean tieStart,
    boolean tieStop,
    Kind kind,
    String timeOnly,
    NoteSigns signs) {

  /** The same note with another length. */
  NoteReading lasting(Fraction other) {
    return with(other, kind);
  }

  /** The same note of another kind. */
  NoteReading of(Kind other) {
    return with(length, other);
  }

  private NoteReading with(Fraction length, Kind kind) {
    return new NoteReading(
        bar,
        offset,
        length,
        written,
        concert,
        voice,
        staff,
        grace,
        graceSlashed,
        stacked,
        tieStart,
        tieStop,
        kind,
        timeOnly,
        signs);
  }

  /** What a note is besides a note of melody. */
  enum Kind {
    /** A note that is printed and sounds. */
    MELODY,
    /** A note inside a stretch of slash notation, where the player is free. */
    IN_SLASHES,
    /** A note with a slash as its head outside such a stretch, which means the same. */
    SLASH_HEAD,
    /** A note that is not printed: it spaces lyrics or is played back for something else. */
    HIDDEN
  }

  /** True for a note that may belong to a melody. */
  boolean isMelody() {
    return kind == Kind.MELODY;
  }

  boolean isPitched() {
    return concert != null;
  }

  /**
   * Signs at a note.
   *
   * @param uncertain a notehead whose pitch may be unsure
   * @param articulations MusicXML's words, sorted
   * @param slurs slurs that start or stop here, in the file's order
   * @param breath a breath mark follows
   * @param caesura a caesura follows
   * @param fermata a fermata stands on it
   * @param syllable what is sung on it; null without words
   */
  record NoteSigns(
      boolean uncertain,
      List<String> articulations,
      List<SlurEnd> slurs,
      boolean breath,
      boolean caesura,
      boolean fermata,
      Syllable syllable) {
    static final NoteSigns NONE =
        new NoteSigns(false, List.of(), List.of(), false, false, false, null);
    static final NoteSigns UNCERTAIN =
        new NoteSigns(true, List.of(), List.of(), false, false, false, null);
  }

  /** One end of a slur. */
  record SlurEnd(int number, boolean start) {}
}
