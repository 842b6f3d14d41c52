package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** Makes several things, as many at a time as there are processors. */
public final class AtOnce {
  private AtOnce() {}

  /**
   * What each of them makes, in their order. Faults come as they are thrown.
   *
   * @throws IllegalStateException if the thread is interrupted, or for a checked exception
   */
  public static <T> List<T> made(List<? extends Callable<T>> making) {
    if (making.isEmpty()) {
      return List.of();
    }
    // Threads of our own: they inherit the class loader, which those of the common pool do not.
    ExecutorService threads =
        Executors.newFixedThreadPool(
            Math.min(making.size(), Runtime.getRuntime().availableProcessors()));
    try {
      List<Future<T>> started = new ArrayList<>();
      making.forEach(each -> started.add(threads.submit(each)));
      List<T> made = new ArrayList<>();
      for (Future<T> each : started) {
        made.add(each.get());
      }
      return made;
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      if (e.getCause() instanceof Error fault) {
        throw fault;
      }
      throw new IllegalStateException(
          "Cannot make a part of the report: " + e.getCause(), e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("Cannot make the report: interrupted", e);
    } finally {
      threads.shutdownNow();
    }
  }
}
