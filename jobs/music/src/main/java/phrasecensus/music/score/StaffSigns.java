package phrasecensus.music.score;

/**
 * What stands on the staff around the notes of a bar. It is kept for drawing; no statistic uses it.
 *
 * @param clef clef at its start as letter, line and octaves, as in {@code G2}, {@code F4}, {@code
 *     G2-8} for one that sounds an octave lower; empty when the file has none on five lines
 * @param startsRepeat a repeat starts at its beginning
 * @param endsRepeat a repeat ends at its end
 * @param ending passes of an ending that starts here, as in {@code 1, 2}; empty for none
 * @param endsEnding an ending stops at its end
 */
public record StaffSigns(
    String clef, boolean startsRepeat, boolean endsRepeat, String ending, boolean endsEnding) {
  /** No sign at all. */
  public static final StaffSigns NONE = new StaffSigns("", false, false, "", false);
}
