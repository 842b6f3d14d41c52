package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.COMMON_TIME;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.part;
import static phrasecensus.readers.musicxml.TinyScores.result;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Bar;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;

/**
 * The order of playing as MusicXML 4.0 defines {@code repeat}, {@code ending} and {@code sound}.
 */
class PlayOrderTest {
  private static final ReadSettings PLAYED = ReadSettings.defaults().withAsPlayed(true);
  private static final String FORWARD =
      "<barline location='left'><repeat direction='forward'/></barline>";
  private static final String BACKWARD =
      "<barline location='right'><repeat direction='backward'/></barline>";

  /** Bars numbered from 1, each with a whole note and some signs. */
  private static String score(String... signs) {
    StringBuilder measures = new StringBuilder();
    for (int i = 0; i < signs.length; i++) {
      measures
          .append("<measure number='")
          .append(i + 1)
          .append("'>")
          .append(i == 0 ? COMMON_TIME : "")
          .append(signs[i])
          .append(note("C", 4, 4))
          .append("</measure>");
    }
    return part(measures.toString());
  }

  private static String order(String score) {
    return result(score, PLAYED).solo().bars().stream()
        .map(Bar::number)
        .collect(Collectors.joining(" "));
  }

  private static String sound(String attributes) {
    return "<sound " + attributes + "/>";
  }

  private static String ending(String number, boolean repeated) {
    return "<barline location='left'><ending number='"
        + number
        + "' type='start'/></barline>"
        + "<barline location='right'><ending number='"
        + number
        + "' type='stop'/>"
        + (repeated ? "<repeat direction='backward'/>" : "")
        + "</barline>";
  }

  private static String words(String words) {
    return "<direction><direction-type><words>" + words + "</words></direction-type></direction>";
  }

  @Test
  void eachBarStandsOnceAsWritten() {
    assertThat(result(score("", BACKWARD, "")).solo().bars()).hasSize(3);
  }

  @Test
  void aRepeatWithoutStartGoesBackToTheBeginning() {
    assertThat(order(score("", BACKWARD, ""))).isEqualTo("1 2 1 2 3");
  }

  @Test
  void aSecondRepeatWithoutStartGoesBackToTheFirst() {
    assertThat(order(score(BACKWARD, "", BACKWARD))).isEqualTo("1 1 2 3 2 3");
  }

  @Test
  void repeatsMayBePlayedMoreThanTwice() {
    assertThat(
            order(score("", FORWARD + BACKWARD.replace("'backward'", "'backward' times='3'"), "")))
        .isEqualTo("1 2 2 2 3");
  }

  @Test
  void repeatsMayStandInsideEachOther() {
    assertThat(order(score(FORWARD, FORWARD + BACKWARD, BACKWARD, "")))
        .isEqualTo("1 2 2 3 1 2 2 3 4");
  }

  @Test
  void endingsArePlayedOnTheirPasses() {
    assertThat(order(score(FORWARD, ending("1,2", true), ending("3", false), "")))
        .isEqualTo("1 2 1 2 1 3 4");
  }

  @Test
  void aRepeatSignAtTheLastEndingRepeatsNothingMore() {
    assertThat(order(score(FORWARD, ending("1", true), ending("2", true), "")))
        .isEqualTo("1 2 1 3 4");
  }

  @Test
  void daCapoEndsAtFine() {
    assertThat(order(score("", sound("fine='yes'"), sound("dacapo='yes'")))).isEqualTo("1 2 3 1 2");
  }

  @Test
  void daCapoTakesNoRepeatsAgainAndTheLastEnding() {
    assertThat(
            order(
                score(
                    FORWARD,
                    ending("1", true),
                    ending("2", false) + sound("fine='yes'"),
                    sound("dacapo='yes'"))))
        .isEqualTo("1 2 1 3 4 1 3");
  }

  @Test
  void aRepeatMayAskToBeTakenAfterAJump() {
    assertThat(
            order(
                score(
                    FORWARD + BACKWARD.replace("'backward'", "'backward' after-jump='yes'"),
                    sound("dacapo='yes'"))))
        .isEqualTo("1 1 2 1 1 2");
  }

  @Test
  void dalSegnoAlCodaFollowsItsTokens() {
    assertThat(
            order(
                score(
                    "",
                    sound("segno='s'"),
                    sound("tocoda='c'"),
                    sound("dalsegno='s'"),
                    sound("coda='c'"))))
        .isEqualTo("1 2 3 4 2 3 5");
  }

  @Test
  void timeOnlyTellsOnWhichPassAJumpCounts() {
    assertThat(
            order(score(FORWARD, sound("tocoda='c' time-only='2'"), BACKWARD, sound("coda='c'"))))
        .isEqualTo("1 2 3 1 2 4");
  }

  @Test
  void usualWordsAreFollowedWhereNothingElseIsSaid() {
    ReadResult result = result(score("", words("Fine"), words("D.C. al Fine")), PLAYED);

    assertThat(result.solo().bars())
        .extracting(Bar::number)
        .containsExactly("1", "2", "3", "1", "2");
    assertThat(codes(result)).containsExactly("jump-by-words");
  }

  @Test
  void printedSignsAreFollowedWithWords() {
    String coda = "<direction><direction-type><coda/></direction-type></direction>";
    String segno = "<direction><direction-type><segno/></direction-type></direction>";

    assertThat(order(score("", segno, coda, words("D.S. al Coda"), coda)))
        .isEqualTo("1 2 3 4 2 3 5");
  }

  @Test
  void barsBeyondTheLimitAreRefusedWithItsName() {
    String score = score(BACKWARD.replace("'backward'", "'backward' times='900'"));

    ReadResult result = result(score, PLAYED.withLimit(Limit.UNFOLDED_BARS, 500));

    assertThat(result.isRead()).isFalse();
    assertThat(result.reason()).contains("unfolded-bars");
  }

  @Test
  void tiesChordsAndTemposGoOnInTheOrderOfPlaying() {
    String score =
        part(
            "<measure number='1'>"
                + COMMON_TIME
                + FORWARD
                + sound("tempo='120'")
                + TinyScores.chord("C", "major")
                + note("C", 4, 4)
                + "</measure>"
                + "<measure number='2'>"
                + TinyScores.chord("G", "major")
                + sound("tempo='60'")
                + note("D", 4, 4)
                + BACKWARD
                + "</measure>");

    ReadResult result = result(score, PLAYED);

    assertThat(notes(result.solo())).isEqualTo("0:60:4 4:62:4 8:60:4 12:62:4");
    assertThat(result.solo().chords())
        .extracting(span -> span.onset() + " " + span.concert())
        .containsExactly("0 C", "4 G", "8 C", "12 G");
    assertThat(result.solo().tempi())
        .extracting(tempo -> tempo.onset() + " " + tempo.quartersPerMinute())
        .containsExactly("0 120.0", "4 60.0", "8 120.0", "12 60.0");
  }

  @Test
  void notesOfOnePassSoundOnThatPassOnly() {
    String score =
        part(
            "<measure number='1'>"
                + COMMON_TIME
                + note("C", 4, 4).replace("<note>", "<note time-only='1'>")
                + "<backup><duration>4</duration></backup>"
                + note("D", 4, 4).replace("<note>", "<note time-only='2'>")
                + BACKWARD
                + "</measure>");

    assertThat(notes(result(score, PLAYED).solo())).isEqualTo("0:60:4 4:62:4");
  }
}
