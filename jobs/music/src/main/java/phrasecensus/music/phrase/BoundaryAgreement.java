package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * How far two sets of phrase boundaries of one line agree, as counts.
 *
 * <p>A boundary is the index of a note that begins a phrase. Each boundary of one set is matched to
 * at most one of the other. Precision and recall take one set as the truth; F1 does not. Cohen's
 * kappa looks at each place where a boundary could stand; the many places without any raise it, so
 * it is no substitute for F1, and with a tolerance it is only a rough figure.
 *
 * @param trueBoundaries boundaries in the set that counts as the truth
 * @param foundBoundaries boundaries in the other set
 * @param matched pairs that agree
 * @param places where a boundary could stand
 */
public record BoundaryAgreement(
    long trueBoundaries, long foundBoundaries, long matched, long places) {

  /** Whether the first note of a line, which always begins a phrase, counts as a boundary. */
  public enum FirstNote {
    /** Inner boundaries only: the stricter convention. */
    NOT_COUNTED,
    /** The first note is a boundary in both sets: the convention of most published figures. */
    COUNTED
  }

  /**
   * @throws IllegalArgumentException if the counts cannot come from two sets
   */
  public BoundaryAgreement {
    if (matched < 0 || matched > Math.min(trueBoundaries, foundBoundaries)) {
      throw new IllegalArgumentException(
          "Invalid agreement: "
              + matched
              + " matched of "
              + trueBoundaries
              + " and "
              + foundBoundaries);
    }
    if (Math.max(trueBoundaries, foundBoundaries) > places) {
      throw new IllegalArgumentException(
          "Invalid agreement: more boundaries than the " + places + " places for them");
    }
  }

  /**
   * Agreement on the very note.
   *
   * @param truth inner boundaries, ascending
   * @param found inner boundaries, ascending
   * @param noteCount notes of the line
   */
  public static BoundaryAgreement exact(
      List<Integer> truth, List<Integer> found, int noteCount, FirstNote firstNote) {
    return withinNotes(truth, found, noteCount, 0, firstNote);
  }

  /**
   * Agreement within some notes.
   *
   * @param tolerance zero or more
   */
  public static BoundaryAgreement withinNotes(
      List<Integer> truth, List<Integer> found, int noteCount, int tolerance, FirstNote firstNote) {
    return of(fractions(truth), fractions(found), noteCount, Fraction.of(tolerance), firstNote);
  }

  /**
   * Agreement within some time.
   *
   * @param tolerance in beats of the metre, zero or more
   */
  public static BoundaryAgreement withinBeats(
      List<Integer> truth,
      List<Integer> found,
      Solo solo,
      Fraction tolerance,
      FirstNote firstNote) {
    List<Fraction> beats = beatsFromStart(solo);
    return of(
        truth.stream().map(beats::get).toList(),
        found.stream().map(beats::get).toList(),
        solo.notes().size(),
        tolerance,
        firstNote);
  }

  /** Counts of two lines together, as if they were one. */
  public BoundaryAgreement plus(BoundaryAgreement other) {
    return new BoundaryAgreement(
        trueBoundaries + other.trueBoundaries,
        foundBoundaries + other.foundBoundaries,
        matched + other.matched,
        places + other.places);
  }

  /** Counts of all lines together: long lines weigh more. */
  public static BoundaryAgreement pooled(Collection<BoundaryAgreement> agreements) {
    return agreements.stream().reduce(new BoundaryAgreement(0, 0, 0, 0), BoundaryAgreement::plus);
  }

  /**
   * Means of the scores of each line: each line weighs the same.
   *
   * @throws IllegalArgumentException if there is no line
   */
  public static Scores mean(Collection<BoundaryAgreement> agreements) {
    if (agreements.isEmpty()) {
      throw new IllegalArgumentException("Cannot take the mean agreement of no line");
    }
    double precision = 0;
    double recall = 0;
    double f1 = 0;
    double kappa = 0;
    for (BoundaryAgreement agreement : agreements) {
      precision += agreement.precision();
      recall += agreement.recall();
      f1 += agreement.f1();
      kappa += agreement.kappa();
    }
    int count = agreements.size();
    return new Scores(precision / count, recall / count, f1 / count, kappa / count);
  }

  /** The four scores of these counts. */
  public Scores scores() {
    return new Scores(precision(), recall(), f1(), kappa());
  }

  /** Share of the found boundaries that are true; when none is found, 1 if none is true, else 0. */
  public double precision() {
    return share(foundBoundaries, trueBoundaries);
  }

  /** Share of the true boundaries that are found; when none is true, 1 if none is found, else 0. */
  public double recall() {
    return share(trueBoundaries, foundBoundaries);
  }

  /** Harmonic mean of precision and recall; 1 when both sets are empty. */
  public double f1() {
    return trueBoundaries + foundBoundaries == 0
        ? 1
        : 2.0 * matched / (trueBoundaries + foundBoundaries);
  }

  /**
   * Cohen's kappa over the places (J. Cohen, A coefficient of agreement for nominal scales, 1960,
   * doi:10.1177/001316446002000104); 1 when both sets take no place, or both every place.
   */
  public double kappa() {
    return kappa(
        matched,
        foundBoundaries - matched,
        trueBoundaries - matched,
        places - trueBoundaries - foundBoundaries + matched);
  }

  /** Cohen's kappa of a two by two table; 1 when all cases are in one cell of agreement. */
  public static double kappa(long both, long onlyFirst, long onlySecond, long neither) {
    double total = both + onlyFirst + onlySecond + neither;
    double observed = (both + neither) / total;
    double expected =
        ((both + onlyFirst) / total) * ((both + onlySecond) / total)
            + ((onlySecond + neither) / total) * ((onlyFirst + neither) / total);
    return total == 0 || expected == 1 ? 1 : (observed - expected) / (1 - expected);
  }

  private double share(long of, long otherwise) {
    if (of == 0) {
      return otherwise == 0 ? 1 : 0;
    }
    return (double) matched / of;
  }

  private static BoundaryAgreement of(
      List<Fraction> truth,
      List<Fraction> found,
      int noteCount,
      Fraction tolerance,
      FirstNote firstNote) {
    if (tolerance.isNegative()) {
      throw new IllegalArgumentException("Invalid tolerance: " + tolerance + " is below zero");
    }
    int first = firstNote == FirstNote.COUNTED && noteCount > 0 ? 1 : 0;
    return new BoundaryAgreement(
        truth.size() + first,
        found.size() + first,
        matches(truth, found, tolerance) + first,
        Math.max(0, noteCount - 1) + first);
  }

  /** Size of the largest matching: places on a line can be matched greedily from the left. */
  private static int matches(List<Fraction> truth, List<Fraction> found, Fraction tolerance) {
    int matches = 0;
    int i = 0;
    int j = 0;
    while (i < truth.size() && j < found.size()) {
      Fraction distance = truth.get(i).minus(found.get(j));
      if (distance.isAfter(tolerance)) {
        j++;
      } else if (distance.negated().isAfter(tolerance)) {
        i++;
      } else {
        matches++;
        i++;
        j++;
      }
    }
    return matches;
  }

  private static List<Fraction> fractions(List<Integer> indices) {
    return indices.stream().map(Fraction::of).toList();
  }

  /** Beats from the start of the solo to each note, by the metre of each bar on the way. */
  private static List<Fraction> beatsFromStart(Solo solo) {
    List<Fraction> beats = new ArrayList<>();
    List<Bar> bars = solo.bars();
    Fraction before = Fraction.ZERO;
    int bar = 0;
    for (var note : solo.notes()) {
      if (bars.isEmpty()) {
        beats.add(note.onset());
        continue;
      }
      while (bar + 1 < bars.size() && !bars.get(bar + 1).onset().isAfter(note.onset())) {
        before = before.plus(bars.get(bar).length().dividedBy(bars.get(bar).metre().beatLength()));
        bar++;
      }
      Bar current = bars.get(bar);
      beats.add(
          before.plus(note.onset().minus(current.onset()).dividedBy(current.metre().beatLength())));
    }
    return beats;
  }

  /**
   * Scores of one line, or their means over lines.
   *
   * @param precision from 0 to 1
   * @param recall from 0 to 1
   * @param f1 from 0 to 1
   * @param kappa at most 1; 0 for agreement by chance
   */
  public record Scores(double precision, double recall, double f1, double kappa) {}
}
