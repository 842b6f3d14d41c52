package phrasecensus.report.engraving;

import java.util.regex.Pattern;

/** A time signature in digits, as in {@code 4/4}, {@code 3+2/8} or {@code 2/4+3/8}. */
final class MetreSign {
  private static final Pattern DRAWN =
      Pattern.compile("[0-9]{1,2}(?:\\+[0-9]{1,2})*/[0-9]{1,2}(?:\\+[0-9+]{1,8}/[0-9]{1,2})*");
  private static final double BETWEEN = 0.4;

  private MetreSign() {}

  static boolean isDrawn(String metre) {
    return DRAWN.matcher(metre).matches();
  }

  static double width(String metre) {
    double width = 0;
    for (String part : parts(metre)) {
      width += partWidth(part) + (width > 0 ? BETWEEN * 2 + Glyph.PLUS.width() : 0);
    }
    return width;
  }

  static void draw(Ink ink, String metre, double left) {
    double x = left;
    for (String part : parts(metre)) {
      if (x > left) {
        ink.sign(Glyph.PLUS, x + BETWEEN, 0);
        x += BETWEEN * 2 + Glyph.PLUS.width();
      }
      String[] both = part.split("/");
      double width = partWidth(part);
      row(ink, both[0], x + (width - rowWidth(both[0])) / 2, -1);
      row(ink, both[1], x + (width - rowWidth(both[1])) / 2, 1);
      x += width;
    }
  }

  /** The fractions of a sum of them. */
  private static String[] parts(String metre) {
    return metre.split("(?<=/[0-9]{1,2})\\+");
  }

  private static double partWidth(String part) {
    String[] both = part.split("/");
    return Math.max(rowWidth(both[0]), rowWidth(both[1]));
  }

  private static double rowWidth(String digits) {
    double width = 0;
    for (int i = 0; i < digits.length(); i++) {
      width += glyph(digits.charAt(i)).width();
    }
    return width;
  }

  private static void row(Ink ink, String digits, double left, double y) {
    double x = left;
    for (char digit : digits.toCharArray()) {
      ink.sign(glyph(digit), x, y);
      x += glyph(digit).width();
    }
  }

  private static Glyph glyph(char sign) {
    return sign == '+' ? Glyph.PLUS : Glyph.digit(sign - '0');
  }
}
