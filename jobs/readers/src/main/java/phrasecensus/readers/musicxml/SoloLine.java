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
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.musicxml.TieJoiner.Joined;
import phrasecensus.readers.musicxml.TieJoiner.Placed;

/**
 * The one line of a part: the voice with most notes (of equals the lowest label), ties joined, the
 * top note of each stack, no note longer than to the next.
 */
final class SoloLine {
  private final PartReading part;
  private final PlayedBars played;
  private final ProblemLog problems;
  private final boolean byStaff;
  private final String voice;
  private final List<Note> notes;
  private final List<GraceNote> graceNotes;
  private int notesInStacks;
  private int notesInOtherVoices;

  SoloLine(PartReading part, PlayedBars played, ProblemLog problems) {
    this.part = part;
    this.played = played;
    this.problems = problems;
    this.byStaff = part.staves() > 1 && voiceStandsOnTwoStavesAtOnce();
    this.voice = lineVoice();
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

  private static String voice(NoteReading note) {
    return note.voice().isEmpty() ? "1" : note.voice();
  }

  private static String lineOf(NoteReading note, boolean byStaff) {
    return byStaff ? voice(note) + "/" + note.staff() : voice(note);
  }

  private String lineVoice() {
    Map<String, int[]> pitched = new HashMap<>();
    Map<String, int[]> others = new HashMap<>();
    String label = null;
    int[] count = {0};
    for (NoteReading note : part.notes()) {
      if (!note.grace() && !note.inSlashes()) {
        String here = lineOf(note, byStaff);
        Map<String, int[]> counts = note.isPitched() ? pitched : others;
        if (!here.equals(label) || counts == others) {
          count = counts.computeIfAbsent(here, v -> new int[1]);
          label = counts == others ? null : here;
        }
        count[0]++;
      }
    }
    Map<String, int[]> counts = pitched.isEmpty() ? others : pitched;
    return counts.keySet().stream()
        .sorted(
            Comparator.<String>comparingInt(voice -> -counts.get(voice)[0])
                .thenComparing(SoloLine::compareLabels))
        .findFirst()
        .orElse("1");
  }

  private boolean voiceStandsOnTwoStavesAtOnce() {
    record Moment(String voice, int bar, Fraction offset) {}
    Map<Moment, Integer> staves = new HashMap<>();
    for (NoteReading note : part.notes()) {
      if (!note.grace() && !note.stacked()) {
        Integer staff =
            staves.put(new Moment(voice(note), note.bar(), note.offset()), note.staff());
        if (staff != null && staff != note.staff()) {
          return true;
        }
      }
    }
    return false;
  }

  /** Numbers by size, before words. */
  private static int compareLabels(String first, String second) {
    boolean firstIsNumber = first.matches("[0-9]{1,9}");
    boolean secondIsNumber = second.matches("[0-9]{1,9}");
    if (firstIsNumber && secondIsNumber) {
      int byNumber = Integer.compare(Integer.parseInt(first), Integer.parseInt(second));
      return byNumber != 0 ? byNumber : first.compareTo(second);
    }
    return firstIsNumber == secondIsNumber ? first.compareTo(second) : firstIsNumber ? -1 : 1;
  }

  boolean isInLine(NoteReading note) {
    return lineOf(note, byStaff).equals(voice);
  }

  private List<Placed> placed() {
    List<Placed> placed = new ArrayList<>(part.notes().size());
    for (NoteReading note : part.notes()) {
      if (note.grace() || note.inSlashes() || !note.isPitched()) {
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
      if (note.grace() && note.isPitched() && !note.inSlashes() && isInLine(note)) {
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
      if (!note.isPitched() && !note.grace() && !note.inSlashes() && isInLine(note)) {
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
          count(notesInOtherVoices, "note") + " in voices other than " + voice,
          "the voice with most notes makes the line");
    }
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
