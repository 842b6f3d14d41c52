package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.comparison.CorpusStatistics;
import phrasecensus.comparison.DepartureVerdicts;
import phrasecensus.comparison.PlacedCorpus;
import phrasecensus.fixtures.DuckDb;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.CorpusModel;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.music.likeness.LikenessSpace;
import phrasecensus.music.likeness.PlacedSolo;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.TableRow;

/** Norms, contrasts and comparison of the whole sample corpus, much of it recomputed by DuckDB. */
class ComparisonIT {
  private static final Path SAMPLE = Path.of(System.getProperty("project.root"), "sample-corpus");

  @TempDir private static Path temporary;
  private static StudyFolder folder;

  @BeforeAll
  static void study() {
    StudyDefinition definition =
        StudyDefinition.read(SAMPLE.resolve("study.yaml"))
            .writtenInto(temporary.resolve("study").toString());
    System.setProperty("spark.master", "local[2]");
    try (StudySession session = StudySession.open();
        StudyFolder into = StudyFolder.forWriting(definition.into(), session.configuration())) {
      new StudyRunner(session, line -> {}).study(definition, into);
    } finally {
      System.clearProperty("spark.master");
    }
    folder =
        StudyFolder.finished(temporary.resolve("study").toString(), StudyFolder.configuration());
  }

  @AfterAll
  static void close() {
    folder.close();
  }

