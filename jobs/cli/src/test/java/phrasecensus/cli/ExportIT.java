package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.store.StudyFolder;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.Column;
import phrasecensus.tables.FileList;
import phrasecensus.tables.FolderMarker;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** The export of the sample study, as those see it who have nothing else. */
class ExportIT {
  @TempDir private static Path shared;
  @TempDir private Path temporary;

  private static Path export;
  private static Manifest manifest;

  @BeforeAll
  static void export() throws IOException {
    export = shared.resolve("export");
    CommandRun run = export(SampleStudy.folder(), export);
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out()).isEqualTo("Export: " + export + System.lineSeparator());
    manifest = Manifest.parse("manifest.json", Files.readAllBytes(export.resolve("manifest.json")));
  }

  private static CommandRun export(Path study, Path into) {
    return CommandRun.of("export", study.toString(), "--into", into.toString());
  }

  @Test
  void everyTableOfTheStudyIsThereInBothForms() throws SQLException {
    for (Map.Entry<String, Manifest.Table> table : manifest.tables().entrySet()) {
      assertThat(query("select count(*) from " + csv(table.getKey())))
          .as(table.getKey())
          .isEqualTo(List.of(List.of(table.getValue().rows())));
      assertThat(query("select count(*) from " + parquet(table.getKey())))
          .as(table.getKey())
          .isEqualTo(List.of(List.of(table.getValue().rows())));
    }
  }

  /** DuckDB reads both: an independent reader of CSV as of Parquet. */
  @Test
  void bothFormsHoldTheSameValuesInTheSameOrder() throws SQLException {
    for (String table : manifest.tables().keySet()) {
      TableSchema schema = TableSchemas.named(table);
      List<String> fromCsv = new ArrayList<>();
      for (Column column : schema.columns()) {
        fromCsv.add(valueFromCsv(column) + " as " + column.name());
      }
      String columns = String.join(", ", schema.columns().stream().map(Column::name).toList());
      String first =
          "select row_number() over () as place, "
              + String.join(", ", fromCsv)
              + " from "
              + csv(schema.table());
      String second =
          "select row_number() over () as place, " + columns + " from " + parquet(schema.table());

      assertThat(query("select * from (" + first + " except " + second + ") limit 3"))
          .as(schema.table())
          .isEmpty();
    }
  }

  /** All cells of the sample corpus' column 'year' are whole numbers; DuckDB sees them as such. */
  @Test
  void whatTheMetadataHaveInNumbersAreNumbersInBothForms() throws IOException, SQLException {
    JsonNode description = new ObjectMapper().readTree(export.resolve("datapackage.json").toFile());
    List<String> types = new ArrayList<>();
    description
        .path("resources")
        .findValues("fields")
        .forEach(
            fields ->
                fields.forEach(
                    field -> {
                      if (field.path("name").asText().equals("year")) {
                        types.add(field.path("type").textValue());
                      }
                    }));

    assertThat(types).containsExactly("integer");
    String sniffed = "read_csv('" + export.resolve("csv/solos.csv") + "')";
    for (String form : List.of(sniffed, parquet("solos"))) {
      assertThat(
              query("select any_value(typeof(year)), max(year) from " + form + " where year > 0"))
          .as(form)
          .isEqualTo(List.of(List.of("BIGINT", 1971L)));
    }
  }

  private static String valueFromCsv(Column column) {
    String name = column.name();
    return switch (column.type()) {
      case STRING -> "case when " + name + "[1] = '''' then " + name + "[2:] else " + name + " end";
      case INTEGER -> "cast(" + name + " as integer)";
      case LONG -> "cast(" + name + " as bigint)";
      case DOUBLE -> "cast(" + name + " as double)";
      case BOOLEAN -> "cast(" + name + " as boolean)";
      case DATE -> "cast(" + name + " as date)";
      case STRING_ARRAY -> "cast(cast(" + name + " as json) as varchar[])";
      case INTEGER_ARRAY -> "cast(cast(" + name + " as json) as integer[])";
    };
  }

  /** The demands of the Data Package standard, version 2.0, that touch the files themselves. */
  @Test
  void theDescriptionForMachinesFitsTheFiles() throws IOException, SQLException {
    JsonNode description = new ObjectMapper().readTree(export.resolve("datapackage.json").toFile());

    assertThat(description.path("name").textValue()).matches("[a-z0-9._-]+");
    assertThat(description.path("licenses").get(0).path("title").textValue()).isEqualTo("CC0-1.0");
    assertThat(description.path("resources")).hasSize(2 * (manifest.tables().size() + 1));
    for (JsonNode resource : description.path("resources")) {
      Path file = export.resolve(resource.path("path").textValue());
      assertThat(resource.path("name").textValue()).matches("[a-z0-9._/-]+");
      assertThat(resource.path("bytes").longValue()).isEqualTo(Files.size(file));
      assertThat(resource.path("hash").textValue())
          .isEqualTo("sha256:" + Sha256.of(Files.readAllBytes(file)));
      if (resource.path("type").asText().equals("table")) {
        assertThatKeysHold(resource);
      }
    }
  }

  private static void assertThatKeysHold(JsonNode resource) throws IOException, SQLException {
    String table = resource.path("name").textValue();
    JsonNode schema = resource.path("schema");
    String header;
    try (Stream<String> lines = Files.lines(export.resolve(resource.path("path").textValue()))) {
      header = lines.findFirst().orElseThrow();
    }
    List<String> fields = new ArrayList<>();
    for (JsonNode field : schema.path("fields")) {
      String name = field.path("name").textValue();
      fields.add(name);
      assertThat(field.path("type").textValue())
          .isIn("string", "integer", "number", "boolean", "date", "array");
      if (List.of("integer", "number").contains(field.path("type").textValue())) {
        assertThat(field.path("unit").asText()).as(table + "." + name).isNotEmpty();
      }
      if (field.path("constraints").path("required").asBoolean()) {
        assertThat(query("select count(*) from " + csv(table) + " where \"" + name + "\" is null"))
            .as(table + "." + name)
            .isEqualTo(List.of(List.of(0L)));
      }
    }
    assertThat(header).isEqualTo(String.join(",", fields));
    String key = names(schema.path("primaryKey"));
    assertThat(query("select " + key + " from " + csv(table) + " group by all having count(*) > 1"))
        .as(table)
        .isEmpty();
    for (JsonNode foreignKey : schema.path("foreignKeys")) {
      String columns = names(foreignKey.path("fields"));
      String other = foreignKey.path("reference").path("resource").textValue();
      assertThat(
              query(
                  "select "
                      + columns
                      + " from "
                      + csv(table)
                      + " where "
                      + foreignKey.path("fields").get(0).textValue()
                      + " is not null except select "
                      + names(foreignKey.path("reference").path("fields"))
                      + " from "
                      + csv(other)))
          .as(table + " (" + columns + ") to " + other)
          .isEmpty();
    }
  }

  private static String names(JsonNode array) {
    List<String> names = new ArrayList<>();
    array.forEach(name -> names.add(name.textValue()));
    return String.join(", ", names);
  }

  @Test
  void theDictionaryExplainsEveryColumnAndEveryStatistic() throws IOException {
    String html = Files.readString(export.resolve("dictionary.html"));
    String markdown = Files.readString(export.resolve("dictionary.md"));

    for (String table : manifest.tables().keySet()) {
      TableSchema schema = TableSchemas.named(table);
      assertThat(html).contains("<h2 id=\"table-" + schema.table() + "\">");
      for (Column column : schema.columns()) {
        assertThat(html).contains("<code>" + column.name() + "</code></th>");
        assertThat(markdown).contains("| `" + column.name() + "` |");
      }
    }
    for (StatisticDefinition each : StatisticsCatalogue.builtIn().all()) {
      assertThat(html).contains("<code>" + each.key() + "</code></th><td>" + each.name());
      assertThat(markdown).contains("| `" + each.key() + "` |");
    }
    assertThat(html).contains("<code>style</code></th>").doesNotContain("<script", "http:");
  }

  @Test
  void methodsNameCorpusRuleSeedAndVersions() throws IOException {
    assertThat(Files.readString(export.resolve("METHODS.md")))
        .contains(
            "60 solos by 8 named players, read from 60 MusicXML files",
            "rule “silence” (minimum-beats 3/4",
            "2,000 resamples with the seed 4711",
            "Made with Phrase Census");
  }

  /** The required keys of the Citation File Format 1.2.0: version, message, title, authors. */
  @Test
  void theCitationHasTheRequiredKeysAndInventsNobody() throws IOException {
    assertThat(Files.readString(export.resolve("program/CITATION.cff")))
        .startsWith("cff-version: 1.2.0\n")
        .contains("\nmessage: ", "\ntitle: Phrase Census\n", "\nauthors:\n  - name: The contr")
        .doesNotContain("given-names", "family-names");
  }

  @Test
  void everythingInNotebooksExportComesAlong() {
    Map<String, String> expected =
        FolderBytes.of(Path.of(System.getProperty("project.root"), "notebooks-export"));
    Map<String, String> found = FolderBytes.of(export.resolve("notebooks"));

    assertThat(found).containsOnlyKeys(expected.keySet());
    assertThat(found)
        .allSatisfy(
            (name, digest) -> {
              if (!name.equals("queries.sql") && !name.equals("README.md")) {
                assertThat(digest).as(name).isEqualTo(expected.get(name));
              }
            });
  }

  @Test
  void theQueriesOfAnExportReadItsOwnFiles() throws IOException, SQLException {
    String text = Files.readString(export.resolve("notebooks/queries.sql"));

    assertThat(text).doesNotContain("STUDY");
    for (String query : text.replaceAll("(?m)^--.*$", "").split(";")) {
      if (!query.isBlank()) {
        query(query.replace("../parquet", export.resolve("parquet").toString()));
      }
    }
  }

  /** Five questions of the sample study, with the answers that its invented solos give. */
  @ParameterizedTest
  @CsvSource({
    "'How often do phrases end on the chord''s own third', 7, '[headland bop, 1950, 142, 0.218]'",
    "'Do first and last choruses differ?', 2, '[first, 42, 182, 2.38, 73.5]'",
    "'Where in a chorus of twelve bars do phrases start?', 12, '[1, 18]'",
    "'How often does each player reach a landing from', 8, '[Lorcan Pettibone, 290, 0.066]'",
    "'How does the density of a line go with its tempo?', 4, '[80, 3, 7.02]'",
  })
  void aQuestionIsOneQuery(String question, int rows, String first)
      throws IOException, SQLException {
    String text = Files.readString(export.resolve("notebooks/queries.sql"));
    String asked = text.substring(text.indexOf("-- " + question));

    List<List<Object>> answer =
        query(
            asked
                .substring(asked.indexOf('\n'), asked.indexOf(';'))
                .replace("../parquet", export.resolve("parquet").toString()));

    assertThat(answer).hasSize(rows);
    assertThat(answer.get(0)).hasToString(first);
  }

  /** The same thirds from the table of notes, by the interval from the root of the chord. */
  @Test
  void thirdsAtPhraseEndsAreThoseOfTheNotes() throws SQLException {
    String thirds =
        "select count(*) from "
            + parquet("landings")
            + " where role = 'corpus' and list_contains(landing_kinds, 'phrase-end')"
            + " and core_chord_tone and chord_degree in ('3', 'b3')";
    String fromNotes =
        "select count(*) from "
            + parquet("phrases")
            + " p join "
            + parquet("notes")
            + " n on n.solo_id = p.solo_id and n.note_index = p.last_note_index join "
            + parquet("chords")
            + " c on c.solo_id = n.solo_id and c.chord_index = n.chord_index where p.role ="
            + " 'corpus' and (n.midi_concert - c.root_pc + 120) % 12 in (3, 4) and"
            + " list_contains(c.core_pitch_classes, n.midi_concert % 12)";

    assertThat(query(thirds)).isEqualTo(query(fromNotes));
  }

  @Test
  void quotientsStandBesideTheirExactPairs() throws SQLException {
    assertThat(
            query(
                "select count(*), sum(onset::double * onset_den::bigint - onset_num::bigint) from "
                    + csv("notes")))
        .isEqualTo(List.of(List.of(manifest.tables().get("notes").rows(), 0.0)));
  }

  @Test
  void csvIsUtf8WithLinesEndedByCrLf() throws IOException {
    String text = Files.readString(export.resolve("csv/solos.csv"), StandardCharsets.UTF_8);

    assertThat(text).startsWith("solo_id,role,file,").endsWith("\r\n").contains("Renée Aubépin");
    assertThat(text.replace("\r\n", "")).doesNotContain("\n", "\r");
  }

  @Test
  void checksumsCoverEveryOtherFile() throws IOException {
    List<String> files;
    try (Stream<Path> paths = Files.walk(export)) {
      files =
          paths
              .filter(Files::isRegularFile)
              .map(path -> export.relativize(path).toString())
              .filter(name -> !name.equals("SHA256SUMS"))
              .sorted()
              .toList();
    }

    List<String> lines = Files.readAllLines(export.resolve("SHA256SUMS"));

    assertThat(lines).extracting(line -> line.substring(66)).isEqualTo(files);
    for (String line : lines) {
      assertThat(FolderBytes.of(export).get(line.substring(66))).isEqualTo(line.substring(0, 64));
    }
  }

  @Test
  void anotherExportReplacesItWithTheSameBytes() throws IOException {
    Path again = temporary.resolve("again");
    export(SampleStudy.folder(), again);
    CommandRun run = export(SampleStudy.folder(), again);

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(FolderBytes.of(again)).isEqualTo(FolderBytes.of(export));
    try (Stream<Path> left = Files.list(temporary)) {
      assertThat(left).containsExactly(again);
    }
  }

  @Test
  void aFolderOfSomethingElseIsNotTouched() throws IOException {
    Path other = Files.createDirectory(temporary.resolve("thesis"));
    Files.writeString(other.resolve("chapter.txt"), "Years of work");

    CommandRun run = export(SampleStudy.folder(), other);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .containsExactly(
            "Cannot export into "
                + other
                + ": the folder is not empty and holds no export of this program. Nothing was"
                + " touched; name a new or empty folder with --into.");
    assertThat(FolderBytes.of(other)).containsOnlyKeys("", "chapter.txt");
  }

  @Test
  void anExportThatSomeoneWorkedInIsNotReplaced() throws IOException {
    Path worked = temporary.resolve("worked");
    export(SampleStudy.folder(), worked);
    Files.writeString(worked.resolve("mine.ipynb"), "{}");

    CommandRun run = export(SampleStudy.folder(), worked);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .singleElement()
        .asString()
        .startsWith("Cannot export into " + worked + ": mine.ipynb was added or changed");
    assertThat(worked.resolve("mine.ipynb")).hasContent("{}");
  }

  @Test
  void whatTheReportKeepsOutIsSaidToBeInTheExport() throws IOException {
    Path study = copyOfStudy();
    Path written = study.resolve(Manifest.FILE_NAME);
    Files.writeString(
        written,
        Files.readString(written)
            .replace("\"excerpts\" : true", "\"excerpts\" : false")
            .replace("\"pseudonyms\" : false", "\"pseudonyms\" : true"));
    ListedFiles.write(study);

    CommandRun run = export(study, temporary.resolve("export"));

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.complaints())
        .containsExactly(
            "The export has the students' names and the paths of their files as they are:"
                + " pseudonyms are for the report alone. Mind whom you give it to.",
            "The export has every note of the solos: leaving notation out is for the report alone."
                + " Mind whom you give it to.");
  }

  @Test
  void aStudyWhoseTableWasChangedIsNotExported() throws IOException {
    Path study = copyOfStudy();
    Files.delete(study.resolve("tables/chords/corpus-00000.parquet"));

    CommandRun run = export(study, temporary.resolve("export"));

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .containsExactly(notAsWritten(study, "tables/chords/corpus-00000.parquet is"));
    assertThat(temporary.resolve("export")).doesNotExist();
  }

  /** An export of a study in which something happens when the line of progress has come. */
  private static CommandRun exportWhile(Path study, Path into, String line, Runnable happens) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    PrintWriter watched =
        new PrintWriter(err, true) {
          @Override
          public void println(String text) {
            super.println(text);
            if (text.equals(line)) {
              happens.run();
            }
          }
        };
    int exitCode =
        Main.run(
            new PrintWriter(out, true),
            watched,
            "export",
            study.toString(),
            "--into",
            into.toString());
    return new CommandRun(exitCode, out.toString(), err.toString());
  }

  /** As another run leaves it: manifest and list are others, and fit. */
  private static void finishAnotherStudy(Path study) {
    try {
      Path manifest = study.resolve(Manifest.FILE_NAME);
      Files.writeString(
          manifest, Files.readString(manifest).replace("\"title\" : \"", "\"title\" : \"Other "));
      ListedFiles.write(study);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void aStudyThatChangesWhileItIsExportedIsNotExported() throws IOException {
    Path study = copyOfStudy();
    Path into = temporary.resolve("export");
    assertThat(export(study, into).exitCode()).isEqualTo(ExitCode.DONE);
    String earlier = Files.readString(into.resolve("SHA256SUMS"));

    CommandRun run =
        exportWhile(study, into, "Writing table solos", () -> finishAnotherStudy(study));

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .containsExactly(
            "Cannot use the study in "
                + study
                + ": it was changed while it was being read. Run the same command again.");
    assertThat(into.resolve("SHA256SUMS")).hasContent(earlier);
    try (Stream<Path> left = Files.list(temporary)) {
      assertThat(left).containsExactlyInAnyOrder(study, into);
    }
  }

  @Test
  void aTableThatIsGoneBecauseTheStudyChangedIsToldAsAChange() throws IOException {
    Path study = copyOfStudy();

    CommandRun run =
        exportWhile(
            study,
            temporary.resolve("export"),
            "Writing table files",
            () -> {
              study.resolve("tables/files/corpus-00000.parquet").toFile().delete();
              finishAnotherStudy(study);
            });

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints()).singleElement().asString().contains("while it was being read");
  }

  private static String notAsWritten(Path study, String what) {
    return "Cannot use the study in "
        + study
        + ": "
        + what
        + " not as written, but gone, damaged or changed. Run 'phrase-census study' into it again,"
        + " which reads anew what is damaged.";
  }

  /** Writes one file of a table anew, empty, with a schema that was changed. */
  private static void rewrite(Path study, String table, String from, String to) throws IOException {
    String json =
        Files.readString(Path.of(System.getProperty("project.root"), "schemas", table + ".json"));
    assertThat(json).contains(from);
    try (Stream<Path> files = Files.list(study.resolve("tables/" + table))) {
      for (Path file : files.toList()) {
        TableFile.create(
                new org.apache.hadoop.fs.Path(file.toUri()),
                TableSchema.parse(json.replace(from, to)),
                StudyFolder.configuration())
            .close();
      }
    }
    ListedFiles.write(study);
  }

  private static void assertRefused(CommandRun run, String said) {
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.INPUT);
    assertThat(run.out()).isEmpty();
    assertThat(run.complaints()).containsExactly(said);
  }

  @Test
  void aTableOfAnotherSchemaVersionIsRefusedByEveryStepThatReadsIt() throws IOException {
    Path study = copyOfStudy();
    rewrite(
        study, "norms", "\"version\": " + TableSchemas.named("norms").version(), "\"version\": 99");
    String said =
        "Cannot use table norms in "
            + study
            + "/tables: it was written with schema version 99, this program has version "
            + TableSchemas.named("norms").version()
            + ". Run the study again.";

    assertRefused(export(study, temporary.resolve("export")), said);
    CommandRun report = CommandRun.of("report", study.toString());
    assertThat(report.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(report.complaints()).containsExactly(said);
  }

  /** Every command that reads a study, each with what it needs besides. */
  private static List<String[]> readingCommands(Path study, Path into) {
    return List.of(
        new String[] {"export", study.toString(), "--into", into.toString()},
        new String[] {"report", study.toString()},
        new String[] {"norms", study.toString()},
        new String[] {"patterns", study.toString()},
        new String[] {
          "compare", study.toString(), "--students", SampleCorpus.FOLDER + "/students"
        });
  }

  private void assertRefusedByEveryCommand(Path study, String said) {
    for (String[] command : readingCommands(study, temporary.resolve("export"))) {
      CommandRun run = CommandRun.of(command);

      assertThat(run.exitCode()).as(command[0] + ": " + run.err()).isEqualTo(ExitCode.INPUT);
      assertThat(run.complaints()).as(command[0]).containsExactly(said);
    }
    assertThat(temporary.resolve("export")).doesNotExist();
  }

  @Test
  void aDamagedTableFileIsNamedByEveryCommand() throws IOException {
    Path study = copyOfStudy();
    Path file = study.resolve("tables/phrases/corpus-00000.parquet");
    Files.write(file, java.util.Arrays.copyOf(Files.readAllBytes(file), 1000));

    assertRefusedByEveryCommand(
        study, notAsWritten(study, "tables/phrases/corpus-00000.parquet is"));
  }

  @Test
  void aMissingTableIsNamedByEveryCommand() throws IOException {
    Path study = copyOfStudy();
    long parts;
    try (Stream<Path> files = Files.list(study.resolve("tables/landings"))) {
      parts = files.count();
    }
    FolderBytes.delete(study.resolve("tables/landings"));

    assertRefusedByEveryCommand(
        study,
        notAsWritten(
            study,
            "tables/landings/corpus-00000.parquet and " + (parts - 1) + " more of its files are"));
  }

  @Test
  void aTableOfReadingOfAnotherVersionIsRefusedByEveryCommand() throws IOException {
    Path study = copyOfStudy();
    int version = TableSchemas.named("landings").version();
    rewrite(study, "landings", "\"version\": " + version, "\"version\": " + (version - 1));

    assertRefusedByEveryCommand(
        study,
        "Cannot use table landings in "
            + study
            + "/tables: it was written with schema version "
            + (version - 1)
            + ", this program has version "
            + version
            + ". Run the study again.");
  }

  @Test
  void aDamagedManifestIsToldFromAFolderOfSomethingElse() throws IOException {
    Path study = copyOfStudy();
    Path written = study.resolve(Manifest.FILE_NAME);
    Files.writeString(written, Files.readString(written).substring(0, 300));

    assertRefusedByEveryCommand(study, notAsWritten(study, "manifest.json is"));
  }

  @Test
  void statisticsOfAnotherCatalogueAreNotExplainedByThisOne() throws IOException {
    Path study = copyOfStudy();
    Path written = study.resolve(Manifest.FILE_NAME);
    int version = StatisticsCatalogue.builtIn().version();
    Files.writeString(
        written,
        Files.readString(written)
            .replace("\"catalogueVersion\" : " + version, "\"catalogueVersion\" : 99"));
    ListedFiles.write(study);

    assertRefused(
        export(study, temporary.resolve("export")),
        "Cannot use the study in "
            + study
            + ": its statistics are of version 99 of the catalogue, this program"
            + " has version "
            + version
            + ". Run the study again.");
  }

  @Test
  void aTableThatThisProgramDoesNotKnowIsNotLeftOutInSilence() throws IOException {
    Path study = copyOfStudy();
    Path written = study.resolve(Manifest.FILE_NAME);
    Files.writeString(
        written, Files.readString(written).replace("\"trends\" : {", "\"tendencies\" : {"));
    ListedFiles.write(study);

    assertRefused(
        export(study, temporary.resolve("export")),
        "Cannot use the study in "
            + study
            + ": this program knows no table tendencies, so another version wrote it. Run the study"
            + " again.");
  }

  @Test
  void aStudyWithoutMarkerManifestAndListIsNone() throws IOException {
    Path study = copyOfStudy();
    for (String file : List.of(Manifest.FILE_NAME, FileList.FILE_NAME, FolderMarker.FILE_NAME)) {
      Files.delete(study.resolve(file));
    }

    assertRefused(
        export(study, temporary.resolve("export")),
        "Cannot find a study in "
            + study
            + ". Make one first: 'phrase-census study CORPUS --into "
            + study
            + "'.");
  }

  @Test
  void aStudyWhoseFirstRunWasBrokenOffIsRefused() throws IOException {
    Path study = temporary.resolve("half");
    Files.createDirectories(study);
    Files.write(
        study.resolve(FolderMarker.FILE_NAME), FolderMarker.of(FolderMarker.Kind.STUDY).bytes());

    assertRefused(
        export(study, temporary.resolve("export")),
        "Cannot use the study in "
            + study
            + ": its first run was broken off before any table was finished. Run it again.");
  }

  /** The way back from a printed number, as notebooks-export/README.md describes it. */
  @Test
  void aPrintedMedianLeadsBackToTheChecksumsOfItsScores() throws IOException, SQLException {
    List<Object> norm =
        query(
                "select p50, n from "
                    + parquet("norms")
                    + " where group_by = 'all' and statistic = 'phrase_length_bars'")
            .get(0);
    List<List<Object>> behind =
        query(
            "select v.value, v.n, c.name, c.formula, f.role, f.file, f.sha256 from "
                + parquet("solo_statistics")
                + " v join "
                + parquet("statistics")
                + " c on c.key = v.statistic join "
                + parquet("files")
                + " f using (solo_id) where v.statistic = 'phrase_length_bars'"
                + " and v.role = 'corpus' and v.value is not null order by v.value");

    // Table and key: as many solos as n says, and their median is the printed one.
    assertThat(((Number) norm.get(1)).intValue()).isEqualTo(behind.size()).isEven();
    double median =
        ((Double) behind.get(behind.size() / 2 - 1).get(0)
                + (Double) behind.get(behind.size() / 2).get(0))
            / 2;
    assertThat((Double) norm.get(0)).isEqualTo(median);
    // Catalogue entry, in the version that the manifest names.
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn().named("phrase_length_bars").orElseThrow();
    assertThat(manifest.catalogueVersion()).isEqualTo(StatisticsCatalogue.builtIn().version());
    assertThat(behind)
        .allSatisfy(
            row ->
                assertThat(row.subList(2, 4))
                    .isEqualTo(List.of(definition.name(), definition.formula())));
    // Settings, and the checksum of every score behind the number: that of the file on disk.
    assertThat(manifest.settings()).containsEntry("phrase-rule", "silence");
    for (List<Object> row : behind) {
      Path score = SampleCorpus.FOLDER.resolve("corpus").resolve((String) row.get(5));
      assertThat(Sha256.of(Files.readAllBytes(score))).isEqualTo(row.get(6));
      assertThat(manifest.inputs())
          .contains(
              new Manifest.Input((String) row.get(4), (String) row.get(5), (String) row.get(6)));
    }
  }

  private Path copyOfStudy() throws IOException {
    Path copy = temporary.resolve("study");
    try (Stream<Path> paths = Files.walk(SampleStudy.folder())) {
      for (Path path : paths.sorted().toList()) {
        String name = SampleStudy.folder().relativize(path).toString();
        if (!name.startsWith("report") && !name.equals(ListedFiles.LOCK)) {
          Files.copy(path, copy.resolve(name));
        }
      }
    }
    return copy;
  }

  private static String csv(String table) {
    return "read_csv('"
        + export.resolve("csv/" + table + ".csv")
        + "', header = true, all_varchar = true, nullstr = '', allow_quoted_nulls = false,"
        + " delim = ',', quote = '\"', escape = '\"')";
  }

  private static String parquet(String table) {
    return "read_parquet('" + export.resolve("parquet/" + table + ".parquet") + "')";
  }

  private static List<List<Object>> query(String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery(sql)) {
      List<List<Object>> rows = new ArrayList<>();
      while (result.next()) {
        List<Object> row = new ArrayList<>();
        for (int i = 1; i <= result.getMetaData().getColumnCount(); i++) {
          row.add(result.getObject(i));
        }
        rows.add(row);
      }
      return rows;
    }
  }
}
