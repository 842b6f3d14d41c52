package phrasecensus.music.exercise;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.music.analysis.SoloText.chord;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;

/** Laws of each transformation, over phrases drawn at random, and one worked example each. */
class ExercisesTest {
  private static final Range RANGE = new Range(54, 84);
  private static final List<String> SYMBOLS = List.of("Dm7", "G7", "Cmaj7", "Am7", "E7", "F#m7b5");
  private static final List<Transposition> INSTRUMENTS =
      List.of(Transposition.NONE, new Transposition(-1, -2, 0), new Transposition(-5, -9, 0));

  private static Pitch pitch(int midi) {
    NoteName name = NoteName.atFifths(Math.floorMod(7 * midi + 5, 12) - 5);
    return Pitch.of(
        name.step(),
        name.alter(),
        Math.floorDiv(midi - name.step().semitones() - name.alter(), 12) - 1);
  }

  /** Bars of 4/4, chords of two quarters, notes of random values after an entry anywhere. */
  private static Passage phrase(Random random) {
    Transposition instrument = INSTRUMENTS.get(random.nextInt(INSTRUMENTS.size()));
    List<Note> notes = new ArrayList<>();
    Fraction at = Fraction.of(random.nextInt(8), 2);
    int midi = 60 + random.nextInt(16);
    int count = 3 + random.nextInt(18);
    for (int i = 0; i < count; i++) {
      Fraction length =
          List.of(
                  Fraction.of(1, 2),
                  Fraction.ONE,
                  Fraction.of(1, 3),
                  Fraction.of(3, 2),
                  Fraction.of(1, 4))
              .get(random.nextInt(5));
      Pitch written = pitch(midi);
      notes.add(
          new Note(
              i,
              at,
              length,
              instrument.sounding(written),
              written,
              (int) at.dividedBy(Fraction.of(4)).floor(),
              List.of(length),
              0,
              false,
              List.of()));
      at = at.plus(length);
      midi = Math.max(55, Math.min(83, midi + random.nextInt(15) - 7));
    }
    return passage(notes, instrument, random);
  }

  private static Passage passage(List<Note> notes, Transposition instrument, Random random) {
    List<Bar> bars = new ArrayList<>();
    Fraction end = notes.get(notes.size() - 1).end();
    for (int i = 0; Fraction.of(4L * i).isBefore(end); i++) {
      bars.add(
          new Bar(
              i,
              String.valueOf(i + 1),
              Fraction.of(4L * i),
              Fraction.of(4),
              Metre.of(4, 4),
              Fraction.ZERO,
              false));
    }
    List<ChordSpan> chords = new ArrayList<>();
    for (int i = 0; i < 2 * bars.size(); i++) {
      var written = chord(SYMBOLS.get(random.nextInt(SYMBOLS.size())));
      chords.add(
          new ChordSpan(
              Fraction.of(2L * i),
              Fraction.of(2L * i + 2),
              written.sounding(instrument),
              written,
              ""));
    }
    return new Passage(bars, notes, chords, 0, instrument);
  }

  private record Case(Passage phrase, Passage made) {}

  /** Every exercise of a kind that is made of 500 phrases; the law must have been tried. */
  private static void forAll(Set<Exercise.Kind> kinds, Consumer<Case> law) {
    Random random = new Random(18);
    int tried = 0;
    for (int i = 0; i < 500; i++) {
      Passage phrase = phrase(random);
      for (Exercise exercise : Exercises.of(phrase, RANGE)) {
        if (kinds.contains(exercise.kind()) && exercise.isMade()) {
          law.accept(new Case(phrase, exercise.passage().orElseThrow()));
          tried++;
        }
      }
    }
    assertThat(tried).as("exercises made").isGreaterThan(50);
  }

  private static final Set<Exercise.Kind> ALL = Set.of(Exercise.Kind.values());

