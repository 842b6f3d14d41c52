package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.store.BucketResult;

class SameSolosTest {
  private static BucketResult.FileOutcome file(
      String role, String name, String bytes, String line) {
    return new BucketResult.FileOutcome(role, name, bytes, null, 20, line, false, false, null);
  }

  @Test
  void filesOfTheSameBytesAndOfTheSameLineAreTold() {
    assertThat(
            SameSolos.remarks(
                List.of(
                    file("corpus", "a/one.xml", "11", "aa"),
                    file("corpus", "b/one.xml", "11", "aa"),
                    file("corpus", "b/two.xml", "22", "bb"),
                    file("corpus", "c/two.mxl", "33", "bb"),
                    file("student", "d/two.mxl", "33", "bb"))))
        .containsExactly(
            "In the corpus 2 files are the same as another one byte for byte and count as often as"
                + " they are there: a/one.xml and b/one.xml.",
            "In the corpus 2 files are the same solo as another one in other bytes and count as"
                + " often as they are there: b/two.xml and c/two.mxl.");
  }

  @Test
  void manyAreCountedAndTheFirstNamed() {
    List<BucketResult.FileOutcome> files =
        java.util.stream.IntStream.range(0, 14)
            .mapToObj(i -> file("student", "f" + (char) ('a' + i), "s" + i / 2, null))
            .toList();

    assertThat(SameSolos.remarks(files))
        .containsExactly(
            "Among the students' files 14 files are the same as another one byte for byte: fa and"
                + " fb; fc and fd; fe and ff; fg and fh; fi and fj; and 2 more.");
  }

  @Test
  void withoutAnyNothingIsSaid() {
    assertThat(
            SameSolos.remarks(
                List.of(file("corpus", "a", "1", null), file("corpus", "b", "2", null))))
        .isEmpty();
  }
}
