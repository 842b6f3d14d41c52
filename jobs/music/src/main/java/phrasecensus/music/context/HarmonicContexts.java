package phrasecensus.music.context;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.context.HarmonicContext.Kind;
import phrasecensus.music.context.HarmonicContext.Mode;
import phrasecensus.music.context.HarmonicContext.Part;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.harmony.BluesForm;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Finds harmonic contexts by roots and qualities. All of it is common practice, no source.
 *
 * <p>Chords that follow each other without a gap on one root and of one quality are one chord, and
 * so are a suspended chord and the dominant on its root. N.C., chords of unknown content and gaps
 * part.
 *
 * <ul>
 *   <li><b>ii-V</b>: a minor triad or seventh (or half-diminished, then minor), and a fourth above
 *       it a dominant or suspended chord; a plain major triad is a V where the tonal centre is its
 *       tonic. Each at most four bars. Where the chord a fifth below follows as a tonic it is a
 *       <b>ii-V-I</b>, of the tonic's mode, and no ii-V; of a longer tonic the first four bars
 *       count. A minor seventh that is the ii of a further ii-V is a tonic only where the tonal
 *       centre is its root; a dominant seventh only where the tonal centre is a blues on its root.
 *   <li><b>I-vi-ii-V</b>: chords on 1 6 2 5 of a key, each at most two bars; the 6 and the 2 minor,
 *       half-diminished or dominant, the 1 a tonic.
 *   <li><b>turnaround</b>: four chords within four bars, directly followed by the tonic: 1 or 3,
 *       then 6 2 5, or a chord a semitone or a minor third above the tonic in place of the 6; or 1
 *       ♭3 ♭6 ♭2.
 *   <li><b>blues bars</b>: bars 1 to 4, 5 to 8 and 9 to 12 of a chorus of a {@link BluesForm};
 *       those that the solo leaves out in part are not.
 *   <li><b>vamp</b>: one chord for eight bars or more; or two chords in turn, four or more, each at
 *       most two bars, for eight bars or more, unless one is the dominant of the other.
 * </ul>
 *
 * Substitutes of the V are left out. A chord may belong to several contexts of different kinds.
 */
public final class HarmonicContexts {
  private static final int LONGEST_OF_CADENCE = 4;
  private static final int LONGEST_OF_FOUR = 2;
  private static final int LONGEST_TURNAROUND = 4;
  private static final int SHORTEST_VAMP = 8;
  private static final int LONGEST_OF_VAMP = 2;
  private static final int FEWEST_OF_VAMP = 4;
  private static final String[] NAMES = {
    "I", "bII", "ii", "bIII", "iii", "IV", "#IV", "V", "bVI", "vi", "bVII", "VII"
  };

  private final Solo solo;
  private final List<TonalCentreSpan> centres;
  private final List<Run> runs = new ArrayList<>();
  private final List<HarmonicContext> found = new ArrayList<>();

  private HarmonicContexts(Solo solo, List<TonalCentreSpan> centres) {
    this.solo = solo;
    this.centres = centres;
  }

  /** Third, fifth and what a chord does, coarser than its class. */
  private enum Sound {
    MAJOR,
    DOMINANT,
    SUSPENDED,
    MINOR,
    HALF_DIMINISHED,
    DIMINISHED
  }

  /** A chord as it is heard, whatever symbols repeat or colour it. */
  private record Run(
      int root,
      Sound sound,
      boolean seventh,
      boolean sixth,
      boolean triad,
      Fraction onset,
      Fraction end,
      int firstChord,
      int lastChord) {
    boolean isMinorTwo() {
      return sound == Sound.MINOR && (seventh || triad) || sound == Sound.HALF_DIMINISHED;
    }

    boolean isDominant() {
      return sound == Sound.DOMINANT || sound == Sound.SUSPENDED;
    }

    boolean isTwo() {
      return isMinorTwo() || sound == Sound.DOMINANT;
    }
  }

