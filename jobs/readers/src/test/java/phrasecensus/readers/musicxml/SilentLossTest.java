package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.result;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;

/** Values that ProxyMusic 4.0.3 turns into null or zero without a word; each tried with it. */
class SilentLossTest {
  private static String pitched(String pitch) {
    return "<note><pitch>" + pitch + "</pitch><duration>2</duration></note>" + note("D", 4, 2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"H", "c", "", "do"})
  void anInvalidStepLeavesAnOnsetWithoutPitch(String step) {
    ReadResult result = result(bar(pitched("<step>" + step + "</step><octave>4</octave>")));

    assertThat(notes(result.solo())).isEqualTo("2:62:2");
    assertThat(result.solo().unpitchedOnsets()).hasSize(1);
    assertThat(result.problems())
        .containsExactly(
            new Problem(
                "P1",
                "1",
                "invalid-value",
                "'step' of 'pitch' is '" + step + "'",
                "the note is kept as an onset without pitch"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"x", "4.5", "99999999999", "", "-7", "12"})
  void anInvalidOctaveLeavesAnOnsetWithoutPitch(String octave) {
    ReadResult result = result(bar(pitched("<step>C</step><octave>" + octave + "</octave>")));

    assertThat(notes(result.solo())).isEqualTo("2:62:2");
    assertThat(codes(result)).containsExactly("invalid-value");
  }

  @ParameterizedTest
  @ValueSource(strings = {"<step>C</step>", "<octave>4</octave>", ""})
  void aMissingStepOrOctaveIsReported(String pitch) {
    ReadResult result = result(bar(pitched(pitch)));

    assertThat(notes(result.solo())).isEqualTo("2:62:2");
    assertThat(codes(result)).containsExactly("pitch-not-complete");
  }

  @Test
  void aNoteWithoutAnyPitchIsReported() {
    ReadResult result = result(bar("<note><duration>2</duration></note>" + note("D", 4, 2)));

    assertThat(codes(result)).containsExactly("note-without-pitch");
  }

  @ParameterizedTest
  @ValueSource(strings = {"abc", "", "NaN", "2,5", "1e999999999", "-1", "99999999999999999999"})
  void anInvalidDurationGivesWayToTheType(String duration) {
    ReadResult result =
        result(
            bar(
                note("C", 4, 2, "<type>half</type>").replace(">2<", ">" + duration + "<")
                    + note("D", 4, 2)));

    assertThat(notes(result.solo())).isEqualTo("0:60:2 2:62:2");
    assertThat(codes(result)).containsExactly("invalid-value", "duration-missing");
  }

  @Test
  void anInvalidAlterIsReportedAndReadAsNatural() {
    ReadResult result =
        result(bar(pitched("<step>C</step><alter>sharp</alter><octave>4</octave>")));

    assertThat(notes(result.solo())).startsWith("0:60:2");
    assertThat(codes(result)).containsExactly("invalid-value");
  }

  @Test
  void ofTwoDurationsTheFirstCounts() {
    ReadResult result = result(bar(note("C", 4, 2, "<duration>1</duration>") + note("D", 4, 2)));

    assertThat(notes(result.solo())).isEqualTo("0:60:2 2:62:2");
    assertThat(codes(result)).containsExactly("repeated-element");
  }

  @Test
  void whiteSpaceAroundValuesIsTakenAwayAndReportedOnce() {
    ReadResult result =
        result(
            bar(
                pitched("<step> C\n</step><octave>4</octave>")
                    + pitched("<step>\tE </step><octave>4</octave>")));

    assertThat(notes(result.solo())).isEqualTo("0:60:2 2:62:2 4:64:2 6:62:2");
    assertThat(codes(result)).containsExactly("white-space-in-value", "bar-length");
  }

  @ParameterizedTest(name = "{0} is reported")
  @CsvSource({
    "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration><tie"
        + " type='begin'/></note>",
    "<barline><repeat direction='back'/></barline>",
    "<attributes><key><fifths>two</fifths></key></attributes>",
    "<attributes><divisions>-4</divisions></attributes>",
    "<attributes><time><beats>four</beats><beat-type>4</beat-type></time></attributes>",
    "<attributes><transpose><chromatic>down</chromatic></transpose></attributes>",
    "<harmony><root><root-step>H</root-step></root><kind>major</kind></harmony>",
    "<harmony type='maybe'><root><root-step>C</root-step></root><kind>major</kind></harmony>",
    "<direction><direction-type><bracket type='open'/></direction-type></direction>",
    "<sound tempo='fast'/>"
  })
  void everyOtherInvalidValueIsReported(String element) {
    ReadResult result = result(bar(element + note("C", 4, 4)));

    assertThat(result.isRead()).isTrue();
    assertThat(codes(result)).contains("invalid-value");
  }

  @Test
  void manyProblemsAreCountedBeyondTheFirstThousand() {
    StringBuilder notes = new StringBuilder();
    for (int i = 0; i < 1200; i++) {
      notes.append(note("C", 4, 1, "<type>t" + i + "</type>"));
    }

    ReadResult result = result(bar(notes.toString()));

    // The long bar is of another kind and is told all the same.
    assertThat(codes(result).stream().filter("invalid-value"::equals)).hasSize(1000);
    assertThat(codes(result).subList(1000, 1002)).containsExactly("bar-length", "more-problems");
    assertThat(result.problems().get(1001).found()).contains("{invalid-value=200}");
  }
}
