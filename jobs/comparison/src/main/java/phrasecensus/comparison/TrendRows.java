package phrasecensus.comparison;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import phrasecensus.music.comparison.RelativeVariance;
import phrasecensus.music.norm.DatedValue;
import phrasecensus.music.norm.Interval;
import phrasecensus.music.norm.Trend;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code trends}. */
final class TrendRows {
  private static final double DAYS = 30;

  private TrendRows() {}

  /**
   * @param group to hold the student against
   * @param solos all solos of one student
   */
  static TableRow of(StatisticDefinition definition, CorpusGroup group, List<Student> solos) {
    List<DatedValue> values = new ArrayList<>();
    TreeSet<LocalDate> dates = new TreeSet<>();
    for (Student solo : solos) {
      Double value = solo.values().get(definition.key());
      LocalDate date = solo.date();
      if (value != null
          && date != null
          && solo.restsOn(definition.key()) >= RelativeVariance.LEAST_COUNT) {
        values.add(new DatedValue(date, value));
        dates.add(date);
      }
    }
    Trend trend = Trend.of(values, group.norm());
    Interval slope = trend.slopeInterval();
    return TableRow.of(TableSchemas.named("trends"))
        .set("student", solos.get(0).student())
        .set("group_by", group.by())
        .set("group_value", group.value())
        .set("statistic", definition.key())
        .set("facet", definition.facet())
        .set("solos", trend.solos())
        .set("dates", trend.dates())
        .set("first_date", dates.isEmpty() ? null : dates.first())
        .set("last_date", dates.isEmpty() ? null : dates.last())
        .set("slope", trend.slopePerDay() == null ? null : DAYS * trend.slopePerDay())
        .set("slope_low", slope == null ? null : DAYS * slope.lower())
        .set("slope_high", slope == null ? null : DAYS * slope.upper())
        .set("change", trend.change())
        .set("distance_change", trend.distanceChange())
        .set("movement", movement(trend))
        .set("statement", trend.movement().words())
        .set("direction_only", trend.restsOnDirectionAlone())
        .build();
  }

  private static String movement(Trend trend) {
    return switch (trend.movement()) {
      case TOWARD_BAND -> "toward-band";
      case AWAY_FROM_BAND -> "away-from-band";
      case STAYED_INSIDE -> "stayed-inside";
      case NO_CLEAR_MOVEMENT -> "no-clear-movement";
      case TOO_FEW_DATES -> "too-few-dates";
      case NO_NORM -> "no-norm";
    };
  }
}
