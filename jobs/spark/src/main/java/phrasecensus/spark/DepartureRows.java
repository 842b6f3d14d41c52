package phrasecensus.spark;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.norm.CliffsDelta;
import phrasecensus.music.norm.Departure;
import phrasecensus.music.norm.Departures;
import phrasecensus.music.norm.ExchangeabilityTest;
import phrasecensus.music.norm.HodgesLehmann;
import phrasecensus.music.norm.Interval;
import phrasecensus.music.norm.Sample;
import phrasecensus.music.norm.StudentValue;
import phrasecensus.music.norm.Verdict;
import phrasecensus.music.norm.Wasserstein;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code departures}, but for what depends on other statistics. */
final class DepartureRows {
  /** Percentile ranks closer to 50 than this are called the middle. */
  private static final double MIDDLE = 5;

  private DepartureRows() {}

  /**
   * @param values of the statistic
   * @param group to hold the student against
   * @param solos the student's solos one by one: the one itself, or all that are pooled
   * @param reference the group the student is held against first
   */
  static TableRow of(
      StatisticValues values,
      CorpusGroup group,
      Student student,
      List<Student> solos,
      ReferenceGroup reference) {
    StatisticDefinition definition = values.definition();
    Double value = student.values().get(definition.key());
    Departure departure =
        Departures.of(
            new StudentValue(
                definition.key(),
                definition.facet(),
                value,
                student.restsOn(definition.key()),
                group.norm()));
    TableRow.Builder row =
        TableRow.of(TableSchemas.named("departures"))
            .set("student", student.student())
            .set("scope", student.scope())
            .set("solo_id", student.soloId())
            .set("date", student.date())
            .set("group_by", group.by())
            .set("group_value", group.value())
            .set("reference", reference.is(group))
            .set("reference_reason", reference.is(group) ? reference.reason() : null)
            .set("left_out", student.twins().size())
            .set("statistic", definition.key())
            .set("facet", definition.facet())
            .set("value", value)
            .set("n", student.counts().getOrDefault(definition.key(), 0))
            .set("norm_n", group.norm().n())
            .set("percentile_rank", departure.rank() == null ? null : departure.rank().percent())
            .set("position", position(departure, definition))
            .set("verdict", verdict(departure))
            .set("departure", signed(departure))
            .set("strength", departure.discounted());
    if (departure.verdict() != Verdict.TOO_LITTLE) {
      row.set("p_value", pValue(definition, group, solos));
      if (student.scope().equals(Student.POOLED) && departure.verdict() != Verdict.NO_NORM) {
        phrases(row, values, group, solos);
      }
    }
    return row.build();
  }

  private static Double pValue(
      StatisticDefinition definition, CorpusGroup group, List<Student> solos) {
    double[] own =
        solos.stream()
            .filter(solo -> solo.values().containsKey(definition.key()))
            .mapToDouble(solo -> solo.values().get(definition.key()))
            .toArray();
    Optional<ExchangeabilityTest.Group> test = group.test();
    return own.length == 0 || test.isEmpty()
        ? null
        : (Double) test.get().test(Sample.of(own)).pValue();
  }

  private static void phrases(
      TableRow.Builder row, StatisticValues values, CorpusGroup group, List<Student> solos) {
    List<double[]> own = new ArrayList<>();
    for (Student solo : solos) {
      double[] phrases = values.phrases().get(solo.soloId());
      if (phrases != null) {
        own.add(phrases);
      }
    }
    List<double[]> corpus = group.phrasesByPlayer(values.phrases());
    if (own.isEmpty() || corpus.isEmpty()) {
      return;
    }
    CliffsDelta delta = CliffsDelta.ofClusters(own, corpus);
    HodgesLehmann shift = HodgesLehmann.ofClusters(own, corpus);
    row.set("cliffs_delta", delta.delta())
        .set("shift", shift.shift())
        .set("wasserstein", Wasserstein.distance(pooled(own), pooled(corpus)));
    interval(row, "delta", delta.interval());
    interval(row, "shift", shift.interval());
  }

  private static Sample pooled(List<double[]> clusters) {
    return Sample.of(clusters.stream().flatMapToDouble(Arrays::stream).toArray());
  }

  static void interval(TableRow.Builder row, String stem, Interval interval) {
    row.set(stem + "_low", interval == null ? null : interval.lower())
        .set(stem + "_high", interval == null ? null : interval.upper());
  }

  private static String position(Departure departure, StatisticDefinition definition) {
    if (departure.rank() == null) {
      return departure.student().value() == null
          ? "not defined for this solo"
          : "no solo of the group has a value";
    }
    double percent = departure.rank().percent();
    return Math.abs(percent - 50) < MIDDLE
        ? "about in the middle of " + departure.rank().n() + " solos"
        : departure.rank().words(definition.higher(), definition.lower(), "solos");
  }

  private static String verdict(Departure departure) {
    return switch (departure.verdict()) {
      case INSIDE_BAND -> "inside";
      case BELOW -> "below";
      case ABOVE -> "above";
      case TOO_LITTLE -> "too-little";
      case NO_NORM -> "no-norm";
    };
  }

  private static Double signed(Departure departure) {
    Double size = departure.size();
    return size == null
        ? null
        : (Double) (departure.verdict() == Verdict.BELOW ? -size : size);
  }
}
