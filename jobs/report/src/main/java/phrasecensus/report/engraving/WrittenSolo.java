package phrasecensus.report.engraving;

import java.util.List;
import phrasecensus.report.rows.SoloLine;

/**
 * A solo as signs on a staff: what all its engravings have in common, whatever their width and
 * whichever bars they show.
 */
public final class WrittenSolo {
  private final SoloLine line;
  private final List<WrittenBar> bars;
  private final List<Clef> clefs;

  private WrittenSolo(SoloLine line, List<WrittenBar> bars, List<Clef> clefs) {
    this.line = line;
    this.bars = bars;
    this.clefs = clefs;
  }

  /**
   * Writes a line down.
   *
   * @throws IllegalArgumentException with a sentence where a rhythm or a pitch cannot be written
   */
  public static WrittenSolo of(SoloLine line) {
    List<WrittenBar> bars;
    try {
      bars = Notation.of(line);
    } catch (ArithmeticException e) {
      throw new IllegalArgumentException("Its rhythm is too fine to be written down.", e);
    }
    return new WrittenSolo(line, bars, ClefChoice.of(bars));
  }

  SoloLine line() {
    return line;
  }

  List<WrittenBar> bars() {
    return bars;
  }

  /** One for each bar. */
  List<Clef> clefs() {
    return clefs;
  }
}
