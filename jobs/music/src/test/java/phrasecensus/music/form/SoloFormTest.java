package phrasecensus.music.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Forms are common practice (no source); the tunes are made up. */
class SoloFormTest {
  private static final Metre FOUR_FOUR = Metre.of(4, 4);
  private static final String[] BLUES = {
    "F7", "Bb7", "F7", "F7", "Bb7", "Bb7", "F7", "D7", "Gm7", "C7", "F7", "C7"
  };
  private static final String[] ROUND = {"Cmaj7", "Am7", "Dm7", "G7", "Em7", "A7", "Dm7", "G7"};
  private static final String[] SONG = {
    "C6", "A7", "Dm7", "G7", "Em7", "A7", "Dm7", "G7",
    "C6", "A7", "Dm7", "G7", "Em7", "A7", "Dm7", "G7",
    "F6", "F6", "Bb7", "Bb7", "C6", "C6", "D7", "G7",
    "C6", "A7", "Dm7", "G7", "Em7", "A7", "Dm7", "G7"
  };

  @Test
  void bluesWithoutMarksIsOneSectionAChorus() {
    SoloForm form = SoloForm.of(solo(BLUES, 0, 25));

    assertThat(each(25, form::chorus)).startsWith(1, 1).endsWith(2, 3);
    assertThat(each(25, form::barInChorus)).startsWith(1, 2, 3).endsWith(11, 12, 1);
    assertThat(each(25, form::barInSection)).isEqualTo(each(25, form::barInChorus));
    assertThat(each(25, form::barInGroupOfFour)).startsWith(1, 2, 3, 4, 1).endsWith(4, 1);
    assertThat(form.sectionName(0)).isNull();
  }

  @Test
  void pickupBelongsToNoChorus() {
    Solo solo = SoloText.solo(FOUR_FOUR, 24, Fraction.of(2), "", chords(BLUES, 0, 24, 2));
    SoloForm form = SoloForm.of(solo);

    assertThat(form.chorus(0)).isEqualTo(SoloForm.UNKNOWN);
    assertThat(form.barInGroupOfFour(0)).isEqualTo(SoloForm.UNKNOWN);
    assertThat(form.chorus(1)).isEqualTo(1);
    assertThat(form.barInChorus(13)).isEqualTo(1);
  }

  @Test
  void markOnAPickupIsTheMarkOfTheFirstFullBar() {
    Solo solo = SoloText.solo(FOUR_FOUR, 16, Fraction.ONE, "", chords(ROUND, 0, 16, 1));
    SoloForm form = SoloForm.of(marked(solo, "0 A"));

    assertThat(each(17, form::chorus)).startsWith(SoloForm.UNKNOWN, 1, 1).endsWith(2, 2);
    assertThat(form.barInChorus(1)).isEqualTo(1);
    assertThat(form.barInChorus(9)).isEqualTo(1);
    assertThat(form.sectionName(0)).isNull();
    assertThat(form.sectionName(1)).isEqualTo("A");
  }

  @Test
  void chordsOfABluesThatBeginOnThePickupCountFromTheFirstFullBar() {
    Solo solo = SoloText.solo(FOUR_FOUR, 23, Fraction.ONE, "", chords(BLUES, 1, 23, 1));
    SoloForm form = SoloForm.of(marked(solo, "0 A"));

    assertThat(form.choruses()).isPresent();
    assertThat(form.chorus(0)).isEqualTo(SoloForm.UNKNOWN);
  }

  @Test
  void songWithoutMarksHasChorusesButNoSections() {
    SoloForm form = SoloForm.of(solo(SONG, 0, 64));

    assertThat(form.section(0)).isEqualTo(SoloForm.UNKNOWN);
    assertThat(form.chorus(32)).isEqualTo(2);
    assertThat(form.barInGroupOfFour(33)).isEqualTo(2);
  }

  @Test
  void rehearsalMarksNameSections() {
    SoloForm form = SoloForm.of(marked(solo(SONG, 0, 64), "0 A1 32 A2 64 B 96 A3 128 A1 160 A2"));

    assertThat(form.sectionName(7)).isEqualTo("A1");
    assertThat(form.barInSection(7)).isEqualTo(8);
    assertThat(form.sectionName(16)).isEqualTo("B");
    assertThat(form.section(16)).isEqualTo(3);
    assertThat(form.barInSection(16)).isEqualTo(1);
    assertThat(form.chorus(31)).isEqualTo(1);
    assertThat(form.chorus(32)).isEqualTo(2);
  }

