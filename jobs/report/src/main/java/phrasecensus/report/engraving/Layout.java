package phrasecensus.report.engraving;

/**
 * What is engraved of a solo, and how wide.
 *
 * @param pixels width of a system
 * @param staffSpace pixels between two lines of the staff
 * @param firstBar index of the first bar that is drawn
 * @param lastBar index of the last one; beyond the end means all
 * @param from start of what is drawn in full strength, in quarter notes from the start of the solo
 * @param to its end; what lies outside is drawn pale
 * @param restless true to leave rests out: bars that the player fills
 * @param rings true to ring the notes that belong neither to the key nor to the chord at hand
 */
public record Layout(
    int pixels,
    double staffSpace,
    int firstBar,
    int lastBar,
    double from,
    double to,
    boolean restless,
    boolean rings) {
  private static final int WIDE_PIXELS = 720;
  private static final double WIDE_STAFF_SPACE = 7;
  private static final int NARROW_PIXELS = 344;
  private static final double NARROW_STAFF_SPACE = 6.4;

  /** All bars in full strength. */
  public static Layout of(int pixels, double staffSpace) {
    return new Layout(
        pixels,
        staffSpace,
        0,
        Integer.MAX_VALUE,
        Double.NEGATIVE_INFINITY,
        Double.POSITIVE_INFINITY,
        false,
        false);
  }

  /** For a desk or a printed page. */
  public static Layout wide() {
    return of(WIDE_PIXELS, WIDE_STAFF_SPACE);
  }

  /** For a phone. */
  public static Layout narrow() {
    return of(NARROW_PIXELS, NARROW_STAFF_SPACE);
  }

  /** The same with these bars only, by index, both included. */
  public Layout bars(int first, int last) {
    return new Layout(pixels, staffSpace, first, last, from, to, restless, rings);
  }

  /** The same with everything outside a stretch pale, in quarter notes from the start. */
  public Layout focus(double start, double end) {
    return new Layout(pixels, staffSpace, firstBar, lastBar, start, end, restless, rings);
  }

  /** The same with rings around notes outside the key. */
  public Layout ringed() {
    return new Layout(pixels, staffSpace, firstBar, lastBar, from, to, restless, true);
  }

  /** The same without rests, to be written into. */
  public Layout blank() {
    return new Layout(pixels, staffSpace, firstBar, lastBar, from, to, true, rings);
  }

  /** How high a system of this layout stands on the page, in pixels. */
  public double height(Engraving system) {
    return (system.bottom() - system.top()) * (double) pixels / system.width();
  }

  double width() {
    return pixels / staffSpace;
  }

  boolean isPale(double moment) {
    return moment < from - 1e-9 || moment >= to - 1e-9;
  }
}
