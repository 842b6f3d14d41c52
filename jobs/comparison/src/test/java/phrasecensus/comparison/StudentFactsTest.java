package phrasecensus.comparison;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.comparison.InventedBeginners.Recipe;
import phrasecensus.comparison.InventedBeginners.Setting;
import phrasecensus.tables.AimsDefinition;
import phrasecensus.tables.TableRow;

/** What the metadata say of an invented solo: key, changes, chorus, level. */
class StudentFactsTest {
  /** Two flats on paper, an alto saxophone: sounds in D flat major. */
  private static final Setting ALTO =
      new Setting(4, 4, 16, -2, false, false, -9, -5, false, 110, false, false, false);

  private static Lessons read(Setting setting, String... metadata) {
    Map<String, String> row = new java.util.TreeMap<>();
    for (int i = 0; i < metadata.length; i += 2) {
      row.put(metadata[i], metadata[i + 1]);
    }
    return Lessons.of(
        Map.of("a.musicxml", InventedBeginners.score(Recipe.GOOD, setting, 7)),
        Map.of("a.musicxml", row),
        AimsDefinition.DEFAULT);
  }

  private static String centre(Lessons lessons) {
    TableRow solo = lessons.rows("solos").get(0);
    return solo.value("centre_tonic_pc")
        + " "
        + solo.text("centre_scale")
        + " "
        + solo.text("centre_source");
  }

  private static List<String> problems(Lessons lessons) {
    return lessons.rows("problems").stream().map(row -> row.text("code")).toList();
  }

  @Test
  void keyOfAStudentIsTheOneThatAgreesWithTheSignature() {
    assertThat(centre(read(ALTO, "key", "Bb"))).isEqualTo("1 major study");
    assertThat(centre(read(ALTO, "key", "Db major"))).isEqualTo("1 major study");
    assertThat(centre(read(ALTO, "key", "C dorian"))).isEqualTo("3 dorian study");
    assertThat(problems(read(ALTO, "key", "Bb"))).isEmpty();
  }

  @Test
  void keyThatContradictsTheSignatureWinsAndIsSaid() {
    Lessons lessons = read(ALTO, "key", "E minor");

    assertThat(centre(lessons)).startsWith("4 ").endsWith(" study");
    assertThat(problems(lessons)).containsExactly("key-contradicts-signature");
    assertThat(lessons.rows("problems").get(0).text("found"))
        .isEqualTo("the key 'E minor' in the metadata, and a signature of 2 flats");
  }

  @Test
  void unknownKeyIsSaidAndTheMusicTells() {
    Lessons lessons = read(ALTO, "key", "sad");

    assertThat(centre(lessons)).isEqualTo("1 major signature");
    assertThat(problems(lessons)).containsExactly("unknown-key");
  }

  @Test
  void changesAsTextAreLaidUnderTheSoloChorusAfterChorus() {
    Lessons lessons = read(ALTO, "changes", "Dbmaj7 | Bbm7 | Ebm7 | Ab7");

    assertThat(lessons.rows("chords")).hasSize(16);
    assertThat(lessons.rows("chords").get(5).text("symbol")).isEqualTo("B♭m7");
    assertThat(lessons.rows("chords").get(5).text("symbol_written")).isEqualTo("Gm7");
    assertThat(lessons.rows("solos").get(0).value("chorus_bars")).isEqualTo(4);
    assertThat(problems(lessons)).isEmpty();
  }

  @Test
  void changesThatThePlayerReadsAreMovedToWhatSounds() {
    Lessons lessons = read(ALTO, "changes", "Bbmaj7 | Gm7 | Cm7 | F7");

    assertThat(lessons.rows("chords").get(0).text("symbol")).isEqualTo("D♭maj7");
    assertThat(lessons.rows("chords").get(0).text("symbol_written")).isEqualTo("B♭maj7");
  }

  @Test
  void changesThatDoNotFitAreSaidWithTheBar() {
    Lessons lessons = read(ALTO, "changes", "Dbmaj7 | Bbm7 | Hm7 | Ab7 | Dbmaj7 | Ab7");

    assertThat(problems(lessons)).containsExactly("unknown-chord-in-changes", "changes-do-not-fit");
    assertThat(lessons.rows("problems").get(1).text("bar")).isEqualTo("13");
  }

  @Test
  void leadSheetThatIsNotThereIsSaid() {
    assertThat(problems(read(ALTO, "changes", "blues.musicxml")))
        .containsExactly("changes-not-found");
  }

  @Test
  void statedChorusCountsAndOtherFormsStayMetadata() {
    assertThat(read(ALTO, "chorus_bars", "8").rows("solos").get(0).value("chorus_bars"))
        .isEqualTo(8);
    assertThat(read(ALTO, "form", "A8 B8").rows("solos").get(0).value("chorus_bars")).isEqualTo(16);
    assertThat(problems(read(ALTO, "form", "blues with a tag"))).isEmpty();
    assertThat(problems(read(ALTO, "chorus_bars", "twelve")))
        .containsExactly("unknown-chorus-length");
  }

  @Test
  void levelThatNobodyDefinesIsSaid() {
    AimsDefinition aims =
        new AimsDefinition(
            "first-steps",
            List.of(),
            "level",
            AimsDefinition.Group.NOTHING,
            Map.of("2", new AimsDefinition.Group("none", List.of())),
            Map.of());
    Lessons lessons =
        Lessons.of(
            Map.of("a.musicxml", InventedBeginners.score(Recipe.GOOD, ALTO, 7)),
            Map.of("a.musicxml", Map.of("student", "Ada", "level", "9")),
            aims);

    assertThat(lessons.remarks())
        .contains(
            "The metadata give Ada the level '9', which the aims of the study do not define. The"
                + " aims for all hold. Levels: 2.");
  }

  @Test
  void solosOfOneNoteAndOfOneBarAreAnswered() {
    String one =
        "<score-partwise version=\"4.0\"><part-list><score-part"
            + " id=\"P1\"><part-name>Solo</part-name></score-part></part-list><part"
            + " id=\"P1\"><measure number=\"1\"><attributes><divisions>1"
            + "</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes><note>"
            + "<pitch><step>C</step><octave>5</octave></pitch><duration>4</duration></note></measure>"
            + "</part></score-partwise>";
    Lessons lessons =
        Lessons.of(
            Map.of("one.musicxml", one.getBytes(StandardCharsets.UTF_8)),
            Map.of(),
            AimsDefinition.DEFAULT);

    assertThat(lessons.first("one.musicxml")).isEqualTo("not_enough");
    assertThat(lessons.bySolo().get("one.musicxml").values())
        .extracting(row -> row.text("shortage"))
        .containsOnly("too_short");
  }
}
