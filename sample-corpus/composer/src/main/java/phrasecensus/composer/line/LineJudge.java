package phrasecensus.composer.line;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import phrasecensus.composer.tune.Tune;

/** Faults and merits of a whole line that no pair of intervals shows. */
final class LineJudge {
  private static final int BEAT = Tune.QUARTER;

  private LineJudge() {}

  /**
   * Less is better.
   *
   * @param line MIDI numbers
   * @param slots their places
   * @param hearing chords the player hears
   * @param aimedShare share of chord tones this solo aims at
   */
  static double cost(int[] line, List<Slot> slots, Changes hearing, double aimedShare) {
    int count = line.length;
    double cost = 0;
    int chordTones = 0;
    int run = 1;
    int low = line[0];
    int high = line[0];
    int turns = 0;
    Set<Integer> classes = new HashSet<>();
    for (int i = 0; i < count; i++) {
      Slot slot = slots.get(i);
      Changes.Span span = hearing.of(slot.onset(), slot.length());
      int pitchClass = Math.floorMod(line[i], 12);
      chordTones += span.heard().holds(pitchClass) ? 1 : 0;
      low = Math.min(low, line[i]);
      high = Math.max(high, line[i]);
      classes.add(pitchClass);
      if (i >= 1) {
        Slot earlier = slots.get(i - 1);
        Changes.Span before = hearing.of(earlier.onset(), earlier.length());
        if (before.index() != span.index()) {
          if (PitchSampler.resolves(before, span, line[i - 1], line[i])) {
            cost -= 0.4;
          }
          int above = Math.floorMod(line[i] - span.heard().root().pitchClass(), 12);
          boolean guide = above == 3 || above == 4 || above == 10 || above == 11;
          boolean step = Math.abs(line[i] - line[i - 1]) <= 2;
          cost -= guide && step && span.heard().holds(pitchClass) ? 0.3 : 0;
        }
      }
      if (i >= 2) {
        int first = line[i - 1] - line[i - 2];
        int second = line[i] - line[i - 1];
        run = first * second > 0 ? run + 1 : 1;
        turns += first * second < 0 ? 1 : 0;
        cost += run >= 8 ? 0.8 : 0;
        boolean onBeat = Math.floorMod(slot.onset(), BEAT) == 0;
        boolean enclosed =
            first * second < 0
                && Math.abs(second) <= 2
                && Math.abs(line[i] - line[i - 2]) <= 2
                && line[i] != line[i - 2];
        cost -= onBeat && enclosed && span.heard().holds(pitchClass) ? 0.1 : 0;
      }
      if (i >= 3 && line[i] == line[i - 2] && line[i - 1] == line[i - 3]) {
        cost += 2.5;
      }
      cost += crowded(line, i) ? 0.7 : 0;
      cost += repeats(line, i) ? 0.8 : 0;
    }
    if (count >= 4) {
      double share = chordTones / (double) count;
      cost += 7 * Math.abs(share - aimedShare);
      cost += count >= 8 && high - low < 7 ? 1.5 : 0;
      cost += turns > 0.55 * count ? 1.5 : 0;
      cost += count >= 7 && classes.size() < 5 ? 1.5 : 0;
    }
    if (count >= 2) {
      cost += Math.abs(line[count - 1] - line[count - 2]) > 7 ? 1.5 : 0;
    }
    return cost;
  }

  /** The pitch was already there twice among the six before. */
  private static boolean crowded(int[] line, int i) {
    int same = 0;
    for (int j = Math.max(0, i - 6); j < i; j++) {
      same += line[j] == line[i] ? 1 : 0;
    }
    return same >= 2;
  }

  /** The last four pitches came before in the same order within the last dozen tones. */
  private static boolean repeats(int[] line, int i) {
    for (int j = Math.max(3, i - 12); j < i; j++) {
      boolean same = true;
      for (int k = 0; k < 4 && same; k++) {
        same = i - k >= 0 && line[i - k] == line[j - k];
      }
      if (same) {
        return true;
      }
    }
    return false;
  }
}
