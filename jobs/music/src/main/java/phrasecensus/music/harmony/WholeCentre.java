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
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * What speaks for a centre of the whole solo: the share of time in which it is the local centre,
 * the share in which its own tonic chord sounds, that the solo ends in it, and the share of
 * choruses that come to rest on its tonic.
 *
 * <p>A chorus rests on the goal of its last cadence: the last tonic chord that begins within its
 * last {@value #LAST_BARS} bars after a dominant or suspended chord a fifth or a semitone above it.
 * A minor chord that moves on to a dominant a fourth above or a semitone below it is the second
 * degree of the next cadence, no goal. Common practice: a turnaround takes the last two bars of a
 * form and leads away from the tonic, so that the last chord tells little.
 */
final class WholeCentre {
  /** Bars at the end of a chorus in which its last cadence is looked for. */
  static final int LAST_BARS = 4;

  private static final int TIME = 0;
  private static final int TONIC_CHORD = 1;
  private static final int LAST_CENTRE = 2;
  private static final int FINAL_CADENCE = 3;

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
   */
  record Weights(double tonicChord, double lastCentre, double finalCadence) {
    /** In use; the file says how they came about. */
    static final Weights STANDARD = read();

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
            Double.parseDouble(numbers.getProperty("final-cadence")));
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
    if (choruses.isPresent()) {
      List<Stretch> goals = goals(solo, stretches, choruses.get());
      int ends = goals.size();
      for (Stretch goal : goals) {
        if (goal != null) {
          addTonic(goal, FINAL_CADENCE, 1.0 / ends);
        }
      }
    }
  }

  private void add(TonalCentre centre, int kind, double amount) {
    evidence.computeIfAbsent(centre, key -> new double[4])[kind] += amount;
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

  /** Goals of the last cadences, one for each end of a chorus in the solo; null where none is. */
  private static List<Stretch> goals(Solo solo, List<Stretch> stretches, Choruses choruses) {
    List<Bar> bars = BluesForm.fullBars(solo);
    int end = 0;
    while (!bars.get(end).onset().equals(choruses.onsets().get(0))) {
      end++;
    }
    List<Stretch> goals = new ArrayList<>();
    int next = 1;
    for (; end <= bars.size(); end += choruses.bars()) {
      if (end < LAST_BARS) {
        continue;
      }
      Fraction from = bars.get(end - LAST_BARS).onset();
      Fraction to = end < bars.size() ? bars.get(end).onset() : solo.length();
      Stretch goal = null;
      for (; next < stretches.size() && stretches.get(next).onset().isBefore(to); next++) {
        if (stretches.get(next).onset().isAtLeast(from) && isGoal(stretches, next)) {
          goal = stretches.get(next);
        }
      }
      goals.add(goal);
    }
    return goals;
  }

  private static boolean isGoal(List<Stretch> stretches, int index) {
    Stretch stretch = stretches.get(index);
    if (!CentreProgramme.leadsTo(stretches.get(index - 1).step(), stretch.root())) {
      return false;
    }
    return switch (stretch.chordClass()) {
      case MAJ, MAJ6, MAJ7 -> true;
      case MIN, MIN6, MIN7, MINMAJ7 -> {
        if (index + 1 == stretches.size()) {
          yield true;
        }
        Stretch next = stretches.get(index + 1);
        int above = Math.floorMod(next.root() - stretch.root(), 12);
        boolean dominant =
            next.chordClass() == ChordClass.DOM7 || next.chordClass() == ChordClass.SUS;
        yield !dominant || above != 5 && above != 11;
      }
      case DOM7, SUS, HDIM7, DIM -> false;
    };
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
              + weights.finalCadence() * found[FINAL_CADENCE];
      if (candidate > score) {
        score = candidate;
        best = entry.getKey();
      }
    }
    return best;
  }
}
