package phrasecensus.music.norm;

/**
 * The value of a statistic for one solo of a group.
 *
 * @param player who plays; null or blank when not known, and all such solos then count as one
 *     player, since nothing shows that they are more
 * @param value null when the statistic is undefined for this solo
 */
public record NormValue(String player, Double value) {
  /** Stands in for a player whose name is not given. */
  public static final String UNKNOWN_PLAYER = "player not named";

  /**
   * @throws IllegalArgumentException if the value is given and not finite
   */
  public NormValue {
    player = player == null || player.isBlank() ? UNKNOWN_PLAYER : player.strip();
    if (value != null && !Double.isFinite(value)) {
      throw new IllegalArgumentException("Invalid value of a statistic: " + value);
    }
  }
}
