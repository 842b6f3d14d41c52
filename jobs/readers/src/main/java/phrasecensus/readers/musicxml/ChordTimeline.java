package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.musicxml.PartReading.ChordReading;

/**
 * The chord symbols over a solo: those of its own part, else of the part with most of them,
 * converted by that part's own transposition.
 */
final class ChordTimeline {
  private final PartReading part;
  private final PartReading source;
  private final PlayedBars played;
  private final ProblemLog problems;

  ChordTimeline(ScoreReading score, PartReading part, PlayedBars played, ProblemLog problems) {
    this.part = part;
    this.source = source(score.parts(), part);
    this.played = played;
    this.problems = problems;
  }

  /** Where the chord symbols come from, in a sentence. */
  String sourceText() {
    if (source == null) {
      return "No part has chord symbols.";
    }
    if (source == part) {
      return "The chord symbols stand in the solo part.";
    }
    String name = source.description().name();
    return "The chord symbols stand in the part "
        + (name.isEmpty() ? source.description().id() : name)
        + " and are converted by its own transposition.";
  }

  private static PartReading source(List<PartReading> parts, PartReading part) {
    if (count(part) > 0) {
      return part;
    }
    PartReading most = null;
    for (PartReading other : parts) {
      if (count(other) > (most == null ? 0 : count(most))) {
        most = other;
      }
    }
    return most;
  }

  private static long count(PartReading part) {
    return part.chords().stream().filter(chord -> !chord.goesOn()).count();
  }

  /** The chords in order, each up to the next one. */
  List<ChordSpan> spans() {
    if (source == null) {
      return List.of();
    }
    record PlacedChord(Fraction onset, int playedBar, ChordReading chord) {}
    List<PlacedChord> placed = new ArrayList<>();
    for (ChordReading chord : source.chords()) {
      if (chord.goesOn()) {
        continue;
      }
      for (int at : played.playedAt(chord.bar())) {
        placed.add(
            new PlacedChord(
                Fraction.larger(Fraction.ZERO, played.moment(at, chord.place())), at, chord));
      }
    }
    placed.sort(Comparator.comparing(PlacedChord::onset));
    Fraction end = played.length();
    List<PlacedChord> kept = new ArrayList<>(placed.size());
    for (PlacedChord chord : placed) {
      String bar = played.bar(chord.playedBar()).number();
      if (!chord.onset().isBefore(end)) {
        problems.add(
            source.description().id(),
            bar,
            "chord-after-end",
            "the chord symbol " + chord.chord().written() + " after the last bar",
            "it is left out");
        continue;
      }
      PlacedChord last = kept.isEmpty() ? null : kept.get(kept.size() - 1);
      if (last == null || !last.onset().equals(chord.onset())) {
        kept.add(chord);
        continue;
      }
      boolean replaces = !chord.chord().alternate() || last.chord().alternate();
      if (!last.chord().written().equals(chord.chord().written())) {
        problems.add(
            source.description().id(),
            bar,
            "chords-at-one-place",
            "the chord symbols "
                + last.chord().written()
                + " and "
                + chord.chord().written()
                + " at one place",
            (replaces ? chord : last).chord().written() + " counts");
      }
      if (replaces) {
        kept.set(kept.size() - 1, chord);
      }
    }
    List<ChordSpan> spans = new ArrayList<>(kept.size());
    for (int i = 0; i < kept.size(); i++) {
      PlacedChord chord = kept.get(i);
      Chord written = chord.chord().written();
      if (source != part) {
        Transposition transposition =
            part.bars().get(played.written(chord.playedBar())).transposition();
        written = chord.chord().concert().sounding(transposition.inverse());
      }
      spans.add(
          new ChordSpan(
              chord.onset(),
              i + 1 < kept.size() ? kept.get(i + 1).onset() : end,
              chord.chord().concert(),
              written,
              chord.chord().text()));
    }
    return spans;
  }
}
