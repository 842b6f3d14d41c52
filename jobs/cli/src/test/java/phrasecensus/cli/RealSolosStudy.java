package phrasecensus.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/**
 * The study of the 220 transcribed solos that stand beside the checkout, by style, made once for
 * all test classes of a run.
 */
final class RealSolosStudy {
  private static final Path DATA =
      Path.of(System.getProperty("project.root"), "../shared/data/solos/xml").normalize();
  private static final Path FOLDER =
      Path.of(System.getProperty("project.root"), "jobs/cli/target/real-solos-study");
  private static boolean made;

  private RealSolosStudy() {}

  /**
   * The study folder; nobody may write into it.
   *
   * @throws org.opentest4j.TestAbortedException if the solos do not stand beside the checkout
   */
  static synchronized Path folder() {
    Assumptions.assumeTrue(Files.isDirectory(DATA), "No ../shared beside the checkout");
    if (!made) {
      if (Files.exists(FOLDER)) {
        FolderBytes.delete(FOLDER);
      }
      CommandRun run =
          CommandRun.of("study", DATA.toString(), "--by", "style", "--into", FOLDER.toString());
      if (run.exitCode() != ExitCode.DONE) {
        throw new IllegalStateException("The study of the 220 solos ends with " + run);
      }
      made = true;
    }
    return FOLDER;
  }
}
