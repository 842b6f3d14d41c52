package phrasecensus.music.chord;

import java.util.Locale;

/**
 * What a note is over a chord.
 *
 * @param semitones above the root, 0 to 11
 * @param name the degree as players say it: {@code 1 b9 9 #9 b3 3 11 4 #11 b5 5 #5 b13 6 13 bb7 b7
 *     7 2}; {@code n3 n5 n7} for the third, fifth or seventh that the chord has not, since its own
 *     is another, as in C sharp over Am7
 * @param role part the note plays in the symbol
 */
public record ChordDegree(int semitones, String name, Role role) {

  /** How a note stands to the chord symbol, from closest to farthest. */
  public enum Role {
    /** Third or seventh (sixth in sixth chords, fourth and seventh in suspended ones). */
    GUIDE_TONE,
    /** Root or fifth, or another of the degrees 1 3 5 7 that is no guide tone. */
    CHORD_TONE,
    /** A ninth, eleventh or thirteenth that the symbol itself asks for. */
    WRITTEN_TENSION,
    /** Not in the symbol. */
    NOT_IN_CHORD;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word in tables: lower case with hyphens, as in {@code guide-tone}. */
    public String word() {
      return word;
    }
  }

  /** True for the degrees 1 3 5 7 (6) of the symbol: guide tones and the other core tones. */
  public boolean isCoreChordTone() {
    return role == Role.GUIDE_TONE || role == Role.CHORD_TONE;
  }
}
