package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.tables.StatisticDefinition;

/**
 * A student's values of one statistic beside the corpus: a tick for each corpus solo, the middle
 * band through the whole height, and a line of its own for each of the student's values, so that no
 * label covers another.
 */
public final class StatisticStrip {
  /** Width of a letter beside that of the narrowest picture: 7 of 330 pixels. */
  private static final double SHARE_OF_A_LETTER = 0.021;

  /** More ticks than this run together; the band says it all then. */
  public static final int MOST_TICKS = 300;

  private static final double HEAD = 36;
  private static final double NORM_TOP = 16;
  private static final double LANE = 19;
  private static final double FOOT = 22;

  private final Numbers numbers;

  public StatisticStrip(Numbers numbers) {
    this.numbers = numbers;
  }

  /**
   * One value of the student.
   *
   * @param name what it is the value of
   * @param value null where undefined
   * @param pooled true for the value that stands for several solos
   */
  public record Entry(String name, Double value, int n, boolean pooled) {}

  /**
   * Draws the strip.
   *
   * @param norm null when the corpus has none
   * @param corpus values of the corpus solos, ascending
   */
  public Picture picture(
      String id,
      StatisticDefinition definition,
      CorpusNorm norm,
      List<Double> corpus,
      List<Entry> entries) {
    List<Double> all = new ArrayList<>(corpus);
    for (Entry entry : entries) {
      if (entry.value() != null) {
        all.add(entry.value());
      }
    }
    addNorm(all, norm);
    Scale scale = scale(all, definition);
    double bottom = HEAD + LANE * entries.size() + 4;
    List<Mark> marks = new ArrayList<>();
    if (norm != null) {
      marks.addAll(normMarks(norm, corpus, scale, bottom));
    }
    double y = HEAD + LANE / 2;
    for (Entry entry : entries) {
      String size = numbers.count(entry.n());
      if (entry.value() == null) {
        marks.add(Mark.words(0, y + 4, Text.of("picture.strip.none", entry.name(), size), "note"));
      } else {
        double x = scale.share(entry.value());
        marks.add(
            Mark.sign(
                x,
                y,
                entry.pooled() ? "diamond" : "circle",
                entry.pooled() ? "student full" : "student open"));
        String label =
            Text.of(
                "picture.strip.value", entry.name(), numbers.bare(definition, entry.value()), size);
        marks.add(Mark.beside(x, y + 4, 10, label, entry.pooled() ? "strong" : "plain"));
      }
      y += LANE;
    }
    marks.addAll(axis(scale, definition, numbers, bottom));
    return new Picture(
        id,
        Text.of("picture.strip.title", definition.name()),
        description(definition, norm, entries),
        (int) (bottom + FOOT),
        marks);
  }

  /** Adds the ends of everything that a norm draws. */
  static void addNorm(List<Double> values, CorpusNorm norm) {
    if (norm != null) {
      for (Double end : new Double[] {norm.minimum(), norm.maximum()}) {
        if (end != null) {
          values.add(end);
        }
      }
    }
  }

  static Scale scale(List<Double> values, StatisticDefinition definition) {
    double floor = definition.range().contains("below 0") ? Double.NEGATIVE_INFINITY : 0;
    return Scale.covering(values, floor, definition.percent() ? 1 : Double.POSITIVE_INFINITY);
  }

  private List<Mark> normMarks(CorpusNorm norm, List<Double> corpus, Scale scale, double bottom) {
    double top = NORM_TOP;
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.level(0, 1, top + 10, "hair"));
    if (!norm.hasBand()) {
      marks.add(
          Mark.words(
              0,
              11,
              Text.of(
                  norm.n() == 1 ? "picture.strip.solo" : "picture.strip.solos",
                  numbers.count(norm.n())),
              "note"));
    }
    if (norm.hasBand()) {
      double left = scale.share(norm.p25());
      double right = scale.share(norm.p75());
      marks.add(Mark.area(left, right, top, bottom - top, "band"));
      marks.add(Mark.upright(left, top, bottom, "edge"));
      marks.add(Mark.upright(right, top, bottom, "edge"));
      marks.add(
          Mark.centred(
              (left + right) / 2,
              11,
              Text.of("picture.strip.band", numbers.count(norm.n())),
              "note"));
    }
    if (norm.hasReach()) {
      double left = scale.share(norm.reachLow());
      double right = scale.share(norm.reachHigh());
      marks.add(Mark.level(left, right, top + 10, "reach"));
      marks.add(Mark.upright(left, top + 6, top + 14, "reach"));
      marks.add(Mark.upright(right, top + 6, top + 14, "reach"));
    }
    if (corpus.size() <= MOST_TICKS) {
      for (double value : corpus) {
        marks.add(Mark.upright(scale.share(value), top + 4, top + 16, "tick"));
      }
    }
    if (norm.p50() != null) {
      marks.add(Mark.upright(scale.share(norm.p50()), top, bottom, "median"));
    }
    return marks;
  }

  static List<Mark> axis(Scale scale, StatisticDefinition definition, Numbers numbers, double y) {
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.level(0, 1, y, "axis"));
    int decimals = decimals(scale.step() * (definition.percent() ? 100 : 1));
    List<Double> ticks = scale.ticks();
    double free = 1;
    for (int i = ticks.size() - 1; i >= 0; i--) {
      double x = scale.share(ticks.get(i));
      marks.add(Mark.upright(x, y, y + 4, "axis"));
      String text =
          definition.percent()
              ? numbers.decimal(100 * ticks.get(i), decimals)
              : numbers.decimal(ticks.get(i), decimals);
      boolean last = i == ticks.size() - 1;
      if (last && !definition.unit().equals("none")) {
        text += definition.percent() ? "\u00a0%" : "\u00a0" + definition.unit();
      }
      String anchor = x < 0.04 ? "start" : x > 0.96 ? "end" : "middle";
      double width = text.length() * SHARE_OF_A_LETTER;
      double right = anchor.equals("start") ? x + width : anchor.equals("end") ? x : x + width / 2;
      if (last || right < free) {
        marks.add(Mark.anchored(x, y + 16, 0, anchor, text, "note"));
        free = right - width - SHARE_OF_A_LETTER;
      }
    }
    return marks;
  }

  private static int decimals(double step) {
    for (int decimals = 0; decimals < 4; decimals++) {
      double scaled = step * Math.pow(10, decimals);
      if (Math.abs(scaled - Math.rint(scaled)) < 1e-6) {
        return decimals;
      }
    }
    return 4;
  }

  private String description(StatisticDefinition definition, CorpusNorm norm, List<Entry> entries) {
    StringBuilder text = new StringBuilder();
    if (norm == null || norm.n() == 0) {
      text.append(Text.of("picture.strip.describe.none"));
    } else if (norm.hasBand()) {
      text.append(
          Text.of(
              "picture.strip.describe.band",
              numbers.count(norm.n()),
              numbers.range(definition, norm.p25(), norm.p75()),
              numbers.withUnit(definition, norm.p50())));
    } else {
      text.append(
          Text.of(
              "picture.strip.describe.range",
              Text.of(
                  norm.n() == 1 ? "picture.strip.solo" : "picture.strip.solos",
                  numbers.count(norm.n())),
              numbers.range(definition, norm.minimum(), norm.maximum())));
    }
    for (Entry entry : entries) {
      text.append(' ')
          .append(
              Text.of(
                  "picture.describe.value",
                  entry.name(),
                  entry.value() == null
                      ? Text.of("value.none")
                      : numbers.withUnit(definition, entry.value()),
                  numbers.count(entry.n())));
    }
    return text.toString();
  }
}
