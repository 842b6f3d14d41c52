package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.COMMON_TIME;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.part;
import static phrasecensus.readers.musicxml.TinyScores.result;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ReadResult;

/** Ties as MusicXML 4.0 defines {@code tie} (sound) and {@code tied} (picture). */
class TiesTest {
  private static final String START = "<tie type='start'/>";
  private static final String STOP = "<tie type='stop'/>";

  @Test
  void aChainOverBarLinesIsOneNote() {
    Solo solo =
        solo(
            part(
                "<measure number='1'>"
                    + COMMON_TIME
                    + note("C", 4, 2)
                    + note("D", 4, 2, START)
                    + "</measure><measure number='2'>"
                    + note("D", 4, 4, STOP + START)
                    + "</measure><measure number='3'>"
                    + note("D", 4, 1, STOP)
                    + note("D", 4, 3)
                    + "</measure>"));

    assertThat(notes(solo)).isEqualTo("0:60:2 2:62:7 9:62:3");
    assertThat(solo.notes().get(1).tiedLengths())
        .containsExactly(Fraction.of(2), Fraction.of(4), Fraction.of(1));
    assertThat(solo.notes().get(1).barIndex()).isZero();
  }

  @Test
  void tiedAloneCountsWhereThereIsNoTie() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2, "<notations><tied type='start'/></notations>")
                    + note("C", 4, 2, "<notations><tied type='stop'/></notations>")));

    assertThat(notes(solo)).isEqualTo("0:60:4");
  }

  @Test
  void enharmonicNotesMayBeTied() {
    String sharp =
        "<note><pitch><step>C</step><alter>1</alter><octave>4</octave></pitch>"
            + "<duration>2</duration>"
            + START
            + "</note>";
    String flat =
        "<note><pitch><step>D</step><alter>-1</alter><octave>4</octave></pitch>"
            + "<duration>2</duration>"
            + STOP
            + "</note>";

    assertThat(notes(solo(bar(sharp + flat)))).isEqualTo("0:61:4");
  }

  @Test
  void aTieToAnotherPitchJoinsNothing() {
    ReadResult result = result(bar(note("C", 4, 2, START) + note("D", 4, 2, STOP)));

    assertThat(notes(result.solo())).isEqualTo("0:60:2 2:62:2");
    assertThat(codes(result)).contains("tie-without-partner");
  }

  @Test
  void aTieOverAGapJoinsNothing() {
    ReadResult result =
        result(bar(note("C", 4, 1, START) + TinyScores.rest(1) + note("C", 4, 2, STOP)));

    assertThat(notes(result.solo())).isEqualTo("0:60:1 2:60:2");
    assertThat(codes(result)).contains("tie-without-partner");
  }

  @Test
  void aSlurBetweenEqualPitchesIsNoTie() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2, "<notations><slur type='start'/></notations>")
                    + note("C", 4, 2, "<notations><slur type='stop'/></notations>")));

    assertThat(notes(solo)).isEqualTo("0:60:2 2:60:2");
  }
}
