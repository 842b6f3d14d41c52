package phrasecensus.music.harmony;

import java.util.List;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.score.Note;

/**
 * Finds a key from notes alone: the correlation of the sounding time of each pitch class with the
 * profile of each major and minor key (method of Krumhansl and Schmuckler, Krumhansl 1990, from
 * memory; profile of Temperley 2007, in {@code key-profile.csv}).
 *
 * <p>On jazz solos it finds tonic and mode in about half of the cases, so {@link KeyFinder} lets it
 * speak only where no chord is written, and together with what a line rests on.
 */
public final class KeyProfile {
  private static final double[][] PROFILES = profiles();

  private KeyProfile() {}

  /**
   * A key and how well it fits.
   *
   * @param centre major or minor; {@link TonalCentre#UNKNOWN} when the notes do not tell
   * @param correlation with the key's profile, -1 to 1; 0 for unknown
   * @param margin how much better than the second best key; at least 0
   */
  public record Fit(TonalCentre centre, double correlation, double margin) {}

  private static double[][] profiles() {
    List<String> rows = CentreWeights.rows("key-profile.csv");
    double[][] profiles = new double[rows.size()][12];
    for (int row = 0; row < rows.size(); row++) {
      String[] cells = rows.get(row).split(",");
      for (int i = 0; i < 12; i++) {
        profiles[row][i] = Double.parseDouble(cells[i + 1]);
      }
    }
    return profiles;
  }

  /** The key of a line, each note counting with its length. */
  public static Fit of(List<Note> notes) {
    double[] sums = new double[12];
    for (Note note : notes) {
      sums[note.concert().pitchClass()] += note.length().toDouble();
    }
    return of(sums);
  }

  /**
   * The key of a distribution of pitch classes.
   *
   * @param sums twelve weights from C upwards, none negative; fewer than three above zero, or all
   *     equal, leave the key unknown
   */
  static Fit of(double[] sums) {
    int present = 0;
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (double sum : sums) {
      present += sum > 0 ? 1 : 0;
      least = Math.min(least, sum);
      most = Math.max(most, sum);
    }
    if (present < 3 || most - least < 1e-9) {
      return new Fit(TonalCentre.UNKNOWN, 0, 0);
    }
    double best = Double.NEGATIVE_INFINITY;
    double second = Double.NEGATIVE_INFINITY;
    TonalCentre centre = TonalCentre.UNKNOWN;
    for (int mode = 0; mode < 2; mode++) {
      for (int tonic = 0; tonic < 12; tonic++) {
        double r = correlation(sums, PROFILES[mode], tonic);
        if (r > best) {
          second = best;
          best = r;
          centre = new TonalCentre(tonic, mode == 0 ? Mode.MAJOR : Mode.MINOR);
        } else if (r > second) {
          second = r;
        }
      }
    }
    return new Fit(centre, best, best - second);
  }

  /**
   * Pearson's correlation with a profile whose tonic stands on a pitch class; NaN for equal sums.
   */
  static double correlation(double[] sums, double[] profile, int tonic) {
    double mean = 0;
    double profileMean = 0;
    for (int i = 0; i < 12; i++) {
      mean += sums[i] / 12;
      profileMean += profile[i] / 12;
    }
    double product = 0;
    double square = 0;
    double profileSquare = 0;
    for (int i = 0; i < 12; i++) {
      double x = sums[i] - mean;
      double y = profile[Math.floorMod(i - tonic, 12)] - profileMean;
      product += x * y;
      square += x * x;
      profileSquare += y * y;
    }
    return product / Math.sqrt(square * profileSquare);
  }

  /**
   * Mean logarithm of the shares that a key's profile, made to sum to 1, gives to what sounds.
   *
   * @param sums twelve weights from C upwards, none negative, not all zero
   */
  static double meanLogShare(double[] sums, TonalCentre key) {
    double[] profile = PROFILES[key.mode() == Mode.MAJOR ? 0 : 1];
    double whole = 0;
    for (double value : profile) {
      whole += value;
    }
    double total = 0;
    double logarithms = 0;
    for (int i = 0; i < 12; i++) {
      total += sums[i];
      logarithms += sums[i] * Math.log(profile[Math.floorMod(i - key.tonic(), 12)] / whole);
    }
    return logarithms / total;
  }

  static double correlation(double[] sums, TonalCentre key) {
    return correlation(sums, PROFILES[key.mode() == Mode.MAJOR ? 0 : 1], key.tonic());
  }
}
