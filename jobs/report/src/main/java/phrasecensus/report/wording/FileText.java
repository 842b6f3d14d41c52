package phrasecensus.report.wording;

/**
 * Text from files, fit to be printed. Escaping is the templates' work; this takes out what no
 * escaping helps against: control characters, which HTML forbids, halves of surrogate pairs, and
 * where no element can isolate the text (page titles, SVG), the characters that turn the direction
 * of the text around them.
 */
public final class FileText {
  private FileText() {}

  /**
   * The text without control characters and with single spaces; the empty text for null. Direction
   * marks stay: print it inside a {@code bdi} element.
   */
  public static String printable(String text) {
    return cleaned(text, false);
  }

  /** {@link #printable} without direction marks: for places that take no element. */
  public static String withoutDirection(String text) {
    return cleaned(text, true);
  }

  private static String cleaned(String text, boolean dropDirection) {
    if (text == null) {
      return "";
    }
    StringBuilder clean = new StringBuilder(text.length());
    boolean gap = false;
    for (int i = 0; i < text.length(); ) {
      int point = text.codePointAt(i);
      i += Character.charCount(point);
      if (Character.isWhitespace(point) || Character.isISOControl(point)) {
        gap = true;
      } else if (isPrintable(point) && !(dropDirection && isDirectionMark(point))) {
        if (gap && clean.length() > 0) {
          clean.append(' ');
        }
        gap = false;
        clean.appendCodePoint(point);
      }
    }
    return clean.toString();
  }

  private static boolean isPrintable(int point) {
    boolean loneSurrogate = point >= 0xD800 && point <= 0xDFFF;
    boolean noncharacter = (point & 0xFFFE) == 0xFFFE || point >= 0xFDD0 && point <= 0xFDEF;
    return !loneSurrogate && !noncharacter;
  }

  /** The marks, embeddings, overrides and isolates of Unicode Standard Annex 9. */
  private static boolean isDirectionMark(int point) {
    return point == 0x061C
        || point == 0x200E
        || point == 0x200F
        || point >= 0x202A && point <= 0x202E
        || point >= 0x2066 && point <= 0x2069;
  }
}
