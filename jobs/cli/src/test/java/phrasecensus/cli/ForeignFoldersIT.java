package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.tables.Sha256;

/**
 * Folders of somebody else as {@code --into} of {@code study} and {@code export}, and as a corpus:
 * no byte of them is lost, by the checksums of all their files before and after. So many folders as
 * the property {@code faults.folders} says, from the seed {@code faults.seed}.
 */
class ForeignFoldersIT {
  private static final int FOLDERS = Integer.getInteger("faults.folders", 12);
  private static final long SEED = Long.getLong("faults.seed", 1);

  @TempDir private static Path temporary;
  private static Path corpus;
  private static Path study;
  private static Path export;

  @BeforeAll
  static void makeTheStudy() throws IOException {
    corpus = SampleCorpus.firstSolos(temporary.resolve("corpus"), 2);
    study = temporary.resolve("study");
    export = temporary.resolve("export");
    run("study", corpus.toString(), "--into", study.toString());
    run("export", study.toString(), "--into", export.toString());
  }

  private static void run(String... arguments) {
    CommandRun run = CommandRun.of(arguments);
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
  }

  /** SHA-256, or where a link leads, by path, of everything below a folder that holds bytes. */
  private static Map<String, String> bytes(Path folder) throws IOException {
    Map<String, String> bytes = new TreeMap<>();
    try (Stream<Path> paths = Files.walk(folder)) {
      for (Path path : paths.toList()) {
        String name = folder.relativize(path).toString();
        if (Files.isSymbolicLink(path)) {
          bytes.put(name, "link to " + Files.readSymbolicLink(path));
        } else if (Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS)) {
          bytes.put(name, Sha256.of(Files.readAllBytes(path)));
        }
      }
    }
    return bytes;
  }

  /** What of the files before is nowhere among those after, each as often as it was there. */
  private static List<String> lost(Map<String, String> before, Map<String, String> after, Path own)
      throws IOException {
    Map<String, Integer> there = new HashMap<>();
    after.values().forEach(content -> there.merge(content, 1, Integer::sum));
    // A file that has the bytes of one that the program wrote is replaced by its like or deleted:
    // nobody can tell whose it was.
    List<String> written = List.copyOf(bytes(own).values());
    List<String> lost = new ArrayList<>();
    before.forEach(
        (path, content) -> {
          if (there.merge(content, -1, Integer::sum) < 0 && !written.contains(content)) {
            lost.add(path);
          }
        });
    return lost;
  }

  @Test
  void noByteOfSomebodyElseIsLost() throws IOException {
    Map<String, Integer> ends = new TreeMap<>();
    List<String> failures = new ArrayList<>();
    for (int i = 0; i < FOLDERS; i++) {
      Path place = Files.createDirectories(temporary.resolve("place-" + i));
      Path folder = ForeignFolders.make(place.resolve("theirs"), SEED + i, study, export);
      Map<String, String> before = bytes(place);
      for (String[] command :
          List.of(
              new String[] {"read", folder.toString(), "--into", temporary + "/read-" + i},
              new String[] {"export", study.toString(), "--into", folder.toString()},
              new String[] {"study", corpus.toString(), "--into", folder.toString()},
              new String[] {"export", study.toString(), "--into", folder.toString()},
              new String[] {"study", corpus.toString(), "--into", folder.toString()})) {
        CommandRun run = CommandRun.of(command);
        ends.merge(command[0] + " " + run.exitCode(), 1, Integer::sum);
        Map<String, String> after = bytes(place);
        if (run.exitCode() != ExitCode.DONE && run.exitCode() != ExitCode.INPUT) {
          failures.add(i + ", " + command[0] + " ended with " + run);
        }
        if (command[0].equals("read") && !after.equals(before)) {
          failures.add(i + ": a corpus was written into");
        }
        if (run.exitCode() == ExitCode.INPUT && run.complaints().size() != 1) {
          failures.add(i + ", " + command[0] + " said " + run.err());
        }
        List<String> lost = lost(before, after, command[0].equals("export") ? export : study);
        if (!lost.isEmpty()) {
          failures.add(i + ", " + command[0] + " lost " + lost + "\n" + run.err());
        }
      }
    }
    System.out.println(FOLDERS + " foreign folders (seed " + SEED + "): " + ends);
    assertThat(failures).isEmpty();
  }
}
