package phrasecensus.spark;

import java.io.File;
import java.io.FileNotFoundException;
import java.io.IOException;
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

/**
 * Finds the scores below a folder, through Hadoop's file systems, so that local paths, {@code
 * hdfs:} and {@code s3a:} addresses work alike. Folder by folder: the recursive listing of Hadoop's
 * local file system starts processes for every file.
 */
public final class InputListing {
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
    Path root = new Path(folder);
    try {
      FileSystem fileSystem = Stores.of(root, configuration);
      Path qualified = fileSystem.makeQualified(root);
      fileSystem.getFileStatus(qualified); // or it is not there
      if (Stores.isFile(fileSystem, qualified)) {
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
          Path path = new Path(other);
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
        FileStatus[] statuses = fileSystem.listStatus(next);
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
          } else if (isScore(name)) {
            found.add(
                new InputFile(
                    role, relative(qualified, path), path.toUri().toString(), status.getLen()));
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
          Path path = new Path(next, name);
          found.add(new InputFile(role, relative(qualified, path), path.toUri().toString(), 0));
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
    return isLocal(folder)
        ? new File(folder.toUri().getPath()).getCanonicalPath()
        : folder.toString();
  }

  private static boolean isLocal(Path path) {
    return "file".equals(path.toUri().getScheme());
  }

  /**
   * Scores that Hadoop's local listing leaves out without a word: links whose target is gone. They
   * are files that cannot be read, and are told as such.
   */
  private static List<String> unlisted(Path folder, Set<String> listed) {
    String[] names = isLocal(folder) ? new File(folder.toUri().getPath()).list() : null;
    return names == null
        ? List.of()
        : Arrays.stream(names)
            .filter(name -> !name.startsWith(".") && isScore(name) && !listed.contains(name))
            .sorted()
            .toList();
  }

  static boolean isScore(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    return lower.endsWith(".musicxml") || lower.endsWith(".xml") || lower.endsWith(".mxl");
  }

  private static String relative(Path root, Path file) {
    String from = root.toUri().getPath();
    String path = file.toUri().getPath();
    return path.substring(from.endsWith("/") ? from.length() : from.length() + 1);
  }
}
