package phrasecensus.music.aim;

import java.util.Locale;

/** Why a question cannot be told. */
public enum Shortage {
  /** The solo has no note. */
  NO_NOTES,
  /** The whole has fewer notes than it takes to say anything. */
  TOO_SHORT,
  /** Fewer of what the aim counts than it takes to tell: {@code n} of the answer says how many. */
  TOO_FEW,
  /** The line hardly ever rests, so that there is nothing that it comes to rest on. */
  SELDOM_BREATHES,
  /** Neither study nor chords nor signature nor notes tell a key. */
  NO_CENTRE,
  /** Bars are counted, and there is no metre. */
  NO_METRE,
  /** The statistic has no value for this solo, as its entry in the catalogue says. */
  NO_VALUE;

  private final String word = name().toLowerCase(Locale.ROOT);

  /** The word in tables: lower case with underscores, as in {@code too_few}. */
  public String word() {
    return word;
  }
}
