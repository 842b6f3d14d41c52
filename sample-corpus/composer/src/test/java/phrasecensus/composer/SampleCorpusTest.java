package phrasecensus.composer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SortedMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class SampleCorpusTest {
  private static SortedMap<String, byte[]> files;

  @BeforeAll
  static void compose() {
    files = SampleCorpus.files();
  }

  @Test
  void composingTwiceGivesTheSameBytes() {
    SortedMap<String, byte[]> again = SampleCorpus.files();

    assertThat(again.keySet()).isEqualTo(files.keySet());
    again.forEach((name, bytes) -> assertThat(bytes).as(name).isEqualTo(files.get(name)));
  }

  @Test
  void committedFilesAreTheComposedOnes() throws IOException {
    Path folder = Path.of(System.getProperty("project.root"), "sample-corpus");

    for (String name : files.keySet()) {
      assertThat(Files.readAllBytes(folder.resolve(name)))
          .as("%s; to rewrite it see sample-corpus/README.md", name)
          .isEqualTo(files.get(name));
    }
  }

  @Test
  void noOtherScoreLiesInTheFolders() throws IOException {
    Path folder = Path.of(System.getProperty("project.root"), "sample-corpus");
    TreeSet<String> found = new TreeSet<>();

    for (String part : new String[] {"corpus", "students"}) {
      try (Stream<Path> paths = Files.walk(folder.resolve(part))) {
        paths
            .filter(Files::isRegularFile)
            .map(path -> folder.relativize(path).toString().replace('\\', '/'))
            .forEach(found::add);
      }
    }

    assertThat(files.keySet()).containsAll(found);
  }

  @Test
  void generatedFilesStayUnderFiveAndAHalfMegabytes() {
    long total = files.values().stream().mapToLong(bytes -> bytes.length).sum();

    assertThat(total).isLessThan(5_500_000);
  }
}
