package phrasecensus.report.engraving;

import java.util.List;
import phrasecensus.report.wording.FileText;

/**
 * One drawn system. Every place and size is in staff spaces.
 *
 * @param id unique in its page
 * @param title what it shows, short
 * @param description what there is to see, in words
 * @param width and {@code height} of the drawing
 * @param middleLine how far below the top edge the middle line of the staff lies; places count from
 *     it
 * @param staffSpace pixels to a staff space
 * @param strokes lines of one thickness each
 * @param shapes filled outlines: beams, ties
 * @param signs signs of the stock
 * @param words text
 * @param marks landing marks
 */
public record Engraving(
    String id,
    String title,
    String description,
    double width,
    double height,
    double middleLine,
    double staffSpace,
    List<Strokes> strokes,
    String shapes,
    List<Use> signs,
    List<Words> words,
    List<Landing> marks) {
  public Engraving {
    title = FileText.withoutDirection(title);
    description = FileText.withoutDirection(description);
    strokes = List.copyOf(strokes);
    signs = List.copyOf(signs);
    words = List.copyOf(words);
    marks = List.copyOf(marks);
  }

  /**
   * Lines of one thickness.
   *
   * @param path SVG path data
   */
  public record Strokes(String path, String thickness, String style) {}

  /** A sign at a place. */
  public record Use(String sign, String x, String y) {}

  /** Words at a place; {@code size} in staff spaces. */
  public record Words(String x, String y, String anchor, String size, String style, String text) {}

  /**
   * A landing.
   *
   * @param shape a shape of the page's stock
   * @param style whether it is filled
   */
  public record Landing(String x, String y, String shape, String style) {}

  /** The part of the plane that is drawn on. */
  public String viewBox() {
    return "0 " + Pen.number(-middleLine) + " " + Pen.number(width) + " " + Pen.number(height);
  }

  /** Width in pixels when it is not scaled. */
  public int pixels() {
    return (int) Math.round(width * staffSpace);
  }

  /** Height in pixels when it is not scaled. */
  public int pixelsHigh() {
    return (int) Math.round(height * staffSpace);
  }

  /** Names the title and description for assistive technology. */
  public String labels() {
    return id + "-t " + id + "-d";
  }
}
