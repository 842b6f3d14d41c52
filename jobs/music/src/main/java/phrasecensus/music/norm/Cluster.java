package phrasecensus.music.norm;

import java.util.Comparator;

/**
 * Names one solo for resampling.
 *
 * @param group solos are drawn only in place of others of the same group; any fixed text when there
 *     is one group
 * @param player who plays, never null
 * @param solo different from all others of the same group and player
 */
public record Cluster(String group, String player, String solo) implements Comparable<Cluster> {
  private static final Comparator<Cluster> ORDER =
      Comparator.comparing(Cluster::group)
          .thenComparing(Cluster::player)
          .thenComparing(Cluster::solo);

  /** By group, then player, then solo. */
  @Override
  public int compareTo(Cluster other) {
    return ORDER.compare(this, other);
  }
}
