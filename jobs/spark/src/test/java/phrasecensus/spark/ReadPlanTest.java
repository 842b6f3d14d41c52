package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.InputFile;

class ReadPlanTest {
  @Test
  void everyFileIsInOneBucketOfItsRole() {
    for (int seed = 0; seed < 50; seed++) {
      Random random = new Random(seed);
      List<InputFile> files = new ArrayList<>();
      for (int i = 0; i < random.nextInt(400) + 1; i++) {
        String role = random.nextBoolean() ? InputFile.CORPUS : InputFile.STUDENT;
        files.add(new InputFile(role, "f" + i, "file:/f" + i, random.nextInt(3_000_000)));
      }

      ReadPlan plan = ReadPlan.of(files);

      assertThat(plan.buckets().stream().flatMap(bucket -> bucket.files().stream()))
          .as("seed " + seed)
          .containsExactlyInAnyOrderElementsOf(files);
      assertThat(plan.buckets())
          .as("seed " + seed)
          .allSatisfy(
              bucket -> {
                assertThat(bucket.files()).isNotEmpty();
                assertThat(bucket.files()).allMatch(file -> file.role().equals(bucket.role()));
              });
      assertThat(plan.buckets().stream().map(ReadPlan.Bucket::fileName)).doesNotHaveDuplicates();
    }
  }

  @Test
  void aGiantFileHasABucketOfItsOwn() {
    List<InputFile> files = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      files.add(new InputFile("corpus", "f" + i, "x", i == 10 ? 60_000_000 : 100_000));
    }

    assertThat(ReadPlan.of(files).buckets())
        .filteredOn(bucket -> bucket.files().stream().anyMatch(f -> f.file().equals("f10")))
        .singleElement()
        .satisfies(bucket -> assertThat(bucket.files()).hasSize(1));
  }

  @Test
  void aFileThatComesChangesFewBuckets() {
    for (int seed = 0; seed < 20; seed++) {
      Random random = new Random(seed);
      List<InputFile> files = new ArrayList<>();
      for (int i = 0; i < 5000; i++) {
        files.add(
            new InputFile(
                "corpus",
                String.format("f%05d-%d", i, random.nextInt()),
                "x",
                20_000 + random.nextInt(50_000)));
      }
      List<List<InputFile>> before = contents(files);
      files.add(
          seed * 100, new InputFile("corpus", String.format("f%05d", seed * 100), "x", 40_000));

      List<List<InputFile>> after = contents(files);
      after.removeAll(before);

      assertThat(before).as("seed " + seed).hasSizeGreaterThan(6);
      assertThat(after).as("seed " + seed).hasSizeBetween(1, 3);
    }
  }

  @Test
  void theLargestBucketIsBegunFirstAndNoneIsLeftOut() {
    Random random = new Random(5);
    List<InputFile> files = new ArrayList<>();
    for (int i = 0; i < 300; i++) {
      files.add(new InputFile("corpus", "f" + i, "x", random.nextInt(900_000)));
    }
    ReadPlan plan = ReadPlan.of(files);

    List<Long> sizes =
        plan.largestFirst().stream()
            .map(bucket -> bucket.files().stream().mapToLong(InputFile::bytes).sum())
            .toList();

    assertThat(sizes).hasSizeGreaterThan(3).isSortedAccordingTo(Comparator.reverseOrder());
    assertThat(plan.largestFirst()).containsExactlyInAnyOrderElementsOf(plan.buckets());
  }

  private static List<List<InputFile>> contents(List<InputFile> files) {
    List<List<InputFile>> contents = new ArrayList<>();
    ReadPlan.of(files).buckets().forEach(bucket -> contents.add(bucket.files()));
    return contents;
  }
}
