package phrasecensus.composer.line;

/**
 * One known way in which a student leaves the style, and how far.
 *
 * @param kind which way
 * @param strength 1 as far as the composer goes, 0 not at all
 */
public record Departure(Kind kind, double strength) {
  /** No departure: a corpus player. */
  public static final Departure NONE = new Departure(Kind.NONE, 0);

  /** The ways. */
  public enum Kind {
    NONE("", ""),
    /** Phrases of many bars with hardly a rest. */
    NO_RESTS("phrasing", "phrase length in bars"),
    /** Half and whole notes in place of moving eighths. */
    LONG_NOTES("movement", "eighth-note share"),
    /** One far-away scale, whatever the chords. */
    IGNORES_CHANGES("harmony", "landing chord-tone share");

    private final String facet;
    private final String hint;

    Kind(String facet, String hint) {
      this.facet = facet;
      this.hint = hint;
    }

    /** Side of the playing it shows in: phrasing, movement or harmony; empty for none. */
    public String facet() {
      return facet;
    }

    /** The statistic that shows it first, in words; empty for none. */
    public String hint() {
      return hint;
    }
  }

  double of(Kind asked) {
    return kind == asked ? strength : 0;
  }
}
