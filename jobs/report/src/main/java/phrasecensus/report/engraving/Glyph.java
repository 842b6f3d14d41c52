package phrasecensus.report.engraving;

import java.util.Locale;

/**
 * The signs, drawn for this program to the proportions that the Standard Music Font Layout (SMuFL
 * 1.4, W3C Music Notation Community Group) lays down: one unit is a staff space, y grows downward,
 * noteheads and accidentals are centred on their line, clefs stand on the line they name, rests on
 * the middle line. No outline comes from a font.
 */
public enum Glyph {
  NOTEHEAD_BLACK(1.2, Pen.ellipse(0.6, 0, 0.63, 0.46, -24)),
  NOTEHEAD_HALF(1.2, Pen.ellipse(0.6, 0, 0.63, 0.47, -24) + Pen.hole(0.6, 0, 0.55, 0.23, -32)),
  NOTEHEAD_WHOLE(1.7, Pen.ellipse(0.85, 0, 0.85, 0.5, 0) + Pen.hole(0.85, 0, 0.47, 0.3, 58)),
  AUGMENTATION_DOT(0.4, Pen.ellipse(0.2, 0, 0.21, 0.21, 0)),

  /** Origin on the second line from below. */
  G_CLEF(
      2.6,
      Pen.stroke(
          1.2, 0.62, 0.02, 0.86, 0.3, 0.13, 0.82, -0.22, 0.22, 1.25, -0.72, 0.3, 1.85, -0.5, 0.36,
          2.12, 0.1, 0.36, 1.82, 0.78, 0.26, 1.2, 1.0, 0.17, 0.5, 0.72, 0.26, 0.16, 0.02, 0.36,
          0.32, -0.82, 0.4, 0.86, -1.62, 0.36, 1.44, -2.4, 0.28, 1.72, -3.2, 0.22, 1.62, -3.98,
          0.16, 1.38, -4.22, 0.1, 1.12, -3.86, 0.17, 0.98, -3.1, 0.17, 1.1, -2.2, 0.14, 1.34, -0.7,
          0.14, 1.62, 1.0, 0.14, 1.66, 1.75, 0.14, 1.42, 2.32, 0.14, 0.96, 2.46, 0.14, 0.66, 2.2,
          0.1),
      Pen.ellipse(0.92, 1.98, 0.34, 0.34, 0)),
  /** Origin on the second line from above. */
  F_CLEF(
      2.7,
      Pen.ellipse(0.42, 0.06, 0.37, 0.37, 0),
      Pen.stroke(
          0.12, -0.02, 0.06, 0.3, -0.6, 0.1, 0.9, -0.98, 0.16, 1.52, -0.7, 0.34, 1.78, 0.0, 0.42,
          1.66, 0.78, 0.36, 1.16, 1.6, 0.22, 0.5, 2.16, 0.12, -0.02, 2.42, 0.04),
      Pen.ellipse(2.4, -0.5, 0.22, 0.22, 0),
      Pen.ellipse(2.4, 0.5, 0.22, 0.22, 0)),

  SHARP(
      1.0,
      "M.29-1.3H.42V1.42H.29Z",
      "M.6-1.42H.73V1.3H.6Z",
      "M.02-.3L1-.62V-.3L.02.02Z",
      "M.02.64L1 .32V.64L.02 .96Z"),
  FLAT(
      0.84,
      "M0-1.75H.13V.7H0Z",
      Pen.stroke(
          0.07, -0.1, 0.1, 0.3, -0.38, 0.16, 0.58, -0.4, 0.24, 0.7, -0.12, 0.26, 0.52, 0.26, 0.16,
          0.08, 0.66, 0.06)),
  NATURAL(
      0.7,
      "M0-1.36H.12V.74H0Z",
      "M.56-.74H.68V1.36H.56Z",
      "M.06-.34L.62-.56V-.26L.06-.04Z",
      "M.06 .5L.62 .28V.58L.06 .8Z"),
  DOUBLE_SHARP(
      1.0,
      "M.05-.5H.38L.5-.12L.62-.5H.95V-.17L.6 0L.95 .17V.5H.62L.5 .12L.38 .5H.05V.17L.4 0L.05-.17Z"),
  DOUBLE_FLAT(
      1.55,
      "M0-1.75H.13V.7H0Z",
      Pen.stroke(
          0.07, -0.1, 0.1, 0.3, -0.38, 0.15, 0.56, -0.4, 0.22, 0.64, -0.12, 0.24, 0.48, 0.26, 0.16,
          0.08, 0.66, 0.06),
      "M.72-1.75H.85V.7H.72Z",
      Pen.stroke(
          0.79, -0.1, 0.1, 1.02, -0.38, 0.15, 1.28, -0.4, 0.22, 1.36, -0.12, 0.24, 1.2, 0.26, 0.16,
          0.8, 0.66, 0.06)),

