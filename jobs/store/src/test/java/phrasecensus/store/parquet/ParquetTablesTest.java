package phrasecensus.store.parquet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.tables.InputException;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

class ParquetTablesTest {
  private static final Configuration CONFIGURATION = new Configuration();

  @TempDir static java.nio.file.Path folder;
  private static ParquetTables tables;

  @BeforeAll
  static void writeThreeParts() throws IOException {
    write("corpus-00000", "corpus", "a.xml", "b.xml");
    write("corpus-00001", "corpus", "c.xml");
    write("student-00000", "student", "d.xml");
    tables = new ParquetTables(new Path(folder.toUri()), CONFIGURATION);
  }

  /** Three problems a file, those of each written from the last to the first. */
  private static void write(String part, String role, String... files) throws IOException {
    Files.createDirectories(folder.resolve("problems"));
    Path path = new Path(folder.resolve("problems/" + part + ".parquet").toUri());
    try (TableFile into = TableFile.create(path, TableSchemas.named("problems"), CONFIGURATION)) {
      for (String file : files) {
        for (int i = 2; i >= 0; i--) {
          into.write(
              TableRow.of(TableSchemas.named("problems"))
                  .set("role", role)
                  .set("file", file)
                  .set("solo_id", role + "/" + file)
                  .set("problem_index", i)
                  .set("part", "P1")
                  .set("bar", "1")
                  .set("code", "code " + i)
                  .set("severity", 1)
                  .set("found", "found")
                  .set("done", "done")
                  .build());
        }
      }
    }
  }

  private static List<String> streamed(List<String> columns, Map<String, Set<String>> among) {
    try (Stream<TableRow> rows = tables.stream("problems", columns, among)) {
      return rows.map(row -> row.text("file") + " " + row.integer("problem_index")).toList();
    }
  }

  @Test
  void aStreamHasEveryRowInTheOrderOfTheInputs() {
    assertThat(streamed(List.of("file", "problem_index"), Map.of()))
        .containsExactly(
            "a.xml 2", "a.xml 1", "a.xml 0", "b.xml 2", "b.xml 1", "b.xml 0", "c.xml 2", "c.xml 1",
            "c.xml 0", "d.xml 2", "d.xml 1", "d.xml 0");
  }

  @Test
  void aStreamHasOnlyRowsWithTheTextsAskedFor() {
    assertThat(
            streamed(
                List.of("file", "problem_index"),
                Map.of("role", Set.of("corpus"), "code", Set.of("code 0", "code 2"))))
        .containsExactly("a.xml 2", "a.xml 0", "b.xml 2", "b.xml 0", "c.xml 2", "c.xml 0");
    assertThat(streamed(List.of("problem_index"), Map.of("file", Set.of("c.xml"))))
        .containsExactly("c.xml 2", "c.xml 1", "c.xml 0");
    assertThat(streamed(List.of("file", "problem_index"), Map.of("code", Set.of()))).isEmpty();
  }

  @Test
  void aStreamReadsNoColumnThatIsNotAskedFor() {
    try (Stream<TableRow> rows = tables.stream("problems", List.of("file"), Map.of())) {
      TableRow first = rows.iterator().next();
      assertThat(first.schema().columns()).hasSize(1);
      assertThatThrownBy(() -> first.text("found"))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("found is not in table problems");
    }
  }

  @Test
  void theFirstRowsAreThoseOfTheKey() {
    assertThat(tables.first("problems", 4))
        .extracting(row -> row.text("file") + " " + row.integer("problem_index"))
        .containsExactly("a.xml 0", "a.xml 1", "a.xml 2", "b.xml 0");
    assertThat(tables.first("problems", 100)).isEqualTo(tables.rows("problems")).hasSize(12);
    assertThat(tables.first("problems", 0)).isEmpty();
  }

  @Test
  void aDamagedFileIsNamedWhenItsRowsAreTaken(@TempDir java.nio.file.Path other)
      throws IOException {
    Files.createDirectories(other.resolve("problems"));
    for (String part : List.of("corpus-00000", "corpus-00001")) {
      Files.copy(
          folder.resolve("problems/" + part + ".parquet"),
          other.resolve("problems/" + part + ".parquet"));
    }
    Files.writeString(other.resolve("problems/corpus-00001.parquet"), "no Parquet file");
    ParquetTables damaged = new ParquetTables(new Path(other.toUri()), CONFIGURATION);
    assertThatThrownBy(() -> damaged.stream("problems", List.of("file"), Map.of()).count())
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot read table problems in " + other);
  }
}
