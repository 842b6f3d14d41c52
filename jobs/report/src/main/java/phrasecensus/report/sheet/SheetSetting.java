package phrasecensus.report.sheet;

import java.util.List;

/**
 * How phrases are set on a sheet.
 *
 * @param instrument that it is written for
 * @param keys how often each phrase comes, and in which keys
 * @param tonic 0 (C) to 11, sounding, for {@link Keys#ONE}; otherwise of no meaning
 * @param answers true for as many empty bars after each phrase as it has, under the same chords
 * @param level how hard at most, 1 to 5, as {@link phrasecensus.music.difficulty.Difficulty} tells;
 *     5 takes all
 * @param most phrases on the sheet at most; each counts once, in however many keys; positive
 */
public record SheetSetting(
    Instrument instrument, Keys keys, int tonic, boolean answers, int level, int most) {
  /** Every level. */
  public static final int EVERY_LEVEL = 5;

  /** In which keys a phrase comes. */
  public enum Keys {
    /** As in its tune. */
    OF_TUNE(1),
    /** All phrases around one tonic. */
    ONE(1),
    /** Twelve times, each time a fifth lower. */
    ALL(12);

    private final int times;

    Keys(int times) {
      this.times = times;
    }

    /** How often a phrase comes. */
    public int times() {
      return times;
    }
  }

  /** Why a phrase was not set. */
  public enum LeftOut {
    OUT_OF_RANGE,
    TOO_HARD,
    WITHOUT_CENTRE
  }

  /** Semitones below the top of the usual range that each level leaves to the higher ones. */
  private static final List<Integer> TOP_LEFT = List.of(9, 7, 4, 2, 0);

  /** Semitones above its bottom, likewise. Both common practice, no source. */
  private static final List<Integer> BOTTOM_LEFT = List.of(3, 2, 1, 0, 0);

  /** How many semitones a written pitch lies outside what is comfortable on the level. */
  int outside(int midiWritten) {
    return instrument.outside(midiWritten, BOTTOM_LEFT.get(level - 1), TOP_LEFT.get(level - 1));
  }
}
