package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Twelve things a teacher would ask for, written down before the command was, each found again in
 * the tables by DuckDB: lengths from {@code phrases}, last notes and ranges from {@code notes},
 * harmony from the chord symbols of {@code contexts} and the notes over them.
 */
class PhrasesIT {
  private static Path study;

  @TempDir private Path temporary;

  @BeforeAll
  static void makeAStudy() {
    study = SampleStudy.folder();
  }

  private static CommandRun phrases(String conditions, String... options) {
    List<String> all = new ArrayList<>(List.of("phrases", study.toString()));
    for (String condition : conditions.split(";")) {
      all.addAll(List.of("--where", condition.strip()));
    }
    all.addAll(List.of(options));
    return CommandRun.of(all.toArray(String[]::new));
  }

  private static String table(String name) {
    return "(select * from read_parquet('"
        + study.resolve("tables").resolve(name)
        + "/*.parquet') where role = 'corpus')";
  }

  /** Phrases, each with what conditions can ask, as solo and number. */
  private static List<String> bySql(String where) throws SQLException {
    String sql =
        "with line as (select solo_id, phrase_index, min(midi_concert) as lowest,"
            + " max(midi_concert) as highest, arg_max(chord_degree, note_index) as last_degree,"
            + " arg_max(coalesce(chord_index, -1), note_index) as last_chord,"
            + " arg_max(onset_num / onset_den, note_index) as last_onset"
            + " from "
            + table("notes")
            + " group by all),"
            + " chord as (select solo_id, context_index, kind, mode, end_num / end_den as ends,"
            + " unnest(chord_indexes) as chord_index, unnest(chord_places) as place,"
            + " len(list_distinct(chord_places)) as places from "
            + table("contexts")
            + "),"
            + " passed as (select n.solo_id, n.phrase_index, c.kind, c.mode from "
            + table("notes")
            + " n join chord c using (solo_id, chord_index)"
            + " where n.onset_num / n.onset_den < c.ends"
            + " group by n.solo_id, n.phrase_index, c.context_index, c.kind, c.mode, c.places"
            + " having count(distinct c.place) = c.places),"
            + " inside as (select p.solo_id, p.phrase_index, c.kind, c.mode from "
            + table("phrases")
            + " p join "
            + table("contexts")
            + " c using (solo_id)"
            + " where len(c.chord_indexes) = 0"
            + " and least(p.end_num / p.end_den, c.end_num / c.end_den)"
            + " - greatest(p.onset_num / p.onset_den, c.onset_num / c.onset_den)"
            + " >= 0.5 * (p.end_num / p.end_den - p.onset_num / p.onset_den)),"
            + " value as (pivot "
            + table("phrase_statistics")
            + " on statistic in ('phrase_starts_with_pickup', 'value_share_eighth',"
            + " 'phrase_range', 'phrase_ends_on_third', 'notes_per_beat')"
            + " using max(value) group by solo_id, phrase_index)"
            + " select p.solo_id || ',' || p.phrase_index from "
            + table("phrases")
            + " p"
            + " join line l using (solo_id, phrase_index)"
            + " join value v using (solo_id, phrase_index)"
            + " join "
            + table("solos")
            + " s using (solo_id) where "
            + where
            + " order by all";
    List<String> rows = new ArrayList<>();
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery(sql)) {
      while (result.next()) {
        rows.add(result.getString(1));
      }
    }
    return rows;
  }

  /** The condition on harmony in SQL. */
  private static String sql(String where) {
    return where
        .replaceAll(
            "OVER\\(([^,]+), (\\w+)\\)",
            "(p.solo_id, p.phrase_index) in (select (solo_id, phrase_index) from passed where kind"
                + " = '$1' and mode = '$2')")
        .replaceAll(
            "IN\\(([^,]+), (\\w+)\\)",
            "(p.solo_id, p.phrase_index) in (select (solo_id, phrase_index) from inside where kind"
                + " = '$1' and mode = '$2')")
        .replaceAll(
            "ENDS\\(([^,]+), (\\w+), (\\w+)\\)",
            "(p.solo_id, l.last_chord) in (select (solo_id, chord_index) from chord where kind ="
                + " '$1' and mode = '$2' and place = '$3' and l.last_onset < ends)")
        // An octave, written pitch and range: trumpet in B flat 54 to 84, tenor 58 to 89.
        .replaceAll(
            "FITS\\((-?\\d+), (\\d+), (\\d+)\\)",
            "len(list_filter([-36, -24, -12, 0, 12, 24, 36], k -> l.lowest + $1 + k >= $2 and"
                + " l.highest + $1 + k <= $3)) > 0");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "two bars, ending on the third, over a cadence in major | bars 2; last-note third; over"
            + " ii-V-I major | p.length_bars between 1.75 and 2.25 and v.phrase_ends_on_third = 1"
            + " and OVER(ii-V-I, major)",
        "easy ones with a pickup | pickup; difficulty 3 | v.phrase_starts_with_pickup = 1 and"
            + " p.difficulty <= 3",
        "eighths over the last four bars of a blues | mostly-eighths; over blues-bars-9-12 blues |"
            + " v.value_share_eighth >= 0.5 and IN(blues-bars-9-12, blues)",
        "minor cadences for a trumpet | over ii-V-I minor; fits trumpet | OVER(ii-V-I, minor) and"
            + " FITS(2, 54, 84)",
        "what a player ends on the root | player=Bertrand Quill; last-note 1 | lower(s.performer) ="
            + " 'bertrand quill' and l.last_degree = '1'",
        "a style over a vamp | style=tidal modal; over vamp minor | s.style = 'tidal modal' and"
            + " IN(vamp, minor)",
        "ending over the dominant on 3 or 5 | ends-over ii-V-I major V; last-note 3,5 |"
            + " ENDS(ii-V-I, major, V) and l.last_degree in ('3', '5')",
        "slow and one bar long | tempo ..150; bars 1 | p.tempo_qpm <= 150 and p.length_bars between"
            + " 0.75 and 1.25",
        "sparse lines over a ii-V | over ii-V major; notes_per_beat ..1.5 | OVER(ii-V, major) and"
            + " v.notes_per_beat <= 1.5",
        "four bars without a pickup | bars 3.5..4.5; phrase_starts_with_pickup 0 | p.length_bars"
            + " between 3.5 and 4.5 and v.phrase_starts_with_pickup = 0",
        "wide and hard | phrase_range 12..; difficulty 4.. | l.highest - l.lowest >= 12 and"
            + " p.difficulty >= 4",
        "the start of a blues for a tenor, ending on 5 | over blues-bars-1-4; fits tenor saxophone;"
            + " last-note 5 | (IN(blues-bars-1-4, blues) or IN(blues-bars-1-4, minor)) and FITS(14,"
            + " 58, 89) and l.last_degree = '5'"
      })
  void whatATeacherAsksForIsWhatTheTablesHold(String asked, String conditions, String sql)
      throws SQLException {
    CommandRun run = phrases(conditions, "--csv");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out().lines().skip(1).map(line -> line.replaceAll("^([^,]*,[^,]*),.*", "$1")))
        .isNotEmpty()
        .containsExactlyInAnyOrderElementsOf(bySql(sql(sql)));
  }

  @Test
  void theListSaysWhatWasFoundInWords() {
    CommandRun run = phrases("bars 2; last-note third; over ii-V-I major", "--count", "1");

    assertThat(run.out())
        .startsWith("Two-bar phrases that end on the third, over: ii–V–I in major\n")
        .containsPattern("(?m)^[0-9]+ of [0-9]+ phrases of the corpus fit; 1 of them:$");
    assertThat(run.out().lines()).hasSize(3);
  }

  @Test
  void thePageHasNotationAndSoundForEveryPhrase() throws IOException {
    Path page = temporary.resolve("found.html");

    CommandRun run = phrases("bars 2; last-note third", "--count", "3", "--page", page.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    String text = Files.readString(page);
    assertThat(text.split("<figure class=\"excerpt\">", -1)).hasSize(4);
    assertThat(SampleStudy.withoutScripts(text))
        .contains("Two-bar phrases that end on the third", "bars 2", "last-note third");
    assertThat(phrases("bars 2", "--page", page.toString()).err())
        .contains("Give --force to replace it.");
  }

  /** The nearest value is the largest range of the corpus, which DuckDB finds too. */
  @Test
  void nothingFittingNamesTheConditionAndTheNearestValue() throws SQLException {
    CommandRun run = phrases("phrase_range 60..; difficulty 5");

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err())
        .contains("leaves most out is 'phrase_range 60..'", "phrases have everything else")
        .containsPattern("The nearest there is: [0-9]+\u00a0semitones")
        .hasLineCount(1);
    String nearest = run.err().replaceAll("(?s).*nearest there is: ([0-9]+).*", "$1");
    assertThat(bySql("l.highest - l.lowest > " + nearest + " and p.difficulty = 5")).isEmpty();
    assertThat(bySql("l.highest - l.lowest = " + nearest + " and p.difficulty = 5")).isNotEmpty();
  }

  @Test
  void aMisspeltValueIsAnsweredWithTheNearest() {
    assertThat(phrases("style=tidal modle").err()).contains("The nearest there is: tidal modal.");
    assertThat(phrases("style=Tidal Modal").exitCode()).isEqualTo(ExitCode.DONE);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "bars two | is no number",
        "bars | it has no range",
        "bars 3..2 | is larger than its second",
        "phrase_rnge 2 | is no statistic of phrases",
        "before_rest_chord_tone_share 1 | is no statistic of phrases",
        "over IV-V | There is ii-V, ii-V-I",
        "over ii-V-I lydian | say major, minor or blues",
        "last-note x | names no degree",
        "fits bagpipe | There is: concert pitch, flute",
        "colour=red | the solos have no column colour"
      })
  void whatIsUnclearIsSaidInASentence(String condition, String said) {
    CommandRun run = phrases(condition);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err()).contains(said).doesNotContain("Exception").hasLineCount(1);
  }

  @Test
  void aQueryOfAStudyFileIsRunAgain() throws IOException {
    Path file = temporary.resolve("study.yaml");
    Files.writeString(
        file,
        "corpus: nowhere\ninto: "
            + study
            + "\nqueries:\n"
            + "  monday: [bars 2, last-note third]\n"
            + "  tuesday: {title: For Tuesday, where: [pickup]}\n");

    CommandRun monday = CommandRun.of("phrases", file.toString(), "--query", "monday", "--csv");

    assertThat(monday.out()).isEqualTo(phrases("bars 2; last-note third", "--csv").out());
    assertThat(CommandRun.of("phrases", file.toString(), "--query", "tuesday").out())
        .startsWith("For Tuesday\n");
    assertThat(CommandRun.of("phrases", file.toString(), "--query", "friday").err())
        .contains("There is: monday, tuesday.");
  }

  @Test
  void aSheetIsMadeOfTheSamePhrases() throws IOException {
    CommandRun run =
        CommandRun.of(
            "sheet",
            study.toString(),
            "--where",
            "bars 2",
            "--where",
            "last-note third",
            "--count",
            "4",
            "--for",
            "trumpet",
            "--into",
            temporary.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out().lines().skip(2).limit(4))
        .containsExactlyElementsOf(
            phrases("bars 2; last-note third", "--count", "4").out().lines().skip(2).toList());
    assertThat(Files.readString(temporary.resolve("phrases.musicxml")))
        .contains("Two-bar phrases that end on the third");
  }
}
