package phrasecensus.report.engraving;

import java.util.List;
import phrasecensus.report.wording.FileText;

/**
 * One drawn system. Every place and size is in tenths of a staff space, as a whole number: a page
 * holds thousands of them. What a path looks like, and which sign it sets at each of its points,
 * stands in the style sheet under its style.
 *
 * @param id unique in its page
 * @param label what there is to see, in words
 * @param width of the drawing, without room for what hangs over on the left
 * @param top upper edge; 0 is the middle line of the staff
 * @param bottom lower edge
 * @param layers drawn one over the other
 */
public record Engraving(
    String id, String label, int width, int top, int bottom, List<Layer> layers) {
  public Engraving {
    label = FileText.withoutDirection(label);
    layers = List.copyOf(layers);
  }

  /**
   * What is drawn with one strength.
   *
   * @param pale true for what only leads in or out
   */
  public record Layer(boolean pale, List<Path> paths, List<Words> words) {
    public Layer {
      paths = List.copyOf(paths);
      words = List.copyOf(words);
    }
  }

  /**
   * Lines, filled outlines, or points at which a sign stands.
   *
   * @param data SVG path data
   */
  public record Path(String style, String data) {}

  /** Words at a place, which the style may make their start or their middle. */
  public record Words(int x, int y, String style, List<Run> runs) {
    public Words {
      runs = List.copyOf(runs);
    }

    static Words of(int x, int y, String style, String text) {
      return new Words(x, y, style, List.of(Run.plain(text)));
    }

    /** All of the words, in the order of reading. */
    public String text() {
      StringBuilder text = new StringBuilder();
      runs.forEach(run -> text.append(run.text()));
      return text.toString();
    }
  }

  /**
   * A stretch of words in one size.
   *
   * @param style empty for that of the words
   * @param dx how far it is shifted from where the last one ended
   * @param dy how far down
   */
  public record Run(String style, int dx, int dy, String text) {
    public Run {
      text = FileText.withoutDirection(text);
    }

    static Run plain(String text) {
      return new Run("", 0, 0, text);
    }

    /** True when it needs no place or size of its own. */
    public boolean isPlain() {
      return style.isEmpty() && dx == 0 && dy == 0;
    }
  }

  /** The part of the plane that is drawn on. */
  public String viewBox() {
    return "0 " + top + " " + width + " " + (bottom - top);
  }
}
