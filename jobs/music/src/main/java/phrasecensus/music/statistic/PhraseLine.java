package phrasecensus.music.statistic;

import java.util.List;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.ScoreTime;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** The notes of one phrase with their places in the bar, looked up once for all statistics. */
final class PhraseLine {
  private final SoloAnalysis analysis;
  private final Phrase phrase;
  private final BeatPlace[] places;
  private final int[] midi;
  private final Fraction[] ends;
  private final Fraction[] silences;
  private final Fraction bars;
  private final Fraction beats;

  PhraseLine(SoloAnalysis analysis, Phrase phrase) {
    this.analysis = analysis;
    this.phrase = phrase;
    this.places = new BeatPlace[phrase.noteCount()];
    this.midi = new int[phrase.noteCount()];
    this.ends = new Fraction[phrase.noteCount()];
    this.silences = new Fraction[phrase.noteCount()];
    for (int i = 0; i < places.length; i++) {
      Note note = note(i);
      places[i] = BeatPlace.of(analysis.solo(), note);
      midi[i] = note.midi();
      ends[i] = note.end();
      Fraction next = nextOnset(i);
      silences[i] =
          next == null || next.compareTo(ends[i]) == 0 ? Fraction.ZERO : next.minus(ends[i]);
    }
    Solo solo = analysis.solo();
    int bar = first().barIndex();
    this.bars = ScoreTime.bars(solo, first().onset(), end(), bar);
    this.beats = ScoreTime.beats(solo, first().onset(), end(), bar);
  }

  SoloAnalysis analysis() {
    return analysis;
  }

  Solo solo() {
    return analysis.solo();
  }

  Phrase phrase() {
    return phrase;
  }

  int size() {
    return places.length;
  }

  /** The note at a place in the phrase, from 0. */
  Note note(int i) {
    return solo().notes().get(phrase.firstNote() + i);
  }

  Note first() {
    return note(0);
  }

  Note last() {
    return note(size() - 1);
  }

  int midi(int i) {
    return midi[i];
  }

  int[] midi() {
    return midi.clone();
  }

  NoteHarmony harmony(int i) {
    return analysis.harmony().get(phrase.firstNote() + i);
  }

  /** Place in the bar; null where no metre is in force. */
  BeatPlace place(int i) {
    return places[i];
  }

  /** Onset of the next note of the solo, also beyond the phrase; null after the last note. */
  Fraction nextOnset(int i) {
    int next = phrase.firstNote() + i + 1;
    return next < solo().notes().size() ? solo().notes().get(next).onset() : null;
  }

  /** Length of the next note of the solo, also beyond the phrase; null after the last note. */
  Fraction nextLength(int i) {
    int next = phrase.firstNote() + i + 1;
    return next < solo().notes().size() ? solo().notes().get(next).length() : null;
  }

  /** True for the last note of the solo. */
  boolean isLastOfSolo(int i) {
    return phrase.firstNote() + i + 1 == solo().notes().size();
  }

  /** End of a note. */
  Fraction end(int i) {
    return ends[i];
  }

  /** End of the phrase. */
  Fraction end() {
    return ends[size() - 1];
  }

  /** Length in bars of the metre; null where a part of the phrase has none. */
  Fraction bars() {
    return bars;
  }

  /** Length in beats of the metre; null where a part of the phrase has none. */
  Fraction beats() {
    return beats;
  }

  /** Time to the next onset in the phrase, in quarter notes; not for the last note. */
  Fraction gapAfter(int i) {
    Fraction length = note(i).length();
    return silences[i].isZero() ? length : length.plus(silences[i]);
  }

  /**
   * Silence up to the next note of the solo, in quarter notes; zero after the last note of the
   * solo.
   */
  Fraction silenceAfter(int i) {
    return silences[i];
  }

  /** The landings in the phrase. */
  List<Landing> landings() {
    int from = firstLandingFrom(phrase.firstNote());
    return analysis.landings().subList(from, firstLandingFrom(phrase.lastNote() + 1));
  }

  private int firstLandingFrom(int noteIndex) {
    List<Landing> landings = analysis.landings();
    int low = 0;
    int high = landings.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (landings.get(middle).noteIndex() < noteIndex) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
