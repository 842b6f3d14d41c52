package phrasecensus.tables;

import java.util.Set;

/**
 * Which rows of a table are asked for: those that hold one of some texts in a column. Made by
 * {@link TextColumn}.
 *
 * @param column its name
 * @param texts what it may hold
 * @param one true where one text was named, false where several are looked up
 */
public record Among(String column, Set<String> texts, boolean one) {
  public Among {
    texts = Set.copyOf(texts);
  }
}
