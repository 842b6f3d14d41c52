package phrasecensus.music.phrase;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * A solo as the {@code breath} rule hears it: features of each joint, and how far the line does
 * without rests. Doubles, rounded; exact time ends here. Linear in the notes but for two sorts.
 */
final class BreathView {
  private static final double PER_OCTAVE = 1 / StrictMath.log(2);

  /** Beat of a solo whose file gives no tempo: 120 a minute, common practice, no source. */
  private static final double ASSUMED_BEAT_SECONDS = 0.5;

  /**
   * Silences of half a beat or more every 16 beats: fewer, and rests no longer tell all phrases.
   */
  private static final double RESTS_PER_BEAT_OF_A_LINE_WITH_RESTS = 0.5 / 8;

  private static final double REST_BEATS = 0.5;

  /** A missing rest is as good as one of four beats; log2 with the quarter beat added to all. */
  private static final double LOG_MISSING_REST = log2(4.25);

  private static final double LOG_NO_SILENCE = log2(0.25);

  /** Log2 of numbers of notes, up to 4. */
  private static final double[] LOG_NOTES = new double[17];

  static {
    for (int i = 1; i < LOG_NOTES.length; i++) {
      LOG_NOTES[i] = log2(i);
    }
  }

  private static final int WINDOW = 8;
  private static final double LONGEST_REACH_BEATS = 32;
  private static final double SHORTEST_REACH_BEATS = 0.5;

  /** Notes of the line. */
  final int notes;

  /** By joint, then by {@link BreathFeature#ordinal()}. */
  final double[][] features;

  /** From 0 for a line in which rests tell the phrases to 1 for a line without any. */
  final double withoutRests;

  /** Beats from the first onset to the onset of each note, and last to the end of the line. */
  final double[] beats;

  /** Number of the place in the bar at which each note starts; -1 without metre. */
  final int[] placeInBar;

  /** Index of the bar in which each note starts. */
  final int[] bar;

  /** By joint: true when a stretch that is neither note nor rest lies there. */
  final boolean[] unknown;

  BreathView(Solo solo) {
    this(solo, 0);
  }

  /**
   * @param filledBeats silences shorter than this, in beats, are heard as part of the note before:
   *     how another transcriber would have written the line
   */
  BreathView(Solo solo, double filledBeats) {
    List<Note> line = solo.notes();
    List<Joint> joints = Joint.of(solo);
    int count = joints.size();
    notes = line.size();
    features = new double[count][BreathFeature.values().length];
    beats = new double[notes + 1];
    placeInBar = new int[notes];
    bar = new int[notes];
    unknown = new boolean[count];
    double[] silence = new double[count];
    double[] silenceSeconds = new double[count];
    double[] gap = new double[count];
    double[] pause = new double[count];
    Clock clock = new Clock(solo.tempi());
    for (int i = 0; i < count; i++) {
      Joint joint = joints.get(i);
      double beat = joint.beatLength().toDouble();
      gap[i] = joint.onsetGap().toDouble() / beat;
      double written = joint.silence().toDouble() / beat;
      silence[i] = written < filledBeats ? 0 : written;
      if (silence[i] > 0) {
        silenceSeconds[i] =
            clock.isKnown()
                ? seconds(clock, line.get(i + 1).onset(), joint.silence())
                : silence[i] * ASSUMED_BEAT_SECONDS;
      }
      pause[i] = silence[i] + gap[i] / 4;
      beats[i + 1] = beats[i] + gap[i];
      unknown[i] = joint.unknown();
    }
    boolean[] onBeat = metricalPlaces(solo);
    if (notes > 0) {
      Note last = line.get(notes - 1);
      double beat =
          solo.bars().isEmpty()
              ? 1
              : solo.bars().get(bar[notes - 1]).metre().beatLength().toDouble();
      beats[notes] = beats[notes - 1] + last.length().toDouble() / beat;
    }
    double total = beats[notes];
    long rests = Arrays.stream(silence).filter(length -> length >= REST_BEATS).count();
    withoutRests =
        count == 0 ? 0 : Math.max(0, 1 - rests / total / RESTS_PER_BEAT_OF_A_LINE_WITH_RESTS);
    restsAround(silence);
    boolean[] section = sections(solo);
    double[] reach = reaches(pause);
    double[] logGap = new double[count];
    for (int i = 0; i < count; i++) {
      logGap[i] = log2(gap[i]);
    }
    double[] logAround = mediansAround(logGap);
    double density = count == 0 ? 0 : log2(count / total / 2);
    for (int i = 0; i < count; i++) {
      double[] row = features[i];
      double interval = step(line, i);
      set(row, BreathFeature.SILENCE_BEATS, Math.min(silence[i], 2));
      set(row, BreathFeature.SILENCE_SECONDS, Math.min(silenceSeconds[i], 0.3));
      set(
          row,
          BreathFeature.SILENCE_BESIDE,
          Math.min(at(silenceSeconds, i - 1), 0.5) + Math.min(at(silenceSeconds, i + 1), 0.5));
      set(row, BreathFeature.GAP, limited(logGap[i], -2, 2));
      set(row, BreathFeature.GAP_AROUND, limited(logGap[i] - logAround[i], -1, 3));
      set(row, BreathFeature.GAP_BEFORE, i == 0 ? 0 : limited(logGap[i] - logGap[i - 1], -1, 2));
      set(
          row,
          BreathFeature.GAP_AFTER,
          i == count - 1 ? 0 : limited(logGap[i] - logGap[i + 1], -1, 2));
      set(row, BreathFeature.PROMINENCE, reach[i]);
      set(row, BreathFeature.INTERVAL, Math.min(Math.abs(interval), 12) / 12);
      set(row, BreathFeature.REPEATED, interval == 0 ? 1 : 0);
      set(row, BreathFeature.ENDS_ON_BEAT, onBeat[i] ? 1 : 0);
      set(row, BreathFeature.SECTION, section[i] ? 1 : 0);
      set(row, BreathFeature.INSIDE, Math.min(1, Math.min(i + 1, count - i) / 4.0));
      set(row, BreathFeature.DENSITY, density);
    }
  }

