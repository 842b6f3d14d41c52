package phrasecensus.comparison;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.music.norm.PhraseSetting;
import phrasecensus.music.norm.RobustUnit;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * A departure with the student's phrase that shows it most, ready to look for phrases of the corpus
 * that show the opposite.
 *
 * <p>A phrase of fewer than four notes shows little but its length: of the student's they come
 * last, of the corpus they are passed over, unless the length is what is shown.
 *
 * <p>A phrase of the corpus shows the opposite when its value is on the usual side of the
 * student's. Of these the first is the one with the least sum of four distances: of its value from
 * the median of the group in robust standard deviations, of its tempo and its length from those of
 * the student's phrase in doublings, and of its chords. Our own rule; a doubling of the tempo
 * weighs like one standard deviation.
 */
public final class ShownDeparture implements Serializable {
  private static final long serialVersionUID = 1L;

  /** How many phrases of either side are shown. */
  public static final int MOST_PHRASES = 3;

  /** Departures behind this place of their ranking are not shown by phrases. */
  static final int LAST_PLACE = 8;

  /** A value counts in full only when it rests on much; with so many it counts by half. */
  private static final double HALF_TRUSTED_N = 3;

  private static final int LEAST_NOTES = 4;

  /** In these a like length would be the student's own departure again. */
  private static final Set<String> LENGTHS = Set.of("phrase_length_bars", "phrase_notes");

  private static final List<String> ORDINALS = List.of("", "second ", "third ");

  private final transient TableRow row;
  private final String groupBy;
  private final String groupValue;
  private final String shownBy;
  private final boolean above;
  private final double middle;
  private final double spread;
  private final PhraseValue shown;
  private final TreeSet<String> twins;

  private ShownDeparture(
      TableRow row,
      StatisticDefinition.Ingredient visible,
      RobustUnit unit,
      List<PhraseValue> showing,
      Set<String> twins) {
    this.row = row;
    this.groupBy = row.text("group_by");
    this.groupValue = row.text("group_value");
    this.shownBy = visible.statistic();
    this.above = isAbove(row, visible);
    this.middle = unit.median();
    this.spread = unit.spread();
    this.shown = showing.get(0);
    this.twins = new TreeSet<>(twins);
  }

  /**
   * A departure and the rows of the student's phrases that show it.
   *
   * @param departure ready to look for phrases of the corpus
   * @param rows of table exemplars
   */
  record WithRows(ShownDeparture departure, List<TableRow> rows) {}

