package phrasecensus.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.util.EnumSet;
import java.util.Set;
import org.apache.hadoop.fs.LocalFileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RawLocalFileSystem;
import org.apache.hadoop.fs.permission.FsPermission;

/**
 * Hadoop's local file system, but for one thing: it sets permissions through Java. Without its
 * native library Hadoop starts a process, {@code chmod}, for every file and folder that is made; a
 * small study makes three hundred. Hadoop constructs it by name, from the setting {@code
 * fs.file.impl}.
 */
public final class JavaLocalFileSystem extends LocalFileSystem {
  /** The last three octal digits: everything but the sticky bit. */
  private static final int OF_OWNER_GROUP_AND_OTHERS = 0777;

  /** For Hadoop. */
  public JavaLocalFileSystem() {
    super(new Raw());
  }

  private static final class Raw extends RawLocalFileSystem {
    @Override
    public void setPermission(Path path, FsPermission permission) throws IOException {
      PosixFileAttributeView view =
          Files.getFileAttributeView(pathToFile(path).toPath(), PosixFileAttributeView.class);
      if (view == null || (permission.toShort() & ~OF_OWNER_GROUP_AND_OTHERS) != 0) {
        super.setPermission(path, permission);
      } else {
        view.setPermissions(permissions(permission.toShort()));
      }
    }
  }

  /** What the octal digits of a mode allow, as {@code chmod} reads them (POSIX.1-2017). */
  static Set<PosixFilePermission> permissions(int mode) {
    Set<PosixFilePermission> permissions = EnumSet.noneOf(PosixFilePermission.class);
    // Declared from the owner's reading, the highest bit, to the others' executing, the lowest.
    PosixFilePermission[] all = PosixFilePermission.values();
    for (int i = 0; i < all.length; i++) {
      if ((mode & 1 << all.length - 1 - i) != 0) {
        permissions.add(all[i]);
      }
    }
    return permissions;
  }
}
