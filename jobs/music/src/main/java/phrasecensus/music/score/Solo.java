package phrasecensus.music.score;

import java.util.List;
import java.util.Optional;
import phrasecensus.music.time.Fraction;

/**
 * A transcribed solo: one line and what stands around it. Times are quarter notes from the start of
 * the solo as written; the first bar or the pickup starts at zero.
 *
 * @param description words about it
 * @param bars in order, without gaps
 * @param notes the line, in order of onset; no two share an onset and none overlaps the next
 * @param graceNotes ornaments, in order
 * @param chords in order, without overlap; a stretch without any symbol is not covered
 * @param keys in order
 * @param tempi in order; empty when the file gives none
 * @param marks in order of onset, then kind
 * @param unknownSpans stretches that are neither note nor rest
 * @param unpitchedOnsets onsets of unpitched sounds in the line
 */
public record Solo(
    SoloDescription description,
    List<Bar> bars,
    List<Note> notes,
    List<GraceNote> graceNotes,
    List<ChordSpan> chords,
    List<KeyChange> keys,
    List<TempoChange> tempi,
    List<Mark> marks,
    List<Span> unknownSpans,
    List<Fraction> unpitchedOnsets) {
  public Solo {
    bars = List.copyOf(bars);
    notes = List.copyOf(notes);
    graceNotes = List.copyOf(graceNotes);
    chords = List.copyOf(chords);
    keys = List.copyOf(keys);
    tempi = List.copyOf(tempi);
    marks = List.copyOf(marks);
    unknownSpans = List.copyOf(unknownSpans);
    unpitchedOnsets = List.copyOf(unpitchedOnsets);
  }

  /** End of the last bar; zero for a solo without bars. */
  public Fraction length() {
    return bars.isEmpty() ? Fraction.ZERO : bars.get(bars.size() - 1).end();
  }

  /** The bar that holds a moment; the last one for moments at or after its end. */
  public Bar barAt(Fraction moment) {
    int low = 0;
    int high = bars.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (bars.get(middle).onset().compareTo(moment) <= 0) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return bars.get(low);
  }

  /** The chord symbol that holds at a moment; empty before the first one. */
  public Optional<ChordSpan> chordAt(Fraction moment) {
    int low = 0;
    int high = chords.size() - 1;
    int found = -1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      if (chords.get(middle).onset().compareTo(moment) <= 0) {
        found = middle;
        low = middle + 1;
      } else {
        high = middle - 1;
      }
    }
    return found >= 0 && moment.isBefore(chords.get(found).end())
        ? Optional.of(chords.get(found))
        : Optional.empty();
  }

  /** The tempo that holds at a moment, quarters per minute; the first one for moments before it. */
  public Optional<Double> tempoAt(Fraction moment) {
    Optional<Double> tempo = tempi.stream().findFirst().map(TempoChange::quartersPerMinute);
    for (TempoChange change : tempi) {
      if (change.onset().isAfter(moment)) {
        break;
      }
      tempo = Optional.of(change.quartersPerMinute());
    }
    return tempo;
  }

  /** Seconds from one moment to a later one; empty when the file gives no tempo. */
  public Optional<Double> seconds(Fraction from, Fraction to) {
    if (tempi.isEmpty()) {
      return Optional.empty();
    }
    double seconds = 0;
    Fraction at = from;
    while (at.isBefore(to)) {
      Fraction next = to;
      for (TempoChange change : tempi) {
        if (change.onset().isAfter(at)) {
          next = Fraction.smaller(next, change.onset());
          break;
        }
      }
      seconds += next.minus(at).toDouble() * 60 / tempoAt(at).orElseThrow();
      at = next;
    }
    return Optional.of(seconds);
  }
}
