package phrasecensus.report.look;

/**
 * The colours of the report, for light and dark paper. Ink on paper first: the corpus is drawn in
 * pencil grey, the student in one blue-green ink, so that a copy in grey still tells them apart by
 * shape and weight. A style sheet variable of the same name carries each.
 */
public enum Palette {
  PAPER(Use.GROUND, "#fdfdfc", "#16181b"),
  PANEL(Use.GROUND, "#f1f3f4", "#202428"),
  INK(Use.TEXT, "#1b1e23", "#e9e7e2"),
  SOFT_INK(Use.TEXT, "#4c525a", "#aeb4bb"),
  CORPUS(Use.TEXT, "#535d67", "#a3adb7"),
  STUDENT(Use.TEXT, "#0b566c", "#74c7dd"),
  LINE(Use.GRAPHIC, "#767d85", "#858c94"),
  FOCUS(Use.GRAPHIC, "#a8480f", "#f0a25e"),
  /** Grid lines and rules between parts: nothing is lost where they are not seen. */
  HAIR(Use.DECORATION, "#d5d9dc", "#383d43"),
  /** Ground of the middle band, whose edges are drawn in {@link #CORPUS}. */
  BAND(Use.DECORATION, "#dfe5e9", "#2d353c"),
  /** Note values from long to short; each area is outlined in {@link #INK}. */
  VALUE_WHOLE(Use.DECORATION, "#dbe6ec", "#26323a"),
  VALUE_HALF(Use.DECORATION, "#b9cfdb", "#36505e"),
  VALUE_QUARTER(Use.DECORATION, "#8fb1c3", "#4b7184"),
  VALUE_EIGHTH(Use.DECORATION, "#568aa3", "#6c9ab0"),
  VALUE_SIXTEENTH(Use.DECORATION, "#2a617b", "#9cc3d5"),
  VALUE_THIRTY_SECOND(Use.DECORATION, "#123c50", "#d3e8f1");

  /** What a colour is for, which says how much contrast it needs. */
  public enum Use {
    /** What others are seen against. */
    GROUND,
    /** Words: 4.5 to 1 against every ground (WCAG 2.2, success criterion 1.4.3). */
    TEXT,
    /** Lines and marks that mean something: 3 to 1 (success criterion 1.4.11). */
    GRAPHIC,
    /** Carries no meaning alone. */
    DECORATION
  }

  private final Use use;
  private final String light;
  private final String dark;

  Palette(Use use, String light, String dark) {
    this.use = use;
    this.light = light;
    this.dark = dark;
  }

  public Use use() {
    return use;
  }

  /** On light paper, as {@code #rrggbb}. */
  public String light() {
    return light;
  }

  /** On dark paper, as {@code #rrggbb}. */
  public String dark() {
    return dark;
  }

  /** Name of the style sheet variable. */
  public String variable() {
    return "--" + name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
