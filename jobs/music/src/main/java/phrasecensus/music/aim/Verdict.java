package phrasecensus.music.aim;

import java.util.Locale;

/** How a solo stands to what is asked. None of these is a grade. */
public enum Verdict {
  /** Every aim of the question that can be told is met. */
  MET,
  /** An aim of the question is not met yet. */
  NOT_YET,
  /** There is too little of what the aim counts to tell; {@link Shortage} says what is short. */
  NOT_ENOUGH,
  /** Nothing is asked. */
  NO_AIM;

  private final String word = name().toLowerCase(Locale.ROOT);

  /** The word in tables: lower case with underscores, as in {@code not_yet}. */
  public String word() {
    return word;
  }
}