  /** Hangs from the line at its origin. */
  REST_WHOLE(1.13, "M0 0H1.13V.54H0Z"),
  /** Lies on the line at its origin. */
  REST_HALF(1.13, "M0-.54H1.13V0H0Z"),
  REST_QUARTER(
      1.08,
      Pen.stroke(
          0.3, -1.5, 0.06, 0.56, -1.16, 0.16, 0.78, -0.78, 0.38, 0.62, -0.4, 0.44, 0.44, -0.08,
          0.26, 0.6, 0.28, 0.16, 0.98, 0.74, 0.06),
      Pen.stroke(
          0.96, 0.74, 0.04, 0.62, 0.56, 0.26, 0.3, 0.68, 0.32, 0.3, 1.0, 0.26, 0.48, 1.26, 0.14,
          0.66, 1.46, 0.03)),
  REST_EIGHTH(1.02, Pen.hookedRest(1)),
  REST_SIXTEENTH(1.24, Pen.hookedRest(2)),
  REST_THIRTY_SECOND(1.46, Pen.hookedRest(3)),
  REST_SIXTY_FOURTH(1.68, Pen.hookedRest(4)),
  REST_128TH(1.9, Pen.hookedRest(5)),
  REST_256TH(2.12, Pen.hookedRest(6)),
  REST_512TH(2.34, Pen.hookedRest(7)),
  REST_1024TH(2.56, Pen.hookedRest(8)),

  /** Origin at the end of the stem, on its left side. */
  FLAG_UP(
      1.0,
      "M0 0H.12C.2 .6 .62 .98 .86 1.42C1.14 1.95 1.1 2.6 .78 3.2L.68 3.14C.9 2.5 .86 2 .6 1.6"
          + "C.42 1.32 .2 1.12 0 1.02Z"),
  FLAG_DOWN(
      1.0,
      "M0 0H.12C.2-.6 .62-.98 .86-1.42C1.14-1.95 1.1-2.6 .78-3.2L.68-3.14C.9-2.5 .86-2 .6-1.6"
          + "C.42-1.32 .2-1.12 0-1.02Z"),

