package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.fixtures.ShelfFileSystem;
import phrasecensus.tables.InputException;

class StoresTest {
  @TempDir private java.nio.file.Path folder;

  /** Hadoop names a class for each of these schemes; the libraries are none of the program's. */
  @ParameterizedTest
  @ValueSource(strings = {"s3a", "gs", "abfs"})
  void addressesWithoutTheirLibraryAreToldSo(String scheme) {
    Path path = new Path(scheme + "://bucket/solos");

    assertThatThrownBy(() -> Stores.of(path, new Configuration()))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use "
                + path
                + ": addresses that begin with "
                + scheme
                + ": need libraries that are not here. The README says which and where to put them,"
                + " under 'Object stores'.");
  }

  @Test
  void aSchemeThatNobodyKnowsIsToldSo() {
    assertThatThrownBy(() -> Stores.of(new Path("shlef:/solos"), new Configuration()))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith(
            "Cannot use shlef:/solos: nothing here knows addresses that begin with shlef:.");
  }

  /** What Java makes of an argument that its encoding cannot hold. */
  @Test
  void aNameThatJavaCannotTellTheSystemIsToldSo() {
    assertThatThrownBy(() -> Stores.of(new Path("/solos/caf\uFFFD"), new Configuration()))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot use /solos/caf\uFFFD: ");
  }

  @Test
  void aFileIsAFileAndAFolderIsNone() throws IOException {
    FileSystem disk = Stores.of(new Path(folder.toUri()), new Configuration());
    java.nio.file.Path empty = Files.createFile(folder.resolve("empty"));

    assertThat(Stores.isFile(disk, new Path(empty.toUri()))).isTrue();
    assertThat(Stores.isFile(disk, new Path(folder.toUri()))).isFalse();
    assertThat(Stores.isFile(disk, new Path(folder.resolve("nothing").toUri()))).isFalse();
  }

  @Test
  void onAStoreTheMarkOfAnEmptyFolderIsNoFile() throws IOException {
    Path mark = new Path(ShelfFileSystem.address(Files.createFile(folder.resolve("mark"))));
    Path object =
        new Path(ShelfFileSystem.address(Files.writeString(folder.resolve("object"), "content")));
    FileSystem store = Stores.of(mark, ShelfFileSystem.configuration());

    assertThat(Stores.isFile(store, mark)).isFalse();
    assertThat(Stores.isFile(store, object)).isTrue();
  }
}