  /**
   * Finds the student's phrases that show a departure.
   *
   * @param row of table departures, with a place
   * @param visible in what the departure is visible
   * @param unit middle and spread of that statistic in the group
   * @param phrases the student's, with a value of that statistic
   * @param twins solos of the corpus that are the student's own
   * @return empty when no phrase lies on the side of the departure
   */
  static Optional<WithRows> of(
      TableRow row,
      StatisticDefinition.Ingredient visible,
      RobustUnit unit,
      List<PhraseValue> phrases,
      Set<String> twins) {
    double sign = isAbove(row, visible) ? 1 : -1;
    double usualLength =
        median(
            phrases.stream()
                .map(phrase -> phrase.place().lengthBars())
                .filter(length -> length != null)
                .sorted()
                .toList());
    PhraseSetting usual = new PhraseSetting(null, usualLength, List.of());
    List<PhraseValue> showing =
        phrases.stream()
            .filter(phrase -> sign * (phrase.value() - unit.median()) > 0)
            .sorted(
                Comparator.comparing((PhraseValue phrase) -> isScrap(phrase, visible.statistic()))
                    .thenComparingDouble(phrase -> -shows(phrase, unit))
                    // Shares of 0 and 1 tie by the dozen: neither scraps nor giants first.
                    .thenComparingDouble(phrase -> phrase.place().setting().lengthDistance(usual))
                    .thenComparing(PhraseValue::soloId)
                    .thenComparingInt(phrase -> phrase.place().index()))
            .limit(MOST_PHRASES)
            .toList();
    if (showing.isEmpty()) {
      return Optional.empty();
    }
    ShownDeparture departure = new ShownDeparture(row, visible, unit, showing, twins);
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < showing.size(); i++) {
      PhraseValue phrase = showing.get(i);
      rows.add(
          departure
              .start("student", i + 1, phrase)
              .set("distance", shows(phrase, unit))
              .set(
                  "reason",
                  "the "
                      + ORDINALS.get(i)
                      + "farthest "
                      + (sign > 0 ? "above" : "below")
                      + " the middle of the group, of "
                      + (phrases.size() == 1 ? "1 phrase" : phrases.size() + " phrases"))
              .build());
    }
    return Optional.of(new WithRows(departure, rows));
  }

  private static boolean isAbove(TableRow row, StatisticDefinition.Ingredient visible) {
    return isAbove(row) != visible.opposite();
  }

  /** Which side a departure is on: of what is clear as judged, of what is described by phrases. */
  private static boolean isAbove(TableRow row) {
    return row.text("verdict").equals("described")
        ? row.number("cliffs_delta") > 0
        : row.text("verdict").equals("above");
  }

  private static boolean isScrap(PhraseValue phrase, String shownBy) {
    return phrase.place().notes() < LEAST_NOTES && !LENGTHS.contains(shownBy);
  }

  private static double shows(PhraseValue phrase, RobustUnit unit) {
    return Math.abs(phrase.value() - unit.median())
        / unit.spread()
        * phrase.n()
        / (phrase.n() + HALF_TRUSTED_N);
  }

  private static double median(List<Double> sorted) {
    return sorted.isEmpty() ? 0 : sorted.get((sorted.size() - 1) / 2);
  }

  public String groupBy() {
    return groupBy;
  }

  public String groupValue() {
    return groupValue;
  }

  /** Solos of the corpus that are the student's own. */
  public Set<String> twins() {
    return twins;
  }

  /** The statistic of phrases that is looked at. */
  public String shownBy() {
    return shownBy;
  }

  /**
   * A phrase of the corpus that shows the opposite.
   *
   * @param phrase with its value
   * @param distance sum of the four distances
   */
  public record Exemplar(
      PhraseValue phrase,
      double distance,
      double valueDistance,
      double tempoDistance,
      double lengthDistance,
      double chordDistance)
      implements Serializable {}

  /** The best of the phrases of one solo; empty when none is on the usual side of the student's. */
  public Optional<Exemplar> nearest(List<PhraseValue> phrases) {
    Exemplar best = null;
    PhraseSetting setting = shown.place().setting();
    for (PhraseValue phrase : phrases) {
      boolean usual = above ? phrase.value() < shown.value() : phrase.value() > shown.value();
      if (!usual || isScrap(phrase, shownBy)) {
        continue;
      }
      double valueDistance = Math.abs(phrase.value() - middle) / spread;
      if (best != null && valueDistance > best.distance) {
        continue;
      }
      PhraseSetting other = phrase.place().setting();
      double tempo = setting.tempoDistance(other);
      double length = LENGTHS.contains(shownBy) ? 0 : setting.lengthDistance(other);
      if (best != null && valueDistance + tempo + length > best.distance) {
        // Whatever the chords, which take longest to compare.
        continue;
      }
      double chords = setting.chordDistance(other);
      double distance = valueDistance + tempo + length + chords;
      if (best == null
          || distance < best.distance
          || distance == best.distance && phrase.place().index() < best.phrase.place().index()) {
        best = new Exemplar(phrase, distance, valueDistance, tempo, length, chords);
      }
    }
    return Optional.ofNullable(best);
  }

  /** The row of a phrase of the corpus. */
  public TableRow row(int rank, Exemplar exemplar) {
    PhraseValue.Place place = exemplar.phrase.place();
    return start("corpus", rank, exemplar.phrase)
        .set("distance", exemplar.distance)
        .set("tempo_distance", exemplar.tempoDistance)
        .set("length_distance", exemplar.lengthDistance)
        .set("chord_distance", exemplar.chordDistance)
        .set(
            "reason",
            "value "
                + words(exemplar.phrase.value())
                + " beside "
                + words(middle)
                + ", tempo "
                + words(place.tempo())
                + " beside "
                + words(shown.place().tempo())
                + ", bars "
                + words(place.lengthBars())
                + " beside "
                + words(shown.place().lengthBars())
                + ", chords "
                + words(place.qualities())
                + " beside "
                + words(shown.place().qualities()))
        .build();
  }

  private TableRow.Builder start(String role, int rank, PhraseValue phrase) {
    return TableRow.of(TableSchemas.named("exemplars"))
        .set("student", row.text("student"))
        .set("scope", row.text("scope"))
        .set("solo_id", row.text("solo_id"))
        .set("group_by", groupBy)
        .set("group_value", groupValue)
        .set("statistic", row.text("statistic"))
        .set("role", role)
        .set("rank", rank)
        .set("place", row.integer("place"))
        .set("verdict", isAbove(row) ? "above" : "below")
        .set("phrase_solo_id", phrase.soloId())
        .set("phrase_index", phrase.place().index())
        .set("shown_by", shownBy)
        .set("value", phrase.value())
        .set("n", phrase.n())
        .set("middle", middle)
        .set("value_distance", Math.abs(phrase.value() - middle) / spread);
  }

  private static String words(Double number) {
    return number == null
        ? "unknown"
        : BigDecimal.valueOf(number)
            .setScale(2, RoundingMode.HALF_EVEN)
            .stripTrailingZeros()
            .toPlainString();
  }

  private static String words(List<String> qualities) {
    return qualities.isEmpty() ? "unknown" : String.join(" ", qualities);
  }
}
