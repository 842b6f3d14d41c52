package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PhraseMarksTest {
  private static PhraseMarks marks(String text, String key) {
    return PhraseMarks.read("marks.csv", text.getBytes(StandardCharsets.UTF_8), key);
  }

  @ParameterizedTest
  @ValueSource(strings = {",", ";", "\t"})
  void columnsAreFoundByNameWhateverStandsBetweenThem(String between) {
    String text =
        "\uFEFFsong,remark,note_index\na/b.xml,,0\na/b.xml,late,12\n".replace(",", between);

    PhraseMarks marks = marks(text, "song");

    assertThat(marks.of("a/b.musicxml")).contains(List.of(0, 12));
    assertThat(marks.of("b.musicxml")).isEmpty();
  }

  @Test
  void marksAreInOrderAndOnceButAsWrittenWhenAskedFor() {
    PhraseMarks marks = marks("file,note_index\na,12\na,0\na,12\n", "file");

    assertThat(marks.of("a.xml")).contains(List.of(0, 12));
    assertThat(marks.asWritten("a.xml")).contains(List.of(12, 0, 12));
  }

  @Test
  void scoresBeyondThoseAtHandAreNamed() {
    PhraseMarks marks = marks("file,note_index\na,0\nb,0\nc,0\n", "file");

    assertThat(marks.scoresBeyond(List.of("b.mxl"))).containsExactly("a", "c");
  }

  @ParameterizedTest
  @ValueSource(strings = {"-1", "3.5", "", "third", "99999999999"})
  void aNoteThatIsNoWholeNumberIsRefusedWithItsRow(String note) {
    assertThatThrownBy(() -> marks("file,note_index\na,0\na," + note + "\n", "file"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the phrase marks marks.csv: row 3 has the note '"
                + note
                + "'. Count notes from 0.");
  }

  @Test
  void aShortRowIsRefusedWithItsRow() {
    assertThatThrownBy(() -> marks("file,note_index\na\n", "file"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("row 2");
  }

  @Test
  void aMissingColumnIsNamedBesideThoseThereAre() {
    assertThatThrownBy(() -> marks("file,start\na,0\n", "file"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the phrase marks marks.csv: there is no column 'note_index'. Its columns:"
                + " file, start.");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "file,note_index\n\"a,0\n", "\u0000"})
  void whatIsNoTableIsRefusedInWords(String text) {
    if (text.isEmpty() || text.startsWith("\u0000")) {
      assertThatThrownBy(() -> marks(text, "file")).isInstanceOf(InputException.class);
    } else {
      assertThatThrownBy(() -> marks(text, "file"))
          .isInstanceOf(InputException.class)
          .hasMessageStartingWith("Cannot read the phrase marks marks.csv");
    }
  }
}
