package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.chord;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.result;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.ReadResult;

/**
 * Transposition as MusicXML 4.0 defines {@code transpose}; intervals of instruments: common
 * practice.
 */
class TranspositionReadingTest {
  private static String transpose(String contents) {
    return "<attributes><transpose>" + contents + "</transpose></attributes>";
  }

  private static final String ALTO = "<diatonic>-5</diatonic><chromatic>-9</chromatic>";

  @Test
  void notesChordsAndKeyOfAnAltoSaxophoneSoundASixthLower() {
    Solo solo =
        solo(
            bar(
                "<attributes><key><fifths>1</fifths></key><transpose>"
                    + ALTO
                    + "</transpose></attributes>"
                    + chord("A", "minor-seventh")
                    + note("A", 4, 4)));

    assertThat(solo.notes().get(0).concert().toString()).isEqualTo("C4");
    assertThat(solo.notes().get(0).written().toString()).isEqualTo("A4");
    assertThat(solo.chords().get(0).concert().symbol()).isEqualTo("Cm7");
    assertThat(solo.chords().get(0).written().symbol()).isEqualTo("Am7");
    assertThat(solo.keys().get(0).concertFifths()).isEqualTo(-2);
    assertThat(solo.keys().get(0).writtenFifths()).isEqualTo(1);
  }

  @Test
  void theOctaveChangeOfATenorSaxophoneMovesNotesButNotNames() {
    Solo solo =
        solo(
            bar(
                transpose(
                        "<diatonic>-1</diatonic><chromatic>-2</chromatic>"
                            + "<octave-change>-1</octave-change>")
                    + chord("D", "major")
                    + note("D", 5, 4)));

    assertThat(solo.notes().get(0).concert().toString()).isEqualTo("C4");
    assertThat(solo.chords().get(0).concert().symbol()).isEqualTo("C");
  }

  @Test
  void withoutDiatonicTheUsualIntervalIsAssumed() {
    Solo solo = solo(bar(transpose("<chromatic>-3</chromatic>") + note("C", 5, 4)));

    assertThat(solo.notes().get(0).concert().toString()).isEqualTo("A4");
  }

  @Test
  void aDoublingPlayerChangesTranspositionInMidPart() {
    Solo solo =
        solo(
            bar(
                transpose(ALTO)
                    + note("A", 4, 2)
                    + transpose("<diatonic>0</diatonic><chromatic>0</chromatic>")
                    + note("A", 4, 2)));

    assertThat(solo.notes()).extracting(n -> n.concert().toString()).containsExactly("C4", "A4");
  }

  @Test
  void aScoreInConcertPitchKeepsOnlyOctaves() {
    String score =
        bar(transpose(
                    "<diatonic>-1</diatonic><chromatic>-2</chromatic>"
                        + "<octave-change>-1</octave-change>")
                + note("D", 5, 4))
            .replace("<part-list>", "<defaults><concert-score/></defaults><part-list>");

    ReadResult result = result(score);

    assertThat(result.solo().notes().get(0).concert().toString()).isEqualTo("D4");
    assertThat(codes(result)).containsExactly("transposition-in-concert-score");
  }

  @Test
  void howAPartWouldBeWrittenIsNotApplied() {
    Solo solo =
        solo(
            bar(
                "<attributes><for-part><part-transpose><chromatic>-2</chromatic></part-transpose>"
                    + "</for-part></attributes>"
                    + note("D", 5, 4)));

    assertThat(solo.notes().get(0).concert().toString()).isEqualTo("D5");
  }

  @Test
  void octaveLinesAndOctaveClefsArePictureOnly() {
    Solo solo =
        solo(
            bar(
                "<attributes><clef><sign>G</sign><line>2</line>"
                    + "<clef-octave-change>-1</clef-octave-change></clef></attributes>"
                    + "<direction><direction-type><octave-shift type='down' size='8'/>"
                    + "</direction-type></direction>"
                    + note("C", 6, 4)));

    assertThat(solo.notes().get(0).concert().toString()).isEqualTo("C6");
  }

  @Test
  void octaveDoublingIsReported() {
    ReadResult result =
        result(bar(transpose("<chromatic>0</chromatic><double/>") + note("C", 4, 4)));

    assertThat(result.solo().notes()).hasSize(1);
    assertThat(codes(result)).containsExactly("octave-doubling");
  }
}
