package phrasecensus.tables;

import java.time.LocalDate;
import java.util.List;

/** Takes the cells of a row, one call a column, in the order of the columns. */
public interface CellSink {
  /** A text; null where missing. */
  void text(String value);

  /** A word of a vocabulary; null where missing. */
  default void word(Word value) {
    text(value == null ? null : value.word());
  }

  /** A whole number. */
  void whole(int value);

  /** A whole number of 64 bits. */
  void longWhole(long value);

  /** A finite number. */
  void number(double value);

  /** A yes or no. */
  void flag(boolean value);

  /** A day; null where missing. */
  void date(LocalDate value);

  /** A list of texts without nulls; null where missing. */
  void texts(List<String> value);

  /** A list of whole numbers without nulls; null where missing. */
  void wholes(List<Integer> value);

  /** No value, in a column of any type. */
  void missing();

  /** A whole number; null where missing. */
  default void whole(Integer value) {
    if (value == null) {
      missing();
    } else {
      whole(value.intValue());
    }
  }

  /** A whole number of 64 bits; null where missing. */
  default void longWhole(Long value) {
    if (value == null) {
      missing();
    } else {
      longWhole(value.longValue());
    }
  }

  /** A finite number; null where missing. */
  default void number(Double value) {
    if (value == null) {
      missing();
    } else {
      number(value.doubleValue());
    }
  }

  /** A yes or no; null where missing. */
  default void flag(Boolean value) {
    if (value == null) {
      missing();
    } else {
      flag(value.booleanValue());
    }
  }
}
