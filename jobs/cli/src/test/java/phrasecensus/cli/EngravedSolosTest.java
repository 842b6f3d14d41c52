package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.report.engraving.Engraver;
import phrasecensus.report.engraving.Layout;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.rows.FileRows;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

/**
 * Every solo that is read can be engraved, at written and at concert pitch: the sample corpus, and
 * where it is present the open data beside the checkout (the MusicXML test suite, transcribed
 * solos, lead sheets as they were found, minimal cases of faults).
 */
class EngravedSolosTest {
  private static final Path ROOT = Path.of(System.getProperty("project.root", "../.."));

  @ParameterizedTest(name = "{0}: {1} are read and drawn, {2} say why not")
  @CsvSource({
    "sample-corpus/corpus,60,0",
    "../shared/reference/musicxml-suite/input,149,1",
    "../shared/data/solos/xml,220,0",
    "../shared/data/solos/transposed,12,0",
    "../shared/data/leadsheets,150,0",
    "../shared/cases,32,1"
  })
  void everySoloThatIsReadIsDrawn(String folder, int read, int rejected) throws IOException {
    Path where = ROOT.resolve(folder);
    assumeTrue(Files.isDirectory(where), "skipped: " + folder + " is not beside the checkout");
    FileRows reader = new FileRows(StudySettings.defaults(), TableSchemas.named("solos"));
    List<String> refused = new ArrayList<>();
    List<String> reasons = new ArrayList<>();
    int drawn = 0;

    for (Path file : scores(where)) {
      FileRows.Result result =
          reader.of("corpus", file.getFileName().toString(), Files.readAllBytes(file), Map.of());
      if (result.rejection() != null) {
        reasons.add(result.rejection());
        continue;
      }
      SoloLine line = SoloLine.of(result.rows());
      try {
        boolean empty =
            Engraver.engrave("wide", line, null, Layout.wide()).isEmpty()
                || Engraver.engrave("narrow", line.atConcertPitch(), null, Layout.narrow())
                    .isEmpty();
        drawn += empty && !line.bars().isEmpty() ? 0 : 1;
      } catch (IllegalArgumentException e) {
        refused.add(file.getFileName() + ": " + e.getMessage());
      }
    }

    assertThat(refused).isEmpty();
    assertThat(drawn).isEqualTo(read);
    assertThat(reasons).hasSize(rejected).allMatch(reason -> reason.length() > 20);
  }

  private static List<Path> scores(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(file -> file.toString().matches(".*\\.(xml|musicxml|mxl)"))
          .sorted()
          .toList();
    }
  }
}