  DIGIT_0(1.5, Pen.ellipse(0.75, 0, 0.66, 0.98, 0) + Pen.hole(0.75, 0, 0.27, 0.82, 0)),
  DIGIT_1(1.1, "M.42-.98H.82V.72L1.06 .84V.98H.2V.84L.42 .72V-.46L.16-.3L.08-.42Z"),
  DIGIT_2(
      1.5,
      Pen.ellipse(0.38, -0.5, 0.24, 0.24, 0),
      Pen.stroke(
          0.18, -0.56, 0.1, 0.38, -0.88, 0.16, 0.78, -0.9, 0.26, 1.06, -0.54, 0.4, 0.9, -0.08, 0.32,
          0.46, 0.34, 0.16, 0.16, 0.86, 0.1),
      Pen.stroke(
          0.14, 0.9, 0.12, 0.48, 0.66, 0.34, 0.92, 0.8, 0.4, 1.26, 0.66, 0.16, 1.34, 0.38, 0.05)),
  DIGIT_3(
      1.45,
      Pen.ellipse(0.34, -0.54, 0.23, 0.23, 0),
      Pen.stroke(
          0.14, -0.6, 0.08, 0.36, -0.9, 0.14, 0.74, -0.9, 0.24, 0.98, -0.54, 0.4, 0.82, -0.16, 0.26,
          0.5, -0.02, 0.12),
      Pen.stroke(
          0.5, -0.04, 0.12, 0.88, 0.12, 0.26, 1.06, 0.48, 0.42, 0.8, 0.88, 0.26, 0.38, 0.9, 0.14,
          0.12, 0.58, 0.08),
      Pen.ellipse(0.34, 0.52, 0.25, 0.25, 0)),
  DIGIT_4(
      1.6,
      "M.78-.98H1.2L.42 .32H.86V-.1L1.22-.46V.32H1.46V.5H1.22V.74L1.44 .86V.98H.64V.86L.86"
          + " .74V.5H.1V.36Q.66-.24 .78-.98Z"),
  DIGIT_5(
      1.45,
      "M.26-.98H1.2Q1.2-.62 .9-.58H.4L.34-.2L.2-.1Z",
      Pen.stroke(
          0.24, -0.08, 0.1, 0.6, -0.24, 0.2, 1.0, 0.02, 0.34, 1.04, 0.48, 0.4, 0.74, 0.88, 0.22,
          0.34, 0.88, 0.14, 0.12, 0.6, 0.08),
      Pen.ellipse(0.34, 0.56, 0.23, 0.23, 0)),
  DIGIT_6(
      1.45,
      Pen.stroke(
          1.2, -0.62, 0.1, 0.94, -0.92, 0.16, 0.54, -0.78, 0.26, 0.3, -0.2, 0.4, 0.34, 0.5, 0.4,
          0.72, 0.9, 0.18, 1.1, 0.58, 0.36, 1.02, 0.14, 0.34, 0.7, -0.06, 0.16, 0.36, 0.2, 0.1),
      Pen.ellipse(1.02, -0.54, 0.22, 0.22, 0)),
  DIGIT_7(
      1.45,
      Pen.stroke(
          0.14, -0.4, 0.06, 0.2, -0.74, 0.2, 0.52, -0.86, 0.34, 0.94, -0.74, 0.36, 1.28, -0.92,
          0.08),
      Pen.stroke(
          1.26, -0.9, 0.1, 1.0, -0.4, 0.16, 0.7, 0.1, 0.32, 0.62, 0.6, 0.42, 0.64, 0.98, 0.44)),
  DIGIT_8(
      1.45,
      Pen.ellipse(0.72, -0.46, 0.54, 0.52, 0) + Pen.hole(0.76, -0.52, 0.26, 0.34, -25),
      Pen.ellipse(0.72, 0.44, 0.62, 0.54, 0) + Pen.hole(0.68, 0.5, 0.32, 0.34, -25)),
  DIGIT_9(
      1.45,
      Pen.stroke(
          0.24, 0.62, 0.1, 0.5, 0.92, 0.16, 0.9, 0.78, 0.26, 1.14, 0.2, 0.4, 1.1, -0.5, 0.4, 0.72,
          -0.9, 0.18, 0.34, -0.58, 0.36, 0.42, -0.14, 0.34, 0.74, 0.06, 0.16, 1.08, -0.2, 0.1),
      Pen.ellipse(0.42, 0.54, 0.22, 0.22, 0)),

  PLUS(1.0, "M.42-.5H.58V-.08H1V.08H.58V.5H.42V.08H0V-.08H.42Z"),

  /** Origin on the line it names. */
  C_CLEF(
      2.7,
      "M0-2H.5V2H0Z",
      "M.72-2H.86V2H.72Z",
      Pen.stroke(
          0.9, 0, 0.1, 1.22, -0.28, 0.2, 1.42, -0.72, 0.12, 1.6, -0.4, 0.12, 2.0, -0.3, 0.22, 2.36,
          -1.0, 0.46, 2.1, -1.78, 0.24, 1.6, -1.9, 0.14, 1.28, -1.6, 0.1),
      Pen.ellipse(1.42, -1.42, 0.27, 0.27, 0),
      Pen.stroke(
          0.9, 0, 0.1, 1.22, 0.28, 0.2, 1.42, 0.72, 0.12, 1.6, 0.4, 0.12, 2.0, 0.3, 0.22, 2.36, 1.0,
          0.46, 2.1, 1.78, 0.24, 1.6, 1.9, 0.14, 1.28, 1.6, 0.1),
      Pen.ellipse(1.42, 1.42, 0.27, 0.27, 0)),

