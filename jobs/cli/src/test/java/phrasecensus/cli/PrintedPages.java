package phrasecensus.cli;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * Counts the texts on each page of a PDF as Chromium prints it: the text-showing operators {@code
 * Tj} and {@code TJ} of the page's content (ISO 32000-1:2008, 9.4.3).
 */
final class PrintedPages {
  private static final Pattern OBJECT = Pattern.compile("(?m)^(\\d+) 0 obj\\s");
  private static final Pattern PAGE = Pattern.compile("/Type\\s*/Page\\b(?!s)");
  private static final Pattern CONTENTS = Pattern.compile("/Contents\\s+(\\d+) 0 R");
  private static final Pattern LENGTH = Pattern.compile("/Length\\s+(\\d+)\\b(?! 0 R)");
  private static final Pattern SHOWS_TEXT = Pattern.compile("[>\\])]\\s*T[jJ]\\b");

  private PrintedPages() {}

  static List<Integer> textsPerPage(byte[] pdf) {
    String text = new String(pdf, StandardCharsets.ISO_8859_1);
    Map<String, Integer> starts = new HashMap<>();
    List<Integer> order = new ArrayList<>();
    Matcher object = OBJECT.matcher(text);
    while (object.find()) {
      starts.put(object.group(1), object.end());
      order.add(object.end());
    }
    List<Integer> counts = new ArrayList<>();
    for (int start : order) {
      String dictionary = dictionary(text, start);
      if (PAGE.matcher(dictionary).find()) {
        Matcher contents = CONTENTS.matcher(dictionary);
        counts.add(contents.find() ? texts(pdf, text, starts.get(contents.group(1))) : 0);
      }
    }
    return counts;
  }

  private static String dictionary(String text, int start) {
    int end = text.indexOf("endobj", start);
    int stream = text.indexOf("stream", start);
    return text.substring(start, stream >= 0 && stream < end ? stream : end);
  }

  private static int texts(byte[] pdf, String text, int start) {
    String dictionary = dictionary(text, start);
    Matcher length = LENGTH.matcher(dictionary);
    if (!length.find()) {
      throw new IllegalArgumentException(
          "Cannot read the printed page: no length in " + dictionary);
    }
    int from = text.indexOf("stream", start) + "stream".length();
    from += text.charAt(from) == '\r' ? 2 : 1;
    byte[] bytes = new byte[Integer.parseInt(length.group(1))];
    System.arraycopy(pdf, from, bytes, 0, bytes.length);
    String content =
        new String(
            dictionary.contains("/FlateDecode") ? inflated(bytes) : bytes,
            StandardCharsets.ISO_8859_1);
    return (int) SHOWS_TEXT.matcher(content).results().count();
  }

  private static byte[] inflated(byte[] bytes) {
    Inflater inflater = new Inflater();
    inflater.setInput(bytes);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    byte[] buffer = new byte[8192];
    try {
      while (!inflater.finished()) {
        int count = inflater.inflate(buffer);
        if (count == 0 && inflater.needsInput()) {
          break;
        }
        out.write(buffer, 0, count);
      }
      return out.toByteArray();
    } catch (DataFormatException e) {
      throw new IllegalArgumentException("Cannot read the printed page", e);
    } finally {
      inflater.end();
    }
  }
}
