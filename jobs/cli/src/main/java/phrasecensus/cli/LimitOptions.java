package phrasecensus.cli;

import java.util.Map;
import java.util.TreeMap;
import picocli.CommandLine.Option;

/** Bounds on what one file may ask of the reader. */
final class LimitOptions {
  @Option(
      names = "--limit",
      paramLabel = "NAME=VALUE",
      completionCandidates = LimitNames.class,
      description =
          "A bound beyond which a file is refused; may be repeated. Names with their defaults:"
              + " ${COMPLETION-CANDIDATES}.")
  private Map<String, String> limits = new TreeMap<>();

  /** Limits set otherwise, as by a study file, and above them those of the command line. */
  Map<String, String> over(Map<String, String> given) {
    Map<String, String> all = new TreeMap<>(given);
    all.putAll(limits);
    return all;
  }
}