  GRACE_NOTEHEAD(NOTEHEAD_BLACK, 6.5),
  GRACE_FLAG(FLAG_UP, 6.5),
  SMALL_SHARP(SHARP, 6.5),
  SMALL_FLAT(FLAT, 6.5),
  SMALL_NATURAL(NATURAL, 6.5),
  SMALL_DOUBLE_SHARP(DOUBLE_SHARP, 6.5),
  SMALL_DOUBLE_FLAT(DOUBLE_FLAT, 6.5),
  SMALL_G_CLEF(G_CLEF, 7.5),
  SMALL_F_CLEF(F_CLEF, 7.5),
  SMALL_C_CLEF(C_CLEF, 7.5),

  CIRCLE_FULL(1.4, Pen.ellipse(0, 0, 0.8, 0.8, 0)),
  CIRCLE_OPEN(1.4, Pen.ellipse(0, 0, 0.8, 0.8, 0) + Pen.hole(0, 0, 0.58, 0.58, 0)),
  DIAMOND_FULL(2, "M0-1.1L1.1 0L0 1.1L-1.1 0Z"),
  DIAMOND_OPEN(2, "M0-1.1L1.1 0L0 1.1L-1.1 0Z", "M0-.79L-.79 0L0 .79L.79 0Z"),
  SQUARE_FULL(1.4, "M-.79-.79H.79V.79H-.79Z"),
  SQUARE_OPEN(1.4, "M-.79-.79H.79V.79H-.79Z", "M-.57-.57V.57H.57V-.57Z"),
  TRIANGLE_FULL(1.7, "M0-.95L.98 .8H-.98Z"),
  TRIANGLE_OPEN(1.7, "M0-.95L.98 .8H-.98Z", "M0-.5L-.62 .58H.62Z");

  private final double width;
  private final double scale;
  private final String[] outlines;

  Glyph(double width, String... outlines) {
    this.width = width;
    this.scale = 10;
    this.outlines = outlines;
  }

  Glyph(Glyph large, double scale) {
    this.width = large.width * scale / 10;
    this.scale = scale;
    this.outlines = large.outlines;
  }

  /** Width in staff spaces from the origin to the right edge. */
  public double width() {
    return width;
  }

  /** Outline as SVG path data, in staff spaces. */
  public String outline() {
    return String.join("", outlines);
  }

  /** How large it is drawn, in tenths of a staff space. */
  public String scale() {
    return Pen.number(scale);
  }

  /**
   * The same sign for grace notes and for clefs inside a system.
   *
   * @throws IllegalArgumentException if there is none
   */
  Glyph small() {
    return valueOf("SMALL_" + name());
  }

  /**
   * An accidental by its semitones.
   *
   * @throws IllegalArgumentException for more than two
   */
  static Glyph accidental(int alter) {
    return switch (alter) {
      case 1 -> SHARP;
      case -1 -> FLAT;
      case 2 -> DOUBLE_SHARP;
      case -2 -> DOUBLE_FLAT;
      case 0 -> NATURAL;
      default -> throw new IllegalArgumentException("A triple accidental is not drawn.");
    };
  }

  /** What a landing of this shape is drawn with. */
  static Glyph landing(String shape, boolean full) {
    return valueOf((shape + (full ? "_full" : "_open")).toUpperCase(Locale.ROOT));
  }

  /** Id of the sign in a page; short, since a page names it for every note. */
  public String id() {
    return "g" + ordinal();
  }

  /** True for the shapes that mark landings. */
  public boolean isLandingMark() {
    return ordinal() >= CIRCLE_FULL.ordinal();
  }

  /** The style of every sign: it stands at each point of a path of that style, but the last. */
  public static String styles() {
    StringBuilder text = new StringBuilder();
    for (Glyph glyph : values()) {
      String id = glyph.id();
      text.append("." + id + "{marker-start:url(#" + id + ");marker-mid:url(#" + id + ")}\n");
    }
    return text.toString();
  }

  /** The rest of a value, by the halvings of a whole note. */
  static Glyph rest(int halvings) {
    return values()[REST_WHOLE.ordinal() + halvings];
  }

  /** The digit of a number from 0 to 9. */
  public static Glyph digit(int digit) {
    return values()[DIGIT_0.ordinal() + digit];
  }
}
