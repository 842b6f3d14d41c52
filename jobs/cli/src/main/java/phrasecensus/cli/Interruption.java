package phrasecensus.cli;

import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import phrasecensus.store.StudyFolder;

/**
 * Watches for the end of the process while a command writes into a study, as by Ctrl-C: keeps what
 * is whole, gives the folder free, and says what is kept.
 */
final class Interruption implements AutoCloseable {
  private static volatile boolean stopping;

  private final Thread hook;

  private Interruption(Thread hook) {
    this.hook = hook;
  }

  /** Watches until closed. */
  static Interruption of(StudyFolder folder, PrintWriter err) {
    Thread hook = new Thread(() -> stop(folder, err), "interruption");
    Runtime.getRuntime().addShutdownHook(hook);
    return new Interruption(hook);
  }

  /** Whether the process is about to end, so that what fails now is no fault. */
  static boolean isStopping() {
    return stopping;
  }

  private static void stop(StudyFolder folder, PrintWriter err) {
    stopping = true;
    // What Spark's threads have to say of being stopped helps nobody; err has the stream as it was.
    System.setErr(new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8));
    folder.keepUnfinished();
    err.println();
    err.println(
        folder.isCommitted()
            ? "Stopped. What was asked for is finished in " + folder.location() + "."
            : "Stopped. What was in "
                + folder.location()
                + " is as it was; of this run the files that were read are kept, and the same"
                + " command goes on from there.");
    err.flush();
    folder.close();
  }

  @Override
  public void close() {
    if (!stopping) {
      try {
        Runtime.getRuntime().removeShutdownHook(hook);
      } catch (IllegalStateException e) {
        // The process is ending already.
      }
    }
  }
}
