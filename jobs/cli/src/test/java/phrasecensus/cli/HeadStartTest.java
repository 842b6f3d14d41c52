package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.rows.FileRows;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

class HeadStartTest {
  /** A score that were rejected would load few of the classes it is there to load. */
  @Test
  void itsScoreIsReadAndHasPhrasesAndChords() {
    FileRows.Result result =
        new FileRows(StudySettings.defaults(), TableSchemas.named("solos"))
            .of(
                "corpus",
                "head-start.musicxml",
                HeadStart.score().getBytes(StandardCharsets.UTF_8),
                Map.of());

    assertThat(result.rejection()).isNull();
    assertThat(result.notes()).isEqualTo(12 * (8 + 5));
    assertThat(result.rows().get("phrases")).hasSizeGreaterThan(3);
    assertThat(result.rows().get("chords")).hasSize(24);
  }
}
