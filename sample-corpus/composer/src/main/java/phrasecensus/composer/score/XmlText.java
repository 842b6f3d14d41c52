package phrasecensus.composer.score;

import java.util.ArrayDeque;
import java.util.Deque;

/** Builds an XML text, element by element. */
final class XmlText {
  private final StringBuilder text = new StringBuilder();
  private final Deque<String> open = new ArrayDeque<>();
  private final String indent;

  /**
   * Starts a text.
   *
   * @param indent what each level is indented by; null to write no line breaks at all
   */
  XmlText(String indent) {
    this.indent = indent;
  }

  /** Writes a line outside any element, such as the XML declaration. */
  XmlText raw(String line) {
    text.append(line).append('\n');
    return this;
  }

  /** Opens an element; attributes are names and values in turn. */
  XmlText start(String name, String... attributes) {
    tag(name, attributes).append('>');
    open.push(name);
    lineEnd();
    return this;
  }

  /** Closes the element opened last. */
  XmlText end() {
    String name = open.pop();
    margin();
    text.append("</").append(name).append('>');
    lineEnd();
    return this;
  }

  /** Writes an element that holds text. */
  XmlText leaf(String name, Object content, String... attributes) {
    tag(name, attributes).append('>').append(escaped(content.toString()));
    text.append("</").append(name).append('>');
    lineEnd();
    return this;
  }

  /** Writes an empty element. */
  XmlText empty(String name, String... attributes) {
    tag(name, attributes).append("/>");
    lineEnd();
    return this;
  }

  private StringBuilder tag(String name, String... attributes) {
    margin();
    text.append('<').append(name);
    for (int i = 0; i < attributes.length; i += 2) {
      text.append(' ').append(attributes[i]).append("=\"");
      text.append(escaped(attributes[i + 1])).append('"');
    }
    return text;
  }

  private void margin() {
    if (indent != null) {
      text.append(indent.repeat(open.size()));
    }
  }

  private void lineEnd() {
    if (indent != null || open.size() < 3) {
      text.append('\n');
    }
  }

  private static String escaped(String value) {
    return value
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
