package phrasecensus.music.midi;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.chord.Chord;

/**
 * A chord as an accompanist's left hand plays it: third and seventh below middle C, where they do
 * not hide the line, the root or the written bass an octave lower. A chord without these two has
 * its core tones but the root (common practice, no source).
 *
 * @param bass MIDI number, 36 to 47
 * @param shell MIDI numbers, 52 to 63, upwards
 */
public record Voicing(int bass, List<Integer> shell) {
  private static final int LOWEST_BASS = 36;
  private static final int LOWEST_SHELL = 52;

  public Voicing {
    shell = List.copyOf(shell);
  }

  /** The voicing; empty for no chord and for one whose content is not known. */
  public static Optional<Voicing> of(Chord chord) {
    if (chord.isNone() || !chord.isContentKnown() || chord.root() == null) {
      return Optional.empty();
    }
    int root = chord.root().pitchClass();
    List<Integer> tones =
        new ArrayList<>(
            chord.guidePitchClasses().size() > 1
                ? chord.guidePitchClasses()
                : chord.corePitchClasses());
    tones.remove(Integer.valueOf(root));
    int bass = chord.bass() == null ? root : chord.bass().pitchClass();
    return Optional.of(
        new Voicing(
            LOWEST_BASS + bass,
            tones.stream()
                .map(tone -> LOWEST_SHELL + Math.floorMod(tone - LOWEST_SHELL, 12))
                .sorted()
                .toList()));
  }
}
