package phrasecensus.report.view;

import java.util.List;
import phrasecensus.report.engraving.Engraving;

/**
 * Notes as notation, broken into systems for a wide and for a narrow screen.
 *
 * @param reason why there is none; empty when there is, or when none was asked for
 */
public record Score(List<Engraving> wide, List<Engraving> narrow, String reason) {
  /** No notation, and none is missing. */
  static final Score NONE = new Score(List.of(), List.of(), "");

  public Score {
    wide = List.copyOf(wide);
    narrow = List.copyOf(narrow);
  }

  public boolean isEmpty() {
    return wide.isEmpty();
  }

  /** No notation, for a reason. */
  static Score without(String reason) {
    return new Score(List.of(), List.of(), reason);
  }
}
