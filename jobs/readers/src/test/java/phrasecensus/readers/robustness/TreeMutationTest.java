package phrasecensus.readers.robustness;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.statistic.SoloStatistics;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

/** The short form of the damage that {@code .ci/mutations} does by the hundred thousand. */
class TreeMutationTest {
  private static final int FILES = 1200;
  private static final List<String> RULES =
      List.of("breath", "silence", "marked", "boundary-strength");

  @TempDir private Path folder;

  private static Map<String, byte[]> sources() throws IOException {
    Map<String, byte[]> sources = new TreeMap<>();
    Path cases = Path.of(System.getProperty("project.root"), "..", "shared", "cases2");
    if (Files.exists(cases)) {
      sources.putAll(MutationRun.bases(cases));
    }
    Path own = Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");
    MutationRun.bases(own)
        .forEach(
            (name, bytes) -> {
              if (sources.size() < 40) {
                sources.put(name, MutationFolder.beginning(bytes));
              }
            });
    return sources;
  }

  @Test
  void whateverIsDoneToATreeItIsReadAndAnalysedOrRefused() throws IOException {
    MutationFolder.write(folder, FILES, 20_261_129, sources());
    List<Path> files;
    try (Stream<Path> all = Files.walk(folder)) {
      files =
          all.filter(file -> file.toString().matches(".*\\.(musicxml|xml|mxl)")).sorted().toList();
    }

    List<String> failures = new ArrayList<>();
    int read = 0;
    for (int i = 0; i < files.size(); i++) {
      ReadSettings settings = ReadSettings.defaults().withAsPlayed(i % 3 == 1);
      try {
        ReadResult result =
            SoloReader.read(Files.readAllBytes(files.get(i)), files.get(i).toString(), settings);
        if (result.isRead()) {
          read++;
          SoloStatistics.withPhrases(
              SoloAnalyser.analyse(
                  result.solo(),
                  new AnalysisSettings(
                      PhraseRules.rule(RULES.get(i % RULES.size()), Map.of()),
                      true,
                      Optional.empty())));
        }
      } catch (RuntimeException | StackOverflowError e) {
        failures.add(files.get(i).getFileName() + ": " + e);
      }
    }

    assertThat(failures).isEmpty();
    assertThat(read).isBetween(FILES / 2, FILES - 50);
  }

  @Test
  void oneSeedGivesTheSameFiles() throws IOException {
    Path once = folder.resolve("once");
    Path again = folder.resolve("again");
    MutationFolder.write(once, 60, 7, sources());
    MutationFolder.write(again, 60, 7, sources());

    try (Stream<Path> all = Files.walk(once)) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        assertThat(again.resolve(once.relativize(file))).hasSameBinaryContentAs(file);
      }
    }
  }
}
