package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.music.phrase.BoundaryAgreement;
import phrasecensus.music.phrase.BoundaryAgreement.FirstNote;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.phrase.VerseLines;
import phrasecensus.music.score.Solo;

/**
 * Rules against the beginnings of lines of verse in the lead sheets of OpenEWLD that carry words
 * (see ../shared/data/NOTICE.md): a mark for development, since lines are told by capitals. Songs
 * of four lines or more, of 4 to 16 notes each, are those whose words tell them well; all others
 * with lines are given beside them. Runs where the data lie beside the project.
 */
class SongPhrasesTest {
  private static final List<String> RULES = List.of("breath", "for-songs", "by-material");

  @Test
  void theRuleForSongsFindsLinesThatRestsDoNotTell() throws IOException {
    Map<String, Map<String, List<BoundaryAgreement>>> scores = new LinkedHashMap<>();
    int words = 0;
    for (Path file : SharedFolder.files(SharedFolder.existing("data/leadsheets"))) {
      if (!file.toString().endsWith(".mxl")) {
        continue;
      }
      Solo solo =
          SoloReader.read(
                  SharedFolder.bytes(file), file.getFileName().toString(), ReadSettings.defaults())
              .solo();
      words += VerseLines.sungShare(solo) > 0 ? 1 : 0;
      List<Integer> lines = VerseLines.beginnings(solo);
      if (lines.isEmpty()) {
        continue;
      }
      double notes = solo.notes().size() / (double) lines.size();
      boolean told = lines.size() >= 4 && notes >= 4 && notes <= 16;
      double rests = restsBefore(solo, lines);
      for (String rule : RULES) {
        add(scores, "all with lines", rule, solo, lines);
        if (told) {
          add(scores, "lines well told", rule, solo, lines);
          String howMany = rests < .25 ? "few" : rests < .5 ? "some" : "most";
          add(scores, "of these, rests before " + howMany + " lines", rule, solo, lines);
        }
      }
    }
    StringBuilder report = new StringBuilder();
    scores.forEach(
        (songs, byRule) -> {
          report.append(String.format("%n%s:", songs));
          byRule.forEach(
              (rule, each) ->
                  report.append(
                      String.format(
                          Locale.ROOT,
                          " %s %.3f (n %d)",
                          rule,
                          BoundaryAgreement.mean(each).f1(),
                          each.size())));
        });
    System.out.println(
        "Lines of verse of "
            + words
            + " lead sheets with words, F1, first note not counted"
            + report);

    // 137 carry lyrics; of one they are figures.
    assertThat(words).isEqualTo(136);
    Map<String, List<BoundaryAgreement>> few = scores.get("of these, rests before few lines");
    assertThat(f1(few, "for-songs")).isGreaterThan(f1(few, "breath") + .05);
    for (String songs : List.of("all with lines", "lines well told")) {
      assertThat(f1(scores.get(songs), "by-material"))
          .as(songs)
          .isGreaterThan(f1(scores.get(songs), "breath"))
          .isGreaterThan(f1(scores.get(songs), "for-songs"));
    }
  }

  private static double f1(Map<String, List<BoundaryAgreement>> scores, String rule) {
    return BoundaryAgreement.mean(scores.get(rule)).f1();
  }

  private static void add(
      Map<String, Map<String, List<BoundaryAgreement>>> scores,
      String songs,
      String name,
      Solo solo,
      List<Integer> lines) {
    PhraseRule rule = PhraseRules.rule(name);
    scores
        .computeIfAbsent(songs, any -> new LinkedHashMap<>())
        .computeIfAbsent(name, any -> new ArrayList<>())
        .add(
            BoundaryAgreement.exact(
                lines.stream().filter(line -> line > 0).toList(),
                rule.boundaries(solo),
                solo.notes().size(),
                FirstNote.NOT_COUNTED));
  }

  private static double restsBefore(Solo solo, List<Integer> lines) {
    long after =
        lines.stream()
            .filter(line -> line > 0)
            .filter(
                line -> solo.notes().get(line).onset().isAfter(solo.notes().get(line - 1).end()))
            .count();
    return after / (lines.size() - 1.0);
  }
}
