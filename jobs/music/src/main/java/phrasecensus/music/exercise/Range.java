package phrasecensus.music.exercise;

/**
 * What an instrument can play.
 *
 * @param lowest written pitch as a MIDI number
 * @param highest the same, not below
 */
public record Range(int lowest, int highest) {
  /** True for a written pitch inside. */
  public boolean holds(int midiWritten) {
    return midiWritten >= lowest && midiWritten <= highest;
  }
}
