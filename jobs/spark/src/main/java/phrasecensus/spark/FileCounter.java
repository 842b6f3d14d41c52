package phrasecensus.spark;

import java.util.concurrent.atomic.AtomicLong;
import org.apache.spark.util.LongAccumulator;

/**
 * Counts files while tasks read them and tells it in a thread of its own. Tasks on other machines
 * are counted when they end, tasks of this process file by file.
 */
final class FileCounter {
  /** Files read by tasks of this process; only one study is read at a time. */
  private static final AtomicLong HERE = new AtomicLong();

  private static final long INTERVAL_MILLISECONDS = 250;

  private final LongAccumulator ended;
  private final long all;
  private final FileProgress progress;
  private final Thread thread;

  FileCounter(LongAccumulator ended, long all, FileProgress progress) {
    HERE.set(0);
    this.ended = ended;
    this.all = all;
    this.progress = progress;
    this.thread = new Thread(this::tell, "file-counter");
    thread.setDaemon(true);
    thread.start();
  }

  /** A task of this process has read one more file. */
  static void count() {
    HERE.incrementAndGet();
  }

  private void tell() {
    try {
      while (true) {
        Thread.sleep(INTERVAL_MILLISECONDS);
        progress.at(Math.min(all, Math.max(HERE.get(), ended.value())), all);
      }
    } catch (InterruptedException e) {
      // The end.
    }
  }

  /** Stops telling, after a last time. */
  void close() {
    thread.interrupt();
    try {
      thread.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    progress.at(Math.min(all, Math.max(HERE.get(), ended.value())), all);
  }
}
