package phrasecensus.music.phrase;

import java.util.List;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/** Score time to seconds, by the tempi of a solo; asked at moments that never go back. */
final class Clock {
  private final List<TempoChange> tempi;
  private int current;
  private double secondsAtCurrent;

  /**
   * @param tempi in order, as {@link phrasecensus.music.score.Solo#tempi()} has them
   */
  Clock(List<TempoChange> tempi) {
    this.tempi = tempi;
  }

  /** False when the file gives no tempo, so that nothing is known in seconds. */
  boolean isKnown() {
    return !tempi.isEmpty();
  }

  /**
   * Seconds from the first tempo to a moment, negative before it; the first tempo also holds before
   * its own place.
   *
   * @param moment not before the moment of an earlier call
   */
  double secondsAt(Fraction moment) {
    while (current + 1 < tempi.size() && !tempi.get(current + 1).onset().isAfter(moment)) {
      secondsAtCurrent += seconds(tempi.get(current), tempi.get(current + 1).onset());
      current++;
    }
    return secondsAtCurrent + seconds(tempi.get(current), moment);
  }

  private static double seconds(TempoChange tempo, Fraction to) {
    return to.minus(tempo.onset()).toDouble() * 60 / tempo.quartersPerMinute();
  }
}
