package phrasecensus.music.midi;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.time.Fraction;

/** The chords under a line as two parts: third and seventh, and the bass. */
public final class Backing {
  /** Chords and bass, in General MIDI: a piano and an acoustic bass. */
  private static final int PIANO = 0;

  private static final int BASS = 32;
  private static final int SOFT = 48;
  private static final int CHORDS_CHANNEL = 1;
  private static final int BASS_CHANNEL = 2;

  private Backing() {}

  /**
   * The parts between two moments, counted from the first; empty where no chord is known.
   *
   * @param chords in order, in quarter notes from the start of the line
   */
  public static List<MidiFile.Part> parts(List<ChordSpan> chords, Fraction start, Fraction end) {
    List<MidiFile.Sound> shells = new ArrayList<>();
    List<MidiFile.Sound> basses = new ArrayList<>();
    for (ChordSpan chord : chords) {
      Fraction from = Fraction.larger(start, chord.onset()).minus(start);
      Fraction length = Fraction.smaller(end, chord.end()).minus(start).minus(from);
      if (length.isPositive()) {
        Voicing.of(chord.concert())
            .ifPresent(
                voicing -> {
                  voicing
                      .shell()
                      .forEach(midi -> shells.add(new MidiFile.Sound(from, length, midi)));
                  basses.add(new MidiFile.Sound(from, length, voicing.bass()));
                });
      }
    }
    return basses.isEmpty()
        ? List.of()
        : List.of(
            new MidiFile.Part("Chords", CHORDS_CHANNEL, PIANO, SOFT, shells),
            new MidiFile.Part("Bass", BASS_CHANNEL, BASS, SOFT, basses));
  }
}
