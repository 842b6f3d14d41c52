package phrasecensus.report.wording;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.UnaryOperator;

/**
 * What a student works on until the next lesson. The words stand in {@code tasks.properties}.
 *
 * @param title what it is called
 * @param play what to play, and over what
 * @param time how long and how slow
 * @param sign how next week's solo would show it
 */
public record Task(String title, String play, String time, String sign) {
  /** The easiest level. */
  public static final int FIRST_LEVEL = 1;

  /** The hardest level. */
  public static final int LAST_LEVEL = 3;

  private static final Properties WORDS = read();

  /**
   * The tasks for a finding, in the order in which they take turns.
   *
   * @param finding a word of the column {@code finding} of the table {@code answers}
   * @param level 1 to 3
   * @throws IllegalArgumentException if there is none
   */
  public static List<Task> all(String finding, int level) {
    List<Task> tasks = new ArrayList<>();
    String stem = finding + "." + level + ".";
    for (int i = 1; WORDS.containsKey(stem + i + ".title"); i++) {
      String key = stem + i + ".";
      tasks.add(
          new Task(
              word(key + "title"), word(key + "play"), word(key + "time"), word(key + "sign")));
    }
    if (tasks.isEmpty()) {
      throw new IllegalArgumentException("Cannot find a task for: " + stem);
    }
    return List.copyOf(tasks);
  }

  /**
   * The task for a solo. They take turns by the number of the solo, so that none comes twice in a
   * row.
   *
   * @param solo place of the solo among the student's, from 0
   */
  public static Task of(String finding, int level, int solo) {
    List<Task> tasks = all(finding, level);
    return tasks.get(Math.floorMod(solo, tasks.size()));
  }

  /** The task with words in braces, as in {@code {home}}, replaced. */
  public Task with(Map<String, String> words) {
    UnaryOperator<String> filled =
        text -> {
          String made = text;
          for (Map.Entry<String, String> word : words.entrySet()) {
            made = made.replace("{" + word.getKey() + "}", word.getValue());
          }
          return made;
        };
    return new Task(title, filled.apply(play), filled.apply(time), filled.apply(sign));
  }

  /** Every key of the words, sorted. */
  static SortedSet<String> keys() {
    return Collections.unmodifiableSortedSet(new TreeSet<>(WORDS.stringPropertyNames()));
  }

  private static String word(String key) {
    String text = WORDS.getProperty(key);
    if (text == null) {
      throw new IllegalArgumentException("Cannot find words for: " + key);
    }
    return text;
  }

  private static Properties read() {
    Properties properties = new Properties();
    try (InputStream stream = Task.class.getResourceAsStream("tasks.properties")) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find tasks.properties in the program");
      }
      properties.load(new InputStreamReader(stream, StandardCharsets.UTF_8));
      return properties;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
