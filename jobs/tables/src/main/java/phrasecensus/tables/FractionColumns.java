package phrasecensus.tables;

import java.util.List;

/**
 * The two columns of an exact number, as {@code onset_num} over {@code onset_den}.
 *
 * @param numerator never missing
 * @param denominator more than 0, never missing
 */
public record FractionColumns(TypedColumn<Long> numerator, TypedColumn<Long> denominator)
    implements Columns {
  /**
   * Makes a number of a numerator and a denominator.
   *
   * @param <F> the number
   */
  @FunctionalInterface
  public interface Quotient<F> {
    F of(long numerator, long denominator);
  }

  /** The number in a row. */
  public <F> F in(TableRow row, Quotient<F> quotient) {
    return quotient.of(row.get(numerator), row.get(denominator));
  }

  @Override
  public List<TypedColumn<?>> columns() {
    return List.of(numerator, denominator);
  }
}
