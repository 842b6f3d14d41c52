package phrasecensus.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import phrasecensus.music.pattern.PackedPattern;

/**
 * The patterns of the solos of one part that meet those of other parts in the same task, packed: a
 * line a pattern and solo.
 */
final class PatternShare implements Serializable {
  private static final long serialVersionUID = 1L;

  private final ArrayList<Solo> solos = new ArrayList<>();
  private final ArrayList<String> bars = new ArrayList<>();
  private transient Map<String, Integer> barPlaces = new HashMap<>();
  private long[] intervals = new long[64];
  private long[] gapRatios = new long[64];
  private int[] numbers = new int[4 * 64];
  private int size;

  /**
   * A solo of the corpus.
   *
   * @param groups its value in each column that makes groups
   */
  record Solo(String soloId, ArrayList<String> groups) implements Serializable {}

  /**
   * A pattern in a solo.
   *
   * @param count windows
   * @param firstNote first note of the first of them
   * @param bar text of the bar in which that is
   */
  record Line(PackedPattern pattern, Solo solo, int count, int firstNote, String bar) {}

  /** Takes the next solo; the lines that follow are its own. */
  void begin(Solo solo) {
    solos.add(solo);
  }

  void add(PackedPattern pattern, int count, int firstNote, String bar) {
    if (size == intervals.length) {
      intervals = Arrays.copyOf(intervals, 2 * size);
      gapRatios = Arrays.copyOf(gapRatios, 2 * size);
      numbers = Arrays.copyOf(numbers, 8 * size);
    }
    intervals[size] = pattern.intervals();
    gapRatios[size] = pattern.gapRatios();
    numbers[4 * size] = solos.size() - 1;
    numbers[4 * size + 1] = count;
    numbers[4 * size + 2] = firstNote;
    numbers[4 * size + 3] =
        barPlaces.computeIfAbsent(
            bar,
            text -> {
              bars.add(text);
              return bars.size() - 1;
            });
    size++;
  }

  int size() {
    return size;
  }

  PackedPattern pattern(int line) {
    return new PackedPattern(intervals[line], gapRatios[line]);
  }

  int comparePatterns(int line, PatternShare other, int otherLine) {
    int byIntervals = Long.compare(intervals[line], other.intervals[otherLine]);
    return byIntervals != 0
        ? byIntervals
        : Long.compare(gapRatios[line], other.gapRatios[otherLine]);
  }

  Solo solo(int line) {
    return solos.get(numbers[4 * line]);
  }

  Line line(int line) {
    return new Line(
        pattern(line),
        solo(line),
        numbers[4 * line + 1],
        numbers[4 * line + 2],
        bars.get(numbers[4 * line + 3]));
  }
}
