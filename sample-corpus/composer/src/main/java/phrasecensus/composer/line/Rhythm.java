package phrasecensus.composer.line;

import java.util.List;

/**
 * The onsets of a phrase.
 *
 * @param onsets ticks from bar 1, rising
 * @param joints beats at which one cell ends and the next begins, rising
 */
record Rhythm(List<Integer> onsets, List<Integer> joints) {
  Rhythm {
    onsets = List.copyOf(onsets);
    joints = List.copyOf(joints);
  }
}
