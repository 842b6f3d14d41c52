package phrasecensus.composer.line;

import java.util.List;

/** The rhythms lines are made of: onsets in ticks from a beat. */
public enum BeatCell {
  QUARTER(1, 0),
  EIGHTHS(1, 0, 12),
  OFFBEAT(1, 12),
  TRIPLET(1, 0, 8, 16),
  LONG_SHORT(1, 0, 16),
  DOTTED(1, 0, 18),
  SIXTEENTHS(1, 0, 6, 12, 18),
  TWO_ONE(1, 0, 6, 12),
  ONE_TWO(1, 0, 12, 18),
  TURN(1, 0, 4, 8, 12),
  HALF(2, 0),
  CHARLESTON(2, 0, 36),
  SYNCOPATED(2, 0, 12, 36),
  QUARTER_TRIPLET(2, 0, 16, 32),
  WHOLE(4, 0);

  private final int beats;
  private final List<Integer> onsets;

  BeatCell(int beats, Integer... onsets) {
    this.beats = beats;
    this.onsets = List.of(onsets);
  }

  /** Beats it takes. */
  public int beats() {
    return beats;
  }

  /** Onsets from its first beat, in ticks. */
  public List<Integer> onsets() {
    return onsets;
  }
}
