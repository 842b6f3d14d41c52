package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.tables.StatisticDefinition;

/**
 * The distributions of one statistic over several groups, one below the other on one scale: a tick
 * a solo, a box for the middle half, a thick line for the median, a thin line as far as the number
 * of solos allows.
 */
public final class GroupStrips {
  private static final double LANE = 42;

  private final Numbers numbers;

  public GroupStrips(Numbers numbers) {
    this.numbers = numbers;
  }

  /**
   * One group.
   *
   * @param name what the group is called
   * @param values of its solos, ascending
   */
  public record Entry(String name, CorpusNorm norm, List<Double> values) {
    public Entry {
      values = List.copyOf(values);
    }
  }

  /** Draws the groups in the order given. */
  public Picture picture(String id, StatisticDefinition definition, List<Entry> entries) {
    List<Double> all = new ArrayList<>();
    for (Entry entry : entries) {
      StatisticStrip.addNorm(all, entry.norm());
    }
    Scale scale = StatisticStrip.scale(all, definition);
    List<Mark> marks = new ArrayList<>();
    StringBuilder description = new StringBuilder();
    double top = 0;
    for (Entry entry : entries) {
      CorpusNorm norm = entry.norm();
      marks.add(
          Mark.words(
              0,
              top + 12,
              Text.of("picture.lane", entry.name(), numbers.count(norm.n())),
              "plain"));
      marks.addAll(lane(norm, entry.values(), scale, top + 18));
      describe(description, definition, entry);
      top += LANE;
    }
    marks.addAll(StatisticStrip.axis(scale, definition, numbers, top));
    return new Picture(
        id,
        Text.of("picture.groups.title", definition.name()),
        description.toString().strip(),
        (int) top + 22,
        marks);
  }

  private static List<Mark> lane(CorpusNorm norm, List<Double> values, Scale scale, double top) {
    List<Mark> marks = new ArrayList<>();
    double middle = top + 8;
    marks.add(Mark.level(0, 1, middle, "hair"));
    if (norm.hasReach()) {
      double left = scale.share(norm.reachLow());
      double right = scale.share(norm.reachHigh());
      marks.add(Mark.level(left, right, middle, "reach"));
      marks.add(Mark.upright(left, middle - 4, middle + 4, "reach"));
      marks.add(Mark.upright(right, middle - 4, middle + 4, "reach"));
    }
    if (norm.hasBand()) {
      marks.add(
          Mark.area(scale.share(norm.p25()), scale.share(norm.p75()), top, 16, "band outlined"));
    }
    if (values.size() <= StatisticStrip.MOST_TICKS) {
      for (double value : values) {
        marks.add(Mark.upright(scale.share(value), top + 3, top + 13, "tick"));
      }
    }
    if (norm.p50() != null) {
      marks.add(Mark.upright(scale.share(norm.p50()), top - 1, top + 17, "heavy"));
    }
    return marks;
  }

  private void describe(StringBuilder text, StatisticDefinition definition, Entry entry) {
    CorpusNorm norm = entry.norm();
    String what;
    if (norm.hasBand()) {
      what =
          Text.of(
              "picture.groups.band",
              numbers.withUnit(definition, norm.p50()),
              numbers.range(definition, norm.p25(), norm.p75()));
    } else if (norm.p50() != null) {
      what = Text.of("picture.groups.median", numbers.withUnit(definition, norm.p50()));
    } else if (norm.n() == 0) {
      what = Text.of("value.none");
    } else {
      what =
          Text.of(
              "picture.groups.range", numbers.range(definition, norm.minimum(), norm.maximum()));
    }
    text.append(Text.of("picture.groups.describe", entry.name(), numbers.count(norm.n()), what))
        .append(' ');
  }
}
