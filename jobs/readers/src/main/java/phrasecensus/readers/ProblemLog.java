package phrasecensus.readers;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Collects the problems of one file in order, each different one once. Beyond {@value #MOST} it
 * keeps {@value #OF_EACH_KIND} of each kind and only counts the others, so that a damaged file
 * cannot fill the memory and a frequent kind does not hide a worse one.
 */
public final class ProblemLog {
  static final int MOST = 1000;
  static final int OF_EACH_KIND = 20;

  private final Set<Problem> problems = new LinkedHashSet<>();
  private final Map<String, Integer> uncounted = new TreeMap<>();
  private final Map<String, Integer> kept = new HashMap<>();
  private final Set<String> firsts = new HashSet<>();

  public void add(Problem problem) {
    if (problems.size() < MOST || kept.getOrDefault(problem.code(), 0) < OF_EACH_KIND) {
      if (problems.add(problem)) {
        kept.merge(problem.code(), 1, Integer::sum);
      }
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
