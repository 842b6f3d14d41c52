package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import phrasecensus.music.harmony.Chord;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.GraceNote;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.musicxml.NoteReading.SlurEnd;
import phrasecensus.readers.musicxml.PartReading.BarReading;
import phrasecensus.readers.musicxml.PartReading.ChordReading;
import phrasecensus.readers.musicxml.PartReading.KeyReading;
import phrasecensus.readers.musicxml.PartReading.LineEnd;
import phrasecensus.readers.musicxml.PartReading.Place;
import phrasecensus.readers.musicxml.PartReading.Rehearsal;
import phrasecensus.readers.musicxml.PartReading.Stretch;
import phrasecensus.readers.musicxml.PartReading.TempoReading;
import phrasecensus.readers.musicxml.PlayOrder.Visit;
import phrasecensus.readers.musicxml.TieJoiner.Joined;
import phrasecensus.readers.musicxml.TieJoiner.Placed;
import phrasecensus.readers.Limit;

/** Makes the solo out of everything read of a score: one part, one voice, one line. */
final class SoloDistiller {
  /** A solo and how many notes were left out of it. */
  record Distilled(Solo solo, int notesInStacks, int notesInOtherVoices) {}

  private final ScoreReading score;
  private final ReadSettings settings;
  private final ProblemLog problems;
  private final PartChoice choice;
  private final PartReading part;

  private final List<Visit> order;
  private final List<Bar> bars = new ArrayList<>();
  private final int[][] playedAt;

  private String line = "";
  private int notesInStacks;
  private int notesInOtherVoices;

  private SoloDistiller(ScoreReading score, ReadSettings settings, ProblemLog problems) {
    this.score = score;
    this.settings = settings;
    this.problems = problems;
    this.choice = PartChoice.of(score.parts(), settings.preferredPart(), problems);
    this.part = choice.part();
    this.order = settings.asPlayed() ? unfolded() : asWritten();
    placeBars();
    this.playedAt = playedAt();
  }

  /** Makes the solo. */
  static Distilled distil(ScoreReading score, ReadSettings settings, ProblemLog problems) {
    return new SoloDistiller(score, settings, problems).distilled();
  }

  private Distilled distilled() {
    line = lineVoice();
    List<Joined> sounding = TieJoiner.join(placed());
    reportTies(sounding);
    List<Note> notes = line(sounding);
    List<GraceNote> graces = graceNotes(notes);
    notes = withGraceCounts(notes, graces);
    List<Mark> marks = marks(sounding, notes);
    reportLeftOut();
    if (notes.isEmpty()) {
      problem("", "no-notes", "a part without pitched notes", "the solo has no notes");
    }
    PartReading chordPart = chordPart();
    List<ChordSpan> chords = chordPart == null ? List.of() : chords(chordPart);
    Solo solo =
        new Solo(
            description(chordPart),
            bars,
            notes,
            graces,
            chords,
            keys(),
            tempi(),
            marks,
            unknownSpans(),
            unpitchedOnsets(notes));
    return new Distilled(solo, notesInStacks, notesInOtherVoices);
  }

  // Bars.

  private List<Visit> asWritten() {
    List<Visit> visits = new ArrayList<>(part.bars().size());
    for (int bar = 0; bar < part.bars().size(); bar++) {
      visits.add(new Visit(bar, 1));
    }
    return visits;
  }

  private List<Visit> unfolded() {
    List<BarSigns> signs = new ArrayList<>();
    for (int bar = 0; bar < part.bars().size(); bar++) {
      BarSigns all = part.bars().get(bar).signs();
      for (PartReading other : score.parts()) {
        if (other != part && bar < other.bars().size()) {
          all = all.and(other.bars().get(bar).signs());
        }
      }
      signs.add(all);
    }
    if (PlayOrder.hasJumpWordsOnly(signs)) {
      problem(
          "",
          "jump-by-words",
          "jumps that only words and signs tell",
          "they are played as the usual words mean");
      signs = PlayOrder.withWords(signs);
    }
    return PlayOrder.of(signs, settings.limit(Limit.UNFOLDED_BARS));
  }

