package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.part;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Solo;

/** Clefs, repeats and endings as MusicXML 4.0 defines {@code clef} and {@code barline}. */
class StaffSignsReadingTest {
  private static String clef(String sign, String more) {
    return "<attributes><clef><sign>" + sign + "</sign>" + more + "</clef></attributes>";
  }

  private static String bar(String contents) {
    return "<measure number='1'>" + contents + "</measure>";
  }

  private static Solo read(String bars) {
    return solo(part(bars.replaceFirst(">", ">" + TinyScores.COMMON_TIME)));
  }

  private static List<String> clefs(Solo solo) {
    return solo.bars().stream().map(bar -> bar.signs().clef()).toList();
  }

  @Test
  void aClefHoldsUntilTheNextOne() {
    Solo solo =
        read(
            bar(clef("G", "<line>2</line>") + note("C", 5, 4))
                + bar(note("C", 5, 4))
                + bar(clef("F", "<line>4</line>") + note("C", 3, 4)));

    assertThat(clefs(solo)).containsExactly("G2", "G2", "F4");
  }

  @Test
  void anOctaveClefTellsItsOctaves() {
    String octave = "<line>2</line><clef-octave-change>-1</clef-octave-change>";

    assertThat(clefs(read(bar(clef("G", octave) + note("C", 4, 4))))).containsExactly("G2-8");
  }

  @Test
  void aClefInsideABarHoldsFromTheNextBar() {
    Solo solo =
        read(
            bar(clef("G", "") + note("C", 5, 2) + clef("C", "<line>4</line>") + note("C", 4, 2))
                + bar(note("C", 4, 4)));

    assertThat(clefs(solo)).containsExactly("G2", "C4");
  }

  @Test
  void aClefOfNoPitchesIsNone() {
    assertThat(clefs(read(bar(clef("percussion", "") + note("C", 5, 4))))).containsExactly("");
  }

  @Test
  void repeatsAndEndingsStandAtTheirBars() {
    Solo solo =
        read(
            bar(
                    "<barline location=\"left\"><repeat direction=\"forward\"/></barline>"
                        + note("C", 5, 4))
                + bar(
                    "<barline location=\"left\"><ending number=\"1, 2\" type=\"start\"/></barline>"
                        + note("D", 5, 4)
                        + "<barline location=\"right\"><ending number=\"1, 2\" type=\"stop\"/>"
                        + "<repeat direction=\"backward\"/></barline>")
                + bar(note("E", 5, 4)));

    List<Bar> bars = solo.bars();
    assertThat(bars.get(0).signs().startsRepeat()).isTrue();
    assertThat(bars.get(0).signs().endsRepeat()).isFalse();
    assertThat(bars.get(1).signs().ending()).isEqualTo("1, 2");
    assertThat(bars.get(1).signs().endsEnding()).isTrue();
    assertThat(bars.get(1).signs().endsRepeat()).isTrue();
    assertThat(bars.get(2).signs().ending()).isEmpty();
  }
}
