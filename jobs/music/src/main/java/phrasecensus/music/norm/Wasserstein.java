package phrasecensus.music.norm;

/**
 * The Wasserstein-1 distance of two samples, the area between their distribution functions: how
 * far, on average, the values of one must be moved to become the other. In the statistic's own unit
 * (bars, semitones), so the easiest distance to explain.
 */
public final class Wasserstein {
  private Wasserstein() {}

  /**
   * The distance, at least 0. Cost: the sum of the sizes.
   *
   * @throws IllegalArgumentException if a sample is empty
   */
  public static double distance(Sample x, Sample y) {
    MannWhitney.requireValues(x, y);
    int i = 0;
    int j = 0;
    double area = 0;
    double at = Math.min(x.min(), y.min());
    while (i < x.size() || j < y.size()) {
      double next =
          Math.min(
              i < x.size() ? x.at(i) : Double.POSITIVE_INFINITY,
              j < y.size() ? y.at(j) : Double.POSITIVE_INFINITY);
      area += Math.abs((double) i / x.size() - (double) j / y.size()) * (next - at);
      at = next;
      while (i < x.size() && x.at(i) == at) {
        i++;
      }
      while (j < y.size() && y.at(j) == at) {
        j++;
      }
    }
    return area;
  }
}
