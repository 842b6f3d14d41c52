package phrasecensus.music.phrase;

import java.util.Locale;

/**
 * What the {@code breath} rule hears between a note and the next. Each is a number that grows or
 * falls with the thing named; none needs a chord, a style or a tempo. In what follows a rest is a
 * silence of at least half a beat.
 */
enum BreathFeature {
  /** Silence in beats, up to two. */
  SILENCE_BEATS(+1, true),
  /** Silence in seconds, up to 0.3. */
  SILENCE_SECONDS(+1, true),
  /** Silence in seconds just before the earlier note and just after the later, up to 0.5 each. */
  SILENCE_BESIDE(-1, false),
  /**
   * Silence plus a quarter beat against the rests before and after, each plus a quarter beat: mean
   * log2, each from -3 to 3; against four beats where there is no such rest.
   */
  SILENCE_AGAINST_RESTS(+1, false),
  /** Notes since the rest before and until the rest after: mean log2, each up to 4. */
  NOTES_BETWEEN_RESTS(+1, false),
  /** Onset gap in beats, as log2; from -2 to 2. */
  GAP(+1, false),
  /** Onset gap against the median of the eight gaps on either side, as log2; from -1 to 3. */
  GAP_AROUND(+1, false),
  /** Onset gap against the one before, as log2; from -1 to 2. */
  GAP_BEFORE(+1, false),
  /** Onset gap against the one after, as log2; from -1 to 2. */
  GAP_AFTER(+1, false),
  /**
   * How far, in beats, the nearest longer pauses before and after lie: mean log2, each from -1 to
   * 5. A pause is the silence plus a quarter of the onset gap.
   */
  PROMINENCE(+1, false),
  /** Interval to the later note, as a share of an octave; up to 1. */
  INTERVAL(+1, false),
  /** 1 if the later note repeats the earlier. */
  REPEATED(0, false),
  /** 1 if the earlier note starts on a beat. */
  ENDS_ON_BEAT(0, false),
  /** 1 if the later note is the first one of a section, or leads into it by less than two beats. */
  SECTION(+1, false),
  /** Notes to the nearer end of the line, as a share of four; up to 1. */
  INSIDE(+1, false),
  /** Notes a beat in the whole line, as log2 of half of it. */
  DENSITY(0, false);

  private final int sign;
  private final boolean alike;

  BreathFeature(int sign, boolean alike) {
    this.sign = sign;
    this.alike = alike;
  }

  /** The word in settings, as in {@code silence-beats}. */
  String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** +1 if more of it can only speak for a boundary, -1 if only against, 0 if that is open. */
  int sign() {
    return sign;
  }

  /** True if it weighs the same in lines with rests and in lines without. */
  boolean isAlike() {
    return alike;
  }
}
