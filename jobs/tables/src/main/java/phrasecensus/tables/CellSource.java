package phrasecensus.tables;

import java.time.LocalDate;
import java.util.List;
import java.util.SortedMap;

/**
 * Gives the cells of a row by the places of their columns, each once, in order of place. A number
 * or flag is asked for only where it is not missing.
 */
public interface CellSource {
  boolean isMissing(int place);

  /** A text; null where missing. */
  String text(int place);

  /** A whole number. */
  int whole(int place);

  /** A whole number of 64 bits. */
  long longWhole(int place);

  /** A number. */
  double number(int place);

  /** A yes or no. */
  boolean flag(int place);

  /** A day; null where missing. */
  LocalDate date(int place);

  /** A list of texts; null where missing. */
  List<String> texts(int place);

  /** A list of whole numbers; null where missing. */
  List<Integer> wholes(int place);

  /**
   * What the columns hold that the study adds, in words, by their names; null where missing.
   *
   * @param from the place of the first of them
   */
  SortedMap<String, String> further(int from);
}
