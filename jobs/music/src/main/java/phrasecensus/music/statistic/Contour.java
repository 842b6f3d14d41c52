package phrasecensus.music.statistic;

import java.util.Locale;

/** The outline of a melody. */
public final class Contour {
  private Contour() {}

  /** Nine outlines by first pitch, mean of the pitches between, and last pitch. */
  public enum Shape {
    ASCENDING,
    DESCENDING,
    /** Up and down again: an arch. */
    CONVEX,
    /** Down and up again. */
    CONCAVE,
    HORIZONTAL,
    HORIZONTAL_ASCENDING,
    HORIZONTAL_DESCENDING,
    ASCENDING_HORIZONTAL,
    DESCENDING_HORIZONTAL;

    /** The word in tables: lower case with hyphens, as in {@code ascending-horizontal}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * The outline of a phrase (Huron 1996, "The melodic arch in Western folksongs"): the first pitch,
   * the mean of the inner pitches and the last pitch are compared. The mean is not rounded;
   * rounding it to semitones makes many more phrases horizontal.
   *
   * @param pitches at least three, in semitones
   * @throws IllegalArgumentException for fewer than three pitches
   */
  public static Shape huronClass(int... pitches) {
    int inner = pitches.length - 2;
    if (inner < 1) {
      throw new IllegalArgumentException(
          "Cannot classify a contour: " + pitches.length + " pitches, at least 3 needed");
    }
    long sum = 0;
    for (int i = 1; i <= inner; i++) {
      sum += pitches[i];
    }
    int arrival = Long.compare(sum, (long) pitches[0] * inner);
    int departure = Long.compare((long) pitches[inner + 1] * inner, sum);
    if (arrival > 0) {
      return departure > 0
          ? Shape.ASCENDING
          : departure < 0 ? Shape.CONVEX : Shape.ASCENDING_HORIZONTAL;
    }
    if (arrival < 0) {
      return departure < 0
          ? Shape.DESCENDING
          : departure > 0 ? Shape.CONCAVE : Shape.DESCENDING_HORIZONTAL;
    }
    return departure > 0
        ? Shape.HORIZONTAL_ASCENDING
        : departure < 0 ? Shape.HORIZONTAL_DESCENDING : Shape.HORIZONTAL;
  }

  /**
   * Parsons code (Parsons 1975): {@code *} for the first note, then {@code u} up, {@code d} down,
   * {@code r} repeated. Empty for no notes.
   */
  public static String parsons(int... pitches) {
    if (pitches.length == 0) {
      return "";
    }
    StringBuilder code = new StringBuilder("*");
    for (int i = 1; i < pitches.length; i++) {
      int direction = Integer.compare(pitches[i], pitches[i - 1]);
      code.append(direction > 0 ? 'u' : direction < 0 ? 'd' : 'r');
    }
    return code.toString();
  }
}
