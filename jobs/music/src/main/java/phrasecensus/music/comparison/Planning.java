package phrasecensus.music.comparison;

import java.util.OptionalInt;

/**
 * How much is found with how many solos. A difference counts in standard deviations of a usual solo
 * about its group.
 *
 * @param correlation of solos in players
 * @param centreVariance variance of the group's centre, in units of that of a usual solo
 * @param freedom degrees of freedom of the group
 * @param othersFreedom degrees of freedom of the other groups; 0 where there are none
 */
public record Planning(double correlation, double centreVariance, int freedom, int othersFreedom) {
  /** More solos of a student than this are not asked for. */
  public static final int MOST_SOLOS = 200;

  /** By a mixture's means. */
  public static Planning of(PredictiveMixture mixture, OtherGroups others) {
    return new Planning(
        mixture.correlation(), mixture.centreVariance(), mixture.freedom(), others.freedom());
  }

  private StudentT distribution(int solos) {
    return new StudentT(Math.min(freedom, Freedom.cap(solos, othersFreedom)));
  }

  private double deviation(double relative, int solos) {
    return Math.sqrt(correlation + (1 - correlation) * relative / solos + centreVariance);
  }

  /**
   * The chance that a difference is found.
   *
   * @param shift size of the difference
   * @param solos of the student
   * @param relative relative variance of a solo
   * @param level of the test
   */
  public double power(double shift, int solos, double relative, double level) {
    StudentT t = distribution(solos);
    return t.exactBelow(shift / deviation(relative, solos) - t.exceededWith(level / 2));
  }

  /**
   * The fewest solos of a student with which a difference is found with the chance wanted.
   *
   * @return empty where 200 are too few: players differ more than this
   */
  public OptionalInt solosNeeded(double shift, double relative, double level, double wanted) {
    for (int solos = 1; solos <= MOST_SOLOS; solos++) {
      StudentT t = distribution(solos);
      double reach = t.exceededWith(level / 2) + t.exceededWith(1 - wanted);
      if (shift >= reach * deviation(relative, solos)) {
        return OptionalInt.of(solos);
      }
    }
    return OptionalInt.empty();
  }
}
