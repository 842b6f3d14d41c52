package phrasecensus.cli;

/** What the program's exit says. Part of the interface. */
final class ExitCode {
  /** All done. */
  static final int DONE = 0;

  /** A fault of the program. */
  static final int OUR_FAULT = 1;

  /** The command line is wrong. */
  static final int USAGE = 2;

  /** The input or the study cannot be used. */
  static final int INPUT = 3;

  /** Done, but files were rejected and {@code --strict} was given. */
  static final int REJECTED_FILES = 4;

  /** A study that was verified gave other results than its author expects. */
  static final int OTHER_RESULTS = 5;

  private ExitCode() {}
}
