package phrasecensus.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import phrasecensus.tables.InputException;

/**
 * Where libraries put what they need for a run. The usual folder may be full, closed, or may not
 * hold programs, which a native library is: then it is one beside the study, and goes with the run.
 */
final class TemporaryFolder {
  /**
   * In bytes: native libraries take some ten million, a report is made here before it is published.
   */
  private static final long LEAST_ROOM = 64L << 20;

  private static final String PROPERTY = "java.io.tmpdir";

  private TemporaryFolder() {}

  /**
   * Makes sure that there is one, before anything asks for it.
   *
   * @param arguments of the command, for the folder of the study
   * @return the folder that was made for this run; null where the usual one will do
   * @throws InputException if there is none
   */
  static Path ensure(String... arguments) {
    Path usual = Path.of(System.getProperty(PROPERTY));
    String fault = fault(usual, LEAST_ROOM);
    if (fault == null) {
      return null;
    }
    for (Path folder : others(arguments)) {
      if (fault(folder, LEAST_ROOM) == null) {
        try {
          Path made = Files.createTempDirectory(folder, ".phrase-census-temporary-");
          System.setProperty(PROPERTY, made.toString());
          return made;
        } catch (IOException e) {
          // The next one.
        }
      }
    }
    throw new InputException(
        "Cannot start: the folder for temporary files, "
            + usual
            + ", "
            + fault
            + ", and no other one was found. Make room, or name a folder with"
            + " JAVA_OPTS=-Djava.io.tmpdir=FOLDER.");
  }

  /** Beside the study, the current folder, the user's own. */
  private static List<Path> others(String... arguments) {
    List<Path> others = new ArrayList<>();
    for (int i = 0; i + 1 < arguments.length; i++) {
      if (arguments[i].equals("--into") && !arguments[i + 1].contains(":/")) {
        Path parent = Path.of(arguments[i + 1]).toAbsolutePath().normalize().getParent();
        if (parent != null) {
          others.add(parent);
        }
      }
    }
    others.add(Path.of("").toAbsolutePath());
    others.add(Path.of(System.getProperty("user.home", ".")));
    return others;
  }

  /**
   * What is wrong with a folder, as the end of a sentence; null for nothing.
   *
   * @param room that it must have, in bytes
   */
  static String fault(Path folder, long room) {
    if (!Files.isDirectory(folder)) {
      return "is not there";
    }
    Path probe = null;
    try {
      probe = Files.createTempFile(folder, ".phrase-census-probe", "");
      Files.write(probe, new byte[4096]);
      if (Files.getFileStore(folder).getUsableSpace() < room) {
        return "is full";
      }
      if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
        Files.setPosixFilePermissions(probe, PosixFilePermissions.fromString("rwx------"));
        if (!Files.isExecutable(probe)) {
          return "may not hold programs";
        }
      }
      return null;
    } catch (IOException e) {
      return "cannot be written";
    } finally {
      if (probe != null) {
        try {
          Files.deleteIfExists(probe);
        } catch (IOException e) {
          // An empty file in a folder for temporary files.
        }
      }
    }
  }
}
