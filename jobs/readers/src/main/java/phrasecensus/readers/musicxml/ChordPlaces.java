package phrasecensus.readers.musicxml;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.Pitch;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.Tie;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.musicxml.PartReading.ChordReading;

/**
 * Where the chord symbols of a part count.
 *
 * <ul>
 *   <li>Several symbols before one note or rest, without an offset, share its length within the bar
 *       evenly, tied notes of the bar together; a written offset wins. The standard says nothing of
 *       it, and lead sheets are full of it (common practice, no source).
 *   <li>An offset onto a place that is none in music (47 of 128 divisions) tells where the symbol
 *       is printed. The symbol counts at the nearest note closer than an eighth, else at the
 *       nearest beat. Places in halves, thirds, quarters, fifths, sixths and sevenths of a quarter
 *       note are places in music, and so are even shares of the note below.
 * </ul>
 */
final class ChordPlaces {
  private static final int LARGEST_DENOMINATOR = 7;

  /** More symbols than that before one note are damage. */
  private static final int MOST_SHARES = 16;

  /**
   * A symbol with an offset.
   *
   * @param index its place in the list
   * @param element where its element stands in the bar
   * @param length of the note or rest that it stands before; null for none
   * @param symbols how many symbols stand before that note or rest
   */
  private record Displaced(int index, Fraction element, Fraction length, int symbols) {
    /** True when its place is one of as many even shares of the note as there are symbols. */
    boolean isEvenShare(Fraction place) {
      Fraction into = place.minus(element);
      return length != null
          && into.isPositive()
          && into.isBefore(length)
          && into.times(symbols).dividedBy(length).isWhole();
    }
  }

  private final String part;
  private final ProblemLog problems;
  private final List<ChordReading> chords;
  private final List<NoteReading> notes;

  private final List<Integer> waiting = new ArrayList<>();
  private Fraction waitingUntil;
  private final List<Displaced> displaced = new ArrayList<>();
  private int displacedHere;

  /** Chords that share a note whose tie may lead on in the bar; without one the pitch is null. */
  private final List<Integer> tied = new ArrayList<>();

  private Pitch tiedPitch;
  private Fraction tiedOnset;
  private Fraction tiedEnd;
  private int firstNote;
  private int firstNoteBefore;
  private Fraction lengthBefore = Fraction.ZERO;

  /** Works on the lists of a part while they grow. */
  ChordPlaces(
      String part, ProblemLog problems, List<ChordReading> chords, List<NoteReading> notes) {
    this.part = part;
    this.problems = problems;
    this.chords = chords;
    this.notes = notes;
  }

  /** The last chord of the list has no offset. */
  void addPlain() {
    ChordReading chord = chords.get(chords.size() - 1);
    if (!chord.goesOn() && !chord.alternate()) {
      waiting.add(chords.size() - 1);
    }
  }

  /** The last chord of the list has an offset from where its element stands. */
  void addDisplaced(Fraction element) {
    ChordReading chord = chords.get(chords.size() - 1);
    displaced.add(new Displaced(chords.size() - 1, element, null, 1));
    displacedHere++;
    if (chord.offset().isAfter(element)) {
      waitingUntil =
          waitingUntil == null ? chord.offset() : Fraction.smaller(waitingUntil, chord.offset());
    }
  }

  /**
   * A note or rest, or a gap in their place, follows the chords so far.
   *
   * @param note the note or rest; null for a gap
   */
  void passed(Fraction onset, Fraction length, Metre metre, String bar, Note note) {
    if (waiting.size() > 1 && length.isPositive()) {
      Fraction end = end(onset, length, metre);
      share(waiting, onset, end, bar);
      boolean whole = end.equals(onset.plus(length)) && note != null && startsTie(note);
      tiedPitch = whole ? note.getPitch() : null;
      tied.clear();
      tied.addAll(waiting);
      tiedOnset = onset;
      tiedEnd = end;
    } else if (tiedPitch != null) {
      boolean goesOn =
          note != null
              && waiting.isEmpty()
              && displacedHere == 0
              && onset.equals(tiedEnd)
              && isSame(tiedPitch, note.getPitch());
      if (goesOn) {
        tiedEnd = end(onset, length, metre);
        share(tied, tiedOnset, tiedEnd, bar);
      }
      tiedPitch = goesOn && startsTie(note) ? note.getPitch() : null;
    }
    int first = displaced.size() - displacedHere;
    for (int i = first; i < displaced.size(); i++) {
      Displaced each = displaced.get(i);
      int symbols = displacedHere + waiting.size();
      displaced.set(i, new Displaced(each.index(), each.element(), length, symbols));
    }
    forget();
  }

