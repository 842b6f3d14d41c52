package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.COMMON_TIME;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.chord;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.part;
import static phrasecensus.readers.musicxml.TinyScores.rest;
import static phrasecensus.readers.musicxml.TinyScores.result;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Span;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;

/** What notation programs really write, one habit a test. All scores are invented. */
class RealExportsTest {
  private static String chords(Solo solo) {
    return solo.chords().stream()
        .map(span -> span.concert().symbol() + "@" + span.onset())
        .collect(Collectors.joining(" "));
  }

  private static String chordAt(String root, int offset) {
    return chord(root, "major").replace("</harmony>", "<offset>" + offset + "</offset></harmony>");
  }

  private static String harmony(String inside) {
    return "<harmony>" + inside + "</harmony>";
  }

  private static String root(String step) {
    return "<root><root-step>" + step + "</root-step></root>";
  }

  private static String divisions(int divisions) {
    return COMMON_TIME.replace("<divisions>1<", "<divisions>" + divisions + "<");
  }

  // Several chord symbols before one note.

  @Test
  void chordsBeforeOneNoteShareItsLength() {
    ReadResult result =
        result(
            bar(
                chord("C", "major")
                    + chord("F", "major")
                    + note("C", 4, 2)
                    + chord("D", "minor")
                    + chord("G", "major")
                    + chord("E", "minor")
                    + rest(2)));

    assertThat(chords(result.solo())).isEqualTo("C@0 F@1 Dm@2 G@8/3 Em@10/3");
    assertThat(codes(result)).containsExactly("chords-share-note", "chords-share-note");
  }

  @Test
  void anOffsetWinsAndTheOthersShareWhatLiesBeforeIt() {
    assertThat(
            chords(
                solo(
                    bar(
                        chord("C", "major")
                            + chord("F", "major")
                            + chordAt("G", 2)
                            + note("C", 4, 4)))))
        .isEqualTo("C@0 F@1 G@2");
    assertThat(chords(solo(bar(chord("C", "major") + chordAt("G", 3) + note("C", 4, 4)))))
        .isEqualTo("C@0 G@3");
  }

  @Test
  void chordsShareANoteOnlyWithinItsBar() {
    Solo solo =
        solo(
            part(
                "<measure number='1'>"
                    + COMMON_TIME
                    + rest(2)
                    + chord("C", "major")
                    + chord("F", "major")
                    + note("C", 4, 4)
                    + "</measure><measure number='2'>"
                    + note("C", 4, 4)
                    + "</measure>"));

    assertThat(chords(solo)).isEqualTo("C@2 F@3");
  }

  @Test
  void chordsShareTheTiedNotesOfABarTogether() {
    String start = "<tie type='start'/>";

    assertThat(
            chords(
                solo(
                    bar(
                        chord("C", "major")
                            + chord("F", "major")
                            + note("C", 5, 2, start)
                            + note("C", 5, 2, "<tie type='stop'/>")))))
        .isEqualTo("C@0 F@2");
    assertThat(
            chords(
                solo(
                    bar(
                        chord("C", "major")
                            + chord("F", "major")
                            + note("C", 5, 2, start)
                            + chord("G", "major")
                            + note("C", 5, 2, "<tie type='stop'/>")))))
        .isEqualTo("C@0 F@1 G@2");
  }

  @Test
  void theSameChordTwiceAndAnotherReadingOfItTakeNoShare() {
    String other = chord("A", "minor").replace("<harmony>", "<harmony type='alternate'>");

    assertThat(
            chords(
                solo(
                    bar(
                        chord("C", "major")
                            + chord("C", "major")
                            + chord("G", "major")
                            + note("C", 4, 4)))))
        .isEqualTo("C@0 G@2");
    assertThat(chords(solo(bar(chord("C", "major") + other + note("C", 4, 4))))).isEqualTo("C@0");
  }

