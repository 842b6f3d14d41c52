package phrasecensus.music.norm;

/**
 * How much of a distribution a group is large enough to show.
 *
 * <p>A quantile is shown only when a 95 % distribution-free interval for it exists: from n = 6 for
 * the median, 11 for the quartiles, 29 for the deciles, 59 for 5 and 95 %, where 1 - p^n - (1-p)^n
 * reaches .95. The bands are common practice, no source.
 */
public enum NormLevel {
  /** Fewer than 6 values: they are listed, and there is no norm. */
  LIST_ONLY(0),
  /** 6 to 10 values: the median only. */
  MEDIAN(6),
  /** 11 to 28 values: the quartiles too, so there is a middle band. */
  QUARTILES(11),
  /** 29 to 58 values: the deciles too. */
  DECILES(29),
  /** 59 values and more: 5 and 95 % too. */
  FULL(59);

  private final int leastSize;

  NormLevel(int leastSize) {
    this.leastSize = leastSize;
  }

  /** The fewest values that reach this level. */
  public int leastSize() {
    return leastSize;
  }

  /**
   * The level that {@code n} values reach.
   *
   * @throws IllegalArgumentException if {@code n} is negative
   */
  public static NormLevel of(int n) {
    if (n < 0) {
      throw new IllegalArgumentException("Invalid number of values: " + n);
    }
    NormLevel reached = LIST_ONLY;
    for (NormLevel level : values()) {
      if (n >= level.leastSize) {
        reached = level;
      }
    }
    return reached;
  }

  /** True when at least the values of {@code other} are enough here. */
  public boolean reaches(NormLevel other) {
    return compareTo(other) >= 0;
  }
}
