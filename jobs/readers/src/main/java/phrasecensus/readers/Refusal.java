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
}