  @Test
  void graceNotesHaveNoLengthToShare() {
    String grace = "<note><grace/><pitch><step>D</step><octave>4</octave></pitch></note>";

    assertThat(
            chords(solo(bar(chord("C", "major") + chord("G", "major") + grace + note("C", 4, 4)))))
        .isEqualTo("C@0 G@2");
  }

  // Kind 'none'.

  @ParameterizedTest
  @ValueSource(
      strings = {
        "N.C.",
        "NC",
        "n.c.",
        "N. C.",
        "N/C",
        "no chord",
        "(N.C.)",
        "No Chord",
        "tacet",
        ""
      })
  void noChordSaysSoOrSaysNothing(String text) {
    String none = harmony(root("C") + "<kind text='" + text + "'>none</kind>");

    Solo solo = solo(bar(chord("C", "major") + note("C", 4, 2) + none + note("E", 4, 2)));

    assertThat(chords(solo)).isEqualTo("C@0 N.C.@2");
  }

  @ParameterizedTest
  @ValueSource(strings = {"#11", "9", "/", "Intro", "%", "V7", "vi7", "x2"})
  void otherWordsOfTheKindNoneLetTheChordGoOn(String text) {
    String none = harmony(root("C") + "<kind text='" + text + "'>none</kind>");

    ReadResult result = result(bar(chord("C", "major") + none + note("E", 4, 4)));

    assertThat(chords(result.solo())).isEqualTo("C@0");
    assertThat(codes(result)).containsExactly("no-chord-in-doubt");
  }

  @Test
  void aRomanNumeralBesideAChordIsNoChordAndTakesNoShare() {
    String numeral = harmony("<function>V7</function><kind text=''>none</kind>");

    assertThat(chords(solo(bar(chord("C", "major") + numeral + note("C", 4, 4))))).isEqualTo("C@0");
  }

  @Test
  void aNumeralOfTheKindNoneIsNoChordEither() {
    String numeral = harmony("<numeral><numeral-root>5</numeral-root></numeral><kind>none</kind>");

    assertThat(chords(solo(bar(chord("C", "major") + numeral + note("C", 4, 4))))).isEqualTo("C@0");
  }

  // Empty kinds and the kind 'other'.

  @ParameterizedTest
  @ValueSource(strings = {"<kind/>", "<kind text=' '> </kind>", "<kind text=''></kind>"})
  void anEmptyKindIsTheMajorTriad(String kind) {
    ReadResult result = result(bar(harmony(root("G") + kind) + note("B", 4, 4)));

    assertThat(chords(result.solo())).isEqualTo("G@0");
    assertThat(result.solo().chords().get(0).concert().pitchClasses()).containsExactly(7, 11, 2);
    assertThat(codes(result)).contains("unknown-chord-kind");
  }

  @ParameterizedTest
  @CsvSource({
    "7alt, C7alt",
    "7#9b13, C7(♯9 ♭13)",
    "sus, Csus4",
    "7sus, C7sus4",
    "6/9, C6/9",
    "mi7, Cm7",
    "M7, Cmaj7",
    "-7b5, Cø7",
    "+7, C+7",
    "maj7#5, Cmaj7(♯5)",
    "m7(add11), Cm7(add11)",
    "m/maj7, Cm(maj7)",
    "C7, C7",
    "m7/G, Cm7",
  })
  void clearTextOfTheKindOtherIsRead(String text, String symbol) {
    ReadResult result =
        result(
            bar(harmony(root("C") + "<kind text='" + text + "'>other</kind>") + note("C", 4, 4)));

    assertThat(chords(result.solo())).isEqualTo(symbol + "@0");
    assertThat(result.solo().chords().get(0).concert().isContentKnown()).isTrue();
    assertThat(result.problems()).isEmpty();
  }

  @Test
  void unclearTextOfTheKindOtherIsShownAndReported() {
    ReadResult result =
        result(bar(harmony(root("C") + "<kind text='blue7'>other</kind>") + note("C", 4, 4)));

    assertThat(chords(result.solo())).isEqualTo("Cblue7@0");
    assertThat(result.solo().chords().get(0).concert().isContentKnown()).isFalse();
    assertThat(codes(result)).containsExactly("unknown-chord-kind");
  }

