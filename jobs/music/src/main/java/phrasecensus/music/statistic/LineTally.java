package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;

/** Counts for the facet <i>line</i>, phrase by phrase in the order of the solo. */
final class LineTally {
  /** Intervals beyond ten octaves count as ten octaves in the spread of intervals. */
  private static final int WIDEST = 120;

  private int notes;
  private int lowest = Integer.MAX_VALUE;
  private int highest = Integer.MIN_VALUE;
  private final Sample ranges = new Sample();
  private final Sample peakPlaces = new Sample();
  private final int[] pitchClasses = new int[12];
  private final int[] intervals = new int[2 * WIDEST + 1];
  private int intervalCount;
  private long sizes;
  private long squaredSizes;
  private int repetitions;
  private int semitones;
  private int steps;
  private int skips;
  private int leaps;
  private int ascending;
  private int turns;
  private int turnChances;
  private int contours;
  private final int[] contourCounts = new int[Contour.Shape.values().length];
  private final List<int[]> runs = new ArrayList<>();

  void add(PhraseLine line) {
    int size = line.size();
    notes += size;
    int low = Integer.MAX_VALUE;
    int high = Integer.MIN_VALUE;
    int peak = 0;
    for (int i = 0; i < size; i++) {
      int midi = line.midi(i);
      pitchClasses[Math.floorMod(midi, 12)]++;
      low = Math.min(low, midi);
      if (midi > high) {
        high = midi;
        peak = i;
      }
    }
    ranges.add(high - low);
    lowest = Math.min(lowest, low);
    highest = Math.max(highest, high);
    addIntervals(line);
    if (size >= 3) {
      contours++;
      contourCounts[Contour.huronClass(line.midi()).ordinal()]++;
      Fraction onset = line.first().onset();
      peakPlaces.add(
          line.note(peak).onset().minus(onset).toDouble()
              / line.last().onset().minus(onset).toDouble());
    }
  }

  private void addIntervals(PhraseLine line) {
    int[] run = new int[Math.max(0, line.size() - 1)];
    int direction = 0;
    for (int i = 0; i < run.length; i++) {
      int interval = line.midi(i + 1) - line.midi(i);
      int width = Math.abs(interval);
      run[i] = interval;
      intervals[Math.max(-WIDEST, Math.min(WIDEST, interval)) + WIDEST]++;
      intervalCount++;
      sizes += width;
      squaredSizes += (long) width * width;
      if (width == 0) {
        repetitions++;
        continue;
      }
      if (width <= 2) {
        steps++;
        semitones += width == 1 ? 1 : 0;
      } else if (width <= 4) {
        skips++;
      } else {
        leaps++;
      }
      int next = Integer.signum(interval);
      if (next > 0) {
        ascending++;
      }
      if (direction != 0) {
        turnChances++;
        if (next != direction) {
          turns++;
        }
      }
      direction = next;
    }
    runs.add(run);
  }

  void phraseValues(StatisticList out) {
    out.median("phrase_range", ranges);
    sharedValues(out);
    out.median("peak_place", peakPlaces);
  }

  void soloValues(StatisticList out) {
    partValues(out);
    RecurringWindows all = RecurringWindows.of(runs, true);
    out.share("pattern_recurrence", all.recurring(), all.windows());
    RecurringWindows varied = RecurringWindows.of(runs, false);
    out.share("pattern_recurrence_varied", varied.recurring(), varied.windows());
  }

  /** The values of a part of the solo, without what comes back. */
  void partValues(StatisticList out) {
    out.median("phrase_range", ranges);
    out.add("solo_range", notes == 0 ? null : (double) (highest - lowest), notes);
    sharedValues(out);
    out.median("peak_place", peakPlaces);
    contour(out, "contour_descending", Contour.Shape.DESCENDING);
    contour(out, "contour_convex", Contour.Shape.CONVEX);
    contour(out, "contour_ascending", Contour.Shape.ASCENDING);
    contour(out, "contour_concave", Contour.Shape.CONCAVE);
    int other = contours;
    for (Contour.Shape shape :
        List.of(
            Contour.Shape.DESCENDING,
            Contour.Shape.CONVEX,
            Contour.Shape.ASCENDING,
            Contour.Shape.CONCAVE)) {
      other -= contourCounts[shape.ordinal()];
    }
    out.share("contour_other", other, contours);
    boolean silent = notes == 0;
    out.add("pitch_class_entropy", silent ? null : Entropy.bits(pitchClasses), notes);
    out.add(
        "pitch_class_entropy_corrected", silent ? null : Entropy.millerMadow(pitchClasses), notes);
    out.add("interval_entropy", intervalCount == 0 ? null : Entropy.bits(intervals), intervalCount);
  }

  private void contour(StatisticList out, String key, Contour.Shape shape) {
    out.share(key, contourCounts[shape.ordinal()], contours);
  }

  private void sharedValues(StatisticList out) {
    out.ratio("mean_interval", (double) sizes, intervalCount, intervalCount);
    double variability = IntervalVariability.coefficient(intervalCount, sizes, squaredSizes);
    out.add("interval_variability", Double.isNaN(variability) ? null : variability, intervalCount);
    out.share("repetition_share", repetitions, intervalCount);
    out.share("step_share", steps, intervalCount);
    out.share("semitone_share", semitones, intervalCount);
    out.share("skip_share", skips, intervalCount);
    out.share("leap_share", leaps, intervalCount);
    out.share("ascending_share", ascending, steps + skips + leaps);
    out.share("direction_change_share", turns, turnChances);
  }
}
