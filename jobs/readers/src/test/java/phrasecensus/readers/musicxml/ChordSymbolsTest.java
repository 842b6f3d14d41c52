package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.chord;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.rest;
import static phrasecensus.readers.musicxml.TinyScores.result;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import java.util.Arrays;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.ReadResult;

/** Chord symbols as MusicXML 4.0 defines {@code harmony}. */
class ChordSymbolsTest {
  private static String harmony(String contents) {
    return "<harmony>" + contents + "</harmony>";
  }

  private static String root(String step, int alter) {
    return "<root><root-step>" + step + "</root-step><root-alter>" + alter + "</root-alter></root>";
  }

  private static Chord only(String harmony) {
    return solo(bar(harmony + note("C", 4, 4))).chords().get(0).concert();
  }

  private static String chords(Solo solo) {
    return solo.chords().stream()
        .map(span -> span.onset() + "-" + span.end() + " " + span.concert())
        .collect(Collectors.joining(", "));
  }

  /** Worked from the definitions of kind-value and degree in the MusicXML 4.0 schema. */
  @ParameterizedTest(name = "{0}{1} {2} with {3} is {4}")
  @CsvSource({
    "C,0,major-ninth,'',0 2 4 7 11",
    "C,0,dominant,add 9 -1,0 1 4 7 10",
    "C,0,dominant,add 11 1,0 4 6 7 10",
    "C,0,dominant,alter 5 1,0 4 8 10",
    "C,0,dominant,alter 5 -1; add 9 -1,0 1 4 6 10",
    "C,0,major,subtract 3 0; add 4 0,0 5 7",
    "C,0,suspended-fourth,add 7 0,0 5 7 10",
    "C,0,major,add 7 0,0 4 7 10",
    "C,0,minor,add 7 1,0 3 7 11",
    "C,0,dominant-13th,subtract 11 0,0 2 4 7 9 10",
    "B,-1,half-diminished,'',1 4 8 10",
    "F,1,diminished-seventh,'',0 3 6 9",
    "E,-1,major-minor,'',2 3 6 10",
    "G,0,augmented-seventh,'',3 5 7 11",
    "C,0,other,add 3 0; add 5 0; add 9 0,0 2 4 7"
  })
  void kindAndDegreesGiveTheContent(
      String step, int alter, String kind, String degrees, String classes) {
    StringBuilder xml = new StringBuilder(root(step, alter) + "<kind>" + kind + "</kind>");
    for (String degree : degrees.isEmpty() ? new String[0] : degrees.split("; ")) {
      String[] words = degree.split(" ");
      xml.append("<degree><degree-value>")
          .append(words[1])
          .append("</degree-value><degree-alter>")
          .append(words[2])
          .append("</degree-alter><degree-type>")
          .append(words[0])
          .append("</degree-type></degree>");
    }

    Chord chord = only(harmony(xml.toString()));

    assertThat(new TreeSet<>(chord.pitchClasses()))
        .isEqualTo(
            Arrays.stream(classes.split(" "))
                .map(Integer::parseInt)
                .collect(Collectors.toCollection(TreeSet::new)));
  }

  @Test
  void theBassStaysApartFromTheChord() {
    Chord chord =
        only(harmony(root("F", 0) + "<kind>major</kind><bass><bass-step>G</bass-step></bass>"));

    assertThat(chord.bass().toString()).isEqualTo("G");
    assertThat(chord.pitchClasses()).doesNotContain(7);
  }

  @ParameterizedTest(name = "inversion {0} of A flat seven has {1} in the bass")
  @CsvSource({"1, C", "2, E♭", "3, G♭"})
  void anInversionTellsTheBass(int inversion, String bass) {
    Chord chord =
        only(
            harmony(
                root("A", -1) + "<kind>dominant</kind><inversion>" + inversion + "</inversion>"));

    assertThat(chord.bass().toString()).isEqualTo(bass);
  }

  @Test
  void offsetsPlaceChordsUnderLongNotesAndBeforeTheirElement() {
    Solo solo =
        solo(
            bar(
                chord("C", "major")
                    + harmony(root("G", 0) + "<kind>major</kind><offset>2</offset>")
                    + note("C", 4, 4)
                    + harmony(root("F", 0) + "<kind>major</kind><offset>-1</offset>")));

    assertThat(chords(solo)).isEqualTo("0-2 C, 2-3 G, 3-4 F");
  }

  @Test
  void anOffsetOutOfTheBarIsKeptAndReported() {
    ReadResult result =
        result(
            TinyScores.part(
                "<measure number='1'>"
                    + TinyScores.COMMON_TIME
                    + harmony(root("C", 0) + "<kind>major</kind><offset>5</offset>")
                    + note("C", 4, 4)
                    + "</measure><measure number='2'>"
                    + note("C", 4, 4)
                    + "</measure>"));

    assertThat(chords(result.solo())).isEqualTo("5-8 C");
    assertThat(codes(result)).containsExactly("offset-leaves-bar");
    assertThat(result.problems().get(0).bar()).isEqualTo("1");
  }

