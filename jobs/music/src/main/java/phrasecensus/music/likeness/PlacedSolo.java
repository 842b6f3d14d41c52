package phrasecensus.music.likeness;

/**
 * A solo with its place in every compared statistic.
 *
 * @param soloId names the solo
 * @param player who plays; empty where not known, and the solo then counts as one of a player of
 *     its own
 * @param group its style or another group; empty where it has none
 * @param places on the scale of each statistic, tempo taken out, in the order of the statistics;
 *     NaN where undefined
 */
public record PlacedSolo(String soloId, String player, String group, double[] places) {}
