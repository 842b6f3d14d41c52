package phrasecensus.music.difficulty;

import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.time.Fraction;

/**
 * A note as its player reads it.
 *
 * @param length sounding length in quarter notes, ties joined; positive
 * @param pitch written pitch
 */
public record WrittenNote(Fraction length, Pitch pitch) {

  /**
   * @throws IllegalArgumentException if {@code length} is not positive
   */
  public WrittenNote {
    if (!length.isPositive()) {
      throw new IllegalArgumentException("Invalid note length: " + length + " is not positive");
    }
  }
}
