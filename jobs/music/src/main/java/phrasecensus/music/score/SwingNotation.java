package phrasecensus.music.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import phrasecensus.music.time.Fraction;

/**
 * Swing that a transcriber wrote out. Swung eighths are mostly written even and played long-short;
 * some write what they hear, a triplet quarter and eighth or a dotted eighth and a sixteenth
 * (common practice, no source).
 */
public final class SwingNotation {
  private static final Fraction ONE_THIRD = Fraction.of(1, 3);
  private static final Fraction TWO_THIRDS = Fraction.of(2, 3);
  private static final Fraction THREE_QUARTERS = Fraction.of(3, 4);

  private SwingNotation() {}

  /**
   * The same solo with every quarter that is divided at its second third or at its last sixteenth,
   * and nowhere else, divided in halves. A quarter is divided where a note of the line starts or
   * ends; so a long rest with a short note is one as well, and so is a short note that is tied on.
   * What else stands at such a moment moves along: chords, marks, grace notes, unpitched sounds.
   * Only where the beat is a quarter or half note, counted from the bar line. Triplets of three
   * notes, those over two or four quarters, sixteenths in fours, pickups shorter than an eighth and
   * everything in compound or free metre stay.
   */
  public static Solo evened(Solo solo) {
    Map<Fraction, Fraction> moved = moved(solo);
    if (moved.isEmpty()) {
      return solo;
    }
    List<Note> notes = new ArrayList<>();
    for (Note note : solo.notes()) {
      notes.add(evened(note, moved));
    }
    List<GraceNote> graceNotes = new ArrayList<>();
    for (GraceNote grace : solo.graceNotes()) {
      graceNotes.add(
          new GraceNote(
              at(grace.onset(), moved),
              grace.concert(),
              grace.written(),
              grace.beforeNote(),
              grace.slashed()));
    }
    List<ChordSpan> chords = new ArrayList<>();
    for (ChordSpan chord : solo.chords()) {
      chords.add(
          new ChordSpan(
              at(chord.onset(), moved),
              at(chord.end(), moved),
              chord.concert(),
              chord.written(),
              chord.text()));
    }
    List<Mark> marks = new ArrayList<>();
    for (Mark mark : solo.marks()) {
      marks.add(new Mark(mark.kind(), at(mark.onset(), moved), at(mark.end(), moved), mark.text()));
    }
    return new Solo(
        solo.description(),
        solo.bars(),
        notes,
        graceNotes,
        chords,
        solo.keys(),
        solo.tempi(),
        marks,
        solo.unknownSpans(),
        solo.unpitchedOnsets().stream().map(onset -> at(onset, moved)).toList());
  }

  private static Fraction at(Fraction moment, Map<Fraction, Fraction> moved) {
    return moved.getOrDefault(moment, moment);
  }

  private static Note evened(Note note, Map<Fraction, Fraction> moved) {
    Fraction onset = at(note.onset(), moved);
    Fraction length = at(note.end(), moved).minus(onset);
    if (onset.equals(note.onset()) && length.equals(note.length())) {
      return note;
    }
    return new Note(
        note.index(),
        onset,
        length,
        note.concert(),
        note.written(),
        note.barIndex(),
        List.of(length),
        note.graceBefore(),
        note.uncertain(),
        note.articulations(),
        note.syllable());
  }

  /** The moments that move, each with where it moves to. */
  private static Map<Fraction, Fraction> moved(Solo solo) {
    Map<Fraction, Set<Fraction>> divisions = new TreeMap<>();
    for (Note note : solo.notes()) {
      divide(solo, note.onset(), divisions);
      divide(solo, note.end(), divisions);
    }
    for (Fraction onset : solo.unpitchedOnsets()) {
      divide(solo, onset, divisions);
    }
    Map<Fraction, Fraction> moved = new HashMap<>();
    divisions.forEach(
        (quarter, inside) -> {
          if (inside.size() == 1) {
            Fraction moment = inside.iterator().next();
            Fraction at = moment.minus(quarter);
            boolean swung =
                at.equals(TWO_THIRDS)
                    && !isAtFirstThird(quarter.plus(Fraction.ONE), divisions)
                    && !isAtFirstThird(quarter.minus(Fraction.ONE), divisions);
            Fraction half = quarter.plus(Fraction.HALF);
            if ((swung || at.equals(THREE_QUARTERS))
                && half.isAtLeast(solo.barAt(moment).onset())) {
              moved.put(moment, half);
            }
          }
        });
    return moved;
  }

  /** True for a quarter that a triplet over several quarters divides. */
  private static boolean isAtFirstThird(Fraction quarter, Map<Fraction, Set<Fraction>> divisions) {
    return divisions.getOrDefault(quarter, Set.of()).equals(Set.of(quarter.plus(ONE_THIRD)));
  }

  /** Adds a moment to the quarter that it divides, if any. */
  private static void divide(Solo solo, Fraction moment, Map<Fraction, Set<Fraction>> divisions) {
    if (solo.bars().isEmpty()) {
      return;
    }
    Bar bar = solo.barAt(moment);
    Fraction beat = bar.metre().beatLength();
    if (bar.metre().isFree() || !(beat.equals(Fraction.ONE) || beat.equals(Fraction.of(2)))) {
      return;
    }
    Fraction inside = bar.positionOf(moment).modulo(Fraction.ONE);
    if (!inside.isZero()) {
      divisions.computeIfAbsent(moment.minus(inside), quarter -> new HashSet<>()).add(moment);
    }
  }
}
