package phrasecensus.readers;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A bound on what one file may ask of the reader. A file beyond it is refused with the limit's key.
 *
 * <p>The defaults are our own: at least ten times what the largest of some thousand public scores
 * needs, small enough that one file cannot stop a run.
 */
public enum Limit {
  /** Size of the file as it lies on disk. */
  FILE_SIZE("bytes", 64L << 20),
  /** Size of the score after decompression. */
  DECOMPRESSED_SIZE("bytes", 256L << 20),
  /** Decompressed size divided by compressed size, for entries above one megabyte. */
  DECOMPRESSION_RATIO("times", 300),
  /** How deep elements may stand inside each other. */
  NESTING_DEPTH("elements", 100),
  /** How many elements a score may have. */
  ELEMENT_COUNT("elements", 10_000_000),
  /** How many bars the as-played order may have. */
  UNFOLDED_BARS("bars", 10_000),
  /**
   * How many parts the length of a score may have when it is divided so finely that every time, bar
   * and beat begins with a part: beyond it times cannot be added up exactly. It can only be
   * lowered.
   */
  TIME_PARTS("parts", 1_000_000_000_000_000L),
  /** Time for reading one file. */
  READING_TIME("milliseconds", 60_000);

  private final String unit;
  private final long defaultValue;

  Limit(String unit, long defaultValue) {
    this.unit = unit;
    this.defaultValue = defaultValue;
  }

  /** The word for settings and messages, as in {@code nesting-depth}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What is counted, in the plural. */
  public String unit() {
    return unit;
  }

  /** The value in {@link ReadSettings#defaults()}. */
  public long defaultValue() {
    return defaultValue;
  }

  /** The limit with that key. */
  public static Optional<Limit> withKey(String key) {
    return Stream.of(values()).filter(limit -> limit.key().equals(key)).findFirst();
  }

  /**
   * Reads limits as users write them.
   *
   * @param written key to value, as in {@code file-size} to {@code 1000000}
   * @throws IllegalArgumentException naming the known keys for an unknown one, and the unit for a
   *     value that is no whole number above zero
   */
  public static Map<Limit, Long> parse(Map<String, String> written) {
    Map<Limit, Long> limits = new EnumMap<>(Limit.class);
    new TreeMap<>(written)
        .forEach(
            (key, value) -> {
              Limit limit =
                  withKey(key)
                      .orElseThrow(
                          () ->
                              new IllegalArgumentException(
                                  "Invalid limit '" + key + "': the limits are " + keys()));
              limits.put(limit, limit.value(value));
            });
    return limits;
  }

  private long value(String written) {
    try {
      long value = Long.parseLong(written.strip());
      if (value > 0 && (this != TIME_PARTS || value <= defaultValue)) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Said below, as for zero.
    }
    throw new IllegalArgumentException(
        "Invalid limit "
            + key()
            + ": '"
            + written
            + "' is no whole number of "
            + unit
            + " above zero"
            + (this == TIME_PARTS ? " and up to " + defaultValue : ""));
  }

  /** All keys, for messages. */
  private static String keys() {
    return Stream.of(values()).map(Limit::key).collect(Collectors.joining(", "));
  }
}
