package phrasecensus.readers.musicxml;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The usual range of an instrument, from {@code instrument-ranges.csv}, which names its source.
 *
 * @param instrument its name
 * @param low lowest sounding MIDI number
 * @param high highest sounding MIDI number
 * @param namedBy sets of words; a name that has all words of one set is of this instrument
 * @param notWith words that make it another instrument
 */
record InstrumentRange(
    String instrument, int low, int high, List<List<String>> namedBy, List<String> notWith) {
  private static final List<InstrumentRange> ALL = rows();

  /** The instrument that a part's or an instrument's name speaks of; empty when it is not clear. */
  static Optional<InstrumentRange> named(String name) {
    List<String> words = words(name);
    List<InstrumentRange> fitting = ALL.stream().filter(range -> range.isNamedIn(words)).toList();
    return fitting.size() == 1 ? Optional.of(fitting.get(0)) : Optional.empty();
  }

  boolean holds(int lowest, int highest) {
    return low <= lowest && highest <= high;
  }

  private boolean isNamedIn(List<String> words) {
    return namedBy.stream().anyMatch(way -> way.stream().allMatch(word -> occurs(word, words)))
        && notWith.stream().noneMatch(word -> occurs(word, words));
  }

  private static boolean occurs(String word, List<String> words) {
    return word.endsWith("*")
        ? words.stream().anyMatch(each -> each.startsWith(word.substring(0, word.length() - 1)))
        : words.contains(word);
  }

  /** Words in lower case, without accents. */
  private static List<String> words(String text) {
    String plain =
        Normalizer.normalize(text.replace('♭', 'b'), Normalizer.Form.NFD).replaceAll("\\p{M}", "");
    return Stream.of(plain.toLowerCase(Locale.ROOT).split("[^\\p{L}\\p{N}]+"))
        .filter(word -> !word.isEmpty())
        .toList();
  }

  private static List<InstrumentRange> rows() {
    try (InputStream bytes = InstrumentRange.class.getResourceAsStream("instrument-ranges.csv")) {
      if (bytes == null) {
        throw new IllegalStateException("Cannot read instrument-ranges.csv: not in the jar");
      }
      return new BufferedReader(new InputStreamReader(bytes, StandardCharsets.UTF_8))
          .lines()
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .map(InstrumentRange::row)
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read instrument-ranges.csv", e);
    }
  }

  private static InstrumentRange row(String line) {
    String[] cells = line.split(",", -1);
    return new InstrumentRange(
        cells[0],
        Integer.parseInt(cells[1]),
        Integer.parseInt(cells[2]),
        Arrays.stream(cells[3].split("\\|")).map(InstrumentRange::spaced).toList(),
        spaced(cells[4]));
  }

  private static List<String> spaced(String cell) {
    return cell.isEmpty() ? List.of() : List.of(cell.split(" "));
  }
}
