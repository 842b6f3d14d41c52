package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.schema.MessageType;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.fixtures.DuckDb;
import phrasecensus.fixtures.ShelfFileSystem;
import phrasecensus.rows.FileRows;
import phrasecensus.store.StudyFolder;
import phrasecensus.store.StudyLock;
import phrasecensus.store.parquet.RowDigest;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.FileList;
import phrasecensus.tables.InputException;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.MetadataDefinition;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** A study of twenty-odd solos of the sample corpus, looked at from outside. */
class StudyRunnerIT {
  private static final Path SAMPLE = Path.of(System.getProperty("project.root"), "sample-corpus");

  @TempDir private static Path temporary;
  private static StudyDefinition definition;
  private static StudyFolder folder;
  private static Manifest manifest;
  private static TableSchema solosSchema;

  @BeforeAll
  static void study() throws IOException {
    Path corpus = Files.createDirectory(temporary.resolve("corpus"));
    try (var files = Files.list(SAMPLE.resolve("corpus"))) {
      List<Path> sorted = files.filter(file -> !file.endsWith("solos.csv")).sorted().toList();
      // Two of every five: the files are in order of tune, and so enough of each style come along.
      for (int i = 0; i < sorted.size(); i++) {
        if (i % 5 < 2) {
          Files.copy(sorted.get(i), corpus.resolve(sorted.get(i).getFileName()));
        }
      }
    }
    Files.copy(SAMPLE.resolve("corpus/solos.csv"), corpus.resolve("solos.csv"));
    Files.writeString(corpus.resolve("letter.xml"), "<letter>No score</letter>");
    definition =
        StudyDefinition.ofFolder(corpus.toString(), temporary.resolve("study").toString())
            .comparing(SAMPLE.resolve("students").toString())
            .groupedBy(List.of("style"));
    definition =
        definition.readWith(
            definition.settings().movedBy(List.of("silence minimum-beats=1", "marked")));
    run(definition, "local[2]");
    findPatterns(definition, "local[2]");
    folder = StudyFolder.finished(definition.into(), StudyFolder.configuration());
    manifest = folder.manifest();
    solosSchema = folder.source().schema("solos");
  }

  @AfterAll
  static void close() {
    folder.close();
  }

  private static StudyRunner.Outcome run(StudyDefinition study, String master) {
    System.setProperty("spark.master", master);
    try (StudySession session = StudySession.open();
        StudyFolder into = StudyFolder.forWriting(study.into(), session.configuration())) {
      return new StudyRunner(session, line -> {}).study(study, into);
    } finally {
      System.clearProperty("spark.master");
    }
  }

  /** The tables of the study; AttributeIT looks at the one that it has not asked for. */
  private static List<TableSchema> made() {
    return TableSchemas.all().stream()
        .filter(schema -> !schema.table().equals("attributions"))
        .toList();
  }

  private static void findPatterns(StudyDefinition study, String master) {
    System.setProperty("spark.master", master);
    try (StudySession session = StudySession.open();
        StudyFolder into = StudyFolder.finished(study.into(), session.configuration())) {
      new StudyRunner(session, line -> {}).patterns(into);
    } finally {
      System.clearProperty("spark.master");
    }
  }

  @Test
  void everyTableButThatOfProblemsHasRows() {
    assertThat(manifest.tables())
        .allSatisfy(
            (table, written) -> {
              if (!table.equals("problems")) {
                assertThat(written.rows()).as(table).isPositive();
              }
            });
  }

  @Test
  void everyInputFileIsARowOfFiles() {
    List<TableRow> files = folder.source().rows("files");

    assertThat(files).hasSize(manifest.inputs().size());
    assertThat(files)
        .filteredOn(row -> row.text("outcome").equals("rejected"))
        .singleElement()
        .satisfies(
            row -> {
              assertThat(row.text("file")).isEqualTo("letter.xml");
              assertThat(row.text("reason")).contains("letter");
            });
  }

