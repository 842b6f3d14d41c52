package phrasecensus.tables.verify;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.TableSource;

/**
 * A finished study held against its expected results, check by check: inputs, counts, digests of
 * tables, single results.
 *
 * @param checks in this order
 */
public record Verification(List<Check> checks) {
  private static final int DIGITS_SHOWN = 12;

  /** A difference of a tenth, computed in binary, may come out a little above 0.1. */
  private static final double ROUNDING = 1 + 1e-9;

  public Verification {
    checks = List.copyOf(checks);
  }

  /**
   * One comparison, as it is printed.
   *
   * @param what is compared
   * @param expected value
   * @param actual value
   * @param difference actual less expected; empty where values have none
   * @param tolerance the largest difference that passes; empty where values must be equal
   * @param holds whether it passes
   */
  public record Check(
      String what,
      String expected,
      String actual,
      String difference,
      String tolerance,
      boolean holds) {}

  /** Compares a study with what is expected of it. */
  public static Verification of(ExpectedResults expected, Manifest manifest, TableSource tables) {
    StudyResults actual = new StudyResults(manifest, tables);
    List<Check> checks = new ArrayList<>();
    inputs(expected.inputs(), actual.inputs(), checks);
    Map<String, Long> counts = actual.counts();
    expected.counts().forEach((name, count) -> checks.add(count(name, count, counts.get(name))));
    Map<String, String> digests = actual.digests();
    expected
        .tables()
        .forEach((table, digest) -> checks.add(digest(table, digest, digests.get(table))));
    for (ExpectedResults.Result result : expected.results()) {
      checks.add(result(result, actual.value(result)));
    }
    return new Verification(checks);
  }

  /** One check for all inputs that are as expected, and one for each that is not. */
  private static void inputs(
      Map<String, String> expected, Map<String, String> actual, List<Check> checks) {
    if (expected.isEmpty()) {
      return;
    }
    List<Check> changed = new ArrayList<>();
    long unchanged = 0;
    for (Map.Entry<String, String> input : expected.entrySet()) {
      String found = actual.get(input.getKey());
      if (input.getValue().equals(found)) {
        unchanged++;
      } else {
        changed.add(digest("input " + input.getKey(), input.getValue(), found));
      }
    }
    for (Map.Entry<String, String> input : actual.entrySet()) {
      if (!expected.containsKey(input.getKey())) {
        changed.add(digest("input " + input.getKey(), null, input.getValue()));
      }
    }
    checks.add(
        new Check(
            "inputs with the same bytes",
            Integer.toString(expected.size()),
            Long.toString(unchanged),
            Long.toString(unchanged - expected.size()),
            "0",
            changed.isEmpty()));
    checks.addAll(changed);
  }

  private static Check count(String name, long expected, Long actual) {
    return new Check(
        "count of " + name.replace('-', ' '),
        Long.toString(expected),
        actual == null ? "no such count" : Long.toString(actual),
        actual == null ? "" : Long.toString(actual - expected),
        "0",
        actual != null && actual == expected);
  }

  private static Check digest(String what, String expected, String actual) {
    return new Check(
        what.startsWith("input ") ? what : "digest of " + what,
        shown(expected),
        shown(actual),
        "",
        "",
        expected != null && expected.equals(actual));
  }

  private static String shown(String digest) {
    if (digest == null || digest.isEmpty()) {
      return "none";
    }
    return digest.length() <= DIGITS_SHOWN ? digest : digest.substring(0, DIGITS_SHOWN) + "…";
  }

  private static Check result(ExpectedResults.Result result, Double actual) {
    Double expected = result.expected();
    boolean both = expected != null && actual != null;
    double difference = both ? actual - expected : 0;
    return new Check(
        result.name(),
        number(expected),
        number(actual),
        both ? number(difference) : "",
        number(result.tolerance()),
        both
            ? Math.abs(difference) <= result.tolerance() * ROUNDING
            : expected == null && actual == null);
  }

  private static String number(Double value) {
    if (value == null) {
      return "missing";
    }
    if (value == 0) {
      return "0";
    }
    return Math.abs(value) < 1e-4 || Math.abs(value) >= 1e7
        ? String.format(Locale.ROOT, "%.2e", value)
        : String.format(Locale.ROOT, "%.6f", value).replaceAll("\\.?0+$", "");
  }

  /** How many checks do not hold. */
  public long misses() {
    return checks.stream().filter(check -> !check.holds()).count();
  }

  /** A line a check under a header, columns aligned. */
  public List<String> lines() {
    List<String[]> cells = new ArrayList<>();
    cells.add(new String[] {"", "check", "expected", "actual", "difference", "tolerance"});
    for (Check check : checks) {
      cells.add(
          new String[] {
            check.holds() ? "ok" : "MISS",
            check.what(),
            check.expected(),
            check.actual(),
            check.difference(),
            check.tolerance()
          });
    }
    int[] widths = new int[6];
    for (String[] row : cells) {
      for (int i = 0; i < row.length; i++) {
        widths[i] = Math.max(widths[i], row[i].length());
      }
    }
    List<String> lines = new ArrayList<>();
    for (String[] row : cells) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < row.length; i++) {
        String padding = " ".repeat(widths[i] - row[i].length());
        line.append(i == 0 ? "" : "  ").append(i < 2 ? row[i] + padding : padding + row[i]);
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }
}
