package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;

/**
 * A phrase begins where enough of three local grouping preferences agree: the silence, the onset
 * gap or the interval between two notes is larger than the one before and the one after.
 *
 * <p>Source: F. Lerdahl and R. Jackendoff, A Generative Theory of Tonal Music, 1983, grouping
 * preference rules 2a, 2b and 3a (from memory). Each needs four notes, so the first and last two
 * notes of a line are never parted. Slashes and other stretches that are neither note nor rest
 * always end a phrase.
 *
 * @param leastSupport how many of the three must speak for a boundary, 1 to 3
 */
public record GroupingPreferencesRule(int leastSupport) implements PhraseRule {
  /** The name under which studies know the rule. */
  public static final String NAME = "grouping-preferences";

  /** Two of three, since one alone parts lines too often. */
  public static final GroupingPreferencesRule DEFAULT = new GroupingPreferencesRule(2);

  /** The three preferences. */
  enum Preference {
    /** Rule 2a: silence. */
    SILENCE,
    /** Rule 2b: time from onset to onset. */
    ONSET_GAP,
    /** Rule 3a: absolute interval. */
    INTERVAL
  }

  /**
   * @throws IllegalArgumentException if the number is out of range
   */
  public GroupingPreferencesRule {
    if (leastSupport < 1 || leastSupport > Preference.values().length) {
      throw new IllegalArgumentException(
          "Invalid least-support: " + leastSupport + " is not 1, 2 or 3");
    }
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Map<String, String> settings() {
    return Map.of("least-support", Integer.toString(leastSupport));
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    List<Joint> joints = Joint.of(solo);
    int[] support = new int[joints.size()];
    for (Preference preference : Preference.values()) {
      for (int i : places(solo, joints, preference)) {
        support[i]++;
      }
    }
    List<Integer> boundaries = new ArrayList<>();
    for (int i = 0; i < support.length; i++) {
      if (support[i] >= leastSupport || joints.get(i).unknown()) {
        boundaries.add(joints.get(i).note());
      }
    }
    return List.copyOf(boundaries);
  }

  /** Indices of the notes before which one preference alone would part a line, ascending. */
  static List<Integer> boundaries(Solo solo, Preference preference) {
    List<Joint> joints = Joint.of(solo);
    return places(solo, joints, preference).stream().map(i -> joints.get(i).note()).toList();
  }

  private static List<Integer> places(Solo solo, List<Joint> joints, Preference preference) {
    List<Note> notes = solo.notes();
    return switch (preference) {
      case SILENCE -> peaks(joints.size(), i -> joints.get(i).silence());
      case ONSET_GAP -> peaks(joints.size(), i -> joints.get(i).onsetGap());
      case INTERVAL ->
          peaks(joints.size(), i -> Math.abs(notes.get(i + 1).midi() - notes.get(i).midi()));
    };
  }

  private static <T extends Comparable<T>> List<Integer> peaks(int count, IntFunction<T> profile) {
    List<Integer> peaks = new ArrayList<>();
    for (int i = 1; i + 1 < count; i++) {
      if (profile.apply(i).compareTo(profile.apply(i - 1)) > 0
          && profile.apply(i).compareTo(profile.apply(i + 1)) > 0) {
        peaks.add(i);
      }
    }
    return peaks;
  }
}
