package phrasecensus.music.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;

/**
 * Human phrases in the form of the 220 development solos (Weimar Jazz Database through the R
 * package jazzodata), beside figures that were computed from the whole database by other means: 24
 * % of phrases cross the line between two eight-bar sections; last notes in eight-bar sections fall
 * most often in bar 7. Runs where the data lie beside the project.
 */
class FormAccuracyTest {
  @Test
  void phrasesLieInEightBarSectionsAsOtherProgramsFind() {
    Optional<Path> folder = DevelopmentSolos.folder();
    assumeTrue(folder.isPresent(), "no development solos beside the project");

    Map<String, Map<String, String>> songs =
        DevelopmentSolos.table(folder.get().resolve("solos.csv"));
    Map<String, List<int[]>> phrases = DevelopmentSolos.phrases(folder.get());
    int crossing = 0;
    int counted = 0;
    int[] ends = new int[9];
    for (String song : songs.keySet()) {
      Solo solo = DevelopmentSolos.read(folder.get().resolve("xml/" + song + ".musicxml"));
      SoloForm form = SoloForm.of(solo);
      List<Integer> eightBars = sectionsOfEightBars(solo, form);
      for (int[] phrase : phrases.get(song)) {
        Note first = solo.notes().get(phrase[0]);
        Note last = solo.notes().get(phrase[1]);
        if (eightBars.contains(form.section(first.barIndex()))) {
          counted++;
          crossing += form.section(first.barIndex()) != form.section(last.barIndex()) ? 1 : 0;
        }
        if (eightBars.contains(form.section(last.barIndex()))) {
          ends[form.barInSection(last.barIndex())]++;
          ends[0]++;
        }
      }
    }
    StringBuilder report = new StringBuilder();
    for (int bar = 1; bar <= 8; bar++) {
      report.append(String.format(" %.3f", ends[bar] / (double) ends[0]));
    }
    System.out.printf(
        "Phrases in eight-bar sections: %d, crossing %.3f; last notes by bar%s%n",
        counted, crossing / (double) counted, report);

    assertThat(crossing / (double) counted).isCloseTo(.24, within(.03));
    assertThat(ends[7])
        .isEqualTo(
            List.of(ends[1], ends[2], ends[3], ends[4], ends[5], ends[6], ends[7], ends[8]).stream()
                .max(Integer::compare)
                .orElseThrow());
  }

  private static List<Integer> sectionsOfEightBars(Solo solo, SoloForm form) {
    List<Integer> eight = new ArrayList<>();
    for (int bar = 0; bar < solo.bars().size(); bar++) {
      boolean last = bar + 1 == solo.bars().size() || form.section(bar + 1) != form.section(bar);
      if (last && form.barInSection(bar) == 8) {
        eight.add(form.section(bar));
      }
    }
    return eight;
  }
}
