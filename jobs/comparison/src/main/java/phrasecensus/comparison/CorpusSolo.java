package phrasecensus.comparison;

import java.util.List;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.HalvedSolo;
import phrasecensus.music.norm.NormValue;
import phrasecensus.tables.Grouping;

/**
 * The value of one statistic in one solo of the corpus.
 *
 * @param soloId the solo
 * @param normValue player and value
 * @param groupValues the solo's group in each column that makes groups, in the order of the columns
 * @param basis what the value rests on
 */
public record CorpusSolo(
    String soloId, NormValue normValue, List<String> groupValues, Basis basis) {
  /**
   * What a value rests on.
   *
   * @param n what it counts
   * @param phrases of the solo
   * @param tempo of the solo in quarter notes a minute; NaN where not known
   * @param odd value in the first, third … phrase; NaN where undefined
   * @param even value in the second, fourth … phrase; NaN where undefined
   */
  public record Basis(double n, double phrases, double tempo, double odd, double even) {
    /** Nothing is known: such a value has a place in norms and none in comparisons. */
    public static final Basis UNKNOWN = new Basis(0, 0, Double.NaN, Double.NaN, Double.NaN);
  }

  public CorpusSolo {
    groupValues = List.copyOf(groupValues);
  }

  /** A solo for norms alone. */
  CorpusSolo(String soloId, NormValue normValue, List<String> groupValues) {
    this(soloId, normValue, groupValues, Basis.UNKNOWN);
  }

  /** Null when the statistic is undefined for the solo. */
  Double value() {
    return normValue.value();
  }

  String player() {
    return normValue.player();
  }

  /**
   * As it is compared.
   *
   * @param column place of the column that makes the groups; below 0 for none
   */
  public ComparedSolo compared(int column) {
    String group = column < 0 ? "" : groupValues.get(column);
    return new ComparedSolo(
        soloId,
        player().equals(NormValue.UNKNOWN_PLAYER) ? "" : player(),
        Grouping.isLeftover(group) ? "" : group,
        value() == null ? Double.NaN : value(),
        basis.n,
        basis.phrases,
        basis.tempo);
  }

  /** The same with its halves. */
  HalvedSolo halved(int column) {
    return new HalvedSolo(compared(column), basis.odd, basis.even);
  }
}
