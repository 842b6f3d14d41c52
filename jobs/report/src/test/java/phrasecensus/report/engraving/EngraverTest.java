package phrasecensus.report.engraving;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;

class EngraverTest {
  private static List<Engraving> engraved(String line, int fifths) {
    return Engraver.engrave(
        "s", LineBuilder.solo("4/4", Fraction.ZERO, line), fifths, Layout.wide());
  }

  private static long count(List<Engraving> systems, Glyph glyph) {
    return Drawn.places(systems, glyph).size();
  }

  /** Written key of transposing instruments: common practice, no source. */
  @ParameterizedTest(name = "concert {0}, written {1} semitones higher, is {2}")
  @CsvSource({
    "0,0,0", "-2,2,0", "0,2,2", "-3,9,0", "0,9,3", "0,14,2", "5,2,-5", "-6,0,-6", "6,0,6", "0,12,0"
  })
  void theKeySignatureIsTheOneThePlayerReads(int concert, int transposition, int written) {
    assertThat(Engraver.writtenFifths(concert, transposition)).isEqualTo(written);
  }

  /** Order of sharps F C G D A E B, of flats the reverse: common practice, no source. */
  @Test
  void keySignaturesAlterTheirSteps() {
    assertThat(WrittenPitch.of("F5").alterInKey(1)).isEqualTo(1);
    assertThat(WrittenPitch.of("C5").alterInKey(1)).isZero();
    assertThat(WrittenPitch.of("B\u266d4").alterInKey(-1)).isEqualTo(-1);
    assertThat(WrittenPitch.of("E4").alterInKey(-2)).isEqualTo(-1);
    assertThat(WrittenPitch.of("F\u266f3").alterInKey(-7)).isEqualTo(-1);
    assertThat(WrittenPitch.of("C\u266f-1")).isEqualTo(new WrittenPitch(-7, 1));
  }

  @Test
  void anAccidentalStandsOnceInABarAndAgainInTheNext() {
    assertThat(count(engraved("F#5 1, F#5 1, F#5 2, F#5 4", 0), Glyph.SHARP)).isEqualTo(2);
  }

  @Test
  void aNaturalTakesTheAccidentalBack() {
    List<Engraving> systems = engraved("F#5 2, F5 2", 0);

    assertThat(count(systems, Glyph.SHARP)).isEqualTo(1);
    assertThat(count(systems, Glyph.NATURAL)).isEqualTo(1);
  }

  @Test
  void aNoteOfTheKeyHasNoAccidentalAndANoteTiedOverHasNoneAgain() {
    assertThat(count(engraved("F#5 4", 1), Glyph.SHARP)).isEqualTo(1);
    assertThat(count(engraved("C5 2, C#5 4, C5 2", 0), Glyph.SHARP)).isEqualTo(1);
  }

  /** Reminders: common practice, no source. */
  @Test
  void anAccidentalRemindsInTheNextBarAndInAnotherOctaveOnce() {
    assertThat(count(engraved("F#5 4, F5 2, F5 2", 0), Glyph.NATURAL)).isEqualTo(1);
    assertThat(count(engraved("F#5 2, F4 1, F4 1", 0), Glyph.NATURAL)).isEqualTo(1);
    assertThat(count(engraved("F#5 2, F5 2, F5 4", 0), Glyph.NATURAL)).isEqualTo(1);
    assertThat(count(engraved("F#5 4, E5 4, F5 4", 0), Glyph.NATURAL)).isZero();
  }

  @Test
  void aPickupHasNoBarNumber() {
    List<Engraving> systems =
        Engraver.engrave(
            "s", LineBuilder.solo("4/4", Fraction.ONE, "C5 1, C5 4"), 0, Layout.wide());

    assertThat(Drawn.words(systems, "tiny")).isEmpty();
    assertThat(Drawn.words(engraved("C5 4", 0), "tiny")).containsExactly("1");
  }

  /** Heads and accidentals beside each other, on systems of whatever line. */
  @Test
  void signsDoNotTouchOneAnother() {
    Random dice = new Random(29);
    String[] lengths = {"1/4", "1/2", "1/2", "1", "3/4", "2"};
    String[] pitches = {"C5", "C#5", "Db5", "F4", "F#4", "A5", "Bb3", "B3", "E6"};
    int compared = 0;
    for (int i = 0; i < 60; i++) {
      StringBuilder line = new StringBuilder();
      for (int k = 0; k < 60; k++) {
        line.append(pitches[dice.nextInt(pitches.length)]).append(' ');
        line.append(lengths[dice.nextInt(lengths.length)]).append(", ");
      }
      for (Engraving system : engraved(line.append("C5 1").toString(), dice.nextInt(7) - 3)) {
        TreeMap<Integer, Integer> ends = new TreeMap<>();
        for (Glyph glyph :
            List.of(
                Glyph.NOTEHEAD_BLACK,
                Glyph.NOTEHEAD_HALF,
                Glyph.SHARP,
                Glyph.FLAT,
                Glyph.NATURAL)) {
          for (Drawn.Place place : Drawn.places(system, glyph)) {
            // Only signatures stand so far to the left.
            if (place.x() > 120) {
              ends.put(place.x(), place.x() + Ink.tenths(glyph.width()));
            }
          }
        }
        int reached = 0;
        for (Map.Entry<Integer, Integer> sign : ends.entrySet()) {
          assertThat(sign.getKey()).as("line %d: %s", i, line).isGreaterThan(reached);
          reached = sign.getValue();
          compared++;
        }
      }
    }
    assertThat(compared).isGreaterThan(3000);
  }

