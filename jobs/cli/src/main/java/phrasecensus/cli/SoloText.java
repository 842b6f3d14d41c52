package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;

/** A solo and what was heard in it, printed for a person. */
final class SoloText {
  private static final String[] FLAT_NAMES = {
    "C", "D♭", "D", "E♭", "E", "F", "G♭", "G", "A♭", "A", "B♭", "B"
  };

  private final SoloAnalysis analysis;
  private final Solo solo;
  private final ReadResult result;
  private final boolean written;

  SoloText(SoloAnalysis analysis, ReadResult result, boolean written) {
    this.analysis = analysis;
    this.solo = analysis.solo();
    this.result = result;
    this.written = written;
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
    out.println("Tonal centres: " + centres());
    out.println();
    printBars(out);
    out.println();
    printPhrases(out);
    printProblems(out);
  }

  private String centres() {
    StringBuilder text = new StringBuilder();
    for (TonalCentreSpan span : analysis.centres()) {
      if (!text.isEmpty()) {
        text.append(", ");
      }
      text.append(
          span.centre().isKnown()
              ? FLAT_NAMES[span.centre().tonic()] + " " + span.centre().mode().word()
              : "unknown");
      text.append(" from bar ").append(solo.barAt(span.onset()).number());
    }
    return text.isEmpty() ? "none" : text.toString();
  }

  private void printBars(PrintWriter out) {
    Set<Integer> firsts = new HashSet<>();
    Set<Integer> lasts = new HashSet<>();
    for (Phrase phrase : analysis.phrases()) {
      firsts.add(phrase.firstNote());
      lasts.add(phrase.lastNote());
    }
    Map<Integer, Landing> landings = new HashMap<>();
    analysis.landings().forEach(landing -> landings.put(landing.noteIndex(), landing));
    int next = 0;
    for (Bar bar : solo.bars()) {
      StringBuilder line = new StringBuilder();
      line.append(String.format(Locale.ROOT, "bar %-4s", bar.number()));
      line.append("| ").append(String.format(Locale.ROOT, "%-22s", chords(bar))).append("| ");
      while (next < solo.notes().size() && solo.notes().get(next).barIndex() == bar.index()) {
        Note note = solo.notes().get(next);
        if (firsts.contains(next)) {
          line.append("[ ");
        }
        line.append(note(note, landings.get(next)));
        line.append(lasts.contains(next) ? " ] " : " ");
        next++;
      }
      out.println(line.toString().stripTrailing());
    }
  }

  private String chords(Bar bar) {
    StringBuilder text = new StringBuilder();
    for (ChordSpan span : solo.chords()) {
      boolean starts = span.onset().isAtLeast(bar.onset()) && span.onset().isBefore(bar.end());
      if (starts) {
        text.append(written ? span.written().symbol() : span.concert().symbol());
        Fraction place = bar.positionOf(span.onset());
        if (!place.isZero()) {
          text.append('@').append(beat(bar, place));
        }
        text.append(' ');
      }
    }
    return text.toString().stripTrailing();
  }

  private static String beat(Bar bar, Fraction place) {
    return place.dividedBy(bar.metre().beatLength()).plus(Fraction.ONE).toString();
  }

  private String note(Note note, Landing landing) {
    Bar bar = solo.bars().get(note.barIndex());
    String text =
        beat(bar, bar.positionOf(note.onset()))
            + ":"
            + (written ? note.written() : note.concert())
            + "("
            + note.length()
            + ")";
    if (landing != null) {
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

  private void printProblems(PrintWriter out) {
    List<Problem> problems = result.problems();
    if (!problems.isEmpty()) {
      out.println();
      out.println("Problems: " + problems.size());
      problems.forEach(problem -> out.println("  " + SoloOptions.line(problem)));
    }
  }
}
