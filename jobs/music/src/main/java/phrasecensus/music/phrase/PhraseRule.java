package phrasecensus.music.phrase;

import java.util.List;
import java.util.Map;
import phrasecensus.music.score.Solo;

/**
 * A rule that finds where phrases begin. Deterministic: the same solo gives the same boundaries.
 */
public interface PhraseRule {

  /** Name under which studies and outputs know the rule, as in {@code silence}. */
  String name();

  /** Its numbers by name, in a fixed order, as they are recorded in every output. */
  Map<String, String> settings();

  /**
   * Indices of the notes that begin a phrase, ascending, without the first note of the solo: inner
   * boundaries only. Empty for a solo of one phrase or without notes.
   */
  List<Integer> boundaries(Solo solo);

  /** The phrases that the boundaries make; empty for a solo without notes. */
  default List<Phrase> phrases(Solo solo) {
    return Phrases.between(solo, boundaries(solo));
  }
}