  // Ties.

  @Test
  void aTieThatStartsJoinsTheNoteThatFollowsAtOnce() {
    ReadResult result =
        result(
            bar(
                note("C", 5, 1, "<tie type='start'/>")
                    + note("C", 5, 1)
                    + note("D", 5, 1, "<tie type='start'/>")
                    + note("E", 5, 1)));

    assertThat(notes(result.solo())).isEqualTo("0:72:2 2:74:1 3:76:1");
    assertThat(codes(result)).containsExactly("tie-without-stop", "tie-without-partner");
  }

  @Test
  void aTieJoinsNothingAcrossARestOrInAnotherVoice() {
    assertThat(notes(solo(bar(note("C", 5, 1, "<tie type='start'/>") + rest(1) + note("C", 5, 2)))))
        .isEqualTo("0:72:1 2:72:2");
    assertThat(
            notes(
                solo(
                    bar(
                        note("C", 5, 2, "<tie type='start'/><voice>1</voice>")
                            + note("D", 5, 2, "<voice>1</voice>")
                            + "<backup><duration>2</duration></backup>"
                            + note("C", 5, 2, "<voice>2</voice>")))))
        .isEqualTo("0:72:2 2:74:2");
  }

  // Tuplets in whole divisions.

  private static String tuplet(String step, int duration, String type, int actual, int normal) {
    return note(
        step,
        4,
        duration,
        "<type>"
            + type
            + "</type><time-modification><actual-notes>"
            + actual
            + "</actual-notes><normal-notes>"
            + normal
            + "</normal-notes></time-modification>");
  }

  @Test
  void roundedTupletsAreExactAndToldOnce() {
    String septuplet = tuplet("C", 69, "16th", 7, 4).repeat(7);
    String bar =
        septuplet
            + note("D", 4, 480, "<type>quarter</type>")
            + septuplet
            + note("D", 4, 480, "<type>quarter</type>");

    ReadResult result =
        result(
            part(
                "<measure number='1'>"
                    + divisions(480)
                    + bar
                    + "</measure><measure number='2'>"
                    + bar
                    + "</measure>"));

    Solo solo = result.solo();
    assertThat(solo.bars().get(0).length()).isEqualTo(Fraction.of(4));
    assertThat(solo.notes().get(1).onset()).isEqualTo(Fraction.of(1, 7));
    assertThat(solo.notes().get(7).onset()).isEqualTo(Fraction.ONE);
    assertThat(solo.notes().get(8).onset()).isEqualTo(Fraction.of(2));
    assertThat(solo.notes().get(16).onset()).isEqualTo(Fraction.of(4));
    assertThat(codes(result)).containsExactly("durations-rounded");
  }

  /** Of a triplet in two divisions one eighth has the duration 0. */
  @Test
  void aTupletNoteRoundedToNothingHasItsLength() {
    String triplet =
        tuplet("C", 1, "eighth", 3, 2)
            + tuplet("D", 1, "eighth", 3, 2)
            + tuplet("E", 0, "eighth", 3, 2);

    ReadResult result =
        result(
            part("<measure number='1'>" + divisions(2) + triplet + note("F", 4, 6) + "</measure>"));

    assertThat(notes(result.solo())).isEqualTo("0:60:1/3 1/3:62:1/3 2/3:64:1/3 1:65:3");
    assertThat(codes(result)).containsExactly("durations-rounded");
  }

