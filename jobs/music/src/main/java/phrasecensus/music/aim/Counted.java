package phrasecensus.music.aim;

import java.util.Locale;

/**
 * What a statistic counts: the things of which {@code n} are needed before its value is told. Every
 * entry of the catalogue names one.
 */
public enum Counted {
  /** Sounding notes. */
  NOTES(8),
  /** Notes that the line comes to rest on. */
  LANDINGS(3),
  /** Phrases, as the phrase rule finds them. */
  PHRASES(3),
  /** Stretches of the line from one breath to the next. */
  STRETCHES(3),
  /** Bars of playing, silences left out, one that is begun counted. */
  BARS(2),
  /** Changes of chord. */
  CHANGES(4),
  /** Intervals from note to note. */
  INTERVALS(10),
  /** Gaps from onset to onset, or pairs of them. */
  GAPS(10),
  /** Windows of a few notes that are looked at one after the other. */
  WINDOWS(10);

  private final int least;
  private final String word = name().toLowerCase(Locale.ROOT);

  Counted(int least) {
    this.least = least;
  }

  /**
   * How many it takes before a value is told, unless an aim asks for another number (common
   * practice, no source): a bar of eighths, three places of rest, two bars.
   */
  public int least() {
    return least;
  }

  /** The word in catalogue and tables: lower case, as in {@code notes}. */
  public String word() {
    return word;
  }

  /**
   * @throws IllegalArgumentException if nothing is so called
   */
  public static Counted of(String word) {
    for (Counted counted : values()) {
      if (counted.word.equals(word)) {
        return counted;
      }
    }
    throw new IllegalArgumentException("Invalid thing to count: " + word);
  }
}
