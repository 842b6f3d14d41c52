package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.harmony.CentreProgramme.Reading;
import phrasecensus.music.harmony.CentreProgramme.Step;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreSpan.Source;
import phrasecensus.music.harmony.WholeCentre.Stretch;
import phrasecensus.music.harmony.WholeCentre.Weights;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Finds the tonal centres of a solo, stretch by stretch and for the whole.
 *
 * <ol>
 *   <li>A key that the study gives is the centre of the whole solo.
 *   <li>The chord symbols are read by {@link CentreProgramme}. Repeated symbols count as
 *       one long chord; N.C. and chords of unknown content say nothing and lie in the centre around
 *       them.
 *   <li>A chord of minor or suspended quality that holds for {@value #VAMP_BARS} bars or more is a
 *       modal centre on its root, unless a dominant leads to that root anywhere in the solo.
 *   <li>Without a chord that tells anything, signature and notes are read by {@link KeyFinder}.
 * </ol>
 */
public final class TonalCentreFinder {
  /** Bars that one chord holds to make a modal centre: half a section (common practice). */
  static final int VAMP_BARS = 8;

  private TonalCentreFinder() {}

  /** The centres of a solo whose choruses have not been looked for yet. */
  public static TonalCentres find(Solo solo, Optional<Key> key) {
    return find(solo, key, ChorusFinder.find(solo));
  }

  /**
   * The centres of a solo. Linear in chords and notes.
   *
   * @param key a key that the study gives; it is that of the whole solo, and throughout where no
   *     chord tells local centres
   * @param choruses what {@link ChorusFinder} finds
   */
  public static TonalCentres find(
      Solo solo, Optional<Key> key, Optional<Choruses> choruses) {
    Fraction end = end(solo);
    if (!end.isPositive()) {
      return key.map(stated -> withWhole(List.of(), solo, stated))
          .orElse(new TonalCentres(List.of(), TonalCentre.UNKNOWN, null, Source.NONE));
    }
    List<Stretch> stretches = stretches(solo);
    Optional<TonalCentres> byChords =
        stretches.isEmpty() ? Optional.empty() : fromChords(solo, stretches, end, choruses);
    if (key.isPresent()) {
      Key stated = key.get();
      CentreScale scale = scale(stated, solo.notes());
      return withWhole(
          byChords
              .map(TonalCentres::spans)
              .orElse(
                  List.of(
                      new TonalCentreSpan(
                          Fraction.ZERO, end, stated.centre(), 0, Source.STUDY, scale))),
          solo,
          stated);
    }
    return byChords.orElseGet(() -> KeyFinder.find(solo, end));
  }

  private static TonalCentres withWhole(List<TonalCentreSpan> spans, Solo solo, Key stated) {
    return new TonalCentres(
        spans, stated.centre(), scale(stated, solo.notes()), Source.STUDY);
  }

  /** The scale of a key, the form of minor by the notes where the key leaves it open. */
  private static CentreScale scale(Key key, List<Note> notes) {
    return key.scale() == CentreScale.MINOR
        ? KeyFinder.formOfMinor(notes, key.centre().tonic())
        : key.scale();
  }

  private static Fraction end(Solo solo) {
    List<Note> notes = solo.notes();
    return notes.isEmpty()
        ? solo.length()
        : Fraction.larger(solo.length(), notes.get(notes.size() - 1).end());
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

  private static Optional<TonalCentres> fromChords(
      Solo solo, List<Stretch> stretches, Fraction end, Optional<Choruses> choruses) {
    List<Step> steps = stretches.stream().map(Stretch::step).toList();
    Reading reading = CentreProgramme.standard().read(steps);
    if (reading.score() <= 0) {
      return Optional.empty();
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
              Source.CHORDS,
              null));
      first = i;
    }
    TonalCentre whole = whole(solo, spans, stretches, choruses);
    List<TonalCentreSpan> scaled = withScales(spans, solo.notes());
    CentreScale scale =
        whole.mode() == Mode.MINOR
            ? KeyFinder.formOfMinor(solo.notes(), whole.tonic())
            : CentreScale.ofMode(whole);
    return Optional.of(new TonalCentres(scaled, whole, scale, Source.CHORDS));
  }

  /** A minor centre has the form of minor that holds most of what is played in all its stretches. */
  private static List<TonalCentreSpan> withScales(
      List<TonalCentreSpan> spans, List<Note> notes) {
    Map<TonalCentre, List<Note>> played = new HashMap<>();
    int index = 0;
    for (TonalCentreSpan span : spans) {
      List<Note> own = played.computeIfAbsent(span.centre(), centre -> new ArrayList<>());
      while (index < notes.size() && notes.get(index).onset().isBefore(span.end())) {
        own.add(notes.get(index++));
      }
    }
    List<TonalCentreSpan> scaled = new ArrayList<>();
    for (TonalCentreSpan span : spans) {
      TonalCentre centre = span.centre();
      scaled.add(
          new TonalCentreSpan(
              span.onset(),
              span.end(),
              centre,
              span.margin(),
              span.source(),
              centre.mode() == Mode.MINOR
                  ? KeyFinder.formOfMinor(played.get(centre), centre.tonic())
                  : CentreScale.ofMode(centre)));
    }
    return scaled;
  }

  /**
   * What speaks for the centre of a whole solo; empty where that is not weighed, as in a blues and
   * without chords.
   */
  static Optional<WholeCentre> evidence(Solo solo) {
    List<Stretch> stretches = stretches(solo);
    if (stretches.isEmpty() || BluesForm.find(solo).isPresent()) {
      return Optional.empty();
    }
    TonalCentres centres = find(solo, Optional.empty());
    return Optional.of(
        new WholeCentre(solo, centres.spans(), stretches, ChorusFinder.find(solo)));
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

  /** The tonic of a twelve-bar blues where the form is one, else what most speaks for. */
  private static TonalCentre whole(
      Solo solo,
      List<TonalCentreSpan> spans,
      List<Stretch> stretches,
      Optional<Choruses> choruses) {
    Optional<BluesForm> blues = BluesForm.find(solo);
    if (blues.isPresent()) {
      return new TonalCentre(blues.get().tonic(), blues.get().minor() ? Mode.MINOR : Mode.BLUES);
    }
    return new WholeCentre(solo, spans, stretches, choruses).best(Weights.STANDARD);
  }
}
