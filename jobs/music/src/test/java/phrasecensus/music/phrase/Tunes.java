package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/** Small solos for the tests of this package. */
final class Tunes {
  private static final String[] SPELLING = {
    "C 0", "C 1", "D 0", "E -1", "E 0", "F 0", "F 1", "G 0", "A -1", "A 0", "B -1", "B 0"
  };

  /**
   * The worked melody M of the boundary models, with its published-formula values: onsets 0 .5 1
   * 1.5 2 4 4.5 5 5.5 6; lengths .5 .5 .5 .5 1 .5 .5 .5 .5 2; MIDI 60 62 64 65 67 72 71 69 67 64.
   */
  static final String M =
      "0:1/2:60 1/2:1/2:62 1:1/2:64 3/2:1/2:65 2:1:67"
          + " 4:1/2:72 9/2:1/2:71 5:1/2:69 11/2:1/2:67 6:2:64";

  private Tunes() {}

  /** A solo in 4/4 without tempo from {@code onset:length:midi} words. */
  static Solo of(String line) {
    return of(line, Metre.of(4, 4), List.of());
  }

  static Solo of(String line, Metre metre, List<TempoChange> tempi) {
    List<Note> notes = new ArrayList<>();
    for (String word : line.isBlank() ? new String[0] : line.trim().split("\\s+")) {
      String[] parts = word.split(":");
      notes.add(
          note(
              notes.size(),
              Fraction.parse(parts[0]),
              Fraction.parse(parts[1]),
              Integer.parseInt(parts[2]),
              metre));
    }
    return of(notes, metre, tempi, List.of(), List.of());
  }

  static Solo of(
      List<Note> notes,
      Metre metre,
      List<TempoChange> tempi,
      List<Mark> marks,
      List<Span> unknownSpans) {
    Fraction end = notes.isEmpty() ? Fraction.ONE : notes.get(notes.size() - 1).end();
    List<Bar> bars = new ArrayList<>();
    Fraction barLength = metre.isFree() ? end : metre.barLength();
    for (Fraction at = Fraction.ZERO; at.isBefore(end); at = at.plus(barLength)) {
      bars.add(
          new Bar(
              bars.size(),
              Integer.toString(bars.size() + 1),
              at,
              barLength,
              metre,
              Fraction.ZERO,
              false));
    }
    return new Solo(
        new SoloDescription("", Map.of(), Map.of(), "P1", "", "", "only part", "none"),
        bars,
        notes,
        List.of(),
        List.of(),
        List.of(),
        tempi,
        marks,
        unknownSpans,
        List.of());
  }

  static Solo withMarks(Solo solo, List<Mark> marks) {
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        solo.graceNotes(),
        solo.chords(),
        solo.keys(),
        solo.tempi(),
        marks,
        solo.unknownSpans(),
        solo.unpitchedOnsets());
  }

  static Solo withUnknownSpans(Solo solo, List<Span> unknownSpans) {
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        solo.graceNotes(),
        solo.chords(),
        solo.keys(),
        solo.tempi(),
        solo.marks(),
        unknownSpans,
        solo.unpitchedOnsets());
  }

  static Note note(int index, Fraction onset, Fraction length, int midi, Metre metre) {
    int bar = metre.isFree() ? 0 : (int) onset.dividedBy(metre.barLength()).floor();
    return Note.plain(index, onset, length, pitch(midi), bar);
  }

  static Pitch pitch(int midi) {
    String[] parts = SPELLING[Math.floorMod(midi, 12)].split(" ");
    return Pitch.of(
        Step.valueOf(parts[0]), Integer.parseInt(parts[1]), Math.floorDiv(midi, 12) - 1);
  }

  /** A line with eighths, triplets, held notes, leaps and rests; the same seed gives the same. */
  static Solo random(long seed, int notes) {
    return shifted(seed, notes, Fraction.ZERO, 0);
  }

  /** The line of {@link #random}, later by {@code shift} quarter notes and higher by semitones. */
  static Solo shifted(long seed, int notes, Fraction shift, int semitones) {
    Random random = new Random(seed);
    Fraction[] lengths = {
      Fraction.of(1, 2),
      Fraction.of(1, 2),
      Fraction.of(1, 3),
      Fraction.of(1, 4),
      Fraction.ONE,
      Fraction.of(3, 2),
      Fraction.of(2)
    };
    Fraction[] rests = {Fraction.of(1, 4), Fraction.of(1, 2), Fraction.ONE, Fraction.of(3)};
    List<Note> line = new ArrayList<>();
    Metre metre = Metre.of(4, 4);
    Fraction at = shift;
    int midi = 60 + semitones;
    for (int i = 0; i < notes; i++) {
      Fraction length = lengths[random.nextInt(lengths.length)];
      line.add(note(i, at, length, midi, metre));
      at = at.plus(length);
      if (random.nextInt(7) == 0) {
        at = at.plus(rests[random.nextInt(rests.length)]);
      }
      midi = Math.max(45, Math.min(85, midi - semitones + random.nextInt(11) - 5)) + semitones;
    }
    return of(line, metre, List.of(new TempoChange(Fraction.ZERO, 160)), List.of(), List.of());
  }
}
