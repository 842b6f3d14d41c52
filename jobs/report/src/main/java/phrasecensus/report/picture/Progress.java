package phrasecensus.report.picture;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.tables.StatisticDefinition;

/** A statistic of dated solos in the order of time, with the middle band of the corpus behind. */
public final class Progress {
  private static final double TOP = 18;
  private static final double BOTTOM = 118;

  private final Numbers numbers;

  public Progress(Numbers numbers) {
    this.numbers = numbers;
  }

  /** A solo of a day. */
  public record Entry(LocalDate day, double value, int n) {}

  /**
   * Draws the solos.
   *
   * @param norm null when the corpus has none
   * @param entries in order of day, at least two
   */
  public Picture picture(
      String id, StatisticDefinition definition, CorpusNorm norm, List<Entry> entries) {
    List<Double> all = new ArrayList<>(entries.stream().map(Entry::value).toList());
    if (norm != null && norm.hasBand()) {
      all.add(norm.p25());
      all.add(norm.p75());
    }
    Scale scale = StatisticStrip.scale(all, definition);
    LocalDate first = entries.get(0).day();
    LocalDate last = entries.get(entries.size() - 1).day();
    double days = Math.max(1, ChronoUnit.DAYS.between(first, last));
    List<Mark> marks = new ArrayList<>();
    if (norm != null && norm.hasBand()) {
      double low = height(scale, norm.p25());
      double high = height(scale, norm.p75());
      marks.add(Mark.area(0, 1, high, low - high, "band"));
      marks.add(Mark.level(0, 1, low, "edge"));
      marks.add(Mark.level(0, 1, high, "edge"));
      marks.add(Mark.level(0, 1, height(scale, norm.p50()), "median"));
    }
    marks.add(Mark.level(0, 1, BOTTOM + 6, "axis"));
    double beforeX = 0;
    double beforeY = 0;
    StringBuilder description = new StringBuilder();
    List<Mark> points = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      Entry entry = entries.get(i);
      double x = 0.04 + 0.92 * ChronoUnit.DAYS.between(first, entry.day()) / days;
      double y = height(scale, entry.value());
      if (i > 0) {
        marks.add(Mark.line(beforeX, beforeY, x, y, "path"));
      }
      points.add(Mark.sign(x, y, "circle", "student full"));
      boolean end = i == 0 || i == entries.size() - 1;
      if (end) {
        points.add(
            Mark.anchored(
                x,
                y - 9,
                0,
                i == 0 ? "start" : "end",
                numbers.bare(definition, entry.value()),
                "strong"));
      }
      description
          .append(
              Text.of(
                  "picture.describe.value",
                  numbers.date(entry.day().toString()),
                  numbers.withUnit(definition, entry.value()),
                  numbers.count(entry.n())))
          .append(' ');
      beforeX = x;
      beforeY = y;
    }
    marks.addAll(points);
    marks.add(Mark.words(0, BOTTOM + 22, numbers.date(first.toString()), "note"));
    marks.add(Mark.anchored(1, BOTTOM + 22, 0, "end", numbers.date(last.toString()), "note"));
    return new Picture(
        id,
        Text.of("picture.progress.title", definition.name()),
        description.toString().strip(),
        (int) BOTTOM + 26,
        marks);
  }

  private static double height(Scale scale, double value) {
    return BOTTOM - (BOTTOM - TOP) * scale.share(value);
  }
}
