package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.statistic.SoloStatistics;

/** The example of the library in DEVELOPERS.md, as it stands there. */
class TenLinesTest {
  private static final Path ROOT = Path.of(System.getProperty("project.root"));

  static void print(Path file, PrintStream out) throws IOException {
    // From here on as in DEVELOPERS.md.
    ReadResult read =
        SoloReader.read(Files.readAllBytes(file), file.toString(), ReadSettings.defaults());
    if (!read.isRead()) {
      throw new IOException(read.reason());
    }
    SoloAnalysis analysis = SoloAnalyser.analyse(read.solo(), AnalysisSettings.defaults());
    for (Phrase phrase : analysis.phrases()) {
      out.println(phrase.onset() + " to " + phrase.end() + ": " + phrase.noteCount() + " notes");
    }
    SoloStatistics.of(analysis).forEach(out::println);
    // Until here.
  }

  private static List<String> example() throws IOException {
    Path source = ROOT.resolve("jobs/readers/src/test/java/phrasecensus/readers/TenLinesTest.java");
    return Files.readString(source)
        .lines()
        .dropWhile(line -> !line.contains("// From here on"))
        .skip(1)
        .takeWhile(line -> !line.contains("// Until here"))
        .map(line -> line.substring(4))
        .toList();
  }

  @Test
  void exampleStandsInTheDocumentation() throws IOException {
    assertThat(Files.readString(ROOT.resolve("DEVELOPERS.md")))
        .contains(String.join("\n", example()));
    assertThat(example()).hasSizeBetween(5, 10);
  }

  @Test
  void exampleTellsPhrasesAndStatistics() throws IOException {
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    print(
        ROOT.resolve("sample-corpus/corpus/tarpaulin-blues-marrack-quayside.musicxml"),
        new PrintStream(said, true, StandardCharsets.UTF_8));
    assertThat(said.toString(StandardCharsets.UTF_8))
        .containsPattern("(?m)^\\S+ to \\S+: \\d+ notes$")
        .contains("StatisticValue[key=phrase_length_bars");
  }
}
