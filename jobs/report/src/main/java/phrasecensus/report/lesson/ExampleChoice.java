package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.difficulty.Difficulty;
import phrasecensus.music.difficulty.WrittenNote;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.StudentSolo;

/**
 * Chooses the phrase of a lesson sheet: one that does what the finding asks for, the student's own
 * when there is one, else one of the corpus, written for the student's instrument, range and level,
 * and in the key of the student's solo where major and minor agree. The rules are our own.
 */
public final class ExampleChoice {
  private static final int FEWEST_NOTES = 5;
  private static final double SHORTEST_THOUGHT = 1.5;

  /** Share of eighths from which on they carry a phrase. */
  private static final double CARRIED = 0.6;

  /** Of how many that do it equally well each solo takes another one. */
  private static final int IN_TURN = 3;

  /** How far beyond the notes that a student has played an example may go, in semitones. */
  private static final int REACH = 2;

  /** The hardest example for each level of tasks; one more where the student plays harder ones. */
  private static final int[] HARDEST_OF_LEVEL = {2, 3, 5};

  /** Fewest notes of a phrase by which the student's own level is told. */
  private static final int FEWEST_TO_JUDGE = 4;

  private final List<StudentSolo> own;
  private final StudentSolo newest;
  private final int level;
  private final MovedPhrase.Reader reader;
  private final Optional<Home> home;

  /**
   * @param own the student's solos, the newest last; at least one
   * @param level of tasks, 1 to 3
   */
  public ExampleChoice(List<StudentSolo> own, int level) {
    this.own = List.copyOf(own);
    this.newest = own.get(own.size() - 1);
    this.level = level;
    this.reader = reader(own);
    this.home = Home.of(newest.facts(), newest.line());
  }

  private static MovedPhrase.Reader reader(List<StudentSolo> own) {
    int lowest = Integer.MAX_VALUE;
    int highest = Integer.MIN_VALUE;
    int transposition = 0;
    String clef = null;
    for (StudentSolo solo : own) {
      for (SoloLine.Tone note : solo.line().notes()) {
        lowest = Math.min(lowest, note.midiWritten());
        highest = Math.max(highest, note.midiWritten());
        transposition = note.transposition();
      }
      if (!solo.line().bars().isEmpty() && solo.line().bars().get(0).staff().clef() != null) {
        clef = solo.line().bars().get(0).staff().clef();
      }
    }
    boolean silent = lowest > highest;
    return new MovedPhrase.Reader(
        transposition, silent ? 60 : lowest - REACH, silent ? 79 : highest + REACH, clef);
  }

  /** A solo of the corpus in which examples are looked for. */
  public record CorpusSolo(SoloFacts facts, LessonLine line) {}

  /** A candidate with how well it does it. */
  private record Found(Example example, int fit, double away) {}

  /**
   * The example for a finding.
   *
   * @param finding a word of the column {@code finding}
   * @param turn number of the solo: equally good ones take turns
   * @return empty where neither the student nor the corpus has one
   */
  public Optional<Example> of(String finding, List<CorpusSolo> corpus, int turn) {
    List<Found> found = new ArrayList<>();
    for (int i = own.size() - 1; i >= 0; i--) {
      StudentSolo solo = own.get(i);
      LessonLine line = LessonLine.of(solo.line());
      List<Stretch> fitting = fitting(finding, line);
      // One for all: a long solo may have thousands of such phrases.
      SoloLine drawn = fitting.isEmpty() ? null : line.drawn();
      for (Stretch stretch : fitting) {
        found.add(
            new Found(
                new Example(
                    true,
                    solo.facts(),
                    stretch,
                    new MovedPhrase(drawn, stretch.asPhrase(), difficulty(line, stretch), 0),
                    true),
                fit(stretch),
                Math.abs(stretch.bars() - 2)));
      }
      if (!found.isEmpty()) {
        return best(found, 0);
      }
    }
    int usual = HARDEST_OF_LEVEL[level - 1];
    int hardest = Math.max(usual, Math.min(usual + 1, ownLevel()));
    for (CorpusSolo solo : corpus) {
      List<Stretch> fitting = fitting(finding, solo.line());
      if (fitting.isEmpty()) {
        continue;
      }
      Optional<Home> theirs = Home.of(solo.facts(), solo.line().solo().atConcertPitch());
      boolean sameScale = sameScale(solo);
      for (Stretch stretch : fitting) {
        Example example = moved(solo, theirs, stretch);
        int beyond = Math.max(0, example.moved().difficulty().level() - hardest);
        if (beyond <= 1) {
          found.add(
              new Found(
                  example,
                  fit(stretch)
                      + (example.inHome() ? 2 : 0)
                      + (sameScale ? 2 : 0)
                      + (staysInSignature(example) ? 2 : 0)
                      + (solo.facts().metre().equals(newest.facts().metre()) ? 3 : 0)
                      - 4 * beyond
                      - Math.min(4, example.moved().outside()),
                  Math.abs(stretch.bars() - 2)));
        }
      }
    }
    return best(found, turn);
  }

