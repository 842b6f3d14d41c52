package phrasecensus.music.exercise;

import java.util.List;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;

/**
 * A phrase in its bars, times in quarter notes from the start of the first of them.
 *
 * @param bars one after the other, at least one
 * @param notes in order, one at a time, at least one
 * @param chords in order; may be empty
 * @param signature sharps as the player reads them, flats negative; null when unknown
 * @param instrument from written to sounding pitch
 */
public record Passage(
    List<Bar> bars,
    List<Note> notes,
    List<ChordSpan> chords,
    Integer signature,
    Transposition instrument) {
  public Passage {
    bars = List.copyOf(bars);
    notes = List.copyOf(notes);
    chords = List.copyOf(chords);
    if (bars.isEmpty() || notes.isEmpty()) {
      throw new IllegalArgumentException("A passage without bars or notes");
    }
  }

  public Note first() {
    return notes.get(0);
  }

  public Note last() {
    return notes.get(notes.size() - 1);
  }

  public Fraction end() {
    return bars.get(bars.size() - 1).end();
  }

  /** The bar in which a moment lies; the last one beyond the end. */
  Bar barAt(Fraction moment) {
    Bar found = bars.get(0);
    for (Bar bar : bars) {
      found = bar.onset().isAfter(moment) ? found : bar;
    }
    return found;
  }

  boolean hasMetre() {
    return bars.stream().noneMatch(bar -> bar.metre().isFree());
  }
}
