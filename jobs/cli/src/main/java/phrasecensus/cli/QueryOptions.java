package phrasecensus.cli;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import phrasecensus.tables.InputException;
import phrasecensus.tables.PhraseCondition;
import phrasecensus.tables.PhraseQuery;
import phrasecensus.tables.StudyDefinition;
import picocli.CommandLine.Option;

/** Which phrases to look for, and in which study. */
final class QueryOptions {
  @Option(
      names = "--where",
      paramLabel = "CONDITION",
      description = {
        "What a phrase must have; give it again for more, which all hold together:",
        "'bars 2', 'pickup', 'mostly-eighths', 'last-note third', 'last-note b7,9',",
        "'over ii-V-I major', 'ends-over ii-V-I major V', 'difficulty 3' (at most),",
        "'fits trumpet', 'tempo 120..200', 'style=bebop', 'player=NAME', or a statistic of",
        "phrases with its range, as in 'notes_per_beat 1..2'. Contexts: ii-V, ii-V-I,",
        "I-vi-ii-V, turnaround, blues-bars-1-4, blues-bars-5-8, blues-bars-9-12, vamp; then",
        "major, minor or blues."
      })
  private List<String> where = new ArrayList<>();

  @Option(
      names = "--query",
      paramLabel = "NAME",
      description = "A query of the study file; STUDY is that file then. --where narrows it.")
  private String name = "";

  /** True when phrases are asked for by conditions. */
  boolean isGiven() {
    return !where.isEmpty() || !name.isEmpty();
  }

  /** A name for files. */
  String stem() {
    String plain = name.replaceAll("[^\\p{L}\\p{N}-]+", "-").replaceAll("^-+|-+$", "");
    return plain.isEmpty() ? "phrases" : plain;
  }

  /** The study file, if a study is named by it. */
  private static Optional<StudyDefinition> studyFile(String location) {
    if (!location.matches("(?i).*\\.ya?ml")) {
      return Optional.empty();
    }
    try {
      Path file = Path.of(location);
      return Files.isDirectory(file) ? Optional.empty() : Optional.of(StudyDefinition.read(file));
    } catch (InvalidPathException e) {
      return Optional.empty();
    }
  }

  /** The study's folder: itself, or where the study file puts it. */
  static String folder(String location) {
    return studyFile(location).map(StudyDefinition::into).orElse(location);
  }

  /**
   * The query.
   *
   * @param location a study folder or a study file
   * @throws InputException if it is unclear or the study file has none of that name
   */
  PhraseQuery query(String location) {
    List<PhraseCondition> conditions = new ArrayList<>();
    String title = "";
    if (!name.isEmpty()) {
      Map<String, PhraseQuery> queries =
          studyFile(location)
              .map(StudyDefinition::queries)
              .orElseThrow(
                  () ->
                      new InputException(
                          "Cannot use --query with "
                              + location
                              + ": queries stand in study files. Name the study file in its"
                              + " place."));
      PhraseQuery query = queries.get(name);
      if (query == null) {
        throw new InputException(
            "Cannot find the query '"
                + name
                + "' in "
                + location
                + (queries.isEmpty()
                    ? ": it has no 'queries'."
                    : ". There is: " + String.join(", ", queries.keySet()) + "."));
      }
      title = where.isEmpty() ? query.title() : "";
      conditions.addAll(query.conditions());
    }
    where.forEach(each -> conditions.add(PhraseCondition.parse(each)));
    return new PhraseQuery(title, conditions);
  }
}
