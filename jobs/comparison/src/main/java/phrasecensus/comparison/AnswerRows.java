package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.aim.Answer;
import phrasecensus.music.aim.Answers;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;
import phrasecensus.music.statistic.StatisticValue;
import phrasecensus.tables.AimsDefinition;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.TableSource;

/**
 * Makes tables {@code aims} and {@code answers}: the students' solos are few, so the driver does.
 */
public final class AnswerRows {
  /** One solo of the student. */
  static final String SOLO = "solo";

  /** The newest solo of the student. */
  static final String LATEST = "latest";

  /** All solos of the student. */
  static final String ALL = "all";

  private final AimsDefinition definition;
  private final List<TableRow> aims = new ArrayList<>();
  private final List<TableRow> answers = new ArrayList<>();
  private final List<String> remarks = new ArrayList<>();

  private AnswerRows(AimsDefinition definition) {
    this.definition = definition;
  }

  /** Holds every student's solos against what is asked of the student. */
  public static AnswerRows of(TableSource tables, AimsDefinition definition) {
    AnswerRows rows = new AnswerRows(definition);
    Map<String, String> role = Map.of("role", InputFile.STUDENT);
    Map<String, Map<String, StatisticValue>> values = new HashMap<>();
    for (TableRow row : tables.rows("solo_statistics", role)) {
      values
          .computeIfAbsent(row.text("solo_id"), id -> new LinkedHashMap<>())
          .put(
              row.text("statistic"),
              new StatisticValue(row.text("statistic"), row.number("value"), row.integer("n")));
    }
    Map<String, List<TableRow>> byStudent = new TreeMap<>();
    for (TableRow solo : tables.rows("solos", role)) {
      byStudent.computeIfAbsent(solo.text("student"), name -> new ArrayList<>()).add(solo);
    }
    byStudent.forEach(
        (student, solos) -> {
          solos.sort(NEWEST_LAST);
          rows.add(student, solos, values);
        });
    rows.remarkUnused(byStudent);
    return rows;
  }

  /** Solos without a date before those with one; equal dates by path. */
  private static final Comparator<TableRow> NEWEST_LAST =
      Comparator.comparing(
              (TableRow solo) -> solo.words("date"),
              Comparator.nullsFirst(Comparator.<String>naturalOrder()))
          .thenComparing(solo -> solo.text("file"));

  /** Rows of table {@code aims}. */
  public List<TableRow> aims() {
    return aims;
  }

  /** Rows of table {@code answers}. */
  public List<TableRow> answers() {
    return answers;
  }

  /** Sentences on what the study asks of nobody, and on levels that it does not define. */
  public List<String> remarks() {
    return remarks;
  }

  private void add(
      String student, List<TableRow> solos, Map<String, Map<String, StatisticValue>> values) {
    TableRow latest = solos.get(solos.size() - 1);
    String level = level(latest);
    StudentAims asked = StudentAims.of(definition, student, level);
    if (level != null
        && !definition.levels().isEmpty()
        && !definition.levels().containsKey(level)) {
      remarks.add(
          "The metadata give "
              + student
              + " the level '"
              + level
              + "', which the aims of the study do not define. The aims for all hold. Levels: "
              + String.join(", ", definition.levels().keySet())
              + ".");
    }
    addAims(student, level, asked);
    for (TableRow solo : solos) {
      Map<String, StatisticValue> own = values.getOrDefault(solo.text("solo_id"), Map.of());
      List<Answer> found = Answers.of(asked.set(), solo.integer("notes"), own::get);
      addAnswers(student, SOLO, solo, asked, found);
      if (solo == latest) {
        addAnswers(student, LATEST, solo, asked, found);
      }
    }
    Map<String, StatisticValue> pooled =
        pooled(
            solos.stream()
                .map(solo -> values.getOrDefault(solo.text("solo_id"), Map.of()))
                .toList());
    int notes = solos.stream().mapToInt(solo -> solo.integer("notes")).sum();
    addAnswers(student, ALL, null, asked, Answers.of(asked.set(), notes, pooled::get));
  }

  private String level(TableRow solo) {
    String column = MetadataColumns.inTable(definition.levelColumn());
    return solo.schema().has(column) ? solo.words(column) : null;
  }

