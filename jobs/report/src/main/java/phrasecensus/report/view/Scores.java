package phrasecensus.report.view;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Map;
import java.util.function.UnaryOperator;
import phrasecensus.report.engraving.Engraver;
import phrasecensus.report.engraving.Layout;
import phrasecensus.report.engraving.WrittenSolo;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;

/**
 * Makes scores, and writes each solo down once for all of them: a page shows many phrases of few
 * solos, each at two widths. Several threads may ask.
 */
final class Scores {
  private final Map<SoloLine, WrittenSolo> written =
      Collections.synchronizedMap(new IdentityHashMap<>());

  /**
   * Engraves a line.
   *
   * @param id start of the ids, unique in the page
   * @param keyFifths key signature at concert pitch where bars have none; null for none
   */
  Score of(String id, SoloLine line, Integer keyFifths) {
    return of(id, line, keyFifths, UnaryOperator.identity());
  }

  /**
   * Engraves the bars in which a phrase sounds, what is beside it in them pale.
   *
   * @param mostBars at most so many of them
   */
  Score of(String id, SoloLine line, Integer keyFifths, SoloLine.PhraseSpan phrase, int mostBars) {
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
        ? Score.NONE
        : of(
            id,
            line,
            keyFifths,
            layout -> layout.bars(from, to).focus(phrase.onset(), phrase.end()));
  }

  /**
   * Engraves bars of a line for a sheet, notes outside the key ringed.
   *
   * @param wide how it is laid out on paper
   * @param narrow how it is laid out on a phone
   */
  Score onSheet(String id, SoloLine line, Integer keyFifths, Layout wide, Layout narrow) {
    return of(id, line, keyFifths, wide.ringed(), narrow.ringed());
  }

  private Score of(String id, SoloLine line, Integer keyFifths, UnaryOperator<Layout> part) {
    return of(id, line, keyFifths, part.apply(Layout.wide()), part.apply(Layout.narrow()));
  }

  /** Engraves a line as two layouts say. */
  Score of(String id, SoloLine line, Integer keyFifths, Layout wide, Layout narrow) {
    if (line.notes().isEmpty() || line.bars().isEmpty()) {
      return Score.NONE;
    }
    try {
      WrittenSolo solo = written.get(line);
      if (solo == null) {
        solo = WrittenSolo.of(line);
        written.put(line, solo);
      }
      return new Score(
          Engraver.engrave(id + "-wide", solo, keyFifths, wide),
          Engraver.engrave(id + "-narrow", solo, keyFifths, narrow),
          "");
    } catch (ArithmeticException | IndexOutOfBoundsException | NullPointerException e) {
      // Nothing else of a study is worth losing for what one solo looks like.
      return Score.without(Text.of("solo.score.fault"));
    } catch (IllegalArgumentException e) {
      return Score.without(FileText.withoutDirection(e.getMessage()));
    }
  }
}
