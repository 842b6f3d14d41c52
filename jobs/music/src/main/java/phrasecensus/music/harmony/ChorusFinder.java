package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Finds where the choruses of a solo begin: how many bars it takes until the chords come round, and
 * on which bar they begin.
 */
public final class ChorusFinder {
  /** Shortest and longest chorus looked for, in bars. */
  static final int SHORTEST = 8;

  static final int LONGEST = 72;

  /** Least share of half bars whose root comes back after one chorus. */
  static final double LEAST_AGREEMENT = 0.75;

  /** How much less than the best agreement a shorter chorus may have. */
  static final double SLACK = 0.04;

  /** The same share where fewer than three choruses are heard. */
  static final double LEAST_AGREEMENT_OF_TWO = 0.9;

  /** The same share of a chorus that may be half of a song. */
  static final double LEAST_AGREEMENT_SHORT = 0.8;

  /** A chorus of so many bars is no half of a song. */
  static final int LONG = 24;

  /** So many bars less than three choruses still count as three: the end is often cut short. */
  private static final int LEEWAY = 2;

  private static final Pattern INTRODUCTION =
      Pattern.compile("(?i)(i|in|intro|introduction)[ .]*\\d*");

  private ChorusFinder() {}

  /** What told the length of the chorus. */
  public enum Source {
    /** The fixed points of a twelve-bar blues. */
    BLUES,
    /** The chords come round. */
    CHORD_CYCLE,
    /** People say how many bars it has. */
    STATED;

    /** The word in tables: lower case with hyphens, as in {@code chord-cycle}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * The choruses of a solo.
   *
   * @param bars in one chorus
   * @param onsets where choruses begin, in quarter notes from the start of the solo; the solo may
   *     begin inside a chorus, before the first of them
   * @param source what told the length
   * @param agreement share of what was compared that agrees, 0 to 1
   */
  public record Choruses(int bars, List<Fraction> onsets, Source source, double agreement) {
    public Choruses {
      onsets = List.copyOf(onsets);
    }
  }

  /**
   * The choruses, if the chords tell them.
   *
   * <p>A twelve-bar blues tells by itself, even in one chorus. Otherwise roots are compared at the
   * start and the middle of each bar with those a number of bars later: a length from {@value
   * #SHORTEST} to {@value #LONGEST} bars qualifies when at least {@value #LEAST_AGREEMENT} of them
   * agree and at least three quarters of a chorus are heard again, and the shortest within {@value
   * #SLACK} of the best is taken, so that two choruses do not count as one. Less heard asks for
   * more agreement, so that the halves of a song are not taken for choruses: under {@value #LONG}
   * bars unless a rehearsal mark's text comes back after as many, {@value #LEAST_AGREEMENT_SHORT}
   * where three choruses are heard ({@value #LEAST_AGREEMENT_OF_TWO} for {@value #SHORTEST} bars)
   * and every chord with its quality where two are; for longer ones {@value
   * #LEAST_AGREEMENT_OF_TWO} where two are. A chorus begins at a rehearsal mark whose text comes
   * back one chorus later: one with the text of the first mark that is no introduction (I, In,
   * Intro with or without a number) if such a one does, so that a section that the solo enters late
   * still begins the chorus; else at the first mark that does; else at the first mark that is no
   * introduction; else at the first full bar. A mark on a pickup belongs to the full bar after it:
   * choruses begin on full bars. Empty where one chord or a vamp of less than {@value #SHORTEST}
   * bars goes on throughout, where the solo is too short or where nothing comes back.
   */
  public static Optional<Choruses> find(Solo solo) {
    List<Bar> bars = BluesForm.fullBars(solo);
    Optional<BluesForm> blues = BluesForm.find(solo);
    if (blues.isPresent()) {
      return Optional.of(
          new Choruses(
              BluesForm.BARS,
              onsets(bars, blues.get().firstBar(), BluesForm.BARS),
              Source.BLUES,
              blues.get().fit()));
    }
    Chord[] chords = chordsAtHalfBars(solo, bars);
    int[] roots = roots(chords);
    int length = length(solo, bars, roots, chords);
    return length == 0
        ? Optional.empty()
        : Optional.of(
            new Choruses(
                length,
                onsets(bars, firstBar(solo, bars, length), length),
                Source.CHORD_CYCLE,
                agreement(roots, length)));
  }

  /** The number of bars after which the chords come round; 0 where they do not tell. */
  private static int length(Solo solo, List<Bar> bars, int[] roots, Chord[] chords) {
    double best = 0;
    double[] agreement = new double[LONGEST + 1];
    for (int length = SHORTEST; length <= LONGEST; length++) {
      int overlap = bars.size() - length;
      if (overlap < Math.max(SHORTEST, 3 * length / 4)) {
        break;
      }
      agreement[length] = agreement(roots, length);
      best = Math.max(best, agreement[length]);
    }
    if (best < LEAST_AGREEMENT || !changes(roots) || isVamp(roots, best)) {
      return 0;
    }
    int found = SHORTEST;
    while (agreement[found] < Math.max(LEAST_AGREEMENT, best - SLACK)) {
      found++;
    }
    boolean often = bars.size() >= 3 * found - LEEWAY;
    double least =
        returns(solo, bars, found) || often && found >= LONG
            ? LEAST_AGREEMENT
            : found >= LONG || often && found == SHORTEST
                ? LEAST_AGREEMENT_OF_TWO
                : often ? LEAST_AGREEMENT_SHORT : 1;
    boolean told =
        least < 1
            ? agreement[found] >= least
            : bars.size() >= 2 * found - LEEWAY && isTheSame(chords, found);
    return told ? found : 0;
  }