  @Test
  void introductionIsASectionButNoChorus() {
    SoloForm form = SoloForm.of(marked(solo(SONG, 28, 68), "0 Intro 16 A1"));

    assertThat(form.chorus(3)).isEqualTo(SoloForm.UNKNOWN);
    assertThat(form.barInChorus(3)).isEqualTo(SoloForm.UNKNOWN);
    assertThat(form.sectionName(3)).isEqualTo("Intro");
    assertThat(form.barInSection(3)).isEqualTo(4);
    assertThat(form.chorus(4)).isEqualTo(1);
  }

  @Test
  void chorusEnteredLateCountsFromItsOwnFirstBar() {
    SoloForm form =
        SoloForm.of(marked(solo(SONG, 1, 95), "0 A1 28 A2 124 A1 156 A2 252 A1 284 A2"));

    assertThat(form.chorus(0)).isEqualTo(1);
    assertThat(form.barInChorus(0)).isEqualTo(2);
    assertThat(form.barInChorus(30)).isEqualTo(32);
    assertThat(form.chorus(31)).isEqualTo(2);
    assertThat(form.barInChorus(31)).isEqualTo(1);
  }

  @Test
  void doubleBarsPartSectionsWhereNoMarkStands() {
    List<Mark> marks = new ArrayList<>();
    for (int bar : new int[] {8, 16, 24, 32}) {
      Fraction at = Fraction.of(4L * bar);
      marks.add(new Mark(Mark.Kind.DOUBLE_BAR, at, at, ""));
    }
    SoloForm form = SoloForm.of(with(solo(SONG, 0, 32), marks));

    assertThat(form.chorus(0)).isEqualTo(SoloForm.UNKNOWN);
    assertThat(form.section(7)).isEqualTo(1);
    assertThat(form.section(8)).isEqualTo(2);
    assertThat(form.barInSection(31)).isEqualTo(8);
  }

  @Test
  void finalBarLineAloneMakesNoSections() {
    Fraction end = Fraction.of(128);
    SoloForm form =
        SoloForm.of(with(solo(SONG, 0, 32), List.of(new Mark(Mark.Kind.DOUBLE_BAR, end, end, ""))));

    assertThat(form.section(0)).isEqualTo(SoloForm.UNKNOWN);
  }

  @Test
  void bothPartsOfASplitBarAreOneBar() {
    Solo whole = solo(BLUES, 0, 24);
    List<Bar> bars = new ArrayList<>();
    for (Bar bar : whole.bars()) {
      if (bar.index() == 11) {
        Fraction two = Fraction.of(2);
        bars.add(new Bar(11, "12", bar.onset(), two, FOUR_FOUR, Fraction.ZERO, false));
        bars.add(new Bar(12, "X1", bar.onset().plus(two), two, FOUR_FOUR, two, false));
      } else {
        bars.add(
            new Bar(
                bars.size(),
                bar.number(),
                bar.onset(),
                bar.length(),
                FOUR_FOUR,
                Fraction.ZERO,
                false));
      }
    }
    SoloForm form =
        SoloForm.of(
            new Solo(
                whole.description(),
                bars,
                List.of(),
                List.of(),
                whole.chords(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of()));

    assertThat(form.barInChorus(11)).isEqualTo(12);
    assertThat(form.barInChorus(12)).isEqualTo(12);
    assertThat(form.barInChorus(13)).isEqualTo(1);
    assertThat(form.chorus(13)).isEqualTo(2);
  }

  @Test
  void soloWithoutBarsHasNoForm() {
    assertThat(SoloForm.of(SoloText.solo(FOUR_FOUR, 0, "", "")).choruses()).isEmpty();
  }

  private static List<Integer> each(int bars, IntFunction<Integer> place) {
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < bars; i++) {
      places.add(place.apply(i));
    }
    return places;
  }

  private static String chords(String[] tune, int from, int bars, int pickup) {
    StringBuilder chords = new StringBuilder();
    for (int i = 0; i < bars; i++) {
      chords.append(4 * i + pickup).append(':').append(tune[(from + i) % tune.length]).append(' ');
    }
    return chords.toString();
  }

  private static Solo solo(String[] tune, int from, int bars) {
    return SoloText.solo(FOUR_FOUR, bars, "", chords(tune, from, bars, 0));
  }

  private static Solo marked(Solo solo, String text) {
    String[] words = text.split(" ");
    List<Mark> marks = new ArrayList<>();
    for (int i = 0; i < words.length; i += 2) {
      Fraction onset = Fraction.parse(words[i]);
      marks.add(new Mark(Mark.Kind.REHEARSAL, onset, onset, words[i + 1]));
    }
    return with(solo, marks);
  }

  private static Solo with(Solo solo, List<Mark> marks) {
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        List.of(),
        solo.chords(),
        List.of(),
        List.of(),
        marks,
        List.of(),
        List.of());
  }
}
