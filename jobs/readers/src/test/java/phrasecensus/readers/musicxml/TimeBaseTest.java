package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.COMMON_TIME;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.part;
import static phrasecensus.readers.musicxml.TinyScores.rest;
import static phrasecensus.readers.musicxml.TinyScores.result;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.ReadResult;

/**
 * Time as MusicXML 4.0 defines it for {@code duration}, {@code backup}, {@code forward} and others.
 */
class TimeBaseTest {
  @Test
  void durationCountsDivisionsPerQuarterAndDivisionsMayChange() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 1)
                    + "<attributes><divisions>3</divisions></attributes>"
                    + note("D", 4, 1)
                    + note("E", 4, 1)
                    + note("F", 4, 1)
                    + "<attributes><divisions>2</divisions></attributes>"
                    + note("G", 4, 3)
                    + note("A", 4, 1)));

    assertThat(notes(solo)).isEqualTo("0:60:1 1:62:1/3 4/3:64:1/3 5/3:65:1/3 2:67:3/2 7/2:69:1/2");
  }

  @Test
  void divisionsMayBeDecimal() {
    String score =
        part(
            "<measure number='1'><attributes><divisions>0.5</divisions></attributes>"
                + note("C", 4, 1)
                + "</measure>");

    assertThat(notes(solo(score))).isEqualTo("0:60:2");
  }

  @Test
  void backupStartsASecondVoiceAndTheVoiceWithMostNotesIsTheLine() {
    ReadResult result =
        result(
            bar(
                note("C", 4, 4, "<voice>1</voice>")
                    + "<backup><duration>4</duration></backup>"
                    + note("E", 5, 2, "<voice>2</voice>")
                    + note("F", 5, 2, "<voice>2</voice>")));

    assertThat(notes(result.solo())).isEqualTo("0:76:2 2:77:2");
    assertThat(result.notesInOtherVoicesLeftOut()).isEqualTo(1);
    assertThat(codes(result)).containsExactly("other-voices");
  }

  @Test
  void forwardLeavesSilence() {
    Solo solo =
        solo(bar(note("C", 4, 1) + "<forward><duration>2</duration></forward>" + note("D", 4, 1)));

    assertThat(notes(solo)).isEqualTo("0:60:1 3:62:1");
  }

  @Test
  void theTopNoteOfAStackMakesTheLine() {
    ReadResult result =
        result(
            bar(
                note("C", 4, 4)
                    + "<note><chord/><pitch><step>E</step><octave>5</octave></pitch>"
                    + "<duration>4</duration></note>"
                    + "<note><chord/><pitch><step>G</step><octave>4</octave></pitch>"
                    + "<duration>4</duration></note>"));

    assertThat(notes(result.solo())).isEqualTo("0:76:4");
    assertThat(result.notesInStacksLeftOut()).isEqualTo(2);
    assertThat(codes(result)).containsExactly("stacks-in-line");
  }

  @Test
  void aDirectionInsideAStackDoesNotBreakIt() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2)
                    + "<direction><direction-type><words>loud</words></direction-type></direction>"
                    + "<note><chord/><pitch><step>E</step><octave>4</octave></pitch>"
                    + "<duration>2</duration></note>"
                    + note("D", 4, 2)));

    assertThat(notes(solo)).isEqualTo("0:64:2 2:62:2");
  }

  @Test
  void cueNotesTakeTimeButBelongToSomeoneElse() {
    Solo solo =
        solo(
            bar(
                "<note><cue/><pitch><step>C</step><octave>4</octave></pitch>"
                    + "<duration>2</duration></note>"
                    + note("D", 4, 2)));

    assertThat(notes(solo)).isEqualTo("2:62:2");
  }

  @Test
  void unpitchedSoundsAreOnsetsWithoutPitch() {
    Solo solo = solo(bar("<note><unpitched/><duration>1</duration></note>" + note("D", 4, 3)));

    assertThat(notes(solo)).isEqualTo("1:62:3");
    assertThat(solo.unpitchedOnsets()).containsExactly(Fraction.ZERO);
  }

  @Test
  void graceNotesAreOrnamentsOutsideTime() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2)
                    + "<note><grace"
                    + " slash='yes'/><pitch><step>D</step><octave>4</octave></pitch></note>"
                    + note("E", 4, 2)));

    assertThat(notes(solo)).isEqualTo("0:60:2 2:64:2");
    assertThat(solo.notes().get(1).graceBefore()).isEqualTo(1);
    assertThat(solo.graceNotes())
        .singleElement()
        .satisfies(
            grace -> {
              assertThat(grace.onset()).isEqualTo(Fraction.of(2));
              assertThat(grace.beforeNote()).isEqualTo(1);
              assertThat(grace.slashed()).isTrue();
            });
  }

  @Test
  void hiddenNotesWithoutOthersSoundAndHiddenRestsTakeTime() {
    Solo solo =
        solo(
            bar(
                "<note print-object='no'><rest/><duration>2</duration></note>"
                    + "<note print-object='no'><pitch><step>C</step><octave>4</octave></pitch>"
                    + "<duration>2</duration></note>"));

    assertThat(notes(solo)).isEqualTo("2:60:2");
  }

  @Test
  void aWholeBarRestWithoutDurationFillsTheBar() {
    Solo solo =
        solo(
            part(
                "<measure number='1'>"
                    + COMMON_TIME
                    + "<note><rest measure='yes'/></note></measure>"
                    + "<measure number='2'>"
                    + note("C", 4, 4)
                    + "</measure>"));

    assertThat(notes(solo)).isEqualTo("4:60:4");
  }

  @Test
  void anEmptyBarLastsItsMetre() {
    Solo solo =
        solo(
            part(
                "<measure number='1'>"
                    + COMMON_TIME
                    + "</measure>"
                    + "<measure number='2'>"
                    + note("C", 4, 4)
                    + "</measure>"));

    assertThat(notes(solo)).isEqualTo("4:60:4");
  }

  @Test
  void multipleRestStandsInTheFileBarByBar() {
    Solo solo =
        solo(
            part(
                "<measure number='1'>"
                    + COMMON_TIME
                    + "<attributes><measure-style><multiple-rest>2</multiple-rest>"
                    + "</measure-style></attributes>"
                    + rest(4)
                    + "</measure>"
                    + "<measure number='2'>"
                    + rest(4)
                    + "</measure>"
                    + "<measure number='3'>"
                    + note("C", 4, 4)
                    + "</measure>"));

    assertThat(notes(solo)).isEqualTo("8:60:4");
  }

  @Test
  void missingDurationIsTakenFromTypeDotsAndTuplet() {
    ReadResult result =
        result(
            bar(
                "<note><pitch><step>C</step><octave>4</octave></pitch><type>quarter</type><dot/></note>"
                    + "<note><pitch><step>D</step><octave>4</octave></pitch><type>eighth</type>"
                    + "<time-modification><actual-notes>3</actual-notes>"
                    + "<normal-notes>2</normal-notes></time-modification></note>"));

    assertThat(notes(result.solo())).isEqualTo("0:60:3/2 3/2:62:1/3");
    assertThat(codes(result)).containsOnly("duration-missing");
  }

  @Test
  void durationCountsWhereTheTypeDiffers() {
    ReadResult result = result(bar(note("C", 4, 3, "<type>half</type>") + note("D", 4, 1)));

    assertThat(notes(result.solo())).isEqualTo("0:60:3 3:62:1");
    assertThat(codes(result)).containsExactly("duration-differs-from-type");
  }

  @Test
  void nestedTupletsAreTimedByDuration() {
    String nested =
        "<type>eighth</type><time-modification><actual-notes>9</actual-notes>"
            + "<normal-notes>4</normal-notes></time-modification>";
    String score =
        part(
            "<measure number='1'><attributes><divisions>9</divisions></attributes>"
                + note("C", 4, 2, nested)
                + note("D", 4, 2, nested)
                + "</measure>");

    ReadResult result = result(score);

    assertThat(notes(result.solo())).isEqualTo("0:60:2/9 2/9:62:2/9");
    assertThat(result.problems()).isEmpty();
  }

  @Test
  void aNoteThatSoundsIntoTheNextIsCutThere() {
    ReadResult result =
        result(bar(note("C", 4, 4) + "<backup><duration>2</duration></backup>" + note("D", 4, 2)));

    assertThat(notes(result.solo())).isEqualTo("0:60:2 2:62:2");
    assertThat(codes(result)).containsExactly("notes-overlap");
  }

  @Test
  void noteheadsWithUnsurePitchAreMarked() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 1, "<notehead>x</notehead>")
                    + note("D", 4, 1, "<notehead parentheses='yes'>normal</notehead>")
                    + note("E", 4, 2, "<notehead>normal</notehead>")));

    assertThat(solo.notes()).extracting(n -> n.uncertain()).containsExactly(true, true, false);
  }

  @Test
  void microtonesKeepTheirCents() {
    Solo solo =
        solo(
            bar(
                "<note><pitch><step>E</step><alter>-0.5</alter><octave>4</octave></pitch>"
                    + "<duration>4</duration></note>"));

    assertThat(solo.notes().get(0).concert().toString()).isEqualTo("E4-50¢");
  }
}
