package phrasecensus.comparison;

import java.io.Serializable;

/**
 * The mean of one statistic in a group, on its scale, tempo taken out.
 *
 * @param solos of the group, those without a value too
 */
public record GroupMean(GroupKey group, String statistic, double mean, int solos)
    implements Serializable {}
