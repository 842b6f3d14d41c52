package phrasecensus.report.lesson;

import java.util.List;
import phrasecensus.report.rows.SoloLine;

/**
 * What is played from one breath to the next.
 *
 * @param notes its notes, at least one
 * @param bars its length in bars, a part of a bar as a part
 * @param firstBar number of the bar in which it starts
 * @param lastBar number of the bar in which its last note starts
 * @param firstBarIndex index of the first
 * @param lastBarIndex index of the last
 */
public record Stretch(
    int index,
    List<SoloLine.Tone> notes,
    double bars,
    String firstBar,
    String lastBar,
    int firstBarIndex,
    int lastBarIndex) {
  public Stretch {
    notes = List.copyOf(notes);
  }

  public SoloLine.Tone first() {
    return notes.get(0);
  }

  public SoloLine.Tone last() {
    return notes.get(notes.size() - 1);
  }

  public double onset() {
    return first().onset();
  }

  public double end() {
    return last().end();
  }

  /** The stretch as a phrase of its line, for pictures. */
  SoloLine.PhraseSpan asPhrase() {
    return new SoloLine.PhraseSpan(
        index, first().index(), last().index(), onset(), end(), firstBar, lastBar, bars);
  }
}
