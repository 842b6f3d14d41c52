package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import phrasecensus.fixtures.ShelfFileSystem;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.FileList;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.TableSchemas;

/** Two attempts at one part, where the first is thought dead and is not. */
class PartFilesTest {
  private static final String NAME = "corpus-00000.parquet";

  @TempDir private Path temporary;
  private Path folder;
  private final Configuration configuration = ShelfFileSystem.configuration();

  /** Where tables are written. */
  enum Place {
    DISK,
    STORE_THAT_GIVES_FILES_UP,
    STORE_THAT_KEEPS_WHAT_WAS_BEGUN;

    String address(Path folder) {
      ShelfFileSystem.setAbortable(this == STORE_THAT_GIVES_FILES_UP);
      return this == DISK ? folder.toString() : ShelfFileSystem.address(folder);
    }
  }

  @BeforeEach
  void nameTheFolder() throws IOException {
    // A store takes folders away when they are empty.
    Files.writeString(temporary.resolve("other"), "");
    folder = temporary.resolve("tables");
  }

  @AfterEach
  void letFilesBeGivenUp() {
    ShelfFileSystem.setAbortable(true);
  }

  private PartFiles attempt(Place place, String attempt) throws IOException {
    PartFiles files = new PartFiles(place.address(folder), NAME, attempt, configuration);
    for (String table : TableSchemas.OF_READING) {
      files.create(table, TableSchemas.named(table), Map::of);
    }
    return files;
  }

  /** Names of the files by table, those of a local disk's checksums left out. */
  private Set<String> files() throws IOException {
    Set<String> names = new TreeSet<>();
    if (!Files.exists(folder)) {
      return names;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      files
          .filter(file -> Files.isRegularFile(file) && !file.toString().endsWith(".crc"))
          .forEach(file -> names.add(folder.relativize(file).toString()));
    }
    return names;
  }

  private static String[] whole() {
    return TableSchemas.OF_READING.stream().map(table -> table + "/" + NAME).toArray(String[]::new);
  }

  private void assertEveryTableIsWhole() throws IOException {
    assertThat(files()).containsExactlyInAnyOrder(whole());
    for (String file : whole()) {
      assertThat(
              TableFile.written(
                  new org.apache.hadoop.fs.Path(folder.resolve(file).toUri()), configuration))
          .isEqualTo(TableFile.Written.NOTHING);
    }
  }

  @ParameterizedTest
  @EnumSource
  void anAttemptThatFailsLeavesNothing(Place place) throws IOException {
    attempt(place, "1").close();

    assertThat(files()).isEmpty();
  }

  @ParameterizedTest
  @EnumSource
  void anAttemptThatFailsLateDoesNotTouchWhatAnotherFinished(Place place) throws IOException {
    PartFiles late = attempt(place, "1");
    attempt(place, "2").finish();

    late.close();

    assertEveryTableIsWhole();
  }

  @ParameterizedTest
  @EnumSource
  void anAttemptThatFinishesLateReplacesEqualFiles(Place place) throws IOException {
    PartFiles late = attempt(place, "1");
    attempt(place, "2").finish();

    late.finish();

    assertEveryTableIsWhole();
  }

  @ParameterizedTest
  @EnumSource
  void aPartIsTakenOverWithEveryTable(Place place) throws IOException {
    String tables = place.address(folder);
    Map<String, String> sums = new TreeMap<>();
    attempt(place, "1").finish().forEach((table, stored) -> sums.put(table, stored.sha256()));

    try (PartFiles copy = new PartFiles(tables, "corpus-00001.parquet", "2", configuration)) {
      assertThat(copy.copyOf(new EarlierReading.Part(tables, NAME, true), sums))
          .containsOnlyKeys(TableSchemas.OF_READING);
    }

    assertThat(files())
        .containsExactlyInAnyOrder(
            Stream.concat(
                    Arrays.stream(whole()),
                    Arrays.stream(whole()).map(file -> file.replace("00000", "00001")))
                .toArray(String[]::new));
  }

  @ParameterizedTest
  @EnumSource
  void aPartWithOneDamagedFileIsNotTakenOver(Place place) throws IOException {
    String tables = place.address(folder);
    Map<String, String> sums = new TreeMap<>();
    attempt(place, "1").finish().forEach((table, stored) -> sums.put(table, stored.sha256()));
    Path damaged = folder.resolve("notes").resolve(NAME);
    byte[] bytes = Files.readAllBytes(damaged);
    bytes[bytes.length / 2] ^= 1;
    Files.write(damaged, bytes);

    try (PartFiles copy = new PartFiles(tables, "corpus-00001.parquet", "2", configuration)) {
      assertThat(copy.copyOf(new EarlierReading.Part(tables, NAME, true), sums)).isNull();
    }

    assertThat(files()).containsExactlyInAnyOrder(whole());
  }

  @Test
  void whatATaskWroteIsListedWithTheDigestsOfItsBytes() throws IOException {
    Map<String, TableFile.Stored> stored = attempt(Place.DISK, "1").finish();

    FileList list =
        FileList.parse(Files.readAllBytes(temporary.resolve("parts").resolve(NAME + ".sha256")));
    assertThat(list.isWhole(FileList.PART)).isTrue();
    for (String table : TableSchemas.OF_READING) {
      String path = "tables/" + table + "/" + NAME;
      assertThat(list.files())
          .containsEntry(path, Sha256.of(Files.readAllBytes(temporary.resolve(path))));
      assertThat(stored.get(table).sha256()).isEqualTo(list.files().get(path));
    }
  }

  @Test
  void aStoreThatGivesFilesUpNeverRenamesOne() throws IOException {
    int renames = ShelfFileSystem.fileRenames();

    attempt(Place.STORE_THAT_GIVES_FILES_UP, "1").finish();
    assertThat(ShelfFileSystem.fileRenames()).isEqualTo(renames);

    attempt(Place.STORE_THAT_KEEPS_WHAT_WAS_BEGUN, "2").finish();
    assertThat(ShelfFileSystem.fileRenames())
        .isGreaterThanOrEqualTo(renames + TableSchemas.OF_READING.size());
  }
}
