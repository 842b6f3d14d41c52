package phrasecensus.music.chord;

import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The 33 chord kinds of MusicXML 4.0 ({@code kind-value}), each with the degrees it contains.
 *
 * <p>Degrees are semitones above the root, -1 where the kind has no such degree. {@code
 * major-minor} is a minor triad with a major seventh; {@code augmented-seventh} an augmented triad
 * with a minor one. The functional sixths and {@code Tristan} have no intervals in the standard, so
 * their content is unknown.
 */
public enum ChordKind {
  MAJOR("major", "", 4, 7, -1, -1, -1, -1),
  MINOR("minor", "m", 3, 7, -1, -1, -1, -1),
  AUGMENTED("augmented", "+", 4, 8, -1, -1, -1, -1),
  DIMINISHED("diminished", "°", 3, 6, -1, -1, -1, -1),
  DOMINANT("dominant", "7", 4, 7, 10, -1, -1, -1),
  MAJOR_SEVENTH("major-seventh", "maj7", 4, 7, 11, -1, -1, -1),
  MINOR_SEVENTH("minor-seventh", "m7", 3, 7, 10, -1, -1, -1),
  DIMINISHED_SEVENTH("diminished-seventh", "°7", 3, 6, 9, -1, -1, -1),
  AUGMENTED_SEVENTH("augmented-seventh", "+7", 4, 8, 10, -1, -1, -1),
  HALF_DIMINISHED("half-diminished", "ø7", 3, 6, 10, -1, -1, -1),
  MAJOR_MINOR("major-minor", "m(maj7)", 3, 7, 11, -1, -1, -1),
  MAJOR_SIXTH("major-sixth", "6", 4, 7, 9, -1, -1, -1),
  MINOR_SIXTH("minor-sixth", "m6", 3, 7, 9, -1, -1, -1),
  DOMINANT_NINTH("dominant-ninth", "9", 4, 7, 10, 14, -1, -1),
  MAJOR_NINTH("major-ninth", "maj9", 4, 7, 11, 14, -1, -1),
  MINOR_NINTH("minor-ninth", "m9", 3, 7, 10, 14, -1, -1),
  DOMINANT_11TH("dominant-11th", "11", 4, 7, 10, 14, 17, -1),
  MAJOR_11TH("major-11th", "maj11", 4, 7, 11, 14, 17, -1),
  MINOR_11TH("minor-11th", "m11", 3, 7, 10, 14, 17, -1),
  DOMINANT_13TH("dominant-13th", "13", 4, 7, 10, 14, 17, 21),
  MAJOR_13TH("major-13th", "maj13", 4, 7, 11, 14, 17, 21),
  MINOR_13TH("minor-13th", "m13", 3, 7, 10, 14, 17, 21),
  SUSPENDED_SECOND("suspended-second", "sus2", 2, 7, -1, -1, -1, -1),
  SUSPENDED_FOURTH("suspended-fourth", "sus4", 5, 7, -1, -1, -1, -1),
  NEAPOLITAN("Neapolitan", "Neapolitan"),
  ITALIAN("Italian", "It+6"),
  FRENCH("French", "Fr+6"),
  GERMAN("German", "Ger+6"),
  PEDAL("pedal", "pedal", -1, -1, -1, -1, -1, -1),
  POWER("power", "5", -1, 7, -1, -1, -1, -1),
  TRISTAN("Tristan", "Tristan"),
  OTHER("other", "", -1, -1, -1, -1, -1, -1),
  NONE("none", "N.C.");

  private static final Map<String, ChordKind> BY_NAME =
      Stream.of(values()).collect(Collectors.toUnmodifiableMap(ChordKind::musicXmlName, k -> k));

  private final String musicXmlName;
  private final String suffix;
  private final boolean contentKnown;
  private final int[] degrees;

  ChordKind(String musicXmlName, String suffix) {
    this.musicXmlName = musicXmlName;
    this.suffix = suffix;
    this.contentKnown = false;
    this.degrees = new int[] {-1, -1, -1, -1, -1, -1};
  }

  ChordKind(
      String musicXmlName,
      String suffix,
      int third,
      int fifth,
      int seventh,
      int ninth,
      int eleventh,
      int thirteenth) {
    this.musicXmlName = musicXmlName;
    this.suffix = suffix;
    this.contentKnown = true;
    this.degrees = new int[] {third, fifth, seventh, ninth, eleventh, thirteenth};
  }

  /** The word MusicXML uses, as in {@code half-diminished}. */
  public String musicXmlName() {
    return musicXmlName;
  }

  /** What follows the root in a chord symbol, as in {@code m7}. */
  public String suffix() {
    return suffix;
  }

  /** False where the standard lays down no intervals, and for {@link #NONE}. */
  public boolean isContentKnown() {
    return contentKnown;
  }

  public boolean isSixth() {
    return this == MAJOR_SIXTH || this == MINOR_SIXTH;
  }

  public boolean isSuspended() {
    return this == SUSPENDED_SECOND || this == SUSPENDED_FOURTH;
  }

  /**
   * Semitones above the root of the degree at an index: 0 the third (or what stands in its place),
   * 1 fifth, 2 seventh (or sixth), 3 ninth, 4 eleventh, 5 thirteenth; -1 when the kind lacks it.
   */
  int degreeSemitones(int index) {
    return degrees[index];
  }

  /** True when the kind has a degree of its own with this number: 1, 3, 5, 7, 9, 11 or 13. */
  public boolean hasDegree(int value) {
    boolean odd = value % 2 == 1 && value <= 13;
    return value == 1 || odd && degrees[(value - 3) / 2] >= 0 && !(value == 7 && isSixth());
  }

  /** The kind with that MusicXML word, exactly as the standard spells it. */
  public static Optional<ChordKind> named(String musicXmlName) {
    return Optional.ofNullable(BY_NAME.get(musicXmlName));
  }
}
