package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.lesson.GoodThing;
import phrasecensus.report.lesson.Home;
import phrasecensus.report.lesson.Lead;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.rows.Answer;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.row.AnswerScope;
import phrasecensus.tables.row.AnswerVerdict;

class LessonWordingTest {
  private static final LessonWording WORDING =
      new LessonWording(StatisticsCatalogue.builtIn(), new Numbers(Locale.ENGLISH));

  /** A line of stretches of so many bars each, quarter notes, a bar of rest after each. */
  private static LessonLine line(boolean chords, int... bars) {
    List<SoloLine.BarSpan> spans = new ArrayList<>();
    List<SoloLine.Tone> notes = new ArrayList<>();
    for (int stretch = 0; stretch < bars.length; stretch++) {
      for (int bar = 0; bar <= bars[stretch]; bar++) {
        Fraction onset = Fraction.of(4L * spans.size());
        spans.add(
            new SoloLine.BarSpan(
                spans.size(),
                String.valueOf(spans.size() + 1),
                onset,
                Fraction.of(4),
                "4/4",
                Fraction.ZERO,
                false,
                null));
        for (int beat = 0; beat < 4 && bar < bars[stretch]; beat++) {
          notes.add(
              new SoloLine.Tone(
                  notes.size(),
                  onset.plus(Fraction.of(beat)),
                  Fraction.ONE,
                  60,
                  "C4",
                  0,
                  "C4",
                  null,
                  true,
                  stretch,
                  null));
        }
      }
    }
    return LessonLine.of(
        new SoloLine(
            spans,
            chords
                ? List.of(new SoloLine.ChordSpan(Fraction.of(0), Fraction.of(400), "C7"))
                : List.of(),
            notes,
            List.of(),
            List.of()));
  }

  private static Answer answer(
      String question, String verdict, String aim, Double value, int n, String shortage) {
    return new Answer(
        AnswerScope.SOLO,
        "s",
        question,
        1,
        AnswerVerdict.of(verdict),
        "none",
        aim,
        value,
        0.5,
        null,
        "landings",
        n,
        shortage,
        null,
        false);
  }

  @ParameterizedTest
  @CsvSource({
    "met, 1, 8, Yes. All your stops are on 1; chord",
    "met, 0.875, 8, Yes. 7 of your 8 stops are on 1; chord",
    "not_yet, 0.125, 8, Not yet. 1 of your 8 stops is on 1; chord",
    "not_yet, 0, 8, Not yet. None of your stops is on 1; chord",
    "met, 0.52, 50, Yes. 5 of your 10 stops are on 1; chord"
  })
  void stopsAreCountedOneByOneWhereTheyAreFew(String verdict, double value, int n, String told) {
    assertThat(
            WORDING.answer(
                answer("landings", verdict, "resting_chord_tone_share", value, n, null),
                line(true, 2)))
        .startsWith(told.substring(0, told.indexOf(';')))
        .endsWith(told.substring(told.indexOf(';') + 2) + ".");
  }

  /** Ten of ten is said only where it is true. */
  @ParameterizedTest
  @CsvSource({
    "1, 128, Yes. All notes are in the key.",
    "0.99, 128, Yes. Nearly all notes are in the key.",
    "0.86, 128, Yes. 9 of 10 notes are in the key.",
    "0.75, 8, Yes. 6 of 8 notes are in the key."
  })
  void notesAreCountedInTens(double value, int n, String told) {
    assertThat(
            WORDING.answer(
                answer("tonal_centre", "met", "in_key_share", value, n, null), line(false, 2)))
        .isEqualTo(told);
  }

  @Test
  void aLineWithoutABreathTellsItsLengthInWords() {
    assertThat(
            WORDING.answer(
                answer("phrases", "not_yet", "unbroken_time_share", 1.0, 11, null), line(true, 11)))
        .isEqualTo("Not yet. The line goes on for eleven bars without a breath.");
  }

  @Test
  void phrasesTellHowLongTheyAre() {
    assertThat(
            WORDING.answer(
                answer("phrases", "met", "unbroken_time_share", 0.0, 11, null),
                line(true, 2, 3, 2, 3)))
        .isEqualTo("Yes. You play for about two and a half bars, and then you breathe.");
  }

  @ParameterizedTest
  @CsvSource({
    "too_few, 1, This cannot be told from one stop.",
    "too_few, 2, This cannot be told from two stops.",
    "too_few, 0, This cannot be told from no stops.",
    "no_notes, 0, There is no note in the file.",
    "no_metre, 9, 'This cannot be told, as the file has no metre.'",
    "seldom_breathes, 1, 'This cannot be told, as the line hardly stops.'"
  })
  void whatCannotBeToldSaysWhy(String shortage, int n, String told) {
    assertThat(
            WORDING.answer(
                answer("landings", "not_enough", "resting_chord_tone_share", null, n, shortage),
                line(true, 2)))
        .isEqualTo(told);
  }

  /** An aim of the teacher's on any statistic is told with what it asks. */
  @Test
  void anotherAimIsToldWithItsValueAndWhatIsAsked() {
    Answer answer =
        new Answer(
            AnswerScope.SOLO,
            "s",
            "own",
            5,
            AnswerVerdict.NOT_YET,
            "own",
            "notes_per_bar",
            2.5,
            4.0,
            null,
            "notes",
            40,
            null,
            "Fill the bars",
            true);

    assertThat(WORDING.answer(answer, line(true, 2)))
        .isEqualTo(
            "Not yet. It is 2.50\u00a0notes per bar, and your teacher asks for at least"
                + " 4.00\u00a0notes per bar.");
    assertThat(WORDING.heading(answer)).isEqualTo("Fill the bars");
  }

  @ParameterizedTest
  @CsvSource({
    "study, true, Home is G major. Your teacher says so.",
    "chords, true, Home is G major. The chords say so.",
    "signature, true, Home is G major. The key signature says so.",
    "notes, true, 'Home is G major. The notes say so, the key signature does not.'",
    "notes, false, Home is G major. The notes say so."
  })
  void theSourceOfTheKeyIsSaid(String source, boolean signature, String told) {
    SoloFacts facts =
        new SoloFacts(
            "s",
            "s",
            "Ada",
            null,
            "",
            "",
            "",
            "4/4",
            null,
            signature ? 0 : null,
            7,
            "major",
            1,
            1,
            1,
            Map.of("centre_source", source),
            Map.of());
    Home home = new Home(NoteName.atFifths(1), "major");

    assertThat(WORDING.key(facts, Optional.of(home), line(true, 2))).isEqualTo(told);
    assertThat(WORDING.key(facts, Optional.of(home), line(false, 2)))
        .isEqualTo(told + " There are no chords in the file.");
  }

  @Test
  void theLastTaskIsHeldAgainstWhatItWasFor() {
    Lead lead = new Lead("weak_landings", "landings", false);
    Answer met = answer("landings", "met", "resting_chord_tone_share", 0.8, 8, null);

    assertThat(LessonWording.last(lead, "Last note first", met))
        .isEqualTo("The task was \u201cLast note first\u201d. This solo shows it.");
    assertThat(LessonWording.last(new Lead("none", "", false), "A second home", met))
        .endsWith("Your teacher can hear it best.");
  }

  @Test
  void somethingGoodIsSaidEvenOfASilentFile() {
    GoodThing thing = GoodThing.of(line(true), null, 0);

    assertThat(LessonWording.good(thing, true)).isEqualTo("Your file is here, and it opens.");
  }
}
