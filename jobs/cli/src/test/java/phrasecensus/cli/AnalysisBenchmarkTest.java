package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

class AnalysisBenchmarkTest {
  private static Path corpus() {
    return Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");
  }

  @Test
  void soloStrungTogetherHasItsBarsAndNotesInOrderWithoutGaps() throws Exception {
    Path file;
    try (var files = Files.list(corpus())) {
      file = files.filter(each -> each.toString().endsWith(".musicxml")).sorted().findFirst().get();
    }
    Solo once = SoloReader.read(Files.readAllBytes(file), "once", ReadSettings.defaults()).solo();

    Solo thrice = AnalysisBenchmark.strung(once, 3);

    assertThat(thrice.notes()).hasSize(3 * once.notes().size());
    assertThat(thrice.length()).isEqualTo(once.length().times(3));
    List<Bar> bars = thrice.bars();
    for (int i = 1; i < bars.size(); i++) {
      assertThat(bars.get(i).onset()).isEqualTo(bars.get(i - 1).end());
    }
    for (Note note : thrice.notes()) {
      Bar bar = bars.get(note.barIndex());
      assertThat(note.onset().isAtLeast(bar.onset()) && note.onset().isBefore(bar.end())).isTrue();
    }
  }

  @Test
  void analysisIsPrintedBesideReadingAndByLength() {
    CommandRun run = CommandRun.of("benchmark", corpus().toString(), "--analysis", "--rounds", "1");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out().lines().toList()).hasSize(5);
    assertThat(run.out())
        .containsPattern("analysis \\d+\\.\\d{3} CPU s: \\d+\\.\\d{3} of reading")
        .contains("1 times as long", "10 times as long", "100 times as long");
  }
}