  private static List<Integer> midi(Passage passage) {
    return passage.notes().stream().map(note -> note.written().midi()).toList();
  }

  private static List<Integer> leaps(Passage passage) {
    List<Integer> leaps = new ArrayList<>();
    for (int i = 1; i < midi(passage).size(); i++) {
      leaps.add(Math.abs(midi(passage).get(i) - midi(passage).get(i - 1)));
    }
    return leaps;
  }

  @Test
  void everyExerciseLiesInTheRangeAndWithinATwelfth() {
    forAll(
        ALL,
        each -> {
          Set<Integer> pitches = new TreeSet<>(midi(each.made()));
          assertThat(pitches).allMatch(midi -> midi >= 54 && midi <= 84);
          assertThat(new TreeSet<>(pitches).last() - new TreeSet<>(pitches).first())
              .isLessThanOrEqualTo(19);
        });
  }

  @Test
  void noExerciseLeapsAboveAnOctaveUnlessThePhraseDoes() {
    forAll(
        ALL,
        each ->
            assertThat(leaps(each.made()))
                .allMatch(
                    leap ->
                        leap <= 12 || leaps(each.phrase()).stream().anyMatch(own -> own >= leap)));
  }

  @Test
  void noExerciseHasThreeLeapsAboveAFourthInARow() {
    forAll(
        ALL,
        each -> {
          String row =
              leaps(each.made()).stream()
                  .map(leap -> leap > 5 ? "x" : ".")
                  .reduce("", String::concat);
          assertThat(row).doesNotContain("xxx");
        });
  }

  @Test
  void noExerciseHasAValueShorterThanThePhrasesShortest() {
    forAll(
        ALL,
        each -> {
          double shortest =
              each.phrase().notes().stream()
                  .mapToDouble(n -> n.length().toDouble())
                  .min()
                  .orElseThrow();
          assertThat(each.made().notes())
              .allMatch(note -> note.length().toDouble() >= shortest - 1e-9);
        });
  }

  @Test
  void notesFollowOneAnotherInsideTheirBars() {
    forAll(
        ALL,
        each -> {
          Fraction at = Fraction.ZERO;
          for (Note note : each.made().notes()) {
            assertThat(note.onset().isBefore(at)).isFalse();
            Bar bar = each.made().bars().get(note.barIndex());
            assertThat(bar.onset().isAfter(note.onset()) || !note.onset().isBefore(bar.end()))
                .isFalse();
            at = note.end();
          }
          assertThat(at.isAfter(each.made().end())).isFalse();
        });
  }

  @Test
  void writtenAndSoundingPitchStayTheInstrumentsIntervalApart() {
    forAll(
        ALL,
        each ->
            assertThat(each.made().notes())
                .allMatch(
                    note ->
                        note.concert()
                            .equals(each.phrase().instrument().sounding(note.written()))));
  }

  @Test
  void asEighthsThePitchesAreTheSameAndEachIsAnEighth() {
    forAll(
        Set.of(Exercise.Kind.EIGHTHS),
        each -> {
          assertThat(midi(each.made())).isEqualTo(midi(each.phrase()));
          List<Note> notes = each.made().notes();
          for (int i = 1; i < notes.size(); i++) {
            assertThat(notes.get(i).onset()).isEqualTo(notes.get(i - 1).end());
            assertThat(notes.get(i - 1).length()).isEqualTo(Fraction.HALF);
          }
          assertThat(each.made().last().end().isWhole()).isTrue();
        });
  }

