package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.LongSupplier;
import phrasecensus.spark.FileProgress;

/**
 * Tells how far reading has come: on a terminal in one line that is written over, in a log in a
 * plain line every half minute. Short work is not told at all.
 */
final class ReadingProgress implements FileProgress {
  private static final double SECOND = 1e9;
  private static final double FIRST_AFTER_SECONDS = 2;
  private static final double LOG_EVERY_SECONDS = 30;

  private final PrintWriter err;
  private final boolean terminal;
  private final LongSupplier clock;
  private long start = -1;
  private double lastTold;
  private int width;

  ReadingProgress(PrintWriter err) {
    // The launcher knows whether standard error is a terminal; Java has no way to ask.
    this(err, Boolean.getBoolean("phrasecensus.terminal"), System::nanoTime);
  }

  /**
   * @param terminal whether a line may be written over
   * @param clock nanoseconds
   */
  ReadingProgress(PrintWriter err, boolean terminal, LongSupplier clock) {
    this.err = err;
    this.terminal = terminal;
    this.clock = clock;
  }

  @Override
  public void at(long done, long all) {
    if (start < 0) {
      start = clock.getAsLong();
    }
    double seconds = (clock.getAsLong() - start) / SECOND;
    if (terminal) {
      if (done == all) {
        clear();
      } else if (seconds >= FIRST_AFTER_SECONDS) {
        String line = line(done, all, seconds);
        err.print("\r" + line + " ".repeat(Math.max(0, width - line.length())));
        err.flush();
        width = line.length();
      }
    } else if (done < all && seconds - lastTold >= LOG_EVERY_SECONDS) {
      err.println(line(done, all, seconds));
      lastTold = seconds;
    }
  }

  private void clear() {
    if (width > 0) {
      err.print("\r" + " ".repeat(width) + "\r");
      err.flush();
      width = 0;
    }
  }

  private static String line(long done, long all, double seconds) {
    if (done == 0) {
      return "Read 0 of " + all + " files";
    }
    double rate = done / seconds;
    return String.format(
        Locale.ROOT,
        "Read %d of %d files, %s a second, %s left",
        done,
        all,
        String.format(Locale.ROOT, rate < 10 ? "%.1f" : "%.0f", rate),
        duration((all - done) / rate));
  }

  private static String duration(double seconds) {
    long whole = Math.max(1, Math.round(seconds));
    if (whole < 90) {
      return whole + " s";
    }
    long minutes = Math.round(whole / 60.0);
    return minutes < 90
        ? minutes + " min"
        : String.format(Locale.ROOT, "%d h %02d min", minutes / 60, minutes % 60);
  }
}
