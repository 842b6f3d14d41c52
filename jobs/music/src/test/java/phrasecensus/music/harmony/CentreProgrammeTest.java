package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.CentreProgramme.Reading;
import phrasecensus.music.harmony.CentreProgramme.Step;

/**
 * Scores computed with R 4.2.2 from the weights and rules of the class comment, by a program that
 * shares no code with this one; the progressions are common practice (two-five-one in major and
 * minor, twelve-bar blues, modulation by a third, tritone substitute).
 */
class CentreProgrammeTest {
  @Test
  void twoFiveOneInMajor() {
    expect("Dm7:4 G7:4 Cmaj7:8", "C MAJOR", 3, 19.485281);
  }

  @Test
  void twoFiveOneInMinor() {
    expect("Dm7b5:4 G7:4 Cm6:8", "C MINOR", 3, 19.485281);
  }

  @Test
  void basicBluesStaysBlues() {
    expect("F7:16 Bb7:8 F7:8 C7:4 Bb7:4 F7:4 C7:4", "F BLUES", 7, 49.349242);
  }

  @Test
  void jazzBluesStaysBlues() {
    expect(
        "F7:4 Bb7:4 F7:4 Cm7:2 F7:2 Bb7:8 F7:4 Am7b5:2 D7:2 Gm7:4 C7:4 F7:2 D7:2 Gm7:2 C7:2",
        "F BLUES",
        15,
        60.248737);
  }

  @Test
  void tritoneSubstituteStaysInTheKey() {
    expect("Dm7:4 Db7:4 Cmaj7:8", "C MAJOR", 3, 16.985281);
  }

  @Test
  void modulationByAThirdAndBackIsFound() {
    Reading reading =
        read(
            "Cmaj7:8 Dm7:4 G7:4 Cmaj7:8 Fm7:4 Bb7:4 Ebmaj7:8 Fm7:4 Bb7:4 Ebmaj7:8 Dm7:4 G7:4"
                + " Cmaj7:8");

    List<String> expected = new ArrayList<>(Collections.nCopies(4, "C MAJOR"));
    expected.addAll(Collections.nCopies(6, "Eb MAJOR"));
    expected.addAll(Collections.nCopies(3, "C MAJOR"));
    assertThat(centres(reading)).isEqualTo(expected);
    assertThat(reading.score()).isCloseTo(68.426407, within(1e-6));
  }

  @Test
  void marginIsWhatTheBestOtherCentreForTheStretchLoses() {
    Random random = new Random(11);
    ChordClass[] classes = ChordClass.values();
    for (int round = 0; round < 20; round++) {
      List<Step> steps = new ArrayList<>();
      for (int i = 0; i < 6; i++) {
        steps.add(
            new Step(random.nextInt(12), classes[random.nextInt(classes.length)], 4));
      }
      Reading reading = CentreProgramme.standard().read(steps);

      assertThat(reading.margin(0, 5)).as("round %d", round).isNotNegative();
      for (int i = 0; i < 6; i++) {
        assertThat(reading.margin(i, i)).as("round %d, chord %d", round, i).isNotNegative();
      }
    }
  }

  @Test
  void marginOfOneChordIsTheDifferenceOfItsTwoBestWeights() {
    // C7 alone: blues I 6 + start 4, next best major I 3 + start 4.
    Reading reading = read("C7:4");

    assertThat(reading.centre(0)).isEqualTo(new TonalCentre(0, TonalCentre.Mode.BLUES));
    assertThat(reading.margin(0, 0)).isCloseTo(3, within(1e-9));
  }

  @Test
  void noChordsGiveAnEmptyReading() {
    Reading reading = CentreProgramme.standard().read(List.of());

    assertThat(reading.size()).isZero();
    assertThat(reading.score()).isZero();
  }

  @Test
  void transposingTheChordsMovesTheCentres() {
    String text = "Cm7:2 F7:2 Bb7:8 F7:4 Am7b5:2 D7:2 Gm7:4 C7:4 Fmaj7:4 Abm7:2 Db7:2 Gbmaj7:8";
    Reading original = read(text);
    for (int up = 1; up < 12; up++) {
      int by = up;
      Reading moved =
          CentreProgramme.standard()
              .read(
                  steps(text).stream()
                      .map(s -> new Step((s.root() + by) % 12, s.chordClass(), s.quarters()))
                      .toList());

      assertThat(moved.score()).isCloseTo(original.score(), within(1e-9));
      for (int i = 0; i < original.size(); i++) {
        TonalCentre centre = original.centre(i);
        assertThat(moved.centre(i))
            .as("chord %d up %d", i, by)
            .isEqualTo(new TonalCentre((centre.tonic() + by) % 12, centre.mode()));
      }
    }
  }

  private static void expect(String chords, String centre, int count, double score) {
    Reading reading = read(chords);
    assertThat(centres(reading)).isEqualTo(Collections.nCopies(count, centre));
    assertThat(reading.score()).isCloseTo(score, within(1e-6));
  }

  private static List<String> centres(Reading reading) {
    String[] names = {"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
    List<String> centres = new ArrayList<>();
    for (int i = 0; i < reading.size(); i++) {
      centres.add(names[reading.centre(i).tonic()] + " " + reading.centre(i).mode());
    }
    return centres;
  }

  private static Reading read(String chords) {
    return CentreProgramme.standard().read(steps(chords));
  }

  private static List<Step> steps(String chords) {
    List<Step> steps = new ArrayList<>();
    for (String word : chords.split(" ")) {
      String[] parts = word.split(":");
      Chord chord = SoloText.chord(parts[0]);
      steps.add(
          new Step(
              chord.root().pitchClass(),
              chord.chordClass().orElseThrow(),
              Double.parseDouble(parts[1])));
    }
    return steps;
  }
}
