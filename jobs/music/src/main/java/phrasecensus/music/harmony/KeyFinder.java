package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreSpan.Source;
import phrasecensus.music.rest.Stretch;
import phrasecensus.music.rest.Stretches;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Finds the key of a line without chord symbols, from its signature together with the notes, else
 * from the notes alone.
 *
 * <p>A key scores what its profile says of the sounding notes ({@value #CORRELATION} times their
 * correlation with it, {@value #LIKELIHOOD} times the mean logarithm of the profile's shares; notes
 * count with their length, at most a half note) and what the line rests on: {@value #LAST_NOTE}
 * where the last note is the tonic, {@value #RESTS_ON_TONIC} times the share of stretches between
 * breaths that end on it, {@value #RESTS_ON_TRIAD} times the share of those that end on third or
 * fifth. Minor costs {@value #MINOR_COST}.
 *
 * <p>A signature that the player reads with sharps or flats binds: its scale is that of the key,
 * and the question is on which of its degrees the line rests; major and minor come before the other
 * modes, which cost {@value #DORIAN_OR_MIXOLYDIAN_COST} or {@value #RARE_MODE_COST}. One without
 * sharps or flats is weak evidence, since programs write it by default: where the best key by the
 * notes alone has another scale that holds at least {@value #CLEAR_SHARE} of the sounding time, and
 * at least {@value #CLEAR_LEAD} more of it than the scale without sharps or flats, that is the key.
 *
 * <p>The numbers were chosen on 150 lead sheets whose chord symbols had been taken out and 204
 * solos with a key that people gave; the score is flat around them ({@code LeadSheetKeysTest}).
 */
final class KeyFinder {
  static final double CORRELATION = 4;
  static final double LIKELIHOOD = 4;
  static final double LAST_NOTE = 1.5;
  static final double RESTS_ON_TONIC = 2;
  static final double RESTS_ON_TRIAD = 1.5;
  static final double MINOR_COST = 1.5;
  static final double DORIAN_OR_MIXOLYDIAN_COST = 3;
  static final double RARE_MODE_COST = 4;

  /** How much a file's own word for a mode other than major counts. */
  static final double STATED_MODE = 2;

  static final double CLEAR_SHARE = 0.8;
  static final double CLEAR_LEAD = 0.025;

  /** Fewer notes tell major from minor at most. */
  private static final int LEAST_NOTES_OF_A_MODE = 8;

  /** Longest length that counts, in quarter notes. */
  private static final Fraction LONGEST = Fraction.of(2);

  private static final List<CentreScale> FORMS_OF_MINOR =
      List.of(
          CentreScale.AEOLIAN,
          CentreScale.DORIAN,
          CentreScale.HARMONIC_MINOR,
          CentreScale.MELODIC_MINOR);

  private KeyFinder() {}

  /** A key, how much better it is than the next, and what told it. */
  private record Found(Key key, double margin, Source source) {}

  /**
   * The key, stretch by stretch where the signature changes. Linear in the notes.
   *
   * @param end end of the solo, positive
   */
  static TonalCentres find(Solo solo, Fraction end) {
    List<KeyChange> signatures = signatures(solo);
    List<Stretch> stretches = Stretches.find(solo);
    List<TonalCentreSpan> spans = new ArrayList<>();
    for (int i = 0; i < signatures.size(); i++) {
      Fraction from = i == 0 ? Fraction.ZERO : signatures.get(i).onset();
      Fraction to = i + 1 < signatures.size() ? signatures.get(i + 1).onset() : end;
      if (from.isBefore(to)) {
        Found found = found(solo, stretches, signatures.get(i), from, to);
        spans.add(
            found == null
                ? new TonalCentreSpan(from, to, TonalCentre.UNKNOWN, 0, Source.NONE)
                : new TonalCentreSpan(
                    from,
                    to,
                    found.key().centre(),
                    found.margin(),
                    found.source(),
                    found.key().scale()));
      }
    }
    List<TonalCentreSpan> joined = joined(spans);
    TonalCentreSpan longest = joined.get(0);
    for (TonalCentreSpan span : joined) {
      Fraction length = span.end().minus(span.onset());
      if (length.isAfter(longest.end().minus(longest.onset()))) {
        longest = span;
      }
    }
    return new TonalCentres(joined, longest.centre(), longest.scale(), longest.source());
  }

  /** The signatures that are on the circle of fifths; one without any where there is none. */
  private static List<KeyChange> signatures(Solo solo) {
    List<KeyChange> signatures = new ArrayList<>();
    for (KeyChange key : solo.keys()) {
      KeyChange last = signatures.isEmpty() ? null : signatures.get(signatures.size() - 1);
      if (last != null && last.onset().equals(key.onset())) {
        signatures.remove(last);
      } else if (last != null
          && java.util.Objects.equals(last.concertFifths(), key.concertFifths())) {
        continue;
      }
      signatures.add(key);
    }
    if (signatures.isEmpty()) {
      signatures.add(new KeyChange(Fraction.ZERO, null, null, null));
    }
    return signatures;
  }

  private static List<TonalCentreSpan> joined(List<TonalCentreSpan> spans) {
    List<TonalCentreSpan> joined = new ArrayList<>();
    for (TonalCentreSpan span : spans) {
      TonalCentreSpan last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (last != null
          && last.centre().equals(span.centre())
          && last.scale() == span.scale()
          && last.source() == span.source()) {
        joined.set(
            joined.size() - 1,
            new TonalCentreSpan(
                last.onset(),
                span.end(),
                last.centre(),
                Math.min(last.margin(), span.margin()),
                last.source(),
                last.scale()));
      } else {
        joined.add(span);
      }
    }
    return joined;
  }

  /** Null where nothing tells a key. */
  private static Found found(
      Solo solo, List<Stretch> stretches, KeyChange signature, Fraction from, Fraction to) {
    Evidence evidence = new Evidence(solo, stretches, from, to);
    Integer fifths = signature.concertFifths();
    Integer written = signature.writtenFifths();
    boolean binds = fifths != null && written != null && written != 0;
    Optional<Found> byNotes = byNotes(evidence);
    if (fifths == null || !binds && byNotes.isPresent() && isElsewhere(evidence, byNotes, fifths)) {
      return byNotes.orElse(null);
    }
    if (evidence.notes == 0) {
      return binds
          ? new Found(
              Key.of(Math.floorMod(7 * fifths, 12), CentreScale.IONIAN), 0, Source.SIGNATURE)
          : null;
    }
    return bySignature(evidence, fifths, signature.mode());
  }

  /** True where the notes stay clearly in another scale than that of a signature. */
  private static boolean isElsewhere(Evidence evidence, Optional<Found> byNotes, int fifths) {
    Key key = byNotes.orElseThrow().key();
    double there = evidence.share(key.centre().tonic(), majorOrNaturalMinor(key));
    double here = evidence.share(Math.floorMod(7 * fifths, 12), CentreScale.IONIAN);
    return there >= CLEAR_SHARE && there - here >= CLEAR_LEAD;
  }

  private static CentreScale majorOrNaturalMinor(Key key) {
    return key.centre().mode() == Mode.MAJOR ? CentreScale.IONIAN : CentreScale.AEOLIAN;
  }

  private static Optional<Found> byNotes(Evidence evidence) {
    if (!evidence.tells()) {
      return Optional.empty();
    }
    double best = Double.NEGATIVE_INFINITY;
    double second = Double.NEGATIVE_INFINITY;
    TonalCentre centre = TonalCentre.UNKNOWN;
    for (Mode mode : List.of(Mode.MAJOR, Mode.MINOR)) {
      for (int tonic = 0; tonic < 12; tonic++) {
        TonalCentre candidate = new TonalCentre(tonic, mode);
        double score = evidence.score(candidate);
        if (score > best) {
          second = best;
          best = score;
          centre = candidate;
        } else {
          second = Math.max(second, score);
        }
      }
    }
    CentreScale scale =
        centre.mode() == Mode.MAJOR ? CentreScale.IONIAN : evidence.formOfMinor(centre.tonic());
    return Optional.of(new Found(new Key(centre, scale), best - second, Source.NOTES));
  }

  private static Found bySignature(Evidence evidence, int fifths, String statedMode) {
    int major = Math.floorMod(7 * fifths, 12);
    double best = Double.NEGATIVE_INFINITY;
    double second = Double.NEGATIVE_INFINITY;
    Key key = null;
    for (CentreScale scale : CentreScale.MODES_OF_A_SIGNATURE) {
      if (scale == CentreScale.LOCRIAN
          || !isMajorOrMinor(scale) && evidence.notes < LEAST_NOTES_OF_A_MODE) {
        continue;
      }
      int tonic =
          Math.floorMod(
              major
                  + CentreScale.IONIAN
                      .semitones()
                      .get(CentreScale.MODES_OF_A_SIGNATURE.indexOf(scale)),
              12);
      boolean minor = scale.semitones().contains(3);
      double score =
          evidence.score(new TonalCentre(tonic, minor ? Mode.MINOR : Mode.MAJOR))
              - cost(scale)
              + (isStated(scale, statedMode) ? STATED_MODE : 0);
      if (score > best) {
        second = best;
        best = score;
        key = Key.of(tonic, scale);
      } else {
        second = Math.max(second, score);
      }
    }
    return new Found(key, best - second, Source.SIGNATURE);
  }

  private static boolean isMajorOrMinor(CentreScale scale) {
    return scale == CentreScale.IONIAN || scale == CentreScale.AEOLIAN;
  }

  /** Beyond what minor costs. */
  private static double cost(CentreScale scale) {
    return switch (scale) {
      case IONIAN, AEOLIAN -> 0;
      case DORIAN -> DORIAN_OR_MIXOLYDIAN_COST - MINOR_COST;
      case MIXOLYDIAN -> DORIAN_OR_MIXOLYDIAN_COST;
      case PHRYGIAN -> RARE_MODE_COST - MINOR_COST;
      default -> RARE_MODE_COST;
    };
  }

  /** Programs write major by default, so that only another word says something. */
  private static boolean isStated(CentreScale scale, String mode) {
    String word = mode == null ? "" : mode.strip().toLowerCase(Locale.ROOT);
    return switch (word) {
      case "minor", "aeolian" -> scale == CentreScale.AEOLIAN;
      case "dorian", "phrygian", "lydian", "mixolydian" ->
          scale.name().toLowerCase(Locale.ROOT).equals(word);
      default -> false;
    };
  }

  /**
   * The form of minor that holds most of what is played on a tonic, of equals the natural one.
   *
   * @param notes of the line that count
   */
  static CentreScale formOfMinor(List<Note> notes, int tonic) {
    double[] sums = new double[12];
    notes.forEach(note -> sums[note.concert().pitchClass()] += length(note));
    return formOfMinor(sums, tonic);
  }

  private static CentreScale formOfMinor(double[] sums, int tonic) {
    CentreScale best = CentreScale.AEOLIAN;
    double most = 0;
    for (CentreScale form : FORMS_OF_MINOR) {
      double held = held(sums, tonic, form);
      if (held > most) {
        best = form;
        most = held;
      }
    }
    return best;
  }

  private static double held(double[] sums, int tonic, CentreScale scale) {
    double held = 0;
    for (int semitones : scale.semitones()) {
      held += sums[Math.floorMod(tonic + semitones, 12)];
    }
    return held;
  }

  private static double length(Note note) {
    return Fraction.smaller(note.length(), LONGEST).toDouble();
  }

  /** What sounds in a part of a line, and what it rests on. */
  private static final class Evidence {
    private final double[] sums = new double[12];
    private final int[] ends = new int[12];
    private double sounding;
    private int stretches;
    private int last = -1;
    private int notes;

    Evidence(Solo solo, List<Stretch> all, Fraction from, Fraction to) {
      for (Note note : solo.notes()) {
        if (note.onset().isAtLeast(from) && note.onset().isBefore(to)) {
          sums[note.concert().pitchClass()] += length(note);
          sounding += length(note);
          last = note.concert().pitchClass();
          notes++;
        }
      }
      for (Stretch stretch : all) {
        Note note = solo.notes().get(stretch.lastNote());
        if (note.onset().isAtLeast(from) && note.onset().isBefore(to)) {
          ends[note.concert().pitchClass()]++;
          stretches++;
        }
      }
    }

    /** True for at least three pitch classes that do not sound for the same time each. */
    boolean tells() {
      return KeyProfile.of(sums).centre().isKnown();
    }

    double share(int tonic, CentreScale scale) {
      return sounding == 0 ? 0 : held(sums, tonic, scale) / sounding;
    }

    CentreScale formOfMinor(int tonic) {
      return KeyFinder.formOfMinor(sums, tonic);
    }

    /** How much speaks for a major or minor key. */
    double score(TonalCentre key) {
      boolean minor = key.mode() == Mode.MINOR;
      int tonic = key.tonic();
      double correlation = KeyProfile.correlation(sums, key);
      double score =
          LIKELIHOOD * KeyProfile.meanLogShare(sums, key)
              + (Double.isNaN(correlation) ? 0 : CORRELATION * correlation)
              + (last == tonic ? LAST_NOTE : 0)
              - (minor ? MINOR_COST : 0);
      if (stretches > 0) {
        int onTriad = ends[(tonic + (minor ? 3 : 4)) % 12] + ends[(tonic + 7) % 12];
        score += (RESTS_ON_TONIC * ends[tonic] + RESTS_ON_TRIAD * onTriad) / stretches;
      }
      return score;
    }
  }
}