  private void placeBars() {
    List<Fraction> offsets = metricalOffsets();
    boolean pickup = !offsets.isEmpty() && offsets.get(0).isPositive();
    Fraction onset = Fraction.ZERO;
    for (int played = 0; played < order.size(); played++) {
      int index = order.get(played).bar();
      BarReading bar = part.bars().get(index);
      bars.add(
          new Bar(
              played,
              bar.number(),
              onset,
              bar.length(),
              bar.metre(),
              offsets.get(index),
              index == 0 && pickup));
      onset = onset.plus(bar.length());
    }
  }

  /** Where the first moment of each bar as written stands in a full bar of its metre. */
  private List<Fraction> metricalOffsets() {
    List<Fraction> offsets = new ArrayList<>();
    List<BarReading> read = part.bars();
    for (int i = 0; i < read.size(); i++) {
      BarReading bar = read.get(i);
      Fraction full = bar.metre().barLength();
      Fraction offset = Fraction.ZERO;
      if (!bar.metre().isFree() && bar.length().isPositive() && bar.length().isBefore(full)) {
        if (i == 0) {
          offset = read.size() > 1 ? pickupOffset(bar, full) : Fraction.ZERO;
        } else {
          Fraction before = offsets.get(i - 1).plus(read.get(i - 1).length());
          Fraction joined = before.plus(bar.length());
          boolean split = before.isBefore(full) && joined.compareTo(full) <= 0;
          if (split && (bar.implicit() || joined.equals(full))) {
            offset = before;
          } else if (bar.implicit()) {
            offset = full.minus(bar.length());
          }
        }
      }
      offsets.add(offset);
    }
    return offsets;
  }

  private Fraction pickupOffset(BarReading first, Fraction full) {
    boolean marked = first.implicit() || first.number().equals("0");
    if (!marked) {
      boolean complemented =
          part.bars().stream()
              .skip(1)
              .filter(b -> b.signs().backwardRepeat() || b == part.bars().get(part.bars().size() - 1))
              .anyMatch(b -> b.length().plus(first.length()).equals(full));
      if (!complemented) {
        problem(
            first.number(),
            "short-first-bar",
            "a first bar of " + first.length() + " quarter notes in " + first.metre().text()
                + " that is not marked as a pickup",
            "it is read as a pickup");
      }
    }
    return full.minus(first.length());
  }

  /** For each bar as written the places where it is played. */
  private int[][] playedAt() {
    int[][] places = new int[part.bars().size()][];
    int[] counts = new int[part.bars().size()];
    for (Visit visit : order) {
      counts[visit.bar()]++;
    }
    for (int i = 0; i < counts.length; i++) {
      places[i] = new int[counts[i]];
      counts[i] = 0;
    }
    for (int played = 0; played < order.size(); played++) {
      int bar = order.get(played).bar();
      places[bar][counts[bar]++] = played;
    }
    return places;
  }

  private int[] playedAt(int bar) {
    return bar < playedAt.length ? playedAt[bar] : new int[0];
  }

  private Fraction length() {
    return bars.isEmpty() ? Fraction.ZERO : bars.get(bars.size() - 1).end();
  }

  // The line.

  private static String voice(NoteReading note) {
    return note.voice().isEmpty() ? "1" : note.voice();
  }

  private String lineOf(NoteReading note, boolean byStaff) {
    return byStaff ? voice(note) + "/" + note.staff() : voice(note);
  }

  private boolean byStaff;