  private static boolean startsTie(Note note) {
    for (Tie tie : note.getTie()) {
      if (tie.getType() == StartStop.START) {
        return true;
      }
    }
    return false;
  }

  private static BigDecimal alter(Pitch pitch) {
    return Objects.requireNonNullElse(pitch.getAlter(), BigDecimal.ZERO);
  }

  private static boolean isSame(Pitch first, Pitch second) {
    return second != null
        && first.getStep() == second.getStep()
        && alter(first).compareTo(alter(second)) == 0
        && first.getOctave() == second.getOctave();
  }

  /** The chords so far stand before no note. */
  void forget() {
    waiting.clear();
    waitingUntil = null;
    displacedHere = 0;
  }

  private Fraction end(Fraction onset, Fraction length, Metre metre) {
    Fraction end = onset.plus(length);
    if (!metre.isFree() && onset.isBefore(metre.barLength())) {
      end = Fraction.smaller(end, metre.barLength());
    }
    return waitingUntil == null || waitingUntil.compareTo(onset) <= 0
        ? end
        : Fraction.smaller(end, waitingUntil);
  }

  private void share(List<Integer> indices, Fraction onset, Fraction end, String bar) {
    List<Integer> different = new ArrayList<>(indices.size());
    Chord last = null;
    for (int index : indices) {
      Chord chord = chords.get(index).written();
      if (!chord.equals(last)) {
        different.add(index);
      }
      last = chord;
    }
    int count = different.size();
    if (count < 2 || count > MOST_SHARES) {
      return;
    }
    List<String> names = new ArrayList<>(count);
    for (int k = 0; k < count; k++) {
      int index = different.get(k);
      Fraction place = onset.plus(end.minus(onset).times(Fraction.of(k, count)));
      chords.set(index, chords.get(index).at(place));
      names.add(chords.get(index).written().symbol());
    }
    problems.add(
        part,
        bar,
        "chords-share-note",
        "the chord symbols "
            + String.join(", ", names)
            + " before one note or rest, without a place of their own",
        "they share its length evenly");
  }

  /** Puts the bar's displaced chords onto places in music. */
  void endBar(Fraction length, Metre metre, String bar) {
    forget();
    tiedPitch = null;
    for (Displaced each : displaced) {
      ChordReading chord = chords.get(each.index());
      Fraction place = chord.offset();
      if (place.denominator() > LARGEST_DENOMINATOR && !each.isEvenShare(place)) {
        Fraction nearest = nearestOnset(place, each.element(), length);
        boolean beat = nearest == null;
        nearest = beat ? nearestBeat(place, metre) : nearest;
        chords.set(each.index(), chord.at(nearest));
        problems.add(
            part,
            bar,
            "chord-offset-graphic",
            "the chord symbol "
                + chord.written().symbol()
                + " is placed at "
                + place
                + " quarter notes of the bar, which is a place on the page and none in the music",
            "it counts at the nearest " + (beat ? "beat" : "note") + ", at " + nearest);
      } else if (place.isNegative() || place.isAfter(Fraction.larger(length, metre.barLength()))) {
        problems.add(
            part,
            bar,
            "offset-leaves-bar",
            "a chord symbol is placed outside its bar",
            "it counts at that place");
      }
    }
    displaced.clear();
    firstNoteBefore = firstNote;
    firstNote = notes.size();
    lengthBefore = length;
  }

  /** The nearest onset closer than an eighth; null for none. */
  private Fraction nearestOnset(Fraction place, Fraction element, Fraction length) {
    Fraction nearest = nearer(null, element, place);
    nearest = nearer(nearest, length, place);
    for (int i = firstNoteBefore; i < notes.size(); i++) {
      NoteReading note = notes.get(i);
      if (!note.grace()) {
        Fraction onset = i < firstNote ? note.offset().minus(lengthBefore) : note.offset();
        nearest = nearer(nearest, onset, place);
      }
    }
    return nearest;
  }

  private static Fraction nearer(Fraction nearest, Fraction onset, Fraction place) {
    Fraction distance = distance(onset, place);
    boolean near = distance.isBefore(Fraction.HALF);
    return near && (nearest == null || distance.isBefore(distance(nearest, place)))
        ? onset
        : nearest;
  }

  private static Fraction distance(Fraction first, Fraction second) {
    Fraction difference = first.minus(second);
    return difference.isNegative() ? difference.negated() : difference;
  }

  private static Fraction nearestBeat(Fraction place, Metre metre) {
    Fraction beat = metre.beatLength();
    Fraction beats = place.dividedBy(beat).plus(Fraction.HALF);
    return beat.times(Fraction.of(beats.floor()));
  }
}
