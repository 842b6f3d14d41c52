package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.ChorusFinder;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.harmony.TonalCentres;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/** Analysed solos for tests and the values found in them. */
public final class Heard {
  private static final TonalCentre C_MAJOR = new TonalCentre(0, TonalCentre.Mode.MAJOR);

  private Heard() {}

  /** A solo in 4/4, C major, with phrases that begin at the first note and the notes given. */
  public static SoloAnalysis inC(String notes, String chords, Integer... phraseStarts) {
    return inC(SoloText.solo(Metre.of(4, 4), 8, notes, chords), phraseStarts);
  }

  public static SoloAnalysis inC(Solo solo, Integer... phraseStarts) {
    return analyse(solo, Optional.of(C_MAJOR), phraseStarts);
  }

  static SoloAnalysis analyse(Solo solo, Optional<TonalCentre> centre, Integer... phraseStarts) {
    AnalysisSettings settings =
        new AnalysisSettings(new PhrasesAt(List.of(phraseStarts)), true, Optional.empty());
    if (centre.isEmpty()) {
      return SoloAnalyser.analyse(solo, settings);
    }
    Fraction end =
        solo.notes().isEmpty()
            ? solo.length()
            : Fraction.larger(solo.length(), solo.notes().get(solo.notes().size() - 1).end());
    TonalCentreSpan span =
        new TonalCentreSpan(Fraction.ZERO, end, centre.get(), 0, TonalCentreSpan.Source.STUDY);
    return SoloAnalyser.analyse(
        solo,
        settings,
        ChorusFinder.find(solo),
        new TonalCentres(List.of(span), centre.get(), span.scale(), span.source()));
  }

  static Solo atTempo(Solo solo, TempoChange... tempi) {
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        solo.graceNotes(),
        solo.chords(),
        solo.keys(),
        List.of(tempi),
        solo.marks(),
        solo.unknownSpans(),
        solo.unpitchedOnsets());
  }

  static Solo withUnknown(Solo solo, String from, String to) {
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        solo.graceNotes(),
        solo.chords(),
        solo.keys(),
        solo.tempi(),
        solo.marks(),
        List.of(new Span(Fraction.parse(from), Fraction.parse(to))),
        solo.unpitchedOnsets());
  }

  /** The same notes in bars of these metres, each bar full. */
  static Solo inBars(Solo solo, Metre... metres) {
    List<Bar> bars = new ArrayList<>();
    Fraction at = Fraction.ZERO;
    for (Metre metre : metres) {
      bars.add(
          new Bar(
              bars.size(),
              "" + (bars.size() + 1),
              at,
              metre.barLength(),
              metre,
              Fraction.ZERO,
              false));
      at = at.plus(metre.barLength());
    }
    Solo barred =
        new Solo(
            solo.description(),
            bars,
            List.of(),
            List.of(),
            solo.chords(),
            List.of(),
            solo.tempi(),
            List.of(),
            List.of(),
            List.of());
    return new Solo(
        solo.description(),
        bars,
        solo.notes().stream()
            .map(
                note ->
                    Note.plain(
                        note.index(),
                        note.onset(),
                        note.length(),
                        note.concert(),
                        barred.barAt(note.onset()).index()))
            .toList(),
        List.of(),
        solo.chords(),
        List.of(),
        solo.tempi(),
        List.of(),
        List.of(),
        List.of());
  }

  /** The value of one statistic of a solo; null when undefined. */
  static Double solo(SoloAnalysis analysis, String key) {
    return find(SoloStatistics.of(analysis), key).value();
  }

  /** The value of one statistic of a phrase; null when undefined. */
  static Double phrase(SoloAnalysis analysis, int index, String key) {
    return find(PhraseStatistics.of(analysis, analysis.phrases().get(index)), key).value();
  }

  static StatisticValue find(List<StatisticValue> values, String key) {
    return values.stream().filter(value -> value.key().equals(key)).findFirst().orElseThrow();
  }

  private record PhrasesAt(List<Integer> starts) implements PhraseRule {
    @Override
    public String name() {
      return "given";
    }

    @Override
    public Map<String, String> settings() {
      return Map.of();
    }

    @Override
    public List<Integer> boundaries(Solo solo) {
      return starts;
    }
  }
}
