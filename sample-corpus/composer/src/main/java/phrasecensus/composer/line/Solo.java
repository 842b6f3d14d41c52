package phrasecensus.composer.line;

import java.util.List;
import phrasecensus.composer.tune.Tune;

/**
 * A finished solo at sounding pitch.
 *
 * @param tune tune
 * @param choruses choruses of it
 * @param tempo quarter notes per minute
 * @param pickup ticks of the bar before bar 1, 0 for none
 * @param tones tones in order
 * @param changes chords as written
 */
public record Solo(
    Tune tune, int choruses, int tempo, int pickup, List<Tone> tones, Changes changes) {
  /** Copies the tones in. */
  public Solo {
    tones = List.copyOf(tones);
  }

  /** Bars, pickup not counted. */
  public int bars() {
    return choruses * tune.bars().size();
  }
}
