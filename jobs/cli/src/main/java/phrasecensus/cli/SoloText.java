package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.changes.Changes;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.statistic.OutsideNotes;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;

/** A solo and what was heard in it, printed for a person. */
final class SoloText {
  private static final int CHORDS_WIDTH = 22;
  private static final int NOTES_WIDTH = 66;

  private static final String[] FLAT_NAMES = {
    "C", "D♭", "D", "E♭", "E", "F", "G♭", "G", "A♭", "A", "B♭", "B"
  };

  private final SoloAnalysis analysis;
  private final Solo solo;
  private final ReadResult result;
  private final boolean written;
  private final Map<Integer, Landing> landings = new HashMap<>();
  private final Set<Integer> unexplained;

  SoloText(SoloAnalysis analysis, ReadResult result, boolean written) {
    this.analysis = analysis;
    this.solo = analysis.solo();
    this.result = result;
    this.written = written;
    this.unexplained = OutsideNotes.unexplained(analysis);
    analysis.landings().forEach(landing -> landings.put(landing.noteIndex(), landing));
  }

  void print(PrintWriter out) {
    SoloDescription description = solo.description();
    out.println(description.title().isEmpty() ? "(no title)" : description.title());
    out.println(
        "Part "
            + description.partId()
            + (description.partName().isEmpty() ? "" : " " + description.partName())
            + ": "
            + description.partReason());
    out.println("Chords: " + description.chordSource());
    out.println(
        solo.bars().size()
            + " bars, "
            + solo.notes().size()
            + " notes, "
            + analysis.phrases().size()
            + " phrases"
            + (solo.tempi().isEmpty()
                ? ""
                : String.format(
                    Locale.ROOT,
                    ", %.0f quarter notes a minute",
                    solo.tempi().get(0).quartersPerMinute()))
            + "; pitches "
            + (written ? "as written" : "as they sound"));
    out.println(
        "Phrases by the rule "
            + PhraseRules.text(analysis.rule().rule())
            + ": "
            + analysis.rule().reason().sentence());
    out.println("Tonal centres: " + centres());
    out.println("Form: " + form());
    out.println();
    printBars(out);
    out.println();
    printPhrases(out);
    out.println();
    printLandings(out);
    printProblems(out);
    out.println();
    printKey(out);
  }

  private String centres() {
    StringBuilder text = new StringBuilder();
    int toShown = written ? -Changes.transposition(solo).semitones() : 0;
    for (TonalCentreSpan span : analysis.centres()) {
      if (!text.isEmpty()) {
        text.append(", ");
      }
      text.append(
          span.centre().isKnown()
              ? FLAT_NAMES[Math.floorMod(span.centre().tonic() + toShown, 12)]
                  + " "
                  + span.centre().mode().word()
              : "unknown");
      text.append(" from bar ").append(solo.barAt(span.onset()).number());
    }
    return text.isEmpty() ? "none" : text.toString();
  }

  private String form() {
    return analysis
        .form()
        .choruses()
        .map(
            choruses ->
                "choruses of "
                    + choruses.bars()
                    + " bars from bar "
                    + choruses.onsets().stream()
                        .map(onset -> solo.barAt(onset).number())
                        .collect(Collectors.joining(", ")))
        .orElse("choruses unknown, the chords do not come round");
  }

  private void printBars(PrintWriter out) {
    Set<Integer> firsts = new HashSet<>();
    Set<Integer> lasts = new HashSet<>();
    for (Phrase phrase : analysis.phrases()) {
      firsts.add(phrase.firstNote());
      lasts.add(phrase.lastNote());
    }
    int next = 0;
    for (Bar bar : solo.bars()) {
      List<String> notes = new ArrayList<>();
      while (next < solo.notes().size() && solo.notes().get(next).barIndex() == bar.index()) {
        notes.add(
            (firsts.contains(next) ? "[ " : "")
                + note(solo.notes().get(next))
                + (lasts.contains(next) ? " ]" : ""));
        next++;
      }
      printRows(
          out, "bar " + bar.number(), lines(chords(bar), CHORDS_WIDTH), lines(notes, NOTES_WIDTH));
    }
  }

  /** A bar in as many rows as its chords or notes need. */
  private static void printRows(
      PrintWriter out, String name, List<String> chords, List<String> notes) {
    int rows = Math.max(1, Math.max(chords.size(), notes.size()));
    for (int row = 0; row < rows; row++) {
      out.println(
          String.format(
                  Locale.ROOT,
                  "%-8s| %-" + CHORDS_WIDTH + "s| %s",
                  row == 0 ? name : "",
                  row < chords.size() ? chords.get(row) : "",
                  row < notes.size() ? notes.get(row) : "")
              .stripTrailing());
    }
  }

