package phrasecensus.music.pattern;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Finds given patterns, by pitch alone, in phrase after phrase. */
public final class FigureSearch {
  private final Set<PackedPattern> wanted;
  private final Set<Integer> lengths = new TreeSet<>();

  /**
   * @param wanted patterns without rhythm
   */
  public FigureSearch(Collection<PackedPattern> wanted) {
    this.wanted = Set.copyOf(wanted);
    wanted.forEach(pattern -> lengths.add(pattern.length()));
  }

  /**
   * A place of a pattern.
   *
   * @param first its first note, counted from 0 in the phrase
   */
  public record Place(PackedPattern pattern, int first) {
    /** Its last note, counted from 0 in the phrase. */
    public int last() {
      return first + pattern.length();
    }
  }

  /**
   * Every place in a phrase, also those that overlap, in order of their first notes, shorter
   * patterns first.
   *
   * @param midi sounding pitches
   */
  public List<Place> places(int[] midi) {
    List<Place> places = new ArrayList<>();
    long[] intervals = new long[Math.max(0, midi.length - 1)];
    for (int i = 0; i < intervals.length; i++) {
      intervals[i] = PackedPattern.code(midi[i + 1] - midi[i]);
    }
    for (int start = 0; start < intervals.length; start++) {
      for (int length : lengths) {
        if (start + length <= intervals.length) {
          PackedPattern pattern = PackedPattern.of(intervals, null, start, length);
          if (wanted.contains(pattern)) {
            places.add(new Place(pattern, start));
          }
        }
      }
    }
    return places;
  }
}
