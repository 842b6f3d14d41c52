package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.permission.FsPermission;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JavaLocalFileSystemTest {
  @TempDir private java.nio.file.Path folder;

  private FileSystem fileSystem() throws Exception {
    Configuration configuration = new Configuration();
    configuration.setClass("fs.file.impl", JavaLocalFileSystem.class, FileSystem.class);
    return FileSystem.newInstance(URI.create("file:///"), configuration);
  }

  /** PosixFilePermissions of the JDK writes what POSIX.1-2017 has {@code ls -l} show. */
  @Test
  void everyModeIsReadAsItsOctalDigitsSay() {
    for (int mode = 0; mode < 512; mode++) {
      StringBuilder expected = new StringBuilder();
      for (int shift = 6; shift >= 0; shift -= 3) {
        int digit = mode >> shift & 7;
        expected.append(digit >= 4 ? 'r' : '-').append(digit % 4 >= 2 ? 'w' : '-');
        expected.append(digit % 2 == 1 ? 'x' : '-');
      }

      assertThat(PosixFilePermissions.toString(JavaLocalFileSystem.permissions(mode)))
          .isEqualTo(expected.toString());
    }
  }

  @Test
  void aFileHasThePermissionsThatItIsGiven() throws Exception {
    java.nio.file.Path file = Files.createFile(folder.resolve("a"));

    try (FileSystem fileSystem = fileSystem()) {
      fileSystem.setPermission(new Path(file.toString()), new FsPermission((short) 0640));
    }

    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-r-----");
  }

  @Test
  void aNewFileHasThePermissionsOfHadoopsOwnLocalFiles() throws Exception {
    try (FileSystem ours = fileSystem();
        FileSystem theirs = FileSystem.newInstance(URI.create("file:///"), new Configuration())) {
      ours.create(new Path(folder.toString(), "ours")).close();
      theirs.create(new Path(folder.toString(), "theirs")).close();
    }

    assertThat(Files.getPosixFilePermissions(folder.resolve("ours")))
        .isEqualTo(Files.getPosixFilePermissions(folder.resolve("theirs")));
  }
}