  private static double seconds(Clock clock, Fraction onset, Fraction silence) {
    double start = clock.secondsAt(onset.minus(silence));
    return clock.secondsAt(onset) - start;
  }

  /** Fills bars and places in the bar; true for each note that starts on a beat. */
  private boolean[] metricalPlaces(Solo solo) {
    boolean[] onBeat = new boolean[notes];
    List<Bar> bars = solo.bars();
    Map<Fraction, Integer> places = new HashMap<>();
    int current = 0;
    for (int i = 0; i < notes; i++) {
      placeInBar[i] = -1;
      if (bars.isEmpty()) {
        continue;
      }
      Fraction onset = solo.notes().get(i).onset();
      current = Joint.barAt(bars, current, onset);
      bar[i] = current;
      Bar holder = bars.get(current);
      if (!holder.metre().isFree()) {
        Fraction place = holder.positionOf(onset);
        placeInBar[i] = places.computeIfAbsent(place, fresh -> places.size());
        onBeat[i] = place.dividedBy(holder.metre().beatLength()).isWhole();
      }
    }
    return onBeat;
  }

  /** By joint: true where the later note is the first of a section, or leads into it. */
  private static boolean[] sections(Solo solo) {
    List<Note> line = solo.notes();
    boolean[] section = new boolean[Math.max(0, line.size() - 1)];
    int i = 1;
    for (Mark mark : solo.marks()) {
      boolean border = mark.kind() == Mark.Kind.REHEARSAL || mark.kind() == Mark.Kind.DOUBLE_BAR;
      if (!border) {
        continue;
      }
      Fraction twoBeatsBefore =
          solo.bars().isEmpty()
              ? mark.onset()
              : mark.onset().minus(solo.barAt(mark.onset()).metre().beatLength().times(2));
      while (i > 1 && line.get(i - 1).onset().isAfter(twoBeatsBefore)) {
        i--;
      }
      while (i < line.size() && !line.get(i).onset().isAfter(twoBeatsBefore)) {
        i++;
      }
      for (int j = i; j < line.size() && line.get(j - 1).onset().isBefore(mark.onset()); j++) {
        section[j - 1] = true;
      }
    }
    return section;
  }

