package phrasecensus.report.exercise;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.exercise.Passage;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/** A phrase of a line with the bars in which it sounds. */
final class PhrasePassage {
  private PhrasePassage() {}

  /** The passage; empty where a bar is in no metre that is known, or a note has no plain name. */
  static Optional<Passage> of(SoloLine line, SoloLine.PhraseSpan phrase) {
    List<SoloLine.BarSpan> inside =
        line.bars().stream()
            .filter(bar -> bar.end() > phrase.onset() + 1e-9 && bar.onset() < phrase.end() - 1e-9)
            .toList();
    List<SoloLine.Tone> tones =
        line.notes().stream()
            .filter(note -> note.index() >= phrase.firstNote() && note.index() <= phrase.lastNote())
            .toList();
    if (inside.isEmpty() || tones.isEmpty()) {
      return Optional.empty();
    }
    Fraction from = inside.get(0).exactOnset();
    try {
      return Optional.of(passage(line, inside, tones, from));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static Passage passage(
      SoloLine line, List<SoloLine.BarSpan> inside, List<SoloLine.Tone> tones, Fraction from) {
    List<Bar> bars = new ArrayList<>();
    for (SoloLine.BarSpan bar : inside) {
      bars.add(
          new Bar(
              bars.size(),
              String.valueOf(bars.size() + 1),
              bar.exactOnset().minus(from),
              bar.exactLength(),
              Metre.named(bar.metre()),
              bar.offset(),
              false));
    }
    Transposition instrument = instrument(tones.get(0));
    List<Note> notes = new ArrayList<>();
    for (SoloLine.Tone tone : tones) {
      Pitch written = pitch(tone.nameWritten());
      Fraction onset = tone.exactOnset().minus(from);
      int bar = 0;
      for (Bar each : bars) {
        bar = each.onset().isAfter(onset) ? bar : each.index();
      }
      notes.add(
          new Note(
              notes.size(),
              onset,
              tone.exactLength(),
              instrument.sounding(written),
              written,
              bar,
              List.of(tone.exactLength()),
              0,
              false,
              List.of()));
    }
    Fraction end = bars.get(bars.size() - 1).end();
    List<ChordSpan> chords = new ArrayList<>();
    for (SoloLine.ChordSpan chord : line.chords()) {
      Fraction onset = Fraction.larger(Fraction.ZERO, chord.exactOnset().minus(from));
      Fraction stop = Fraction.smaller(end, chord.exactEnd().minus(from));
      if (chord.chord() != null && onset.isBefore(stop)) {
        Chord written = chord.chord().sounding(instrument.inverse()).simplest();
        chords.add(new ChordSpan(onset, stop, written.sounding(instrument), written, ""));
      }
    }
    return new Passage(bars, notes, chords, inside.get(0).staff().keyWritten(), instrument);
  }

  /** From written to sounding, by the two names of a note. */
  private static Transposition instrument(SoloLine.Tone tone) {
    if (!tone.transposed()) {
      return Transposition.NONE;
    }
    Pitch written = pitch(tone.nameWritten());
    Pitch concert = pitch(tone.nameConcert());
    int steps = concert.staffSteps() - written.staffSteps();
    int octaves = steps / 7;
    return new Transposition(
        steps - 7 * octaves, concert.midi() - written.midi() - 12 * octaves, octaves);
  }

  private static Pitch pitch(String name) {
    return Pitch.named(name).withoutCents();
  }
}
