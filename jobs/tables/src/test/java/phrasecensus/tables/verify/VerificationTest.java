package phrasecensus.tables.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.TableSource;

class VerificationTest {
  private static final Manifest MANIFEST =
      new Manifest(
          "Phrase Census 0.1.0",
          new Manifest.Study("x", "X", "", DataSource.NOT_STATED),
          Map.of(),
          List.of(),
          new Manifest.Report(true, false),
          List.of(
              new Manifest.MetadataFile(
                  "corpus",
                  "solos.csv",
                  "33",
                  Map.of(),
                  Map.of(),
                  List.of(),
                  List.of(),
                  List.of(),
                  List.of())),
          List.of(
              new Manifest.Input("corpus", "a.xml", "11"),
              new Manifest.Input("corpus", "b.xml", null)),
          1,
          Map.of("norms", new Manifest.Table(2, 1, "abcd")));

  /** No solos, and one norm whose median is 4. */
  private static final TableSource TABLES =
      new TableSource() {
        @Override
        public List<TableRow> rows(String table, Map<String, String> equal) {
          if (!table.equals("norms") || !equal.getOrDefault("statistic", "").equals("npvi")) {
            return List.of();
          }
          return List.of(
              TableRow.of(TableSchemas.named("norms"))
                  .set("group_by", "all")
                  .set("group_value", "all")
                  .set("statistic", "npvi")
                  .set("n", 12)
                  .set("undefined", 0)
                  .set("players", 3)
                  .set("shown", "quartiles")
                  .set("p50", 4.0)
                  .build());
        }

        @Override
        public List<TableRow> rows(String table, String column, Set<String> texts) {
          throw new UnsupportedOperationException("not asked for");
        }
      };

  private static ExpectedResults.Result median(String statistic, Double value, double tolerance) {
    return new ExpectedResults.Result(
        "norms", Map.of("statistic", statistic), "p50", value, tolerance);
  }

  private static Verification.Check check(ExpectedResults expected) {
    List<Verification.Check> checks = Verification.of(expected, MANIFEST, TABLES).checks();
    assertThat(checks).hasSize(1);
    return checks.get(0);
  }

  private static Verification.Check check(ExpectedResults.Result result) {
    return check(new ExpectedResults(Map.of(), Map.of(), List.of(result), Map.of()));
  }

  @ParameterizedTest(name = "{0} within {1}: {2}")
  @CsvSource({"4, 0, true", "4.05, 0.1, true", "3.9, 0.1, true", "3.89, 0.1, false"})
  void aResultHoldsWithinItsTolerance(double expected, double tolerance, boolean holds) {
    assertThat(check(median("npvi", expected, tolerance)).holds()).isEqualTo(holds);
  }

  @Test
  void aResultShowsExpectedActualDifferenceAndTolerance() {
    assertThat(check(median("npvi", 3.75, 0.1)))
        .isEqualTo(new Verification.Check("norms.p50 of npvi", "3.75", "4", "0.25", "0.1", false));
  }

  @Test
  void aRowThatIsNotThereIsMissing() {
    assertThat(check(median("notes_per_bar", 4.0, 100)).holds()).isFalse();
    assertThat(check(median("notes_per_bar", 4.0, 100)).actual()).isEqualTo("missing");
    assertThat(check(median("notes_per_bar", null, 0)).holds()).isTrue();
  }

  @Test
  void countsAndDigestsMustBeMetExactly() {
    assertThat(check(new ExpectedResults(Map.of("files", 2L), Map.of(), List.of(), Map.of())))
        .isEqualTo(new Verification.Check("count of files", "2", "2", "0", "0", true));
    assertThat(check(new ExpectedResults(Map.of("files", 3L), Map.of(), List.of(), Map.of())))
        .isEqualTo(new Verification.Check("count of files", "3", "2", "-1", "0", false));
    assertThat(
            check(new ExpectedResults(Map.of(), Map.of("norms", "abcd"), List.of(), Map.of()))
                .holds())
        .isTrue();
    assertThat(
            check(new ExpectedResults(Map.of(), Map.of("norms", "abce"), List.of(), Map.of()))
                .holds())
        .isFalse();
  }

  @Test
  void everyInputThatDiffersIsNamed() {
    ExpectedResults expected =
        new ExpectedResults(
            Map.of(),
            Map.of(),
            List.of(),
            Map.of(
                "corpus/a.xml", "12", "corpus/c.xml", "44", "metadata of corpus/solos.csv", "33"));

    Verification verification = Verification.of(expected, MANIFEST, TABLES);

    assertThat(verification.checks())
        .extracting(Verification.Check::what)
        .containsExactlyInAnyOrder(
            "inputs with the same bytes",
            "input corpus/a.xml",
            "input corpus/b.xml",
            "input corpus/c.xml");
    assertThat(verification.misses()).isEqualTo(4);
    assertThat(verification.lines().get(1)).startsWith("MISS  inputs with the same bytes");
  }
}
