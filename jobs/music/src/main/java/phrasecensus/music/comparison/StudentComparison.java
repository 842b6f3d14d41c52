package phrasecensus.music.comparison;

import java.io.Serializable;
import java.util.List;
import java.util.Optional;

/** One statistic of a student's solos beside a group: one solo, or several together. */
public final class StudentComparison implements Serializable {
  private static final long serialVersionUID = 1L;

  private final GroupComparison group;
  private final StudentMean mean;
  private final double phrases;
  private final double shift;
  private final double harmonicN;
  private final int cap;

  private StudentComparison(
      GroupComparison group, StudentMean mean, double phrases, double shift, double harmonicN) {
    this.group = group;
    this.mean = mean;
    this.phrases = phrases;
    this.shift = shift;
    this.harmonicN = harmonicN;
    this.cap = mean == null ? 0 : Freedom.cap(mean.solos(), group.others().freedom());
  }

  /**
   * @param group what to compare with; made without tempo where one of these solos has none
   * @param solos the student's; those without a value are left out
   */
  public static StudentComparison of(GroupComparison group, List<ComparedSolo> solos) {
    Scale scale = group.shipped().scale();
    List<ComparedSolo> defined =
        solos.stream().filter(solo -> !Double.isNaN(solo.on(scale))).toList();
    if (defined.isEmpty()) {
      return new StudentComparison(group, null, 0, 0, 0);
    }
    int k = defined.size();
    double[] values = new double[k];
    double[] relative = new double[k];
    double weights = 0;
    double u = 0;
    double uu = 0;
    double inverse = 0;
    double phrases = 0;
    for (int i = 0; i < k; i++) {
      ComparedSolo solo = defined.get(i);
      relative[i] = RelativeVariance.of(group.shipped().noise(), solo.count());
      double w = 1 / relative[i];
      double doublings = group.isTempoTakenOut() ? group.tempoScale().doublings(solo.tempo()) : 0;
      values[i] = solo.on(scale) - group.slopes().at(doublings, doublings * doublings);
      weights += w;
      u += w * doublings;
      uu += w * doublings * doublings;
      inverse += 1 / solo.n();
      phrases += solo.count();
    }
    return new StudentComparison(
        group,
        StudentMean.of(values, relative),
        phrases,
        group.slopes().at(u / weights, uu / weights),
        k / inverse);
  }

  /** True where the student has a value. */
  public boolean hasValue() {
    return mean != null;
  }

  /** True where there is a value, and a group to hold it against. */
  public boolean isTested() {
    return mean != null && group.mixture().isPresent();
  }

  /** What the solos say together; null without a value. */
  public StudentMean mean() {
    return mean;
  }

  /** Phrases that the values of the solos rest on together, or things counted if they are fewer. */
  public double phrases() {
    return phrases;
  }

  /** What the group's figures are moved by to stand at the student's tempo, on the scale. */
  public double shift() {
    return shift;
  }

  /** Harmonic mean of the n of the solos. */
  public double harmonicN() {
    return harmonicN;
  }

  /** Most degrees of freedom of the test. */
  public int cap() {
    return cap;
  }

  /** How probable a further player of the group at least as far out is; NaN where not tested. */
  public double p() {
    return isTested() ? mixture().p(mean.value(), mean.omega(), cap) : Double.NaN;
  }

  /** The same if every solo lay so much higher on the scale. */
  double p(double moved) {
    return isTested() ? mixture().p(mean.value() + moved, mean.omega(), cap) : Double.NaN;
  }

  /**
   * Where such solos of a further player of the group lie but for a share of {@code level}, on the
   * scale without tempo.
   */
  public PredictiveMixture.Range range(double level) {
    return mixture().interval(level, mean.omega(), cap);
  }

  /** The student's value in the unit of the statistic, several solos together as one. */
  public double shown() {
    return shown(mean.value());
  }

  /** A place of the scale without tempo in the unit of the statistic, at the student's tempo. */
  public double shown(double place) {
    return group.shipped().scale().backward(place + shift, harmonicN);
  }

  /**
   * How far the student lies from the centre of the group, in standard deviations of a usual solo
   * of it; NaN where not tested.
   */
  public double distance() {
    return isTested()
        ? (mean.value() - mixture().centre()) / Math.sqrt(mixture().variance())
        : Double.NaN;
  }

  private PredictiveMixture mixture() {
    Optional<PredictiveMixture> mixture = group.mixture();
    return mixture.orElseThrow();
  }
}
