package phrasecensus.readers.musicxml;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.score.Note;
import phrasecensus.readers.Problem;
import phrasecensus.readers.musicxml.PartReading.PartDescription;

/**
 * Some files give a transposition and store the pitches as they sound all the same. It shows where
 * the line fits its instrument as stored and leaves the range once transposed (common practice, no
 * source). Nothing is corrected: a player may own a deeper instrument.
 */
final class ConcertPitchSuspicion {
  private ConcertPitchSuspicion() {}

  /** The problem to report, if any; only for a line under one transposition throughout. */
  static Optional<Problem> of(PartDescription part, List<Note> line) {
    List<Note> certain = line.stream().filter(note -> !note.uncertain()).toList();
    if (certain.isEmpty() || !isMovedAlike(certain)) {
      return Optional.empty();
    }
    return instrument(part).flatMap(range -> problem(part, range, certain));
  }

  /** From both names; nothing when they speak of two instruments, as after a change of player. */
  private static Optional<InstrumentRange> instrument(PartDescription part) {
    Optional<InstrumentRange> byInstrument = InstrumentRange.named(part.instrument());
    Optional<InstrumentRange> byPart = InstrumentRange.named(part.name());
    if (byInstrument.isPresent() && byPart.isPresent() && !byInstrument.equals(byPart)) {
      return Optional.empty();
    }
    return byInstrument.or(() -> byPart);
  }

  private static Optional<Problem> problem(
      PartDescription part, InstrumentRange range, List<Note> line) {
    Note lowest = line.stream().min(Comparator.comparingInt(Note::midi)).orElseThrow();
    Note highest = line.stream().max(Comparator.comparingInt(Note::midi)).orElseThrow();
    if (range.holds(lowest.midi(), highest.midi())
        || !range.holds(lowest.written().midi(), highest.written().midi())) {
      return Optional.empty();
    }
    return Optional.of(
        new Problem(
            part.id(),
            "",
            "concert-pitch-suspected",
            "transposed as the file says the line goes from "
                + lowest.concert()
                + " to "
                + highest.concert()
                + ", beyond a "
                + range.instrument()
                + " ("
                + pitch(range.low())
                + " to "
                + pitch(range.high())
                + "); as stored, "
                + lowest.written()
                + " to "
                + highest.written()
                + ", it fits, so the file may hold sounding pitches",
            "nothing is corrected; if so, take the transposition out of the file"));
  }

  private static boolean isMovedAlike(List<Note> line) {
    int moved = moved(line.get(0));
    return moved != 0 && line.stream().allMatch(note -> moved(note) == moved);
  }

  private static int moved(Note note) {
    return note.concert().midi() - note.written().midi();
  }

  /** The pitch of a MIDI number, spelled with at most one accidental, D flat to F sharp. */
  private static Pitch pitch(int midi) {
    int fifths = Math.floorMod(7 * midi + 5, 12) - 5;
    NoteName name = NoteName.atFifths(fifths);
    return Pitch.of(name.step(), name.alter(), Math.floorDiv(midi, 12) - 1);
  }
}
