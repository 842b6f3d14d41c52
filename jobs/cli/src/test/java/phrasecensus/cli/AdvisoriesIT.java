package phrasecensus.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Holds the libraries that ship against {@code advisories.csv}: whoever adds or changes one has to
 * look for published faults anew. Needs the packaged jar; asks nobody.
 */
class AdvisoriesIT {
  private static final Path TARGET =
      Path.of(System.getProperty("project.root"), "jobs", "cli", "target");
  private static final Pattern LICENSED =
      Pattern.compile(" \\(([^\\s:()]+:[^\\s:()]+:[^\\s:()]+) - [^()]*\\)$");

  private static final List<String> OURS =
      List.of(
          "comparison",
          "grammar",
          "music",
          "readers",
          "report",
          "rows",
          "spark",
          "store",
          "tables");

  private final List<Advisory> table = read();

  private static List<Advisory> read() {
    try (InputStream file = AdvisoriesIT.class.getResourceAsStream("/advisories.csv")) {
      return Advisory.table(new InputStreamReader(file, UTF_8));
    } catch (IOException e) {
      throw new AssertionError("Cannot read advisories.csv: " + e.getMessage(), e);
    }
  }

  /** What ships, as the list of licences in the jar says it. */
  private static TreeSet<String> shipped() throws IOException {
    TreeSet<String> shipped = new TreeSet<>();
    for (String line :
        Files.readAllLines(TARGET.resolve("classes/META-INF/third-party-licences.txt"))) {
      Matcher licensed = LICENSED.matcher(line);
      if (licensed.find()) {
        shipped.add(licensed.group(1));
      }
    }
    return shipped;
  }

  private TreeSet<String> lookedUp() {
    TreeSet<String> lookedUp = new TreeSet<>();
    table.forEach(row -> lookedUp.add(row.coordinates()));
    return lookedUp;
  }

  @Test
  void everyJarThatShipsHasALicenceThatIsListed() throws IOException {
    TreeSet<String> files = new TreeSet<>();
    for (String coordinates : shipped()) {
      String[] parts = coordinates.split(":");
      files.add(parts[1] + "-" + parts[2] + ".jar");
    }

    try (Stream<Path> jars = Files.list(TARGET.resolve("lib"))) {
      assertThat(
              jars.map(jar -> jar.getFileName().toString())
                  .filter(jar -> !OURS.contains(jar.replaceFirst("-[0-9].*", ""))))
          .isNotEmpty()
          .allSatisfy(jar -> assertThat(files).contains(jar));
    }
  }

  @Test
  void everyLibraryThatShipsWasLookedUpAtItsVersion() throws IOException {
    TreeSet<String> missing = shipped();
    assertThat(missing).isNotEmpty();
    missing.removeAll(lookedUp());

    assertThat(missing)
        .as("look for published faults of these, then write what was found into advisories.csv")
        .isEmpty();
  }

  @Test
  void nothingIsListedThatDoesNotShip() throws IOException {
    assertThat(lookedUp()).hasSameSizeAs(table);
    assertThat(shipped()).containsAll(lookedUp());
  }

  @Test
  void noCriticalFaultTouchesUsWithoutAReason() {
    assertThat(table).noneMatch(Advisory::unexplained);
  }

  @Test
  void everyRowSaysWhatWasFoundWhereAndWhen() {
    assertThat(table)
        .allSatisfy(
            row -> {
              assertThat(row.source()).isNotBlank();
              assertThat(LocalDate.parse(row.looked())).isAfter(LocalDate.of(2026, 11, 24));
              switch (row.verdict()) {
                case "none found" -> assertThat(row.advisories()).isEmpty();
                case "not affected" -> assertThat(row.advisories()).isNotEmpty();
                case "affected" -> {
                  assertThat(row.advisories()).isNotEmpty();
                  assertThat(row.severity()).isIn("low", "moderate", "high", "critical");
                  assertThat(row.reason()).isNotBlank();
                }
                default -> throw new AssertionError("Invalid verdict: " + row.verdict());
              }
              assertThat(row.severity().isEmpty()).isEqualTo(!row.affected());
            });
  }

  @Test
  void aCriticalFaultIsCaughtUntilSomebodySaysWhyItShips() throws IOException {
    String text =
        """
        # a remark
        artefact,version,advisories,verdict,severity,reason,source,looked
        g:a,1,CVE-1 CVE-2,affected,critical,,somewhere,2026-11-25
        g:b,1,CVE-1,affected,critical,"never called, see there",somewhere,2026-11-25
        g:c,1,CVE-1,affected,high,,somewhere,2026-11-25
        g:d,1,CVE-1,not affected,,,somewhere,2026-11-25
        """;

    List<Advisory> rows = Advisory.table(new StringReader(text));

    assertThat(rows)
        .filteredOn(Advisory::unexplained)
        .extracting(Advisory::artefact)
        .containsExactly("g:a");
    assertThat(rows.get(0).advisories()).containsExactly("CVE-1", "CVE-2");
    assertThat(rows.get(1).coordinates()).isEqualTo("g:b:1");
  }
}