  /** True where every chord comes back with its quality after so many bars. */
  private static boolean isTheSame(Chord[] chords, int bars) {
    for (int i = 0; i + 2 * bars < chords.length; i++) {
      Chord first = chords[i];
      Chord again = chords[i + 2 * bars];
      if (first != null && again != null && first.isChangeFrom(again)) {
        return false;
      }
    }
    return true;
  }

  /**
   * True where fewer bars than a chorus come round as well: a vamp or a turnaround, over and over.
   */
  private static boolean isVamp(int[] roots, double best) {
    for (int bars = 1; bars < SHORTEST; bars++) {
      if (2 * bars < roots.length && agreement(roots, bars) >= best - SLACK / 2) {
        return true;
      }
    }
    return false;
  }

  /** True where the text of a rehearsal mark comes back after so many bars. */
  private static boolean returns(Solo solo, List<Bar> bars, int length) {
    List<Mark> marks = sectionMarks(solo);
    int[] places = places(marks, bars);
    for (int i = 0; i < places.length; i++) {
      if (comesBack(marks, places, i, length)) {
        return true;
      }
    }
    return false;
  }

  /**
   * Choruses of a length that people state, from the bar where rehearsal marks let one begin, else
   * from the first full bar; empty without a full bar.
   *
   * @param length in bars, at least 1
   */
  public static Optional<Choruses> ofLength(Solo solo, int length) {
    List<Bar> bars = BluesForm.fullBars(solo);
    return bars.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Choruses(
                length, onsets(bars, firstBar(solo, bars, length), length), Source.STATED, 1));
  }

  private static double agreement(int[] roots, int bars) {
    int compared = 0;
    int equal = 0;
    for (int i = 0; i + 2 * bars < roots.length; i++) {
      if (roots[i] >= 0 && roots[i + 2 * bars] >= 0) {
        compared++;
        equal += roots[i] == roots[i + 2 * bars] ? 1 : 0;
      }
    }
    return compared == 0 ? 0 : (double) equal / compared;
  }

  private static boolean changes(int[] roots) {
    int first = -1;
    for (int root : roots) {
      if (first < 0) {
        first = root;
      } else if (root >= 0 && root != first) {
        return true;
      }
    }
    return false;
  }

  /** Chords at the start and the middle of each bar; null where none holds. */
  private static Chord[] chordsAtHalfBars(Solo solo, List<Bar> bars) {
    List<ChordSpan> spans = solo.chords();
    Chord[] chords = new Chord[2 * bars.size()];
    int at = -1;
    for (int i = 0; i < chords.length; i++) {
      Bar bar = bars.get(i / 2);
      Fraction moment =
          i % 2 == 0 ? bar.onset() : bar.onset().plus(bar.length().times(Fraction.HALF));
      while (at + 1 < spans.size() && !spans.get(at + 1).onset().isAfter(moment)) {
        at++;
      }
      chords[i] = at >= 0 && moment.isBefore(spans.get(at).end()) ? spans.get(at).concert() : null;
    }
    return chords;
  }

  /** Pitch classes of roots; -1 where there is none. */
  private static int[] roots(Chord[] chords) {
    int[] roots = new int[chords.length];
    for (int i = 0; i < roots.length; i++) {
      roots[i] = chords[i] == null || chords[i].root() == null ? -1 : chords[i].root().pitchClass();
    }
    return roots;
  }

  private static int firstBar(Solo solo, List<Bar> bars, int length) {
    List<Mark> marks = sectionMarks(solo);
    if (marks.isEmpty()) {
      return 0;
    }
    int[] places = places(marks, bars);
    String first = marks.get(0).text();
    int found = -1;
    for (int i = 0; i < places.length; i++) {
      String text = marks.get(i).text();
      if (comesBack(marks, places, i, length)) {
        if (text.equals(first)) {
          return places[i] % length;
        }
        found = found < 0 ? i : found;
      }
    }
    return places[Math.max(found, 0)] % length;
  }

  /** Rehearsal marks that name no introduction. */
  private static List<Mark> sectionMarks(Solo solo) {
    return solo.marks().stream()
        .filter(mark -> mark.kind() == Mark.Kind.REHEARSAL && !isIntroduction(mark.text()))
        .toList();
  }

  /** Index of the bar in which each mark stands. */
  private static int[] places(List<Mark> marks, List<Bar> bars) {
    int[] places = new int[marks.size()];
    int bar = 0;
    for (int i = 0; i < places.length; i++) {
      while (bar + 1 < bars.size() && !bars.get(bar + 1).onset().isAfter(marks.get(i).onset())) {
        bar++;
      }
      places[i] = bar;
    }
    return places;
  }

  /** True for the text of a rehearsal mark that names an introduction. */
  public static boolean isIntroduction(String text) {
    return INTRODUCTION.matcher(text).matches();
  }

  private static boolean comesBack(List<Mark> marks, int[] places, int index, int length) {
    for (int i = index + 1; i < places.length && places[i] - places[index] <= length; i++) {
      if (places[i] - places[index] == length
          && marks.get(i).text().equals(marks.get(index).text())) {
        return true;
      }
    }
    return false;
  }

  private static List<Fraction> onsets(List<Bar> bars, int firstBar, int length) {
    List<Fraction> onsets = new ArrayList<>();
    for (int i = firstBar; i < bars.size(); i += length) {
      onsets.add(bars.get(i).onset());
    }
    return onsets;
  }
}
