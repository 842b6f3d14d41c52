package phrasecensus.report.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.report.rows.SoloLine;

/** The music of a sheet as the pages of a report draw and sound it. */
public final class SheetLine {
  private SheetLine() {}

  /** The whole line, with the degree under each last note as a landing. */
  public static SoloLine of(Sheet sheet) {
    Solo solo = sheet.solo();
    List<SoloLine.BarSpan> bars = new ArrayList<>();
    for (Bar bar : solo.bars()) {
      bars.add(
          new SoloLine.BarSpan(
              bar.index(),
              bar.number(),
              bar.onset(),
              bar.length(),
              bar.metre().text(),
              bar.metricalOffset(),
              bar.pickup(),
              null,
              staff(solo, bar)));
    }
    List<SoloLine.ChordSpan> chords = new ArrayList<>();
    for (ChordSpan chord : solo.chords()) {
      chords.add(
          new SoloLine.ChordSpan(
              chord.onset(),
              chord.end(),
              chord.written().symbol(),
              chord.concert().symbol(),
              chord.concert()));
    }
    List<SoloLine.Tone> notes = new ArrayList<>();
    for (Note note : solo.notes()) {
      notes.add(
          new SoloLine.Tone(
              note.index(),
              note.onset(),
              note.length(),
              note.written().midi(),
              note.written().toString(),
              note.written().midi() - note.midi(),
              note.concert().toString(),
              null));
    }
    List<SoloLine.LandingMark> landings = new ArrayList<>();
    sheet
        .lastDegrees()
        .forEach(
            (note, degree) ->
                landings.add(
                    new SoloLine.LandingMark(
                        note, 0, "phrase-end", degree, isCore(solo, note, degree))));
    return new SoloLine(bars, chords, notes, List.of(), landings);
  }

  private static SoloLine.Staff staff(Solo solo, Bar bar) {
    KeyChange key = null;
    for (KeyChange change : solo.keys()) {
      key = change.onset().isAfter(bar.onset()) ? key : change;
    }
    boolean ends =
        solo.marks().stream()
            .anyMatch(
                mark -> mark.kind() == Mark.Kind.DOUBLE_BAR && mark.onset().equals(bar.end()));
    return new SoloLine.Staff(
        key == null ? null : key.concertFifths(),
        key == null ? null : key.writtenFifths(),
        null,
        false,
        false,
        null,
        false,
        ends);
  }

  /**
   * Whether a degree is one of 1 3 5 7 of the chord that gave it its name: that of the moment, or
   * the next one for a note that comes before its chord. Null where no chord has it.
   */
  private static Boolean isCore(Solo solo, int note, String degree) {
    Note last = solo.notes().get(note);
    for (ChordSpan chord : solo.chords()) {
      boolean near = chord.end().isAfter(last.onset()) && !chord.onset().isAfter(last.end());
      Optional<ChordDegree> found =
          near ? chord.concert().degreeOf(last.concert()) : Optional.empty();
      if (found.isPresent() && found.get().name().equals(degree)) {
        ChordDegree.Role role = found.get().role();
        return role == ChordDegree.Role.GUIDE_TONE || role == ChordDegree.Role.CHORD_TONE;
      }
    }
    return null;
  }
}
