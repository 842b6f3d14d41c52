package phrasecensus.report.view;

import phrasecensus.report.listen.Sound;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;

/**
 * A phrase shown for what it does.
 *
 * @param caption whose it is and where it stands
 * @param value what the phrase has of the statistic it stands for
 * @param score its bars
 * @param sound what it sounds like; null when there is nothing to hear
 */
public record Excerpt(String caption, String value, Score score, Sound sound) {
  /** Longer phrases are shown as far as this, so that a page keeps its size. */
  static final int MOST_BARS = 10;

  /** Engraves the bars of a phrase. */
  static Excerpt of(
      Scores scores,
      String id,
      String caption,
      String value,
      SoloFacts facts,
      SoloLine line,
      SoloLine.PhraseSpan phrase) {
    return new Excerpt(
        caption,
        value,
        scores.of(id, line, facts.keyFifths(), phrase, MOST_BARS),
        Sound.of(id, facts, line, phrase));
  }
}