  @Test
  void aSecondVoiceFindsItsPlaceAfterRoundedTuplets() {
    String first =
        (tuplet("C", 69, "16th", 7, 4).repeat(7) + note("D", 4, 1440, "<type>half</type><dot/>"))
            .replace("</pitch>", "</pitch>");
    String second =
        "<backup><duration>1923</duration></backup><forward><duration>483</duration></forward>"
            + note("G", 3, 480, "<voice>2</voice><type>quarter</type>");

    ReadResult result =
        result(part("<measure number='1'>" + divisions(480) + first + second + "</measure>"));
    PartReading part =
        MusicXmlReader.read(
                part("<measure number='1'>" + divisions(480) + first + second + "</measure>")
                    .getBytes(java.nio.charset.StandardCharsets.UTF_8),
                ReadSettings.defaults(),
                new phrasecensus.readers.ProblemLog())
            .parts()
            .get(0);

    assertThat(part.notes().get(part.notes().size() - 1).offset()).isEqualTo(Fraction.ONE);
    assertThat(codes(result)).containsExactly("durations-rounded", "other-voices");
  }

  /** Contrast: a written length that is a whole number of divisions is no rounding. */
  @Test
  void aDurationThatDiffersWithoutNeedStillCounts() {
    ReadResult result =
        result(
            part(
                "<measure number='1'>"
                    + divisions(4)
                    + note("C", 4, 3, "<type>quarter</type>")
                    + rest(13)
                    + "</measure>"));

    assertThat(notes(result.solo())).isEqualTo("0:60:3/4");
    assertThat(codes(result)).containsExactly("duration-differs-from-type");
  }

  @Test
  void aBarOffItsMetreByRoundingIsFull() {
    String triplets = note("C", 4, 85).repeat(3);

    ReadResult result =
        result(
            part(
                "<measure number='1'>"
                    + divisions(256)
                    + triplets.repeat(4)
                    + "</measure><measure number='2'>"
                    + note("D", 4, 1024)
                    + "</measure>"));

    assertThat(result.solo().bars().get(0).length()).isEqualTo(Fraction.of(4));
    assertThat(result.solo().notes().get(12).onset()).isEqualTo(Fraction.of(4));
    assertThat(result.solo().notes().get(11).end()).isEqualTo(Fraction.of(4));
    assertThat(codes(result)).containsExactly("durations-rounded");
  }

  // Which voice.

  private static String voice(int voice, int staff, String note) {
    return note.replace(
        "</note>", "<voice>" + voice + "</voice><staff>" + staff + "</staff></note>");
  }

  private static String stack(int staff, int voice, int duration, String... steps) {
    StringBuilder stack = new StringBuilder();
    for (String step : steps) {
      String one = voice(voice, staff, note(step, 3, duration));
      stack.append(stack.isEmpty() ? one : one.replace("<note>", "<note><chord/>"));
    }
    return stack.toString();
  }

  private static String piano(String upper, String lower) {
    return part(
        "<measure number='1'>"
            + COMMON_TIME.replace("</attributes>", "<staves>2</staves></attributes>")
            + upper
            + "<backup><duration>4</duration></backup>"
            + lower
            + "</measure>");
  }

  @Test
  void notesOfStacksDoNotMakeTheLeftHandTheLine() {
    String upper = voice(1, 1, note("E", 5, 2)) + voice(1, 1, note("D", 5, 2));
    String lower = stack(2, 5, 2, "C", "E", "G") + stack(2, 5, 2, "D", "F", "A");

    ReadResult result = result(piano(upper, lower));

    assertThat(notes(result.solo())).isEqualTo("0:76:2 2:74:2");
    assertThat(result.solo().description().staff()).isEqualTo(1);
    assertThat(result.solo().description().voice()).isEqualTo("1");
    assertThat(result.solo().description().partReason()).contains("Its line is the upper staff");
  }

  @Test
  void aTuneAboveABusyLeftHandIsTheLine() {
    String upper = voice(1, 1, note("E", 5, 4));
    String lower = voice(5, 2, note("C", 3, 1)).repeat(4);

    ReadResult result = result(piano(upper, lower));

    assertThat(notes(result.solo())).isEqualTo("0:76:4");
    assertThat(result.solo().description().partReason()).contains("it lies above the lower staff");
  }