  @Test
  void noChordEndsTheHarmony() {
    Solo solo =
        solo(
            bar(
                chord("C", "major")
                    + note("C", 4, 2)
                    + "<harmony><root><root-step text=''>C</root-step></root>"
                    + "<kind text='N.C.'>none</kind></harmony>"
                    + note("D", 4, 2)));

    assertThat(chords(solo)).isEqualTo("0-2 C, 2-4 N.C.");
    assertThat(solo.chords().get(1).concert().isNone()).isTrue();
  }

  @ParameterizedTest(name = "kind {0} with text {1} is read as {2}")
  @CsvSource({
    "minor-major, '', Cm(maj7)",
    "dominant-seventh, '', C7",
    "Minor-Seventh, '', Cm7",
    "maj69, '', C6/9",
    "augmented-ninth, '', C+7(add9)",
    "'', m7b5, Cø7",
    "'', -7, Cm7",
    "xyz, 7b9, C7(♭9)"
  })
  void kindsOutsideTheStandardAreReadWhereTheyArePlain(String kind, String text, String symbol) {
    ReadResult result =
        result(
            bar(
                harmony(root("C", 0) + "<kind text='" + text + "'>" + kind + "</kind>")
                    + note("C", 4, 4)));

    assertThat(result.solo().chords().get(0).concert().symbol()).isEqualTo(symbol);
    assertThat(codes(result)).containsExactly("unknown-chord-kind");
  }

  @Test
  void anUnclearKindKeepsItsRootAndHasNoContent() {
    ReadResult result = result(bar(chord("F", "quartal") + note("C", 4, 4)));

    Chord chord = result.solo().chords().get(0).concert();
    assertThat(chord.root().toString()).isEqualTo("F");
    assertThat(chord.isContentKnown()).isFalse();
    assertThat(codes(result)).containsExactly("unknown-chord-kind");
  }

  @ParameterizedTest(name = "{0} has no intervals in the standard")
  @CsvSource({"Neapolitan", "Italian", "French", "German", "Tristan"})
  void functionalSixthsStayUnknown(String kind) {
    assertThat(only(chord("C", kind)).isContentKnown()).isFalse();
  }

  @Test
  void aFunctionWithoutRootIsAnUnknownChord() {
    ReadResult result =
        result(bar(harmony("<function>V7</function><kind>dominant</kind>") + note("C", 4, 4)));

    assertThat(result.solo().chords().get(0).concert().root()).isNull();
    assertThat(codes(result)).containsExactly("chord-by-function");
  }

  @ParameterizedTest(name = "degree {0} in {1} flats of {2} is {3}")
  @CsvSource({
    "5, 0, major, G",
    "2, -2, major, C",
    "7, 0, harmonic minor, G♯",
    "6, 0, natural minor, F",
    "6, 0, melodic minor, F♯",
    "4, 3, major, D"
  })
  void aNumeralHasItsRootInTheKey(int degree, int fifths, String mode, String root) {
    Chord chord =
        only(
            harmony(
                "<numeral><numeral-root>"
                    + degree
                    + "</numeral-root><numeral-key><numeral-fifths>"
                    + fifths
                    + "</numeral-fifths><numeral-mode>"
                    + mode
                    + "</numeral-mode></numeral-key></numeral><kind>major</kind>"));

    assertThat(chord.root().toString()).isEqualTo(root);
  }

  @Test
  void ofStackedChordsTheFirstCounts() {
    ReadResult result =
        result(
            bar(
                harmony(
                        root("D", 0)
                            + "<kind>major</kind>"
                            + root("C", 0)
                            + "<kind>dominant</kind>")
                    + note("C", 4, 4)));

    assertThat(chords(result.solo())).isEqualTo("0-4 D");
    assertThat(codes(result)).containsExactly("several-chords-in-one-symbol");
  }

  @Test
  void anAlternateReadingGivesWayToAnExplicitOne() {
    String alternate = "<harmony type='alternate'>" + root("E", 0) + "<kind>minor</kind></harmony>";

    assertThat(chords(solo(bar(chord("C", "major") + alternate + note("C", 4, 4)))))
        .isEqualTo("0-4 C");
    assertThat(chords(solo(bar(alternate + chord("C", "major") + note("C", 4, 4)))))
        .isEqualTo("0-4 C");
  }

  @Test
  void ofTwoChordsAtOnePlaceTheLastCountsAndIsReported() {
    String offset = "<offset>1</offset></harmony>";
    ReadResult result =
        result(
            bar(
                rest(1)
                    + chord("C", "major")
                    + note("C", 4, 1)
                    + "<backup><duration>2</duration></backup>"
                    + chord("A", "minor").replace("</harmony>", offset)
                    + note("C", 4, 4)));

    assertThat(chords(result.solo())).isEqualTo("1-4 Am");
    assertThat(codes(result)).contains("chords-at-one-place");
  }

  @Test
  void aMissingKindIsReported() {
    ReadResult result = result(bar(harmony(root("C", 0)) + note("C", 4, 4)));

    assertThat(codes(result)).containsExactly("chord-kind-missing");
    assertThat(result.solo().chords().get(0).concert().isContentKnown()).isFalse();
  }
}
