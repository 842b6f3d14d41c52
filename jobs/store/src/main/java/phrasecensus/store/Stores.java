package phrasecensus.store;

import java.io.FileNotFoundException;
import java.io.IOException;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.UnsupportedFileSystemException;
import phrasecensus.tables.InputException;

/** File systems by the addresses that a user gives. */
public final class Stores {
  private Stores() {}

  /**
   * The file system of an address.
   *
   * @throws InputException if the libraries that its scheme needs are not there, or if Java cannot
   *     tell its name
   * @throws IOException if it does not answer
   */
  public static FileSystem of(Path path, Configuration configuration) throws IOException {
    String scheme = path.toUri().getScheme();
    if ((scheme == null || scheme.equals("file"))
        && !InputPaths.canBeTold(path.toUri().getPath())) {
      throw new InputException(
          "Cannot use " + path.toUri().getPath() + ": " + InputPaths.whyNotTold());
    }
    try {
      return path.getFileSystem(configuration);
    } catch (UnsupportedFileSystemException e) {
      throw new InputException(
          "Cannot use "
              + path
              + ": nothing here knows addresses that begin with "
              + path.toUri().getScheme()
              + ":. Check how it is written, or give the libraries for it; the README says how,"
              + " under 'Object stores'.",
          e);
    } catch (RuntimeException | LinkageError e) {
      if (!isMissingLibrary(e)) {
        throw e;
      }
      throw new InputException(
          "Cannot use "
              + path
              + ": addresses that begin with "
              + path.toUri().getScheme()
              + ": need libraries that are not here. The README says which and where to put them,"
              + " under 'Object stores'.",
          e);
    }
  }

  private static boolean isMissingLibrary(Throwable thrown) {
    for (Throwable each = thrown; each != null; each = each.getCause()) {
      if (each instanceof ClassNotFoundException || each instanceof LinkageError) {
        return true;
      }
    }
    return false;
  }

  /** What an exception says, in a line that ends without a full stop. */
  public static String reason(Exception e) {
    String message = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    String first = message.lines().findFirst().orElse(message).strip();
    return first.endsWith(".") ? first.substring(0, first.length() - 1) : first;
  }

  /**
   * Whether something of that name is there that is no folder. What lies below the name makes it a
   * folder, whatever a store says of the name alone: some that keep folders of their own answer for
   * one as for an object.
   */
  static boolean isFile(FileSystem fileSystem, Path path) throws IOException {
    try {
      FileStatus status = fileSystem.getFileStatus(path);
      if (status.isDirectory()) {
        return false;
      }
      for (FileStatus listed : fileSystem.listStatus(path)) {
        if (!listed.getPath().equals(status.getPath())) {
          return false;
        }
      }
      // Nothing below it and nothing in it: on a store, the mark of an empty folder.
      return status.getLen() > 0
          || StudyPlaces.isLocal(fileSystem)
          || StudyPlaces.knowsWhenWritersAreGone(fileSystem, path);
    } catch (FileNotFoundException e) {
      return false;
    }
  }
}
