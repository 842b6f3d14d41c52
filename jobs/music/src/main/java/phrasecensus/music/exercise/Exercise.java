package phrasecensus.music.exercise;

import java.util.Optional;

/**
 * A phrase under one transformation.
 *
 * @param passage what it became; empty where it was not made
 * @param limit why it was not: what it would break; null where it was made, or where the phrase
 *     gives nothing to make it from
 */
public record Exercise(Kind kind, Optional<Passage> passage, Limit limit) {
  /** The transformations. */
  public enum Kind {
    /**
     * Every note becomes an eighth, one after the other from the eighth on which the first begins;
     * the last one is held to the end of its beat. Bars and chords stay where they are.
     */
    EIGHTHS,
    /**
     * A bar of rest after the first two bars; a note that lasts beyond them is cut, what follows
     * comes a bar later with its chords, and the chord before holds on. An entry in the second half
     * of a bar counts as a pickup.
     */
    REST,
    /** The last note is moved to the nearest root of its chord. */
    ON_ROOT,
    /** To the nearest third. */
    ON_THIRD,
    /** To the nearest fifth. */
    ON_FIFTH,
    /** To the nearest seventh. */
    ON_SEVENTH,
    /** All of it a fourth higher, or where that is out of range a fifth lower, chords too. */
    OTHER_KEY;

    /** True where the last note alone changes. */
    public boolean isEnding() {
      return this == ON_ROOT || this == ON_THIRD || this == ON_FIFTH || this == ON_SEVENTH;
    }
  }

  /** True where there is something to play. */
  public boolean isMade() {
    return passage.isPresent();
  }
}
