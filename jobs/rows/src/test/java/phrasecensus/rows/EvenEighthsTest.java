package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

/** Swing that is written out, read as written and as even eighths; an invented bar. */
class EvenEighthsTest {
  private static final String SCORE =
      """
      <score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Solo</part-name>
      </score-part></part-list><part id="P1"><measure number="1"><attributes>
      <divisions>12</divisions><time><beats>2</beats><beat-type>4</beat-type></time></attributes>
      <note><pitch><step>C</step><octave>5</octave></pitch><duration>9</duration></note>
      <note><pitch><step>D</step><octave>5</octave></pitch><duration>3</duration></note>
      <note><pitch><step>E</step><octave>5</octave></pitch><duration>8</duration></note>
      <note><pitch><step>F</step><octave>5</octave></pitch><duration>4</duration></note>
      </measure></part></score-partwise>
      """;

  private static double share(boolean evenEighths, String statistic) {
    StudySettings usual = StudySettings.defaults();
    StudySettings settings =
        new StudySettings(
            usual.phraseRule(),
            usual.phraseRuleSettings(),
            usual.anticipation(),
            usual.asPlayed(),
            evenEighths,
            usual.keepSlashNoteheads(),
            usual.part(),
            usual.sensitivity(),
            usual.limits());
    return new FileRows(settings, TableSchemas.named("solos"))
            .of("corpus", "swung.musicxml", SCORE.getBytes(StandardCharsets.UTF_8), Map.of())
            .rows()
            .get("solo_statistics")
            .stream()
            .filter(row -> row.text("statistic").equals(statistic))
            .mapToDouble(row -> (Double) row.value("value"))
            .findFirst()
            .orElseThrow();
  }

  @Test
  void asWrittenThereIsNoEighth() {
    assertThat(share(false, "value_share_eighth")).isZero();
    assertThat(share(false, "value_share_dotted_eighth")).isEqualTo(.25);
  }

  @Test
  void asEvenEighthsThereIsNothingElse() {
    assertThat(share(true, "value_share_eighth")).isEqualTo(1);
    assertThat(share(true, "notes_per_bar")).isEqualTo(4);
  }
}
