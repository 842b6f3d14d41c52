package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.MetadataType;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;

/**
 * What metadata say of a solo of the corpus that its analysis must know: the columns of a lesson,
 * held back where people write them for other ends. Four invented bars of C major.
 */
class CorpusFactsTest {
  private static final String CHORD =
      "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>";

  private static String score(String chord) {
    StringBuilder bars = new StringBuilder();
    for (int bar = 1; bar <= 4; bar++) {
      bars.append("<measure number='").append(bar).append("'>");
      if (bar == 1) {
        bars.append("<attributes><divisions>1</divisions><key><fifths>0</fifths></key>");
        bars.append("<time><beats>4</beats><beat-type>4</beat-type></time></attributes>");
      }
      bars.append(chord);
      for (String step : List.of("C", "E", "G", "C")) {
        bars.append("<note><pitch><step>").append(step);
        bars.append("</step><octave>5</octave></pitch><duration>1</duration></note>");
      }
      bars.append("</measure>");
    }
    return "<score-partwise><part-list><score-part id='P1'><part-name>Solo</part-name>"
        + "</score-part></part-list><part id='P1'>"
        + bars
        + "</part></score-partwise>";
  }

  private static Map<String, List<TableRow>> rows(
      String chord, String keyMeant, Map<String, String> metadata) {
    StudySettings usual = StudySettings.defaults();
    StudySettings settings =
        new StudySettings(
            usual.phraseRule(),
            usual.phraseRuleSettings(),
            usual.anticipation(),
            usual.asPlayed(),
            usual.evenEighths(),
            usual.keepSlashNoteheads(),
            usual.part(),
            usual.sensitivity(),
            usual.limits(),
            keyMeant);
    Map<String, MetadataType> types =
        metadata.entrySet().stream()
            .collect(
                Collectors.toMap(
                    Map.Entry::getKey,
                    cell ->
                        cell.getValue().matches("\\d+")
                            ? MetadataType.INTEGER
                            : MetadataType.TEXT));
    return new FileRows(settings, MetadataColumns.solosSchema(types))
        .of("corpus", "a.musicxml", score(chord).getBytes(StandardCharsets.UTF_8), metadata)
        .rows();
  }

  private static TableRow solo(String chord, String keyMeant, Map<String, String> metadata) {
    return rows(chord, keyMeant, metadata).get("solos").get(0);
  }

  @Test
  void aKeyCountsWhereTheStudySaysHowItIsMeant() {
    TableRow solo = solo("", "sounding", Map.of("key", "A minor"));

    assertThat(solo.text("centre_source")).isEqualTo("study");
    assertThat(solo.integer("centre_tonic_pc")).isEqualTo(9);
  }

  @Test
  void aKeyOfUnsaidMeaningStaysMetadata() {
    TableRow solo = solo("", "", Map.of("key", "A minor"));

    assertThat(solo.text("centre_source")).isNotEqualTo("study");
    assertThat(solo.text("key")).isEqualTo("A minor");
  }

  @Test
  void changesAreLaidUnderASoloWithoutChords() {
    assertThat(rows("", "", Map.of("changes", "Cmaj7 | Am7")).get("chords"))
        .extracting(chord -> chord.text("symbol"))
        .containsExactly("Cmaj7", "Am7", "Cmaj7", "Am7");
  }

  @Test
  void aChorusLengthCountsAndStaysANumberBesideWhatWasFound() {
    TableRow solo = solo(CHORD, "", Map.of("chorus_bars", "2"));

    assertThat(solo.integer("chorus_bars")).isEqualTo(2);
    assertThat(solo.longInteger("metadata_chorus_bars")).isEqualTo(2);
  }

  @Test
  void aFormTellsTheChorusWhereNoChordsDo() {
    assertThat(solo("", "", Map.of("form", "A2 B2")).integer("chorus_bars")).isEqualTo(4);
    assertThat(solo(CHORD, "", Map.of("form", "A2 B2")).isMissing("chorus_bars")).isTrue();
  }
}
