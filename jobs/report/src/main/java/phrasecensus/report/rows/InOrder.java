package phrasecensus.report.rows;

import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.function.ToIntFunction;

/**
 * Stretches of lists that are in order, found without going through them: a page asks for them once
 * a bar, a line or a phrase, and a solo may have twenty thousand.
 */
public final class InOrder {
  /** Wider than any rounding of a time: callers look exactly. */
  private static final double WIDER = 1e-6;

  private InOrder() {}

  /** Those that begin between two moments, and perhaps one that begins at a hair from them. */
  public static <T> List<T> beginning(
      List<T> all, ToDoubleFunction<T> onset, double from, double to) {
    int first = firstAtLeast(all, onset, from - WIDER);
    return all.subList(first, Math.max(first, firstAtLeast(all, onset, to + WIDER)));
  }

  /**
   * Those of which something lies between two moments, and perhaps one that ends or begins at a
   * hair from them. No two overlap.
   */
  public static <T> List<T> touching(
      List<T> all, ToDoubleFunction<T> onset, ToDoubleFunction<T> end, double from, double to) {
    int first = firstAtLeast(all, end, from - WIDER);
    return all.subList(first, Math.max(first, firstAtLeast(all, onset, to + WIDER)));
  }

  /** Those with a number from one to another, both counted in. */
  public static <T> List<T> numbered(List<T> all, ToIntFunction<T> number, int from, int to) {
    int first = firstAtLeast(all, number::applyAsInt, from);
    return all.subList(first, Math.max(first, firstAtLeast(all, number::applyAsInt, to + 0.5)));
  }

  private static <T> int firstAtLeast(List<T> all, ToDoubleFunction<T> value, double least) {
    int low = 0;
    int high = all.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (value.applyAsDouble(all.get(middle)) < least) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
