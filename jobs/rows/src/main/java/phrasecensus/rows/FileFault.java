package phrasecensus.rows;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * A fault of the program that one file brought to light: no file may stop a study, and no fault may
 * go unseen.
 *
 * @param sentence what stands in table {@code files}; the same whenever the same file is read
 * @param trace where it happened, for whoever mends it
 */
public record FileFault(String sentence, String trace) {
  private static final String OURS = "phrasecensus.";

  /** A frame that stands more often than this in a trace is part of a recursion. */
  private static final int RECURRING = 3;

  /**
   * What is caught of a file: all but the end of the thread and of Java itself.
   *
   * @throws Error what is thrown, if it is no fault of the file
   */
  static FileFault of(Throwable thrown) {
    if (thrown instanceof VirtualMachineError error
        && !(thrown instanceof StackOverflowError)
        && !(thrown instanceof OutOfMemoryError)) {
      throw error;
    }
    String kind = thrown.getClass().getSimpleName();
    if (thrown instanceof OutOfMemoryError) {
      // Where the memory ends is chance, so that no place is told.
      return new FileFault(
          "A fault of the program in this file ("
              + kind
              + "): it is too large for the memory that Java may use, "
              + (Runtime.getRuntime().maxMemory() >> 20)
              + " MB. Give Java more, as in JAVA_OPTS=-Xmx4g, and run the same command again.",
          trace(thrown));
    }
    return new FileFault(
        "A fault of the program in this file: "
            + kind
            + place(thrown).map(place -> " in " + place).orElse("")
            + ". Please report it, with the file if you may.",
        trace(thrown));
  }

  private static String trace(Throwable thrown) {
    StringWriter trace = new StringWriter();
    thrown.printStackTrace(new PrintWriter(trace, true));
    return trace.toString();
  }

  /** The innermost method of ours; of a recursion without end the first by name. */
  private static Optional<String> place(Throwable thrown) {
    StackTraceElement[] frames = thrown.getStackTrace();
    if (!(thrown instanceof StackOverflowError)) {
      return Arrays.stream(frames)
          .filter(frame -> frame.getClassName().startsWith(OURS))
          .findFirst()
          .map(frame -> method(frame) + ", line " + frame.getLineNumber());
    }
    Map<String, Integer> counts = new HashMap<>();
    for (StackTraceElement frame : frames) {
      counts.merge(method(frame), 1, Integer::sum);
    }
    Optional<String> ours =
        counts.entrySet().stream()
            .filter(entry -> entry.getValue() > RECURRING)
            .map(Map.Entry::getKey)
            .filter(method -> isOurs(method, frames))
            .min(String::compareTo);
    return ours.or(
        () ->
            counts.entrySet().stream()
                .filter(entry -> entry.getValue() > RECURRING)
                .map(Map.Entry::getKey)
                .min(String::compareTo));
  }

  private static boolean isOurs(String method, StackTraceElement[] frames) {
    return Arrays.stream(frames)
        .anyMatch(frame -> frame.getClassName().startsWith(OURS) && method(frame).equals(method));
  }

  private static String method(StackTraceElement frame) {
    String name = frame.getClassName();
    return name.substring(name.lastIndexOf('.') + 1) + "." + frame.getMethodName();
  }
}
