package phrasecensus.music.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import phrasecensus.music.harmony.ChorusFinder;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.score.Solo;

/**
 * Length of the chorus against the form that people gave (Weimar Jazz Database through the R
 * package jazzodata, development half), on solos over twelve- and thirty-two-bar forms. Runs where
 * the data lie beside the project.
 */
class ChorusAccuracyTest {
  private static final Pattern SECTION_BARS = Pattern.compile(",(\\d+)\\)");

  @Test
  void chorusLengthsAgreeWithPeople() {
    Optional<Path> folder = DevelopmentSolos.folder();
    assumeTrue(folder.isPresent(), "no development solos beside the project");

    int[] solos = new int[33];
    int[] found = new int[33];
    int[] right = new int[33];
    // Solos over any form of which two choruses are heard: all, found, right, right but for a
    // factor.
    int[] others = new int[4];
    StringBuilder misses = new StringBuilder();
    for (Map<String, String> row :
        DevelopmentSolos.table(folder.get().resolve("solos.csv")).values()) {
      int bars = 0;
      Matcher sections = SECTION_BARS.matcher(row.get("form"));
      while (sections.find()) {
        bars += Integer.parseInt(sections.group(1));
      }
      Solo solo =
          DevelopmentSolos.read(folder.get().resolve("xml/" + row.get("song") + ".musicxml"));
      if (bars > 0 && solo.bars().size() >= 2 * bars) {
        Optional<Choruses> heard = ChorusFinder.find(solo);
        int form = bars;
        others[0]++;
        others[1] += heard.isPresent() ? 1 : 0;
        others[2] += heard.filter(c -> c.bars() == form).isPresent() ? 1 : 0;
        others[3] +=
            heard.filter(c -> c.bars() % form == 0 || form % c.bars() == 0).isPresent() ? 1 : 0;
      }
      // Two choruses of a song are needed before anything comes round; one of a blues.
      if (bars != 12 && bars != 32 || bars == 32 && solo.bars().size() < 64) {
        continue;
      }
      int wanted = bars;
      Optional<Choruses> choruses = ChorusFinder.find(solo);
      solos[bars]++;
      found[bars] += choruses.isPresent() ? 1 : 0;
      if (choruses.filter(c -> c.bars() == wanted).isPresent()) {
        right[bars]++;
      } else {
        misses.append(
            String.format(
                "  %s: people %d, found %s of %d bars%n",
                row.get("song"),
                bars,
                choruses.map(c -> c.bars() + " (" + c.source() + ")").orElse("none"),
                solo.bars().size()));
      }
    }
    System.out.printf(
        "Chorus length: 12 bars %d right, %d found of %d; 32 bars %d right, %d found of %d; any"
            + " form %d right, %d but for a factor, %d found of %d%n%s",
        right[12], found[12], solos[12], right[32], found[32], solos[32], others[2], others[3],
        others[1], others[0], misses);

    assertThat(solos[12]).isEqualTo(45);
    assertThat(right[12]).isGreaterThanOrEqualTo(40);
    assertThat(solos[32]).isEqualTo(49);
    assertThat(right[32]).isGreaterThanOrEqualTo(46);
  }
}
