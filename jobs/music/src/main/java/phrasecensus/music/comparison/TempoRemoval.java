package phrasecensus.music.comparison;

import java.io.Serializable;
import java.util.Map;

/**
 * Puts solos on the scale of one statistic and takes out what tempo makes of them, by the slopes of
 * a corpus.
 *
 * @param scale of the statistic
 * @param tempoScale the tempos that slopes know
 * @param slopes of the corpus; 0 where no tempo is known
 * @param ofGroup what stands for the tempo of a solo without one: what tempo adds to the mean solo
 *     of its group
 * @param ofCorpus the same of the whole corpus, for groups without a tempo
 */
public record TempoRemoval(
    Scale scale,
    TempoScale tempoScale,
    TempoSlopes slopes,
    Map<String, Double> ofGroup,
    double ofCorpus)
    implements Serializable {
  /** The place of a solo, tempo taken out; NaN where it has no value that is compared. */
  public double place(ComparedSolo solo) {
    double owed;
    if (solo.hasTempo()) {
      double doublings = tempoScale.doublings(solo.tempo());
      owed = slopes.at(doublings, doublings * doublings);
    } else {
      owed = ofGroup.getOrDefault(solo.group(), ofCorpus);
    }
    return solo.on(scale) - owed;
  }
}
