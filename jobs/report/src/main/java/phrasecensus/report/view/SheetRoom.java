package phrasecensus.report.view;

import java.util.List;
import phrasecensus.report.wording.Task;
import phrasecensus.report.wording.Text;

/**
 * How much room the words of a lesson sheet leave for its notation on paper, in pixels. Lines are
 * counted by letters, a little wider than they are set, so that the sheet stays on its one side.
 */
final class SheetRoom {
  /** What one side of A4 holds inside its margins: 278 millimetres. */
  private static final double SIDE = 1050;

  /** Sizes of the style sheet for print. */
  private static final double LINE = 16.8;

  private static final double SMALL_LINE = 14;
  private static final double HEADING = 15;
  private static final double TITLE = 17.5;
  private static final double GAP = 8;

  /** Letters to a line across the page, in half of it, in the task's box, beside a picture. */
  private static final int ACROSS = 100;

  private static final int ACROSS_SMALL = 118;
  private static final int HALF = 49;
  private static final int IN_BOX = 46;
  private static final int IN_BOX_SMALL = 56;
  private static final int BESIDE_PICTURE = 32;

  /** The least room for the teacher's hand. */
  private static final double HAND = 62;

  private double used = GAP + 30;

  private static double lines(String text, int letters, double height) {
    return text.isEmpty() ? 0 : Math.ceil(text.length() / (double) letters) * height;
  }

  /** Words across the page under a heading of their own, or without one. */
  SheetRoom across(boolean heading, String text) {
    used += text.isEmpty() ? 0 : (heading ? GAP + HEADING : 2) + lines(text, ACROSS, LINE);
    return this;
  }

  /** Small words across the page. */
  SheetRoom small(String text) {
    used += lines(text, ACROSS_SMALL, SMALL_LINE) + 2;
    return this;
  }

  /** Answers on the left, what goes well, last lesson and task on the right. */
  SheetRoom columns(
      List<SheetAnswers.Asked> questions, String good, String last, String change, Task task) {
    double left = GAP + HEADING;
    for (SheetAnswers.Asked asked : questions) {
      left += 5 + lines(asked.heading(), HALF - 4, TITLE);
      for (SheetAnswers.Told told : asked.answers()) {
        left += lines(told.sentence(), told.picture() == null ? HALF : BESIDE_PICTURE, LINE);
      }
    }
    double right = 2 * (GAP + HEADING + 2);
    right += lines(good, HALF, LINE) + lines(last, HALF, LINE) + lines(change, HALF, LINE);
    right += GAP + HEADING + TITLE + 16;
    right += lines(task.play(), IN_BOX, LINE);
    right += lines(task.time() + " " + task.sign(), IN_BOX, LINE);
    right += lines(Text.of("lesson.care"), IN_BOX_SMALL, SMALL_LINE);
    used += Math.max(left, right);
    return this;
  }

  /**
   * What is left for the solo below its heading: beside or below an example the room for the
   * teacher's hand is kept free.
   *
   * @param example height of its notation; 0 without one
   */
  double left(double example) {
    double caption = example == 0 ? 0 : 4 * LINE;
    return SIDE - used - 2 * (GAP + HEADING) - Math.max(HAND, example + caption);
  }
}
