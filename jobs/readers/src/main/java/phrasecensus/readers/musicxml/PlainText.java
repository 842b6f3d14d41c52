package phrasecensus.readers.musicxml;

import java.util.regex.Pattern;

/** Texts of a file as they may be shown: one line, without control characters, not too long. */
final class PlainText {
  private static final Pattern GAPS = Pattern.compile("[\\p{Cntrl}\\s]+");

  private PlainText() {}

  /** One line of at most {@code longest} characters; empty for null. */
  static String of(String text, int longest) {
    if (text == null) {
      return "";
    }
    if (isPlain(text, longest)) {
      return text;
    }
    String plain = GAPS.matcher(text.strip()).replaceAll(" ");
    return plain.length() > longest ? plain.substring(0, longest) + "…" : plain;
  }

  private static boolean isPlain(String text, int longest) {
    if (text.length() > longest) {
      return false;
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c <= ' ' || c >= 127 && c < 160 || c == '\u2028' || c == '\u2029' || c == '\u3000') {
        return false;
      }
    }
    return true;
  }
}
