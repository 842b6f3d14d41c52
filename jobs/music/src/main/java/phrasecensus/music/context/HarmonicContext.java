package phrasecensus.music.context;

import java.util.List;
import java.util.Locale;
import phrasecensus.music.time.Fraction;

/**
 * A stretch of a solo over a usual run of chords or over a part of a form.
 *
 * @param kind what it is
 * @param mode major or minor by its tonic chord, where there is one
 * @param tonic 0 (C) to 11, sounding: the chord that it leads to or stands on; for {@link
 *     Kind#VAMP} the root of its first chord
 * @param aboveCentre semitones from the tonic of the tonal centre in force at its beginning up to
 *     {@code tonic}, 0 to 11; -1 where no centre is known
 * @param onset start, in quarter notes from the start of the solo
 * @param end after its last moment
 * @param parts its chords in order; empty for those of bars, {@link Kind#isOfBars()}
 */
public record HarmonicContext(
    Kind kind,
    Mode mode,
    int tonic,
    int aboveCentre,
    Fraction onset,
    Fraction end,
    List<Part> parts) {
  public HarmonicContext {
    parts = List.copyOf(parts);
  }

  /** Kinds of contexts. */
  public enum Kind {
    /** ii and V that do not go on to their I. */
    II_V("ii-V"),
    II_V_I("ii-V-I"),
    I_VI_II_V("I-vi-ii-V"),
    /** Four chords that lead back to the I that follows them; that I is no part of it. */
    TURNAROUND("turnaround"),
    BLUES_1_TO_4("blues-bars-1-4"),
    BLUES_5_TO_8("blues-bars-5-8"),
    BLUES_9_TO_12("blues-bars-9-12"),
    VAMP("vamp");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** The word in tables and queries. */
    public String word() {
      return word;
    }

    /**
     * True for a stretch of bars, which a phrase lies in rather than plays through chord by chord.
     */
    public boolean isOfBars() {
      return ordinal() >= BLUES_1_TO_4.ordinal();
    }
  }

  /** What its tonic chord is. */
  public enum Mode {
    MAJOR,
    MINOR,
    /** A dominant seventh as tonic. */
    BLUES;

    /** The word in tables: lower case. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * A chord of a context; symbols that repeat or colour it are one.
   *
   * @param place what it is to the tonic, as in {@code ii}
   * @param firstChord index of its first symbol in the solo
   * @param lastChord index of its last symbol, at least {@code firstChord}
   */
  public record Part(String place, Fraction onset, Fraction end, int firstChord, int lastChord) {}
}
