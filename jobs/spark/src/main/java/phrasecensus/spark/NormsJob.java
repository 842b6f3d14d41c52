package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.PairFlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.music.comparison.OtherGroups;
import phrasecensus.music.norm.RobustUnit;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.MixDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import scala.Tuple2;

/**
 * Builds the tables {@code norms}, {@code phrase_norms}, {@code sensitivity}, {@code contrasts},
 * {@code departures}, {@code mixtures} and {@code trends} from those of reading: all values of a
 * statistic come together once, and where they are, norms are made, groups contrasted, and the
 * students held against them. Only the finished rows, which are few, come to the driver.
 */
final class NormsJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** The group that holds the whole corpus. */
  static final String ALL = "all";

  private static final int LEAST_TASKS = 4;

  /**
   * So that what a task holds at once stays at some tens of megabytes, however large the corpus.
   */
  private static final long ROWS_A_TASK = 3_000_000;

  private final ArrayList<Grouping> by;
  private final String reference;
  private final ArrayList<Student> students;
  private final boolean withNorms;
  private final String ruleOfStudy;
  private final boolean withSensitivity;

  /**
   * @param by what groups the norms, beside the whole corpus, by columns of table solos
   * @param reference name of the grouping that students are held against first; may be empty
   * @param students whom to compare; may be empty
   * @param withNorms true to make norms and contrasts too, false for the comparison alone
   * @param ruleOfStudy the phrase rule of the study, as text
   * @param withSensitivity true if there are statistics under further rules
   */
  NormsJob(
      List<Grouping> by,
      String reference,
      List<Student> students,
      boolean withNorms,
      String ruleOfStudy,
      boolean withSensitivity) {
    this.by = new ArrayList<>(by);
    this.reference = reference;
    this.students = new ArrayList<>(students);
    this.withNorms = withNorms;
    this.ruleOfStudy = ruleOfStudy;
    this.withSensitivity = withNorms && withSensitivity;
  }

  /**
   * The finished rows, without order.
   *
   * @param rows by table, without what depends on other statistics: adjusted p-values
   * @param departures of table departures, to be judged together
   * @param units middle and spread in each compared statistic that has a spread, by group; empty
   *     without students
   * @param means of groups in compared statistics, the whole corpus left out; none without students
   * @param places of the corpus in compared statistics; none without students
   */
  record Result(
      Map<String, List<TableRow>> rows,
      List<DepartureRows.Draft> departures,
      Map<GroupKey, Map<String, RobustUnit>> units,
      List<GroupMean> means,
      List<StatisticPlaces> places) {
    List<TableRow> of(String table) {
      return rows.getOrDefault(table, List.of());
    }
  }

  /**
   * The mean of one statistic in a group, on its scale, tempo taken out.
   *
   * @param solos of the group, those without a value too
   */
  record GroupMean(GroupKey group, String statistic, double mean, int solos)
      implements Serializable {}

  /**
   * Names a group of the corpus.
   *
   * @param by name of the grouping that makes it
   * @param value what its solos have in common
   * @param without the student whose own files are left out; empty for the whole group
   */
  record GroupKey(String by, String value, String without) implements Serializable {}

  /**
   * @param parts of the tables of reading
   * @param rows rows of the tables of statistics, to choose how many tasks share them
   */
  Result run(TableParts parts, long rows) {
    int tasks = (int) Math.max(LEAST_TASKS, rows / ROWS_A_TASK);
    Broadcast<NormsJob> job = parts.broadcast(this);
    PairFlatMapFunction<TableParts.Part, Integer, StatisticShare> shares =
        part -> job.value().shares(part, tasks);
    FlatMapFunction<Iterator<Tuple2<Integer, StatisticShare>>, Finished> finish =
        met -> job.value().finish(met);
    Map<String, List<TableRow>> finished = new TreeMap<>();
    List<DepartureRows.Draft> departures = new ArrayList<>();
    Map<GroupKey, Map<String, RobustUnit>> units = new HashMap<>();
    List<Finished> all =
        parts
            .all()
            .flatMapToPair(shares)
            .partitionBy(new HashPartitioner(tasks))
            .mapPartitions(finish)
            .collect();
    for (Finished each : all) {
      for (PlainRow row : each.rows()) {
        finished.computeIfAbsent(row.table(), table -> new ArrayList<>()).add(row.row());
      }
      each.departures().forEach(draft -> departures.add(draft.draft()));
      for (GroupUnit unit : each.units()) {
        units
            .computeIfAbsent(unit.group(), group -> new TreeMap<>())
            .put(each.statistic(), new RobustUnit(unit.median(), unit.spread()));
      }
    }
    job.destroy();
    List<GroupMean> means = new ArrayList<>();
    List<StatisticPlaces> places = new ArrayList<>();
    all.forEach(
        each -> {
          means.addAll(each.means());
          if (each.places() != null) {
            places.add(each.places());
          }
        });
    places.sort(Comparator.comparing(StatisticPlaces::statistic));
    return new Result(finished, departures, units, means, places);
  }

  private Iterator<Tuple2<Integer, StatisticShare>> shares(TableParts.Part part, int tasks)
      throws IOException {
    boolean compared = !students.isEmpty();
    Set<String> ofPhrases = new TreeSet<>();
    StatisticsCatalogue.builtIn().ofLevel("phrase").stream()
        .filter(definition -> withNorms || compared && definition.compared())
        .forEach(definition -> ofPhrases.add(definition.key()));
    List<StatisticShare> shares = StatisticShare.of(part, by, ofPhrases, withSensitivity, tasks);
    List<Tuple2<Integer, StatisticShare>> numbered = new ArrayList<>();
    for (int i = 0; i < tasks; i++) {
      numbered.add(new Tuple2<>(i, shares.get(i)));
    }
    return numbered.iterator();
  }

  private Iterator<Finished> finish(Iterator<Tuple2<Integer, StatisticShare>> met) {
    List<StatisticShare> shares = new ArrayList<>();
    met.forEachRemaining(each -> shares.add(each._2()));
    List<String> groupings = by.stream().map(Grouping::name).toList();
    Set<String> ofMixes = new TreeSet<>();
    if (!students.isEmpty()) {
      StatisticsCatalogue.builtIn().mixes().forEach(mix -> ofMixes.addAll(mix.classes()));
    }
    Map<String, StatisticValues> values = new TreeMap<>();
    List<Finished> finished = new ArrayList<>();
    for (String statistic : StatisticShare.statistics(shares)) {
      // One after the other: the values of all of them at once would be most of what a task holds.
      StatisticValues each = StatisticShare.values(statistic, groupings, shares);
      StatisticShare.forget(statistic, shares);
      finished.add(finish(each));
      if (ofMixes.contains(statistic)) {
        values.put(statistic, each.ofSolosAlone());
      }
    }
    for (MixDefinition mix : StatisticsCatalogue.builtIn().mixes()) {
      if (!students.isEmpty() && values.containsKey(mix.classes().get(0))) {
        finished.add(finish(mix, mix.classes().stream().map(values::get).toList()));
      }
    }
    return finished.iterator();
  }

  private Finished finish(MixDefinition mix, List<StatisticValues> shares) {
    List<TableRow> rows = new ArrayList<>();
    Map<String, List<Student>> solos = solosByStudent();
    List<List<CorpusGroup>> groups = new ArrayList<>();
    shares.forEach(share -> groups.add(share.everyGroup()));
    for (int i = 0; i < groups.get(0).size(); i++) {
      int place = i;
      GroupMix group =
          GroupMix.of(mix, groups.stream().map(ofShare -> ofShare.get(place)).toList());
      for (Student student : students) {
        if (group.isFor(student)) {
          rows.addAll(
              MixtureRows.of(
                  mix,
                  student.twins().isEmpty()
                      ? group
                      : GroupMix.of(
                          mix,
                          groups.stream()
                              .map(ofShare -> ofShare.get(place).without(student.twins()))
                              .toList()),
                  student,
                  student.scope().equals(Student.POOLED)
                      ? solos.get(student.student())
                      : List.of(student)));
        }
      }
    }
    return new Finished(
        mix.key(), plain(rows), new ArrayList<>(), new ArrayList<>(), new ArrayList<>(), null);
  }

  private static ArrayList<PlainRow> plain(List<TableRow> rows) {
    ArrayList<PlainRow> plain = new ArrayList<>();
    rows.forEach(each -> plain.add(PlainRow.of(each)));
    return plain;
  }

  /**
   * What became of one statistic, on its way to the driver.
   *
   * @param units of the groups that have a spread; none where the statistic is not compared
   * @param places of the corpus; null where the statistic is not compared, or nobody is
   */
  private record Finished(
      String statistic,
      ArrayList<PlainRow> rows,
      ArrayList<DepartureRows.PlainDraft> departures,
      ArrayList<GroupUnit> units,
      ArrayList<GroupMean> means,
      StatisticPlaces places)
      implements Serializable {}

  private record GroupUnit(GroupKey group, double median, double spread) implements Serializable {}

  private Finished finish(StatisticValues values) {
    String statistic = values.definition().key();
    boolean compared = values.definition().compared();
    CorpusGroup whole = values.whole();
    List<CorpusGroup> every = new ArrayList<>(List.of(whole));
    ComparisonModels models = compared ? models(values) : null;
    List<TableRow> rows = new ArrayList<>();
    for (List<CorpusGroup> made : values.groups().values()) {
      every.addAll(made);
      if (withNorms && compared) {
        rows.addAll(ContrastRows.of(values.definition(), made, models));
      }
    }
    if (withNorms) {
      every.forEach(group -> rows.add(NormRows.of(values.definition().key(), group, models)));
      if (values.definition().levels().contains("phrase")) {
        every.forEach(group -> rows.add(PhraseNormRows.of(values, group)));
      }
    }
    if (withSensitivity) {
      rows.addAll(SensitivityRows.of(values, ruleOfStudy));
    }
    ArrayList<DepartureRows.PlainDraft> departures = new ArrayList<>();
    ArrayList<GroupUnit> units = new ArrayList<>();
    ArrayList<GroupMean> means = new ArrayList<>();
    StatisticPlaces places = null;
    if (compared && !students.isEmpty()) {
      for (List<Student> solos : solosByStudent().values()) {
        rows.add(TrendRows.of(values.definition(), whole.without(solos.get(0).twins()), solos));
      }
      for (DepartureRows.Draft draft : departures(values, models, every, rows)) {
        departures.add(DepartureRows.PlainDraft.of(draft));
      }
      places = StatisticPlaces.of(statistic, models);
      Map<String, Double> placeOf = StatisticPlaces.bySolo(models);
      for (CorpusGroup group : every) {
        addUnit(units, group, "");
        addMean(means, statistic, placeOf, group, "");
        for (Student student : students) {
          if (!student.twins().isEmpty() && student.scope().equals(Student.SOLO)) {
            CorpusGroup others = group.without(student.twins());
            addUnit(units, others, student.student());
            addMean(means, statistic, placeOf, others, student.student());
          }
        }
      }
    }
    return new Finished(statistic, plain(rows), departures, units, means, places);
  }

  private static void addMean(
      List<GroupMean> means,
      String statistic,
      Map<String, Double> placeOf,
      CorpusGroup group,
      String without) {
    if (group.by().equals(ALL) || Grouping.isLeftover(group.value())) {
      return;
    }
    double sum = 0;
    int solos = 0;
    for (CorpusSolo solo : group.solos()) {
      Double place = placeOf.get(solo.soloId());
      if (place != null) {
        sum += place;
        solos++;
      }
    }
    if (solos >= OtherGroups.LEAST_SOLOS) {
      means.add(
          new GroupMean(
              new GroupKey(group.by(), group.value(), without),
              statistic,
              sum / solos,
              group.solos().size()));
    }
  }

  private static void addUnit(List<GroupUnit> units, CorpusGroup group, String without) {
    RobustUnit.of(group.norm().sample())
        .ifPresent(
            unit ->
                units.add(
                    new GroupUnit(
                        new GroupKey(group.by(), group.value(), without),
                        unit.median(),
                        unit.spread())));
  }

  private ComparisonModels models(StatisticValues values) {
    return new ComparisonModels(
        values.definition().key(),
        values.whole().solos(),
        by.stream().map(Grouping::name).toList());
  }

  /**
   * @param trends where rows of trends beside groups of reference go
   */
  private List<DepartureRows.Draft> departures(
      StatisticValues values,
      ComparisonModels models,
      List<CorpusGroup> groups,
      List<TableRow> trends) {
    List<DepartureRows.Draft> drafts = new ArrayList<>();
    Map<String, List<Student>> solos = solosByStudent();
    for (Student student : students) {
      List<CorpusGroup> without =
          groups.stream().map(group -> group.without(student.twins())).toList();
      List<CorpusGroup> others = without.stream().filter(group -> group.isFor(student)).toList();
      ReferenceGroup first = ReferenceGroup.of(student, by, reference, without);
      for (CorpusGroup group : others) {
        drafts.add(
            DepartureRows.of(
                values,
                models,
                group,
                student,
                student.scope().equals(Student.POOLED)
                    ? solos.get(student.student())
                    : List.of(student),
                first));
        if (student.scope().equals(Student.POOLED) && first.is(group) && !group.by().equals(ALL)) {
          trends.add(TrendRows.of(values.definition(), group, solos.get(student.student())));
        }
      }
    }
    return drafts;
  }

  private Map<String, List<Student>> solosByStudent() {
    Map<String, List<Student>> solos = new TreeMap<>();
    for (Student student : students) {
      if (student.scope().equals(Student.SOLO)) {
        solos.computeIfAbsent(student.student(), name -> new ArrayList<>()).add(student);
      }
    }
    return solos;
  }
}
