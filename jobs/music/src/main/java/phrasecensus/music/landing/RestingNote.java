package phrasecensus.music.landing;

import java.util.Locale;

/**
 * A note that the line comes to rest on.
 *
 * @param noteIndex the note
 * @param kind the first kind that fits
 * @param degree what it is over the chord it is judged by; in a solo without chord symbols over the
 *     tonic of its key; null where neither is known
 * @param onChordTone true for 1 3 5 7 of the chord, or of the key in a solo without chord symbols;
 *     null where neither is known
 */
public record RestingNote(int noteIndex, Kind kind, String degree, Boolean onChordTone) {
  /** Why the line rests on it. */
  public enum Kind {
    /** A breath follows, or nothing more. */
    BREATH,
    /** It is held for a beat and a half or longer. */
    HELD;

    private final String word = name().toLowerCase(Locale.ROOT);

    /** The word in tables: lower case. */
    public String word() {
      return word;
    }
  }
}
