package phrasecensus.music.analysis;

import java.util.Optional;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.Key;
import phrasecensus.music.phrase.ByMaterialRule;
import phrasecensus.music.phrase.PhraseRule;

/**
 * What an analysis depends on besides the solo. Recorded in every output.
 *
 * @param phraseRule how phrases are found
 * @param anticipation true to judge a note that starts within the last half beat of a chord and
 *     sounds into the next by the next chord
 * @param key a key that the study gives for this solo; it is that of the whole solo, whatever would
 *     be found
 * @param choruses where people say that choruses begin; empty to find them
 */
public record AnalysisSettings(
    PhraseRule phraseRule, boolean anticipation, Optional<Key> key, Optional<Choruses> choruses) {
  /**
   * What {@code study} takes unless told otherwise: the rule by material, key and choruses found.
   */
  public static AnalysisSettings defaults() {
    return new AnalysisSettings(ByMaterialRule.DEFAULT, true, Optional.empty());
  }

  /** Settings that leave choruses to the chords. */
  public AnalysisSettings(PhraseRule phraseRule, boolean anticipation, Optional<Key> key) {
    this(phraseRule, anticipation, key, Optional.empty());
  }
}
