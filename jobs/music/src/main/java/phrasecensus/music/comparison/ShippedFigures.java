package phrasecensus.music.comparison;

import java.io.Serializable;

/**
 * What is known of one statistic before a study begins, from other solos.
 *
 * @param statistic key in the catalogue
 * @param scale on which it is compared
 * @param noise share of the variance of a usual solo that its length makes, see {@link
 *     RelativeVariance}
 * @param correlationMean mean of what is held of the correlation of solos in players
 * @param tempo how it goes with tempo
 * @param tempoScale the tempos that this is known of
 * @param phrasesForHalf see {@link Reliability}
 */
public record ShippedFigures(
    String statistic,
    Scale scale,
    double noise,
    double correlationMean,
    TempoSlopes.Shipped tempo,
    TempoScale tempoScale,
    double phrasesForHalf)
    implements Serializable {}