  private static Optional<Example> best(List<Found> found, int turn) {
    List<Found> sorted =
        found.stream()
            .sorted(
                Comparator.comparingInt((Found each) -> -each.fit())
                    .thenComparingDouble(Found::away)
                    .thenComparing(each -> each.example().facts().soloId())
                    .thenComparing(each -> each.example().stretch().index()))
            .toList();
    if (sorted.isEmpty()) {
      return Optional.empty();
    }
    int equal = (int) sorted.stream().filter(each -> each.fit() == sorted.get(0).fit()).count();
    return Optional.of(sorted.get(Math.floorMod(turn, Math.min(IN_TURN, equal))).example());
  }

  private static List<Stretch> fitting(String finding, LessonLine line) {
    return line.stretches().stream().filter(stretch -> does(finding, stretch)).toList();
  }

  private static boolean does(String finding, Stretch stretch) {
    boolean whole =
        stretch.notes().size() >= FEWEST_NOTES
            && stretch.bars() >= LessonLine.SHORTEST_PHRASE - 1e-9
            && stretch.bars() <= LessonLine.LONGEST_PHRASE + 1e-9
            && stretch.notes().stream().noneMatch(SoloLine.Tone::isOutsideKey);
    return whole
        && switch (finding) {
          case "outside_key" -> stretch.notes().stream().allMatch(note -> note.inKey() != null);
          case "weak_landings" -> landsWell(stretch);
          case "long_notes" -> moves(stretch);
          case "no_breath", "fragments" -> stretch.bars() >= SHORTEST_THOUGHT - 1e-9;
          default -> landsWell(stretch) && moves(stretch) && stretch.bars() >= SHORTEST_THOUGHT;
        };
  }

  /** How much of the rest it does too. */
  private static int fit(Stretch stretch) {
    return (landsWell(stretch) ? 2 : 0)
        + (moves(stretch) ? 2 : 0)
        + (stretch.bars() >= SHORTEST_THOUGHT - 1e-9 && stretch.bars() <= 3 + 1e-9 ? 2 : 0);
  }

  private static boolean landsWell(Stretch stretch) {
    SoloLine.Resting resting = stretch.last().resting();
    return resting != null && Boolean.TRUE.equals(resting.onChordTone());
  }

  private static boolean moves(Stretch stretch) {
    long moving = stretch.notes().stream().filter(LessonLine::moves).count();
    return moving >= CARRIED * stretch.notes().size();
  }

  /** How hard a phrase is to read as the student wrote it. */
  private static Difficulty difficulty(LessonLine line, Stretch stretch) {
    SoloLine.BarSpan bar = line.solo().bars().get(stretch.firstBarIndex());
    int signature = bar.staff().keyWritten() == null ? 0 : bar.staff().keyWritten();
    return Difficulty.of(written(stretch), signature);
  }

  private static List<WrittenNote> written(Stretch stretch) {
    return stretch.notes().stream()
        .map(
            note -> {
              NoteName name = Home.name(note.nameWritten());
              int octave =
                  Math.floorDiv(note.midiWritten() - name.step().semitones() - name.alter(), 12);
              return new WrittenNote(
                  note.exactLength(), Pitch.of(name.step(), name.alter(), octave - 1));
            })
        .toList();
  }

  /**
   * @param theirs the key of the solo as it sounds
   */
  private Example moved(CorpusSolo solo, Optional<Home> theirs, Stretch stretch) {
    boolean inHome =
        home.isPresent() && theirs.isPresent() && home.get().isMinor() == theirs.get().isMinor();
    int fifths =
        inHome ? home.get().tonic().fifths() - theirs.get().tonic().fifths() : reader.fifths();
    int signature =
        inHome
            ? home.get().signature()
            : theirs.map(key -> near(key.signature() + reader.fifths())).orElse(0);
    return new Example(
        false,
        solo.facts(),
        stretch,
        MovedPhrase.of(solo.line(), stretch, reader, fifths, signature),
        inHome);
  }

  private static boolean staysInSignature(Example example) {
    return example.moved().difficulty().levels().get(Difficulty.Side.ACCIDENTALS)
        == Difficulty.EASIEST;
  }

  private boolean sameScale(CorpusSolo solo) {
    return Home.of(solo.facts(), solo.line().solo())
        .filter(theirs -> home.filter(own -> own.scale().equals(theirs.scale())).isPresent())
        .isPresent();
  }

  private static int near(int signature) {
    return signature > 6 ? signature - 12 : signature < -6 ? signature + 12 : signature;
  }

  /** The level at which half the student's phrases in the newest solo lie; 1 without any. */
  private int ownLevel() {
    List<Integer> levels = new ArrayList<>();
    LessonLine line = LessonLine.of(newest.line());
    for (Stretch stretch : line.stretches()) {
      if (stretch.notes().size() >= FEWEST_TO_JUDGE) {
        levels.add(difficulty(line, stretch).level());
      }
    }
    levels.sort(Comparator.naturalOrder());
    return levels.isEmpty() ? Difficulty.EASIEST : levels.get((levels.size() - 1) / 2);
  }
}
