package phrasecensus.music.chord;

import java.util.Locale;

/** How a chord sounds in a word: its third and fifth, and whether it is a dominant. */
public enum ChordQuality {
  MAJOR,
  MINOR,
  /** Dominants with or without tensions, and the augmented triad. */
  DOMINANT,
  SUSPENDED,
  HALF_DIMINISHED,
  DIMINISHED;

  /** The word in tables: lower case, with a hyphen. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
