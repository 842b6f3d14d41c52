package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import phrasecensus.music.score.Solo;

/**
 * Phrases where people marked them: not a rule but the marks for one solo, in the place of one.
 *
 * @param firstNotes index of the first note of each phrase, in any order; what is not inside the
 *     line, or stands twice, makes no boundary
 */
public record GivenRule(List<Integer> firstNotes) implements PhraseRule {
  /** The name that outputs record. */
  public static final String NAME = "given";

  /** Copies the list. */
  public GivenRule {
    firstNotes = List.copyOf(firstNotes);
  }

  @Override
  public String name() {
    return NAME;
  }

  /** None: the marks are data, and differ from solo to solo. */
  @Override
  public Map<String, String> settings() {
    return Map.of();
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    TreeSet<Integer> inside = new TreeSet<>(firstNotes);
    return new ArrayList<>(inside.subSet(1, Math.max(1, solo.notes().size())));
  }
}
