package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class MethodsTextTest {
  private static TableRow solo(String role, String file, String performer, String student) {
    TableRow.Builder row = TableRow.of(TableSchemas.named("solos"));
    for (Column column : TableSchemas.named("solos").columns()) {
      if (!column.nullable()) {
        row.set(
            column.name(),
            switch (column.type()) {
              case STRING -> "";
              case INTEGER -> 1;
              case LONG -> 1L;
              case DOUBLE -> 1.0;
              case BOOLEAN -> true;
              case DATE -> LocalDate.EPOCH;
              case STRING_ARRAY, INTEGER_ARRAY -> List.of();
            });
      }
    }
    return row.set("solo_id", role + "/" + file)
        .set("role", role)
        .set("file", file)
        .set("performer", performer)
        .set("student", student)
        .set("notes", 700)
        .set("phrases", 40)
        .build();
  }

  private static final TableSource TABLES =
      (table, equal) ->
          List.of(
                  solo("corpus", "a.xml", "A. Player", null),
                  solo("corpus", "b.xml", "A. Player", null),
                  solo("corpus", "c.xml", "B. Player", null),
                  solo("student", "d.xml", "", "C. Learner"))
              .stream()
              .filter(row -> row.text("role").equals(equal.get("role")))
              .toList();

  private static Manifest manifest(DataSource data) {
    return manifest(data, Map.of());
  }

  private static Manifest manifest(DataSource data, Map<String, String> further) {
    Map<String, String> settings = new LinkedHashMap<>();
    settings.put("phrase-rule", "silence");
    settings.put("phrase-rule.minimum-beats", "3/4");
    settings.put("anticipation", "true");
    settings.put("as-played", "false");
    settings.put("part", "");
    settings.put("resampling-seed", "4711");
    settings.put("resamples", "2000");
    settings.putAll(further);
    List<Manifest.Input> inputs = new ArrayList<>();
    for (String file : List.of("a.xml", "b.xml", "c.xml", "broken.xml")) {
      inputs.add(new Manifest.Input("corpus", file, "0".repeat(64)));
    }
    inputs.add(new Manifest.Input("student", "d.xml", "1".repeat(64)));
    return new Manifest(
        "Phrase Census 0.1.0",
        new Manifest.Study("x", "Four *solos*", "", data),
        settings,
        List.of("style"),
        new Manifest.Report(true, false),
        List.of(),
        inputs,
        7,
        Map.of("norms", new Manifest.Table(2, 10, "ab")));
  }

  private static List<String> paragraphs(DataSource data) {
    return MethodsText.paragraphs(manifest(data), TABLES, StatisticsCatalogue.builtIn());
  }

  @Test
  void theFirstParagraphNamesTheDataAndCountsWhatWasRead() {
    DataSource data = new DataSource("Open Solos 2", "CC BY 4.0", "A. Editor 2020", "");

    assertThat(paragraphs(data).get(0))
        .isEqualTo(
            "The corpus of the study “Four *solos*” is Open Solos 2 (CC BY 4.0). It holds 3 solos"
                + " by 2 named players, read from 4 MusicXML files, with 2,100 sounding notes in"
                + " 120 phrases; 1 file could not be read. 1 solo of 1 student was compared with it"
                + " and is not part of it. Data: A. Editor 2020.");
  }

  @Test
  void dataThatNobodyNamedAreNotMadeUp() {
    assertThat(paragraphs(DataSource.NOT_STATED).get(0))
        .startsWith("The corpus of the study “Four *solos*” holds 3 solos by 2 named players, ");
  }

  @Test
  void thePhraseRuleStandsWithItsNumbers() {
    assertThat(paragraphs(DataSource.NOT_STATED).get(1))
        .startsWith("Phrases were found by the rule “silence” (minimum-beats 3/4). Every bar was");
  }

  @Test
  void manyNumbersOfARuleStandInTheAppendix() {
    Map<String, String> numbers = new LinkedHashMap<>();
    for (int i = 1; i <= 7; i++) {
      numbers.put("phrase-rule.weight-" + i, "0." + i);
    }
    String text =
        MethodsText.markdown(
            manifest(DataSource.NOT_STATED, numbers), TABLES, StatisticsCatalogue.builtIn());

    assertThat(text)
        .contains(
            "(its 8 numbers stand among the settings of the study)",
            "\n## Settings of the study\n",
            "\n| `phrase-rule.weight-7` | 0.7 |\n");
  }

  @Test
  void whichFilesOfTheFolderWereTakenIsSaid() {
    Manifest manifest =
        manifest(
            DataSource.NOT_STATED,
            Map.of("only", "{\"style\":[\"bebop\",\"swing\"],\"year\":{\"from\":\"1940\"}}"));

    assertThat(MethodsText.paragraphs(manifest, TABLES, StatisticsCatalogue.builtIn()).get(0))
        .contains(
            " It is those files of its folder whose metadata say style: bebop or swing; year: from"
                + " 1940. ");
  }

  @Test
  void swingReadAsEvenEighthsIsSaid() {
    Manifest manifest = manifest(DataSource.NOT_STATED, Map.of("even-eighths", "true"));

    assertThat(MethodsText.paragraphs(manifest, TABLES, StatisticsCatalogue.builtIn()).get(1))
        .contains(
            " as written. Quarters divided in a long and a short note, two to one or three to one,"
                + " were read as two even eighths. A note that starts");
  }

  @Test
  void marksThatPeopleMadeAreNamedWithTheirChecksum() {
    Map<String, String> recorded =
        StudySettings.defaults().recorded(Map.of("minimum-beats", "3/4"), "marks.csv", "ab12");

    assertThat(
            MethodsText.paragraphs(
                    manifest(DataSource.NOT_STATED, recorded),
                    TABLES,
                    StatisticsCatalogue.builtIn())
                .get(1))
        .startsWith(
            "Phrases are those that people marked, in marks.csv (SHA-256 ab12); in solos without"
                + " marks they were found by the rule “"
                + StudySettings.DEFAULT_PHRASE_RULE
                + "” (minimum-beats 3/4). It takes the rule “breath” where rests tell the phrases"
                + " and the rule “for-songs” for a song whose rests do not: with words under its"
                + " notes and no rest before most of its lines, or with hardly a rest and long"
                + " notes in their place. Table solos says which it took and why. Every bar was");
  }

  @Test
  void furtherRulesOfASensitivityAreNamed() {
    Manifest asked =
        manifest(DataSource.NOT_STATED, Map.of("sensitivity", "breath, silence minimum-beats=3/2"));

    assertThat(MethodsText.paragraphs(asked, TABLES, StatisticsCatalogue.builtIn()).get(2))
        .contains(
            " by style. Norms were also made with phrases by the rules breath, silence"
                + " minimum-beats=3/2; table sensitivity says how far they lie apart. Intervals of"
                + " means");
  }

  @Test
  void seedAndVersionsAreThoseOfTheManifest() {
    assertThat(paragraphs(DataSource.NOT_STATED).get(2))
        .contains("catalogue, version 7,", "by style.", "2,000 resamples with the seed 4711");
    assertThat(paragraphs(DataSource.NOT_STATED).get(3))
        .startsWith("Made with Phrase Census 0.1.0; versions of the tables: norms 2.");
  }

  @Test
  void thePageDefinesEveryStatisticAndKeepsTextFromBeingMarkup() {
    String page =
        MethodsText.markdown(
            manifest(DataSource.NOT_STATED), TABLES, StatisticsCatalogue.builtIn());

    assertThat(page).contains("“Four \\*solos\\*”");
    for (StatisticDefinition each : StatisticsCatalogue.builtIn().all()) {
      assertThat(page).contains("| `" + each.key() + "` | " + each.name() + " |");
    }
  }
}
