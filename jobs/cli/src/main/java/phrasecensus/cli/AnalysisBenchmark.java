package phrasecensus.cli;

import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.statistic.SoloStatistics;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;
import phrasecensus.rows.FileRows;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

/**
 * How the analysis of solos, which is everything between reading a file and writing its rows,
 * compares with reading, and how it grows with the length of a solo. CPU time of one thread, so
 * that other work on the machine matters little; of several rounds the least. Rows of tables are
 * made from the analysis and counted apart.
 */
final class AnalysisBenchmark {
  private static final int[] TIMES = {1, 10, 100};
  private static final AnalysisSettings SETTINGS =
      new AnalysisSettings(
          PhraseRules.rule(
              StudySettings.DEFAULT_PHRASE_RULE, StudySettings.defaults().phraseRuleSettings()),
          true,
          Optional.empty());

  private final PrintWriter out;
  private final int rounds;

  AnalysisBenchmark(PrintWriter out, int rounds) {
    this.out = out;
    this.rounds = rounds;
  }

  /**
   * Measures and prints.
   *
   * @param contents bytes of scores
   */
  void run(List<String> names, List<byte[]> contents) {
    double reading = Double.POSITIVE_INFINITY;
    double analysis = Double.POSITIVE_INFINITY;
    double phrases = Double.POSITIVE_INFINITY;
    double statistics = Double.POSITIVE_INFINITY;
    double all = Double.POSITIVE_INFINITY;
    FileRows rows = new FileRows(StudySettings.defaults(), TableSchemas.named("solos"));
    List<Solo> solos = List.of();
    for (int round = 0; round < rounds; round++) {
      List<Solo> read = new ArrayList<>();
      long[] at = {cpu(), 0, 0, 0, 0, 0};
      for (int i = 0; i < contents.size(); i++) {
        ReadResult result = SoloReader.read(contents.get(i), names.get(i), ReadSettings.defaults());
        if (result.isRead()) {
          read.add(result.solo());
        }
      }
      at[1] = cpu();
      List<SoloAnalysis> heard = new ArrayList<>();
      read.forEach(solo -> heard.add(SoloAnalyser.analyse(solo, SETTINGS)));
      at[2] = cpu();
      heard.forEach(SoloStatistics::withPhrases);
      at[3] = cpu();
      read.forEach(SETTINGS.phraseRule()::phrases);
      at[4] = cpu();
      for (int i = 0; i < contents.size(); i++) {
        rows.of("corpus", names.get(i), contents.get(i), Map.of());
      }
      at[5] = cpu();
      reading = Math.min(reading, seconds(at[0], at[1]));
      analysis = Math.min(analysis, seconds(at[1], at[3]));
      statistics = Math.min(statistics, seconds(at[2], at[3]));
      phrases = Math.min(phrases, seconds(at[3], at[4]));
      all = Math.min(all, seconds(at[4], at[5]));
      solos = read;
    }
    out.println(
        String.format(
            Locale.ROOT,
            "Reading alone %.3f CPU s, analysis %.3f CPU s: %.3f of reading"
                + " (phrases by rule %s %.3f, form, harmony and landings %.3f, statistics %.3f);"
                + " checksums and the rows of all tables %.3f of reading",
            reading,
            analysis,
            analysis / reading,
            SETTINGS.phraseRule().name(),
            phrases / reading,
            (analysis - phrases - statistics) / reading,
            statistics / reading,
            (all - reading - analysis) / reading));
    growth(solos);
  }

  /** A solo of middle length, strung together end to end. */
  private void growth(List<Solo> solos) {
    if (solos.isEmpty()) {
      return;
    }
    List<Solo> byNotes = new ArrayList<>(solos);
    byNotes.sort(Comparator.comparingInt(solo -> solo.notes().size()));
    Solo middle = byNotes.get(byNotes.size() / 2);
    for (int times : TIMES) {
      Solo solo = strung(middle, times);
      double least = Double.POSITIVE_INFINITY;
      for (int round = 0; round < rounds; round++) {
        least =
            Math.min(
                least,
                seconds(
                    () -> SoloStatistics.withPhrases(SoloAnalyser.analyse(solo, SETTINGS)),
                    TIMES[TIMES.length - 1] / times));
      }
      out.println(
          String.format(
              Locale.ROOT,
              "Analysis of one solo, %d times as long: %d notes, %.2f ms, %.2f microseconds a note",
              times,
              solo.notes().size(),
              1000 * least,
              1e6 * least / Math.max(1, solo.notes().size())));
    }
  }

  private static double seconds(Supplier<?> work, int repeats) {
    long start = cpu();
    for (int i = 0; i < repeats; i++) {
      if (work.get() == null) {
        throw new IllegalStateException("Nothing was made");
      }
    }
    return seconds(start, cpu()) / repeats;
  }

  private static double seconds(long from, long to) {
    return (to - from) / 1e9;
  }

  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /** A solo several times in a row, with all that analysis looks at. */
  static Solo strung(Solo solo, int times) {
    List<Bar> bars = new ArrayList<>();
    List<Note> notes = new ArrayList<>();
    List<ChordSpan> chords = new ArrayList<>();
    List<Mark> marks = new ArrayList<>();
    List<TempoChange> tempi = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      Fraction by = solo.length().times(i);
      int firstBar = bars.size();
      for (Bar bar : solo.bars()) {
        bars.add(
            new Bar(
                bars.size(),
                bar.number(),
                bar.onset().plus(by),
                bar.length(),
                bar.metre(),
                bar.metricalOffset(),
                bar.pickup() && i == 0,
                bar.signs()));
      }
      for (Note note : solo.notes()) {
        notes.add(
            new Note(
                notes.size(),
                note.onset().plus(by),
                note.length(),
                note.concert(),
                note.written(),
                note.barIndex() + firstBar,
                note.tiedLengths(),
                note.graceBefore(),
                note.uncertain(),
                note.articulations(),
                note.syllable()));
      }
      for (ChordSpan chord : solo.chords()) {
        chords.add(
            new ChordSpan(
                chord.onset().plus(by),
                chord.end().plus(by),
                chord.concert(),
                chord.written(),
                chord.text()));
      }
      for (Mark mark : solo.marks()) {
        marks.add(new Mark(mark.kind(), mark.onset().plus(by), mark.end().plus(by), mark.text()));
      }
      for (TempoChange tempo : solo.tempi()) {
        tempi.add(new TempoChange(tempo.onset().plus(by), tempo.quartersPerMinute()));
      }
    }
    return new Solo(
        solo.description(),
        bars,
        notes,
        List.of(),
        chords,
        solo.keys(),
        tempi,
        marks,
        List.of(),
        List.of());
  }
}
