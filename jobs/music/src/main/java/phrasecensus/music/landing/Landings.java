package phrasecensus.music.landing;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.landing.Landing.Approach;
import phrasecensus.music.landing.Landing.Kind;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Finds the landings of a line. */
public final class Landings {
  /**
   * Shortest silence inside a phrase that makes the note before it a landing, in beats: half a
   * beat, since shorter rests in notation mostly show how short a note is played (common practice,
   * no source).
   */
  public static final Fraction SHORTEST_REST_BEATS = Fraction.HALF;

  /** Shortest held note, in beats. */
  public static final Fraction SHORTEST_HELD_BEATS = Fraction.of(3, 2);

  private Landings() {}

  /**
   * The landings, in order of note, each note at most once with all kinds that fit it. Linear.
   *
   * <ul>
   *   <li>phrase-end: the last note of a phrase.
   *   <li>before-rest: another note of the phrase follows after a silence of at least {@link
   *       #SHORTEST_REST_BEATS}.
   *   <li>held: at least {@link #SHORTEST_HELD_BEATS} long and longer than the note before and the
   *       note after it in the phrase, where there are such.
   *   <li>chord-arrival: the first note that starts while a new chord holds, if it starts on a
   *       beat; never the first note of a phrase, which nothing led to. The first chord of a solo
   *       is no change, a repeated symbol or a new bass alone neither; a chord after N.C. is one.
   *       Without metre there are no beats and no arrivals.
   * </ul>
   *
   * <p>Beats are those of the metre at the note. The approach is the first that fits in the order
   * of {@link Approach}. A semitone counts as chromatic when the tonal centre is known and the note
   * it comes from lies outside the centre's scale.
   *
   * <p>The next chord's guide tone is asked for at the last note over a chord: the next note of the
   * line, in this phrase or the next, reaches it when it is the third or seventh of the chord it is
   * judged by. That chord must follow at once, be another one with guide tones, and the note must
   * start less than a bar after the change (common practice, no source).
   *
   * @param harmony one element a note
   * @param phrases in order, covering the notes
   */
  public static List<Landing> find(Solo solo, List<NoteHarmony> harmony, List<Phrase> phrases) {
    List<Note> notes = solo.notes();
    boolean[] arrivals = arrivals(solo);
    List<Landing> landings = new ArrayList<>();
    Metre metre = null;
    Fraction shortestRest = Fraction.ZERO;
    Fraction shortestHeld = Fraction.ZERO;
    for (Phrase phrase : phrases) {
      for (int i = phrase.firstNote(); i <= phrase.lastNote(); i++) {
        Note note = notes.get(i);
        Note previous = i > phrase.firstNote() ? notes.get(i - 1) : null;
        Note next = i < phrase.lastNote() ? notes.get(i + 1) : null;
        Metre here = solo.bars().get(note.barIndex()).metre();
        if (!here.equals(metre)) {
          metre = here;
          shortestRest = metre.beatLength().times(SHORTEST_REST_BEATS);
          shortestHeld = metre.beatLength().times(SHORTEST_HELD_BEATS);
        }
        EnumSet<Kind> kinds = EnumSet.noneOf(Kind.class);
        if (next == null) {
          kinds.add(Kind.PHRASE_END);
        } else if (next.onset().isAtLeast(note.end().plus(shortestRest))) {
          kinds.add(Kind.BEFORE_REST);
        }
        if (note.length().isAtLeast(shortestHeld)
            && (previous == null || note.length().isAfter(previous.length()))
            && (next == null || note.length().isAfter(next.length()))) {
          kinds.add(Kind.HELD);
        }
        if (arrivals[i] && previous != null) {
          kinds.add(Kind.CHORD_ARRIVAL);
        }
        if (!kinds.isEmpty()) {
          landings.add(
              new Landing(
                  i,
                  phrase.index(),
                  kinds.iterator().next(),
                  kinds,
                  approach(notes, harmony, phrase, i),
                  nextGuideTone(solo, harmony, i)));
        }
      }
    }
    return List.copyOf(landings);
  }

  private static boolean[] arrivals(Solo solo) {
    List<Note> notes = solo.notes();
    boolean[] arrivals = new boolean[notes.size()];
    int noteIndex = 0;
    Chord previous = null;
    for (ChordSpan span : solo.chords()) {
      while (noteIndex < notes.size() && notes.get(noteIndex).onset().isBefore(span.onset())) {
        noteIndex++;
      }
      if (span.concert().isChangeFrom(previous)
          && noteIndex < notes.size()
          && notes.get(noteIndex).onset().isBefore(span.end())) {
        arrivals[noteIndex] = isOnBeat(solo, notes.get(noteIndex));
      }
      previous = span.concert();
    }
    return arrivals;
  }

  private static boolean isOnBeat(Solo solo, Note note) {
    Bar bar = solo.bars().get(note.barIndex());
    Metre metre = bar.metre();
    return !metre.isFree() && bar.positionOf(note.onset()).dividedBy(metre.beatLength()).isWhole();
  }

  private static Boolean nextGuideTone(Solo solo, List<NoteHarmony> harmony, int index) {
    ChordSpan from = harmony.get(index).chord();
    ChordSpan to = index + 1 < harmony.size() ? harmony.get(index + 1).chord() : null;
    if (from == null
        || to == null
        || from == to
        || !from.end().equals(to.onset())
        || !to.concert().isChangeFrom(from.concert())
        || !to.concert().hasGuideTones()
        || harmony.get(index + 1).degree() == null) {
      return null;
    }
    Fraction bar = solo.barAt(to.onset()).metre().barLength();
    Fraction late = solo.notes().get(index + 1).onset().minus(to.onset());
    if (bar.isPositive() && late.isAtLeast(bar)) {
      return null;
    }
    return harmony.get(index + 1).degree().role() == ChordDegree.Role.GUIDE_TONE;
  }

  /**
   * True when two notes lie on opposite sides of the one they lead to, each within two semitones.
   */
  public static boolean isEnclosed(int before, int last, int target) {
    int from = before - target;
    int then = last - target;
    return from * then < 0 && Math.abs(from) <= 2 && Math.abs(then) <= 2;
  }

  private static Approach approach(
      List<Note> notes, List<NoteHarmony> harmony, Phrase phrase, int index) {
    if (index == phrase.firstNote()) {
      return Approach.NONE;
    }
    int target = notes.get(index).midi();
    int from = notes.get(index - 1).midi() - target;
    if (from == 0) {
      return Approach.REPETITION;
    }
    if (index - 2 >= phrase.firstNote()) {
      if (isEnclosed(notes.get(index - 2).midi(), notes.get(index - 1).midi(), target)) {
        return Approach.ENCLOSURE;
      }
    }
    if (Math.abs(from) == 1) {
      NoteHarmony approaching = harmony.get(index - 1);
      return approaching.centre().isKnown() && !approaching.inCentreScale()
          ? Approach.CHROMATIC
          : Approach.STEP;
    }
    return Math.abs(from) == 2 ? Approach.STEP : Approach.LEAP;
  }
}
