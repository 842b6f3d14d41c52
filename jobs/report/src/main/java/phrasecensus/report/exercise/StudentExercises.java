package phrasecensus.report.exercise;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import phrasecensus.music.exercise.Exercise;
import phrasecensus.music.exercise.Exercises;
import phrasecensus.music.exercise.Passage;
import phrasecensus.music.exercise.Range;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;

/**
 * What can be made of one phrase of a student.
 *
 * @param solo that the phrase is of
 * @param phrase where it stands
 * @param source the phrase itself
 * @param exercises every transformation, made or not
 */
public record StudentExercises(
    StudentSolo solo, SoloLine.PhraseSpan phrase, Passage source, List<Exercise> exercises) {
  /** A phrase to work on is no scrap and fits into a breath (common practice, no source). */
  private static final double SHORTEST = 1.5;

  private static final double LONGEST = 4.5;
  private static final int FEWEST_NOTES = 5;

  public StudentExercises {
    exercises = List.copyOf(exercises);
  }

  /**
   * The phrase of a solo of which most can be made; of equal ones the first.
   *
   * @return empty where no phrase suits
   */
  public static Optional<StudentExercises> best(StudentSolo solo) {
    StudentExercises best = null;
    for (SoloLine.PhraseSpan phrase : solo.line().phrases()) {
      boolean suits =
          phrase.notes() >= FEWEST_NOTES
              && phrase.lengthBars() != null
              && phrase.lengthBars() >= SHORTEST
              && phrase.lengthBars() <= LONGEST;
      StudentExercises made = suits ? of(solo, phrase).orElse(null) : null;
      if (made != null && made.count() > (best == null ? 0 : best.count())) {
        best = made;
      }
    }
    return Optional.ofNullable(best);
  }

  /** What can be made of a phrase; empty where its bars or notes cannot be taken. */
  public static Optional<StudentExercises> of(StudentSolo solo, SoloLine.PhraseSpan phrase) {
    return PhrasePassage.of(solo.line(), phrase)
        .map(
            passage ->
                new StudentExercises(solo, phrase, passage, Exercises.of(passage, range(solo))));
  }

  /** The usual range of the instrument, and whatever the student has played beyond it. */
  private static Range range(StudentSolo solo) {
    Instrument known = instrument(solo).orElse(null);
    int lowest = known == null ? Integer.MAX_VALUE : known.lowest();
    int highest = known == null ? Integer.MIN_VALUE : known.highest();
    boolean sounding = solo.line().notes().stream().noneMatch(SoloLine.Tone::transposed);
    if (known != null && sounding) {
      lowest += known.transposition().semitones();
      highest += known.transposition().semitones();
    }
    for (SoloLine.Tone note : solo.line().notes()) {
      lowest = Math.min(lowest, note.midiWritten());
      highest = Math.max(highest, note.midiWritten());
    }
    return new Range(lowest, highest);
  }

  private static Optional<Instrument> instrument(StudentSolo solo) {
    return Instrument.named(solo.facts().instrument() == null ? "" : solo.facts().instrument());
  }

  /** The instrument of the solo; concert pitch where it is not known. */
  public Instrument player() {
    return instrument(solo).orElse(Instrument.CONCERT);
  }

  private long count() {
    return exercises.stream().filter(Exercise::isMade).count();
  }

  /** Which phrase it is, in words. */
  public String own() {
    return phrase.firstBar().equals(phrase.lastBar())
        ? Text.of("exercise.own.bar", FileText.printable(phrase.firstBar()))
        : Text.of(
            "exercise.own",
            FileText.printable(phrase.firstBar()),
            FileText.printable(phrase.lastBar()));
  }

  /** What an exercise is, in words. */
  public String caption(Exercise exercise) {
    if (exercise.kind() == Exercise.Kind.OTHER_KEY) {
      int by =
          exercise.passage().orElseThrow().first().written().midi()
              - source.first().written().midi();
      return Text.of(by > 0 ? "exercise.key.higher" : "exercise.key.lower");
    }
    return Text.of("exercise.made." + word(exercise));
  }

  private static String word(Exercise exercise) {
    return exercise.kind().name().toLowerCase(Locale.ROOT).replace('_', '.');
  }

  /** What was not made because it would not be singable, and why; empty for nothing. */
  public String leftOut() {
    Map<String, List<String>> byReason = new LinkedHashMap<>();
    for (Exercise exercise : exercises) {
      if (exercise.limit() != null) {
        String limit = exercise.limit().name().toLowerCase(Locale.ROOT).replace('_', '.');
        byReason
            .computeIfAbsent(Text.of("exercise.limit." + limit), any -> new ArrayList<>())
            .add(Text.of("exercise.name." + word(exercise)));
      }
    }
    List<String> parts = new ArrayList<>();
    byReason.forEach(
        (why, which) -> parts.add(Text.of("exercise.left", String.join(", ", which), why)));
    return String.join(" ", parts);
  }

  /**
   * All of it as a sheet, the phrase itself first.
   *
   * @param title of the sheet
   */
  public Sheet sheet(String title) {
    Assembly assembly = new Assembly(tempo());
    assembly.add(own(), source);
    for (Exercise exercise : exercises) {
      exercise.passage().ifPresent(passage -> assembly.add(caption(exercise), passage));
    }
    return assembly.sheet(title, player());
  }

  /**
   * What a page has room for: of the endings only the first.
   *
   * @return empty where nothing could be made
   */
  public Optional<Sheet> few() {
    Assembly assembly = new Assembly(tempo());
    boolean ends = false;
    for (Exercise exercise : exercises) {
      boolean ending = exercise.kind().isEnding();
      if (exercise.isMade() && !(ending && ends)) {
        assembly.add(caption(exercise), exercise.passage().orElseThrow());
        ends |= ending;
      }
    }
    return assembly.stretches.isEmpty()
        ? Optional.empty()
        : Optional.of(assembly.sheet(Text.of("exercise.heading"), player()));
  }

  private Double tempo() {
    return phrase.quartersPerMinute() != null ? phrase.quartersPerMinute() : solo.facts().tempo();
  }

  /** Puts one passage after the other. */
  private static final class Assembly {
    private final Double tempo;
    private final List<Bar> bars = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();
    private final List<ChordSpan> chords = new ArrayList<>();
    private final List<KeyChange> keys = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private final List<Sheet.Stretch> stretches = new ArrayList<>();
    private final Map<Integer, String> lastDegrees = new HashMap<>();
    private Fraction reached = Fraction.ZERO;

    Assembly(Double tempo) {
      this.tempo = tempo;
    }

    void add(String caption, Passage passage) {
      int first = bars.size();
      if (passage.signature() != null) {
        Integer written = passage.signature();
        Integer concert = written + passage.instrument().fifths();
        boolean same = !keys.isEmpty() && written.equals(keys.get(keys.size() - 1).writtenFifths());
        if (!same) {
          keys.add(new KeyChange(reached, concert, written, null));
        }
      }
      for (Bar bar : passage.bars()) {
        bars.add(
            new Bar(
                bars.size(),
                String.valueOf(bars.size() + 1),
                bar.onset().plus(reached),
                bar.length(),
                bar.metre(),
                bar.metricalOffset(),
                false));
      }
      for (Note note : passage.notes()) {
        notes.add(
            new Note(
                notes.size(),
                note.onset().plus(reached),
                note.length(),
                note.concert(),
                note.written(),
                first + note.barIndex(),
                note.tiedLengths(),
                0,
                false,
                List.of()));
      }
      for (ChordSpan chord : passage.chords()) {
        chords.add(
            new ChordSpan(
                chord.onset().plus(reached),
                chord.end().plus(reached),
                chord.concert(),
                chord.written(),
                ""));
        boolean holds =
            !chord.onset().isAfter(passage.last().onset())
                && chord.end().isAfter(passage.last().onset());
        if (holds) {
          chord
              .concert()
              .degreeOf(passage.last().concert())
              .ifPresent(degree -> lastDegrees.put(notes.size() - 1, degree.name()));
        }
      }
      stretches.add(new Sheet.Stretch(first, bars.size() - 1, caption, false));
      reached = reached.plus(passage.end());
      marks.add(new Mark(Mark.Kind.DOUBLE_BAR, reached, reached, ""));
    }

    Sheet sheet(String title, Instrument player) {
      String part = player.label();
      Solo solo =
          new Solo(
              new SoloDescription(title, Map.of(), Map.of(), "P1", part, part, "", ""),
              bars,
              notes,
              List.of(),
              chords,
              keys,
              tempo == null ? List.of() : List.of(new TempoChange(Fraction.ZERO, tempo)),
              marks,
              List.of(),
              List.of());
      return new Sheet(solo, stretches, lastDegrees, List.of(), Map.of());
    }
  }
}
