package phrasecensus.music.harmony;

/**
 * A tonal centre.
 *
 * @param tonic 0 (C) to 11 (B), sounding; -1 for {@link Mode#UNKNOWN}
 * @param mode kind of centre
 */
public record TonalCentre(int tonic, Mode mode) {
  public static final TonalCentre UNKNOWN = new TonalCentre(-1, Mode.UNKNOWN);

  /** Kinds of centres. */
  public enum Mode {
    MAJOR,
    MINOR,
    BLUES,
    MODAL,
    UNKNOWN;

    /** The word in tables: lower case. */
    public String word() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  public boolean isKnown() {
    return mode != Mode.UNKNOWN;
  }
}
