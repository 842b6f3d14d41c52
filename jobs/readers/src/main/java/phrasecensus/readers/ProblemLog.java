package phrasecensus.readers;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Collects the problems of one file in order, each different one once. Beyond {@value #MOST} it
 * only counts, so that a damaged file cannot fill the memory.
 */
public final class ProblemLog {
  static final int MOST = 1000;

  private final Set<Problem> problems = new LinkedHashSet<>();
  private final Map<String, Integer> uncounted = new TreeMap<>();
  private final Set<String> firsts = new HashSet<>();

  public void add(Problem problem) {
    if (problems.size() < MOST) {
      problems.add(problem);
    } else if (!problems.contains(problem)) {
      uncounted.merge(problem.code(), 1, Integer::sum);
    }
  }

  public void add(String part, String bar, String code, String found, String done) {
    add(new Problem(part, bar, code, found, done));
  }

  /** Adds a problem unless there is one of its kind; for what is told once for the whole file. */
  public void addFirst(String part, String bar, String code, String found, String done) {
    if (firsts.add(code)) {
      add(part, bar, code, found, done);
    }
  }

  /** All problems; the last one tells how many more there were, by code. */
  public List<Problem> problems() {
    List<Problem> all = new ArrayList<>(problems);
    if (!uncounted.isEmpty()) {
      all.add(
          Problem.ofFile(
              "more-problems", "more problems than are listed: " + uncounted, "counted only"));
    }
    return all;
  }
}
