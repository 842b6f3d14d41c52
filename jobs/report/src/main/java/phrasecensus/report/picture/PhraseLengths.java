package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import phrasecensus.report.rows.PhraseLengthCounts;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/**
 * Lengths of phrases in bars: the corpus as columns, every phrase of a solo as a dot of its own
 * below.
 */
public final class PhraseLengths {
  private static final double COLUMNS_HEIGHT = 74;
  private static final double DOT = 8;
  private static final double NARROW = 340;
  private static final int MOST_ROWS = 6;

  private final Numbers numbers;

  public PhraseLengths(Numbers numbers) {
    this.numbers = numbers;
  }

  /**
   * A solo.
   *
   * @param lengths in bars, in any order
   */
  public record Entry(String name, List<Double> lengths) {
    public Entry {
      lengths = lengths.stream().sorted().toList();
    }
  }

  /**
   * Draws corpus and solos on one scale.
   *
   * @param name whose the columns are, as in {@code the group}
   * @param corpus how many of its phrases are how long; may be of none
   * @param entries solos below the corpus; may be empty
   */
  public Picture picture(
      String id, String title, String name, PhraseLengthCounts corpus, List<Entry> entries) {
    double longest = 4;
    for (Entry entry : entries) {
      for (double length : entry.lengths()) {
        longest = Math.max(longest, length);
      }
    }
    longest = Math.max(longest, corpus.upTo(0.99));
    double most = Math.min(24, Math.ceil(longest / 2) * 2);
    Scale scale = new Scale(0, most, most > 12 ? 4 : most > 6 ? 2 : 1);
    List<Mark> marks = new ArrayList<>();
    StringBuilder description = new StringBuilder();
    double top = 0;
    if (corpus.all() > 0) {
      columns(name, corpus, scale, marks, description);
      top = COLUMNS_HEIGHT + 6;
    }
    for (Entry entry : entries) {
      top += dots(entry, scale, top, marks);
      describe(description, entry);
    }
    marks.add(Mark.level(0, 1, top, "axis"));
    List<Double> ticks = scale.ticks();
    for (int i = 0; i < ticks.size(); i++) {
      double x = scale.share(ticks.get(i));
      marks.add(Mark.upright(x, top, top + 4, "axis"));
      boolean last = i == ticks.size() - 1;
      String text =
          numbers.count(Math.round(ticks.get(i)))
              + (!last
                  ? ""
                  : " " + Text.of(most >= 24 ? "picture.lengths.more" : "picture.lengths.bars"));
      marks.add(
          Mark.anchored(x, top + 16, 0, i == 0 ? "start" : last ? "end" : "middle", text, "note"));
    }
    return new Picture(id, title, description.toString().strip(), (int) top + 20, marks);
  }

  private void columns(
      String name,
      PhraseLengthCounts corpus,
      Scale scale,
      List<Mark> marks,
      StringBuilder description) {
    int count = (int) Math.round(scale.high() / PhraseLengthCounts.CLASS);
    long[] phrases = new long[count];
    for (int i = 0; i < count; i++) {
      phrases[i] =
          corpus.within(
              i * PhraseLengthCounts.CLASS,
              i == count - 1 ? Double.POSITIVE_INFINITY : (i + 1) * PhraseLengthCounts.CLASS);
    }
    long most = Arrays.stream(phrases).max().orElse(1);
    marks.add(
        Mark.anchored(
            1,
            12,
            0,
            "end",
            Text.of("picture.lengths.corpus", name, numbers.count(corpus.all())),
            "plain"));
    for (int i = 0; i < count; i++) {
      if (phrases[i] > 0) {
        double height = Math.max(1, (COLUMNS_HEIGHT - 18) * phrases[i] / most);
        marks.add(
            Mark.area(
                (i + 0.04) / count, (i + 0.96) / count, COLUMNS_HEIGHT - height, height, "column"));
      }
    }
    marks.add(Mark.level(0, 1, COLUMNS_HEIGHT, "axis"));
    description
        .append(Text.of("picture.lengths.describe.corpus", name, numbers.count(corpus.all())))
        .append(' ');
    double[] ends = {0.5, 1.5, 2.5, 3.5, 4.5, Double.POSITIVE_INFINITY};
    String[] names = Text.of("picture.lengths.describe.classes").split("\\|");
    double from = 0;
    for (int i = 0; i < ends.length; i++) {
      description
          .append(numbers.percent((double) corpus.within(from, ends[i]) / corpus.all()))
          .append(' ')
          .append(names[i])
          .append(i == ends.length - 1 ? ". " : ", ");
      from = ends[i];
    }
  }

  /** Dots of one solo, stacked where they would cover each other; the height they took. */
  private double dots(Entry entry, Scale scale, double top, List<Mark> marks) {
    List<Double> rowEnds = new ArrayList<>();
    List<double[]> places = new ArrayList<>();
    double width = DOT / NARROW;
    for (double length : entry.lengths()) {
      double x = scale.share(length);
      int row = 0;
      while (row < rowEnds.size() && rowEnds.get(row) > x) {
        row++;
      }
      if (row == rowEnds.size() && row < MOST_ROWS) {
        rowEnds.add(0.0);
      }
      row = Math.min(row, MOST_ROWS - 1);
      rowEnds.set(row, x + width);
      places.add(new double[] {x, row});
    }
    double height = 22 + Math.max(1, rowEnds.size()) * DOT + 8;
    double ground = top + height - 8;
    marks.add(
        Mark.words(
            0,
            top + 15,
            Text.of("picture.lane", entry.name(), numbers.count(entry.lengths().size())),
            "plain"));
    for (double[] place : places) {
      marks.add(Mark.sign(place[0], ground - place[1] * DOT, "dot", "student full"));
    }
    if (!entry.lengths().isEmpty()) {
      double x = scale.share(median(entry.lengths()));
      marks.add(Mark.upright(x, ground - 6, ground + 7, "strongline"));
    }
    marks.add(Mark.level(0, 1, top + height, "hair"));
    return height;
  }

  private void describe(StringBuilder text, Entry entry) {
    String n = numbers.count(entry.lengths().size());
    text.append(
            entry.lengths().isEmpty()
                ? Text.of("picture.lengths.describe.none", entry.name(), n)
                : Text.of(
                    "picture.lengths.describe",
                    entry.name(),
                    n,
                    numbers.decimal(entry.lengths().get(0), 2),
                    numbers.decimal(entry.lengths().get(entry.lengths().size() - 1), 2),
                    numbers.decimal(median(entry.lengths()), 2)))
        .append(' ');
  }

  /** Middle of an ascending list, the mean of the two middle ones when it is even. */
  private static double median(List<Double> sorted) {
    int n = sorted.size();
    return (sorted.get((n - 1) / 2) + sorted.get(n / 2)) / 2;
  }
}
