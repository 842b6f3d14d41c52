package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Solo;

class MarksTest {
  private static List<String> marks(Solo solo) {
    return solo.marks().stream()
        .map(
            mark ->
                (mark.kind() + " " + mark.onset() + "-" + mark.end() + " " + mark.text()).strip())
        .toList();
  }

  private static String notation(String contents) {
    return "<notations>" + contents + "</notations>";
  }

  private static String direction(String type) {
    return "<direction><direction-type>" + type + "</direction-type></direction>";
  }

  @Test
  void slursReachFromTheirFirstToTheirLastNote() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 1, notation("<slur type='start' number='1'/>"))
                    + note("D", 4, 1)
                    + note(
                        "E",
                        4,
                        1,
                        notation(
                            "<slur type='stop' number='1'/>" + "<slur type='start' number='1'/>"))
                    + note("F", 4, 1, notation("<slur type='stop' number='1'/>"))));

    assertThat(marks(solo)).containsExactly("SLUR 0-2", "SLUR 2-3");
  }

  @Test
  void aBreathAtATiedNoteBelongsToTheNoteThatIsStruck() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2, "<tie type='start'/>")
                    + note(
                        "C",
                        4,
                        1,
                        "<tie type='stop'/>"
                            + notation("<articulations><breath-mark/></articulations>"))
                    + note("D", 4, 1)));

    assertThat(marks(solo)).containsExactly("BREATH 0-0");
  }

  @Test
  void caesurasAndFermatasStandAtTheirNote() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2, notation("<articulations><caesura/></articulations>"))
                    + note("D", 4, 2, notation("<fermata/>"))));

    assertThat(marks(solo)).containsExactly("CAESURA 0-0", "FERMATA 2-2");
  }

  @Test
  void bracketsAndDashesReachToTheLastNoteUnderThem() {
    Solo solo =
        solo(
            bar(
                direction("<bracket type='start' line-end='down' number='1'/>")
                    + note("C", 4, 1)
                    + note("D", 4, 1)
                    + direction("<bracket type='stop' line-end='down' number='1'/>")
                    + direction("<dashes type='start' number='1'/>")
                    + note("E", 4, 2)
                    + direction("<dashes type='stop' number='1'/>")));

    assertThat(marks(solo)).containsExactly("BRACKET 0-1", "BRACKET 2-2");
  }

  @Test
  void rehearsalMarksAndDoubleBarsDivideTheForm() {
    Solo solo =
        solo(
            bar(
                direction("<rehearsal> A </rehearsal>")
                    + note("C", 4, 4)
                    + "<barline location='right'><bar-style>light-light</bar-style></barline>"));

    assertThat(marks(solo)).containsExactly("REHEARSAL 0-0 A", "DOUBLE_BAR 4-4");
  }

  @Test
  void articulationsAreKeptInOrderOfTheirWords() {
    Solo solo =
        solo(
            bar(
                note(
                    "C",
                    4,
                    4,
                    notation(
                        "<articulations><staccato/><accent/><breath-mark/></articulations>"))));

    assertThat(solo.notes().get(0).articulations()).containsExactly("accent", "staccato");
  }

  @Test
  void aSoundingTempoCountsBeforeAPrintedOne() {
    Solo solo =
        solo(
            bar(
                direction(
                        "<metronome><beat-unit>half</beat-unit><per-minute>ca. 90</per-minute>"
                            + "</metronome>")
                    + note("C", 4, 2)
                    + "<direction><direction-type><metronome><beat-unit>quarter</beat-unit>"
                    + "<per-minute>200</per-minute></metronome></direction-type>"
                    + "<sound tempo='100'/></direction>"
                    + note("D", 4, 2)));

    assertThat(solo.tempi())
        .extracting(tempo -> tempo.onset() + " " + tempo.quartersPerMinute())
        .containsExactly("0 180.0", "2 100.0");
  }
}
