package phrasecensus.grammar;

import java.util.List;

/**
 * Which texts an element or attribute may have. Looks at characters in place, because nearly every
 * value is good and should cost no object.
 */
public final class ValueRule {
  private static final String[] NO_WORDS = {};

  /** Any text, the empty one too. */
  public static final ValueRule TEXT = new ValueRule(Form.TEXT, NO_WORDS, 0, 0);

  /** The kinds of values. */
  public enum Form {
    TEXT,
    WORDS,
    WHOLE,
    DECIMAL,
    SUM,
    PASSES
  }

  private final Form form;
  private final String[] words;
  private final long least;
  private final long most;

  private ValueRule(Form form, String[] words, long least, long most) {
    this.form = form;
    this.words = words;
    this.least = least;
    this.most = most;
  }

  /** One of these words, exactly. */
  public static ValueRule words(String... words) {
    return new ValueRule(Form.WORDS, words, 0, 0);
  }

  /** A whole number in a range. */
  public static ValueRule whole(long least, long most) {
    return new ValueRule(Form.WHOLE, NO_WORDS, least, most);
  }

  /** A decimal number without exponent whose whole part lies in a range; at most six decimals. */
  public static ValueRule decimal(long least, long most) {
    return new ValueRule(Form.DECIMAL, NO_WORDS, least, most);
  }

  /** Positive whole numbers joined by plus signs, as in {@code 3+2}. */
  public static ValueRule sum() {
    return new ValueRule(Form.SUM, NO_WORDS, 1, 999);
  }

  /** Numbers of passes: positive whole numbers between commas and spaces. */
  public static ValueRule passes() {
    return new ValueRule(Form.PASSES, NO_WORDS, 1, 999);
  }

  /** The kind of value. */
  public Form form() {
    return form;
  }

  /** The words of a rule of words; empty for the others. */
  public List<String> words() {
    return List.of(words);
  }

  /** True when any text is valid. */
  public boolean isText() {
    return form == Form.TEXT;
  }

  /** True for a valid text, given by its place among characters. */
  public boolean accepts(char[] text, int start, int length) {
    return switch (form) {
      case TEXT -> true;
      case WORDS -> word(text, start, length) != null;
      case WHOLE -> isWhole(text, start, length);
      case DECIMAL -> isDecimal(text, start, length);
      case SUM -> isList(text, start, length, "+");
      case PASSES -> isList(text, start, length, ", ");
    };
  }

  /** True for a valid text. */
  public boolean accepts(String text) {
    if (form == Form.WORDS) {
      for (String word : words) {
        if (word.equals(text)) {
          return true;
        }
      }
      return false;
    }
    return form == Form.TEXT || accepts(text.toCharArray(), 0, text.length());
  }

  /** The word of this rule that a text is; null for another text and under another rule. */
  public String word(char[] text, int start, int length) {
    for (String word : words) {
      if (word.length() == length) {
        int i = 0;
        while (i < length && word.charAt(i) == text[start + i]) {
          i++;
        }
        if (i == length) {
          return word;
        }
      }
    }
    return null;
  }

  private boolean isWhole(char[] text, int start, int length) {
    return isNumber(text, start, length, -1);
  }

  private boolean isDecimal(char[] text, int start, int length) {
    int point = 0;
    while (point < length && text[start + point] != '.') {
      point++;
    }
    int decimals = length - point - 1;
    if (decimals < 0) {
      return isNumber(text, start, length, -1);
    }
    if (decimals > 6) {
      return false;
    }
    for (int i = point + 1; i < length; i++) {
      if (!isDigit(text[start + i])) {
        return false;
      }
    }
    return isNumber(text, start, point, decimals);
  }

  /** {@code decimals} after the number, or -1 for none; then the whole part may be missing. */
  private boolean isNumber(char[] text, int start, int length, int decimals) {
    int at = 0;
    boolean negative = false;
    if (length > 0 && (text[start] == '-' || text[start] == '+')) {
      negative = text[start] == '-';
      at = 1;
    }
    if (length - at > 12 || length == at && decimals <= 0) {
      return false;
    }
    long value = 0;
    for (; at < length; at++) {
      if (!isDigit(text[start + at])) {
        return false;
      }
      value = 10 * value + text[start + at] - '0';
    }
    value = negative ? -value : value;
    return value >= least && value <= most;
  }

  private boolean isList(char[] text, int start, int length, String separators) {
    int digits = 0;
    boolean any = false;
    long value = 0;
    for (int i = 0; i < length; i++) {
      char c = text[start + i];
      if (isDigit(c)) {
        value = 10 * value + c - '0';
        any = true;
        if (++digits > 3 || value < least && digits == 3) {
          return false;
        }
      } else if (separators.indexOf(c) >= 0) {
        if (digits > 0 && value < least) {
          return false;
        }
        digits = 0;
        value = 0;
      } else {
        return false;
      }
    }
    return any && (digits == 0 || value >= least);
  }

  private static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }
}
