package phrasecensus.report.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

class MovedPhraseTest {
  /** Eighths from a moment on, at concert pitch. */
  private static SoloLine line(String... names) {
    int[] steps = {9, 11, 0, 2, 4, 5, 7};
    List<SoloLine.Tone> notes = new ArrayList<>();
    for (String name : names) {
      int alter = name.contains("♯") ? 1 : name.contains("♭") ? -1 : 0;
      int midi =
          12 * (name.charAt(name.length() - 1) - '0' + 1) + steps[name.charAt(0) - 'A'] + alter;
      notes.add(
          new SoloLine.Tone(
              notes.size(),
              Fraction.of(notes.size(), 2),
              Fraction.HALF,
              midi,
              name,
              0,
              name,
              "chord-tone",
              true,
              0,
              notes.size() == names.length - 1 ? new SoloLine.Resting("breath", "3", true) : null));
    }
    List<SoloLine.BarSpan> bars = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      bars.add(
          new SoloLine.BarSpan(
              i,
              String.valueOf(i + 1),
              Fraction.of(4L * i),
              Fraction.of(4),
              "4/4",
              Fraction.ZERO,
              false,
              null));
    }
    return new SoloLine(
        bars,
        List.of(new SoloLine.ChordSpan(Fraction.of(0), Fraction.of(16), "C7/E")),
        notes,
        List.of(),
        List.of());
  }

  private static final MovedPhrase.Reader ALTO = new MovedPhrase.Reader(9, 58, 84, "G2");

  private static MovedPhrase moved(SoloLine line, int fifths, int signature) {
    LessonLine lesson = LessonLine.of(line);
    return MovedPhrase.of(lesson, lesson.stretches().get(0), ALTO, fifths, signature);
  }

  /** C major for an alto saxophone is A major: three fifths up. */
  @Test
  void aPhraseIsWrittenForTheInstrument() {
    MovedPhrase moved = moved(line("C4", "D4", "E4", "F4", "G4"), 3, 3);

    assertThat(moved.line().notes())
        .extracting(SoloLine.Tone::nameWritten)
        .containsExactly("A4", "B4", "C♯5", "D5", "E5");
    assertThat(moved.line().chords().get(0).symbol()).isEqualTo("A7/C♯");
    assertThat(moved.difficulty().level()).isEqualTo(3);
  }

  @Test
  void itIsPutIntoTheOctaveThatLiesInRange() {
    MovedPhrase moved = moved(line("C2", "D2", "E2"), 0, 0);

    assertThat(moved.line().notes().get(0).midiWritten()).isBetween(58, 84);
    assertThat(moved.outside()).isZero();
  }

  @Test
  void onlyTheBarsOfThePhraseAreKept() {
    MovedPhrase moved = moved(line("C4", "D4", "E4"), 0, 0);

    assertThat(moved.line().bars()).hasSize(1);
    assertThat(moved.line().landings())
        .singleElement()
        .satisfies(
            mark -> {
              assertThat(mark.noteIndex()).isEqualTo(2);
              assertThat(mark.degree()).isEqualTo("3");
            });
  }

  @ParameterizedTest
  @CsvSource({
    "B♭m7(♭5), 2, Cm7(♭5)",
    "C7/E, -3, E♭7/G",
    "F♯maj7, 1, C♯maj7",
    "N.C., 3, N.C.",
    "Cmaj7, 7, C♯maj7",
    "Dm7, -12, Dm7"
  })
  void chordSymbolsMoveAlong(String symbol, int fifths, String moved) {
    assertThat(MovedPhrase.moved(symbol, fifths)).isEqualTo(moved);
  }
}
