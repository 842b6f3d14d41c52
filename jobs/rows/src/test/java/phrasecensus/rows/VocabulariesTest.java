package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import phrasecensus.music.aim.Counted;
import phrasecensus.music.aim.Finding;
import phrasecensus.music.aim.Question;
import phrasecensus.music.aim.Shortage;
import phrasecensus.music.aim.Verdict;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.context.HarmonicContext;
import phrasecensus.music.harmony.CentreScale;
import phrasecensus.music.harmony.ChorusFinder;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.landing.RestingNote;
import phrasecensus.music.phrase.ByMaterialRule;
import phrasecensus.tables.Word;

/** The words of the schemas are those that the music says. */
class VocabulariesTest {
  @Test
  void theWordsOfTheSchemasAreThoseOfTheMusic() {
    same(Counted.values(), Counted::word, phrasecensus.tables.row.Counted.values());
    same(Finding.values(), Finding::word, phrasecensus.tables.row.Finding.values());
    same(Question.values(), Question::word, phrasecensus.tables.row.Question.values());
    same(Shortage.values(), Shortage::word, phrasecensus.tables.row.Shortage.values());
    same(Verdict.values(), Verdict::word, phrasecensus.tables.row.AnswerVerdict.values());
    same(
        ChordDegree.Role.values(),
        ChordDegree.Role::word,
        phrasecensus.tables.row.DegreeRole.values());
    same(
        HarmonicContext.Kind.values(),
        HarmonicContext.Kind::word,
        phrasecensus.tables.row.ContextKind.values());
    same(
        HarmonicContext.Mode.values(),
        HarmonicContext.Mode::word,
        phrasecensus.tables.row.ContextMode.values());
    same(CentreScale.values(), CentreScale::word, phrasecensus.tables.row.CentreScale.values());
    same(
        ChorusFinder.Source.values(),
        ChorusFinder.Source::word,
        phrasecensus.tables.row.ChorusSource.values());
    same(
        TonalCentre.Mode.values(),
        TonalCentre.Mode::word,
        phrasecensus.tables.row.CentreMode.values());
    same(
        TonalCentreSpan.Source.values(),
        TonalCentreSpan.Source::word,
        phrasecensus.tables.row.CentreSource.values());
    same(Landing.Kind.values(), Landing.Kind::word, phrasecensus.tables.row.LandingKind.values());
    same(
        Landing.Approach.values(),
        Landing.Approach::word,
        phrasecensus.tables.row.Approach.values());
    same(
        RestingNote.Kind.values(),
        RestingNote.Kind::word,
        phrasecensus.tables.row.RestingReason.values());
    same(
        ByMaterialRule.Reason.values(),
        ByMaterialRule.Reason::word,
        phrasecensus.tables.row.RuleReason.values());
  }

  private static <M> void same(M[] music, Function<M, String> word, Word[] words) {
    List<String> ofMusic = Arrays.stream(music).map(word).toList();
    assertThat(Arrays.stream(words).map(Word::word))
        .as(words[0].getClass().getSimpleName())
        .containsExactlyInAnyOrderElementsOf(ofMusic);
  }
}
