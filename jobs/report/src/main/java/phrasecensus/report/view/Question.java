package phrasecensus.report.view;

import java.util.List;
import phrasecensus.report.picture.Picture;

/**
 * One of the headline questions with what answers it.
 *
 * @param id place in the page
 * @param explained what the question is about, for a player
 * @param answer one or two sentences; null on the corpus page, where the figures say it
 */
public record Question(
    String id, String heading, String explained, String answer, List<Figure> figures) {
  public Question {
    figures = List.copyOf(figures);
  }

  /**
   * A statistic with its picture.
   *
   * @param name of the statistic
   * @param meaning what it means to a player
   * @param sentences what there is to say, in order
   * @param numbers the numbers behind the picture; null when they stand elsewhere on the page
   * @param examples phrases that show what is usual; empty without any
   * @param byGroup the same for groups; empty without any
   */
  public record Figure(
      String name,
      String meaning,
      List<String> sentences,
      Picture picture,
      Grid numbers,
      List<Excerpt> examples,
      List<OfGroup> byGroup) {
    public Figure {
      sentences = List.copyOf(sentences);
      examples = List.copyOf(examples);
      byGroup = List.copyOf(byGroup);
    }
  }

  /** Phrases that show what is usual in one group. */
  public record OfGroup(String name, List<Excerpt> examples) {
    public OfGroup {
      examples = List.copyOf(examples);
    }
  }
}
