package phrasecensus.store;

import java.io.File;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.security.AccessControlException;
import phrasecensus.tables.InputException;
import phrasecensus.tables.InputFile;

/**
 * Finds the scores below a folder, through Hadoop's file systems, so that local paths, {@code
 * hdfs:} and {@code s3a:} addresses work alike. Folder by folder: the recursive listing of Hadoop's
 * local file system starts processes for every file.
 */
public final class InputListing {
  private static final String NO_FILE =
      "it is a pipe, a socket or a device, which may never come to an end.";

  private static final String NOT_UNICODE =
      "The file cannot be opened: its name is not valid Unicode (UTF-8). Give it another name.";

  private static final String PROGRAM_FILE =
      "It is a notation program's own file. Open it in that program and export it as MusicXML.";

  private InputListing() {}

  /**
   * Every file below {@code folder} that is named like a score ({@code .musicxml}, {@code .xml},
   * {@code .mxl}), sorted by path. A {@code .zip} archive counts as a folder, and may be given
   * instead of one. Hidden files and folders are passed over, and so is {@code except}. A folder
   * that links make appear in more than one place is listed once.
   *
   * @param except a folder to leave out, or empty: students' solos below the corpus folder, the
   *     study's own output
   * @throws InputException if the folder is missing or cannot be listed
   */
  public static List<InputFile> scores(
      String role, String folder, List<String> except, Configuration configuration) {
    try {
      Path root = InputPaths.of(folder);
      FileSystem fileSystem = InputPaths.fileSystem(root, configuration);
      Path qualified = fileSystem.makeQualified(root);
      if (!fileSystem.getFileStatus(qualified).isDirectory()
          && Stores.isFile(fileSystem, qualified)) {
        if (InputPaths.isNoFile(qualified)) {
          throw new InputException(
              "Cannot use " + folder + " as the " + role + " folder: " + NO_FILE);
        }
        if (ZippedScores.isArchive(qualified.getName())) {
          List<InputFile> found = new ArrayList<>(zipped(role, "", qualified, configuration));
          found.sort(Comparator.comparing(InputFile::file));
          return found;
        }
        throw new InputException(
            "Cannot use "
                + folder
                + " as the "
                + role
                + " folder: it is a file, not a folder or a .zip archive.");
      }
      List<String> left = new ArrayList<>();
      for (String other : except) {
        if (!other.isEmpty()) {
          Path path = InputPaths.of(other);
          left.add(path.getFileSystem(configuration).makeQualified(path).toString());
        }
      }
      List<InputFile> found = new ArrayList<>();
      Deque<Path> open = new ArrayDeque<>();
      open.add(qualified);
      Set<String> visited = new HashSet<>();
      while (!open.isEmpty()) {
        Path next = open.remove();
        if (!visited.add(target(next))) {
          continue;
        }
        Set<String> listed = new HashSet<>();
        FileStatus[] statuses;
        try {
          statuses = inside(next, fileSystem);
        } catch (IOException e) {
          if (next.equals(qualified)) {
            throw e;
          }
          found.add(refused(role, qualified, next, "/", notListed(e)));
          continue;
        }
        Arrays.sort(statuses);
        for (FileStatus status : statuses) {
          Path path = status.getPath();
          listed.add(path.getName());
          String name = path.getName();
          if (name.startsWith(".") || left.contains(path.toString())) {
            continue;
          }
          if (status.isDirectory()) {
            open.add(path);
          } else if ((isScore(name) || ZippedScores.isArchive(name)) && InputPaths.isNoFile(path)) {
            found.add(refused(role, qualified, path, "", "The file is not opened: " + NO_FILE));
          } else if (isScore(name)) {
            found.add(
                new InputFile(
                    role, relative(qualified, path), path.toUri().toString(), status.getLen()));
          } else if (isProgramFile(name)) {
            found.add(refused(role, qualified, path, "", PROGRAM_FILE));
          } else if (ZippedScores.isArchive(name)) {
            String file = relative(qualified, path);
            try {
              found.addAll(zipped(role, file + "/", path, configuration));
            } catch (IOException e) {
              found.add(
                  new InputFile(
                      role,
                      file,
                      path.toUri().toString(),
                      "",
                      status.getLen(),
                      "The archive cannot be opened: " + e.getMessage() + "."));
            }
          }
        }
        for (String name : unlisted(next, listed)) {
          Path path = InputPaths.child(next, name);
          found.add(
              refused(
                  role,
                  qualified,
                  path,
                  "",
                  name.indexOf(InputPaths.NOT_DECODED) < 0 ? LostFile.GONE : NOT_UNICODE));
        }
      }
      found.sort(Comparator.comparing(InputFile::file));
      return found;
    } catch (FileNotFoundException e) {
      throw new InputException(
          "Cannot find the " + role + " folder " + folder + ". Check the path.", e);
    } catch (AccessControlException e) {
      throw new InputException(
          "Cannot list the " + role + " folder " + folder + ": no permission to read it.", e);
    } catch (IOException | IllegalArgumentException e) {
      throw new InputException(
          "Cannot list the " + role + " folder " + folder + ": " + e.getMessage() + ".", e);
    }
  }

