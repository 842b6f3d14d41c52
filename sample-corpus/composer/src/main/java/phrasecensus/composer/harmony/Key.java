package phrasecensus.composer.harmony;

/**
 * The key of a tune, sounding pitch.
 *
 * @param tonic tonic
 * @param minor true for minor, false for major
 */
public record Key(NoteName tonic, boolean minor) {
  /** Reads {@code Bb} or {@code G minor}. */
  public static Key of(String text) {
    boolean minor = text.endsWith(" minor");
    return new Key(NoteName.of(minor ? text.substring(0, text.length() - 6) : text), minor);
  }

  /** Sharps (positive) or flats (negative) of the signature. */
  public int fifths() {
    return minor ? tonic.fifths() - 3 : tonic.fifths();
  }

  @Override
  public String toString() {
    return tonic + (minor ? " minor" : " major");
  }
}