  @Test
  void everyNoteHasItsHead() {
    List<Engraving> systems = engraved("C5 1/2, C5 1/2, C5 1, C5 2, C5 4", 0);

    assertThat(count(systems, Glyph.NOTEHEAD_BLACK)).isEqualTo(3);
    assertThat(count(systems, Glyph.NOTEHEAD_HALF)).isEqualTo(1);
    assertThat(count(systems, Glyph.NOTEHEAD_WHOLE)).isEqualTo(1);
  }

  @Test
  void aLoneEighthHasAFlagAndTwoHaveABeam() {
    assertThat(count(engraved("C4 1/2, - 1/2, C4 3", 0), Glyph.FLAG_UP)).isEqualTo(1);
    assertThat(count(engraved("C4 1/2, C4 1/2, C4 3", 0), Glyph.FLAG_UP)).isZero();
    assertThat(count(engraved("C6 1/2, - 1/2, C6 3", 0), Glyph.FLAG_DOWN)).isEqualTo(1);
  }

  @Test
  void lowLinesStandInTheBassClef() {
    assertThat(count(engraved("C3 4", 0), Glyph.F_CLEF)).isEqualTo(1);
    assertThat(count(engraved("C5 4", 0), Glyph.G_CLEF)).isEqualTo(1);
  }

  @Test
  void theMetreStandsOnceAndTheClefOnEverySystem() {
    String line = String.join(", ", java.util.Collections.nCopies(12 * 8, "C5 1/2"));

    List<Engraving> systems = engraved(line, 0);

    assertThat(systems).hasSizeGreaterThan(2);
    assertThat(count(systems, Glyph.G_CLEF)).isEqualTo(systems.size());
    assertThat(count(systems, Glyph.digit(4))).isEqualTo(2);
    assertThat(systems.get(0).label()).startsWith("Bars 1 to ");
    assertThat(systems.get(systems.size() - 1).label()).contains(" to 12,");
  }

  @Test
  void nothingStandsOutsideTheSystem() {
    String line =
        String.join(", ", java.util.Collections.nCopies(40, "C#5 1/4, D5 1/4, C7 1/2, C#3 1"));

    for (Engraving system :
        Engraver.engrave("s", LineBuilder.solo("4/4", Fraction.ZERO, line), 3, Layout.narrow())) {
      for (Glyph glyph : Glyph.values()) {
        for (Drawn.Place place : Drawn.places(system, glyph)) {
          assertThat(place.x()).isBetween(0, system.width());
          assertThat(place.y()).isBetween(system.top(), system.bottom());
        }
      }
    }
  }

  /**
   * Seven tenths of the size are the least; what needs less is drawn in between without touching.
   */
  @ParameterizedTest(name = "{0} notes")
  @CsvSource({"16,false", "24,false", "64,true"})
  void aBarWiderThanTheSystemIsDrawnSmallerAndSqueezedOnlyThen(int notes, boolean touching) {
    String note = "C5 1/" + notes / 4;
    String line = String.join(", ", java.util.Collections.nCopies(notes, note));

    List<Engraving> systems =
        Engraver.engrave("s", LineBuilder.solo("4/4", Fraction.ZERO, line), 0, Layout.narrow());
    List<Drawn.Place> heads = Drawn.places(systems, Glyph.NOTEHEAD_BLACK);
    boolean touch = false;
    for (int i = 1; i < heads.size(); i++) {
      touch |= heads.get(i).x() < heads.get(i - 1).x() + Ink.tenths(Glyph.NOTEHEAD_BLACK.width());
    }

    int usual = Ink.tenths(Layout.narrow().width());
    assertThat(systems).hasSize(1);
    assertThat(heads).hasSize(notes);
    assertThat(systems.get(0).width()).isBetween(usual, (int) Math.round(usual / 0.7));
    assertThat(touch).isEqualTo(touching);
  }

  @Test
  void tripletsCarryTheirNumber() {
    assertThat(Drawn.words(engraved("C5 1/3, D5 1/3, E5 1/3, C5 3", 0), "tuplet"))
        .containsExactly("3");
  }

  @Test
  void outlinesAreClosedAndInStaffSpaces() {
    for (Glyph glyph : Glyph.values()) {
      assertThat(glyph.width()).as("%s", glyph).isBetween(0.3, 3.0);
      assertThat(glyph.outline())
          .as("%s", glyph)
          .startsWith("M")
          .endsWith("Z")
          .doesNotContain("NaN");
    }
  }
}
