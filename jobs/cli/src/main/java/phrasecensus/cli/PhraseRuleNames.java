package phrasecensus.cli;

import java.util.Iterator;
import phrasecensus.music.phrase.PhraseRules;

/** The names of the phrase rules, for help texts. */
final class PhraseRuleNames implements Iterable<String> {
  @Override
  public Iterator<String> iterator() {
    return PhraseRules.names().iterator();
  }
}
