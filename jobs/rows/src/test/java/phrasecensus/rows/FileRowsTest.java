package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Rows of single files that are no usual solo; invented bars. */
class FileRowsTest {
  private static final FileRows ROWS =
      new FileRows(StudySettings.defaults(), TableSchemas.named("solos"));

  private static String score(String title, String contents) {
    return "<score-partwise><work><work-title>"
        + title
        + "</work-title></work><part-list><score-part id='P1'><part-name>Solo</part-name>"
        + "</score-part></part-list><part id='P1'><measure number='1'><attributes>"
        + "<divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>"
        + "</attributes>"
        + contents
        + "</measure></part></score-partwise>";
  }

  private static String note(String step, int duration) {
    return "<note><pitch><step>"
        + step
        + "</step><octave>5</octave></pitch><duration>"
        + duration
        + "</duration></note>";
  }

  private static FileRows.Result rows(String role, String score) {
    return ROWS.of(role, "a.musicxml", score.getBytes(StandardCharsets.UTF_8), Map.of());
  }

  private static TableRow file(FileRows.Result result) {
    return result.rows().get("files").get(0);
  }

  private static final String CHART =
      "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>"
          + "<note><rest/><duration>4</duration></note>";

  @Test
  void aScoreOfTheCorpusWithoutAPitchedNoteIsReadAndNoSolo() {
    FileRows.Result result = rows("corpus", score("Chart", CHART));

    assertThat(file(result).text("outcome")).isEqualTo("read");
    assertThat(file(result).text("solo_id")).isNull();
    assertThat(result.rows().get("bars")).hasSize(1);
    assertThat(result.rows().get("chords")).hasSize(1);
    assertThat(result.rows().keySet())
        .containsExactlyInAnyOrder("bars", "chords", "problems", "files");
    assertThat(result.rows().get("problems"))
        .extracting(row -> row.text("code"), row -> row.integer("severity"))
        .contains(org.assertj.core.groups.Tuple.tuple("no-notes", 1));
  }

  @Test
  void aStudentsFileWithoutAPitchedNoteStaysTheirs() {
    FileRows.Result result = rows("student", score("Chart", CHART));

    assertThat(file(result).text("solo_id")).isEqualTo("student/a.musicxml");
    assertThat(result.rows().get("solos")).hasSize(1);
    assertThat(result.rows().get("solos").get(0).integer("notes")).isZero();
  }

  /** MusicXML 4.0 writes signatures that no major or minor key has step by step, without fifths. */
  @Test
  void aPhraseUnderASignatureOfNoKeyHasItsDifficulty() {
    String signature =
        "<attributes><key><key-step>F</key-step><key-alter>1</key-alter><key-step>E</key-step>"
            + "<key-alter>-1</key-alter></key></attributes>";

    FileRows.Result result = rows("corpus", score("Signature", signature + note("C", 1).repeat(4)));

    assertThat(file(result).text("reason")).isNull();
    assertThat(result.rows().get("phrases").get(0).integer("difficulty")).isBetween(1, 5);
  }

  @Test
  void theSameLineInOtherBytesHasTheSameDigest() {
    String line = note("C", 1) + note("D", 1) + note("E", 2);
    String ten = line.repeat(4);

    String digest = file(rows("corpus", score("One", ten))).text("line_digest");

    assertThat(digest).hasSize(32);
    assertThat(file(rows("corpus", score("Two", CHART + ten))).text("line_digest"))
        .isNotEqualTo(digest);
    assertThat(file(rows("corpus", score("Two", ten))).text("line_digest")).isEqualTo(digest);
    assertThat(file(rows("corpus", score("Short", line))).text("line_digest")).isNull();
  }

  @Test
  void slashNoteheadsAreNotesWhereTheStudySaysSo() {
    String slash = note("B", 4).replace("</note>", "<notehead>slash</notehead></note>");
    StudySettings usual = StudySettings.defaults();
    StudySettings kept =
        new StudySettings(
            usual.phraseRule(),
            usual.phraseRuleSettings(),
            usual.anticipation(),
            usual.asPlayed(),
            usual.evenEighths(),
            true,
            usual.part(),
            usual.sensitivity(),
            usual.limits());

    assertThat(rows("corpus", score("Slashes", slash)).notes()).isZero();
    assertThat(
            new FileRows(kept, TableSchemas.named("solos"))
                .of(
                    "corpus",
                    "a.musicxml",
                    score("Slashes", slash).getBytes(StandardCharsets.UTF_8),
                    Map.of())
                .notes())
        .isEqualTo(1);
    assertThat(kept.recorded(Map.of())).containsEntry("keep-slash-noteheads", "true");
    assertThat(List.copyOf(usual.recorded(Map.of()).keySet()))
        .doesNotContain("keep-slash-noteheads");
  }
}
