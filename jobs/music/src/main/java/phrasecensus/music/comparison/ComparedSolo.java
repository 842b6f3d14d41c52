package phrasecensus.music.comparison;

/**
 * One statistic of one solo, as it is compared.
 *
 * @param soloId names the solo
 * @param player who plays; empty where not known, and the solo then counts as one of a player of
 *     its own
 * @param group value of the column that makes the groups; empty where the solo has none
 * @param value NaN where the statistic is undefined for the solo
 * @param n how many things the value counts, as it stands beside it
 * @param phrases phrases of the solo
 * @param tempo in quarter notes a minute; NaN where not known
 */
public record ComparedSolo(
    String soloId,
    String player,
    String group,
    double value,
    double n,
    double phrases,
    double tempo) {
  /** Phrases that the value rests on, or things counted if they are fewer. */
  public double count() {
    return Math.min(phrases, n);
  }

  /** True where the tempo is known. */
  public boolean hasTempo() {
    return tempo > 0 && Double.isFinite(tempo);
  }

  /** The value on a scale; NaN where it is undefined, rests on too little or has no place there. */
  public double on(Scale scale) {
    if (!Double.isFinite(value) || count() < RelativeVariance.LEAST_COUNT) {
      return Double.NaN;
    }
    double place = scale.forward(value, n);
    return Double.isFinite(place) ? place : Double.NaN;
  }
}
