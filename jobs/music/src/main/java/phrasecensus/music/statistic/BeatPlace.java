package phrasecensus.music.statistic;

import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Where a note starts in the bar.
 *
 * @param metre metre in force, never {@link Metre#FREE}
 * @param quarters from the bar line, in quarter notes
 * @param beats from the bar line, in beats: 0 on beat one, 1/2 halfway to beat two
 */
record BeatPlace(Metre metre, Fraction quarters, Fraction beats) {

  /** The place of a note; null where no metre is in force. */
  static BeatPlace of(Solo solo, Note note) {
    Bar bar = solo.bars().get(note.barIndex());
    Metre metre = bar.metre();
    if (metre.isFree()) {
      return null;
    }
    Fraction quarters =
        bar.metricalOffset().isZero()
            ? note.onset().minus(bar.onset())
            : bar.positionOf(note.onset());
    return new BeatPlace(metre, quarters, inBeats(quarters, metre));
  }

  /** A length in quarter notes as beats of a metre. */
  static Fraction inBeats(Fraction quarters, Metre metre) {
    Fraction beat = metre.beatLength();
    return beat.isWhole() && beat.numerator() == 1 ? quarters : quarters.dividedBy(beat);
  }

  boolean isOnBeat() {
    return beats.isWhole();
  }

  boolean isOnBeatOne() {
    return beats.isZero();
  }

  /** Number of the beat that holds the place, from 1. */
  long beatNumber() {
    return beats.floor() + 1;
  }

  /** True from the middle of the beat on. */
  boolean isInSecondHalfOfBeat() {
    long into = Math.floorMod(beats.numerator(), beats.denominator());
    return into * 2 >= beats.denominator();
  }

  /** True after the middle of the bar. */
  boolean isInSecondHalf() {
    return quarters.times(2).isAfter(metre.barLength());
  }
}
