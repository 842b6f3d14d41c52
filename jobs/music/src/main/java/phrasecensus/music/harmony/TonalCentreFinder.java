package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import phrasecensus.music.harmony.CentreProgramme.Reading;
import phrasecensus.music.harmony.CentreProgramme.Step;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreSpan.Source;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Finds the tonal centres of a solo, stretch by stretch and for the whole.
 *
 * <ol>
 *   <li>A key that the study gives is the centre throughout.
 *   <li>Otherwise the chord symbols are read by {@link CentreProgramme}. Repeated symbols count as
 *       one long chord; N.C. and chords of unknown content say nothing and lie in the centre around
 *       them.
 *   <li>A chord of minor or suspended quality that holds for {@value #VAMP_BARS} bars or more is a
 *       modal centre on its root, unless a dominant leads to that root anywhere in the solo.
 *   <li>Without a chord that tells anything, the notes alone are read by {@link KeyProfile}.
 * </ol>
 */
public final class TonalCentreFinder {
  /** Bars that one chord holds to make a modal centre: half a section (common practice). */
  static final int VAMP_BARS = 8;

  /** Weight of the time on the tonic chord beside the time in the centre, for the whole solo. */
  static final double TONIC_CHORD = 5;

  /** Bonus for the centre in which the solo ends. */
  static final double LAST_CENTRE = 0.3;

  private TonalCentreFinder() {}

  /**
   * The centres of a solo. Linear in chords and notes.
   *
   * @param key a key that the study gives; it wins
   */
  public static TonalCentres find(Solo solo, Optional<TonalCentre> key) {
    Fraction end = end(solo);
    if (!end.isPositive()) {
      return new TonalCentres(List.of(), key.orElse(TonalCentre.UNKNOWN));
    }
    if (key.isPresent()) {
      return single(end, key.get(), 0, Source.STUDY);
    }
    List<Stretch> stretches = stretches(solo);
    if (!stretches.isEmpty()) {
      return fromChords(solo, stretches, end);
    }
    KeyProfile.Fit fit = KeyProfile.of(solo.notes());
    return single(
        end, fit.centre(), fit.margin(), fit.centre().isKnown() ? Source.NOTES : Source.NONE);
  }

  private static TonalCentres single(
      Fraction end, TonalCentre centre, double margin, Source source) {
    return new TonalCentres(
        List.of(new TonalCentreSpan(Fraction.ZERO, end, centre, margin, source)), centre);
  }

  private static Fraction end(Solo solo) {
    List<Note> notes = solo.notes();
    return notes.isEmpty()
        ? solo.length()
        : Fraction.larger(solo.length(), notes.get(notes.size() - 1).end());
  }

  /** A chord that tells something, repeated symbols joined. */
  private record Stretch(Fraction onset, Fraction end, int root, ChordClass chordClass) {
    Fraction length() {
      return end.minus(onset);
    }

    Step step() {
      return new Step(root, chordClass, length().toDouble());
    }
  }

  private static List<Stretch> stretches(Solo solo) {
    List<Stretch> stretches = new ArrayList<>();
    for (ChordSpan span : solo.chords()) {
      Optional<ChordClass> chordClass = span.concert().chordClass();
      if (chordClass.isEmpty() || !span.length().isPositive()) {
        continue;
      }
      int root = span.concert().root().pitchClass();
      int last = stretches.size() - 1;
      if (last >= 0
          && stretches.get(last).root() == root
          && stretches.get(last).chordClass() == chordClass.get()
          && stretches.get(last).end().equals(span.onset())) {
        stretches.set(
            last, new Stretch(stretches.get(last).onset(), span.end(), root, chordClass.get()));
      } else {
        stretches.add(new Stretch(span.onset(), span.end(), root, chordClass.get()));
      }
    }
    return stretches;
  }

  private static TonalCentres fromChords(Solo solo, List<Stretch> stretches, Fraction end) {
    List<Step> steps = stretches.stream().map(Stretch::step).toList();
    Reading reading = CentreProgramme.standard().read(steps);
    if (reading.score() <= 0) {
      return single(end, TonalCentre.UNKNOWN, 0, Source.NONE);
    }
    boolean[] modal = modal(solo, stretches, steps);
    List<TonalCentreSpan> spans = new ArrayList<>();
    int first = 0;
    for (int i = 1; i <= stretches.size(); i++) {
      TonalCentre centre = centre(reading, stretches, modal, first);
      if (i < stretches.size() && centre(reading, stretches, modal, i).equals(centre)) {
        continue;
      }
      spans.add(
          new TonalCentreSpan(
              first == 0 ? Fraction.ZERO : stretches.get(first).onset(),
              i == stretches.size() ? end : stretches.get(i).onset(),
              centre,
              reading.margin(first, i - 1),
              Source.CHORDS));
      first = i;
    }
    return new TonalCentres(spans, whole(solo, spans, stretches));
  }

  private static TonalCentre centre(
      Reading reading, List<Stretch> stretches, boolean[] modal, int index) {
    return modal[index]
        ? new TonalCentre(stretches.get(index).root(), Mode.MODAL)
        : reading.centre(index);
  }

  private static boolean[] modal(Solo solo, List<Stretch> stretches, List<Step> steps) {
    boolean[] ledTo = new boolean[12];
    for (int i = 1; i < steps.size(); i++) {
      int root = steps.get(i).root();
      ledTo[root] |= CentreProgramme.leadsTo(steps.get(i - 1), root);
    }
    boolean[] modal = new boolean[steps.size()];
    for (int i = 0; i < modal.length; i++) {
      Stretch stretch = stretches.get(i);
      Metre metre = solo.bars().get(0).metre();
      modal[i] =
          !metre.isFree()
              && !ledTo[stretch.root()]
              && isVampQuality(stretch.chordClass())
              && stretch.length().isAtLeast(metre.barLength().times(VAMP_BARS));
    }
    return modal;
  }

  private static boolean isVampQuality(ChordClass chordClass) {
    return switch (chordClass) {
      case MIN, MIN6, MIN7, SUS -> true;
      case MAJ, MAJ6, MAJ7, DOM7, MINMAJ7, HDIM7, DIM -> false;
    };
  }

  /**
   * The centre of the whole solo: the tonic of a twelve-bar blues where the form is one; otherwise
   * the centre with the largest sum of its share of the time, {@value #TONIC_CHORD} times the share
   * of time that its own tonic chord sounds, and {@value #LAST_CENTRE} for the centre in which the
   * solo ends. Ties go to the centre that comes first.
   */
  private static TonalCentre whole(
      Solo solo, List<TonalCentreSpan> spans, List<Stretch> stretches) {
    Optional<BluesForm> blues = BluesForm.find(solo);
    if (blues.isPresent()) {
      return new TonalCentre(blues.get().tonic(), blues.get().minor() ? Mode.MINOR : Mode.BLUES);
    }
    Map<TonalCentre, Double> scores = new LinkedHashMap<>();
    double time = 0;
    for (TonalCentreSpan span : spans) {
      double length = span.end().minus(span.onset()).toDouble();
      time += length;
      scores.merge(span.centre(), length, Double::sum);
    }
    double whole = time;
    scores.replaceAll((centre, length) -> length / whole);
    double sounding = 0;
    for (Stretch stretch : stretches) {
      sounding += stretch.length().toDouble();
    }
    for (Stretch stretch : stretches) {
      double share = TONIC_CHORD * stretch.length().toDouble() / sounding;
      for (Mode mode : Mode.values()) {
        if (mode != Mode.UNKNOWN && CentreProgramme.isTonicChord(mode, stretch.chordClass())) {
          TonalCentre centre = new TonalCentre(stretch.root(), mode);
          if (mode != Mode.MODAL || scores.containsKey(centre)) {
            scores.merge(centre, share, Double::sum);
          }
        }
      }
    }
    scores.merge(spans.get(spans.size() - 1).centre(), LAST_CENTRE, Double::sum);
    TonalCentre best = null;
    for (Map.Entry<TonalCentre, Double> entry : scores.entrySet()) {
      if (best == null || entry.getValue() > scores.get(best)) {
        best = entry.getKey();
      }
    }
    return best;
  }
}
