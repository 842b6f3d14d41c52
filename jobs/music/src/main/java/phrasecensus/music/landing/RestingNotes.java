package phrasecensus.music.landing;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.harmony.KeyDegree;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.rest.Stretch;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.ScoreTime;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Finds the notes that a line comes to rest on. */
public final class RestingNotes {
  /** Shortest held note, in beats of the metre (common practice, no source). */
  public static final Fraction HELD_BEATS = Fraction.of(3, 2);

  private RestingNotes() {}

  /**
   * The resting notes in order: the last of every stretch, where silence and not an unknown stretch
   * follows, and every note held for at least {@link #HELD_BEATS}. Linear in the notes.
   *
   * @param harmony one element a note
   * @param stretches as {@link phrasecensus.music.rest.Stretches} finds them
   */
  public static List<RestingNote> find(
      Solo solo, List<NoteHarmony> harmony, List<Stretch> stretches) {
    boolean byChord = harmony.stream().anyMatch(NoteHarmony::hasVerdict);
    List<RestingNote> resting = new ArrayList<>();
    List<Note> notes = solo.notes();
    for (Stretch stretch : stretches) {
      for (int i = stretch.firstNote(); i <= stretch.lastNote(); i++) {
        Note note = notes.get(i);
        boolean breath =
            i == stretch.lastNote()
                && (i + 1 == notes.size()
                    || !ScoreTime.isUncertain(solo, note.end(), notes.get(i + 1).onset()));
        if (breath || isHeld(solo, note)) {
          resting.add(
              judged(
                  i,
                  breath ? RestingNote.Kind.BREATH : RestingNote.Kind.HELD,
                  note,
                  harmony.get(i),
                  byChord));
        }
      }
    }
    return List.copyOf(resting);
  }

  private static boolean isHeld(Solo solo, Note note) {
    Fraction beat = solo.bars().get(note.barIndex()).metre().beatLength();
    return note.length().isAtLeast(beat.times(HELD_BEATS));
  }

  private static RestingNote judged(
      int index, RestingNote.Kind kind, Note note, NoteHarmony harmony, boolean byChord) {
    if (byChord) {
      return new RestingNote(
          index,
          kind,
          harmony.degree() == null ? null : harmony.degree().name(),
          harmony.hasVerdict() ? harmony.isCoreChordTone() : null);
    }
    TonalCentre centre = harmony.centre();
    if (!centre.isKnown()) {
      return new RestingNote(index, kind, null, null);
    }
    KeyDegree degree = KeyDegree.of(centre, harmony.scale(), note.concert());
    return new RestingNote(index, kind, degree.name(), degree.isChordTone());
  }
}
