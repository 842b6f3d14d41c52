package phrasecensus.music.context;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.analysis.WholePhraseRule;
import phrasecensus.music.context.HarmonicContext.Kind;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;

/**
 * Charts with the answer beside each, written before the finder ran (common practice, no source).
 */
class HarmonicContextsTest {
  private static final Metre FOUR_FOUR = Metre.of(4, 4);

  private static SoloAnalysis analysis(Metre metre, int bars, String notes, String chords) {
    Solo solo = SoloText.solo(metre, bars, notes, chords);
    return SoloAnalyser.analyse(
        solo, new AnalysisSettings(new WholePhraseRule(), true, Optional.empty()));
  }

  private static List<HarmonicContext> contexts(Metre metre, int bars, String chords) {
    SoloAnalysis heard = analysis(metre, bars, "", chords);
    return HarmonicContexts.find(heard.solo(), heard.centres(), heard.form());
  }

  private static String told(HarmonicContext context) {
    return context.kind().word()
        + " "
        + context.mode().word()
        + " "
        + context.tonic()
        + " "
        + context.onset()
        + "-"
        + context.end();
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "major | 4 | 0:Dm7 4:G7 8:Cmaj7 | ii-V-I major 0 0-16",
        "minor | 4 | 0:Bm7b5 4:E7 8:Am6 | ii-V-I minor 9 0-16",
        "half-diminished into major | 4 | 0:Dm7b5 4:G7 8:Cmaj7 | ii-V-I major 0 0-16",
        "two chords a bar | 2 | 0:Dm7 2:G7 4:C6 | ii-V-I major 0 0-8",
        "coloured symbols are one chord | 4 | 0:Dm7 2:Dm9 4:G7 6:G13 8:Cmaj7 | ii-V-I major 0 0-16",
        "suspended, then dominant | 4 | 0:Dm7 4:Gsus4 6:G7 8:Cmaj7 | ii-V-I major 0 0-16",
        "suspended alone | 4 | 0:Dm7 4:Gsus4 8:Cmaj7 | ii-V-I major 0 0-16",
        "a long tonic counts for four bars | 8 | 0:Dm7 4:G7 8:Cmaj7 | ii-V-I major 0 0-24",
        "no tonic | 3 | 0:Dm7 4:G7 8:Em7 | ii-V major 0 0-8",
        "half-diminished, no tonic | 3 | 0:Dm7b5 4:G7 8:Em7 | ii-V minor 0 0-8",
        "V to a dominant a fifth down | 8 | 0:Fmaj7 8:Dm7 12:G7 16:C7 20:Fmaj7 | ii-V major 0 8-16",
        "N.C. parts | 4 | 0:Dm7 4:NC 8:G7 12:Cmaj7 | ''",
        "subdominant minor with a sixth is no ii | 3 | 0:Dm6 4:G7 8:Cmaj7 | ''",
        "iii-vi is none | 3 | 0:Em7 4:Am7 8:Cmaj7 | ''",
        "five bars of ii are too many | 8 | 0:Dm7 20:G7 24:Cmaj7 | ''"
      })
  void cadences(String name, int bars, String chords, String expected) {
    assertThat(
            contexts(FOUR_FOUR, bars, chords).stream()
                .filter(c -> c.kind() == Kind.II_V || c.kind() == Kind.II_V_I)
                .map(HarmonicContextsTest::told))
        .containsExactlyElementsOf(expected.isEmpty() ? List.of() : List.of(expected.split(", ")));
  }

  /** The first D minor is the ii of the next cadence, the chart's centre is C. */
  @Test
  void chainOfCadencesHasItsTonicAtItsEnd() {
    assertThat(
            contexts(FOUR_FOUR, 8, "0:Em7b5 4:A7 8:Dm7 12:G7 16:Cmaj7").stream()
                .map(HarmonicContextsTest::told))
        .contains("ii-V-I major 0 8-32")
        .contains("ii-V minor 2 0-8");
  }

  @Test
  void triadsAreACadenceOnlyOfTheCentre() {
    assertThat(
            contexts(FOUR_FOUR, 8, "0:C 8:Dm 12:G 16:C").stream().map(HarmonicContextsTest::told))
        .containsExactly("ii-V-I major 0 8-32");
  }

  /** A rhythm chart's first four bars: the second four chords lead back to the tonic. */
  @Test
  void rhythmChangesHaveOneSixTwoFiveAndTurnarounds() {
    List<String> told =
        contexts(
                FOUR_FOUR,
                6,
                "0:Bbmaj7 2:G7 4:Cm7 6:F7 8:Dm7 10:G7 12:Cm7 14:F7 16:Bbmaj7 20:Ebmaj7")
            .stream()
            .map(HarmonicContextsTest::told)
            .toList();

    assertThat(told)
        .containsExactly(
            "I-vi-ii-V major 10 0-8",
            "ii-V major 10 4-8",
            "ii-V major 0 8-12",
            "turnaround major 10 8-16",
            "ii-V-I major 10 12-20");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "'0:Cmaj7 2:Am7 4:Dm7 6:G7 8:Cmaj7', turnaround major 0 0-8",
    "'0:Em7 2:A7 4:Dm7 6:G7 8:Cmaj7', turnaround major 0 0-8",
    "'0:Cmaj7 2:Ebo7 4:Dm7 6:G7 8:Cmaj7', turnaround major 0 0-8",
    "'0:Cmaj7 2:C#o7 4:Dm7 6:G7 8:Cmaj7', turnaround major 0 0-8",
    "'0:Cmaj7 2:Eb7 4:Ab7 6:Db7 8:Cmaj7', turnaround major 0 0-8"
  })
  void turnarounds(String chords, String expected) {
    assertThat(
            contexts(FOUR_FOUR, 4, chords).stream()
                .filter(c -> c.kind() == Kind.TURNAROUND)
                .map(HarmonicContextsTest::told))
        .containsExactly(expected);
  }

  @Test
  void bluesHasThreeTimesFourBarsAChorus() {
    List<HarmonicContext> found =
        contexts(
            FOUR_FOUR,
            24,
            "0:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:F7 44:C7 48:F7 64:Bb7 72:F7 80:C7 84:Bb7 88:F7"
                + " 92:C7");

    assertThat(found.stream().filter(c -> c.kind().isOfBars()).map(HarmonicContextsTest::told))
        .containsExactly(
            "blues-bars-1-4 blues 5 0-16",
            "blues-bars-5-8 blues 5 16-32",
            "blues-bars-9-12 blues 5 32-48",
            "blues-bars-1-4 blues 5 48-64",
            "blues-bars-5-8 blues 5 64-80",
            "blues-bars-9-12 blues 5 80-96");
  }

  @ParameterizedTest(name = "{1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "8 | 0:Dm7 | vamp minor 2 0-32",
        "7 | 0:Dm7 | ''",
        "8 | 0:Dm7 8:Ebmaj7 16:Dm7 24:Ebmaj7 | vamp minor 2 0-32",
        "8 | 0:Dm7 4:G7 8:Dm7 12:G7 16:Dm7 20:G7 24:Dm7 28:G7 | vamp minor 2 0-32",
        "8 | 0:C 4:G7 8:C 12:G7 16:C 20:G7 24:C 28:G7 | ''"
      })
  void vamps(int bars, String chords, String expected) {
    assertThat(
            contexts(FOUR_FOUR, bars, chords).stream()
                .filter(c -> c.kind() == Kind.VAMP)
                .map(HarmonicContextsTest::told))
        .containsExactlyElementsOf(expected.isEmpty() ? List.of() : List.of(expected));
  }

  @Test
  void barsAreThoseOfTheMetre() {
    assertThat(
            contexts(Metre.of(3, 4), 10, "0:Dm7 12:G7 24:Cmaj7").stream()
                .filter(c -> c.kind() == Kind.II_V_I))
        .hasSize(1);
    assertThat(
            contexts(Metre.of(3, 4), 10, "0:Dm7 13:G7 24:Cmaj7").stream()
                .filter(c -> c.kind() == Kind.II_V_I))
        .isEmpty();
  }

  @Test
  void placeInTheKeyIsTold() {
    List<HarmonicContext> found =
        contexts(
            FOUR_FOUR, 16, "0:Cmaj7 16:Dm7 20:G7 24:Cmaj7 32:Gm7 36:C7 40:Fmaj7 44:G7 48:Cmaj7");

    assertThat(found.stream().filter(c -> c.kind() == Kind.II_V_I))
        .extracting(HarmonicContext::tonic, HarmonicContext::aboveCentre)
        .contains(org.assertj.core.groups.Tuple.tuple(0, 0));
  }

  @Test
  void chartWithoutChordsHasNone() {
    assertThat(contexts(FOUR_FOUR, 8, "")).isEmpty();
    assertThat(contexts(FOUR_FOUR, 0, "")).isEmpty();
  }

  /**
   * The last note anticipates the tonic by half a beat: the phrase plays over all and ends on the
   * I.
   */
  @Test
  void phraseOverACadenceEndsInItsTonic() {
    SoloAnalysis heard =
        analysis(FOUR_FOUR, 4, "0:F4:2 2:A4:2 4:B4:2 6:F4:3/2 15/2:E4:3/2", "0:Dm7 4:G7 8:Cmaj7");
    List<HarmonicContext> contexts =
        HarmonicContexts.find(heard.solo(), heard.centres(), heard.form());

    assertThat(PhraseContext.find(heard.solo(), heard.harmony(), heard.phrases(), contexts))
        .containsExactly(new PhraseContext(0, 0, 1, true, true, "I"));
  }

  @Test
  void phraseThatStopsOnTheDominantIsNotOverTheCadence() {
    SoloAnalysis heard = analysis(FOUR_FOUR, 4, "0:F4:2 4:B4:2", "0:Dm7 4:G7 8:Cmaj7");
    List<HarmonicContext> contexts =
        HarmonicContexts.find(heard.solo(), heard.centres(), heard.form());

    assertThat(PhraseContext.find(heard.solo(), heard.harmony(), heard.phrases(), contexts))
        .containsExactly(new PhraseContext(0, 0, 1, false, true, "V"));
  }

  /** Six of eight quarters lie in the bars before the last four. */
  @Test
  void phraseIsOverTheBarsThatHoldHalfOfIt() {
    SoloAnalysis heard =
        analysis(FOUR_FOUR, 12, "26:A4:4 30:F4:4", "0:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:F7 44:C7");
    List<HarmonicContext> contexts =
        HarmonicContexts.find(heard.solo(), heard.centres(), heard.form());

    assertThat(
            PhraseContext.find(heard.solo(), heard.harmony(), heard.phrases(), contexts).stream()
                .filter(each -> contexts.get(each.context()).kind().isOfBars()))
        .extracting(PhraseContext::share, PhraseContext::over, PhraseContext::endsIn)
        .containsExactly(
            org.assertj.core.groups.Tuple.tuple(0.75, true, true),
            org.assertj.core.groups.Tuple.tuple(0.25, false, false));
  }
}
