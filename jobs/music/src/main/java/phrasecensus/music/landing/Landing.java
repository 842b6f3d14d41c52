package phrasecensus.music.landing;

import java.util.Locale;
import java.util.Set;

/**
 * A note that the line comes to rest on or aims at.
 *
 * @param noteIndex the note
 * @param phraseIndex its phrase
 * @param kind the first kind that fits, in the order of {@link Kind}: under it the note counts once
 * @param kinds every kind that fits
 * @param approach how the line reaches it from the note before in the same phrase
 * @param nextGuideTone whether the line goes on to a guide tone of the next chord; null where that
 *     cannot be asked, see {@link Landings#find}
 */
public record Landing(
    int noteIndex,
    int phraseIndex,
    Kind kind,
    Set<Kind> kinds,
    Approach approach,
    Boolean nextGuideTone) {
  public Landing {
    kinds = java.util.Collections.unmodifiableSet(java.util.EnumSet.copyOf(kinds));
  }

  /** Why a note is a landing. */
  public enum Kind {
    /** Last note of a phrase. */
    PHRASE_END,
    /** Followed by a rest inside the phrase. */
    BEFORE_REST,
    /** At least a beat and a half, and longer than its neighbours in the phrase. */
    HELD,
    /**
     * First note on or after a chord change, on a beat, but not of the phrase. Of that kind alone
     * it is a place that the line passes, and no part of the headline share.
     */
    CHORD_ARRIVAL;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word in tables: lower case with hyphens, as in {@code phrase-end}. */
    public String word() {
      return word;
    }
  }

  /** How a landing is reached. */
  public enum Approach {
    /** First note of its phrase. */
    NONE,
    /** The same pitch again. */
    REPETITION,
    /** By two notes on opposite sides, each within two semitones. */
    ENCLOSURE,
    /** By a semitone from outside the local scale. */
    CHROMATIC,
    /** By another semitone or a whole tone. */
    STEP,
    /** By three semitones or more. */
    LEAP;

    private final String word = name().toLowerCase(Locale.ROOT);

    /** The word in tables: lower case. */
    public String word() {
      return word;
    }
  }
}
