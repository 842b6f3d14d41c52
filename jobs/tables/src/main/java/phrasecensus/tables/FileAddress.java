package phrasecensus.tables;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.regex.Pattern;

/** Tells addresses as {@code hdfs://host/folder} from paths, in which a colon may stand too. */
public final class FileAddress {
  private static final Pattern ADDRESS =
      Pattern.compile("[A-Za-z][A-Za-z0-9+.-]+:/.*", Pattern.DOTALL);

  private FileAddress() {}

  /** Whether a text is an address: what lies on this computer under that name is a path. */
  public static boolean isOne(String text) {
    return ADDRESS.matcher(text).matches() && !exists(text);
  }

  private static boolean exists(String text) {
    try {
      return Files.exists(Path.of(text));
    } catch (InvalidPathException e) {
      return false;
    }
  }
}
