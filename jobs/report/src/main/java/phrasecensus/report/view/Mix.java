package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import phrasecensus.music.norm.JensenShannon;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.ValueMix;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * A picture of note-value mixes with its key and its numbers.
 *
 * @param key note values in the picture, from long to short: style name and words
 */
public record Mix(Picture picture, List<Key> key, Grid numbers) {
  /** Prefix of the statistics that share out the notes. */
  static final String BY_COUNT = "value_share_";

  /** Prefix of the statistics that share out the sounding time. */
  static final String BY_TIME = "time_share_";

  public Mix {
    key = List.copyOf(key);
  }

  /** One note value of the key. */
  public record Key(String style, String words) {}

  /** A mix from the statistics of the catalogue that begin with a prefix; empty without values. */
  static Optional<ValueMix.Entry> entry(
      StatisticsCatalogue catalogue,
      String prefix,
      String name,
      String n,
      Function<String, Value> values) {
    Map<String, Double> shares = new LinkedHashMap<>();
    boolean any = false;
    for (StatisticDefinition definition : catalogue.all()) {
      if (definition.key().startsWith(prefix)) {
        Value value = values.apply(definition.key());
        shares.put(
            definition.key().substring(prefix.length()), value.isDefined() ? value.value() : 0.0);
        any |= value.isDefined();
      }
    }
    return any ? Optional.of(new ValueMix.Entry(name, shares, n)) : Optional.empty();
  }

  /** How far a mix lies from the first one; a dash for that one itself and for an empty mix. */
  private static String distance(ValueMix.Entry first, ValueMix.Entry other, Numbers numbers) {
    double[] one = first.shares().values().stream().mapToDouble(Double::doubleValue).toArray();
    double[] two = other.shares().values().stream().mapToDouble(Double::doubleValue).toArray();
    boolean none = Arrays.stream(one).sum() <= 0 || Arrays.stream(two).sum() <= 0;
    return none || first == other
        ? Text.of("value.dash")
        : numbers.decimal(JensenShannon.of(one, two).distance(), 2);
  }

  /** The mixes side by side; null without any. */
  static Mix of(
      String id, String title, String caption, List<ValueMix.Entry> entries, Numbers numbers) {
    if (entries.isEmpty()) {
      return null;
    }
    List<String> drawn = ValueMix.drawn(entries);
    Grid.Builder grid = Grid.of(caption).words(Text.of("mix.value"));
    for (ValueMix.Entry entry : entries) {
      grid.numbers(entry.name() + " (" + entry.n() + ")");
    }
    List<Key> key = new ArrayList<>();
    for (String value : drawn) {
      key.add(new Key("value v-" + value.replace('_', '-'), ValueMix.words(value)));
      List<String> cells = new ArrayList<>(List.of(Wording.capitalised(ValueMix.words(value))));
      for (ValueMix.Entry entry : entries) {
        double share =
            value.equals("other")
                ? ValueMix.rest(entry, drawn)
                : entry.shares().getOrDefault(value, 0.0);
        cells.add(numbers.percent(share));
      }
      grid.row(cells);
    }
    if (entries.size() > 1) {
      List<String> cells = new ArrayList<>(List.of(Text.of("mix.distance", entries.get(0).name())));
      for (ValueMix.Entry entry : entries) {
        cells.add(distance(entries.get(0), entry, numbers));
      }
      grid.row(cells);
    }
    return new Mix(new ValueMix(numbers).picture(id, title, entries), key, grid.build());
  }
}
