package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Code and catalogue name the same statistics, in the same order. */
class StatisticKeysTest {
  private static final Pattern ENTRY =
      Pattern.compile("\"key\": \"([a-z0-9_]+)\".*?\"levels\": \\[([^\\]]*)\\]", Pattern.DOTALL);

  private static List<String> catalogueKeys(String level) throws IOException {
    String catalogue =
        Files.readString(Path.of(System.getProperty("project.root"), "schemas", "statistics.json"));
    List<String> keys = new ArrayList<>();
    Matcher entry = ENTRY.matcher(catalogue.substring(catalogue.indexOf("\"statistics\": [")));
    while (entry.find()) {
      if (entry.group(2).contains('"' + level + '"')) {
        keys.add(entry.group(1));
      }
    }
    return keys;
  }

  @Test
  void catalogueListsExactlyTheKeysComputedForAPhrase() throws IOException {
    assertThat(StatisticKeys.phraseLevel()).isEqualTo(catalogueKeys("phrase"));
  }

  @Test
  void catalogueListsExactlyTheKeysComputedForASolo() throws IOException {
    assertThat(StatisticKeys.soloLevel()).isEqualTo(catalogueKeys("solo"));
  }

  @Test
  void noKeyIsComputedTwice() {
    assertThat(StatisticKeys.phraseLevel()).doesNotHaveDuplicates();
    assertThat(StatisticKeys.soloLevel()).doesNotHaveDuplicates();
  }
}
