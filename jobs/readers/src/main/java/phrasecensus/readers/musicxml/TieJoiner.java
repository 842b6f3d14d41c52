package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.time.Fraction;

/**
 * Joins tied notes into one: onset of the first, sum of the lengths. Only notes of equal sounding
 * pitch join, where the second begins when the first ends. The second need not say that it
 * continues a tie: some programs write only where ties start.
 */
final class TieJoiner {
  /** A note at its place in time. */
  record Placed(Fraction onset, int playedBar, NoteReading note) {}

  /** A sounding note: {@code first} is the note that is struck. */
  static final class Joined {
    final Placed first;
    private Fraction length;
    private List<Fraction> tiedLengths;
    private boolean openTie;
    private boolean stopsMissing;

    Joined(Placed first) {
      this.first = first;
      this.length = first.note().length();
      this.tiedLengths = List.of(length);
    }

    Fraction onset() {
      return first.onset();
    }

    Fraction length() {
      return length;
    }

    Fraction end() {
      return first.onset().plus(length);
    }

    List<Fraction> tiedLengths() {
      return tiedLengths;
    }

    /** True when a tie leads out of it to nothing. */
    boolean hasOpenTie() {
      return openTie;
    }

    /** True when a tie leads into it from nothing. */
    boolean continuesNothing() {
      return first.note().tieStop();
    }

    /** True when a note in it was joined without saying that a tie ends there. */
    boolean lacksStops() {
      return stopsMissing;
    }

    private void extend(Fraction more) {
      length = length.plus(more);
      List<Fraction> longer = new ArrayList<>(tiedLengths);
      longer.add(more);
      tiedLengths = longer;
    }
  }

  private record Sound(int midi, int cents) {}

  private TieJoiner() {}

  /**
   * The sounding notes of one voice, by onset, then as given.
   *
   * @param placed pitched notes without grace notes
   */
  static List<Joined> join(List<Placed> placed) {
    List<Placed> ordered = placed;
    if (!isOrdered(placed)) {
      ordered = new ArrayList<>(placed);
      ordered.sort(Comparator.comparing(Placed::onset));
    }
    List<Joined> notes = new ArrayList<>(ordered.size());
    Map<Sound, Joined> open = new HashMap<>();
    for (Placed note : ordered) {
      boolean start = note.note().tieStart();
      boolean stop = note.note().tieStop();
      if (!start && !stop && open.isEmpty()) {
        notes.add(new Joined(note));
        continue;
      }
      Sound sound = new Sound(note.note().concert().midi(), note.note().concert().cents());
      Joined earlier = open.get(sound);
      if (earlier != null && earlier.end().equals(note.onset())) {
        open.remove(sound);
        earlier.openTie = false;
        earlier.stopsMissing |= !stop;
        earlier.extend(note.note().length());
      } else {
        earlier = new Joined(note);
        notes.add(earlier);
      }
      if (start) {
        open.put(sound, earlier);
        earlier.openTie = true;
      }
    }
    return notes;
  }

  private static boolean isOrdered(List<Placed> placed) {
    for (int i = 1; i < placed.size(); i++) {
      if (placed.get(i).onset().isBefore(placed.get(i - 1).onset())) {
        return false;
      }
    }
    return true;
  }
}
