package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.result;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.readers.ReadResult;

/** Ranges and transpositions of instruments: common practice, no source. */
class ConcertPitchSuspicionTest {
  private static final String CODE = "concert-pitch-suspected";
  private static final String ALTO = "<diatonic>-5</diatonic><chromatic>-9</chromatic>";
  private static final String TENOR =
      "<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change>";

  private static String transpose(String contents) {
    return "<attributes><transpose>" + contents + "</transpose></attributes>";
  }

  private static ReadResult read(String part, String instrument, String contents) {
    return result(
        bar(contents)
            .replace(
                "<part-name>Solo</part-name>",
                "<part-name>"
                    + part
                    + "</part-name><score-instrument id='I1'><instrument-name>"
                    + instrument
                    + "</instrument-name></score-instrument>"));
  }

  @Test
  void soundingPitchesUnderATransposedPartAreSuspectedAndKept() {
    // A tenor saxophone sounds down to A flat 2; its player never reads below B flat 3.
    ReadResult result = read("Tenor Sax", "", transpose(TENOR) + note("E", 3, 2) + note("A", 4, 2));

    assertThat(codes(result)).containsExactly(CODE);
    assertThat(result.problems().get(0).found())
        .isEqualTo(
            "transposed as the file says the line goes from D2 to G3, beyond a tenor saxophone"
                + " (A♭2 to G6); as stored, E3 to A4, it fits, so the file may hold sounding"
                + " pitches");
    assertThat(result.solo().notes().get(0).concert().toString()).isEqualTo("D2");
  }

  @Test
  void aPartWrittenAsThePlayerReadsItIsNotSuspected() {
    // The written range of the saxophone, B flat 3 to F 6.
    ReadResult result = read("Tenor Sax", "", transpose(TENOR) + note("B", 3, 2) + note("F", 6, 2));

    assertThat(codes(result)).isEmpty();
  }

  @Test
  void aLineThatFitsNeitherWayIsNotSuspected() {
    ReadResult result = read("Alto Sax", "", transpose(ALTO) + note("C", 2, 2) + note("C", 5, 2));

    assertThat(codes(result)).isEmpty();
  }

  @Test
  void withoutAKnownInstrumentNothingIsSuspected() {
    assertThat(codes(read("Lead", "", transpose(ALTO) + note("G", 3, 4)))).isEmpty();
  }

  @Test
  void aPlayerWhoChangesInstrumentsIsNotSuspected() {
    ReadResult result =
        read(
            "Alto Sax", "", transpose(ALTO) + note("G", 3, 2) + transpose(TENOR) + note("G", 3, 2));

    assertThat(codes(result)).isEmpty();
  }

  @Test
  void theInstrumentIsKnownByEitherNameButNotByTwoThatDiffer() {
    String line = transpose(ALTO) + note("G", 3, 4);

    assertThat(codes(read("Solo", "Alto Saxophone", line))).containsExactly(CODE);
    assertThat(codes(read("Alto Saxophone", "Clarinet", line))).isEmpty();
  }

  @ParameterizedTest(name = "{0} is a {1}")
  @CsvSource({
    "Tenor Saxophone, tenor saxophone",
    "Tenor Sax., tenor saxophone",
    "Tenorsaxophon, tenor saxophone",
    "Saxophone ténor, tenor saxophone",
    "E♭ Alto Sax 2, alto saxophone",
    "Baritone Saxophone, baritone saxophone",
    "Saxophone baryton, baritone saxophone",
    "B♭ Clarinet, clarinet",
    "Clarinet in B flat, clarinet",
    "Bass Clarinet, bass clarinet",
    "Bassklarinette, bass clarinet",
    "Trumpet in Bb 1, trumpet",
    "Flügelhorn, flugelhorn",
    "Querflöte, flute",
    "Double Bass, double bass",
    "TROMBONE, trombone"
  })
  void partsAreKnownByPlainWords(String name, String instrument) {
    assertThat(InstrumentRange.named(name))
        .hasValueSatisfying(range -> assertThat(range.instrument()).isEqualTo(instrument));
  }

  @ParameterizedTest
  @CsvSource({
    "Alto", "Sax", "Tenor", "Alto Flute in G", "Eb Clarinet", "Clarinet in E flat",
    "Piccolo Trumpet", "Bass Trombone", "Bass Guitar", "Contrabass Clarinet", "Solo", "''"
  })
  void otherInstrumentsAndUnclearNamesAreLeftAlone(String name) {
    assertThat(InstrumentRange.named(name)).isEmpty();
  }
}
