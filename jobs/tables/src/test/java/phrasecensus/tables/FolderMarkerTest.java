package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class FolderMarkerTest {
  @ParameterizedTest
  @EnumSource
  void aMarkerIsReadAsItWasWritten(FolderMarker.Kind kind) {
    assertThat(FolderMarker.parse(FolderMarker.of(kind).bytes())).isEqualTo(FolderMarker.of(kind));
  }

  @Test
  void thatOfAWorkingFolderSaysHowItIsCalled() {
    FolderMarker marker = FolderMarker.working(".working-12ef");

    assertThat(FolderMarker.parse(marker.bytes())).isEqualTo(marker);
    assertThat(marker).isNotEqualTo(FolderMarker.working(".working-12ee"));
  }

  @Test
  void noFlippedBitAndNoCutLeavesAMarker() {
    byte[] bytes = FolderMarker.of(FolderMarker.Kind.STUDY).bytes();
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] flipped = bytes.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      assertThat(FolderMarker.parse(flipped)).as("bit %d", bit).isNull();
    }
    for (int length = 0; length < bytes.length; length++) {
      assertThat(FolderMarker.parse(Arrays.copyOf(bytes, length))).as("%d bytes", length).isNull();
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "Phrase Census keeps a study in this folder.\n", "{}", "kind: study\n"})
  void whatOnlyLooksLikeOneIsNone(String text) {
    assertThat(FolderMarker.parse(text.getBytes(StandardCharsets.UTF_8))).isNull();
  }
}
