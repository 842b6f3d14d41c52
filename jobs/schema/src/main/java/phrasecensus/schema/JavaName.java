package phrasecensus.schema;

import java.util.Locale;
import javax.lang.model.SourceVersion;

/** How names and texts of schema files stand in Java. */
final class JavaName {
  private JavaName() {}

  /** {@code first_bar} as {@code firstBar}; a word of the language gets {@code Value} behind it. */
  static String member(String snake) {
    String type = type(snake);
    String member = Character.toLowerCase(type.charAt(0)) + type.substring(1);
    return SourceVersion.isKeyword(member) ? member + "Value" : member;
  }

  /** {@code first_bar} as {@code FirstBar}. */
  static String type(String snake) {
    StringBuilder type = new StringBuilder();
    for (String part : snake.split("_")) {
      type.append(Character.toUpperCase(part.charAt(0))).append(part.substring(1));
    }
    if (!SourceVersion.isIdentifier(type)) {
      throw new SchemaException("'" + snake + "' makes no name");
    }
    return type.toString();
  }

  /** {@code phrase-end} as {@code PHRASE_END}. */
  static String constant(String word) {
    String constant = word.toUpperCase(Locale.ROOT).replace('-', '_');
    if (!SourceVersion.isName(constant)) {
      throw new SchemaException("The word '" + word + "' makes no constant");
    }
    return constant;
  }

  /** A string literal. */
  static String text(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  /** Words inside a comment. */
  static String prose(String words) {
    return words
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("@", "&#64;")
        .replace("*/", "*&#47;")
        .replace("{", "&#123;")
        .replace("}", "&#125;");
  }

  /** Words as a sentence inside a comment. */
  static String sentence(String words) {
    return prose(Character.toUpperCase(words.charAt(0)) + words.substring(1)) + ".";
  }
}
