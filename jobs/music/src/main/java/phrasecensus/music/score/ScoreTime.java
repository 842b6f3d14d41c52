package phrasecensus.music.score;

import java.util.List;
import java.util.OptionalDouble;
import phrasecensus.music.time.Fraction;

/** Lengths of stretches of a solo in bars, beats and seconds. Cost: the bars and tempi touched. */
public final class ScoreTime {
  private ScoreTime() {}

  /**
   * Length in full bars of the metre in force; where the metre changes, the parts are added up.
   * Null when a part of it has no metre.
   *
   * @param barIndex the bar that holds {@code from}
   */
  public static Fraction bars(Solo solo, Fraction from, Fraction to, int barIndex) {
    return count(solo, from, to, barIndex, false);
  }

  /** Length in beats of the metre in force, otherwise as {@link #bars}. */
  public static Fraction beats(Solo solo, Fraction from, Fraction to, int barIndex) {
    return count(solo, from, to, barIndex, true);
  }

  private static Fraction count(
      Solo solo, Fraction from, Fraction to, int barIndex, boolean inBeats) {
    List<Bar> bars = solo.bars();
    Fraction total = Fraction.ZERO;
    Fraction at = from;
    int first = barIndex;
    while (at.isBefore(to)) {
      Metre metre = bars.get(first).metre();
      int next = first + 1;
      while (next < bars.size()
          && bars.get(next).onset().isBefore(to)
          && isSame(metre, bars.get(next).metre())) {
        next++;
      }
      Fraction stop = next < bars.size() ? Fraction.smaller(to, bars.get(next).onset()) : to;
      if (stop.isAfter(at)) {
        if (metre.isFree()) {
          return null;
        }
        total =
            total.plus(stop.minus(at).dividedBy(inBeats ? metre.beatLength() : metre.barLength()));
        at = stop;
      }
      first = next;
    }
    return total;
  }

  private static boolean isSame(Metre metre, Metre other) {
    return metre == other || metre.equals(other);
  }

  /** Seconds from one moment to a later one; empty when the solo has no tempo. */
  public static OptionalDouble seconds(Solo solo, Fraction from, Fraction to) {
    List<TempoChange> tempi = solo.tempi();
    if (tempi.isEmpty()) {
      return OptionalDouble.empty();
    }
    int low = 0;
    int high = tempi.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (tempi.get(middle).onset().compareTo(from) <= 0) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    double seconds = 0;
    Fraction at = from;
    for (int i = low; at.isBefore(to); i++) {
      Fraction stop = i + 1 < tempi.size() ? Fraction.smaller(to, tempi.get(i + 1).onset()) : to;
      if (stop.isAfter(at)) {
        seconds += stop.minus(at).toDouble() * 60 / tempi.get(i).quartersPerMinute();
        at = stop;
      }
    }
    return OptionalDouble.of(seconds);
  }

  /** True when a stretch that is neither note nor rest, or an unpitched sound, lies in the gap. */
  public static boolean isUncertain(Solo solo, Fraction from, Fraction to) {
    for (Span span : solo.unknownSpans()) {
      if (span.onset().isBefore(to) && span.end().isAfter(from)) {
        return true;
      }
    }
    for (Fraction onset : solo.unpitchedOnsets()) {
      if (onset.isBefore(to) && onset.isAtLeast(from)) {
        return true;
      }
    }
    return false;
  }
}
