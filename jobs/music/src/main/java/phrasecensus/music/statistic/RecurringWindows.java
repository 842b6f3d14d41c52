package phrasecensus.music.statistic;

import java.util.Arrays;
import java.util.List;

/**
 * How many windows of four successive intervals recur in a solo. What {@link
 * phrasecensus.music.pattern.SoloPatterns} finds for that length, without patterns and places.
 *
 * @param windows windows looked at
 * @param recurring those whose pattern occurs at least twice
 */
record RecurringWindows(int windows, int recurring) {
  /** Intervals in a window. */
  static final int LENGTH = 4;

  private static final int BITS = Long.SIZE / LENGTH;
  private static final long MASK = (1L << BITS) - 1;

  /**
   * Counts the windows.
   *
   * @param runs intervals in semitones, one run a phrase
   * @param withRuns false to leave out chromatic runs and repeated notes
   */
  static RecurringWindows of(List<int[]> runs, boolean withRuns) {
    int most = 0;
    for (int[] run : runs) {
      most += Math.max(0, run.length - LENGTH + 1);
    }
    long[] windows = new long[most];
    int size = 0;
    for (int[] run : runs) {
      long window = 0;
      int alike = 0;
      for (int i = 0; i < run.length; i++) {
        window = window << BITS | run[i] & MASK;
        boolean plain = Math.abs(run[i]) <= 1;
        alike = !plain ? 0 : i > 0 && run[i] == run[i - 1] ? alike + 1 : 1;
        if (i + 1 >= LENGTH && (withRuns || alike < LENGTH)) {
          windows[size++] = window;
        }
      }
    }
    Arrays.sort(windows, 0, size);
    int recurring = 0;
    for (int start = 0, end; start < size; start = end) {
      end = start + 1;
      while (end < size && windows[end] == windows[start]) {
        end++;
      }
      recurring += end - start > 1 ? end - start : 0;
    }
    return new RecurringWindows(size, recurring);
  }
}
