package phrasecensus.report.view;

import java.util.List;
import java.util.function.UnaryOperator;
import phrasecensus.report.engraving.Engraver;
import phrasecensus.report.engraving.Engraving;
import phrasecensus.report.engraving.Layout;
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
   * @param keyFifths key signature at concert pitch where bars have none; null for none
   */
  static Score of(String id, SoloLine line, Integer keyFifths) {
    return of(id, line, keyFifths, UnaryOperator.identity());
  }

  /**
   * Engraves the bars in which a phrase sounds, what is beside it in them pale.
   *
   * @param mostBars at most so many of them
   */
  static Score of(
      String id, SoloLine line, Integer keyFifths, SoloLine.PhraseSpan phrase, int mostBars) {
    int first = -1;
    int last = -1;
    for (int i = 0; i < line.bars().size(); i++) {
      SoloLine.BarSpan bar = line.bars().get(i);
      if (bar.end() > phrase.onset() + 1e-9 && bar.onset() < phrase.end() - 1e-9) {
        first = first < 0 ? i : first;
        last = i;
      }
    }
    int from = first;
    int to = Math.min(last, first + mostBars - 1);
    return first < 0
        ? NONE
        : of(
            id,
            line,
            keyFifths,
            layout -> layout.bars(from, to).focus(phrase.onset(), phrase.end()));
  }

  private static Score of(
      String id, SoloLine line, Integer keyFifths, UnaryOperator<Layout> part) {
    if (line.notes().isEmpty() || line.bars().isEmpty()) {
      return NONE;
    }
    try {
      return new Score(
          Engraver.engrave(id + "-wide", line, keyFifths, part.apply(Layout.wide())),
          Engraver.engrave(id + "-narrow", line, keyFifths, part.apply(Layout.narrow())),
          "");
    } catch (IllegalArgumentException e) {
      return new Score(List.of(), List.of(), FileText.withoutDirection(e.getMessage()));
    }
  }
}
