package phrasecensus.music.comparison;

import java.util.List;

/**
 * How much a statistic tells solos apart, from halves of solos (their odd and their even phrases).
 *
 * @param phraseVariance variance of one phrase, on the scale
 * @param phrasesForHalf phrases that make a value half reliable: half of the variance between solos
 *     of that length is not chance; infinite where halves do not agree
 */
public record Reliability(double phraseVariance, double phrasesForHalf) {
  /** Solos from which on a study's own are used. */
  public static final int LEAST_SOLOS = 60;

  /** A pair of halves with their numbers of phrases, both on the scale and without tempo. */
  public record Halves(double odd, double even, double oddPhrases, double evenPhrases) {}

  /**
   * @param halves of two solos or more
   */
  public static Reliability of(List<Halves> halves) {
    double squares = 0;
    double inverse = 0;
    double odd = 0;
    double even = 0;
    for (Halves each : halves) {
      double apart = each.odd - each.even;
      squares += apart * apart;
      inverse += 1 / each.oddPhrases + 1 / each.evenPhrases;
      odd += each.odd / halves.size();
      even += each.even / halves.size();
    }
    double together = 0;
    for (Halves each : halves) {
      together += (each.odd - odd) * (each.even - even);
    }
    double covariance = together / (halves.size() - 1);
    double variance = squares / inverse;
    return new Reliability(
        variance, covariance > 0 ? variance / covariance : Double.POSITIVE_INFINITY);
  }

  /** Reliability of a value that rests on so many phrases, from 0 to 1. */
  public double at(double phrases) {
    return at(phrases, phrasesForHalf);
  }

  /** Reliability of a value that rests on so many phrases, where so many make it half reliable. */
  public static double at(double phrases, double phrasesForHalf) {
    return Double.isInfinite(phrasesForHalf) ? 0 : phrases / (phrases + phrasesForHalf);
  }

  /** Phrases that make a value reliable to .8. */
  public double phrasesForFourFifths() {
    return 4 * phrasesForHalf;
  }
}
