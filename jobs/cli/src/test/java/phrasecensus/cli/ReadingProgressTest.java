package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class ReadingProgressTest {
  private static final long SECOND = 1_000_000_000L;

  private final StringWriter text = new StringWriter();
  private final AtomicLong clock = new AtomicLong(77);

  private void at(ReadingProgress progress, long second, long done, long all) {
    clock.set(77 + second * SECOND);
    progress.at(done, all);
  }

  @Test
  void aTerminalHasOneLineThatIsWrittenOverAndCleared() {
    ReadingProgress progress = new ReadingProgress(new PrintWriter(text), true, clock::get);

    at(progress, 0, 0, 5000);
    at(progress, 1, 90, 5000);
    assertThat(text.toString()).isEmpty();
    at(progress, 10, 1000, 5000);
    assertThat(text.toString()).isEqualTo("\rRead 1000 of 5000 files, 100 a second, 40 s left");
    at(progress, 50, 5000, 5000);
    assertThat(text.toString()).endsWith("\r" + " ".repeat(48) + "\r").doesNotContain("\n");
  }

  @Test
  void aLogHasAPlainLineEveryHalfMinute() {
    ReadingProgress progress = new ReadingProgress(new PrintWriter(text), false, clock::get);

    for (int second = 0; second <= 100; second++) {
      at(progress, second, 4L * second, 100_000);
    }
    at(progress, 101, 100_000, 100_000);

    assertThat(text.toString().lines())
        .containsExactly(
            "Read 120 of 100000 files, 4.0 a second, 6 h 56 min left",
            "Read 240 of 100000 files, 4.0 a second, 6 h 56 min left",
            "Read 360 of 100000 files, 4.0 a second, 6 h 55 min left");
  }
}
