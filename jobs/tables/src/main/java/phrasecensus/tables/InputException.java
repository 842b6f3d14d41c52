package phrasecensus.tables;

/**
 * Something the user gave cannot be used: a folder, a study file, a table. The message is one or
 * two sentences that say where, what, and what to do; it is shown as it is, without a stack trace.
 */
public final class InputException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public InputException(String message) {
    super(message);
  }

  public InputException(String message, Throwable cause) {
    super(message, cause);
  }
}
