package phrasecensus.music.statistic;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import phrasecensus.music.analysis.GuideTones;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.ScoreTime;
import phrasecensus.music.time.Fraction;

/**
 * Counts every second phrase of a solo. How much is played in which time, which a solo's value
 * takes from its first note to its last, is here of each phrase with the silence up to the next
 * one.
 */
final class HalfTally {
  private final SoloAnalysis analysis;
  private final int parity;
  private final Tallies tallies = new Tallies();
  private int phrases;
  private int notes;
  private double soundingQuarters;
  private Fraction quarters = Fraction.ZERO;

  /** Null once a part has no metre. */
  private Fraction bars = Fraction.ZERO;

  /**
   * @param parity 0 for the first, third … phrase, 1 for the second, fourth …
   */
  HalfTally(SoloAnalysis analysis, int parity) {
    this.analysis = analysis;
    this.parity = parity;
  }

  /** Takes a phrase that was counted alone, if it is one of this half. */
  void add(PhraseLine line, Tallies counted) {
    Phrase phrase = line.phrase();
    if (phrase.index() % 2 != parity) {
      return;
    }
    tallies.add(line, counted);
    phrases++;
    notes += line.size();
    for (int i = 0; i < line.size(); i++) {
      soundingQuarters += line.note(i).length().toDouble();
    }
    int next = phrase.index() + 1;
    Fraction onset = line.first().onset();
    Fraction end =
        next < analysis.phrases().size() ? analysis.phrases().get(next).onset() : line.end();
    quarters = quarters.plus(end.minus(onset));
    Fraction inBars =
        bars == null ? null : ScoreTime.bars(line.solo(), onset, end, line.first().barIndex());
    bars = inBars == null ? null : bars.plus(inBars);
  }

  /** The values, without those that join phrases. */
  List<StatisticValue> values() {
    StatisticList own = new StatisticList();
    double played = bars == null ? 0 : bars.toDouble();
    own.ratio("notes_per_bar", notes, played, notes);
    own.ratio("phrases_per_8_bars", 8.0 * phrases, played, phrases);
    own.ratio("sounding_share", soundingQuarters, quarters.toDouble(), notes);
    Map<String, StatisticValue> replaced =
        own.values().stream().collect(Collectors.toMap(StatisticValue::key, value -> value));
    GuideTones.AtChanges atChanges = GuideTones.atChanges(analysis, this::isMine);
    return tallies.partValues(atChanges).stream()
        .map(value -> replaced.getOrDefault(value.key(), value))
        .toList();
  }

  private boolean isMine(int note) {
    List<Phrase> all = analysis.phrases();
    int low = 0;
    int high = all.size() - 1;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (all.get(middle).lastNote() < note) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low == high
        && all.get(low).firstNote() <= note
        && note <= all.get(low).lastNote()
        && low % 2 == parity;
  }
}
