package phrasecensus.readers;

/**
 * Ends the reading of a file; its message is the reason a user sees. Unchecked, so that it passes
 * through the binding; never leaves {@link SoloReader}.
 */
public final class Refusal extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * @param reason a sentence for the user
   */
  public Refusal(String reason) {
    super(reason, null, false, false);
  }

  /** The refusal of a file beyond a limit. */
  public static Refusal beyond(Limit limit, long allowed) {
    return new Refusal(
        "It is beyond the limit "
            + limit.key()
            + " of "
            + allowed
            + " "
            + limit.unit()
            + "; raise the limit in the settings if the file is sound.");
  }

  /**
   * The refusal of a file whose times cannot be added up exactly.
   *
   * @param bar the first such bar, as the file numbers it; empty when it has no number
   */
  public static Refusal beyondExactTime(String bar, long allowed) {
    return new Refusal(
        (bar.isEmpty() ? "Its times" : "The times up to bar " + bar)
            + " cannot be added up exactly: they are beyond the limit "
            + Limit.TIME_PARTS.key()
            + " of "
            + allowed
            + " "
            + Limit.TIME_PARTS.unit()
            + ". Look at the divisions, durations and time signatures there.");
  }
}
