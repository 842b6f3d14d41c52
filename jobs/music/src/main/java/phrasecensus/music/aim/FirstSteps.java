package phrasecensus.music.aim;

import java.util.List;

/**
 * The aims that are in force unless a study says otherwise: what a teacher asks of a beginner's
 * solo. Ranges are common practice, no source; how they were tuned stands in {@code DEVELOPERS.md}.
 */
public final class FirstSteps {
  /** Name of the set in study files. */
  public static final String NAME = "first-steps";

  /** Least share of notes in the scale of the key or in the chord at hand. */
  static final double LEAST_IN_KEY = 0.75;

  /**
   * Largest excess of notes that one other major scale holds over those in the key: a line in a
   * scale two signatures away shares five notes of seven with the key, and by chance more.
   */
  static final double LARGEST_OTHER_SCALE = 0.1;

  /** Least share of the notes that the line rests on that are 1 3 5 7. */
  static final double LEAST_ON_CHORD_TONES = 0.4;

  /** Least share of notes of an eighth or shorter. */
  static final double LEAST_MOVING = 0.6;

  /** Largest share of playing time in stretches of more than four and a half bars. */
  static final double LARGEST_UNBROKEN = 0.55;

  /** Largest share of playing time in stretches shorter than a bar. */
  static final double LARGEST_IN_SCRAPS = 0.5;

  /** The set. */
  public static final AimSet AIMS =
      new AimSet(
          List.of(
              atLeast(
                  Question.TONAL_CENTRE,
                  "in_key_share",
                  LEAST_IN_KEY,
                  Counted.NOTES,
                  Finding.OUTSIDE_KEY),
              atMost(
                  Question.TONAL_CENTRE,
                  "other_scale_excess",
                  LARGEST_OTHER_SCALE,
                  Counted.NOTES,
                  Finding.OUTSIDE_KEY),
              atLeast(
                  Question.LANDINGS,
                  "resting_chord_tone_share",
                  LEAST_ON_CHORD_TONES,
                  Counted.LANDINGS,
                  Finding.WEAK_LANDINGS),
              atLeast(
                  Question.MOVEMENT,
                  "eighth_or_shorter_share",
                  LEAST_MOVING,
                  Counted.NOTES,
                  Finding.LONG_NOTES),
              atMost(
                  Question.PHRASES,
                  "unbroken_time_share",
                  LARGEST_UNBROKEN,
                  Counted.BARS,
                  Finding.NO_BREATH),
              atMost(
                  Question.PHRASES,
                  "scrap_time_share",
                  LARGEST_IN_SCRAPS,
                  Counted.BARS,
                  Finding.FRAGMENTS)),
          Question.USUAL_ORDER);

  private FirstSteps() {}

  private static Aim atLeast(
      Question question, String statistic, double low, Counted counted, Finding finding) {
    return new Aim(question, statistic, low, null, counted, counted.least(), finding, finding, "");
  }

  private static Aim atMost(
      Question question, String statistic, double high, Counted counted, Finding finding) {
    return new Aim(question, statistic, null, high, counted, counted.least(), finding, finding, "");
  }
}