  @Test
  void oneCoreGivesTheSameTablesAsTwo() {
    StudyDefinition again = definition.writtenInto(temporary.resolve("one-core").toString());

    run(again, "local[1]");
    findPatterns(again, "local[1]");

    try (StudyFolder other = StudyFolder.finished(again.into(), StudyFolder.configuration())) {
      assertThat(other.manifest().tables()).isEqualTo(manifest.tables());
    }
  }

  @ParameterizedTest(name = "{0} buckets a role")
  @ValueSource(ints = {1, 2, 8})
  void neitherTheNumberOfBucketsNorTheOrderOfFilesOnDiskChangesATable(int buckets)
      throws IOException {
    Path copied = Files.createDirectories(temporary.resolve("in-" + buckets + "/corpus"));
    try (var files = Files.list(Path.of(definition.corpus()))) {
      List<Path> shuffled = new ArrayList<>(files.sorted().toList());
      Collections.shuffle(shuffled, new Random(buckets));
      for (Path file : shuffled) {
        Files.copy(file, copied.resolve(file.getFileName()));
      }
    }
    String into = temporary.resolve("buckets-" + buckets).toString();
    StudyDefinition again =
        StudyDefinition.ofFolder(copied.toString(), into)
            .comparing(definition.students())
            .groupedBy(definition.by())
            .readWith(definition.settings());
    System.setProperty("spark.master", "local[2]");
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.forWriting(into, session.configuration())) {

      new StudyRunner(session, line -> {})
          .planning(files -> inBuckets(files, buckets))
          .study(again, folder);
    } finally {
      System.clearProperty("spark.master");
    }
    findPatterns(again, "local[2]");

