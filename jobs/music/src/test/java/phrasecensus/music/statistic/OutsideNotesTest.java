package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloAnalysis;

/** Own definition, own lines; every line stands over C major. */
class OutsideNotesTest {
  @Test
  void aLeapAwayFromAnOutsideNoteLeavesItUnexplained() {
    SoloAnalysis heard = Heard.inC("0:C4:1 1:C#4:1 2:G4:1 3:D#4:1 4:E4:1", "0:C");

    assertThat(OutsideNotes.unexplained(heard)).containsExactly(1);
  }

  @Test
  void indexesCountFromTheStartOfTheSoloInEveryPhrase() {
    SoloAnalysis heard = Heard.inC("0:C4:1 1:F#4:1 2:C4:1 3:G#4:1 4:C4:1", "0:C", 2);

    assertThat(OutsideNotes.unexplained(heard)).containsExactly(1, 3);
  }

  @Test
  void theyAreAsManyAsTheStatisticCounts() {
    SoloAnalysis heard =
        Heard.inC("0:C4:1 1:F#4:1 2:G#4:1 3:C4:1 4:D#4:1 5:E4:1 6:F#4:1 7:A4:1", "0:C", 4);

    assertThat(OutsideNotes.unexplained(heard).size() / 8.0)
        .isEqualTo(Heard.solo(heard, "unexplained_outside_share"));
  }

  @Test
  void withoutAChordNoNoteIsJudged() {
    assertThat(OutsideNotes.unexplained(Heard.inC("0:C4:1 1:F#4:1 2:C4:1", ""))).isEmpty();
  }
}
