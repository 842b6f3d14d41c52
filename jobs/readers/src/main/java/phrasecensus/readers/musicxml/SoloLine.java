package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.score.GraceNote;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Span;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.musicxml.TieJoiner.Joined;
import phrasecensus.readers.musicxml.TieJoiner.Placed;

/**
 * The one line of a part: the voice that {@link LineChoice} takes, ties joined, the top note of
 * each stack, no note longer than to the next.
 */
final class SoloLine {
  private final PartReading part;
  private final PlayedBars played;
  private final ProblemLog problems;
  private final LineChoice choice;
  private final List<Note> notes;
  private final List<GraceNote> graceNotes;
  private boolean noMelody;
  private int notesInStacks;
  private int notesInOtherVoices;

  SoloLine(PartReading part, PlayedBars played, ProblemLog problems) {
    this.part = part;
    this.played = played;
    this.problems = problems;
    this.choice = LineChoice.of(part);
    List<Joined> sounding = TieJoiner.join(placed());
    reportTies(sounding);
    List<Note> tops = tops(sounding);
    this.graceNotes = placedGraces(tops);
    this.notes = withGraceCounts(tops, graceNotes);
    reportLeftOut();
    if (notes.isEmpty()) {
      problem("", "no-notes", "a part without pitched notes", "the solo has no notes");
    }
  }

  List<Note> notes() {
    return notes;
  }

  List<GraceNote> graceNotes() {
    return graceNotes;
  }

  /** Notes under the top notes of stacks. */
  int notesInStacks() {
    return notesInStacks;
  }

  int notesInOtherVoices() {
    return notesInOtherVoices;
  }

  boolean isInLine(NoteReading note) {
    return choice.holds(note);
  }

  private List<Placed> placed() {
    List<Placed> placed = new ArrayList<>(part.notes().size());
    for (NoteReading note : part.notes()) {
      if (note.grace() || !note.isMelody() || !note.isPitched()) {
        noMelody |= !note.isMelody();
        continue;
      }
      if (!isInLine(note)) {
        notesInOtherVoices++;
        continue;
      }
      for (int at : played.playedAt(note.bar())) {
        if (played.soundsOn(note, at)) {
          placed.add(new Placed(played.moment(at, note.offset()), at, note));
        }
      }
    }
    return placed;
  }

  private void reportTies(List<Joined> sounding) {
    for (Joined note : sounding) {
      if (note.hasOpenTie() || note.continuesNothing()) {
        problem(
            played.bar(note.first.playedBar()).number(),
            "tie-without-partner",
            "a tie at "
                + note.first.note().written()
                + " that "
                + (note.hasOpenTie() ? "leads to no note" : "comes from no note")
                + " of the same pitch",
            "the note is kept apart");
      }
      if (note.lacksStops()) {
        problem(
            played.bar(note.first.playedBar()).number(),
            "tie-without-stop",
            "a tie starts at " + note.first.note().written() + " and ends nowhere",
            "it is joined to the note of the same pitch that follows at once");
      }
    }
  }

  private List<Note> tops(List<Joined> sounding) {
    List<Joined> tops = new ArrayList<>(sounding.size());
    for (Joined note : sounding) {
      Joined last = tops.isEmpty() ? null : tops.get(tops.size() - 1);
      if (last != null && last.onset().equals(note.onset())) {
        notesInStacks++;
        if (pitchOf(note) > pitchOf(last)) {
          tops.set(tops.size() - 1, note);
        }
      } else {
        tops.add(note);
      }
    }
    List<Note> notes = new ArrayList<>(tops.size());
    for (int i = 0; i < tops.size(); i++) {
      Joined top = tops.get(i);
      NoteReading first = top.first.note();
      Fraction length = top.length();
      List<Fraction> tied = top.tiedLengths();
      if (i + 1 < tops.size() && top.end().isAfter(tops.get(i + 1).onset())) {
        length = tops.get(i + 1).onset().minus(top.onset());
        tied = cut(tied, length);
        problem(
            played.bar(top.first.playedBar()).number(),
            "notes-overlap",
            first.written() + " sounds on into the next note of the line",
            "it is cut at the next note");
      }
      if (first.concert().cents() != 0) {
        problem(
            played.bar(top.first.playedBar()).number(),
            "quarter-tone",
            first.written() + ", between two semitones",
            "the nearest semitone counts");
      }
      notes.add(
          new Note(
              i,
              top.onset(),
              length,
              first.concert(),
              first.written(),
              top.first.playedBar(),
              tied,
              0,
              first.signs().uncertain(),
              first.signs().articulations(),
              first.signs().syllable()));
    }
    return notes;
  }

