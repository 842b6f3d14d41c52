package phrasecensus.music.comparison;

import phrasecensus.music.norm.BenjaminiHochberg;

/**
 * Statistics that are tested together: of those called clear, at most one in twenty is so by
 * chance.
 *
 * @param level a statistic is clear exactly when its p is at most this: .05 max(1, R) / m, where R
 *     of m were clear; .05 where none was tested
 * @param adjusted the adjusted p-values in the order given, bounds
 * @param clear how many are clear
 */
public record TestFamily(double level, double[] adjusted, int clear) {
  /** The level of every family. */
  public static final double LEVEL = .05;

  /** The family of these p-values, which may be none. */
  public static TestFamily of(double... pValues) {
    double[] adjusted = BenjaminiHochberg.adjusted(pValues);
    int clear = 0;
    for (double each : adjusted) {
      clear += each <= LEVEL ? 1 : 0;
    }
    return new TestFamily(
        pValues.length == 0 ? LEVEL : LEVEL * Math.max(1, clear) / pValues.length, adjusted, clear);
  }

  /** How many were tested. */
  public int size() {
    return adjusted.length;
  }

  /** True for the statistic at a place. */
  public boolean isClear(int place) {
    return adjusted[place] <= LEVEL;
  }
}