  private static List<InputFile> zipped(
      String role, String prefix, Path archive, Configuration configuration) throws IOException {
    try (ZippedScores scores = ZippedScores.open(archive, configuration)) {
      return scores.scores(role, prefix, archive.toUri().toString());
    }
  }

  /** A folder by what it is, links followed: so that one that leads back to itself is read once. */
  private static String target(Path folder) throws IOException {
    return InputPaths.isLocal(folder)
        ? new File(folder.toUri().getPath()).getCanonicalPath()
        : folder.toString();
  }

  private static InputFile refused(
      String role, Path root, Path path, String ending, String refusal) {
    return new InputFile(
        role, relative(root, path) + ending, path.toUri().toString(), "", 0, refusal);
  }

  /**
   * What lies in a folder.
   *
   * @throws AccessControlException if it may not be listed, or nothing in it be looked at
   */
  private static FileStatus[] inside(Path folder, FileSystem fileSystem) throws IOException {
    if (InputPaths.isLocal(folder)) {
      java.nio.file.Path local = java.nio.file.Path.of(folder.toUri().getPath());
      // Hadoop would call the one a fault of the disk, and find nothing at all in the other.
      if (Files.isDirectory(local) && !(Files.isReadable(local) && Files.isExecutable(local))) {
        throw new AccessControlException(folder + " may not be read");
      }
    }
    return fileSystem.listStatus(folder);
  }

  private static String notListed(IOException e) {
    return e instanceof AccessControlException
        ? "Nothing in this folder is read: permission denied."
        : e instanceof FileNotFoundException
            ? "Nothing in this folder is read: it was gone when it was to be listed."
            : "Nothing in this folder is read: it cannot be listed, " + Stores.reason(e) + ".";
  }

  /**
   * Scores that Hadoop's local listing leaves out without a word: links whose target is gone, and
   * names that are no Unicode. They are files that cannot be read, and are told as such; names that
   * look the same are told apart.
   */
  private static List<String> unlisted(Path folder, Set<String> listed) {
    String[] names = InputPaths.isLocal(folder) ? new File(folder.toUri().getPath()).list() : null;
    if (names == null) {
      return List.of();
    }
    List<String> unlisted = new ArrayList<>();
    Set<String> told = new HashSet<>(listed);
    Arrays.sort(names);
    for (String name : names) {
      boolean decoded = name.indexOf(InputPaths.NOT_DECODED) < 0;
      if (name.startsWith(".") || listed.contains(name)) {
        continue;
      }
      if (!decoded && !InputPaths.holdsEveryName()) {
        throw new InputException(
            "Cannot read "
                + StudyFolder.address(InputPaths.child(folder, name))
                + ": "
                + InputPaths.whyNotTold());
      }
      if (!isScore(name) && (decoded || !isFolder(folder, name))) {
        continue;
      }
      String shown = name;
      for (int more = 2; !told.add(shown); more++) {
        shown = name + " (" + more + ")";
      }
      unlisted.add(shown);
    }
    return unlisted;
  }

  /** Whether a name that Java cannot tell the system is that of a folder. */
  private static boolean isFolder(Path folder, String name) {
    try (DirectoryStream<java.nio.file.Path> inside =
        Files.newDirectoryStream(java.nio.file.Path.of(folder.toUri().getPath()))) {
      for (java.nio.file.Path each : inside) {
        if (each.getFileName().toString().equals(name) && Files.isDirectory(each)) {
          return true;
        }
      }
      return false;
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Whether a file is called as a score is; spaces and dots after the extension are passed over.
   */
  static boolean isScore(String name) {
    String lower = name.toLowerCase(Locale.ROOT).replaceAll("[ .]+$", "");
    return lower.endsWith(".musicxml") || lower.endsWith(".xml") || lower.endsWith(".mxl");
  }

  /** Whether a file is called as notation programs call their own files. */
  static boolean isProgramFile(String name) {
    return name.toLowerCase(Locale.ROOT)
        .matches(".*\\.(mscz|mscx|gp|gp[345x]|gpx|sib|mus|musx|dorico|cap|capx|enc|nwc|tg|band)");
  }

  private static String relative(Path root, Path file) {
    String from = root.toUri().getPath();
    String path = file.toUri().getPath();
    return path.substring(from.endsWith("/") ? from.length() : from.length() + 1);
  }
}