  private static long pitchOf(Joined note) {
    return 100L * note.first.note().concert().midi() + note.first.note().concert().cents();
  }

  private static List<Fraction> cut(List<Fraction> lengths, Fraction total) {
    List<Fraction> cut = new ArrayList<>();
    Fraction left = total;
    for (Fraction length : lengths) {
      if (left.isPositive()) {
        cut.add(Fraction.smaller(length, left));
        left = left.minus(length);
      }
    }
    return cut;
  }

  private List<GraceNote> placedGraces(List<Note> line) {
    record PlacedGrace(Fraction onset, NoteReading note) {}
    List<PlacedGrace> placed = new ArrayList<>();
    Map<Integer, List<NoteReading>> graces = gracesByBar();
    for (int at = 0; at < played.count(); at++) {
      for (NoteReading note : graces.getOrDefault(played.written(at), List.of())) {
        if (played.soundsOn(note, at)) {
          placed.add(new PlacedGrace(played.moment(at, note.offset()), note));
        }
      }
    }
    placed.sort(Comparator.comparing(PlacedGrace::onset));
    List<GraceNote> ordered = new ArrayList<>(placed.size());
    int next = 0;
    for (PlacedGrace grace : placed) {
      while (next < line.size() && line.get(next).onset().isBefore(grace.onset())) {
        next++;
      }
      ordered.add(
          new GraceNote(
              grace.onset(),
              grace.note().concert(),
              grace.note().written(),
              next,
              grace.note().graceSlashed()));
    }
    return ordered;
  }

  /** Grace notes of the line by bar, the top one of a stack. */
  private Map<Integer, List<NoteReading>> gracesByBar() {
    Map<Integer, List<NoteReading>> graces = new HashMap<>();
    for (NoteReading note : part.notes()) {
      if (note.grace() && note.isPitched() && note.isMelody() && isInLine(note)) {
        List<NoteReading> here = graces.computeIfAbsent(note.bar(), b -> new ArrayList<>());
        if (note.stacked() && !here.isEmpty()) {
          NoteReading last = here.get(here.size() - 1);
          if (note.concert().midi() > last.concert().midi()) {
            here.set(here.size() - 1, note);
          }
        } else {
          here.add(note);
        }
      }
    }
    return graces;
  }

  private static List<Note> withGraceCounts(List<Note> notes, List<GraceNote> graces) {
    if (graces.isEmpty()) {
      return notes;
    }
    int[] before = new int[notes.size()];
    for (GraceNote grace : graces) {
      int next = grace.beforeNote();
      if (next < notes.size() && notes.get(next).onset().equals(grace.onset())) {
        before[next]++;
      }
    }
    List<Note> counted = new ArrayList<>(notes.size());
    for (Note note : notes) {
      counted.add(
          before[note.index()] == 0
              ? note
              : new Note(
                  note.index(),
                  note.onset(),
                  note.length(),
                  note.concert(),
                  note.written(),
                  note.barIndex(),
                  note.tiedLengths(),
                  before[note.index()],
                  note.uncertain(),
                  note.articulations(),
                  note.syllable()));
    }
    return counted;
  }

