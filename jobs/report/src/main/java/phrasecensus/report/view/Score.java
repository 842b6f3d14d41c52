package phrasecensus.report.view;

import java.util.List;
import phrasecensus.report.engraving.Engraver;
import phrasecensus.report.engraving.Engraving;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.FileText;

/**
 * Notes as notation, broken into systems for a wide and for a narrow screen.
 *
 * @param reason why there is none; empty when there is, or when none was asked for
 */
public record Score(List<Engraving> wide, List<Engraving> narrow, String reason) {
  /** No notation, and none is missing. */
  static final Score NONE = new Score(List.of(), List.of(), "");

  private static final int WIDE_SYSTEM = 720;
  private static final double WIDE_STAFF_SPACE = 7;
  private static final int NARROW_SYSTEM = 344;
  private static final double NARROW_STAFF_SPACE = 6.4;

  public Score {
    wide = List.copyOf(wide);
    narrow = List.copyOf(narrow);
  }

  public boolean isEmpty() {
    return wide.isEmpty();
  }

  /**
   * Engraves a line.
   *
   * @param id start of the ids, unique in the page
   * @param keyFifths key signature at concert pitch; null for none
   */
  static Score of(String id, SoloLine line, Integer keyFifths) {
    if (line.notes().isEmpty() || line.bars().isEmpty()) {
      return NONE;
    }
    try {
      return new Score(
          Engraver.engrave(id + "-wide", line, keyFifths, WIDE_SYSTEM, WIDE_STAFF_SPACE),
          Engraver.engrave(id + "-narrow", line, keyFifths, NARROW_SYSTEM, NARROW_STAFF_SPACE),
          "");
    } catch (IllegalArgumentException e) {
      return new Score(List.of(), List.of(), FileText.withoutDirection(e.getMessage()));
    }
  }
}
