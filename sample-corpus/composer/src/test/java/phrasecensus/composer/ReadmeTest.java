package phrasecensus.composer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import phrasecensus.composer.cast.Commission;
import phrasecensus.composer.cast.Programme;
import phrasecensus.composer.cast.Society;
import phrasecensus.composer.line.Style;
import phrasecensus.composer.tune.TuneBook;

class ReadmeTest {
  private static List<String> lines;

  @BeforeAll
  static void read() throws IOException {
    lines =
        Files.readAllLines(
            Path.of(System.getProperty("project.root"), "sample-corpus", "README.md"));
  }

  @Test
  void styleTableHasTheNumbersOfTheComposer() {
    TreeSet<String> names = new TreeSet<>();
    for (Commission commission : Programme.corpus()) {
      Style style = commission.style();
      if (names.add(style.name())) {
        IntStream tempi =
            Programme.corpus().stream()
                .filter(c -> c.style().equals(style))
                .mapToInt(Commission::tempo);
        var range = tempi.summaryStatistics();
        assertThat(lines)
            .anySatisfy(
                line ->
                    assertThat(line)
                        .startsWith(
                            "| "
                                + style.name()
                                + " | "
                                + range.getMin()
                                + " to "
                                + range.getMax()
                                + " bpm | "
                                + style.phraseBeats()
                                + " beats | "
                                + style.restBeats()
                                + " beats |"));
      }
    }
  }

  @Test
  void everyTunePlayerAndStudentHasARow() {
    for (var tune : TuneBook.ALL) {
      assertThat(lines).anyMatch(l -> l.startsWith("| " + tune.title() + " | " + tune.form()));
    }
    for (var player : Society.PLAYERS) {
      assertThat(lines).anyMatch(l -> l.startsWith("| " + player.name() + " | "));
    }
    for (Commission commission : Programme.students()) {
      assertThat(lines).anyMatch(l -> l.startsWith("| " + commission.player().name() + " | "));
    }
  }
}