    try (StudyFolder other = StudyFolder.finished(into, StudyFolder.configuration())) {
      assertThat(withoutParts(other.manifest().tables()))
          .isEqualTo(withoutParts(manifest.tables()));
    }
    try (var parts = Files.list(Path.of(into, "tables", "notes"))) {
      assertThat(parts).hasSize(2 * buckets);
    }
  }

  /** Files of each role in buckets of like number, whatever their sizes. */
  private static ReadPlan inBuckets(List<InputFile> files, int buckets) {
    List<ReadPlan.Bucket> plan = new ArrayList<>();
    for (String role : List.of(InputFile.CORPUS, InputFile.STUDENT)) {
      List<InputFile> ofRole = files.stream().filter(file -> file.role().equals(role)).toList();
      for (int i = 0; i < buckets; i++) {
        plan.add(
            new ReadPlan.Bucket(
                role,
                i,
                ofRole.subList(i * ofRole.size() / buckets, (i + 1) * ofRole.size() / buckets)));
      }
    }
    return new ReadPlan(plan);
  }

  @Test
  void aPlainLoopOverTheFilesGivesTheSameRows() throws IOException {
    Map<String, RowDigest> digests = new TreeMap<>();
    FileRows reading = new FileRows(definition.settings(), solosSchema);
    for (String role : List.of(InputFile.CORPUS, InputFile.STUDENT)) {
      Path root = Path.of(role.equals("corpus") ? definition.corpus() : definition.students());
      List<String> names =
          manifest.inputs().stream()
              .filter(input -> input.role().equals(role))
              .map(Manifest.Input::file)
              .toList();
      Metadata metadata =
          Metadata.read("solos.csv", Files.readAllBytes(root.resolve("solos.csv")), "", names);
      for (String name : names) {
        reading
            .of(role, name, Files.readAllBytes(root.resolve(name)), metadata.of(name))
            .rows()
            .forEach(
                (table, rows) ->
                    rows.forEach(digests.computeIfAbsent(table, t -> new RowDigest())::add));
      }
    }

    for (String table : TableSchemas.OF_READING) {
      RowDigest digest = digests.getOrDefault(table, new RowDigest());
      assertThat(digest.hex()).as(table).isEqualTo(manifest.tables().get(table).digest());
    }
  }

  @Test
  void writtenTablesHaveTheNamesTypesAndNullabilityOfTheirSchemaFiles() throws IOException {
    for (TableSchema schema : made()) {
      TableSchema expected = schema.table().equals("solos") ? solosSchema : schema;
      Path table = Path.of(folder.location(), "tables", schema.table());
      try (var files = Files.list(table)) {
        for (Path file : files.filter(f -> f.toString().endsWith(".parquet")).toList()) {
          try (ParquetFileReader reader =
              ParquetFileReader.open(
                  HadoopInputFile.fromPath(
                      new org.apache.hadoop.fs.Path(file.toUri()), StudyFolder.configuration()))) {
            MessageType written = reader.getFooter().getFileMetaData().getSchema();
            assertThat(written).as(file.toString()).isEqualTo(TableFile.parquetSchema(expected));
          }
        }
      }
    }
  }

  /** DuckDB knows nothing of this program or of Spark: an independent reader of Parquet. */
  @Test
  void duckDbSeesTheSameColumnsAndRowCounts() throws SQLException {
    for (TableSchema schema : made()) {
      TableSchema expected = schema.table().equals("solos") ? solosSchema : schema;
      Map<String, String> columns = new LinkedHashMap<>();
      for (Column column : expected.columns()) {
        columns.put(column.name(), duckDbType(column.type()));
      }

      assertThat(
              DuckDb.query(
                  "select column_name, column_type from (describe " + scan(schema.table()) + ")"))
          .as(schema.table())
          .extracting(row -> Map.entry((String) row.get(0), (String) row.get(1)))
          .containsExactlyElementsOf(columns.entrySet());
      assertThat(DuckDb.query("select count(*) from (" + scan(schema.table()) + ")").get(0).get(0))
          .as(schema.table())
          .isEqualTo(manifest.tables().get(schema.table()).rows());
    }
  }

  @Test
  void duckDbFindsTheSameMedians() throws SQLException {
    List<List<Object>> rows =
        DuckDb.query(
            "select n.group_value, n.statistic, n.p50, m.median, n.n, m.n from "
                + "(select s.style, v.statistic, median(v.value) median, count(v.value) n from ("
                + scan("solo_statistics")
                + ") v join ("
                + scan("solos")
                + ") s using (solo_id) where s.role = 'corpus' group by all) m join ("
                + scan("norms")
                + ") n on n.group_by = 'style' and n.group_value = m.style"
                + " and n.statistic = m.statistic");

    assertThat(rows).hasSizeGreaterThan(150);
    for (List<Object> row : rows) {
      assertThat(((Number) row.get(4)).longValue()).isEqualTo(((Number) row.get(5)).longValue());
      if (row.get(2) != null) {
        assertThat((Double) row.get(2))
            .as(row.toString())
            .isCloseTo((Double) row.get(3), org.assertj.core.data.Offset.offset(1e-12));
      }
    }
  }

  @Test
  void everyPublishedQueryRuns() throws IOException, SQLException {
    String text =
        Files.readString(
            Path.of(System.getProperty("project.root"), "notebooks-export", "queries.sql"));
    List<String> queries =
        java.util.Arrays.stream(text.replaceAll("(?m)^--.*$", "").split(";"))
            .map(String::strip)
            .filter(query -> !query.isEmpty())
            .toList();

    assertThat(queries).hasSizeGreaterThanOrEqualTo(7);
    for (String query : queries) {
      List<List<Object>> rows = DuckDb.query(query.replace("STUDY", folder.location()));
      // Nothing is wrong with these scores, so the query for what is finds nothing.
      if (!query.contains("/problems/")) {
        assertThat(rows).as(query).isNotEmpty();
      }
    }
  }

  /** The marks of a people-marked study: one phrase a bar of eight notes would be as good. */
  @Test
  void phraseMarksTakeThePlaceOfTheRuleAndWhatDoesNotFitIsSaid() throws IOException {
    List<String> files =
        manifest.inputs().stream()
            .filter(input -> input.role().equals(InputFile.CORPUS))
            .map(Manifest.Input::file)
            .filter(file -> !file.equals("letter.xml"))
            .toList();
    Path marks = temporary.resolve("marks.csv");
    Files.writeString(
        marks,
        "song,note_index\n"
            + String.join(
                "",
                files.subList(2, files.size()).stream().map(f -> f + ",0\n" + f + ",9\n").toList())
            + files.get(0)
            + ",0\n"
            + files.get(0)
            + ",100000\nelsewhere,0\n");
    StudyDefinition given =
        definition
            .comparing("")
            .markedBy(new MetadataDefinition(marks.toUri().toString(), "song"))
            .writtenInto(temporary.resolve("given").toString());

    StudyRunner.Outcome outcome = run(given, "local[2]");

    assertThat(outcome.remarks())
        .contains(
            "The phrase marks marks.csv speak of scores (1) that are not in the study, the first"
                + " is 'elsewhere'.",
            "2 of 25 files have no phrase marks in marks.csv; a rule finds their phrases.");
    try (StudyFolder study = StudyFolder.finished(given.into(), StudyFolder.configuration())) {
      assertThat(study.manifest().settings())
          .containsEntry("phrase-rule", "given")
          .containsEntry("phrase-marks", "marks.csv")
          .containsEntry(
              "phrase-marks-sha256", phrasecensus.tables.Sha256.of(Files.readAllBytes(marks)));
      assertThat(study.source().rows("phrases", Map.of("file", files.get(2))))
          .extracting(row -> row.integer("first_note_index"))
          .containsExactly(0, 9);
      assertThat(study.source().rows("phrases", Map.of("file", files.get(0)))).hasSize(1);
      assertThat(study.source().rows("phrases", Map.of("file", files.get(1))))
          .isEqualTo(folder.source().rows("phrases", Map.of("file", files.get(1))));
      assertThat(study.source().rows("problems"))
          .extracting(row -> row.text("file") + " " + row.text("code"))
          .contains(
              files.get(0) + " phrase-marks-beyond-line", files.get(1) + " phrase-marks-missing");
      assertThat(study.source().rows("sensitivity", Map.of("statistic", "phrase_notes")))
          .extracting(row -> row.text("rule"))
          .contains("given", "marked", "silence minimum-beats=1");
    }
  }

  @Test
  void phraseMarksOfOtherScoresAreRefused() throws IOException {
    Path marks = Files.writeString(temporary.resolve("other.csv"), "file,note_index\nx,0\n");

    assertThatThrownBy(
            () ->
                run(definition.markedBy(new MetadataDefinition(marks.toString(), "")), "local[1]"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the phrase marks other.csv: they speak of no score of the study, but of"
                + " 'x', as its column 'file' says. Name the column that names the scores.");
  }

  /** Sensitivity against the tables themselves, by DuckDB. */
  @Test
  void duckDbFindsTheSameShifts() throws SQLException {
    List<List<Object>> rows =
        DuckDb.query(
            "with m as (select u.rule, s.style, u.statistic, median(u.value) other,"
                + " median(v.value) own, count(u.value) n, count(v.value) n_own,"
                + " count(*) filter (u.value <> v.value) changed,"
                + " count(*) filter ((u.value is null) <> (v.value is null)) once from ("
                + scan("rule_statistics")
                + ") u join ("
                + scan("solo_statistics")
                + ") v using (solo_id, statistic) join ("
                + scan("solos")
                + ") s using (solo_id) group by all) select x.median_shift, m.other - m.own,"
                + " x.solos_changed, m.changed, x.solos_defined_once, m.once from m join ("
                + scan("sensitivity")
                + ") x on x.group_by = 'style' and x.group_value = m.style and x.rule = m.rule"
                + " and x.statistic = m.statistic where m.n >= 6 and m.n_own >= 6");

    // No score carries marks, so that the rule of marks has no norms.
    assertThat(rows).hasSizeGreaterThan(150);
    for (List<Object> row : rows) {
      assertThat((Double) row.get(0))
          .as(row.toString())
          .isCloseTo((Double) row.get(1), org.assertj.core.data.Offset.offset(1e-9));
      assertThat(((Number) row.get(2)).longValue()).isEqualTo(((Number) row.get(3)).longValue());
      assertThat(((Number) row.get(4)).longValue()).isEqualTo(((Number) row.get(5)).longValue());
    }
  }

  @Test
  void keysAreUnique() throws SQLException {
    for (TableSchema schema : made()) {
      String key = String.join(", ", schema.key());
      assertThat(
              DuckDb.query(
                  "select "
                      + key
                      + " from ("
                      + scan(schema.table())
                      + ") group by all having count(*) > 1"))
          .as(schema.table())
          .isEmpty();
    }
  }

  /** Counted again by DuckDB from the table of notes: four intervals by pitch. */
  @Test
  void duckDbCountsTheSameRecurringPatterns() throws SQLException {
    String windows =
        "(select solo_id, i1, i2, i3, i4 from (select solo_id, phrase_index,"
            + " lead(midi_concert, 1) over w - midi_concert i1,"
            + " lead(midi_concert, 2) over w - lead(midi_concert, 1) over w i2,"
            + " lead(midi_concert, 3) over w - lead(midi_concert, 2) over w i3,"
            + " lead(midi_concert, 4) over w - lead(midi_concert, 3) over w i4 from ("
            + scan("notes")
            + ") where role = 'corpus' window w as (partition by solo_id, phrase_index"
            + " order by note_index)) where i4 is not null)";
    List<List<Object>> counted =
        DuckDb.query(
            "select sum(n), sum(n) filter (n > 1), sum(n) filter (solos > 1), max(solos) from"
                + " (select count(*) n, count(distinct solo_id) solos from "
                + windows
                + " group by i1, i2, i3, i4)");
    TableRow row =
        folder.source().rows("pattern_recurrence", Map.of("group_by", "all")).stream()
            .filter(each -> each.integer("length") == 4 && !each.flag("rhythm"))
            .findFirst()
            .orElseThrow();

    assertThat(List.of(row.value("windows"), row.value("recurring"), row.value("shared")))
        .map(value -> ((Number) value).longValue())
        .isEqualTo(
            counted.get(0).subList(0, 3).stream()
                .map(value -> ((Number) value).longValue())
                .toList());
  }

  @Test
  void corpusAndStudentsAreNeverMixed() {
    long corpusSolos = folder.source().rows("solos", Map.of("role", "corpus")).size();

    assertThat(folder.source().rows("norms", Map.of("group_by", "all")))
        .isNotEmpty()
        .allMatch(row -> row.integer("n") + row.integer("undefined") == corpusSolos);
  }

  @Test
  void aZippedCorpusGivesTheTablesOfItsFolder() throws IOException {
    Path zip = temporary.resolve("corpus.zip");
    try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(zip));
        var files = Files.list(Path.of(definition.corpus()))) {
      for (Path file : files.toList()) {
        out.putNextEntry(new ZipEntry(file.getFileName().toString()));
        Files.copy(file, out);
      }
    }
    StudyDefinition zipped =
        StudyDefinition.ofFolder(zip.toString(), temporary.resolve("zipped").toString())
            .comparing(SAMPLE.resolve("students").toString())
            .groupedBy(List.of("style"))
            .readWith(definition.settings());

    run(zipped, "local[2]");
    findPatterns(zipped, "local[2]");

    try (StudyFolder other = StudyFolder.finished(zipped.into(), StudyFolder.configuration())) {
      assertThat(other.manifest().tables()).isEqualTo(manifest.tables());
      assertThat(other.manifest().inputs()).isEqualTo(manifest.inputs());
    }
  }

  /** Scores, metadata, students and study: all of them have addresses. */
  @Test
  void anObjectStoreGivesTheStudyOfADisk() {
    StudyDefinition shelved =
        StudyDefinition.ofFolder(
                ShelfFileSystem.address(Path.of(definition.corpus())),
                ShelfFileSystem.address(temporary.resolve("shelved")))
            .comparing(ShelfFileSystem.address(Path.of(definition.students())))
            .groupedBy(definition.by())
            .readWith(definition.settings());
    System.setProperty("spark.hadoop.fs.shelf.impl", ShelfFileSystem.class.getName());
    try {
      int renames = ShelfFileSystem.fileRenames();
      StudyRunner.Outcome first = run(shelved, "local[2]");
      findPatterns(shelved, "local[2]");

      try (StudyFolder other = StudyFolder.finished(shelved.into(), StudyFolder.configuration())) {
        assertThat(other.manifest()).isEqualTo(manifest);
        assertThat(other.tablesLocation()).contains("/shelved/generation-");
      }
      int all = first.read() + first.rejected().size();
      assertThat(run(shelved, "local[2]").reused()).isEqualTo(all);
      assertThat(ShelfFileSystem.fileRenames()).isEqualTo(renames);

      // A store on which a file cannot be given up once it is begun.
      ShelfFileSystem.setAbortable(false);
      assertThat(run(shelved, "local[2]").reused()).isEqualTo(all);
      findPatterns(shelved, "local[2]");
      try (StudyFolder other = StudyFolder.finished(shelved.into(), StudyFolder.configuration())) {
        assertThat(other.manifest()).isEqualTo(manifest);
      }
      assertThat(ShelfFileSystem.fileRenames()).isGreaterThan(renames);
      assertThat(ShelfFileSystem.folderRenames()).isZero();
    } finally {
      ShelfFileSystem.setAbortable(true);
      System.clearProperty("spark.hadoop.fs.shelf.impl");
    }
  }

  @Test
  void aRerunReadsWhatChangedAndGivesWhatAFullRunGives() throws IOException {
    Path corpus = Files.createDirectory(temporary.resolve("changing"));
    try (var files = Files.list(Path.of(definition.corpus()))) {
      for (Path file : files.toList()) {
        Files.copy(file, corpus.resolve(file.getFileName()));
      }
    }
    StudyDefinition changing =
        StudyDefinition.ofFolder(corpus.toString(), temporary.resolve("rerun").toString())
            .groupedBy(List.of("style"));
    int all = run(changing, "local[2]").read() + 1;

    assertThat(run(changing, "local[2]").reused()).isEqualTo(all);

    List<Path> scores;
    try (var files = Files.list(corpus)) {
      scores = files.filter(f -> f.toString().endsWith(".musicxml")).sorted().toList();
    }
    Files.delete(scores.get(1));
    Files.copy(scores.get(2), corpus.resolve("aaa-new.musicxml"));
    Files.writeString(
        scores.get(3),
        Files.readString(scores.get(3)).replaceFirst("<step>.</step>", "<step>B</step>"));
    Path csv = corpus.resolve("solos.csv");
    String name = scores.get(4).getFileName().toString();
    Files.writeString(
        csv,
        Files.readString(csv)
            .replaceFirst("(?m)^(" + Pattern.quote(name) + ",)[^,]*", "$1Somebody Else"));

    StudyRunner.Outcome again = run(changing, "local[2]");
    // One is gone, one came, one has another content, one another row of metadata.
    assertThat(again.reused()).isEqualTo(all - 3);
    StudyDefinition elsewhere = changing.writtenInto(temporary.resolve("full").toString());
    assertThat(run(elsewhere, "local[2]").reused()).isZero();
    try (StudyFolder rerun = StudyFolder.finished(changing.into(), StudyFolder.configuration());
        StudyFolder full = StudyFolder.finished(elsewhere.into(), StudyFolder.configuration())) {
      assertThat(rerun.manifest()).isEqualTo(full.manifest());
      for (String table : full.manifest().tables().keySet()) {
        assertThat(rerun.source().rows(table)).as(table).isEqualTo(full.source().rows(table));
      }
    }
    assertThat(run(changing.readWith(withoutAnticipation()), "local[2]").reused()).isZero();
  }

  private static StudySettings withoutAnticipation() {
    StudySettings defaults = definition.settings();
    return new StudySettings(
        defaults.phraseRule(),
        defaults.phraseRuleSettings(),
        false,
        defaults.asPlayed(),
        defaults.part(),
        defaults.sensitivity(),
        defaults.limits());
  }

  @Test
  void otherPhraseMarksOrFurtherRulesAreReadAnew() throws IOException {
    StudyDefinition unmarked =
        StudyDefinition.ofFolder(definition.corpus(), temporary.resolve("marked-rerun").toString());
    StudyRunner.Outcome first = run(unmarked, "local[2]");
    int all = first.read() + first.rejected().size();
    List<String> files =
        manifest.inputs().stream()
            .filter(input -> input.role().equals(InputFile.CORPUS))
            .map(Manifest.Input::file)
            .filter(file -> !first.rejected().containsKey(InputFile.CORPUS + "/" + file))
            .toList();
    Path csv = temporary.resolve("rerun-marks.csv");
    String rows = String.join("", files.stream().map(file -> file + ",0\n").toList());
    Files.writeString(csv, "file,note_index\n" + rows);
    StudyDefinition marked = unmarked.markedBy(new MetadataDefinition(csv.toString(), ""));

    assertThat(run(marked, "local[2]").reused()).isZero();
    assertThat(run(marked, "local[2]").reused()).isEqualTo(all);
    Files.writeString(csv, "file,note_index\n" + rows + files.get(2) + ",5\n");
    assertThat(run(marked, "local[2]").reused()).isEqualTo(all - 1);
    StudyDefinition moved = marked.readWith(marked.settings().movedBy(List.of("silence")));
    assertThat(run(moved, "local[2]").reused()).isZero();
    StudyDefinition elsewhere = moved.writtenInto(temporary.resolve("marked-full").toString());
    run(elsewhere, "local[2]");
    try (StudyFolder rerun = StudyFolder.finished(moved.into(), StudyFolder.configuration());
        StudyFolder full = StudyFolder.finished(elsewhere.into(), StudyFolder.configuration())) {
      assertThat(rerun.source().rows("phrases", Map.of("file", files.get(2))))
          .extracting(row -> row.integer("first_note_index"))
          .containsExactly(0, 5);
      assertThat(rerun.manifest()).isEqualTo(full.manifest());
    }
  }

  private static Map<String, Manifest.Table> withoutParts(Map<String, Manifest.Table> tables) {
    Map<String, Manifest.Table> without = new TreeMap<>();
    tables.forEach(
        (name, table) ->
            without.put(name, new Manifest.Table(table.version(), table.rows(), table.digest())));
    return without;
  }

  /** Writes a manifest with other tables, and the list of files that fits it. */
  private static void rewrite(Path study, Map<String, Manifest.Table> tables) throws IOException {
    Manifest other =
        new Manifest(
            manifest.program(),
            manifest.study(),
            manifest.settings(),
            manifest.by(),
            manifest.report(),
            manifest.metadata(),
            manifest.inputs(),
            manifest.catalogueVersion(),
            tables);
    Files.writeString(study.resolve(Manifest.FILE_NAME), other.json());
    Map<String, String> files =
        new TreeMap<>(
            FileList.parse(Files.readAllBytes(study.resolve(FileList.FILE_NAME))).files());
    files.keySet().removeIf(file -> !Files.exists(study.resolve(file)));
    files.put(Manifest.FILE_NAME, other.sha256());
    Files.write(study.resolve(FileList.FILE_NAME), FileList.of(FileList.STUDY, files).bytes());
  }

  /** As a program left it that knew neither further rules nor the shifts between them. */
  @Test
  void aStudyWithoutTheTablesOfFurtherRulesIsStillCompared() throws IOException {
    Path copy = copyOfStudy("before-further-rules");
    Map<String, Manifest.Table> tables = new TreeMap<>(manifest.tables());
    for (String table : List.of("rule_statistics", "sensitivity")) {
      tables.remove(table);
      try (var parts = Files.list(copy.resolve("tables").resolve(table))) {
        for (Path part : parts.toList()) {
          Files.delete(part);
        }
      }
      Files.delete(copy.resolve("tables").resolve(table));
    }
    rewrite(copy, tables);
    System.setProperty("spark.master", "local[1]");
    try (StudySession session = StudySession.open();
        StudyFolder study = StudyFolder.finished(copy.toString(), session.configuration())) {
      StudyRunner runner = new StudyRunner(session, line -> {});
      assertThat(study.manifest().tables()).doesNotContainKeys("rule_statistics", "sensitivity");

      runner.compare(study);
      assertThat(study.source().rows("departures")).isEqualTo(folder.source().rows("departures"));
      runner.compareWith(study, definition.students());
      assertThat(study.source().rows("departures")).isEqualTo(folder.source().rows("departures"));
      runner.norms(study, List.of("style"));
      assertThat(study.source().rows("norms")).isEqualTo(folder.source().rows("norms"));
      assertThat(study.source().rows("sensitivity")).isEmpty();
    } finally {
      System.clearProperty("spark.master");
    }
  }

  private static Path copyOfStudy(String name) throws IOException {
    Path copy = temporary.resolve(name);
    try (var files = Files.walk(Path.of(folder.location()))) {
      for (Path file : files.filter(file -> !file.endsWith(StudyLock.FILE_NAME)).toList()) {
        Files.copy(file, copy.resolve(Path.of(folder.location()).relativize(file)));
      }
    }
    return copy;
  }

  @Test
  void normsAndComparisonCanBeMadeAnewFromTheTables() {
    StudyDefinition copy = definition.writtenInto(temporary.resolve("anew").toString());
    run(copy, "local[2]");
    System.setProperty("spark.master", "local[2]");
    try (StudySession session = StudySession.open();
        StudyFolder study = StudyFolder.finished(copy.into(), session.configuration())) {
      StudyRunner runner = new StudyRunner(session, line -> {});

      runner.norms(study, List.of("instrument"));
      assertThat(study.source().rows("norms", Map.of("group_by", "instrument"))).isNotEmpty();
      runner.norms(study, List.of("style"));
      runner.patterns(study);
      runner.compare(study);
      assertThat(study.manifest().tables()).isEqualTo(manifest.tables());
      assertThat(study.manifest().inputs()).isEqualTo(manifest.inputs());

      runner.compareWith(study, definition.students());
      Map<String, Manifest.Table> withoutPatterns = new TreeMap<>(manifest.tables());
      TableSchemas.ON_REQUEST.forEach(withoutPatterns::remove);
      assertThat(study.manifest().tables()).isEqualTo(withoutPatterns);

      runner.patterns(study);
      runner.norms(study, List.of("instrument"));
      assertThat(study.manifest().tables()).doesNotContainKeys("patterns", "solo_patterns");
    } finally {
      System.clearProperty("spark.master");
    }
  }

  @Test
  void normsOfAnotherVersionAreNotComparedWith() throws IOException {
    Path copy = copyOfStudy("other-version");
    Manifest.Table norms = manifest.tables().get("norms");
    Map<String, Manifest.Table> tables = new TreeMap<>(manifest.tables());
    tables.put("norms", new Manifest.Table(1, norms.rows(), norms.digest(), norms.parts()));
    rewrite(copy, tables);
    System.setProperty("spark.master", "local[1]");
    try (StudySession session = StudySession.open();
        StudyFolder study = StudyFolder.finished(copy.toString(), session.configuration())) {
      StudyRunner runner = new StudyRunner(session, line -> {});

      assertThatThrownBy(() -> runner.compare(study))
          .isInstanceOf(InputException.class)
          .hasMessageEndingWith(
              "its norms were made by another version of the program. Run 'phrase-census norms'"
                  + " on it first.");
    } finally {
      System.clearProperty("spark.master");
    }
  }

  @Test
  void anUnknownGroupIsRefusedBeforeAnythingIsWritten() {
    StudyDefinition wrong = definition.groupedBy(List.of("stlye"));

    assertThatThrownBy(() -> run(wrong, "local[1]"))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith(
            "Cannot group by 'stlye': the solos have no such column. Did you mean 'style'?");
    assertThat(folder.manifest()).isEqualTo(manifest);
  }

  @Test
  void metadataColumnsThatAreTakenGetAPrefix() {
    assertThat(MetadataColumns.inTable("notes")).isEqualTo("metadata_notes");
    assertThat(MetadataColumns.inTable("style")).isEqualTo("style");
  }

  private static String duckDbType(ColumnType type) {
    return switch (type) {
      case STRING -> "VARCHAR";
      case INTEGER -> "INTEGER";
      case LONG -> "BIGINT";
      case DOUBLE -> "DOUBLE";
      case BOOLEAN -> "BOOLEAN";
      case DATE -> "DATE";
      case STRING_ARRAY -> "VARCHAR[]";
      case INTEGER_ARRAY -> "INTEGER[]";
    };
  }

  private static String scan(String table) {
    return String.format(
        Locale.ROOT,
        "select * from read_parquet('%s/tables/%s/*.parquet')",
        folder.location(),
        table);
  }
}
