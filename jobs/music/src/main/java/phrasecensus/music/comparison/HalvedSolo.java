package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * One statistic of one solo with its values in the two halves: the first, third … phrase, and the
 * second, fourth …
 *
 * @param solo the whole
 * @param odd value in the odd phrases; NaN where undefined
 * @param even value in the even phrases; NaN where undefined
 */
public record HalvedSolo(ComparedSolo solo, double odd, double even) {
  private static final int LEAST_PHRASES = 2;

  private double oddPhrases() {
    return Math.ceil(solo.phrases() / 2);
  }

  private double evenPhrases() {
    return Math.floor(solo.phrases() / 2);
  }

  /** A half on the scale; what it counts is the part of the whole's that its phrases are. */
  private double on(Scale scale, double value, double phrases) {
    return scale.forward(value, Math.max(1, solo.n() * phrases / solo.phrases()));
  }

  /**
   * The halves of those solos that have both, each of two phrases or more and with a place on the
   * scale.
   *
   * @param halved of solos with a value on the scale
   * @param tempo what a solo's value owes to its tempo, on the scale
   */
  static List<Reliability.Halves> on(
      Scale scale, List<HalvedSolo> halved, ToDoubleFunction<ComparedSolo> tempo) {
    List<Reliability.Halves> halves = new ArrayList<>();
    for (HalvedSolo each : halved) {
      if (each.evenPhrases() < LEAST_PHRASES || Double.isNaN(each.odd) || Double.isNaN(each.even)) {
        continue;
      }
      double odd = each.on(scale, each.odd, each.oddPhrases());
      double even = each.on(scale, each.even, each.evenPhrases());
      if (Double.isFinite(odd) && Double.isFinite(even)) {
        double owed = tempo.applyAsDouble(each.solo);
        halves.add(
            new Reliability.Halves(odd - owed, even - owed, each.oddPhrases(), each.evenPhrases()));
      }
    }
    return halves;
  }
}
