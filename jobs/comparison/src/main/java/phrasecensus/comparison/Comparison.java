package phrasecensus.comparison;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.comparison.OtherGroups;
import phrasecensus.music.norm.RobustUnit;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.MixDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;

/**
 * Makes the rows of the tables {@code norms}, {@code phrase_norms}, {@code sensitivity}, {@code
 * contrasts}, {@code departures}, {@code mixtures} and {@code trends} from all values of one
 * statistic after the other: norms are made, groups contrasted, and the students held against them.
 */
public final class Comparison implements Serializable {
  private static final long serialVersionUID = 1L;

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
  public Comparison(
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

  /** What groups the norms, beside the whole corpus. */
  public List<Grouping> by() {
    return List.copyOf(by);
  }

  /** Whether values under further phrase rules are asked for. */
  public boolean withSensitivity() {
    return withSensitivity;
  }

  /** Keys of the statistics whose values in single phrases are asked for. */
  public Set<String> ofPhrases() {
    boolean compared = !students.isEmpty();
    Set<String> keys = new TreeSet<>();
    StatisticsCatalogue.builtIn().ofLevel("phrase").stream()
        .filter(definition -> withNorms || compared && definition.compared())
        .forEach(definition -> keys.add(definition.key()));
    return keys;
  }

  /** Keys of the statistics whose values {@link #ofMixes} asks for; none without students. */
  public Set<String> classesOfMixes() {
    Set<String> keys = new TreeSet<>();
    if (!students.isEmpty()) {
      StatisticsCatalogue.builtIn().mixes().forEach(mix -> keys.addAll(mix.classes()));
    }
    return keys;
  }

  /**
   * The students' mixtures, as far as the values of all their classes are there.
   *
   * @param values by key of the statistic, of solos alone
   */
  public List<StatisticFindings> ofMixes(Map<String, StatisticValues> values) {
    List<StatisticFindings> findings = new ArrayList<>();
    for (MixDefinition mix : StatisticsCatalogue.builtIn().mixes()) {
      if (!students.isEmpty() && values.containsKey(mix.classes().get(0))) {
        findings.add(of(mix, mix.classes().stream().map(values::get).toList()));
      }
    }
    return findings;
  }

  private StatisticFindings of(MixDefinition mix, List<StatisticValues> shares) {
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
    return new StatisticFindings(
        mix.key(), plain(rows), new ArrayList<>(), new ArrayList<>(), new ArrayList<>(), null);
  }

  private static ArrayList<PlainRow> plain(List<TableRow> rows) {
    ArrayList<PlainRow> plain = new ArrayList<>();
    rows.forEach(each -> plain.add(PlainRow.of(each)));
    return plain;
  }

  /**
   * Norms, contrasts and departures of one statistic.
   *
   * @param values of the whole corpus
   */
  public StatisticFindings of(StatisticValues values) {
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
    ArrayList<StatisticFindings.GroupUnit> units = new ArrayList<>();
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
    return new StatisticFindings(statistic, plain(rows), departures, units, means, places);
  }

  private static void addMean(
      List<GroupMean> means,
      String statistic,
      Map<String, Double> placeOf,
      CorpusGroup group,
      String without) {
    if (group.by().equals(CorpusGroup.ALL) || Grouping.isLeftover(group.value())) {
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

  private static void addUnit(
      List<StatisticFindings.GroupUnit> units, CorpusGroup group, String without) {
    RobustUnit.of(group.norm().sample())
        .ifPresent(
            unit ->
                units.add(
                    new StatisticFindings.GroupUnit(
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
        if (student.scope().equals(Student.POOLED)
            && first.is(group)
            && !group.by().equals(CorpusGroup.ALL)) {
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
