package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The sample study with patterns, made once; places are counted again by SQL over the notes. */
class FiguresIT {
  /**
   * Bar 25 of barnacle-arithmetic-aubepin-headland.musicxml, read in the score, starts C♯ D C♯ B A.
   */
  private static final String KNOWN = "+1 -1 -2 -2";

  private static final String KNOWN_SOLO = "corpus/barnacle-arithmetic-aubepin-headland.musicxml";

  @TempDir private static Path temporary;
  private static Path study;

  @BeforeAll
  static void makeTheStudy() {
    study = temporary.resolve("study");
    CommandRun run =
        CommandRun.of(
            "study", SampleCorpus.STUDY_FILE.toString(), "--patterns", "--into", study.toString());
    assertThat(run.exitCode()).as(run.toString()).isEqualTo(ExitCode.DONE);
  }

  private static String table(String name) {
    return "read_parquet('" + study + "/tables/" + name + "/*.parquet')";
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

  /** First notes of every place of a pattern, as SQL finds them: solo and note. */
  private static List<List<Object>> places(String pattern, String solos) throws SQLException {
    String[] intervals = pattern.split(" ");
    StringBuilder windows = new StringBuilder("select solo_id, note_index");
    for (int i = 0; i < intervals.length; i++) {
      windows
          .append(", lead(midi_concert, ")
          .append(i + 1)
          .append(") over line - lead(midi_concert, ")
          .append(i)
          .append(") over line as i")
          .append(i);
    }
    windows
        .append(" from ")
        .append(table("notes"))
        .append(" where ")
        .append(solos)
        .append(" window line as (partition by solo_id, phrase_index order by note_index)");
    StringBuilder sql =
        new StringBuilder("select solo_id, note_index from (" + windows + ") where true");
    for (int i = 0; i < intervals.length; i++) {
      sql.append(" and i").append(i).append(" = ").append(Integer.parseInt(intervals[i]));
    }
    return query(sql + " order by 1, 2");
  }

  @Test
  void aFigureKnownFromTheScoreIsOnThePagesWithItsCounts() throws Exception {
    List<List<Object>> places = places(KNOWN, "role = 'corpus'");
    long solos = places.stream().map(row -> row.get(0)).distinct().count();
    String page = Files.readString(study.resolve("report/figures.html"));

    assertThat(places).anyMatch(row -> row.get(0).equals(KNOWN_SOLO));
    assertThat(page)
        .contains("5\u00a0notes: " + KNOWN.replace('-', '\u2212') + " semitones")
        .contains("Barnacle Arithmetic by Renée Aubépin, bar 25")
        .contains(
            "In "
                + solos
                + "\u00a0corpus solos by 7\u00a0named players, at "
                + places.size()
                + "\u00a0places.");
    assertThat(Files.readString(study.resolve("report/index.html")))
        .contains("href=\"figures.html#figure-1\"");
  }

  @Test
  void everyPlaceOfEveryFigureIsWhatSqlFindsInTheNotes() throws Exception {
    for (List<Object> figure :
        query("select owner, student, place, pattern from " + table("figures") + " order by all")) {
      String student = ((String) figure.get(1)).replace("'", "''");
      String solos =
          figure.get(0).equals("corpus")
              ? "role = 'corpus'"
              : "(role = 'corpus' or solo_id in (select solo_id from "
                  + table("solos")
                  + " where student = '"
                  + student
                  + "'))";
      List<List<Object>> listed =
          query(
              "select solo_id, note_index from "
                  + table("figure_places")
                  + " where owner = '"
                  + figure.get(0)
                  + "' and student = '"
                  + student
                  + "' and place = "
                  + figure.get(2)
                  + " order by 1, 2");

      assertThat(listed).as("%s", figure).isEqualTo(places((String) figure.get(3), solos));
    }
  }

  @Test
  void countsOfFiguresAreThoseOfTheirPlaces() throws Exception {
    String places =
        "select owner, student, place, count(distinct solo_id) filter (role = 'corpus')"
            + " corpus_solos, count(*) filter (role = 'corpus') corpus_windows, count(distinct"
            + " solo_id) filter (role = 'student') student_solos, count(*) filter (role ="
            + " 'student') student_windows from "
            + table("figure_places")
            + " group by all order by all";

    assertThat(
            query(
                "select owner, student, place, corpus_solos, corpus_windows,"
                    + " coalesce(student_solos, 0), coalesce(student_windows, 0) from "
                    + table("figures")
                    + " order by all"))
        .usingElementComparator(Comparator.comparing(List::toString))
        .isEqualTo(query(places))
        .hasSizeGreaterThan(10);
  }

  @Test
  void theStudyRemembersThatItWasAskedForPatterns() throws IOException {
    JsonNode manifest = new ObjectMapper().readTree(study.resolve("manifest.json").toFile());

    assertThat(manifest.path("settings").path("patterns").asText()).isEqualTo("true");
    assertThat(manifest.path("tables").has("figure_places")).isTrue();
  }

  @Test
  void aStudentsPageShowsOwnFigures() throws IOException {
    assertThat(Files.readString(study.resolve("report/student-jory-venn.html")))
        .contains("Your figures, and who else plays them")
        .contains("You play it at 16\u00a0places in 5\u00a0solos.");
  }
}