  /** Words put together into lines of at most a width; a longer word has a line of its own. */
  static List<String> lines(List<String> words, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : words) {
      if (!line.isEmpty() && line.length() + 1 + word.length() > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.isEmpty() ? "" : " ").append(word);
    }
    if (!line.isEmpty()) {
      lines.add(line.toString());
    }
    return lines;
  }

  private List<String> chords(Bar bar) {
    List<String> chords = new ArrayList<>();
    for (ChordSpan span : solo.chords()) {
      if (span.onset().isAtLeast(bar.onset()) && span.onset().isBefore(bar.end())) {
        String symbol = written ? span.written().symbol() : span.concert().symbol();
        Fraction place = bar.positionOf(span.onset());
        chords.add(place.isZero() ? symbol : symbol + "@" + beat(bar, place));
      }
    }
    return chords;
  }

  private static String beat(Bar bar, Fraction place) {
    return mixed(place.dividedBy(bar.metre().beatLength()).plus(Fraction.ONE));
  }

  /** Whole and part as a musician counts, as in {@code 4+1/2}. */
  static String mixed(Fraction number) {
    long whole = number.floor();
    Fraction part = number.minus(Fraction.of(whole));
    if (part.isZero()) {
      return Long.toString(whole);
    }
    return whole == 0 ? part.toString() : whole + "+" + part;
  }

  private String note(Note note) {
    Bar bar = solo.bars().get(note.barIndex());
    String text =
        beat(bar, bar.positionOf(note.onset()))
            + ":"
            + (written ? note.written() : note.concert())
            + "("
            + mixed(note.length())
            + ")";
    if (unexplained.contains(note.index())) {
      text += "*";
    }
    if (landings.containsKey(note.index())) {
      NoteHarmony harmony = analysis.harmony().get(note.index());
      text += "→" + (harmony.degree() == null ? "?" : harmony.degree().name());
    }
    return text;
  }

  private void printPhrases(PrintWriter out) {
    out.println("Phrases: bars, notes, landing of the last note");
    for (Phrase phrase : analysis.phrases()) {
      Note first = solo.notes().get(phrase.firstNote());
      Note last = solo.notes().get(phrase.lastNote());
      NoteHarmony harmony = analysis.harmony().get(phrase.lastNote());
      out.println(
          String.format(
              Locale.ROOT,
              "%4d  bars %s to %s, %d notes, ends on %s%s",
              phrase.index() + 1,
              solo.bars().get(first.barIndex()).number(),
              solo.bars().get(last.barIndex()).number(),
              phrase.noteCount(),
              written ? last.written() : last.concert(),
              harmony.degree() == null
                  ? " (no chord to judge it by)"
                  : ", the "
                      + harmony.degree().name()
                      + " of "
                      + (written
                          ? harmony.chord().written().symbol()
                          : harmony.chord().concert().symbol())));
    }
  }

  private void printLandings(PrintWriter out) {
    StringBuilder kinds = new StringBuilder();
    for (Landing.Kind kind : Landing.Kind.values()) {
      long count = landings.values().stream().filter(each -> each.kind() == kind).count();
      if (count > 0) {
        kinds.append(kinds.isEmpty() ? "" : ", ").append(count).append(' ').append(kind.word());
      }
    }
    out.println("Landings: " + landings.size() + (kinds.isEmpty() ? "" : " (" + kinds + ")"));
    long asked = landings.values().stream().filter(each -> each.nextGuideTone() != null).count();
    long reached =
        landings.values().stream()
            .filter(each -> Boolean.TRUE.equals(each.nextGuideTone()))
            .count();
    out.println(
        "Landings before a new chord whose guide tone comes next: " + reached + " of " + asked);
    out.println("Outside notes that no step explains: " + unexplained.size());
  }

  private static void printKey(PrintWriter out) {
    out.println("Key");
    out.println("  4+1/2:E♭5(1/3)  half a beat after beat 4, E flat 5, a third of a quarter note");
    out.println("  [ ]             first and last note of a phrase");
    out.println("  →b7             a landing, and what it is over its chord; →? without a chord");
    out.println("  *               outside chord and scale, and no step explains it");
    out.println("  F7@3            a chord that starts on beat 3; the others start with the bar");
  }

  private void printProblems(PrintWriter out) {
    List<Problem> problems = result.problems();
    if (!problems.isEmpty()) {
      out.println();
      out.println("Problems: " + problems.size());
      SoloOptions.lines(problems).forEach(line -> out.println("  " + line));
    }
  }
}
