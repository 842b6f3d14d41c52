package phrasecensus.music.analysis;

import java.util.List;
import java.util.Map;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.score.Solo;

/** One phrase a solo: for tests that are not about phrases. */
public record WholePhraseRule() implements PhraseRule {
  @Override
  public String name() {
    return "whole";
  }

  @Override
  public Map<String, String> settings() {
    return Map.of();
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    return List.of();
  }
}
