package phrasecensus.music.pattern;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import phrasecensus.music.time.Fraction;

/**
 * The figures of one solo: every window of {@value #SHORTEST} to {@value PackedPattern#LONGEST}
 * successive intervals within a phrase, once by pitch alone and once with the ratios of successive
 * onset gaps. A pattern does not depend on transposition, with rhythm not on tempo either.
 *
 * <p>A window in which a ratio has a term beyond {@value PackedPattern#LARGEST_TERM} counts among
 * the windows with rhythm but is like no other.
 */
public final class SoloPatterns {
  /** Fewest intervals in a pattern. */
  public static final int SHORTEST = 3;

  private static final int LENGTHS = PackedPattern.LONGEST - SHORTEST + 1;

  private final Map<PackedPattern, Occurrences> occurrences = new LinkedHashMap<>();
  private final int[] windows = new int[LENGTHS];
  private final int[] variedWindows = new int[LENGTHS];

  /**
   * How often a pattern occurs.
   *
   * @param count windows, which may overlap
   * @param firstNote first note of the first of them, from 0 in the solo
   */
  public record Occurrences(int count, int firstNote) {
    private Occurrences again() {
      return new Occurrences(count + 1, firstNote);
    }
  }

  /**
   * Takes the next phrase. Linear.
   *
   * @param midi sounding pitches
   * @param onsets in quarter notes, as many
   * @param firstNote index of its first note in the solo
   */
  public void add(int[] midi, Fraction[] onsets, int firstNote) {
    int steps = midi.length - 1;
    if (steps < SHORTEST) {
      return;
    }
    long[] intervals = new long[steps];
    long[] ratios = new long[steps - 1];
    Fraction gap = null;
    for (int i = 0; i < steps; i++) {
      intervals[i] = PackedPattern.code(midi[i + 1] - midi[i]);
      Fraction next = onsets[i + 1].minus(onsets[i]);
      if (i > 0) {
        ratios[i - 1] = PackedPattern.code(next.dividedBy(gap));
      }
      gap = next;
    }
    for (int length = SHORTEST; length <= PackedPattern.LONGEST; length++) {
      for (int start = 0; start + length <= steps; start++) {
        PackedPattern pitch = PackedPattern.of(intervals, null, start, length);
        windows[length - SHORTEST]++;
        variedWindows[length - SHORTEST] += pitch.isRunOrRepetition() ? 0 : 1;
        occur(pitch, firstNote + start);
        if (isTold(ratios, start, length)) {
          occur(PackedPattern.of(intervals, ratios, start, length), firstNote + start);
        }
      }
    }
  }

  private static boolean isTold(long[] ratios, int start, int length) {
    for (int i = start; i < start + length - 1; i++) {
      if (ratios[i] == 0) {
        return false;
      }
    }
    return true;
  }

  private void occur(PackedPattern pattern, int note) {
    Occurrences found = occurrences.get(pattern);
    occurrences.put(pattern, found == null ? new Occurrences(1, note) : found.again());
  }

  /** The patterns in order of first occurrence. */
  public Map<PackedPattern, Occurrences> occurrences() {
    return Collections.unmodifiableMap(occurrences);
  }

  /**
   * Windows of a length, as many with rhythm as without.
   *
   * @param length from {@value #SHORTEST} to {@value PackedPattern#LONGEST}
   * @param varied true to leave out chromatic runs and repeated notes
   */
  public int windows(int length, boolean varied) {
    return (varied ? variedWindows : windows)[length - SHORTEST];
  }
}