  /**
   * The contexts of a solo, in order of onset, then of kind. Linear in chords and bars.
   *
   * @param centres covering the solo without gaps, in order
   */
  public static List<HarmonicContext> find(
      Solo solo, List<TonalCentreSpan> centres, SoloForm form) {
    HarmonicContexts contexts = new HarmonicContexts(solo, centres);
    contexts.fillRuns();
    contexts.findCadences();
    contexts.findFours();
    contexts.findBluesBars(form);
    contexts.findVamps();
    contexts.found.sort(
        Comparator.comparing(HarmonicContext::onset).thenComparing(HarmonicContext::kind));
    return List.copyOf(contexts.found);
  }

  private void fillRuns() {
    List<ChordSpan> spans = solo.chords();
    for (int i = 0; i < spans.size(); i++) {
      ChordSpan span = spans.get(i);
      Chord chord = span.concert();
      Optional<ChordClass> chordClass = chord.chordClass();
      if (chordClass.isEmpty() || !span.length().isPositive()) {
        continue;
      }
      Run run = run(i, span, chord.root().pitchClass(), chordClass.get());
      Run last = runs.isEmpty() ? null : runs.get(runs.size() - 1);
      Sound both = last == null ? null : sound(last, run);
      if (both == null) {
        runs.add(run);
      } else {
        runs.set(
            runs.size() - 1,
            new Run(
                run.root(),
                both,
                last.seventh() || run.seventh(),
                last.sixth() || run.sixth(),
                last.triad() || run.triad(),
                last.onset(),
                run.end(),
                last.firstChord(),
                i));
      }
    }
  }

  private static Run run(int index, ChordSpan span, int root, ChordClass chordClass) {
    Sound sound =
        switch (chordClass) {
          case MAJ, MAJ6, MAJ7 -> Sound.MAJOR;
          case DOM7 -> Sound.DOMINANT;
          case SUS -> Sound.SUSPENDED;
          case MIN, MIN6, MIN7, MINMAJ7 -> Sound.MINOR;
          case HDIM7 -> Sound.HALF_DIMINISHED;
          case DIM -> Sound.DIMINISHED;
        };
    return new Run(
        root,
        sound,
        chordClass == ChordClass.MIN7 || chordClass == ChordClass.MAJ7,
        chordClass == ChordClass.MIN6
            || chordClass == ChordClass.MAJ6
            || chordClass == ChordClass.MINMAJ7,
        chordClass == ChordClass.MIN || chordClass == ChordClass.MAJ,
        span.onset(),
        span.end(),
        index,
        index);
  }

  /** The sound of two chords that are one; null where they are two. */
  private static Sound sound(Run first, Run second) {
    if (first.root() != second.root() || !first.end().equals(second.onset())) {
      return null;
    }
    return first.sound() == second.sound()
        ? first.sound()
        : first.isDominant() && second.isDominant() ? Sound.DOMINANT : null;
  }

  /** The run after another one without a gap; null where there is none. */
  private Run next(int index) {
    return index + 1 < runs.size() && runs.get(index).end().equals(runs.get(index + 1).onset())
        ? runs.get(index + 1)
        : null;
  }

  private static boolean isAbove(Run upper, Run lower, int semitones) {
    return Math.floorMod(upper.root() - lower.root(), 12) == semitones;
  }

