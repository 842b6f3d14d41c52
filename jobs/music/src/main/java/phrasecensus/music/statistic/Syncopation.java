package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/**
 * Syncopation after Longuet-Higgins and Lee (1984, Music Perception 1, 424-441; from memory): an
 * onset at a place of weight {@code a} that is followed, before the next onset, by a silent or held
 * place of weight {@code b > a} adds {@code b - a} for the strongest such place. Strict: equal
 * weights add nothing.
 */
public final class Syncopation {
  private Syncopation() {}

  /**
   * Sum over one bar that is repeated without end, so the first onset follows the last.
   *
   * @param metre not {@link Metre#FREE}
   * @param onsets places in the bar in quarter notes, ascending, from 0 to below the bar's length
   * @return at least 0; 0 without onsets
   */
  public static int longuetHigginsLee(Metre metre, List<Fraction> onsets) {
    MetricalGrid grid = new MetricalGrid(metre);
    int sum = 0;
    for (int i = 0; i < onsets.size(); i++) {
      Fraction next =
          i + 1 < onsets.size() ? onsets.get(i + 1) : onsets.get(0).plus(metre.barLength());
      sum += grid.excess(onsets.get(i), next);
    }
    return sum;
  }

  /**
   * The same for a bar of equal slots.
   *
   * @param pattern one sign a slot: {@code 1} for an onset, any other for none
   */
  public static int longuetHigginsLee(Metre metre, String pattern) {
    List<Fraction> onsets = new ArrayList<>();
    for (int slot = 0; slot < pattern.length(); slot++) {
      if (pattern.charAt(slot) == '1') {
        onsets.add(metre.barLength().times(Fraction.of(slot, pattern.length())));
      }
    }
    return longuetHigginsLee(metre, onsets);
  }
}