  /** The statistic in which each invented student departs on purpose, by the sample's own list. */
  private static Map<String, String> hinted() throws IOException {
    Map<String, String> keys = new HashMap<>();
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().all()) {
      keys.put(definition.name(), definition.key());
    }
    keys.put("phrase length in bars", "phrase_length_bars");
    keys.put("eighth-note share", "value_share_eighth");
    keys.put("landing chord-tone share", "landing_chord_tone_share");
    Map<String, String> hinted = new HashMap<>();
    List<String> lines = Files.readAllLines(SAMPLE.resolve("expected/students.csv"));
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",");
      hinted.put(cells[0], keys.get(cells[5]));
    }
    return hinted;
  }

  @Test
  void everyStudentMovesTowardTheBandInTheStatisticOfTheKnownDeparture() throws IOException {
    Map<String, String> hinted = hinted();

    assertThat(hinted).hasSize(3);
    hinted.forEach(
        (student, statistic) -> {
          TableRow trend =
              folder
                  .source()
                  .rows(
                      "trends",
                      Map.of("student", student, "statistic", statistic, "group_by", "all"))
                  .get(0);
          assertThat(trend.text("movement")).as(trend.toString()).isEqualTo("toward-band");
          assertThat(trend.text("statement"))
              .isEqualTo("moved toward the middle half of the group");
          assertThat(trend.integer("dates")).isEqualTo(5);
          assertThat(trend.number("distance_change")).isNegative();
          assertThat(trend.number("slope_low") * trend.number("slope_high")).isPositive();
          assertThat(trend.flag("direction_only")).isFalse();
        });
  }

  @Test
  void thereIsOneTrendForEachStudentAndComparedStatisticInTheCorpusAndInTheGroupOfReference()
      throws IOException {
    for (TableRow reference :
        folder
            .source()
            .rows("departures", Map.of("scope", "pooled", "statistic", "phrase_length_bars"))) {
      if (reference.flag("reference") || reference.text("group_by").equals("all")) {
        assertThat(
                folder
                    .source()
                    .rows(
                        "trends",
                        Map.of(
                            "student", reference.text("student"),
                            "group_by", reference.text("group_by"),
                            "group_value", reference.text("group_value"))))
            .as(reference.toString())
            .hasSize(compared());
      }
    }
    assertThat(folder.source().rows("trends")).hasSize(3 * 2 * compared());
  }

  private static int compared() {
    return (int)
        StatisticsCatalogue.builtIn().all().stream().filter(StatisticDefinition::compared).count();
  }

  @Test
  void theKnownDeparturesStandOutOverAllPhrasesOfAStudent() throws IOException {
    hinted()
        .forEach(
            (student, statistic) -> {
              TableRow pooled =
                  folder
                      .source()
                      .rows(
                          "departures",
                          Map.of(
                              "student",
                              student,
                              "scope",
                              "pooled",
                              "group_by",
                              "all",
                              "statistic",
                              statistic))
                      .get(0);
              assertThat(pooled.number("p_value")).as(pooled.toString()).isLessThan(0.05);
              double side = Math.signum(pooled.number("distance"));
              assertThat(Math.signum(pooled.number("cliffs_delta"))).isEqualTo(side);
              assertThat(Math.signum(pooled.number("shift"))).isEqualTo(side);
              // The verdict's interval is the only one.
              assertThat(pooled.isMissing("delta_low")).isTrue();
              assertThat(pooled.isMissing("shift_low")).isTrue();
              assertThat(pooled.number("wasserstein")).isPositive();
            });
  }

  @Test
  void everyFamilyOfTestsSaysHowManyThereWere() {
    Map<String, List<String>> families =
        Map.of(
            "departures",
                Stream.concat(DepartureVerdicts.LIST_COLUMNS.stream(), Stream.of("family"))
                    .toList(),
            "contrasts", List.of("group_by", "first_group", "second_group"));
    families.forEach(
        (table, columns) ->
            folder.source().rows(table).stream()
                .filter(row -> !row.isMissing("p_adjusted"))
                .collect(Collectors.groupingBy(row -> columns.stream().map(row::text).toList()))
                .forEach(
                    (family, rows) -> {
                      for (TableRow row : rows) {
                        assertThat(row.integer("tests")).isEqualTo(rows.size());
                        // p m / m may round to below p.
                        assertThat(row.number("p_adjusted"))
                            .isBetween(row.number("p_value") - 1e-12, 1.0);
                      }
                      assertThat(rows.size()).as(family.toString()).isGreaterThan(5);
                    }));
  }

  @Test
  void whatIsNotTestedHasNoAdjustedValueEither() {
    for (String table : List.of("departures", "contrasts")) {
      assertThat(folder.source().rows(table))
          .filteredOn(row -> row.isMissing("p_value"))
          .allMatch(row -> row.isMissing("p_adjusted") && row.isMissing("tests"));
    }
  }

  @Test
  void effectsOnPhrasesAreThoseOfDuckDb() throws SQLException {
    List<List<Object>> rows =
        DuckDb.query(
            "with p as ("
                + scan("phrase_statistics")
                + "), s as ("
                + scan("solos")
                + ") select d.cliffs_delta, d.shift, e.delta, e.shift from ("
                + scan("departures")
                + ") d join (select s.student, a.statistic, avg(sign(a.value - b.value)) delta,"
                + " median(a.value - b.value) shift from p a join s using (solo_id) join p b"
                + " on a.statistic = b.statistic where a.role = 'student' and b.role = 'corpus'"
                + " and a.statistic in ('phrase_length_bars', 'phrase_range', 'step_share')"
                + " and a.value is not null and b.value is not null group by all) e"
                + " on d.student = e.student and d.statistic = e.statistic"
                + " where d.scope = 'pooled' and d.group_by = 'all'");

    assertThat(rows).hasSize(9);
    for (List<Object> row : rows) {
      assertThat((Double) row.get(0)).isCloseTo((Double) row.get(2), within(1e-9));
      assertThat((Double) row.get(1)).isCloseTo((Double) row.get(3), within(1e-9));
    }
  }

  @Test
  void effectsOnPhrasesAreToldForPooledSolosAlone() {
    Set<String> ofPhrases =
        StatisticsCatalogue.builtIn().ofLevel("phrase").stream()
            .map(StatisticDefinition::key)
            .collect(Collectors.toSet());

    for (TableRow row : folder.source().rows("departures", Map.of("group_by", "all"))) {
      assertThat(row.isMissing("cliffs_delta"))
          .as(row.toString())
          .isEqualTo(
              !row.text("scope").equals("pooled") || !ofPhrases.contains(row.text("statistic")));
    }
  }

  @Test
  void phraseNormsOfStylesAreThoseOfDuckDb() throws SQLException {
    List<List<Object>> rows =
        DuckDb.query(
            "select n.n, e.n, n.solos, e.solos, n.players, e.players, n.minimum, e.least,"
                + " n.p50, e.middle, n.mean, e.mean, n.maximum, e.most from ("
                + scan("phrase_norms")
                + ") n join (select s.style, t.statistic, count(*) n,"
                + " count(distinct s.solo_id) solos, count(distinct s.performer) players,"
                + " min(t.value) least, median(t.value) middle, avg(t.value) mean,"
                + " max(t.value) most from ("
                + scan("phrase_statistics")
                + ") t join ("
                + scan("solos")
                + ") s using (solo_id) where s.role = 'corpus' and t.value is not null"
                + " group by all) e on n.group_by = 'style' and n.group_value = e.style"
                + " and n.statistic = e.statistic");

    assertThat(rows)
        .hasSize(
            (int)
                folder.source().rows("phrase_norms", Map.of("group_by", "style")).stream()
                    .filter(row -> row.integer("n") > 0)
                    .count())
        .hasSizeGreaterThan(100);
    for (List<Object> row : rows) {
      for (int i = 0; i < row.size(); i += 2) {
        assertThat(((Number) row.get(i)).doubleValue())
            .as(row + ", " + i)
            .isCloseTo(((Number) row.get(i + 1)).doubleValue(), within(1e-9));
      }
    }
  }

  @Test
  void contrastsOfStylesAreThoseOfDuckDb() throws SQLException {
    List<List<Object>> rows =
        DuckDb.query(
            "with v as (select s.style, t.statistic, t.value from ("
                + scan("solo_statistics")
                + ") t join ("
                + scan("solos")
                + ") s using (solo_id) where s.role = 'corpus' and t.value is not null)"
                + " select c.cliffs_delta, c.shift, c.first_n * c.second_n, e.delta, e.shift, e.n"
                + " from ("
                + scan("contrasts")
                + ") c join (select a.style s1, b.style s2, a.statistic,"
                + " avg(sign(a.value - b.value)) delta, median(a.value - b.value) shift,"
                + " count(*) n from v a join v b on a.statistic = b.statistic"
                + " and a.style < b.style group by all) e on c.group_by = 'style'"
                + " and c.first_group = e.s1 and c.second_group = e.s2"
                + " and c.statistic = e.statistic");

    assertThat(rows).hasSize(3 * compared());
    for (List<Object> row : rows) {
      assertThat(((Number) row.get(2)).longValue()).isEqualTo(((Number) row.get(5)).longValue());
      assertThat((Double) row.get(0)).isCloseTo((Double) row.get(3), within(1e-9));
      assertThat((Double) row.get(1)).isCloseTo((Double) row.get(4), within(1e-9));
    }
  }

  @Test
  void atMostFifteenPairsOfAColumnAreContrasted() throws SQLException {
    for (List<Object> row :
        DuckDb.query(
            "select group_by, count(distinct first_group || '|' || second_group) from ("
                + scan("contrasts")
                + ") group by all")) {
      assertThat(((Number) row.get(1)).intValue()).as(row.toString()).isBetween(1, 15);
    }
    assertThat(folder.source().rows("contrasts", Map.of("group_by", "style")))
        .extracting(row -> row.text("first_group") + " / " + row.text("second_group"))
        .contains("headland bop / quayside swing")
        .allMatch(pair -> !pair.contains("(none)"));
  }

  @Test
  void everyMeanLiesInItsIntervalAndTenSolosAreTheFewestWithOne() {
    int told = 0;
    for (TableRow row : folder.source().rows("norms")) {
      assertThat(row.isMissing("mean_low")).as(row.toString()).isEqualTo(row.integer("n") < 10);
      if (!row.isMissing("mean_low")) {
        told++;
        assertThat(row.number("mean"))
            .as(row.toString())
            .isBetween(row.number("mean_low") - 1e-9, row.number("mean_high") + 1e-9);
        assertThat(row.number("design_effect")).isGreaterThanOrEqualTo(1);
      }
    }
    assertThat(told).isGreaterThan(400);
  }

  @Test
  void fiveNeighboursStandInOrderAndAreLikeOnlyIfTheFirstIsNear() {
    Map<String, List<TableRow>> bySolo = new TreeMap<>();
    folder
        .source()
        .rows("neighbours")
        .forEach(
            row -> bySolo.computeIfAbsent(row.text("solo_id"), id -> new ArrayList<>()).add(row));

    assertThat(bySolo).hasSize(15);
    boolean like = false;
    boolean unlike = false;
    for (List<TableRow> rows : bySolo.values()) {
      assertThat(rows).hasSize(LikenessJob.MOST_NEIGHBOURS);
      rows.sort(Comparator.comparing(row -> row.integer("place")));
      assertThat(rows).extracting(row -> row.number("distance")).isSorted();
      boolean near = rows.get(0).number("distance") <= rows.get(0).number("unlike_distance");
      assertThat(rows).extracting(row -> row.flag("alike")).containsOnly(near);
      assertThat(rows).extracting(row -> row.text("whitened_about")).containsOnly("player");
      like |= near;
      unlike |= !near;
    }
    assertThat(like).isTrue();
    assertThat(unlike).isTrue();
  }

  /** What the tasks find, part by part, is what follows from all tables in memory. */
  @Test
  void distancesOfNeighboursAreThoseOfTheWholeCorpusInMemory() {
    CorpusStatistics statistics =
        CorpusStatistics.of(folder.source(), folder.manifest().by().get(0));
    List<PlacedSolo> corpus = PlacedCorpus.of(statistics);
    LikenessSpace space = LikenessSpace.of(corpus).orElseThrow();
    List<String> keys = List.copyOf(statistics.solos().keySet());
    Map<String, double[]> places = new TreeMap<>();
    corpus.forEach(solo -> places.put(solo.soloId(), solo.places()));
    Map<String, String> students = Map.of("role", "student");
    Map<String, TableRow> solos = new TreeMap<>();
    folder.source().rows("solos", students).forEach(row -> solos.put(row.text("solo_id"), row));
    for (TableRow row : folder.source().rows("solo_statistics", students)) {
      int key = keys.indexOf(row.text("statistic"));
      if (key >= 0 && !row.isMissing("value")) {
        TableRow solo = solos.get(row.text("solo_id"));
        double[] own =
            places.computeIfAbsent(
                row.text("solo_id"),
                id -> {
                  double[] nowhere = new double[keys.size()];
                  Arrays.fill(nowhere, Double.NaN);
                  return nowhere;
                });
        own[key] =
            CorpusModel.of(
                    ShippedTable.builtIn().of(keys.get(key)).orElseThrow(),
                    statistics.whole(keys.get(key)),
                    true)
                .tempoRemoval()
                .place(
                    new ComparedSolo(
                        "",
                        "",
                        "",
                        row.number("value"),
                        row.integer("n"),
                        solo.integer("phrases"),
                        solo.number("tempo_qpm")));
      }
    }

    List<TableRow> rows = folder.source().rows("neighbours");
    assertThat(rows).hasSize(15 * LikenessJob.MOST_NEIGHBOURS);
    for (TableRow row : rows) {
      double[] own = places.get(row.text("solo_id"));
      assertThat(row.number("unlike_distance")).isCloseTo(space.unlike(), within(1e-9));
      assertThat(row.number("distance"))
          .isCloseTo(
              space.ofSolos(own, places.get(row.text("neighbour_id"))).orElseThrow().value(),
              within(1e-9));
      if (row.integer("place") == 1) {
        assertThat(
                corpus.stream()
                    .mapToDouble(each -> space.ofSolos(own, each.places()).orElseThrow().value())
                    .min()
                    .orElseThrow())
            .isCloseTo(row.number("distance"), within(1e-9));
      }
    }
  }

  @Test
  void neighboursAreCorpusSolosAndSayWhatDrivesTheDistance() {
    Set<String> corpus = new TreeSet<>();
    folder
        .source()
        .rows("solos", Map.of("role", "corpus"))
        .forEach(row -> corpus.add(row.text("solo_id")));

    for (TableRow row : folder.source().rows("neighbours")) {
      assertThat(corpus).contains(row.text("neighbour_id"));
      assertThat(row.texts("drivers")).hasSize(3).doesNotHaveDuplicates();
      assertThat(Math.abs(row.number("greatest_difference"))).isPositive();
    }
  }

  @Test
  void everyDepartureInAnEarlyPlaceIsShownWherePhrasesHaveItsValue() throws SQLException {
    List<List<Object>> departures =
        DuckDb.query(
            "select statistic, d.place, count(e.rank) filter (e.role = 'student'),"
                + " count(e.rank) filter (e.role = 'corpus') from ("
                + scan("departures")
                + ") d left join ("
                + scan("exemplars")
                + ") e using (student, scope, solo_id, group_by, group_value, statistic)"
                + " where d.place is not null group by student, scope, solo_id, group_by,"
                + " group_value, statistic, d.place");

    // Only what is clear has a place.
    assertThat(departures).hasSizeGreaterThan(100);
    for (List<Object> row : departures) {
      boolean shown =
          ((Number) row.get(1)).intValue() <= 8
              && StatisticsCatalogue.builtIn()
                  .named((String) row.get(0))
                  .orElseThrow()
                  .visibleIn()
                  .isPresent();
      if (shown) {
        assertThat(((Number) row.get(2)).intValue()).as(row.toString()).isBetween(1, 3);
        assertThat(((Number) row.get(3)).intValue()).as(row.toString()).isBetween(1, 3);
      } else {
        assertThat(row.subList(2, 4)).as(row.toString()).containsOnly(0L);
      }
    }
  }

  @Test
  void phrasesThatShowADepartureLieOnItsSideAndThoseOfTheCorpusDoNotShowIt() throws SQLException {
    // The value in the row is that of the phrase; the middle is the median of the group.
    List<List<Object>> rows =
        DuckDb.query(
            "select e.role, e.value - v.value, e.middle - n.p50, e.value - e.middle,"
                + " (e.verdict = 'above') = (e.shown_by = e.statistic or e.statistic in"
                + " ('chord_tone_share_beat_one', 'chord_tone_at_change_share', 'notes_per_bar')),"
                + " e.value - first_value(e.value) over (partition by e.student, e.scope,"
                + " e.solo_id, e.group_by, e.group_value, e.statistic order by e.role desc,"
                + " e.rank) from ("
                + scan("exemplars")
                + ") e join ("
                + scan("phrase_statistics")
                + ") v on v.solo_id = e.phrase_solo_id and v.phrase_index = e.phrase_index"
                + " and v.statistic = e.shown_by join ("
                + scan("norms")
                + ") n on n.group_by = e.group_by and n.group_value = e.group_value"
                + " and n.statistic = e.shown_by");

    assertThat(rows).hasSize(folder.source().rows("exemplars").size());
    for (List<Object> row : rows) {
      double sign = (Boolean) row.get(4) ? 1 : -1;
      assertThat((Double) row.get(1)).as(row.toString()).isZero();
      assertThat((Double) row.get(2)).as(row.toString()).isCloseTo(0, within(1e-12));
      if (row.get(0).equals("student")) {
        assertThat(sign * (Double) row.get(3)).as(row.toString()).isPositive();
      } else {
        assertThat(sign * (Double) row.get(5)).as(row.toString()).isNegative();
      }
    }
  }

  @Test
  void exemplarsAreTheNearestOfTheirGroupOneASoloByTheirFourDistances() throws SQLException {
    // Phrases of the same chords alone, so that the fourth distance is 0: none may be nearer.
    String exemplars = scan("exemplars");
    List<List<Object>> nearer =
        DuckDb.query(
            "with p as (select p.*, s.style, s.instrument from ("
                + scan("phrases")
                + ") p join ("
                + scan("solos")
                + ") s using (solo_id)), e as ("
                + exemplars
                + "), v as ("
                + scan("phrase_statistics")
                + "), shown as (select e.*, p.tempo_qpm, p.length_bars, p.chord_qualities,"
                + " last.distance last_distance, last.phrase_solo_id last_solo,"
                + " e.value_distance / abs(e.value - e.middle) per_unit from e join p"
                + " on p.solo_id = e.phrase_solo_id and p.phrase_index = e.phrase_index"
                + " join e last on e.student = last.student and e.scope = last.scope"
                + " and e.solo_id = last.solo_id and e.group_by = last.group_by"
                + " and e.group_value = last.group_value and e.statistic = last.statistic"
                + " where e.role = 'student' and e.rank = 1 and last.role = 'corpus'"
                + " and last.rank = 3)"
                + " select shown.statistic, c.solo_id, c.phrase_index from shown join p c"
                + " on c.role = 'corpus' and c.chord_qualities = shown.chord_qualities"
                + " and (shown.group_by = 'all' or shown.group_value = case shown.group_by"
                + " when 'style' then c.style else c.instrument end)"
                + " join v on v.solo_id = c.solo_id and v.phrase_index = c.phrase_index"
                + " and v.statistic = shown.shown_by"
                + " where (shown.verdict = 'above') = (v.value < shown.value)"
                + " and v.value <> shown.value"
                + " and shown.statistic = shown.shown_by"
                + " and c.last_note_index - c.first_note_index >= 3"
                + " and abs(v.value - shown.middle) * shown.per_unit"
                + " + abs(log2(c.tempo_qpm / shown.tempo_qpm)) + case when shown.shown_by in"
                + " ('phrase_length_bars', 'phrase_notes') then 0"
                + " else abs(log2(c.length_bars / shown.length_bars)) end"
                + " < shown.last_distance - 1e-9"
                + " and not exists (select 1 from e where e.student = shown.student"
                + " and e.scope = shown.scope and e.solo_id = shown.solo_id"
                + " and e.group_by = shown.group_by and e.group_value = shown.group_value"
                + " and e.statistic = shown.statistic and e.role = 'corpus'"
                + " and e.phrase_solo_id = c.solo_id)");
    assertThat(nearer).isEmpty();

    for (List<Object> row :
        DuckDb.query(
            "select count(*), count(distinct phrase_solo_id), max(abs(distance - value_distance"
                + " - tempo_distance - length_distance - chord_distance)) from ("
                + exemplars
                + ") where role = 'corpus' group by student, scope, solo_id, group_by,"
                + " group_value, statistic")) {
      assertThat(row.get(0)).isEqualTo(row.get(1));
      assertThat((Double) row.get(2)).isLessThan(1e-12);
    }
  }

  @Test
  void mixturesAreTheJensenShannonDistancesOfDuckDb() throws SQLException {
    // Lin 1991: half the sum of p log2(p/m) and q log2(q/m), m the mean of both.
    List<List<Object>> rows =
        DuckDb.query(
            "with m as ("
                + scan("mixtures")
                + "), v as (select s.solo_id, s.statistic, s.value, o.style, o.instrument from ("
                + scan("solo_statistics")
                + ") s join ("
                + scan("solos")
                + ") o using (solo_id) where s.role = 'corpus' and s.value is not null),"
                + " g as (select 'all' by_, 'all' value_, statistic, avg(value) usual,"
                + " count(*) n from v group by all union all select 'style', style, statistic,"
                + " avg(value), count(*) from v group by all union all select 'instrument',"
                + " instrument, statistic, avg(value), count(*) from v group by all),"
                + " j as (select m.*, g.usual, g.n, m.student_share p, g.usual q,"
                + " (p + q) / 2 h, ((case when p > 0 then p * log2(p / h) else 0 end)"
                + " + (case when q > 0 then q * log2(q / h) else 0 end)) / 2 bits from m join g"
                + " on g.by_ = m.group_by and g.value_ = m.group_value and g.statistic = m.class)"
                + " select group_share - usual, solos - n, contribution - bits,"
                + " distance - sqrt(sum(bits) over w), sum(student_share) over w,"
                + " sum(group_share) over w, rank - rank() over (partition by student, scope,"
                + " solo_id, group_by, group_value, mix order by round(bits, 12) desc),"
                + " count(*) over w, mix from j window w as (partition by student, scope,"
                + " solo_id, group_by, group_value, mix)");

    assertThat(rows).hasSize(folder.source().rows("mixtures").size()).hasSizeGreaterThan(2000);
    for (List<Object> row : rows) {
      assertThat((Double) row.get(0)).as(row.toString()).isCloseTo(0, within(1e-9));
      assertThat(((Number) row.get(1)).longValue()).as(row.toString()).isZero();
      assertThat((Double) row.get(2)).as(row.toString()).isCloseTo(0, within(1e-9));
      assertThat((Double) row.get(3)).as(row.toString()).isCloseTo(0, within(1e-9));
      assertThat((Double) row.get(4)).as(row.toString()).isCloseTo(1, within(1e-9));
      assertThat((Double) row.get(5)).as(row.toString()).isCloseTo(1, within(1e-9));
      // Classes that add the same share a rank for DuckDB and follow each other here.
      assertThat(((Number) row.get(6)).longValue()).as(row.toString()).isBetween(0L, 8L);
    }
  }

  @Test
  void theEighthNotesMakeTheMixOfTheStudentWhoAvoidsThem() throws IOException {
    // The sample's own list says who departs in the share of eighth notes.
    String student =
        hinted().entrySet().stream()
            .filter(each -> each.getValue().equals("value_share_eighth"))
            .findFirst()
            .orElseThrow()
            .getKey();
    TableRow most =
        folder
            .source()
            .rows(
                "mixtures",
                Map.of(
                    "student", student, "scope", "pooled", "group_by", "all", "mix", "note_values"))
            .stream()
            .filter(row -> row.integer("rank") == 1)
            .findFirst()
            .orElseThrow();

    assertThat(most.number("distance")).isGreaterThan(most.number("usual_distance"));
    assertThat(
            folder
                .source()
                .rows(
                    "mixtures",
                    Map.of(
                        "student", student,
                        "scope", "pooled",
                        "group_by", "all",
                        "class", "value_share_eighth"))
                .get(0))
        .satisfies(
            row -> {
              assertThat(row.integer("rank")).isLessThanOrEqualTo(2);
              assertThat(row.number("student_share")).isLessThan(row.number("group_share"));
            });
  }

  @Test
  void everyGroupOfSixSolosStandsBesideEverySoloTheNearestFirst() {
    Map<String, List<TableRow>> bySolo = new TreeMap<>();
    for (TableRow row : folder.source().rows("group_neighbours")) {
      assertThat(row.integer("solos")).isGreaterThanOrEqualTo(6);
      bySolo
          .computeIfAbsent(
              row.text("solo_id") + ' ' + row.text("group_by"), id -> new ArrayList<>())
          .add(row);
    }

    assertThat(bySolo).hasSizeGreaterThanOrEqualTo(15);
    for (List<TableRow> rows : bySolo.values()) {
      rows.sort(Comparator.comparing(row -> row.integer("place")));
      assertThat(rows).extracting(row -> row.number("distance")).isSorted();
    }
  }

  private static String scan(String table) {
    return String.format(
        Locale.ROOT,
        "select * from read_parquet('%s/tables/%s/*.parquet')",
        folder.location(),
        table);
  }
}
