package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class MeantFilesTest {
  @Test
  void nameThatIsThereJustSoIsMeant() {
    MeantFiles files = new MeantFiles(List.of("back\\slash.xml", "back/slash.xml", "a.xml "));

    assertThat(files.by("back\\slash.xml")).isEqualTo("back\\slash.xml");
    assertThat(files.by("back/slash.xml")).isEqualTo("back/slash.xml");
    assertThat(files.by("back\\slash")).isEqualTo("back\\slash");
  }

  /** U+00E9 and U+0065 U+0301 are canonically equivalent (Unicode Standard Annex 15, figure 3). */
  @Test
  void composedAndDecomposedLettersMeanTheSame() {
    MeantFiles files = new MeantFiles(List.of("Cafe\u0301.musicxml"));

    assertThat(files.by("Caf\u00E9.musicxml")).isEqualTo("Cafe\u0301.musicxml");
    assertThat(files.by("Caf\u00E9")).isEqualTo("Cafe\u0301.musicxml");
  }

  @Test
  void spacesAtTheEndsThatACellLosesAreFound() {
    MeantFiles files = new MeantFiles(List.of("trailing.musicxml ", "folder/b.xml"));

    assertThat(files.by("trailing.musicxml")).isEqualTo("trailing.musicxml ");
    assertThat(files.by("trailing")).isEqualTo("trailing.musicxml ");
    assertThat(files.by("folder\\b.xml")).isEqualTo("folder/b.xml");
  }

  @Test
  void whatLooksLikeTwoFilesMeansNeither() {
    MeantFiles files = new MeantFiles(List.of("a.xml ", " a.xml"));

    assertThat(files.by("a.xml")).isEqualTo("a.xml");
    assertThat(files.by("b\\c.xml")).isEqualTo("b/c.xml");
  }
}
