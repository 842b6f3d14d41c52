package phrasecensus.music.exercise;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;

/** Makes exercises from a phrase. */
public final class Exercises {
  private static final Fraction EIGHTH = Fraction.HALF;
  private static final int OCTAVE = 12;
  private static final Transposition FOURTH_HIGHER = new Transposition(3, 5, 0);
  private static final Transposition FIFTH_LOWER = new Transposition(-4, -7, 0);

  private final Passage phrase;
  private final Range range;

  private Exercises(Passage phrase, Range range) {
    this.phrase = phrase;
    this.range = range;
  }

  /** Every transformation of a phrase, made or not, in the order of their kinds. */
  public static List<Exercise> of(Passage phrase, Range range) {
    Exercises exercises = new Exercises(phrase, range);
    List<Exercise> all = new ArrayList<>();
    all.add(exercises.checked(Exercise.Kind.EIGHTHS, exercises.eighths()));
    all.add(exercises.checked(Exercise.Kind.REST, exercises.rest()));
    all.add(exercises.ending(Exercise.Kind.ON_ROOT, 1));
    all.add(exercises.ending(Exercise.Kind.ON_THIRD, 3));
    all.add(exercises.ending(Exercise.Kind.ON_FIFTH, 5));
    all.add(exercises.ending(Exercise.Kind.ON_SEVENTH, 7));
    Exercise higher =
        exercises.checked(Exercise.Kind.OTHER_KEY, Optional.of(exercises.moved(FOURTH_HIGHER)));
    all.add(
        higher.isMade()
            ? higher
            : exercises.checked(
                Exercise.Kind.OTHER_KEY, Optional.of(exercises.moved(FIFTH_LOWER))));
    return List.copyOf(all);
  }

  private Exercise checked(Exercise.Kind kind, Optional<Passage> made) {
    Limit broken =
        made.flatMap(each -> Limit.brokenBy(phrase.notes(), each.notes(), range)).orElse(null);
    return new Exercise(kind, broken == null ? made : Optional.empty(), broken);
  }

  // Eighths.

  private Optional<Passage> eighths() {
    if (!phrase.hasMetre()) {
      return Optional.empty();
    }
    Fraction first = phrase.first().onset();
    Fraction start = first.minus(first.modulo(EIGHTH));
    List<Fraction> onsets = new ArrayList<>();
    for (int i = 0; i < phrase.notes().size(); i++) {
      onsets.add(start.plus(EIGHTH.times(i)));
    }
    Fraction last = onsets.get(onsets.size() - 1);
    List<Bar> bars = new ArrayList<>(phrase.bars());
    while (!bars.get(bars.size() - 1).end().isAfter(last)) {
      bars.add(after(bars.get(bars.size() - 1)));
    }
    Passage place = new Passage(bars, phrase.notes(), phrase.chords(), null, phrase.instrument());
    Bar bar = place.barAt(last);
    Fraction past = bar.positionOf(last).modulo(bar.metre().beatLength());
    Fraction end = Fraction.smaller(bar.end(), last.plus(bar.metre().beatLength().minus(past)));
    List<Note> notes = new ArrayList<>();
    boolean same = true;
    for (int i = 0; i < phrase.notes().size(); i++) {
      Note note = phrase.notes().get(i);
      boolean isLast = i == phrase.notes().size() - 1;
      Fraction length = isLast ? end.minus(last) : EIGHTH;
      same &= onsets.get(i).equals(note.onset()) && (isLast || length.equals(note.length()));
      notes.add(note(i, onsets.get(i), length, note.written(), place));
    }
    if (same) {
      return Optional.empty();
    }
    List<Bar> needed = bars.stream().filter(each -> each.onset().isBefore(end)).toList();
    Fraction whole = needed.get(needed.size() - 1).end();
    List<ChordSpan> chords = new ArrayList<>();
    for (ChordSpan chord : phrase.chords()) {
      if (chord.onset().isBefore(whole)) {
        boolean lasts = !chord.end().isBefore(phrase.end());
        chords.add(
            span(chord, chord.onset(), lasts ? whole : Fraction.smaller(chord.end(), whole)));
      }
    }
    return Optional.of(new Passage(needed, notes, chords, phrase.signature(), phrase.instrument()));
  }

  private static Bar after(Bar bar) {
    return bar(bar, bar.index() + 1, bar.end(), bar.metre().barLength(), Fraction.ZERO);
  }

  private static Bar bar(
      Bar like, int index, Fraction onset, Fraction length, Fraction metricalOffset) {
    return new Bar(
        index, String.valueOf(index + 1), onset, length, like.metre(), metricalOffset, false);
  }

  // A rest.

