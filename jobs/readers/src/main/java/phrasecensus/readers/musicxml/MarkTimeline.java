package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.musicxml.NoteReading.SlurEnd;
import phrasecensus.readers.musicxml.PartReading.LineEnd;
import phrasecensus.readers.musicxml.PartReading.Place;
import phrasecensus.readers.musicxml.PartReading.Rehearsal;

/**
 * What the transcriber wrote about phrases and sections: slurs, breaths, brackets, letters, bar
 * lines.
 */
final class MarkTimeline {
  private final ScoreReading score;
  private final PartReading part;
  private final PlayedBars played;
  private final SoloLine line;
  private final List<Note> notes;

  MarkTimeline(ScoreReading score, PartReading part, PlayedBars played, SoloLine line) {
    this.score = score;
    this.part = part;
    this.played = played;
    this.line = line;
    this.notes = line.notes();
  }

  /** The marks by onset, then kind. */
  List<Mark> marks() {
    List<Mark> marks = new ArrayList<>();
    addNoteMarks(marks);
    addLines(marks);
    List<Rehearsal> rehearsals = part.rehearsals();
    if (rehearsals.isEmpty()) {
      rehearsals =
          score.parts().stream()
              .map(PartReading::rehearsals)
              .filter(found -> !found.isEmpty())
              .findFirst()
              .orElse(List.of());
    }
    for (Rehearsal rehearsal : rehearsals) {
      for (int at : played.playedAt(rehearsal.bar())) {
        Fraction onset = played.moment(at, rehearsal.offset());
        marks.add(new Mark(Mark.Kind.REHEARSAL, onset, onset, rehearsal.text()));
      }
    }
    TreeSet<Fraction> doubleBars = new TreeSet<>();
    for (Place place : part.doubleBars()) {
      for (int at : played.playedAt(place.bar())) {
        doubleBars.add(place.atEnd() ? played.bar(at).end() : played.moment(at, place.offset()));
      }
    }
    doubleBars.forEach(onset -> marks.add(new Mark(Mark.Kind.DOUBLE_BAR, onset, onset, "")));
    marks.sort(Comparator.comparing(Mark::onset).thenComparing(Mark::kind));
    return marks;
  }

  private void addNoteMarks(List<Mark> marks) {
    record Signed(Fraction onset, NoteReading note) {}
    List<Signed> signed = new ArrayList<>();
    for (NoteReading note : part.notes()) {
      if (note.signs().slurs().isEmpty()
          && !note.signs().breath()
          && !note.signs().caesura()
          && !note.signs().fermata()) {
        continue;
      }
      if (line.isInLine(note) && note.isMelody()) {
        for (int at : played.playedAt(note.bar())) {
          Fraction onset = played.moment(at, note.offset());
          signed.add(new Signed(onsetOfNoteAt(onset), note));
        }
      }
    }
    signed.sort(Comparator.comparing(Signed::onset));
    Map<Integer, Fraction> open = new HashMap<>();
    for (Signed sign : signed) {
      Fraction onset = sign.onset();
      if (sign.note().signs().breath()) {
        marks.add(new Mark(Mark.Kind.BREATH, onset, onset, ""));
      }
      if (sign.note().signs().caesura()) {
        marks.add(new Mark(Mark.Kind.CAESURA, onset, onset, ""));
      }
      if (sign.note().signs().fermata()) {
        marks.add(new Mark(Mark.Kind.FERMATA, onset, onset, ""));
      }
      // A note may end one slur and start the next with the same number.
      for (SlurEnd slur : sign.note().signs().slurs()) {
        if (!slur.start()) {
          Fraction start = open.remove(slur.number());
          if (start != null && !start.equals(onset)) {
            marks.add(new Mark(Mark.Kind.SLUR, start, onset, ""));
          }
        }
      }
      for (SlurEnd slur : sign.note().signs().slurs()) {
        if (slur.start()) {
          open.put(slur.number(), onset);
        }
      }
    }
  }

  /** A sign at the continuation of a tie belongs to the note that is struck. */
  private Fraction onsetOfNoteAt(Fraction moment) {
    int last = notesUpTo(moment) - 1;
    return last >= 0 && notes.get(last).end().isAfter(moment) ? notes.get(last).onset() : moment;
  }

  /** How many notes start at or before a moment. */
  private int notesUpTo(Fraction moment) {
    int low = 0;
    int high = notes.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (notes.get(middle).onset().compareTo(moment) <= 0) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private void addLines(List<Mark> marks) {
    record PlacedEnd(Fraction onset, LineEnd end) {}
    List<PlacedEnd> placed = new ArrayList<>();
    for (LineEnd end : part.lines()) {
      for (int at : played.playedAt(end.bar())) {
        placed.add(new PlacedEnd(played.moment(at, end.offset()), end));
      }
    }
    placed.sort(Comparator.comparing(PlacedEnd::onset));
    Map<Integer, Fraction> open = new HashMap<>();
    for (PlacedEnd end : placed) {
      int key = 2 * end.end().number() + (end.end().dashes() ? 1 : 0);
      if (end.end().start()) {
        open.put(key, end.onset());
        continue;
      }
      Fraction start = open.remove(key);
      if (start != null) {
        int last = notesUpTo(end.onset()) - 1;
        if (last >= 0 && notes.get(last).onset().equals(end.onset())) {
          last--;
        }
        Fraction lastOnset = last >= 0 ? notes.get(last).onset() : start;
        marks.add(new Mark(Mark.Kind.BRACKET, start, Fraction.larger(start, lastOnset), ""));
      }
    }
  }
}