  private void addAims(String student, String level, StudentAims asked) {
    for (StudentAims.Placed placed : asked.aims()) {
      aims.add(
          TableRow.of(TableSchemas.named("aims"))
              .set("student", student)
              .set("place", asked.aims().indexOf(placed) + 1)
              .set("question", placed.aim().question().word())
              .set("statistic", placed.aim().statistic())
              .set("low", placed.aim().low())
              .set("high", placed.aim().high())
              .set("counted", placed.aim().counted().word())
              .set("least", placed.aim().least())
              .set("finding_below", placed.aim().below().word())
              .set("finding_above", placed.aim().above().word())
              .set("words", placed.aim().words().isEmpty() ? null : placed.aim().words())
              .set("stated_for", placed.statedFor())
              .set("level", level)
              .build());
    }
  }

  /**
   * @param solo null for all of them
   */
  private void addAnswers(
      String student, String scope, TableRow solo, StudentAims asked, List<Answer> found) {
    for (Answer answer : found) {
      TableRow.Builder row =
          TableRow.of(TableSchemas.named("answers"))
              .set("student", student)
              .set("scope", scope)
              .set("solo_id", solo == null ? "" : solo.text("solo_id"))
              .set("file", solo == null ? "" : solo.text("file"))
              .set("date", solo == null ? null : solo.value("date"))
              .set("question", answer.question().word())
              .set("place", asked.order().indexOf(answer.question()) + 1)
              .set("verdict", answer.verdict().word())
              .set("finding", answer.finding().word())
              .set("value", answer.value())
              .set("n", answer.n())
              .set("shortage", answer.shortage() == null ? null : answer.shortage().word())
              .set("first", answer.first());
      if (answer.aim() != null) {
        row.set("aim", answer.aim().statistic())
            .set("low", answer.aim().low())
            .set("high", answer.aim().high())
            .set("counted", answer.aim().counted().word())
            .set("words", answer.aim().words().isEmpty() ? null : answer.aim().words());
      }
      answers.add(row.build());
    }
  }

  /**
   * The statistics of several solos together: shares of things that are counted are pooled,
   * anything else is the median over solos.
   */
  static Map<String, StatisticValue> pooled(List<Map<String, StatisticValue>> solos) {
    Map<String, StatisticValue> pooled = new LinkedHashMap<>();
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().ofLevel("solo")) {
      String key = definition.key();
      List<StatisticValue> values =
          solos.stream()
              .map(solo -> solo.get(key))
              .filter(value -> value != null && value.value() != null)
              .toList();
      int n = values.stream().mapToInt(StatisticValue::n).sum();
      Double value = null;
      if (!values.isEmpty() && isPooled(definition) && n > 0) {
        double part = 0;
        for (StatisticValue each : values) {
          part += each.value() * each.n();
        }
        value = part / n;
      } else if (!values.isEmpty()) {
        value = Quantiles.of(Sample.of(values.stream().map(StatisticValue::value).toList()), 0.5);
      }
      pooled.put(key, new StatisticValue(key, value, n));
    }
    return pooled;
  }

  private static boolean isPooled(StatisticDefinition definition) {
    return definition.unit().toLowerCase(Locale.ROOT).equals("share");
  }

  /** What a study asks of students or levels that no solo belongs to. */
  private void remarkUnused(Map<String, List<TableRow>> byStudent) {
    for (String student : definition.students().keySet()) {
      if (!byStudent.isEmpty() && !byStudent.containsKey(student)) {
        remarks.add(
            "The study has aims for the student '"
                + student
                + "', of whom there is no solo. Check the name. Students: "
                + String.join(", ", byStudent.keySet())
                + ".");
      }
    }
    TreeSet<String> levels = new TreeSet<>();
    byStudent.values().forEach(solos -> solos.forEach(solo -> levels.add(text(level(solo)))));
    for (String level : definition.levels().keySet()) {
      if (!byStudent.isEmpty() && !levels.contains(level)) {
        remarks.add(
            "The study has aims for the level '"
                + level
                + "', which no student has in the column '"
                + definition.levelColumn()
                + "' of the metadata.");
      }
    }
  }

  private static String text(String value) {
    return value == null ? "" : value;
  }
}