  private Optional<Passage> rest() {
    if (!phrase.hasMetre()) {
      return Optional.empty();
    }
    Bar entry = phrase.barAt(phrase.first().onset());
    boolean pickup =
        entry
                .positionOf(phrase.first().onset())
                .compareTo(entry.metre().barLength().times(Fraction.HALF))
            >= 0;
    int before = phrase.bars().indexOf(entry) + (pickup ? 3 : 2);
    if (before >= phrase.bars().size()) {
      return Optional.empty();
    }
    Bar ending = phrase.bars().get(before - 1);
    Fraction seam = ending.end();
    if (phrase.last().onset().isBefore(seam)) {
      return Optional.empty();
    }
    Fraction silence = ending.metre().barLength();
    List<Bar> bars = new ArrayList<>(phrase.bars().subList(0, before));
    bars.add(after(ending));
    for (Bar bar : phrase.bars().subList(before, phrase.bars().size())) {
      bars.add(
          bar(bar, bars.size(), bar.onset().plus(silence), bar.length(), bar.metricalOffset()));
    }
    Passage place = new Passage(bars, phrase.notes(), List.of(), null, phrase.instrument());
    List<Note> notes = new ArrayList<>();
    for (Note note : phrase.notes()) {
      boolean early = note.onset().isBefore(seam);
      Fraction onset = early ? note.onset() : note.onset().plus(silence);
      Fraction length = early ? Fraction.smaller(note.end(), seam).minus(onset) : note.length();
      notes.add(note(notes.size(), onset, length, note.written(), place));
    }
    List<ChordSpan> chords = new ArrayList<>();
    for (ChordSpan chord : phrase.chords()) {
      boolean early = chord.onset().isBefore(seam);
      chords.add(
          span(
              chord,
              early ? chord.onset() : chord.onset().plus(silence),
              chord.end().isBefore(seam) ? chord.end() : chord.end().plus(silence)));
    }
    return Optional.of(new Passage(bars, notes, chords, phrase.signature(), phrase.instrument()));
  }

  // Endings.

  private Exercise ending(Exercise.Kind kind, int degree) {
    Chord chord = null;
    for (ChordSpan span : phrase.chords()) {
      boolean holds =
          !span.onset().isAfter(phrase.last().onset()) && span.end().isAfter(phrase.last().onset());
      chord = holds ? span.written() : chord;
    }
    if (chord == null || isDegree(chord, phrase.last().written(), degree)) {
      return new Exercise(kind, Optional.empty(), null);
    }
    Limit broken = null;
    int from = phrase.last().written().midi();
    for (int distance = 1; distance <= OCTAVE; distance++) {
      for (int midi : new int[] {from - distance, from + distance}) {
        Optional<Pitch> pitch = spelled(chord, midi, degree);
        if (pitch.isPresent()) {
          List<Note> notes = new ArrayList<>(phrase.notes());
          Note last = phrase.last();
          notes.set(
              notes.size() - 1,
              note(last.index(), last.onset(), last.length(), pitch.get(), phrase));
          Exercise made =
              checked(
                  kind,
                  Optional.of(
                      new Passage(
                          phrase.bars(),
                          notes,
                          phrase.chords(),
                          phrase.signature(),
                          phrase.instrument())));
          if (made.isMade()) {
            return made;
          }
          broken = broken == null ? made.limit() : broken;
        }
      }
    }
    return new Exercise(kind, Optional.empty(), broken);
  }

  private static boolean isDegree(Chord chord, Pitch pitch, int degree) {
    return chord
        .degreeOf(pitch)
        .filter(each -> chord.corePitchClasses().contains(pitch.pitchClass()))
        .filter(each -> each.name().replaceAll("[^0-9]", "").equals(String.valueOf(degree)))
        .isPresent();
  }

  /** The pitch of a MIDI number spelled as a degree of the chord; empty where it is not that. */
  private static Optional<Pitch> spelled(Chord chord, int midi, int degree) {
    if (chord.root() == null) {
      return Optional.empty();
    }
    Step step = Step.values()[Math.floorMod(chord.root().step().ordinal() + degree - 1, 7)];
    int alter = Math.floorMod(midi - step.semitones() + 6, 12) - 6;
    int octave = Math.floorDiv(midi - alter - step.semitones(), 12) - 1;
    Pitch pitch = Pitch.of(step, alter, octave);
    return isDegree(chord, pitch, degree) ? Optional.of(pitch.withoutDoubles()) : Optional.empty();
  }

  // Another key.

  private Passage moved(Transposition by) {
    Integer signature = phrase.signature();
    Transposition move = by;
    if (signature != null && signature + by.fifths() < -6) {
      // Six flats at most: the next key is read in sharps.
      move = new Transposition(by.diatonic() - 1, by.chromatic(), by.octaves());
    }
    Transposition interval = move;
    UnaryOperator<Pitch> pitch = each -> interval.sounding(each).withoutDoubles();
    List<Note> notes = new ArrayList<>();
    for (Note note : phrase.notes()) {
      notes.add(
          note(note.index(), note.onset(), note.length(), pitch.apply(note.written()), phrase));
    }
    List<ChordSpan> chords = new ArrayList<>();
    for (ChordSpan chord : phrase.chords()) {
      Chord written = chord.written().sounding(interval).simplest();
      chords.add(
          new ChordSpan(
              chord.onset(), chord.end(), written.sounding(phrase.instrument()), written, ""));
    }
    return new Passage(
        phrase.bars(),
        notes,
        chords,
        signature == null ? null : Integer.valueOf(signature + interval.fifths()),
        phrase.instrument());
  }

  private static ChordSpan span(ChordSpan chord, Fraction onset, Fraction end) {
    return new ChordSpan(onset, end, chord.concert(), chord.written(), chord.text());
  }

  private static Note note(
      int index, Fraction onset, Fraction length, Pitch written, Passage place) {
    return new Note(
        index,
        onset,
        length,
        place.instrument().sounding(written),
        written,
        place.bars().indexOf(place.barAt(onset)),
        List.of(length),
        0,
        false,
        List.of());
  }
}
