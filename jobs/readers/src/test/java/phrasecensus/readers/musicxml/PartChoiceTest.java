package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.COMMON_TIME;
import static phrasecensus.readers.musicxml.TinyScores.chord;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.result;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;

class PartChoiceTest {
  private record Part(String name, String contents) {}

  private static String score(Part... parts) {
    StringBuilder list = new StringBuilder();
    StringBuilder music = new StringBuilder();
    for (int i = 0; i < parts.length; i++) {
      String id = "P" + (i + 1);
      list.append("<score-part id='")
          .append(id)
          .append("'><part-name>")
          .append(parts[i].name())
          .append("</part-name></score-part>");
      music
          .append("<part id='")
          .append(id)
          .append("'><measure number='1'>")
          .append(COMMON_TIME)
          .append(parts[i].contents())
          .append("</measure></part>");
    }
    return "<score-partwise><part-list>" + list + "</part-list>" + music + "</score-partwise>";
  }

  private static String chosen(String score) {
    return result(score).solo().description().partName();
  }

  private static final String TWO = note("C", 4, 2) + note("D", 4, 2);
  private static final String FOUR = note("C", 4, 1).repeat(4);

  @Test
  void thePartWithMostSingleNotesIsTheSolo() {
    assertThat(chosen(score(new Part("Trumpet", TWO), new Part("Clarinet", FOUR))))
        .isEqualTo("Clarinet");
  }

  @Test
  void aPartCalledSoloComesFirst() {
    assertThat(chosen(score(new Part("Clarinet", FOUR), new Part("Sax Solo", TWO))))
        .isEqualTo("Sax Solo");
  }

  @Test
  void bassAndStacksComeLast() {
    String stack =
        (note("C", 4, 1)
                + "<note><chord/><pitch><step>E</step><octave>4</octave></pitch>"
                + "<duration>1</duration></note>")
            .repeat(4);

    assertThat(
            chosen(
                score(new Part("Guitar", stack), new Part("Bass", FOUR), new Part("Flute", TWO))))
        .isEqualTo("Flute");
    assertThat(chosen(score(new Part("Bass Clarinet", FOUR), new Part("Flute", TWO))))
        .isEqualTo("Bass Clarinet");
  }

  /** Names of basses in several languages; instruments with bass in their name are none. */
  @ParameterizedTest
  @CsvSource({
    "Basso, Flauto",
    "Contrebasse, Flûte",
    "Kontrabass, Flöte",
    "Contrabajo, Flauta",
    "Baixo, Flauta",
    "Acoustic Bass, Voice",
    "E-Bass, Gesang",
    "Left Hand, Right Hand",
  })
  void melodyInstrumentsComeBeforeBassInAnyLanguage(String bass, String melody) {
    assertThat(chosen(score(new Part(bass, FOUR), new Part(melody, TWO)))).isEqualTo(melody);
  }

  @ParameterizedTest
  @ValueSource(strings = {"Bass Trombone", "Bassklarinette", "Bassoon", "Bass Flute"})
  void lowMelodyInstrumentsAreNoBass(String name) {
    assertThat(chosen(score(new Part("Flute", TWO), new Part(name, FOUR)))).isEqualTo(name);
  }

  @Test
  void aPartInTheRegisterOfABassIsOne() {
    String low = note("C", 2, 1).repeat(4);

    assertThat(chosen(score(new Part("Part 1", low), new Part("Part 2", TWO)))).isEqualTo("Part 2");
  }

  @Test
  void aLowPartBelowAMelodyInstrumentIsItsBass() {
    String cello = note("C", 3, 1).repeat(4);
    String violin = note("C", 5, 2) + note("D", 5, 2);

    assertThat(chosen(score(new Part("Violoncello", cello), new Part("Violin", violin))))
        .isEqualTo("Violin");
    assertThat(chosen(score(new Part("Violoncello", cello), new Part("Viola", cello))))
        .isEqualTo("Violoncello");
  }

  @Test
  void aFewNotesOfAMelodyInstrumentDoNotMakeItTheSolo() {
    String many = note("C", 3, 1).repeat(20);

    assertThat(chosen(score(new Part("Bass", many), new Part("Flute", TWO)))).isEqualTo("Bass");
  }

  @Test
  void bassComesBeforeDrums() {
    String drums = "<note><unpitched/><duration>1</duration></note>".repeat(4) + FOUR;

    assertThat(chosen(score(new Part("Batteria", drums), new Part("Basso", TWO))))
        .isEqualTo("Basso");
    assertThat(
            result(score(new Part("Flute", FOUR), new Part("Bass", FOUR)))
                .solo()
                .description()
                .partReason())
        .isEqualTo("It is a melody instrument and has 4 single notes; 2 parts have notes.");
  }

  @Test
  void theSettingsNameAPartByIdOrName() {
    String score = score(new Part("Trumpet", TWO), new Part("Clarinet", FOUR));

    ReadSettings byName = ReadSettings.defaults().withPreferredPart("trumpet");
    ReadSettings byId = ReadSettings.defaults().withPreferredPart("P1");

    assertThat(result(score, byName).solo().description().partId()).isEqualTo("P1");
    assertThat(result(score, byId).solo().description().partReason())
        .isEqualTo("The settings name this part.");
  }

  @Test
  void aNamedPartThatIsMissingIsReported() {
    ReadResult result =
        result(score(new Part("Trumpet", TWO)), ReadSettings.defaults().withPreferredPart("Oboe"));

    assertThat(codes(result)).containsExactly("part-not-found");
    assertThat(result.solo().description().partName()).isEqualTo("Trumpet");
  }

  @Test
  void chordsOfAnotherPartAreConvertedByItsOwnTransposition() {
    String concertPiano = chord("C", "minor-seventh") + note("C", 2, 4);
    String alto =
        "<attributes><transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose>"
            + "</attributes>"
            + note("A", 4, 1).repeat(4);

    ReadResult result = result(score(new Part("Alto Sax", alto), new Part("Piano", concertPiano)));

    assertThat(result.solo().description().partName()).isEqualTo("Alto Sax");
    assertThat(result.solo().chords().get(0).concert().symbol()).isEqualTo("Cm7");
    assertThat(result.solo().chords().get(0).written().symbol()).isEqualTo("Am7");
    assertThat(result.solo().description().chordSource()).contains("Piano");
  }

  @Test
  void timewiseScoresHoldTheSameMusic() {
    String timewise =
        "<score-timewise><part-list><score-part id='P1'><part-name>A</part-name></score-part>"
            + "<score-part id='P2'><part-name>B</part-name></score-part></part-list>"
            + "<measure number='0' implicit='yes'><part id='P1'>"
            + COMMON_TIME
            + note("C", 4, 1)
            + "</part><part id='P2'>"
            + COMMON_TIME
            + note("E", 4, 1)
            + "</part></measure>"
            + "<measure number='1'><part id='P1'>"
            + FOUR
            + "</part><part id='P2'>"
            + note("D", 4, 4)
            + "</part></measure></score-timewise>";

    ReadResult result = result(timewise);

    assertThat(notes(result.solo())).isEqualTo("0:60:1 1:60:1 2:60:1 3:60:1 4:60:1");
    assertThat(result.solo().bars().get(0).pickup()).isTrue();
    assertThat(result.parts()).isEqualTo(2);
  }
}