  private String lineVoice() {
    byStaff = part.staves() > 1 && voiceStandsOnTwoStavesAtOnce();
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
                .thenComparing(SoloDistiller::compareLabels))
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
    return firstIsNumber == secondIsNumber
        ? first.compareTo(second)
        : firstIsNumber ? -1 : 1;
  }

  private boolean isInLine(NoteReading note) {
    return lineOf(note, byStaff).equals(line);
  }

  private boolean soundsOn(NoteReading note, int playedBar) {
    return !settings.asPlayed()
        || note.timeOnly().isEmpty()
        || BarSignsBuilder.passes(note.timeOnly()).contains(order.get(playedBar).number());
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
      for (int played : playedAt(note.bar())) {
        if (soundsOn(note, played)) {
          placed.add(new Placed(bars.get(played).onset().plus(note.offset()), played, note));
        }
      }
    }
    return placed;
  }

  private void reportTies(List<Joined> sounding) {
    for (Joined note : sounding) {
      if (note.hasOpenTie() || note.continuesNothing()) {
        problem(
            bars.get(note.first.playedBar()).number(),
            "tie-without-partner",
            "a tie at " + note.first.note().written() + " that "
                + (note.hasOpenTie() ? "leads to no note" : "comes from no note")
                + " of the same pitch",
            "the note is kept apart");
      }
    }
  }

  private List<Note> line(List<Joined> sounding) {
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
            bars.get(top.first.playedBar()).number(),
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
              first.signs().articulations()));
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

  private List<GraceNote> graceNotes(List<Note> notes) {
    record PlacedGrace(Fraction onset, NoteReading note) {}
    List<PlacedGrace> placed = new ArrayList<>();
    for (int played = 0; played < order.size(); played++) {
      // Filled below bar by bar, so that unfolded bars keep their order.
      int bar = order.get(played).bar();
      for (NoteReading note : gracesByBar().getOrDefault(bar, List.of())) {
        if (soundsOn(note, played)) {
          placed.add(new PlacedGrace(bars.get(played).onset().plus(note.offset()), note));
        }
      }
    }
    placed.sort(Comparator.comparing(PlacedGrace::onset));
    List<GraceNote> graces = new ArrayList<>(placed.size());
    int next = 0;
    for (PlacedGrace grace : placed) {
      while (next < notes.size() && notes.get(next).onset().isBefore(grace.onset())) {
        next++;
      }
      graces.add(
          new GraceNote(
              grace.onset(),
              grace.note().concert(),
              grace.note().written(),
              next,
              grace.note().graceSlashed()));
    }
    return graces;
  }

  private Map<Integer, List<NoteReading>> graces;

  /** Grace notes of the line by bar, the top one of a stack. */
  private Map<Integer, List<NoteReading>> gracesByBar() {
    if (graces == null) {
      graces = new HashMap<>();
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
                  note.articulations()));
    }
    return counted;
  }

  private List<Fraction> unpitchedOnsets(List<Note> notes) {
    java.util.TreeSet<Fraction> onsets = new java.util.TreeSet<>();
    for (NoteReading note : part.notes()) {
      if (!note.isPitched() && !note.grace() && !note.inSlashes() && isInLine(note)) {
        for (int played : playedAt(note.bar())) {
          if (soundsOn(note, played)) {
            onsets.add(bars.get(played).onset().plus(note.offset()));
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
          count(notesInOtherVoices, "note") + " in voices other than " + line,
          "the voice with most notes makes the line");
    }
  }

  private static String count(int number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  // Chords.

  private PartReading chordPart() {
    if (!part.chords().isEmpty()) {
      return part;
    }
    PartReading most = null;
    for (PartReading other : score.parts()) {
      if (!other.chords().isEmpty()
          && (most == null || other.chords().size() > most.chords().size())) {
        most = other;
      }
    }
    return most;
  }

  private List<ChordSpan> chords(PartReading source) {
    record PlacedChord(Fraction onset, int playedBar, ChordReading chord) {}
    List<PlacedChord> placed = new ArrayList<>();
    for (ChordReading chord : source.chords()) {
      for (int played : playedAt(chord.bar())) {
        placed.add(
            new PlacedChord(
                Fraction.larger(
                    Fraction.ZERO, bars.get(played).onset().plus(chord.offset())),
                played,
                chord));
      }
    }
    placed.sort(Comparator.comparing(PlacedChord::onset));
    Fraction end = length();
    List<PlacedChord> kept = new ArrayList<>(placed.size());
    for (PlacedChord chord : placed) {
      String bar = bars.get(chord.playedBar()).number();
      if (!chord.onset().isBefore(end)) {
        problems.add(
            source.description().id(),
            bar,
            "chord-after-end",
            "the chord symbol " + chord.chord().written() + " after the last bar",
            "it is left out");
        continue;
      }
      PlacedChord last = kept.isEmpty() ? null : kept.get(kept.size() - 1);
      if (last == null || !last.onset().equals(chord.onset())) {
        kept.add(chord);
        continue;
      }
      boolean replaces = !chord.chord().alternate() || last.chord().alternate();
      if (!last.chord().written().equals(chord.chord().written())) {
        problems.add(
            source.description().id(),
            bar,
            "chords-at-one-place",
            "the chord symbols "
                + last.chord().written()
                + " and "
                + chord.chord().written()
                + " at one place",
            (replaces ? chord : last).chord().written() + " counts");
      }
      if (replaces) {
        kept.set(kept.size() - 1, chord);
      }
    }
    List<ChordSpan> spans = new ArrayList<>(kept.size());
    for (int i = 0; i < kept.size(); i++) {
      PlacedChord chord = kept.get(i);
      Chord written = chord.chord().written();
      if (source != part) {
        Transposition transposition =
            part.bars().get(order.get(chord.playedBar()).bar()).transposition();
        written = chord.chord().concert().sounding(transposition.inverse());
      }
      spans.add(
          new ChordSpan(
              chord.onset(),
              i + 1 < kept.size() ? kept.get(i + 1).onset() : end,
              chord.chord().concert(),
              written,
              chord.chord().text()));
    }
    return spans;
  }

  // Keys and tempi.

  private List<KeyChange> keys() {
    int staff = lineStaff();
    boolean own = part.keys().stream().anyMatch(key -> key.staff() == staff);
    List<KeyReading> read =
        part.keys().stream().filter(key -> key.staff() == (own ? staff : 1)).toList();
    List<KeyChange> keys = new ArrayList<>();
    this.<KeyReading>placed(
        read,
        KeyReading::bar,
        KeyReading::offset,
        (onset, key) -> {
          if (!keys.isEmpty() && keys.get(keys.size() - 1).onset().equals(onset)) {
            keys.remove(keys.size() - 1);
          }
          KeyChange change = new KeyChange(onset, key.concert(), key.written(), key.mode());
          KeyChange last = keys.isEmpty() ? null : keys.get(keys.size() - 1);
          if (last == null || !isSameKey(last, change)) {
            keys.add(change);
          }
        });
    return keys;
  }

  private static boolean isSameKey(KeyChange first, KeyChange second) {
    return first.concertFifths() != null
        && first.concertFifths().equals(second.concertFifths())
        && first.writtenFifths().equals(second.writtenFifths())
        && java.util.Objects.equals(first.mode(), second.mode());
  }

  private int lineStaff() {
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

  private List<TempoChange> tempi() {
    List<TempoReading> read = part.tempi();
    if (read.isEmpty()) {
      read =
          score.parts().stream()
              .map(PartReading::tempi)
              .filter(tempi -> !tempi.isEmpty())
              .findFirst()
              .orElse(List.of());
    }
    // Where a sounding tempo and a printed one stand at one place, the sounding one counts.
    List<TempoReading> ordered = new ArrayList<>(read);
    ordered.sort(
        Comparator.comparingInt(TempoReading::bar)
            .thenComparing(TempoReading::offset)
            .thenComparing(TempoReading::sounded));
    List<TempoChange> tempi = new ArrayList<>();
    this.<TempoReading>placed(
        ordered,
        TempoReading::bar,
        TempoReading::offset,
        (onset, tempo) -> {
          if (!tempi.isEmpty() && tempi.get(tempi.size() - 1).onset().equals(onset)) {
            tempi.remove(tempi.size() - 1);
          }
          if (tempi.isEmpty()
              || tempi.get(tempi.size() - 1).quartersPerMinute() != tempo.quartersPerMinute()) {
            tempi.add(new TempoChange(onset, tempo.quartersPerMinute()));
          }
        });
    return tempi;
  }

  private interface AtOnset<T> {
    void accept(Fraction onset, T item);
  }

  /**
   * Gives every item at each onset where it is played, in order of onset; after a jump also the one
   * that was in force at the target as written.
   */
  private <T> void placed(
      List<T> items, Function<T, Integer> bar, Function<T, Fraction> offset, AtOnset<T> to) {
    Map<Integer, List<T>> byBar = new HashMap<>();
    items.forEach(item -> byBar.computeIfAbsent(bar.apply(item), b -> new ArrayList<>()).add(item));
    List<T> inForce = new ArrayList<>();
    T current = null;
    for (int i = 0; i < part.bars().size(); i++) {
      inForce.add(current);
      List<T> here = byBar.getOrDefault(i, List.of());
      current = here.isEmpty() ? current : here.get(here.size() - 1);
    }
    for (int played = 0; played < order.size(); played++) {
      int index = order.get(played).bar();
      boolean jump = played > 0 && order.get(played - 1).bar() != index - 1;
      if (jump && inForce.get(index) != null) {
        to.accept(bars.get(played).onset(), inForce.get(index));
      }
      for (T item : byBar.getOrDefault(index, List.of())) {
        to.accept(
            Fraction.larger(
                Fraction.ZERO, bars.get(played).onset().plus(offset.apply(item))),
            item);
      }
    }
  }

  // Marks.

  private List<Mark> marks(List<Joined> sounding, List<Note> notes) {
    List<Mark> marks = new ArrayList<>();
    addNoteMarks(marks, notes);
    addLines(marks, notes);
    List<Rehearsal> rehearsals = part.rehearsals();
    if (rehearsals.isEmpty()) {
      rehearsals =
          score.parts().stream()
              .map(PartReading::rehearsals)
              .filter(found -> !found.isEmpty())
              .findFirst()
              .orElse(List.of());
    }
    for (Rehearsal rehearsal : rehearsals) {
      for (int played : playedAt(rehearsal.bar())) {
        Fraction onset = bars.get(played).onset().plus(rehearsal.offset());
        marks.add(new Mark(Mark.Kind.REHEARSAL, onset, onset, rehearsal.text()));
      }
    }
    for (Place place : part.doubleBars()) {
      for (int played : playedAt(place.bar())) {
        Fraction onset =
            place.atEnd()
                ? bars.get(played).end()
                : bars.get(played).onset().plus(place.offset());
        Mark mark = new Mark(Mark.Kind.DOUBLE_BAR, onset, onset, "");
        if (!marks.contains(mark)) {
          marks.add(mark);
        }
      }
    }
    marks.sort(Comparator.comparing(Mark::onset).thenComparing(Mark::kind));
    return marks;
  }

  private void addNoteMarks(List<Mark> marks, List<Note> notes) {
    record Signed(Fraction onset, int playedBar, NoteReading note) {}
    List<Signed> signed = new ArrayList<>();
    for (NoteReading note : part.notes()) {
      if (note.signs().slurs().isEmpty()
          && !note.signs().breath()
          && !note.signs().caesura()
          && !note.signs().fermata()) {
        continue;
      }
      if (isInLine(note) && !note.inSlashes()) {
        for (int played : playedAt(note.bar())) {
          Fraction onset = bars.get(played).onset().plus(note.offset());
          signed.add(new Signed(onsetOfNoteAt(onset, notes), played, note));
        }
      }
    }
    signed.sort(Comparator.comparing(Signed::onset));
    Map<Integer, Fraction> open = new HashMap<>();
    for (Signed sign : signed) {
      Fraction onset = sign.onset();
      if (sign.note().signs().breath()) {
        marks.add(new Mark(Mark.Kind.BREATH, onset, onset, ""));
      }
      if (sign.note().signs().caesura()) {
        marks.add(new Mark(Mark.Kind.CAESURA, onset, onset, ""));
      }
      if (sign.note().signs().fermata()) {
        marks.add(new Mark(Mark.Kind.FERMATA, onset, onset, ""));
      }
      // A note may end one slur and start the next with the same number.
      for (SlurEnd slur : sign.note().signs().slurs()) {
        if (!slur.start()) {
          Fraction start = open.remove(slur.number());
          if (start != null && !start.equals(onset)) {
            marks.add(new Mark(Mark.Kind.SLUR, start, onset, ""));
          }
        }
      }
      for (SlurEnd slur : sign.note().signs().slurs()) {
        if (slur.start()) {
          open.put(slur.number(), onset);
        }
      }
    }
  }

  /** A sign at the continuation of a tie belongs to the note that is struck. */
  private static Fraction onsetOfNoteAt(Fraction moment, List<Note> notes) {
    int low = 0;
    int high = notes.size() - 1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      if (notes.get(middle).onset().compareTo(moment) <= 0) {
        low = middle + 1;
      } else {
        high = middle - 1;
      }
    }
    return high >= 0 && notes.get(high).end().isAfter(moment) ? notes.get(high).onset() : moment;
  }

  private void addLines(List<Mark> marks, List<Note> notes) {
    record Placed(Fraction onset, LineEnd end) {}
    List<Placed> placed = new ArrayList<>();
    for (LineEnd end : part.lines()) {
      for (int played : playedAt(end.bar())) {
        placed.add(new Placed(bars.get(played).onset().plus(end.offset()), end));
      }
    }
    placed.sort(Comparator.comparing(Placed::onset));
    Map<Integer, Fraction> open = new HashMap<>();
    for (Placed line : placed) {
      int key = 2 * line.end().number() + (line.end().dashes() ? 1 : 0);
      if (line.end().start()) {
        open.put(key, line.onset());
        continue;
      }
      Fraction start = open.remove(key);
      if (start != null) {
        Fraction last = start;
        for (Note note : notes) {
          if (note.onset().isBefore(line.onset()) && note.onset().isAtLeast(start)) {
            last = note.onset();
          }
        }
        marks.add(new Mark(Mark.Kind.BRACKET, start, last, ""));
      }
    }
  }

  private List<Span> unknownSpans() {
    List<Span> placed = new ArrayList<>();
    for (Stretch stretch : part.unknown()) {
      for (int played : playedAt(stretch.bar())) {
        Fraction onset = bars.get(played).onset();
        placed.add(new Span(onset.plus(stretch.offset()), onset.plus(stretch.end())));
      }
    }
    placed.sort(Comparator.comparing(Span::onset));
    List<Span> joined = new ArrayList<>();
    for (Span span : placed) {
      Span last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (last != null && last.end().equals(span.onset())) {
        joined.set(joined.size() - 1, new Span(last.onset(), span.end()));
      } else {
        joined.add(span);
      }
    }
    return joined;
  }

  private SoloDescription description(PartReading chordPart) {
    String chordSource;
    if (chordPart == null) {
      chordSource = "No part has chord symbols.";
    } else if (chordPart == part) {
      chordSource = "The chord symbols stand in the solo part.";
    } else {
      chordSource =
          "The chord symbols stand in the part "
              + nameOf(chordPart)
              + " and are converted by its own transposition.";
    }
    PartReading.PartDescription names = part.description();
    return new SoloDescription(
        score.title(),
        score.creators(),
        score.miscellaneous(),
        names.id(),
        names.name(),
        names.instrument().isEmpty() ? names.name() : names.instrument(),
        choice.reason(),
        chordSource);
  }

  private static String nameOf(PartReading part) {
    PartReading.PartDescription names = part.description();
    return names.name().isEmpty() ? names.id() : names.name();
  }

  private void problem(String bar, String code, String found, String done) {
    problems.add(part.description().id(), bar, code, found, done);
  }
}
