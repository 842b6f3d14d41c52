package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/**
 * Shares of a whole, part by part: the corpus as an outlined bar, the student as a filled one below
 * it on the same scale.
 */
public final class PairedBars {
  private static final double LANE = 46;
  private static final double LEGEND = 30;

  private final Numbers numbers;

  public PairedBars(Numbers numbers) {
    this.numbers = numbers;
  }

  /**
   * One part.
   *
   * @param corpus share from 0 to 1; null without one
   * @param student share from 0 to 1; null without one
   */
  public record Entry(String name, Double corpus, Double student) {}

  /**
   * Draws the parts in the order given.
   *
   * @param corpusName what the outlined bars stand for, with its n
   * @param studentName what the filled bars stand for, with its n
   */
  public Picture picture(
      String id, String title, String corpusName, String studentName, List<Entry> entries) {
    List<Double> all = new ArrayList<>();
    for (Entry entry : entries) {
      all.add(entry.corpus() == null ? 0 : entry.corpus());
      all.add(entry.student() == null ? 0 : entry.student());
    }
    all.add(0.0);
    // Room is left at the right for the figure beside the longest bar.
    double most = Math.max(0.2, all.stream().mapToDouble(x -> x).max().orElse(1)) * 1.18;
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.area(0, 0.05, 2, 9, "band outlined"));
    marks.add(Mark.anchored(0.05, 11, 6, "start", corpusName, "note"));
    marks.add(Mark.area(0, 0.05, 18, 9, "student full"));
    marks.add(Mark.anchored(0.05, 27, 6, "start", studentName, "note"));
    StringBuilder description =
        new StringBuilder(Text.of("picture.paired.describe", corpusName, studentName));
    double top = LEGEND + 6;
    for (Entry entry : entries) {
      marks.add(Mark.words(0, top + 11, entry.name(), "plain"));
      bar(marks, entry.corpus(), most, top + 16, "band outlined", "note");
      bar(marks, entry.student(), most, top + 29, "student full", "strong");
      description
          .append(' ')
          .append(entry.name())
          .append(": ")
          .append(share(entry.corpus()))
          .append(", ")
          .append(share(entry.student()))
          .append('.');
      top += LANE;
    }
    return new Picture(id, title, description.toString(), (int) top + 2, marks);
  }

  private void bar(
      List<Mark> marks, Double share, double most, double top, String style, String label) {
    double end = share == null ? 0 : share / most;
    marks.add(Mark.area(0, end, top, 8, style));
    marks.add(Mark.anchored(end, top + 8, 5, "start", share(share), label));
  }

  private String share(Double share) {
    return share == null ? Text.of("value.none") : numbers.percent(share);
  }
}
