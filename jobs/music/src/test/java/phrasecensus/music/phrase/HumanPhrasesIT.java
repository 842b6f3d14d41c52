package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import phrasecensus.music.phrase.BoundaryAgreement.FirstNote;
import phrasecensus.music.phrase.BreathTuning.Example;

/**
 * The rules against human phrase marks: inner boundaries on the very note, means over solos. Runs
 * where {@link HumanPhrases} finds the solos. {@code -Dgolden.update=true} tunes the {@code breath}
 * rule again and writes its numbers.
 */
class HumanPhrasesIT {
  private static final String RESOURCE = "src/main/resources/phrasecensus/music/phrase";

  private static final List<String> COMMENT =
      List.of(
          "Numbers of the phrase rule 'breath'. Made by BreathTuning; do not edit by hand.",
          "Data: 220 solos with human phrase marks of the Weimar Jazz Database",
          "(M. Pfleiderer, K. Frieler, J. Abesser, W.-G. Zaddach, B. Burkhart (eds.), Schott"
              + " Campus,",
          "2017; Open Database License 1.0), through the R data package jazzodata (MIT licence).",
          "Not one number here is a number of the data; they are weights fitted to it.",
          "Set by hand, with an eye on songs whose words show the lines: length-weight,",
          "length-weight-without-rests, preferred-beats, expected-beats, bar-bonus.",
          "Command: mvn verify -pl jobs/music -Dit.test=HumanPhrasesIT -Dgolden.update=true");

  private static HumanPhrases.Solos solos;

  @BeforeAll
  static void readSolos() throws IOException {
    Path folder = HumanPhrases.folder();
    solos = folder == null ? null : HumanPhrases.read(folder);
  }

  @BeforeEach
  void needsSolos() {
    assumeTrue(solos != null, "no solos with human phrase marks beside the project");
  }

  @Test
  void theNumbersOfTheBreathRuleAreWhatTuningGives() throws IOException {
    String tuned = BreathTuning.properties(BreathTuning.tuned(solos.examples()), COMMENT);
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(Path.of(RESOURCE, "breath.properties"), tuned);
    }

    assertThat(tuned).isEqualTo(Files.readString(Path.of(RESOURCE, "breath.properties")));
  }

  /**
   * Computed by other programs on the same files: silence of 3/4 quarter, boundary model at .20.
   */
  @Test
  void publishedRulesScoreAsOtherProgramsFind() {
    assertThat(BoundaryAgreement.mean(scored(SilenceRule.DEFAULT)).f1())
        .isCloseTo(.829, within(.0006));
    assertThat(BoundaryAgreement.mean(scored(LocalBoundaryRule.DEFAULT)).f1())
        .isCloseTo(.767, within(.0006));
  }

  @Test
  void onPlayersItHasNotHeardTheBreathRuleBeatsEveryOtherRule() throws IOException {
    List<BoundaryAgreement> breath = new ArrayList<>();
    List<List<Integer>> found = BreathTuning.crossValidated(solos.examples(), 10);
    for (int i = 0; i < found.size(); i++) {
      breath.add(agreement(solos.examples().get(i), found.get(i)));
    }
    StringBuilder table = new StringBuilder();
    append(table, "breath, cross-validated by player", breath);
    for (String name : PhraseRules.names()) {
      append(table, name, scored(PhraseRules.rule(name)));
    }
    Files.writeString(Path.of("target", "phrase-rules.txt"), table, StandardCharsets.UTF_8);

    double f1 = BoundaryAgreement.mean(breath).f1();
    assertThat(f1).as(table.toString()).isGreaterThanOrEqualTo(.90);
    for (String name : List.of("silence", "boundary-strength", "grouping-programme")) {
      assertThat(f1)
          .as(name)
          .isGreaterThan(BoundaryAgreement.mean(scored(PhraseRules.rule(name))).f1());
    }
    Map<String, Double> silenceByStyle = f1ByStyle(scored(SilenceRule.DEFAULT));
    f1ByStyle(breath)
        .forEach(
            (style, value) ->
                assertThat(value).as(style).isGreaterThanOrEqualTo(silenceByStyle.get(style)));
  }

  private static void append(StringBuilder table, String label, List<BoundaryAgreement> scored) {
    var mean = BoundaryAgreement.mean(scored);
    table.append(
        String.format(
            Locale.ROOT,
            "%s: precision %.3f, recall %.3f, F1 %.3f, kappa %.3f; F1 by style %s%n",
            label,
            mean.precision(),
            mean.recall(),
            mean.f1(),
            mean.kappa(),
            f1ByStyle(scored).entrySet().stream()
                .map(
                    entry ->
                        String.format(Locale.ROOT, "%s %.3f", entry.getKey(), entry.getValue()))
                .collect(Collectors.joining(", "))));
  }

  private static List<BoundaryAgreement> scored(PhraseRule rule) {
    return solos.examples().stream()
        .map(example -> agreement(example, rule.boundaries(example.solo())))
        .toList();
  }

  private static BoundaryAgreement agreement(Example example, List<Integer> found) {
    return BoundaryAgreement.exact(
        example.truth(), found, example.solo().notes().size(), FirstNote.NOT_COUNTED);
  }

  /** Mean F1 of each style with ten solos or more. */
  private static Map<String, Double> f1ByStyle(List<BoundaryAgreement> scored) {
    Map<String, List<BoundaryAgreement>> groups = new TreeMap<>();
    for (int i = 0; i < scored.size(); i++) {
      groups.computeIfAbsent(solos.styles().get(i), style -> new ArrayList<>()).add(scored.get(i));
    }
    Map<String, Double> means = new TreeMap<>();
    groups.forEach(
        (style, group) -> {
          if (group.size() >= 10) {
            means.put(style, BoundaryAgreement.mean(group).f1());
          }
        });
    return means;
  }
}
