package phrasecensus.readers;

import java.util.Map;
import java.util.TreeMap;

/** How much of the music each kind of problem concerns (our own judgement), the worst first. */
enum ProblemSeverity {
  /** Notes, time or the whole file may be wrong, or are not there. */
  MUSIC,
  /** Harmony, form or single notes were read by a guess or left out by a rule. */
  GUESS,
  /** Read as it is surely meant. */
  USUAL,
  /** The music is the same with and without it. */
  HARMLESS;

  private static final Map<String, ProblemSeverity> BY_CODE = new TreeMap<>();

  static {
    put(
        MUSIC,
        "no-notes",
        "more-problems",
        "pitch-not-complete",
        "note-without-pitch",
        "duration-missing",
        "duration-differs-from-type",
        "divisions-missing",
        "backup-past-bar",
        "backup-without-duration",
        "forward-without-duration",
        "bar-length",
        "notes-overlap",
        "invalid-value",
        "repeated-element",
        "time-incomplete",
        "transposition-incomplete",
        "transposition-in-concert-score",
        "concert-pitch-suspected",
        "part-not-found",
        "hidden-notes-only",
        "phrase-marks-missing",
        "phrase-marks-beyond-line",
        "phrase-marks-doubled",
        "phrase-marks-out-of-order",
        "phrase-marks-start-late");
    put(
        USUAL,
        "other-voices",
        "stacks-in-line",
        "tie-without-stop",
        "durations-rounded",
        "forward-beyond-bar",
        "part-not-listed",
        "part-id-repeated");
    put(
        HARMLESS,
        "white-space-in-value",
        "space-before-document",
        "name-does-not-fit",
        "container-not-usable",
        "archive-in-archive",
        "entity-not-expanded");
  }

  private static void put(ProblemSeverity severity, String... codes) {
    for (String code : codes) {
      BY_CODE.put(code, severity);
    }
  }

  /** The severity of a kind of problem; a guess for one without an entry here. */
  static ProblemSeverity of(String code) {
    return BY_CODE.getOrDefault(code, GUESS);
  }

  /** 1 for the worst. */
  int rank() {
    return ordinal() + 1;
  }
}