  @Test
  void aFewChordsAboveALineAreAccompaniment() {
    String upper = stack(1, 1, 4, "C", "E", "G").replace("<octave>3<", "<octave>5<");
    String lower = voice(5, 2, note("C", 3, 1)).repeat(4);

    assertThat(solo(piano(upper, lower)).description().staff()).isEqualTo(2);
  }

  @Test
  void aLeftHandThatPlaysWhileTheRightOneRestsIsTheLine() {
    String upper = voice(1, 1, note("E", 5, 1)) + voice(1, 1, rest(3));
    String lower = voice(5, 2, note("C", 3, 1)).repeat(4);

    assertThat(solo(piano(upper, lower)).description().staff()).isEqualTo(2);
  }

  // Notes that are no melody.

  @Test
  void slashNoteheadsAreLeftOutUnlessTheSettingKeepsThem() {
    String slash = note("B", 4, 1, "<notehead>slash</notehead>");
    String score = bar(note("C", 5, 1) + slash.repeat(2) + note("D", 5, 1));

    ReadResult result = result(score);
    Solo kept = result(score, ReadSettings.defaults().withSlashNoteheadsKept(true)).solo();

    assertThat(notes(result.solo())).isEqualTo("0:72:1 3:74:1");
    assertThat(result.solo().unknownSpans())
        .containsExactly(new Span(Fraction.ONE, Fraction.of(3)));
    assertThat(result.problems())
        .extracting(Problem::code, Problem::bar, Problem::found)
        .containsExactly(
            org.assertj.core.groups.Tuple.tuple(
                "slash-noteheads", "1", "2 notes with a slash as notehead"));
    assertThat(notes(kept)).isEqualTo("0:72:1 1:71:1 2:71:1 3:74:1");
    assertThat(kept.unknownSpans()).isEmpty();
  }

  @Test
  void hiddenNotesAreLeftOutAndCounted() {
    String hidden =
        note("C", 4, 1, "<voice>2</voice>").replace("<note>", "<note print-object='no'>");

    ReadResult result =
        result(
            bar(
                note("C", 5, 4, "<voice>1</voice>")
                    + "<backup><duration>4</duration></backup>"
                    + hidden.repeat(4)));

    assertThat(notes(result.solo())).isEqualTo("0:72:4");
    assertThat(result.problems())
        .extracting(Problem::found)
        .containsExactly("4 notes that the page does not show");
  }

  @Test
  void quarterTonesAreTold() {
    String raised =
        "<note><pitch><step>C</step><alter>0.5</alter><octave>4</octave></pitch>"
            + "<duration>4</duration></note>";

    ReadResult result = result(bar(raised));

    assertThat(result.problems())
        .extracting(Problem::code, Problem::bar)
        .containsExactly(org.assertj.core.groups.Tuple.tuple("quarter-tone", "1"));
  }

  // Bars.

