package phrasecensus.music.statistic;

import java.util.Collections;
import java.util.SortedSet;
import java.util.TreeSet;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.phrase.Phrase;

/**
 * Notes that are neither in the chord symbol nor in the scale of the centre, and among them those
 * that no step explains: not left by a semitone or tone to a note that is inside or itself
 * explained, and not the first of two notes that enclose such a note. Own definition.
 */
public final class OutsideNotes {
  /** How a note stands to the harmony. */
  enum Place {
    /** Without a verdict, or where no centre is known. */
    NOT_JUDGED,
    /** In the chord symbol or in the scale of the centre. */
    INSIDE,
    /** Outside, and what follows explains it. */
    EXPLAINED,
    /** Outside, and nothing explains it. */
    UNEXPLAINED
  }

  private OutsideNotes() {}

  /**
   * Indexes of the notes that the statistic {@code unexplained_outside_share} counts. Cost: linear
   * in the notes.
   */
  public static SortedSet<Integer> unexplained(SoloAnalysis analysis) {
    SortedSet<Integer> unexplained = new TreeSet<>();
    for (Phrase phrase : analysis.phrases()) {
      Place[] places = places(new PhraseLine(analysis, phrase));
      for (int i = 0; i < places.length; i++) {
        if (places[i] == Place.UNEXPLAINED) {
          unexplained.add(phrase.firstNote() + i);
        }
      }
    }
    return Collections.unmodifiableSortedSet(unexplained);
  }

  /** The places of the notes of a phrase; read from its end, since what follows explains. */
  static Place[] places(PhraseLine line) {
    Place[] places = new Place[line.size()];
    for (int i = places.length - 1; i >= 0; i--) {
      NoteHarmony harmony = line.harmony(i);
      if (!harmony.hasVerdict() || !harmony.centre().isKnown()) {
        places[i] = Place.NOT_JUDGED;
      } else if (harmony.degree().role() != ChordDegree.Role.NOT_IN_CHORD
          || harmony.inCentreScale()) {
        places[i] = Place.INSIDE;
      } else {
        places[i] =
            isLeftByStep(line, i, places) || encloses(line, i, places)
                ? Place.EXPLAINED
                : Place.UNEXPLAINED;
      }
    }
    return places;
  }

  private static boolean isLeftByStep(PhraseLine line, int i, Place[] places) {
    return isSettled(i + 1, places) && isStep(line.midi(i + 1) - line.midi(i));
  }

  private static boolean encloses(PhraseLine line, int i, Place[] places) {
    if (!isSettled(i + 2, places)) {
      return false;
    }
    int fromHere = line.midi(i + 2) - line.midi(i);
    int fromNext = line.midi(i + 2) - line.midi(i + 1);
    return isStep(fromHere) && isStep(fromNext) && (fromHere > 0) != (fromNext > 0);
  }

  private static boolean isSettled(int i, Place[] places) {
    return i < places.length && places[i] != Place.UNEXPLAINED;
  }

  private static boolean isStep(int interval) {
    return interval != 0 && Math.abs(interval) <= 2;
  }
}
