package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StudyPointerTest {
  private static StudyPointer parsed(String text) {
    return StudyPointer.parse("current-00000001.json", text.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void aPointerIsReadAsItWasWritten() {
    for (String report : new String[] {null, "report-0a1b"}) {
      StudyPointer pointer = new StudyPointer("generation-12ef", report);

      assertThat(parsed(pointer.json())).isEqualTo(pointer);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "null",
        "[]",
        "{",
        "{\"report\": \"report-1\"}",
        "{\"generation\": \"../other-study\"}",
        "{\"generation\": \"a/b\"}",
        "{\"generation\": \"tables\", \"report\": \"report\"}",
        "{\"generation\": \"tables\", \"report\": null, \"check\": \"0\"}",
        "{\"generation\": \"a\", \"report\": \"/etc\"}"
      })
  void whatNamesNoFoldersBesideItIsNoPointer(String text) {
    assertThatThrownBy(() -> parsed(text))
        .isInstanceOf(InputException.class)
        .hasMessage("Cannot read current-00000001.json: it does not name the folders of a study.");
  }

  @Test
  void noFlippedBitNamesOtherFolders() {
    StudyPointer pointer = new StudyPointer("generation-12ef", "report-0a1b");
    byte[] bytes = pointer.json().getBytes(StandardCharsets.UTF_8);
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] flipped = bytes.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      try {
        assertThat(StudyPointer.parse("pointer", flipped)).as("bit %d", bit).isEqualTo(pointer);
      } catch (InputException e) {
        // Told.
      }
    }
  }
}
