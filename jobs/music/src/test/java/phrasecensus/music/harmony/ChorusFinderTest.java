package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.ChorusFinder.Source;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Song forms are common practice (no source); the tune is made up. */
class ChorusFinderTest {
  /** One chord a bar; bars 1 to 8, and a bridge. */
  private static final List<String> A = List.of("C6", "A7", "Dm7", "G7", "Em7", "A7", "Dm7", "G7");

  private static final List<String> BRIDGE =
      List.of("F6", "F6", "Bb7", "Bb7", "C6", "C6", "D7", "G7");

  @Test
  void songOfThirtyTwoBarsComesRound() {
    Choruses choruses = ChorusFinder.find(solo(song(2), 0, 64)).orElseThrow();

    assertThat(choruses.bars()).isEqualTo(32);
    assertThat(choruses.onsets()).containsExactly(Fraction.ZERO, Fraction.of(128));
    assertThat(choruses.source()).isEqualTo(Source.CHORD_CYCLE);
    assertThat(choruses.agreement()).isEqualTo(1);
  }

  @Test
  void rehearsalMarkThatComesBackTellsWhereTheChorusBegins() {
    Solo solo = marked(solo(song(3), 28, 68), "4 A 36 B 132 A 164 B");

    Choruses choruses = ChorusFinder.find(solo).orElseThrow();

    assertThat(choruses.bars()).isEqualTo(32);
    assertThat(choruses.onsets())
        .containsExactly(Fraction.of(4), Fraction.of(132), Fraction.of(260));
  }

  /** The solo enters in the second bar of a chorus, under a mark that stands at its first note. */
  @Test
  void sectionEnteredLateStillBeginsTheChorus() {
    Solo solo = marked(solo(song(3), 1, 95), "0 A1 28 A2 124 A1 156 A2 252 A1 284 A2");

    assertThat(ChorusFinder.find(solo).orElseThrow().onsets())
        .containsExactly(Fraction.of(124), Fraction.of(252));
  }

  @Test
  void introductionIsNoChorus() {
    Solo solo = marked(solo(song(3), 30, 66), "0 Intro 8 A1");

    assertThat(ChorusFinder.find(solo).orElseThrow().onsets()).first().isEqualTo(Fraction.of(8));
  }

  @Test
  void bluesTellsInOneChorus() {
    Solo solo =
        SoloText.solo(Metre.of(4, 4), 13, "", "0:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:F7 44:C7 48:F7");

    Choruses choruses = ChorusFinder.find(solo).orElseThrow();

    assertThat(choruses.bars()).isEqualTo(12);
    assertThat(choruses.source()).isEqualTo(Source.BLUES);
    assertThat(choruses.onsets()).containsExactly(Fraction.ZERO, Fraction.of(48));
  }

  @Test
  void oneChorusOfASongDoesNotTell() {
    assertThat(ChorusFinder.find(solo(song(1), 0, 32))).isEmpty();
  }

  /** Sixteen bars twice, the second time with another close: one song of 32 bars. */
  @Test
  void halvesOfASongAreNoChoruses() {
    List<String> song = new ArrayList<>();
    song.addAll(A);
    song.addAll(BRIDGE);
    song.addAll(A);
    song.addAll(BRIDGE.subList(0, 6));
    song.addAll(List.of("G7", "C6"));

    assertThat(ChorusFinder.find(solo(song, 0, 32))).isEmpty();
  }

  @Test
  void sixteenBarsHeardTwiceAlikeAreTwoChoruses() {
    List<String> song = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      song.addAll(A);
      song.addAll(BRIDGE);
    }

    assertThat(ChorusFinder.find(solo(song, 0, 32)).orElseThrow().bars()).isEqualTo(16);
  }

  @Test
  void vampOfFourBarsHasNoChorus() {
    List<String> song = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      song.addAll(List.of("Am7", "D7", "Gmaj7", "E7"));
    }

    assertThat(ChorusFinder.find(solo(song, 0, 32))).isEmpty();
  }

  @Test
  void oneChordThroughoutHasNoChorus() {
    assertThat(ChorusFinder.find(SoloText.solo(Metre.of(4, 4), 40, "", "0:Dm7"))).isEmpty();
  }

  @Test
  void soloWithoutChordsOrBarsHasNone() {
    assertThat(ChorusFinder.find(SoloText.solo(Metre.of(4, 4), 40, "", ""))).isEmpty();
    assertThat(ChorusFinder.find(SoloText.solo(Metre.of(4, 4), 0, "", ""))).isEmpty();
  }

  private static List<String> song(int choruses) {
    List<String> bars = new ArrayList<>();
    for (int i = 0; i < choruses; i++) {
      bars.addAll(A);
      bars.addAll(A);
      bars.addAll(BRIDGE);
      bars.addAll(A);
    }
    return bars;
  }

  private static Solo solo(List<String> song, int from, int bars) {
    StringBuilder chords = new StringBuilder();
    IntStream.range(0, bars)
        .forEach(i -> chords.append(4 * i).append(':').append(song.get(from + i)).append(' '));
    return SoloText.solo(Metre.of(4, 4), bars, "", chords.toString());
  }

  private static Solo marked(Solo solo, String text) {
    String[] words = text.split(" ");
    List<Mark> marks = new ArrayList<>();
    for (int i = 0; i < words.length; i += 2) {
      Fraction onset = Fraction.parse(words[i]);
      marks.add(new Mark(Mark.Kind.REHEARSAL, onset, onset, words[i + 1]));
    }
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
