package phrasecensus.music.comparison;

/**
 * Two groups of a corpus beside each other in one statistic, to be shown.
 *
 * @param contrast on the scale of the statistic
 * @param scale that scale
 * @param tempoTakenOut true where both groups were brought to one tempo, the mean of their solos
 * @param shift what that tempo adds on the scale
 * @param harmonicN harmonic mean of the n of the solos
 */
public record CorpusContrast(
    GroupContrast contrast, Scale scale, boolean tempoTakenOut, double shift, double harmonicN) {
  /** First less second group in the unit of the statistic. */
  public double difference() {
    return shown(contrast.difference());
  }

  /** Lower end of its 95 % interval; NaN where there is none. */
  public double low() {
    return shown(contrast.low());
  }

  /** Upper end; NaN where there is none. */
  public double high() {
    return shown(contrast.high());
  }

  /** A difference on the scale, half of it to either side of the middle of both groups. */
  private double shown(double difference) {
    double middle = contrast.middle() + shift;
    return scale.backward(middle + difference / 2, harmonicN)
        - scale.backward(middle - difference / 2, harmonicN);
  }
}
