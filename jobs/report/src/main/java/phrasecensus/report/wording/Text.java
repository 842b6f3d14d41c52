package phrasecensus.report.wording;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;

/**
 * The fixed words of the pages, by key. All of them stand in {@code english.properties} and, for
 * what a player might try, in {@code practice.properties}; sentences that depend on values are made
 * by {@link Wording}. A report in another language needs these two files and that class.
 */
public final class Text {
  private static final Properties PAGES = read("english.properties");
  private static final Properties PRACTICE = read("practice.properties");

  private Text() {}

  /**
   * The words of a page with {@code {0}}, {@code {1}} … replaced.
   *
   * @throws IllegalArgumentException if there are none under the key
   */
  public static String of(String key, Object... values) {
    String text = PAGES.getProperty(key);
    if (text == null) {
      throw new IllegalArgumentException("Cannot find words for: " + key);
    }
    for (int i = 0; i < values.length; i++) {
      text = text.replace("{" + i + "}", String.valueOf(values[i]));
    }
    return text;
  }

  /** True when there are words under the key. */
  public static boolean has(String key) {
    return PAGES.containsKey(key);
  }

  /**
   * Words on what to try next.
   *
   * @throws IllegalArgumentException if there are none under the key
   */
  public static String practice(String key) {
    String text = PRACTICE.getProperty(key);
    if (text == null) {
      throw new IllegalArgumentException("Cannot find words for: " + key);
    }
    return text;
  }

  /** True when there are words on what to try next under the key. */
  public static boolean hasPractice(String key) {
    return PRACTICE.containsKey(key);
  }

  /** Every key of the words of pages, sorted. */
  public static Set<String> keys() {
    return Collections.unmodifiableSet(new TreeSet<>(PAGES.stringPropertyNames()));
  }

  /** Every key of the words on what to try next, sorted. */
  public static Set<String> practiceKeys() {
    return Collections.unmodifiableSet(new TreeSet<>(PRACTICE.stringPropertyNames()));
  }

  private static Properties read(String name) {
    Properties properties = new Properties();
    try (InputStream stream = Text.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find " + name + " in the program");
      }
      properties.load(new InputStreamReader(stream, StandardCharsets.UTF_8));
      return properties;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
