package phrasecensus.cli;

import java.util.concurrent.Callable;
import phrasecensus.spark.StudySession;
import picocli.CommandLine.Command;

/** {@code empty-session}: what a study's time is measured against; started by the benchmark. */
@Command(name = "empty-session", hidden = true, description = "Opens Spark and runs a trivial job.")
final class EmptySessionCommand implements Callable<Integer> {
  @Override
  public Integer call() {
    try (StudySession session = StudySession.open()) {
      session.trivialJob();
      return ExitCode.DONE;
    }
  }
}