  /** Fills what each joint is against the rests on both sides of it. */
  private void restsAround(double[] silence) {
    int count = silence.length;
    double[] size = new double[count];
    for (int i = 0; i < count; i++) {
      size[i] = silence[i] == 0 ? LOG_NO_SILENCE : log2(silence[i] + 0.25);
    }
    double rest = LOG_MISSING_REST;
    int at = -1;
    for (int i = 0; i < count; i++) {
      against(i, size[i] - rest, i - at);
      if (silence[i] >= REST_BEATS) {
        rest = size[i];
        at = i;
      }
    }
    rest = LOG_MISSING_REST;
    at = count;
    for (int i = count - 1; i >= 0; i--) {
      against(i, size[i] - rest, at - i);
      if (silence[i] >= REST_BEATS) {
        rest = size[i];
        at = i;
      }
    }
  }

  private void against(int joint, double size, int notesBetween) {
    double[] row = features[joint];
    row[BreathFeature.SILENCE_AGAINST_RESTS.ordinal()] += limited(size, -3, 3) / 2;
    row[BreathFeature.NOTES_BETWEEN_RESTS.ordinal()] +=
        LOG_NOTES[Math.min(notesBetween, LOG_NOTES.length - 1)] / 2;
  }

  /** Mean of log2 of the beats to the nearest longer pause before and after each joint. */
  private double[] reaches(double[] pause) {
    double[] reach = new double[pause.length];
    int[] open = new int[pause.length];
    int depth = 0;
    for (int i = 0; i < pause.length; i++) {
      while (depth > 0 && pause[open[depth - 1]] < pause[i]) {
        depth--;
      }
      reach[i] =
          depth == 0 ? cut(LONGEST_REACH_BEATS) : cut(beats[i + 1] - beats[open[depth - 1] + 1]);
      open[depth++] = i;
    }
    depth = 0;
    for (int i = pause.length - 1; i >= 0; i--) {
      while (depth > 0 && pause[open[depth - 1]] < pause[i]) {
        depth--;
      }
      reach[i] +=
          depth == 0 ? cut(LONGEST_REACH_BEATS) : cut(beats[open[depth - 1] + 1] - beats[i + 1]);
      reach[i] /= 2;
      open[depth++] = i;
    }
    return reach;
  }

  private static double cut(double beats) {
    return log2(limited(beats, SHORTEST_REACH_BEATS, LONGEST_REACH_BEATS));
  }

  /** Median of the eight values on either side of each, without it; of fewer at the ends. */
  private static double[] mediansAround(double[] values) {
    double[] medians = new double[values.length];
    double[] window = new double[2 * WINDOW + 1];
    int size = 0;
    for (int i = 0; i < Math.min(WINDOW, values.length); i++) {
      insert(window, size++, values[i]);
    }
    for (int i = 0; i < values.length; i++) {
      if (i > WINDOW) {
        int leaving = Arrays.binarySearch(window, 0, size, values[i - WINDOW - 1]);
        System.arraycopy(window, leaving + 1, window, leaving, --size - leaving);
      }
      if (i + WINDOW < values.length) {
        insert(window, size++, values[i + WINDOW]);
      }
      int own = Arrays.binarySearch(window, 0, size, values[i]);
      int others = size - 1;
      double upper = without(window, own, others / 2);
      double lower = others % 2 == 1 ? upper : without(window, own, others / 2 - 1);
      medians[i] = others == 0 ? values[i] : (lower + upper) / 2;
    }
    return medians;
  }

  private static void insert(double[] sorted, int size, double value) {
    int place = Arrays.binarySearch(sorted, 0, size, value);
    place = place < 0 ? -place - 1 : place;
    System.arraycopy(sorted, place, sorted, place + 1, size - place);
    sorted[place] = value;
  }

  /** The value at a place of a sorted array from which one place is left out. */
  private static double without(double[] sorted, int left, int place) {
    return sorted[Math.max(0, place < left ? place : place + 1)];
  }

  private static double step(List<Note> line, int joint) {
    return line.get(joint + 1).midi() - line.get(joint).midi();
  }

  private static double at(double[] values, int index) {
    return index < 0 || index >= values.length ? 0 : values[index];
  }

  private static void set(double[] row, BreathFeature feature, double value) {
    row[feature.ordinal()] = value;
  }

  private static double limited(double value, double lowest, double highest) {
    return Math.max(lowest, Math.min(highest, value));
  }

  private static double log2(double value) {
    return StrictMath.log(value) * PER_OCTAVE;
  }
}