  @Test
  void withARestOneBarIsSilentAndTheRestComesABarLater() {
    forAll(
        Set.of(Exercise.Kind.REST),
        each -> {
          assertThat(midi(each.made())).isEqualTo(midi(each.phrase()));
          assertThat(each.made().bars()).hasSize(each.phrase().bars().size() + 1);
          long silent =
              each.made().bars().stream()
                  .filter(
                      bar ->
                          each.made().notes().stream()
                              .noneMatch(
                                  note ->
                                      note.onset().isBefore(bar.end())
                                          && note.end().isAfter(bar.onset())))
                  .count();
          assertThat(silent).isEqualTo(1);
          for (int i = 0; i < each.made().notes().size(); i++) {
            Fraction by =
                each.made().notes().get(i).onset().minus(each.phrase().notes().get(i).onset());
            assertThat(by).isIn(Fraction.ZERO, Fraction.of(4));
          }
        });
  }

  @Test
  void endingsChangeTheLastNoteAloneAndLandOnTheDegree() {
    for (var wanted :
        List.of(
            List.of(Exercise.Kind.ON_ROOT, Set.of("1")),
            List.of(Exercise.Kind.ON_THIRD, Set.of("3", "b3")),
            List.of(Exercise.Kind.ON_FIFTH, Set.of("5", "b5")),
            List.of(Exercise.Kind.ON_SEVENTH, Set.of("7", "b7")))) {
      forAll(
          Set.of((Exercise.Kind) wanted.get(0)),
          each -> {
            int last = midi(each.made()).size() - 1;
            assertThat(midi(each.made()).subList(0, last))
                .isEqualTo(midi(each.phrase()).subList(0, last));
            Note note = each.made().last();
            ChordSpan chord =
                each.made().chords().stream()
                    .filter(span -> !span.onset().isAfter(note.onset()))
                    .reduce((a, b) -> b)
                    .orElseThrow();
            assertThat((Set<?>) wanted.get(1))
                .anyMatch(
                    name ->
                        name.equals(chord.concert().degreeOf(note.concert()).orElseThrow().name()));
          });
    }
  }

  @Test
  void inAnotherKeyEveryIntervalAndEveryChordMovesAlong() {
    forAll(
        Set.of(Exercise.Kind.OTHER_KEY),
        each -> {
          int by = midi(each.made()).get(0) - midi(each.phrase()).get(0);
          assertThat(by).isIn(5, -7);
          assertThat(midi(each.made()))
              .isEqualTo(midi(each.phrase()).stream().map(midi -> midi + by).toList());
          for (int i = 0; i < each.made().chords().size(); i++) {
            assertThat(each.made().chords().get(i).written().pitchClasses())
                .containsExactlyInAnyOrderElementsOf(
                    each.phrase().chords().get(i).written().pitchClasses().stream()
                        .map(pitch -> Math.floorMod(pitch + by, 12))
                        .toList());
          }
        });
  }

  /** C5 B4 A4 G4 over G7: the nearest third of G7 to the last note is the B above it. */
  @Test
  void thePhraseEndsOnTheNearestThird() {
    List<Note> notes = new ArrayList<>();
    for (int midi : new int[] {72, 71, 69, 67}) {
      notes.add(Note.plain(notes.size(), Fraction.of(notes.size()), Fraction.ONE, pitch(midi), 0));
    }
    Passage plain = passage(notes, Transposition.NONE, new Random(1));
    ChordSpan seventh = new ChordSpan(Fraction.ZERO, Fraction.of(4), chord("G7"), chord("G7"), "");
    Passage phrase = new Passage(plain.bars(), notes, List.of(seventh), 0, Transposition.NONE);

    List<Exercise> made = Exercises.of(phrase, RANGE);

    assertThat(made.get(Exercise.Kind.ON_THIRD.ordinal()).passage().orElseThrow().last().written())
        .hasToString("B4");
    assertThat(
            made.get(Exercise.Kind.ON_SEVENTH.ordinal()).passage().orElseThrow().last().written())
        .hasToString("F4");
    assertThat(made.get(Exercise.Kind.ON_ROOT.ordinal()).isMade()).as("it ends there").isFalse();
    assertThat(made.get(Exercise.Kind.EIGHTHS.ordinal()).limit()).isEqualTo(Limit.VALUE);
  }
}
