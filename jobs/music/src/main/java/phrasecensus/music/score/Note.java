package phrasecensus.music.score;

import java.util.List;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.time.Fraction;

/**
 * A sounding note of the line: ties joined, no grace note, no unpitched sound.
 *
 * @param index place in the line from 0
 * @param onset start, in quarter notes from the start of the solo
 * @param length sounding length in quarter notes, ties joined; positive
 * @param concert sounding pitch
 * @param written pitch as the player reads it
 * @param barIndex index of the bar in which it starts
 * @param tiedLengths lengths of the written notes that ties join, in order; one element without
 *     ties
 * @param graceBefore how many grace notes stand immediately before it
 * @param uncertain true for a ghost, slash or cross notehead, whose pitch may be unsure
 * @param articulations words of MusicXML's articulations on the first written note, sorted; as in
 *     {@code accent}, {@code staccato}
 * @param syllable what is sung on it, of the first verse written; null without words
 */
public record Note(
    int index,
    Fraction onset,
    Fraction length,
    Pitch concert,
    Pitch written,
    int barIndex,
    List<Fraction> tiedLengths,
    int graceBefore,
    boolean uncertain,
    List<String> articulations,
    Syllable syllable) {

  /**
   * @throws IllegalArgumentException if {@code length} is not positive
   */
  public Note {
    if (!length.isPositive()) {
      throw new IllegalArgumentException("Invalid note length: " + length + " is not positive");
    }
    tiedLengths = List.copyOf(tiedLengths);
    articulations = List.copyOf(articulations);
  }

  /** A note without words. */
  public Note(
      int index,
      Fraction onset,
      Fraction length,
      Pitch concert,
      Pitch written,
      int barIndex,
      List<Fraction> tiedLengths,
      int graceBefore,
      boolean uncertain,
      List<String> articulations) {
    this(
        index,
        onset,
        length,
        concert,
        written,
        barIndex,
        tiedLengths,
        graceBefore,
        uncertain,
        articulations,
        null);
  }

  /** A plain note, concert pitch as written: for tests and for music made by program. */
  public static Note plain(int index, Fraction onset, Fraction length, Pitch pitch, int barIndex) {
    return new Note(
        index, onset, length, pitch, pitch, barIndex, List.of(length), 0, false, List.of());
  }

  public Fraction end() {
    return onset.plus(length);
  }

  /** Sounding MIDI number. */
  public int midi() {
    return concert.midi();
  }
}
