package phrasecensus.cli;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.Writer;

/**
 * What goes to a terminal: names of files and text from scores may hold control characters, which a
 * terminal would obey. Each is shown as a question mark; line ends and tabs stay.
 */
final class ShownText extends FilterWriter {
  ShownText(Writer out) {
    super(out);
  }

  @Override
  public void write(int character) throws IOException {
    out.write(shown((char) character));
  }

  @Override
  public void write(char[] text, int from, int length) throws IOException {
    char[] shown = new char[length];
    for (int i = 0; i < length; i++) {
      shown[i] = shown(text[from + i]);
    }
    out.write(shown, 0, length);
  }

  @Override
  public void write(String text, int from, int length) throws IOException {
    write(text.toCharArray(), from, length);
  }

  private static char shown(char character) {
    boolean obeyed =
        Character.isISOControl(character)
            && character != '\n'
            && character != '\r'
            && character != '\t';
    return obeyed ? '?' : character;
  }

  /** A name in a line of its own: line ends would make two lines of it. */
  static String name(String text) {
    return text.replace('\n', '?').replace('\r', '?');
  }
}
