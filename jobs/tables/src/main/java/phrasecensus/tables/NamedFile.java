package phrasecensus.tables;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A small file that a user names: what cannot be one is refused before it is opened. */
public final class NamedFile {
  private NamedFile() {}

  /**
   * Its bytes.
   *
   * @param cannot how a refusal begins, as in {@code Cannot read the study file my.yaml}
   * @param most bytes it may have
   * @throws InputException for a pipe, a socket, a device or a file that is too large
   * @throws IOException if it is not there or cannot be read
   */
  public static byte[] bytes(String cannot, Path file, long most) throws IOException {
    check(cannot, file, most);
    return Files.readAllBytes(file);
  }

  private static void check(String cannot, Path file, long most) throws IOException {
    if (Files.exists(file) && !Files.isRegularFile(file) && !Files.isDirectory(file)) {
      throw new InputException(
          cannot + ": it is a pipe, a socket or a device, which may never come to an end.");
    }
    if (Files.size(file) > most) {
      throw new InputException(
          cannot + ": it has " + Files.size(file) + " bytes; the limit is " + most + ".");
    }
  }
}
