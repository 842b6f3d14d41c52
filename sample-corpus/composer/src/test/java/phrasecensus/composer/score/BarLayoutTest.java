package phrasecensus.composer.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import phrasecensus.composer.harmony.NoteName;
import phrasecensus.composer.line.Tone;

class BarLayoutTest {
  @Test
  void noteOverTheMiddleOfTheBarIsTied() {
    assertThat(layout(tone(36, 24))).isEqualTo("r24 r12 eighth~ eighth r12 r24");
  }

  @Test
  void syncopatedQuarterInsideTheHalfBarStaysOneNote() {
    assertThat(layout(tone(0, 12), tone(12, 24), tone(36, 12)))
        .isEqualTo("eighth quarter eighth r48");
  }

  @Test
  void threeEighthsMakeATriplet() {
    assertThat(layout(tone(0, 8), tone(8, 8), tone(16, 8)))
        .isEqualTo("eighth/3 eighth/3 eighth/3 r24 r48");
  }

  @Test
  void threeQuartersOverTwoBeatsMakeATriplet() {
    assertThat(layout(tone(48, 16), tone(64, 16), tone(80, 16)))
        .isEqualTo("r48 quarter/3 quarter/3 quarter/3");
  }

  @Test
  void quickTurnIsATripletOfSixteenths() {
    assertThat(layout(tone(0, 4), tone(4, 4), tone(8, 4), tone(12, 12)))
        .isEqualTo("16th/3 16th/3 16th/3 eighth r24 r48");
  }

  @Test
  void noteStopsAtACutAndGoesOnTied() {
    List<Piece> pieces = BarLayout.pieces(List.of(tone(0, 96)), 0, 96, List.of(0, 48));

    assertThat(text(pieces)).isEqualTo("half~ half");
  }

  private static Tone tone(int onset, int length) {
    return new Tone(onset, length, 60, NoteName.of("C"), 0, Tone.Mark.NONE, false, -1);
  }

  private static String layout(Tone... tones) {
    return text(BarLayout.pieces(List.of(tones), 0, 96, List.of()));
  }

  private static String text(List<Piece> pieces) {
    return pieces.stream()
        .map(
            p ->
                p.rest()
                    ? "r" + p.length()
                    : p.type()
                        + (p.dotted() ? "." : "")
                        + (p.tuplet() == null ? "" : "/3")
                        + (p.tieStart() ? "~" : ""))
        .collect(Collectors.joining(" "));
  }
}
