package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.lesson.Stretch;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/** Small pictures beside the answers of a lesson sheet, told apart by shape and not by colour. */
public final class AnswerPicture {
  private static final int MOST_MARKS = 10;
  private static final int HEIGHT = 18;
  private static final double MIDDLE = 9;

  /** Room at either side for half a mark. */
  private static final double EDGE = 0.05;

  private AnswerPicture() {}

  /**
   * A part of some things, as marks of which so many are full: one a thing where they are few, else
   * ten for all. All are full, or none, only where that is so.
   *
   * @param name what is counted, in words
   * @param shape circle or diamond
   * @param share from 0 to 1
   * @param n how many things there are, at least 1
   */
  public static Picture share(String id, String name, String shape, double share, int n) {
    long marks = Math.min(MOST_MARKS, n);
    long full = Math.round(share * marks);
    if (share < 1 && full == marks) {
      full = marks - 1;
    } else if (share > 0 && full == 0) {
      full = 1;
    }
    List<Mark> drawn = new ArrayList<>();
    for (int i = 0; i < marks; i++) {
      double x = EDGE + (1 - 2 * EDGE) * i / (MOST_MARKS - 1);
      drawn.add(Mark.sign(x, MIDDLE, shape, i < full ? "student full" : "student open"));
    }
    return new Picture(id, name, Text.of("lesson.picture.dots", full, marks), HEIGHT, drawn);
  }

  /**
   * A solo from its first bar to its last: full where it plays, open where that goes on too long
   * for a phrase, empty where it rests.
   *
   * @param line with at least one note and one bar
   */
  public static Picture breaths(String id, LessonLine line) {
    double start = line.solo().bars().get(0).onset();
    double end = line.solo().bars().get(line.solo().bars().size() - 1).end();
    List<Mark> drawn = new ArrayList<>();
    List<String> lengths = new ArrayList<>();
    Numbers numbers = new Numbers(Locale.ENGLISH);
    for (Stretch stretch : line.stretches()) {
      double left = (stretch.onset() - start) / (end - start);
      double right = (stretch.end() - start) / (end - start);
      boolean unbroken = stretch.bars() > LessonLine.LONGEST_PHRASE + 1e-9;
      drawn.add(Mark.area(left, right, 4, 10, unbroken ? "student open" : "student full"));
      lengths.add(numbers.decimal(stretch.bars(), 1));
    }
    drawn.add(Mark.level(0, 1, HEIGHT - 1, "axis"));
    return new Picture(
        id,
        Text.of("lesson.picture.breaths"),
        Text.of("lesson.picture.breaths.says", String.join(", ", lengths)),
        HEIGHT,
        drawn);
  }
}
