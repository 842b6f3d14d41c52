package phrasecensus.music.comparison;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The figures that come with the program, one row a compared statistic. */
public final class ShippedTable {
  private static final String HEADER =
      "key,transform,noise_share,rho_prior_mean,slope_1,slope_2,info_11,info_12,info_22,"
          + "tempo_low,tempo_high,phrases_for_half";
  private static final String COMMENT = "#";
  private static final MathContext TWELVE_DIGITS = new MathContext(12);
  private static final ShippedTable BUILT_IN = load();

  private final Map<String, ShippedFigures> figures;

  private ShippedTable(Map<String, ShippedFigures> figures) {
    this.figures = figures;
  }

  /** The table that comes with the program; {@code shipped.csv} says how it came about. */
  public static ShippedTable builtIn() {
    return BUILT_IN;
  }

  private static ShippedTable load() {
    try (InputStream stream = ShippedTable.class.getResourceAsStream("shipped.csv")) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find shipped.csv in the program");
      }
      return parse(new String(stream.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read shipped.csv: " + e.getMessage(), e);
    }
  }

  /**
   * Reads such a table: lines that begin with {@code #} are passed over, the first other one is the
   * header.
   *
   * @throws IllegalArgumentException if it is no such table
   */
  public static ShippedTable parse(String text) {
    List<String> lines =
        text.lines().filter(line -> !line.startsWith(COMMENT) && !line.isBlank()).toList();
    if (lines.isEmpty() || !lines.get(0).equals(HEADER)) {
      throw new IllegalArgumentException(
          "Invalid table of shipped figures: its first line is not " + HEADER);
    }
    Map<String, ShippedFigures> figures = new LinkedHashMap<>();
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      if (cells.length != HEADER.split(",").length) {
        throw new IllegalArgumentException("Invalid row of shipped figures: " + line);
      }
      double[] numbers = Arrays.stream(cells).skip(2).mapToDouble(ShippedTable::number).toArray();
      figures.put(
          cells[0],
          new ShippedFigures(
              cells[0],
              Scale.named(cells[1]),
              numbers[0],
              numbers[1],
              new TempoSlopes.Shipped(
                  new TempoSlopes(numbers[2], numbers[3]), numbers[4], numbers[5], numbers[6]),
              new TempoScale(numbers[7], numbers[8]),
              numbers[9]));
    }
    return new ShippedTable(figures);
  }

  private static double number(String cell) {
    return cell.equals("inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(cell);
  }

  /** The figures as such a table, without comment. */
  public static String text(List<ShippedFigures> figures) {
    StringBuilder text = new StringBuilder(HEADER).append('\n');
    for (ShippedFigures each : figures) {
      text.append(each.statistic()).append(',').append(each.scale().key());
      for (double number :
          new double[] {
            each.noise(),
            each.correlationMean(),
            each.tempo().slopes().first(),
            each.tempo().slopes().second(),
            each.tempo().uu(),
            each.tempo().uq(),
            each.tempo().qq(),
            each.tempoScale().low(),
            each.tempoScale().high(),
            each.phrasesForHalf()
          }) {
        text.append(',')
            .append(
                Double.isInfinite(number)
                    ? "inf"
                    : new BigDecimal(number, TWELVE_DIGITS).stripTrailingZeros().toPlainString());
      }
      text.append('\n');
    }
    return text.toString();
  }

  /** The figures of a statistic; empty where none were made. */
  public Optional<ShippedFigures> of(String statistic) {
    return Optional.ofNullable(figures.get(statistic));
  }

  /** Every statistic that has figures, in the order of the table. */
  public List<ShippedFigures> all() {
    return List.copyOf(figures.values());
  }
}
