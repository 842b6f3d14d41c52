package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/**
 * Note-value mixes as bars of one length, parted by note value from long to short. Darkness says
 * how short a value is, dots mark the dotted ones and stripes the triplets, as on paper.
 */
public final class ValueMix {
  /** Values below this share in every bar are drawn together with the other ones. */
  private static final double LEAST_SHARE = 0.015;

  private static final double LANE = 66;
  private static final String OTHER = "other";

  /** A width that the narrowest page has, in pixels: what fits there fits everywhere. */
  private static final double NARROW = 340;

  private final Numbers numbers;

  public ValueMix(Numbers numbers) {
    this.numbers = numbers;
  }

  /**
   * One bar.
   *
   * @param name what it is the mix of
   * @param shares by note value, as in {@code dotted_half}, from long to short
   * @param n what the shares were computed from, in words
   */
  public record Entry(String name, Map<String, Double> shares, String n) {
    public Entry {
      shares = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(shares));
    }
  }

  /**
   * The note values that are drawn by themselves in a picture of these bars, from long to short.
   */
  public static List<String> drawn(List<Entry> entries) {
    List<String> drawn = new ArrayList<>();
    for (String value : entries.get(0).shares().keySet()) {
      boolean seen =
          entries.stream().anyMatch(e -> e.shares().getOrDefault(value, 0.0) >= LEAST_SHARE);
      if (seen && !value.equals(OTHER)) {
        drawn.add(value);
      }
    }
    boolean rest = entries.stream().anyMatch(e -> rest(e, drawn) > 0.0005);
    if (rest) {
      drawn.add(OTHER);
    }
    return drawn;
  }

  /** Share of all values that are not drawn by themselves. */
  public static double rest(Entry entry, List<String> drawn) {
    double sum = 0;
    for (Map.Entry<String, Double> share : entry.shares().entrySet()) {
      if (share.getKey().equals(OTHER) || !drawn.contains(share.getKey())) {
        sum += share.getValue();
      }
    }
    return sum;
  }

  /** A value in words, as in {@code dotted half}. */
  public static String words(String value) {
    return Text.of("mix.value." + value);
  }

  /** Draws the bars in the order given; every bar must have the same note values. */
  public Picture picture(String id, String title, List<Entry> entries) {
    List<String> drawn = drawn(entries);
    List<Mark> marks = new ArrayList<>();
    StringBuilder description = new StringBuilder();
    double top = 0;
    for (Entry entry : entries) {
      marks.add(
          Mark.words(0, top + 12, Text.of("picture.mix.lane", entry.name(), entry.n()), "plain"));
      description.append(entry.name()).append(" (").append(entry.n()).append("): ");
      double left = 0;
      for (String value : drawn) {
        double share =
            value.equals(OTHER) ? rest(entry, drawn) : entry.shares().getOrDefault(value, 0.0);
        if (share <= 0) {
          continue;
        }
        double right = Math.min(1, left + share);
        marks.add(Mark.area(left, right, top + 34, 20, "value v-" + value.replace('_', '-')));
        String percent = numbers.percent(share);
        for (String label : new String[] {words(value) + " " + percent, percent}) {
          if (label.length() * 6.1 + 8 < (right - left) * NARROW) {
            marks.add(Mark.words(left, top + 29, label, "note bare"));
            break;
          }
        }
        description.append(words(value)).append(' ').append(percent).append(", ");
        left = right;
      }
      description.setLength(description.length() - 2);
      description.append(". ");
      top += LANE;
    }
    return new Picture(id, title, description.toString().strip(), (int) top - 8, marks);
  }
}
