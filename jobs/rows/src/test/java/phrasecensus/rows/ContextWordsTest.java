package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import phrasecensus.music.context.HarmonicContext;
import phrasecensus.tables.PhraseCondition;

class ContextWordsTest {
  @Test
  void queriesKnowEveryKindOfContext() {
    assertThat(PhraseCondition.CONTEXTS)
        .containsExactlyElementsOf(
            Arrays.stream(HarmonicContext.Kind.values()).map(HarmonicContext.Kind::word).toList());
  }
}
