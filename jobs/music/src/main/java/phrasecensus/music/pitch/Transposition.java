package phrasecensus.music.pitch;

/**
 * What must be added to written pitch to get sounding pitch, as MusicXML 4.0 {@code transpose} says
 * it (W3C MusicXML 4.0, element {@code transpose}).
 *
 * @param diatonic letter steps, octaves not included
 * @param chromatic semitones, octaves not included
 * @param octaves octaves added to both; the doubling of {@code double} is not part of it
 */
public record Transposition(int diatonic, int chromatic, int octaves) {
  public static final Transposition NONE = new Transposition(0, 0, 0);

  public boolean isNone() {
    return diatonic == 0 && chromatic == 0 && octaves == 0;
  }

  /** Semitones from written to sounding, octaves included. */
  public int semitones() {
    return chromatic + 12 * octaves;
  }

  /** How far names and key signatures move on the line of fifths; E flat alto: -3. */
  public int fifths() {
    return 7 * chromatic - 12 * diatonic;
  }

  public Pitch sounding(Pitch written) {
    if (isNone()) {
      return written;
    }
    int steps = written.staffSteps() + diatonic + 7 * octaves;
    Step step = Step.values()[Math.floorMod(steps, 7)];
    int octave = Math.floorDiv(steps, 7);
    int alter = written.midi() + semitones() - (12 * (octave + 1) + step.semitones());
    return new Pitch(step, alter, octave, written.cents());
  }

  public NoteName sounding(NoteName written) {
    return chromatic == 0 && diatonic == 0
        ? written
        : NoteName.atFifths(written.fifths() + fifths());
  }

  /** The opposite interval: from sounding to written. */
  public Transposition inverse() {
    return new Transposition(-diatonic, -chromatic, -octaves);
  }

  /** How many letter steps a bare number of semitones moves by: the usual interval names. */
  public static int diatonicFor(int chromatic) {
    int[] steps = {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
    int octaves = chromatic / 12;
    int rest = chromatic % 12;
    return 7 * octaves + (rest < 0 ? -steps[-rest] : steps[rest]);
  }
}
