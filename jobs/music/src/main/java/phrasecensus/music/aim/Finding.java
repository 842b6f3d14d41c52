package phrasecensus.music.aim;

import java.util.Locale;

/** What is amiss where an aim is not met. */
public enum Finding {
  /** Nothing: met, or nothing asked. */
  NONE,
  /** Notes outside the key and the chord at hand. */
  OUTSIDE_KEY,
  /** The line comes to rest on other notes than 1 3 5 7. */
  WEAK_LANDINGS,
  /** Long notes; little moves. */
  LONG_NOTES,
  /** The line goes on without a breath. */
  NO_BREATH,
  /** Two or three notes and a rest, all the way. */
  FRAGMENTS,
  /** An aim of the teacher's own is not met; its own words tell what it asks. */
  OWN,
  /** Too little to tell. */
  NOT_ENOUGH;

  private final String word = name().toLowerCase(Locale.ROOT);

  /** The word in tables and study files: lower case with underscores, as in {@code no_breath}. */
  public String word() {
    return word;
  }
}
