package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.chord.ChordQuality;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Solo;

/**
 * The twelve-bar blues under a solo, told by its fixed points and its chords: tonic in bars 1, 7
 * (or the third degree in its place) and 11 (or a minor chord on the third degree), subdominant in
 * bar 5, over and over; another chord than the tonic in bar 9; in major, tonic or subdominant as a
 * dominant seventh somewhere, or else the plain tonic in bars 3 and 4 and the subdominant, or the
 * chord a semitone above it, in bar 6. Twelve bars alone make none. Common practice, no source.
 *
 * @param tonic 0 (C) to 11
 * @param minor true when most choruses begin with a minor chord
 * @param firstBar index of the first full bar, 0 to 11, on which a chorus begins
 * @param fit share of the fixed points that hold, 0 to 1
 */
public record BluesForm(int tonic, boolean minor, int firstBar, double fit) {
  /** Bars in a chorus. */
  public static final int BARS = 12;

  /**
   * Least share of the fixed points: on 220 solos with known forms every tune above it was a
   * twelve-bar blues, and below it lie other forms.
   */
  static final double LEAST_FIT = 0.85;

  /** Fewest fixed points that a verdict needs: one chorus. */
  private static final int FEWEST = 4;

  /**
   * The form, if the solo has it. Where rehearsal marks are written, a chorus must begin at one of
   * them or twelve bars from one; without marks on the first bar with a chord, or anywhere where
   * two choruses are heard. Ties go to the lower first bar, then to the lower tonic. Linear.
   */
  public static Optional<BluesForm> find(Solo solo) {
    List<Bar> bars = fullBars(solo);
    if (bars.size() < BARS - 1) {
      return Optional.empty();
    }
    int[] roots = new int[bars.size()];
    ChordClass[] classes = new ChordClass[bars.size()];
    chordsAtBars(solo, bars, roots, classes);
    BluesForm best = null;
    for (int firstBar : beginnings(solo, bars, roots)) {
      for (int tonic = 0; tonic < 12; tonic++) {
        BluesForm form = judge(roots, classes, firstBar, tonic);
        if (form != null && (best == null || form.fit() > best.fit())) {
          best = form;
        }
      }
    }
    return Optional.ofNullable(best);
  }

  private static BluesForm judge(int[] roots, ChordClass[] classes, int firstBar, int tonic) {
    int points = 0;
    int hits = 0;
    int beginnings = 0;
    int minorBeginnings = 0;
    int ninths = 0;
    int dominantNinths = 0;
    boolean seventh = false;
    int plain = 0;
    int plainHits = 0;
    for (int i = 0; i < roots.length; i++) {
      int above = roots[i] < 0 ? -1 : Math.floorMod(roots[i] - tonic, 12);
      int place = Math.floorMod(i - firstBar, BARS);
      if (above < 0) {
        continue;
      }
      seventh |= classes[i] == ChordClass.DOM7 && (above == 0 || above == 5);
      if (place == 2 || place == 3 || place == 5) {
        plain++;
        plainHits += place == 5 ? above == 5 || above == 6 ? 1 : 0 : above == 0 ? 1 : 0;
      }
      if (place == 8) {
        ninths++;
        dominantNinths += above == 0 ? 0 : 1;
      }
      if (place != 0 && place != 4 && place != 6 && place != 10) {
        continue;
      }
      points++;
      boolean hit =
          switch (place) {
            case 4 -> above == 5;
            case 6 -> above == 0 || above == 4;
            case 10 -> above == 0 || above == 4 && isMinor(classes[i]);
            default -> above == 0;
          };
      hits += hit ? 1 : 0;
      if (place == 0 && hit) {
        beginnings++;
        minorBeginnings += isMinor(classes[i]) ? 1 : 0;
      }
    }
    boolean minor = 2 * minorBeginnings > beginnings;
    double fit = (double) hits / points;
    return points < FEWEST
            || fit < LEAST_FIT
            || !minor && !seventh && plainHits < LEAST_FIT * plain
            || 2 * dominantNinths < ninths
        ? null
        : new BluesForm(tonic, minor, firstBar, fit);
  }

  private static boolean isMinor(ChordClass chordClass) {
    return chordClass.quality() == ChordQuality.MINOR;
  }

  /** Bars that begin at a bar line: neither a pickup nor the rest of a split bar counts. */
  static List<Bar> fullBars(Solo solo) {
    List<Bar> bars = new ArrayList<>();
    for (Bar bar : solo.bars()) {
      if (!bar.pickup() && bar.metricalOffset().isZero()) {
        bars.add(bar);
      }
    }
    return bars;
  }

  private static void chordsAtBars(Solo solo, List<Bar> bars, int[] roots, ChordClass[] classes) {
    List<ChordSpan> chords = solo.chords();
    int at = -1;
    for (int i = 0; i < roots.length; i++) {
      while (at + 1 < chords.size() && !chords.get(at + 1).onset().isAfter(bars.get(i).onset())) {
        at++;
      }
      roots[i] = -1;
      if (at >= 0 && bars.get(i).onset().isBefore(chords.get(at).end())) {
        Optional<ChordClass> chordClass = chords.get(at).concert().chordClass();
        if (chordClass.isPresent()) {
          roots[i] = chords.get(at).concert().root().pitchClass();
          classes[i] = chordClass.get();
        }
      }
    }
  }

  private static Iterable<Integer> beginnings(Solo solo, List<Bar> bars, int[] roots) {
    TreeSet<Integer> beginnings = new TreeSet<>();
    int bar = 0;
    for (Mark mark : solo.marks()) {
      if (mark.kind() == Mark.Kind.REHEARSAL) {
        while (bar + 1 < bars.size() && !bars.get(bar + 1).onset().isAfter(mark.onset())) {
          bar++;
        }
        beginnings.add(bar % BARS);
      }
    }
    if (beginnings.isEmpty()) {
      int first = 0;
      while (first + 1 < roots.length && roots[first] < 0) {
        first++;
      }
      beginnings.add(bars.get(0).pickup() ? 1 : 0);
      beginnings.add(first % BARS);
      for (int i = 0; i < BARS && bars.size() - first >= 2 * BARS; i++) {
        beginnings.add(i);
      }
    }
    return beginnings;
  }
}