  private static String bars(String... contents) {
    StringBuilder bars = new StringBuilder();
    for (int i = 0; i < contents.length; i++) {
      bars.append("<measure number='").append(i + 1).append("'>");
      bars.append(i == 0 ? COMMON_TIME : "").append(contents[i]).append("</measure>");
    }
    return part(bars.toString());
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 5, 6})
  void aBarOfAnotherLengthThanItsMetreIsTold(int quarters) {
    String full = note("C", 4, 4);

    ReadResult result = result(bars(full, note("D", 4, quarters), full));

    assertThat(result.solo().bars().get(1).length()).isEqualTo(Fraction.of(quarters));
    assertThat(result.problems())
        .extracting(Problem::code, Problem::bar)
        .containsExactly(org.assertj.core.groups.Tuple.tuple("bar-length", "2"));
  }

  @Test
  void splitBarsAndPickupsOfLaterSectionsAreNoFault() {
    String score =
        bars(note("C", 4, 4), note("C", 4, 3), note("C", 4, 1), note("C", 4, 4))
            .replace("<measure number='3'>", "<measure number='X1' implicit='yes'>");

    assertThat(result(score).problems()).isEmpty();
  }

  @Test
  void thePickupOfASectionInAnotherMetreIsNoFault() {
    String waltz = "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";

    ReadResult result =
        result(bars(note("C", 4, 4), note("C", 4, 3), waltz + note("C", 4, 1), note("D", 4, 3)));

    assertThat(result.problems()).isEmpty();
    assertThat(result.solo().bars().get(2).metricalOffset()).isEqualTo(Fraction.of(2));
  }

  @Test
  void aForwardBehindTheLastNoteDoesNotLengthenTheBar() {
    ReadResult result =
        result(
            bars(note("C", 4, 4) + "<forward><duration>2</duration></forward>", note("D", 4, 4)));

    assertThat(notes(result.solo())).isEqualTo("0:60:4 4:62:4");
    assertThat(codes(result)).containsExactly("forward-beyond-bar");
  }

  // Chord offsets that are places on the page.

  @Test
  void anOffsetOnThePageCountsAtTheNearestNoteElseBeat() {
    String score =
        part(
            "<measure number='1'>"
                + divisions(128)
                + chordAt("C", 47)
                + note("C", 4, 256)
                + chordAt("F", -22)
                + note("D", 4, 256)
                + "</measure><measure number='2'>"
                + chordAt("G", 68)
                + note("C", 4, 512)
                + "</measure>");

    ReadResult result = result(score);

    assertThat(chords(result.solo())).isEqualTo("C@0 F@2 G@5");
    assertThat(codes(result))
        .containsExactly("chord-offset-graphic", "chord-offset-graphic", "chord-offset-graphic");
  }

  @Test
  void anOffsetOntoAPlaceInMusicIsKept() {
    String score =
        part(
            "<measure number='1'>"
                + divisions(12)
                + chordAt("C", 6)
                + chordAt("D", 8)
                + chordAt("E", 15)
                + note("C", 4, 48)
                + "</measure>");

    assertThat(chords(solo(score))).isEqualTo("C@1/2 D@2/3 E@5/4");
  }

  // Titles and keys.

  private static String credits(String credits) {
    return bar(note("C", 4, 4)).replace("<part-list>", credits + "<part-list>");
  }

  @Test
  void titleAndComposerAreTakenFromTheCredits() {
    String typed =
        "<credit page='1'><credit-type>title</credit-type><credit-words>A Tune</credit-words>"
            + "</credit><credit><credit-type>composer</credit-type>"
            + "<credit-words>N. N.</credit-words></credit>";
    String untyped =
        "<credit page='1'><credit-words font-size='12' justify='center'>for two</credit-words>"
            + "</credit><credit page='1'><credit-words font-size='24' justify='center'>A Tune"
            + "</credit-words></credit><credit page='1'><credit-words font-size='10'"
            + " justify='right'>N. N.</credit-words></credit>";

    for (String credits : new String[] {typed, untyped}) {
      Solo solo = solo(credits(credits));

      assertThat(solo.description().title()).isEqualTo("A Tune");
      assertThat(solo.description().creators()).containsEntry("composer", "N. N.");
    }
    assertThat(
            solo(credits("<movement-title>Another</movement-title>" + typed)).description().title())
        .isEqualTo("Another");
    for (String path : new String[] {"C:\\tunes\\a.sib", "/home/x/a tune", "a tune.mscz"}) {
      String file = "<movement-title>" + path + "</movement-title>";
      assertThat(solo(credits(file + typed)).description().title()).isEqualTo("A Tune");
    }
  }

  @Test
  void aKeyBeforeItsTranspositionSoundsByIt() {
    String attributes =
        "<attributes><divisions>1</divisions><key><fifths>3</fifths></key></attributes>"
            + "<attributes><transpose><diatonic>-5</diatonic><chromatic>-9</chromatic>"
            + "</transpose></attributes>";

    Solo solo = solo(part("<measure number='1'>" + attributes + note("A", 4, 4) + "</measure>"));

    assertThat(solo.keys().get(0).concertFifths()).isZero();
    assertThat(solo.keys().get(0).writtenFifths()).isEqualTo(3);
  }
}