  private TonalCentre centreAt(Fraction moment) {
    int low = 0;
    int high = centres.size() - 1;
    if (high < 0) {
      return TonalCentre.UNKNOWN;
    }
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (centres.get(middle).onset().isAfter(moment)) {
        high = middle - 1;
      } else {
        low = middle;
      }
    }
    return centres.get(low).centre();
  }

  private boolean isCentre(int root, Fraction moment) {
    TonalCentre centre = centreAt(moment);
    return centre.isKnown() && centre.tonic() == root;
  }

  /** True when a chord is no longer than so many bars of the metre that it begins in. */
  private boolean isWithin(Fraction onset, Fraction end, int bars) {
    return !end.minus(onset).isAfter(barLength(onset).times(bars));
  }

  private Fraction barLength(Fraction moment) {
    Bar bar = solo.barAt(moment);
    return bar.metre().isFree() ? bar.length() : bar.metre().barLength();
  }

  /** True when the second goes as V after the first as ii. */
  private boolean isTwoFive(Run two, Run five) {
    if (!two.isMinorTwo() || five == null || !isAbove(five, two, 5)) {
      return false;
    }
    boolean plainTriad = five.sound() == Sound.MAJOR && !five.seventh() && !five.sixth();
    return (five.isDominant()
            || plainTriad && isCentre(Math.floorMod(five.root() - 7, 12), five.onset()))
        && isWithin(two.onset(), two.end(), LONGEST_OF_CADENCE)
        && isWithin(five.onset(), five.end(), LONGEST_OF_CADENCE);
  }

  /** The mode of a chord as a tonic; null where it is none. */
  private Mode tonicMode(int index) {
    Run run = runs.get(index);
    return switch (run.sound()) {
      case MAJOR -> Mode.MAJOR;
      case MINOR ->
          !run.seventh()
                  || run.sixth()
                  || !isTwoFive(run, next(index))
                  || isCentre(run.root(), run.onset())
              ? Mode.MINOR
              : null;
      case DOMINANT ->
          centreAt(run.onset()).mode() == TonalCentre.Mode.BLUES
                  && isCentre(run.root(), run.onset())
              ? Mode.BLUES
              : null;
      case SUSPENDED, HALF_DIMINISHED, DIMINISHED -> null;
    };
  }

  private void findCadences() {
    for (int i = 0; i < runs.size(); i++) {
      Run two = runs.get(i);
      Run five = next(i);
      if (!isTwoFive(two, five)) {
        continue;
      }
      int tonic = Math.floorMod(five.root() - 7, 12);
      Run one = next(i + 1);
      Mode mode = one != null && isAbove(one, five, 5) ? tonicMode(i + 2) : null;
      List<Part> parts = new ArrayList<>(List.of(part("ii", two), part("V", five)));
      if (mode == null) {
        add(
            Kind.II_V,
            two.sound() == Sound.HALF_DIMINISHED ? Mode.MINOR : Mode.MAJOR,
            tonic,
            two.onset(),
            five.end(),
            parts);
      } else {
        Fraction end =
            Fraction.smaller(
                one.end(), one.onset().plus(barLength(one.onset()).times(LONGEST_OF_CADENCE)));
        parts.add(new Part("I", one.onset(), end, one.firstChord(), one.lastChord()));
        add(Kind.II_V_I, mode, tonic, two.onset(), end, parts);
      }
    }
  }

  private static Part part(String place, Run run) {
    return new Part(place, run.onset(), run.end(), run.firstChord(), run.lastChord());
  }

  private void findFours() {
    for (int i = 0; i + 3 < runs.size(); i++) {
      if (next(i) == null || next(i + 1) == null || next(i + 2) == null) {
        continue;
      }
      List<Run> four = runs.subList(i, i + 4);
      int tonic = Math.floorMod(four.get(3).root() - 7, 12);
      if (isOneSixTwoFive(i, four, tonic)) {
        addFour(Kind.I_VI_II_V, tonicMode(i), tonic, four);
      }
      if (next(i + 3) == null
          || !isWithin(four.get(0).onset(), four.get(3).end(), LONGEST_TURNAROUND)) {
        continue;
      }
      Mode mode = tonicMode(i + 4);
      int follows = runs.get(i + 4).root();
      if (mode != null && isTurnaround(i, four, follows)) {
        addFour(Kind.TURNAROUND, mode, follows, four);
      }
    }
  }

  private void addFour(Kind kind, Mode mode, int tonic, List<Run> four) {
    add(
        kind,
        mode,
        tonic,
        four.get(0).onset(),
        four.get(3).end(),
        four.stream().map(run -> part(NAMES[Math.floorMod(run.root() - tonic, 12)], run)).toList());
  }

  private boolean isOneSixTwoFive(int index, List<Run> four, int tonic) {
    return tonicMode(index) != null
        && four.get(0).root() == tonic
        && above(four.get(1), tonic) == 9
        && four.get(1).isTwo()
        && above(four.get(2), tonic) == 2
        && four.get(2).isTwo()
        && four.get(3).isDominant()
        && four.stream().allMatch(run -> isWithin(run.onset(), run.end(), LONGEST_OF_FOUR));
  }

  private static int above(Run run, int tonic) {
    return Math.floorMod(run.root() - tonic, 12);
  }

  private boolean isTurnaround(int index, List<Run> four, int tonic) {
    boolean fromOne = above(four.get(0), tonic) == 0 && tonicMode(index) != null;
    boolean fromThree = above(four.get(0), tonic) == 4 && four.get(0).isTwo();
    boolean usual =
        (fromOne || fromThree)
            && switch (above(four.get(1), tonic)) {
              case 9 -> four.get(1).isTwo();
              case 1, 3 -> true;
              default -> false;
            }
            && above(four.get(2), tonic) == 2
            && four.get(2).isTwo()
            && above(four.get(3), tonic) == 7
            && four.get(3).isDominant();
    boolean bySubstitutes =
        fromOne
            && above(four.get(1), tonic) == 3
            && above(four.get(2), tonic) == 8
            && above(four.get(3), tonic) == 1
            && four.subList(1, 4).stream()
                .allMatch(run -> run.sound() == Sound.MAJOR || run.isDominant());
    return usual || bySubstitutes;
  }

  private void findBluesBars(SoloForm form) {
    if (form.choruses().filter(choruses -> choruses.bars() == BluesForm.BARS).isEmpty()) {
      return;
    }
    Optional<BluesForm> blues = BluesForm.find(solo);
    if (blues.isEmpty()) {
      return;
    }
    Mode mode = blues.get().minor() ? Mode.MINOR : Mode.BLUES;
    List<Bar> bars = solo.bars();
    int i = 0;
    while (i < bars.size()) {
      int place = form.barInChorus(i);
      if (place == SoloForm.UNKNOWN || place % 4 != 1) {
        i++;
        continue;
      }
      int last = i;
      while (last + 1 < bars.size()
          && form.chorus(last + 1) == form.chorus(i)
          && form.barInChorus(last + 1) >= place
          && form.barInChorus(last + 1) <= place + 3) {
        last++;
      }
      if (form.barInChorus(last) == place + 3) {
        Kind kind =
            place == 1 ? Kind.BLUES_1_TO_4 : place == 5 ? Kind.BLUES_5_TO_8 : Kind.BLUES_9_TO_12;
        add(kind, mode, blues.get().tonic(), bars.get(i).onset(), bars.get(last).end(), List.of());
      }
      i = last + 1;
    }
  }

  private void findVamps() {
    int i = 0;
    while (i < runs.size()) {
      Run first = runs.get(i);
      if (isLong(first.onset(), first.end())) {
        addVamp(first, first.end());
        i++;
        continue;
      }
      int last = i;
      while (next(last) != null
          && isWithin(runs.get(last).onset(), runs.get(last).end(), LONGEST_OF_VAMP)
          && isWithin(next(last).onset(), next(last).end(), LONGEST_OF_VAMP)
          && (last == i
              ? !isDominantOf(first, next(last)) && !isDominantOf(next(last), first)
              : isSame(next(last), runs.get(last - 1)))) {
        last++;
      }
      if (last - i + 1 >= FEWEST_OF_VAMP && isLong(first.onset(), runs.get(last).end())) {
        addVamp(first, runs.get(last).end());
        i = last + 1;
      } else {
        i++;
      }
    }
  }

  private boolean isLong(Fraction onset, Fraction end) {
    return end.minus(onset).isAtLeast(barLength(onset).times(SHORTEST_VAMP))
        && barLength(onset).isPositive();
  }

  private static boolean isSame(Run first, Run second) {
    return first.root() == second.root() && first.sound() == second.sound();
  }

  private static boolean isDominantOf(Run five, Run one) {
    return isAbove(five, one, 7) && (five.isDominant() || five.sound() == Sound.MAJOR);
  }

  private void addVamp(Run first, Fraction end) {
    Mode mode =
        switch (first.sound()) {
          case MAJOR -> Mode.MAJOR;
          case DOMINANT, SUSPENDED -> Mode.BLUES;
          case MINOR, HALF_DIMINISHED, DIMINISHED -> Mode.MINOR;
        };
    add(Kind.VAMP, mode, first.root(), first.onset(), end, List.of());
  }

  private void add(
      Kind kind, Mode mode, int tonic, Fraction onset, Fraction end, List<Part> parts) {
    TonalCentre centre = centreAt(onset);
    found.add(
        new HarmonicContext(
            kind,
            mode,
            tonic,
            centre.isKnown() ? Math.floorMod(tonic - centre.tonic(), 12) : -1,
            onset,
            end,
            parts));
  }
}
