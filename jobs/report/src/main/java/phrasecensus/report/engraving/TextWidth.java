package phrasecensus.report.engraving;

/**
 * How wide letters are, as a share of the size of type. A fixed table with slack, since the same
 * page has to come out the same whatever type is installed. Rough classes of a sans-serif type;
 * from memory.
 */
final class TextWidth {
  private static final double SLACK = 1.08;

  private TextWidth() {}

  /** Width of a text at a size, in the unit of the size. */
  static double of(String text, double size) {
    return text.codePoints().mapToDouble(TextWidth::of).sum() * size * SLACK;
  }

  private static double of(int letter) {
    if ("ijl.,'|:;()/ ".indexOf(letter) >= 0) {
      return 0.32;
    }
    if ("mMW".indexOf(letter) >= 0) {
      return 0.9;
    }
    if (letter == '\u266d' || letter == '\u266f' || letter == '\u00b0') {
      return 0.5;
    }
    if (Character.isUpperCase(letter) || letter == '\u00f8' || letter == '+') {
      return 0.7;
    }
    return letter > 0x2e80 ? 1.0 : 0.58;
  }
}
