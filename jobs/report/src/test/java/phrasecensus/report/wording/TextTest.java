package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

class TextTest {
  private static final Path SOURCES = Path.of("src/main");

  @Test
  void placesAreFilledInOrder() {
    assertThat(Text.of("value.range", "1", "2")).isEqualTo("1\u00a0to\u00a02");
  }

  @Test
  void aKeyWithoutWordsIsAFault() {
    assertThatThrownBy(() -> Text.of("no.such.key"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot find words for: no.such.key");
  }

  /** Templates only lay out: what a reader reads stands in the wording. */
  @Test
  void templatesHoldNoWordsOfTheirOwn() throws IOException {
    try (Stream<Path> templates = Files.list(SOURCES.resolve("jte"))) {
      for (Path template : templates.sorted().toList()) {
        String text = Files.readString(template);
        String bare =
            withoutCalls(text.replaceAll("(?m)^@(import|param).*$", ""))
                .replaceAll("@(else|endif|endfor)", " ")
                .replaceAll("(?s)<[^>]*>", " ");

        assertThat(bare).as(template.toString()).doesNotContainPattern("[A-Za-z]{2,}");
      }
    }
  }

  /** What has a blank in a picture's source is a list of style names, else it is a sentence. */
  @Test
  void picturesHoldNoWordsOfTheirOwn() throws IOException {
    String styles =
        Files.readString(SOURCES.resolve("resources/phrasecensus/report/look/report.css"));
    try (Stream<Path> files = Files.list(SOURCES.resolve("java/phrasecensus/report/picture"))) {
      for (Path file : files.sorted().toList()) {
        String code =
            Files.readString(file)
                .replaceAll("(?s)/\\*.*?\\*/|//[^\n]*", "")
                .replaceAll("definition\\.range\\(\\)\\.contains\\(\"[^\"]*\"\\)", "");
        Matcher literal = Pattern.compile("\"([^\"\n]*)\"").matcher(code);
        while (literal.find()) {
          String text = literal.group(1);
          boolean sentence =
              text.matches(".*[A-Za-z].*")
                  && text.contains(" ")
                  && !text.strip().equals("value v-")
                  && !text.startsWith("-");
          for (String word : sentence ? text.strip().split(" +") : new String[0]) {
            assertThat(word.isEmpty() || styles.contains("." + word))
                .as(file + ": " + text)
                .isTrue();
          }
          assertThat(text).as(file.toString()).doesNotContainPattern("^[A-Z][a-z]|[A-Za-z][:,.;] ");
        }
      }
    }
  }

  /** Without {@code $…{…}} and {@code @word(…)}, whatever is nested in them. */
  private static String withoutCalls(String template) {
    StringBuilder bare = new StringBuilder();
    Matcher start = Pattern.compile("\\$(unsafe)?\\{|@[a-z.]+\\(|@`").matcher(template);
    int at = 0;
    while (start.find(at)) {
      bare.append(template, at, start.start()).append(' ');
      if (start.group().equals("@`") || start.group().equals("@template.shell(")) {
        // What is between these is laid out like the rest.
        at = start.end();
        continue;
      }
      int depth = 1;
      at = start.end();
      while (depth > 0) {
        char next = template.charAt(at++);
        depth += next == '(' || next == '{' ? 1 : next == ')' || next == '}' ? -1 : 0;
      }
    }
    return bare.append(template.substring(at))
        .toString()
        .replaceAll("shell = |content = ", "")
        .replaceAll("page\\.shell\\(\\),", "");
  }

  /** True where the sources add something to a beginning of the key of two words or more. */
  private static boolean isPutTogether(String key, StringBuilder sources) {
    int dot = key.indexOf('.', key.indexOf('.') + 1);
    while (dot >= 0) {
      if (sources.indexOf('"' + key.substring(0, dot + 1) + "\" +") >= 0
          || sources.indexOf('"' + key.substring(0, dot) + "\" +") >= 0) {
        return true;
      }
      dot = key.indexOf('.', dot + 1);
    }
    return sources.indexOf('"' + key.substring(0, key.lastIndexOf('.') + 1) + "\" +") >= 0;
  }

  @Test
  void everyKeyIsUsed() throws IOException {
    StringBuilder sources = new StringBuilder();
    try (Stream<Path> files = Files.walk(SOURCES)) {
      for (Path file : files.filter(f -> f.toString().matches(".*\\.(java|jte)")).toList()) {
        sources.append(Files.readString(file));
      }
    }
    Set<String> unused = new TreeSet<>();
    for (String key : Text.keys()) {
      boolean used =
          sources.indexOf('"' + key + '"') >= 0
              || key.matches("(n|mix\\.value)\\..*")
              || isPutTogether(key, sources)
              || key.startsWith("student.") && sources.indexOf('"' + key.substring(8) + '"') >= 0
              || key.matches("student\\.(starts|ends|degrees|form)\\.(title|none)");
      if (!used) {
        unused.add(key);
      }
    }

    assertThat(unused).isEmpty();
  }

  @Test
  void everyComparedStatisticHasASuggestionForBothSides() {
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().all()) {
      if (definition.compared()) {
        assertThat(Text.hasPractice(definition.key() + ".family")).as(definition.key()).isTrue();
        for (String side : new String[] {"below", "above"}) {
          for (String part : new String[] {"title", "task", "sign"}) {
            String key = definition.key() + "." + side + "." + part;
            assertThat(Text.hasPractice(key)).as(key).isTrue();
          }
        }
      }
    }
  }

  /** Nobody is told to undo what an aim asks for: longer lines where breaths are asked, say. */
  @ParameterizedTest
  @CsvSource({
    "phrase_length_bars.below, phrases",
    "sounding_share.below, phrases",
    "silence_after_beats.above, phrases",
    "value_share_eighth.above, movement",
    "centre_scale_share.above, tonal_centre",
    "landing_chord_tone_share.above, landings"
  })
  void whatWouldUndoAnAimSaysSo(String suggestion, String question) {
    assertThat(Text.practice(suggestion + ".undoes")).isEqualTo(question);
  }

  @Test
  void everySuggestionBelongsToAComparedStatistic() {
    for (String key : Text.practiceKeys()) {
      assertThat(StatisticsCatalogue.builtIn().named(key.substring(0, key.indexOf('.'))))
          .as(key)
          .hasValueSatisfying(definition -> assertThat(definition.compared()).isTrue());
    }
  }

  /** A suggestion asks for no more playing time, for no strain, and grades nobody. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "play more",
        "practise more",
        "every day",
        "hours",
        "as loud",
        "as fast",
        "faster and",
        "louder",
        "push",
        "must",
        "should",
        "wrong",
        "bad",
        "weak",
        "poor",
        "mistake",
        "better",
        "correct",
        "improve",
        "too many",
        "too few",
        "too long",
        "too short",
        "hold your breath"
      })
  void suggestionsDoNotDrive(String word) {
    Pattern pattern = Pattern.compile("\\b" + word + "\\b");
    for (String key : Text.practiceKeys()) {
      Matcher found = pattern.matcher(Text.practice(key).toLowerCase(Locale.ROOT));
      assertThat(found.find()).as(key).isFalse();
    }
  }
}
