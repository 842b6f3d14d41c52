package phrasecensus.music.analysis;

import java.util.List;
import java.util.Optional;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.harmony.ChorusFinder;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.NoteHarmonies;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentreFinder;
import phrasecensus.music.harmony.TonalCentres;
import phrasecensus.music.landing.Landings;
import phrasecensus.music.landing.RestingNotes;
import phrasecensus.music.phrase.AppliedRule;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.rest.Stretch;
import phrasecensus.music.rest.Stretches;
import phrasecensus.music.score.Solo;

/** Hears a solo whole. */
public final class SoloAnalyser {
  private SoloAnalyser() {}

  /**
   * Form, tonal centres, harmony at each note, phrases and landings of a solo, with or without
   * notes and chords. Deterministic; linear in notes and chords as far as the phrase rule is.
   */
  public static SoloAnalysis analyse(Solo solo, AnalysisSettings settings) {
    Optional<Choruses> choruses = settings.choruses().or(() -> ChorusFinder.find(solo));
    return analyse(
        solo, settings, choruses, TonalCentreFinder.find(solo, settings.key(), choruses));
  }

  /**
   * The same with tonal centres that are known from elsewhere.
   *
   * @param choruses what {@link ChorusFinder} finds, or what people say
   */
  public static SoloAnalysis analyse(
      Solo solo, AnalysisSettings settings, Optional<Choruses> choruses, TonalCentres centres) {
    List<NoteHarmony> harmony = NoteHarmonies.find(solo, settings.anticipation(), centres.spans());
    AppliedRule rule = AppliedRule.of(settings.phraseRule(), solo);
    List<Phrase> phrases = rule.rule().phrases(solo);
    List<Stretch> stretches = Stretches.find(solo);
    return new SoloAnalysis(
        solo,
        centres.spans(),
        centres.whole(),
        centres.scale(),
        centres.source(),
        harmony,
        phrases,
        Landings.find(solo, harmony, phrases),
        SoloForm.of(solo, choruses),
        stretches,
        rule,
        RestingNotes.find(solo, harmony, stretches));
  }

  /**
   * The same solo with the phrases of another rule, and the landings that follow from them; the
   * same as analysing it anew with that rule, for less.
   */
  public static SoloAnalysis underRule(SoloAnalysis analysis, PhraseRule rule) {
    AppliedRule applied = AppliedRule.of(rule, analysis.solo());
    List<Phrase> phrases = applied.rule().phrases(analysis.solo());
    return new SoloAnalysis(
        analysis.solo(),
        analysis.centres(),
        analysis.centre(),
        analysis.scale(),
        analysis.centreSource(),
        analysis.harmony(),
        phrases,
        Landings.find(analysis.solo(), analysis.harmony(), phrases),
        analysis.form(),
        analysis.stretches(),
        applied,
        analysis.restingNotes());
  }
}
