package phrasecensus.music.analysis;

import java.util.List;
import java.util.function.IntPredicate;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * How a line treats guide tones where chords change. A note belongs to the chord it is judged by,
 * so with anticipation on, a note tied into a chord is the first of that chord.
 */
public final class GuideTones {
  private GuideTones() {}

  /**
   * First notes of new chords.
   *
   * @param changes chord changes with a note under the new chord, whose guide tones are known
   * @param reached those whose first note is a guide tone of the new chord
   */
  public record AtChanges(int changes, int reached) {}

  /**
   * Guide tones that ask to move on.
   *
   * @param opportunities changes where the last note before them was such a guide tone
   * @param resolved those after which the next note was its goal
   */
  public record Resolutions(int opportunities, int resolved) {}

  /**
   * Whether the first note of each new chord is one of its guide tones. The first chord of the solo
   * is no change; chords without guide tones (power chords, triads with a suspension) and changes
   * without a note are left out. Linear.
   */
  public static AtChanges atChanges(SoloAnalysis analysis) {
    return atChanges(analysis, note -> true);
  }

  /**
   * The same for some notes of the line: changes whose first note is one of them.
   *
   * @param counted told the number of a note
   */
  public static AtChanges atChanges(SoloAnalysis analysis, IntPredicate counted) {
    int changes = 0;
    int reached = 0;
    ChordSpan current = null;
    List<NoteHarmony> harmony = analysis.harmony();
    Cursor cursor = new Cursor(analysis.solo().chords());
    for (int i = 0; i < harmony.size(); i++) {
      NoteHarmony note = harmony.get(i);
      ChordSpan span = note.chord();
      if (span == null || span == current) {
        continue;
      }
      current = span;
      if (cursor.isChange(span) && span.concert().hasGuideTones() && counted.test(i)) {
        changes++;
        if (note.degree() != null && note.degree().role() == ChordDegree.Role.GUIDE_TONE) {
          reached++;
        }
      }
    }
    return new AtChanges(changes, reached);
  }

  /**
   * How often a guide tone that asks to fall does fall.
   *
   * <p>An opportunity is a change whose last note before it is the minor (or diminished) seventh of
   * a chord whose root falls a fifth to the next chord's, or the third of a dominant whose root
   * falls a semitone (the tritone substitute, where that third is the seventh of the dominant it
   * stands for). It is resolved when the next note of the line starts within one bar after the
   * change, under the new chord, a semitone or a tone lower, and is the new chord's third. The next
   * chord must have a third. Common practice, no source. Linear.
   */
  public static Resolutions resolutions(SoloAnalysis analysis) {
    Solo solo = analysis.solo();
    List<Note> notes = solo.notes();
    List<NoteHarmony> harmony = analysis.harmony();
    List<ChordSpan> chords = solo.chords();
    int opportunities = 0;
    int resolved = 0;
    int noteIndex = 0;
    for (int c = 0; c + 1 < chords.size(); c++) {
      ChordSpan from = chords.get(c);
      ChordSpan to = chords.get(c + 1);
      int last = -1;
      while (noteIndex < notes.size()
          && belongsBefore(notes.get(noteIndex), harmony.get(noteIndex), to)) {
        if (harmony.get(noteIndex).chord() == from) {
          last = noteIndex;
        }
        noteIndex++;
      }
      if (last < 0
          || !from.end().equals(to.onset())
          || !asksToFall(from.concert(), to.concert(), notes.get(last).concert().pitchClass())) {
        continue;
      }
      opportunities++;
      if (last + 1 < notes.size() && harmony.get(last + 1).chord() == to) {
        Note next = notes.get(last + 1);
        int fall = notes.get(last).midi() - next.midi();
        Fraction bar = solo.barAt(to.onset()).metre().barLength();
        boolean soon = !bar.isPositive() || next.onset().minus(to.onset()).compareTo(bar) < 0;
        if ((fall == 1 || fall == 2) && soon && to.concert().isThird(next.concert().pitchClass())) {
          resolved++;
        }
      }
    }
    return new Resolutions(opportunities, resolved);
  }

  private static boolean belongsBefore(Note note, NoteHarmony harmony, ChordSpan to) {
    return harmony.chord() == null
        ? note.onset().isBefore(to.onset())
        : harmony.chord().onset().isBefore(to.onset());
  }

  private static boolean asksToFall(Chord from, Chord to, int pitchClass) {
    if (!from.isContentKnown() || !to.isContentKnown() || !to.hasThird()) {
      return false;
    }
    int fall = Math.floorMod(from.root().pitchClass() - to.root().pitchClass(), 12);
    boolean dominant = from.chordClass().filter(c -> c == ChordClass.DOM7).isPresent();
    return fall == 7 && from.isFallingSeventh(pitchClass)
        || fall == 1 && dominant && from.isThird(pitchClass);
  }

  /** Walks the chords once, telling which are changes. */
  private static final class Cursor {
    private final List<ChordSpan> chords;
    private int index = -1;

    Cursor(List<ChordSpan> chords) {
      this.chords = chords;
    }

    boolean isChange(ChordSpan span) {
      while (index + 1 < chords.size() && (index < 0 || chords.get(index) != span)) {
        index++;
      }
      return index > 0 && span.concert().isChangeFrom(chords.get(index - 1).concert());
    }
  }
}
