package phrasecensus.report.picture;

import java.util.List;
import phrasecensus.report.wording.FileText;

/**
 * A picture that fills the width it is given.
 *
 * @param id unique in its page
 * @param title what it shows, short
 * @param description what there is to see, in words, for readers who do not see it
 * @param height in pixels
 * @param marks in the order of drawing
 */
public record Picture(String id, String title, String description, int height, List<Mark> marks) {
  public Picture {
    title = FileText.withoutDirection(title);
    description = FileText.withoutDirection(description);
    marks = List.copyOf(marks);
  }

  /** Names the title and description for assistive technology. */
  public String labels() {
    return id + "-t " + id + "-d";
  }
}
