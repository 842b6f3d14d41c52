package phrasecensus.music.norm;

/**
 * How a player's values moved over time with regard to the middle half of a group; never a grade.
 */
public enum Movement {
  /** The line through the values ends nearer to the middle half than it began. */
  TOWARD_BAND("moved toward the middle half of the group"),
  /** The line through the values ends further from the middle half than it began. */
  AWAY_FROM_BAND("moved away from the middle half of the group"),
  /** Each value lies within the middle half. */
  STAYED_INSIDE("stayed inside the middle half of the group"),
  /** The values go up and down, or hardly move. */
  NO_CLEAR_MOVEMENT("no clear movement"),
  /** Fewer than three different dates. */
  TOO_FEW_DATES("too few dates to tell"),
  /** The group has no middle half: fewer than eleven of its solos have a value. */
  NO_NORM("no norm to move toward or away from");

  private final String words;

  Movement(String words) {
    this.words = words;
  }

  /** In a reader's words, to follow a colon. */
  public String words() {
    return words;
  }
}
