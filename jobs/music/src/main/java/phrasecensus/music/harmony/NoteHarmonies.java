package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Judges each note of a line by the chord and the tonal centre around it. */
public final class NoteHarmonies {
  private NoteHarmonies() {}

  /**
   * One element a note, in order. Linear in notes, chords and centres.
   *
   * <p>A note is judged by the chord that holds at its onset. With {@code anticipation}, a note
   * that starts within the last half beat of a chord (its onset included, half of the metre's beat;
   * half a quarter without metre) and still sounds when another chord follows immediately is judged
   * by that one, also across a bar line. Nothing is anticipated from or into a stretch without
   * chord, and a repeated symbol is no other chord (common practice, no source).
   *
   * @param centres in order, as {@link TonalCentreFinder} gives them; may be empty
   */
  public static List<NoteHarmony> find(
      Solo solo, boolean anticipation, List<TonalCentreSpan> centres) {
    List<ChordSpan> chords = solo.chords();
    List<NoteHarmony> found = new ArrayList<>(solo.notes().size());
    int chordIndex = -1;
    int centreIndex = 0;
    List<Note> notes = solo.notes();
    for (Note note : notes) {
      while (chordIndex + 1 < chords.size()
          && !chords.get(chordIndex + 1).onset().isAfter(note.onset())) {
        chordIndex++;
      }
      ChordSpan span = chordIndex >= 0 ? chords.get(chordIndex) : null;
      if (span != null && !note.onset().isBefore(span.end())) {
        span = null;
      }
      ChordSpan next = chordIndex + 1 < chords.size() ? chords.get(chordIndex + 1) : null;
      boolean anticipated = anticipation && anticipates(solo, note, span, next);
      if (anticipated) {
        span = next;
      }
      Chord chord = span == null || span.concert().isNone() ? null : span.concert();

      Fraction moment = anticipated ? span.onset() : note.onset();
      while (centreIndex + 1 < centres.size()
          && !centres.get(centreIndex + 1).onset().isAfter(note.onset())) {
        centreIndex++;
      }
      TonalCentreSpan here = centreAt(centres, centreIndex, moment);
      TonalCentre centre = here == null ? TonalCentre.UNKNOWN : here.centre();
      int pitchClass = note.concert().pitchClass();
      CentreScale wide = CentreScale.of(centre, chord).orElse(null);
      CentreScale scale = here == null || here.scale() == null ? wide : here.scale();
      ChordDegree degree = chord == null ? null : chord.degreeOf(note.concert()).orElse(null);
      boolean inChord = degree != null && degree.role() != ChordDegree.Role.NOT_IN_CHORD;
      found.add(
          new NoteHarmony(
              chord == null ? null : span,
              degree,
              anticipated,
              centre,
              wide != null && wide.contains(centre.tonic(), pitchClass),
              scale,
              scale != null && (inChord || scale.contains(centre.tonic(), pitchClass))));
    }
    return List.copyOf(found);
  }

  /** Null where there is no centre at all. */
  private static TonalCentreSpan centreAt(
      List<TonalCentreSpan> centres, int index, Fraction moment) {
    if (centres.isEmpty()) {
      return null;
    }
    int at = index;
    while (at + 1 < centres.size() && !centres.get(at + 1).onset().isAfter(moment)) {
      at++;
    }
    return centres.get(at);
  }

  private static boolean anticipates(Solo solo, Note note, ChordSpan span, ChordSpan next) {
    if (span == null
        || next == null
        || span.concert().isNone()
        || !soundsPast(solo.notes(), note, span.end())
        || !next.onset().equals(span.end())
        || !next.concert().isChangeFrom(span.concert())) {
      return false;
    }
    Bar bar = solo.bars().get(note.barIndex());
    Fraction half = bar.metre().beatLength().times(Fraction.HALF);
    return note.onset().plus(half).isAtLeast(span.end());
  }

  /** Asks the next onset first, which spares most notes the sum: notes of a line do not overlap. */
  private static boolean soundsPast(List<Note> notes, Note note, Fraction moment) {
    return (note.index() + 1 >= notes.size() || notes.get(note.index() + 1).onset().isAfter(moment))
        && note.end().isAfter(moment);
  }
}
