package phrasecensus.music.harmony;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.chord.ChordQuality;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * What speaks for a centre of the whole solo: the share of time in which it is the local centre,
 * the share in which its own tonic chord sounds, that the solo ends in it, and how its choruses, or
 * a chart that is heard once, begin and end.
 *
 * <p>A chorus rests on the goal of its last cadence: the last tonic chord that begins within its
 * last {@value #LAST_BARS} bars after a dominant or suspended chord a fifth or a semitone above it.
 * A minor chord that moves on to a dominant a fourth above or a semitone below it is the second
 * degree of the next cadence, no goal. Without such a goal its last chord speaks. Its first chord
 * speaks when it is the tonic chord of the local centre, and more when the last chord leads back to
 * it. Common practice: a turnaround takes the last two bars of a form and leads away from the
 * tonic, so that the last chord tells little; a tune that does not begin at home ends there.
 */
final class WholeCentre {
  /** Bars at the end of a chorus in which its last cadence is looked for. */
  static final int LAST_BARS = 4;

  private static final int TIME = 0;
  private static final int TONIC_CHORD = 1;
  private static final int LAST_CENTRE = 2;
  private static final int FINAL_CADENCE = 3;
  private static final int FIRST_CHORD = 4;
  private static final int LED_TO_FIRST = 5;
  private static final int LAST_CHORD = 6;
  private static final int KINDS = 7;

  private final Map<TonalCentre, double[]> evidence = new LinkedHashMap<>();

  /** A chord that tells something, repeated symbols joined. */
  record Stretch(Fraction onset, Fraction end, int root, ChordClass chordClass) {
    Fraction length() {
      return end.minus(onset);
    }

    CentreProgramme.Step step() {
      return new CentreProgramme.Step(root, chordClass, length().toDouble());
    }
  }

  /**
   * How much each kind of evidence weighs beside the share of time in the centre.
   *
   * @param tonicChord for the share of time on the tonic chord
   * @param lastCentre for the centre in which the solo ends
   * @param finalCadence for the share of choruses that rest on the tonic
   * @param firstChord for the share of choruses that begin on the tonic chord
   * @param ledToFirst for the share of choruses whose last chord leads to such a first chord
   * @param lastChord for the share of choruses that end on the tonic chord without a cadence
   */
  record Weights(
      double tonicChord,
      double lastCentre,
      double finalCadence,
      double firstChord,
      double ledToFirst,
      double lastChord) {
    /** In use; the file says how they came about. */
    static final Weights STANDARD = read();

    double[] numbers() {
      return new double[] {tonicChord, lastCentre, finalCadence, firstChord, ledToFirst, lastChord};
    }

    private static Weights read() {
      try (InputStream bytes = WholeCentre.class.getResourceAsStream("whole-centre.properties")) {
        if (bytes == null) {
          throw new IllegalStateException(
              "Cannot read whole-centre.properties: not in the program's jar");
        }
        Properties numbers = new Properties();
        numbers.load(new InputStreamReader(bytes, StandardCharsets.UTF_8));
        return new Weights(
            Double.parseDouble(numbers.getProperty("tonic-chord")),
            Double.parseDouble(numbers.getProperty("last-centre")),
            Double.parseDouble(numbers.getProperty("final-cadence")),
            Double.parseDouble(numbers.getProperty("first-chord")),
            Double.parseDouble(numbers.getProperty("led-to-first")),
            Double.parseDouble(numbers.getProperty("last-chord")));
      } catch (IOException e) {
        throw new UncheckedIOException("Cannot read whole-centre.properties", e);
      }
    }
  }

  /**
   * Gathers the evidence. Linear.
   *
   * @param spans local centres, at least one
   * @param stretches chords, at least one
   * @param choruses where choruses begin, if that is known
   */
  WholeCentre(
      Solo solo,
      List<TonalCentreSpan> spans,
      List<Stretch> stretches,
      Optional<Choruses> choruses) {
    double time = 0;
    for (TonalCentreSpan span : spans) {
      time += span.end().minus(span.onset()).toDouble();
    }
    for (TonalCentreSpan span : spans) {
      add(span.centre(), TIME, span.end().minus(span.onset()).toDouble() / time);
    }
    add(spans.get(spans.size() - 1).centre(), LAST_CENTRE, 1);
    double sounding = 0;
    for (Stretch stretch : stretches) {
      sounding += stretch.length().toDouble();
    }
    for (Stretch stretch : stretches) {
      addTonic(stretch, TONIC_CHORD, stretch.length().toDouble() / sounding);
    }
    FormTimes form = formTimes(solo, choruses);
    int first = -1;
    for (Fraction beginning : form.beginnings()) {
      int index = indexAt(stretches, beginning);
      first = first < 0 ? index : first;
      addHome(spans, stretches, index, FIRST_CHORD, 1.0 / form.beginnings().size());
    }
    double share = 1.0 / form.ends().size();
    for (Fraction end : form.ends()) {
      int last = indexAt(stretches, end);
      last = last < stretches.size() && stretches.get(last).onset().isBefore(end) ? last : last - 1;
      if (last < 0) {
        continue;
      }
      int goal = goal(solo, stretches, last, end);
      if (goal >= 0) {
        addRest(stretches, goal, FINAL_CADENCE, share);
      } else {
        addRest(stretches, last, LAST_CHORD, share);
      }
      if (first < stretches.size()
          && CentreProgramme.leadsTo(stretches.get(last).step(), stretches.get(first).root())) {
        addHome(spans, stretches, first, LED_TO_FIRST, share);
      }
    }
  }

  /** Evidence from a chord that may be a place of rest. */
  private void addRest(List<Stretch> stretches, int index, int kind, double amount) {
    if (!isSecondDegree(stretches, index)) {
      addTonic(stretches.get(index), kind, amount);
    }
  }

  /** Evidence from a chord that is the tonic chord of its local centre. */
  private void addHome(
      List<TonalCentreSpan> spans, List<Stretch> stretches, int index, int kind, double amount) {
    if (index >= stretches.size()) {
      return;
    }
    Stretch stretch = stretches.get(index);
    int low = 0;
    int high = spans.size() - 1;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (spans.get(middle).end().isAfter(stretch.onset())) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    TonalCentre centre = spans.get(low).centre();
    if (centre.tonic() == stretch.root()
        && CentreProgramme.isTonicChord(centre.mode(), stretch.chordClass())) {
      add(centre, kind, amount);
    }
  }

  /** Index of the chord that sounds at a moment, else of the next one. */
  private static int indexAt(List<Stretch> stretches, Fraction moment) {
    int low = 0;
    int high = stretches.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (stretches.get(middle).end().isAfter(moment)) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  private void add(TonalCentre centre, int kind, double amount) {
    evidence.computeIfAbsent(centre, key -> new double[KINDS])[kind] += amount;
  }

  /**
   * For every centre whose tonic chord it is; for a blues or modal one only where that is a local
   * centre somewhere, since any dominant and any minor seventh could be its tonic chord.
   */
  private void addTonic(Stretch stretch, int kind, double amount) {
    for (Mode mode : Mode.values()) {
      if (mode != Mode.UNKNOWN && CentreProgramme.isTonicChord(mode, stretch.chordClass())) {
        TonalCentre centre = new TonalCentre(stretch.root(), mode);
        boolean mustBeHeard = mode == Mode.BLUES || mode == Mode.MODAL;
        if (!mustBeHeard || evidence.containsKey(centre)) {
          add(centre, kind, amount);
        }
      }
    }
  }

  /** Where choruses begin and end, as far as that is heard. */
  private record FormTimes(List<Fraction> beginnings, List<Fraction> ends) {}

  private static FormTimes formTimes(Solo solo, Optional<Choruses> choruses) {
    List<Bar> bars = BluesForm.fullBars(solo);
    if (choruses.isEmpty()) {
      return onlyChorus(solo, bars);
    }
    List<Fraction> ends = new ArrayList<>();
    int end = 0;
    while (!bars.get(end).onset().equals(choruses.get().onsets().get(0))) {
      end++;
    }
    for (; end <= bars.size(); end += choruses.get().bars()) {
      if (end >= LAST_BARS) {
        ends.add(barLine(solo, bars, end));
      }
    }
    return new FormTimes(choruses.get().onsets(), ends);
  }

  /**
   * Beginning and end of a chart or a solo of one chorus. It begins at the first rehearsal mark
   * that names no introduction, without marks at once. It ends at a mark that names an
   * introduction, at the first mark come back for less than {@value #LAST_BARS} bars, or after the
   * last bar. Where marks are written the end counts as heard if it is a multiple of {@value
   * #LAST_BARS} bars after the beginning, but for one bar more in which the last note rings: a solo
   * may end anywhere.
   */
  private static FormTimes onlyChorus(Solo solo, List<Bar> bars) {
    int first = 0;
    int end = bars.size();
    String begins = null;
    int bar = 0;
    for (Mark mark : solo.marks()) {
      if (mark.kind() != Mark.Kind.REHEARSAL) {
        continue;
      }
      while (bar + 1 < bars.size() && !bars.get(bar + 1).onset().isAfter(mark.onset())) {
        bar++;
      }
      boolean introduction = ChorusFinder.isIntroduction(mark.text());
      if (begins == null && !introduction) {
        begins = mark.text();
        first = bar;
      } else if (begins != null
          && (introduction || mark.text().equals(begins) && bars.size() - bar < LAST_BARS)) {
        end = bar;
        break;
      }
    }
    int over = begins == null ? 0 : (end - first) % LAST_BARS;
    List<Fraction> ends =
        over > 1 || end <= first ? List.of() : List.of(barLine(solo, bars, end - over));
    return new FormTimes(List.of(barLine(solo, bars, first)), ends);
  }

  private static Fraction barLine(Solo solo, List<Bar> bars, int index) {
    return index < bars.size() ? bars.get(index).onset() : solo.length();
  }

  /** Index of the goal of the last cadence before the end of a chorus; -1 where none is. */
  private static int goal(Solo solo, List<Stretch> stretches, int last, Fraction end) {
    Fraction bar = solo.barAt(end).metre().barLength();
    Fraction from = end.minus(bar.times(LAST_BARS));
    for (int i = last; i > 0 && stretches.get(i).onset().isAtLeast(from); i--) {
      if (isGoal(stretches, i)) {
        return i;
      }
    }
    return -1;
  }

  private static boolean isGoal(List<Stretch> stretches, int index) {
    return CentreProgramme.leadsTo(stretches.get(index - 1).step(), stretches.get(index).root())
        && switch (stretches.get(index).chordClass()) {
          case MAJ, MAJ6, MAJ7 -> true;
          case MIN, MIN6, MIN7, MINMAJ7 -> !isSecondDegree(stretches, index);
          case DOM7, SUS, HDIM7, DIM -> false;
        };
  }

  /** True for a minor chord that moves on to a dominant a fourth above or a semitone below it. */
  private static boolean isSecondDegree(List<Stretch> stretches, int index) {
    if (stretches.get(index).chordClass().quality() != ChordQuality.MINOR
        || index + 1 == stretches.size()) {
      return false;
    }
    Stretch next = stretches.get(index + 1);
    int above = Math.floorMod(next.root() - stretches.get(index).root(), 12);
    boolean dominant = next.chordClass() == ChordClass.DOM7 || next.chordClass() == ChordClass.SUS;
    return dominant && (above == 5 || above == 11);
  }

  /** The centre that most speaks for; of equals the one that was met first. */
  TonalCentre best(Weights weights) {
    TonalCentre best = null;
    double score = Double.NEGATIVE_INFINITY;
    for (Map.Entry<TonalCentre, double[]> entry : evidence.entrySet()) {
      double[] found = entry.getValue();
      double candidate =
          found[TIME]
              + weights.tonicChord() * found[TONIC_CHORD]
              + weights.lastCentre() * found[LAST_CENTRE]
              + weights.finalCadence() * found[FINAL_CADENCE]
              + weights.firstChord() * found[FIRST_CHORD]
              + weights.ledToFirst() * found[LED_TO_FIRST]
              + weights.lastChord() * found[LAST_CHORD];
      if (candidate > score) {
        score = candidate;
        best = entry.getKey();
      }
    }
    return best;
  }
}
