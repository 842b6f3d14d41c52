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
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Finds the tonal centres of a solo, stretch by stretch and for the whole.
 *
 * <ol>
 *   <li>A key that the study gives is the centre of the whole solo.
 *   <li>The chord symbols are read by {@link CentreProgramme}. Repeated symbols count as one long
 *       chord; N.C. and chords of unknown content say nothing and lie in the centre around them.
 *   <li>A minor chord that holds for {@value #VAMP_BARS} bars or more is a modal centre on its
 *       root, unless a dominant leads to that root anywhere in the solo. So is a suspended chord,
 *       and from {@value #SUSPENDED_BARS} bars on if it nowhere moves on as a dominant does.
 *   <li>The whole solo is a blues where it has the form of one, see {@link BluesForm}; else where a
 *       blues centre speaks most and its choruses have twelve bars, or tonic and subdominant as
 *       dominant sevenths hold for half of the time. Any other tune on that tonic is in major.
 *   <li>Without a chord that tells anything, signature and notes are read by {@link KeyFinder}.
 * </ol>
 */
public final class TonalCentreFinder {
  /** Bars that one chord holds to make a modal centre: half a section (common practice). */
  static final int VAMP_BARS = 8;

  /** Bars that a suspended chord holds to be a centre where it is never led on as a dominant. */
  static final int SUSPENDED_BARS = 2;

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
  public static TonalCentres find(Solo solo, Optional<Key> key, Optional<Choruses> choruses) {
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
    return new TonalCentres(spans, stated.centre(), scale(stated, solo.notes()), Source.STUDY);
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
    List<TonalCentreSpan> scaled = withScales(spans, stretches, solo);
    CentreScale scale =
        whole.mode() == Mode.MINOR
            ? KeyFinder.formOfMinor(solo.notes(), whole.tonic())
            : CentreScale.ofMode(whole);
    return Optional.of(new TonalCentres(scaled, whole, scale, Source.CHORDS));
  }

  /**
   * A minor centre has the form of minor that holds most of what is played in all its stretches, a
   * modal one the mode that a signature with sharps or flats gives it.
   */
  private static List<TonalCentreSpan> withScales(
      List<TonalCentreSpan> spans, List<Stretch> stretches, Solo solo) {
    List<Note> notes = solo.notes();
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
              switch (centre.mode()) {
                case MINOR -> KeyFinder.formOfMinor(played.get(centre), centre.tonic());
                case MODAL -> modeOfSignature(span, stretches, solo);
                default -> CentreScale.ofMode(centre);
              }));
    }
    return scaled;
  }

  /**
   * The mode that the signature has on the tonic of a modal centre; null where the player reads no
   * sharps or flats, which programs write by themselves, or where the chord on the tonic
   * contradicts it: then that chord tells the mode from note to note.
   */
  private static CentreScale modeOfSignature(
      TonalCentreSpan span, List<Stretch> stretches, Solo solo) {
    KeyChange inForce = null;
    for (KeyChange key : solo.keys()) {
      if (inForce == null || !key.onset().isAfter(span.onset())) {
        inForce = key;
      }
    }
    if (inForce == null
        || inForce.concertFifths() == null
        || Integer.valueOf(0).equals(inForce.writtenFifths())) {
      return null;
    }
    int tonic = span.centre().tonic();
    int signature = Math.floorMod(7 * inForce.concertFifths(), 12);
    for (CentreScale mode : CentreScale.MODES_OF_A_SIGNATURE) {
      if (CentreScale.IONIAN.semitones().stream()
          .allMatch(semitones -> mode.contains(tonic, signature + semitones))) {
        return stretches.stream()
                .filter(stretch -> stretch.root() == tonic)
                .filter(stretch -> stretch.onset().isBefore(span.end()))
                .filter(stretch -> stretch.end().isAfter(span.onset()))
                .allMatch(stretch -> holds(mode, stretch.chordClass()))
            ? mode
            : null;
      }
    }
    return null;
  }

  private static boolean holds(CentreScale mode, ChordClass chord) {
    List<Integer> tones =
        switch (chord) {
          case MAJ, MAJ6 -> List.of(4, 7);
          case MAJ7 -> List.of(4, 7, 11);
          case DOM7 -> List.of(4, 7, 10);
          case SUS -> List.of(5, 7);
          case MIN -> List.of(3, 7);
          case MIN6 -> List.of(3, 7, 9);
          case MIN7 -> List.of(3, 7, 10);
          case MINMAJ7 -> List.of(3, 7, 11);
          case HDIM7, DIM -> List.of(3, 6);
        };
    return mode.semitones().containsAll(tones);
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
    return Optional.of(new WholeCentre(solo, centres.spans(), stretches, ChorusFinder.find(solo)));
  }

  private static TonalCentre centre(
      Reading reading, List<Stretch> stretches, boolean[] modal, int index) {
    return modal[index]
        ? new TonalCentre(stretches.get(index).root(), Mode.MODAL)
        : reading.centre(index);
  }

  private static boolean[] modal(Solo solo, List<Stretch> stretches, List<Step> steps) {
    boolean[] modal = new boolean[steps.size()];
    Metre metre = solo.bars().get(0).metre();
    if (metre.isFree()) {
      return modal;
    }
    boolean[] ledTo = new boolean[12];
    boolean[] ledOn = new boolean[12];
    for (int i = 0; i < steps.size(); i++) {
      Step step = steps.get(i);
      // The last chord of a chart leads back to its first one.
      Step next = steps.get((i + 1) % steps.size());
      ledTo[next.root()] |= i + 1 < steps.size() && CentreProgramme.leadsTo(step, next.root());
      ledOn[step.root()] |= step.chordClass() == ChordClass.SUS && isLedOn(step, next);
    }
    for (int i = 0; i < modal.length; i++) {
      Stretch stretch = stretches.get(i);
      int bars =
          switch (stretch.chordClass()) {
            case MIN, MIN6, MIN7 -> VAMP_BARS;
            case SUS -> ledOn[stretch.root()] ? VAMP_BARS : SUSPENDED_BARS;
            case MAJ, MAJ6, MAJ7, DOM7, MINMAJ7, HDIM7, DIM -> 0;
          };
      modal[i] =
          bars > 0
              && !ledTo[stretch.root()]
              && stretch.length().isAtLeast(metre.barLength().times(bars));
    }
    return modal;
  }

  /**
   * True where a suspended chord is a dominant on its way: its suspension resolves, or the root
   * falls a fifth or a semitone to a chord that is not suspended too.
   */
  private static boolean isLedOn(Step suspended, Step next) {
    int fall = Math.floorMod(suspended.root() - next.root(), 12);
    return next.chordClass() != ChordClass.SUS && (fall == 0 || fall == 7 || fall == 1);
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
    TonalCentre best = new WholeCentre(solo, spans, stretches, choruses).best(Weights.STANDARD);
    boolean twelve = choruses.isPresent() && choruses.get().bars() == BluesForm.BARS;
    return best.mode() == Mode.BLUES && !twelve && !isBlues(stretches, best.tonic())
        ? new TonalCentre(best.tonic(), Mode.MAJOR)
        : best;
  }

  /**
   * True where a tune that has not the twelve-bar form has the chords of a blues: tonic and
   * subdominant as dominant sevenths hold for half of the time or more. A functional tune that
   * touches on them is none.
   */
  private static boolean isBlues(List<Stretch> stretches, int tonic) {
    double all = 0;
    double blues = 0;
    for (Stretch stretch : stretches) {
      double length = stretch.length().toDouble();
      int above = Math.floorMod(stretch.root() - tonic, 12);
      all += length;
      blues += stretch.chordClass() == ChordClass.DOM7 && (above == 0 || above == 5) ? length : 0;
    }
    return blues >= all / 2;
  }
}
