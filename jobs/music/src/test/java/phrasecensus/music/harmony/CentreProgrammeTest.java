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
  private static final CentreWeights WEIGHTS = CentreWeights.read();
  private static final CentreProgramme PROGRAMME = new CentreProgramme(CentreProgramme.Rules.FIRST);

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
        steps.add(new Step(random.nextInt(12), classes[random.nextInt(classes.length)], 4));
      }
      Reading reading = PROGRAMME.read(steps);

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
  void noOtherReadingOfThreeChordsScoresMore() {
    Random random = new Random(5);
    ChordClass[] classes = ChordClass.values();
    for (int round = 0; round < 10; round++) {
      List<Step> steps = new ArrayList<>();
      for (int i = 0; i < 3; i++) {
        steps.add(
            new Step(
                random.nextInt(12),
                classes[random.nextInt(classes.length)],
                1 + random.nextInt(32)));
      }
      Reading reading = PROGRAMME.read(steps);
      double best = Double.NEGATIVE_INFINITY;
      for (int a = 0; a < 36; a++) {
        for (int b = 0; b < 36; b++) {
          for (int c = 0; c < 36; c++) {
            best = Math.max(best, score(steps, a, b, c));
          }
        }
      }

      assertThat(reading.score()).as("round %d: %s", round, steps).isCloseTo(best, within(1e-9));
    }
  }

  /** The score of one reading, added up from the rules as the class comment states them. */
  private static double score(List<Step> steps, int... states) {
    double score = 0;
    for (int i = 0; i < states.length; i++) {
      TonalCentre centre = CentreProgramme.centre(states[i]);
      Step step = steps.get(i);
      score +=
          WEIGHTS.weight(centre.mode(), step.root() - centre.tonic(), step.chordClass())
              * Math.sqrt(step.quarters() / 4);
      if (i == 0) {
        score += step.root() == centre.tonic() ? 4 : 0;
        continue;
      }
      if (step.root() == centre.tonic()
          && CentreProgramme.isTonicChord(centre.mode(), step.chordClass())
          && CentreProgramme.leadsTo(steps.get(i - 1), centre.tonic())) {
        score += 2;
      }
      TonalCentre before = CentreProgramme.centre(states[i - 1]);
      if (before.equals(centre)) {
        continue;
      }
      int apart = Math.abs(circlePlace(before) - circlePlace(centre));
      score -= before.tonic() == centre.tonic() ? 9 : 8 + Math.min(apart, 12 - apart);
    }
    return score;
  }

  private static int circlePlace(TonalCentre centre) {
    int major = centre.mode() == TonalCentre.Mode.MINOR ? centre.tonic() + 3 : centre.tonic();
    return 7 * major % 12;
  }

  @Test
  void noChordsGiveAnEmptyReading() {
    Reading reading = PROGRAMME.read(List.of());

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
          PROGRAMME.read(
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
    return PROGRAMME.read(steps(chords));
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
