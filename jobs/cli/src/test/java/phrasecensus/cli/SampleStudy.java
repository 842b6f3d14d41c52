package phrasecensus.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The study of the sample corpus, made once for all test classes of a run. */
final class SampleStudy {
  private static final Path FOLDER =
      Path.of(System.getProperty("project.root"), "jobs/cli/target/sample-study");
  private static boolean made;

  private SampleStudy() {}

  /** The study folder; nobody may write into it. */
  static synchronized Path folder() {
    if (!made) {
      if (Files.exists(FOLDER)) {
        FolderBytes.delete(FOLDER);
      }
      make(FOLDER);
      made = true;
    }
    return FOLDER;
  }

  /** Makes the study anew in another folder. */
  static CommandRun make(Path into) {
    CommandRun run =
        CommandRun.of("study", SampleCorpus.STUDY_FILE.toString(), "--into", into.toString());
    if (run.exitCode() != ExitCode.DONE) {
      throw new IllegalStateException("The sample study ends with " + run);
    }
    return run;
  }

  /** What a page says, without the program that plays its phrases. */
  static String withoutScripts(String page) {
    return page.replaceAll("(?s)<script>.*?</script>", "");
  }

  /** Its pages, the corpus page first. */
  static List<Path> pages() {
    try (Stream<Path> files = Files.list(folder().resolve("report"))) {
      return files.filter(file -> file.toString().endsWith(".html")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