  List<Fraction> unpitchedOnsets() {
    TreeSet<Fraction> onsets = new TreeSet<>();
    for (NoteReading note : part.notes()) {
      if (!note.isPitched() && !note.grace() && note.isMelody() && isInLine(note)) {
        for (int at : played.playedAt(note.bar())) {
          if (played.soundsOn(note, at)) {
            onsets.add(played.moment(at, note.offset()));
          }
        }
      }
    }
    if (!onsets.isEmpty()) {
      notes.forEach(note -> onsets.remove(note.onset()));
    }
    return List.copyOf(onsets);
  }

  private void reportLeftOut() {
    if (notesInStacks > 0) {
      problem(
          "",
          "stacks-in-line",
          count(notesInStacks, "note") + " under the top notes of stacks",
          "the top notes make the line");
    }
    if (notesInOtherVoices > 0) {
      problem(
          "",
          "other-voices",
          count(notesInOtherVoices, "note") + " in voices other than that of the line",
          "they are left out");
    }
    reportByBar(
        NoteReading.Kind.SLASH_HEAD,
        "slash-noteheads",
        "with a slash as notehead",
        "left out, as anything may be played there; the setting keep-slash-noteheads reads them");
    reportByBar(NoteReading.Kind.HIDDEN, "hidden-notes", "that the page does not show", "left out");
  }

  private void reportByBar(NoteReading.Kind kind, String code, String which, String done) {
    if (!noMelody) {
      return;
    }
    Map<Integer, Integer> counts = new TreeMap<>();
    for (NoteReading note : part.notes()) {
      if (note.kind() == kind) {
        counts.merge(note.bar(), 1, Integer::sum);
      }
    }
    counts.forEach(
        (bar, number) ->
            problem(
                part.bars().get(bar).number(), code, count(number, "note") + " " + which, done));
  }

  /** Stretches of slashes as noteheads in the line: neither note nor rest. */
  List<Span> slashHeads() {
    if (!noMelody) {
      return List.of();
    }
    List<Span> spans = new ArrayList<>();
    for (NoteReading note : part.notes()) {
      if (note.kind() == NoteReading.Kind.SLASH_HEAD
          && note.length().isPositive()
          && (isInLine(note) || notes.isEmpty())) {
        for (int at : played.playedAt(note.bar())) {
          Fraction onset = played.moment(at, note.offset());
          Fraction end = onset.plus(note.length());
          if (isSilent(onset, end)) {
            spans.add(new Span(onset, end));
          }
        }
      }
    }
    return spans;
  }

  /** True when no note of the line sounds in a stretch. */
  private boolean isSilent(Fraction from, Fraction to) {
    int low = 0;
    int high = notes.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (notes.get(middle).end().isAfter(from)) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low == notes.size() || !notes.get(low).onset().isBefore(to);
  }

  /** Label of its voice; empty when the file has none. */
  String voice() {
    for (NoteReading note : part.notes()) {
      if (isInLine(note)) {
        return note.voice();
      }
    }
    return "";
  }

  /** Why this voice makes the line, in a sentence; empty where there is no other. */
  String reason() {
    return choice.reason();
  }

  private static String count(int number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /** The staff on which most of the line stands. */
  int staff() {
    if (part.staves() == 1) {
      return 1;
    }
    Map<Integer, Integer> staves = new TreeMap<>();
    for (NoteReading note : part.notes()) {
      if (!note.grace() && isInLine(note)) {
        staves.merge(note.staff(), 1, Integer::sum);
      }
    }
    return staves.entrySet().stream()
        .max(
            Comparator.<Map.Entry<Integer, Integer>>comparingInt(Map.Entry::getValue)
                .thenComparing(Map.Entry::getKey, Comparator.reverseOrder()))
        .map(Map.Entry::getKey)
        .orElse(1);
  }

  private void problem(String bar, String code, String found, String done) {
    problems.add(part.description().id(), bar, code, found, done);
  }
}
