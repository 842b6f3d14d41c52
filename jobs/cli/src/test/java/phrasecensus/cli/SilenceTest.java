package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.RejectedExecutionException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/**
 * What threads of libraries print of what they run into, as Scala's executor does on a full disk.
 */
class SilenceTest {
  private final PrintStream usual = System.err;
  private final ByteArrayOutputStream shown = new ByteArrayOutputStream();

  @AfterEach
  void restore() {
    System.setErr(usual);
  }

  private String after(String... arguments) throws InterruptedException {
    System.setErr(new PrintStream(shown, true, StandardCharsets.UTF_8));
    Main.silence(arguments);
    Thread thread =
        new Thread(
            () -> {
              throw new RejectedExecutionException("planted");
            });
    thread.start();
    thread.join();
    return shown.toString(StandardCharsets.UTF_8);
  }

  @Test
  void noTraceReachesAUserWithoutDebug() throws InterruptedException {
    assertThat(after("study", "corpus")).isEmpty();
  }

  @Test
  void debugShowsTraces() throws InterruptedException {
    assertThat(after("study", "corpus", "--debug")).contains("RejectedExecutionException: planted");
  }
}
