package phrasecensus.report.wording;

import java.util.Locale;

/** Musical words and signs as they are printed. */
public final class MusicText {
  private static final String[] TONICS = {
    "C", "D\u266d", "D", "E\u266d", "E", "F", "G\u266d", "G", "A\u266d", "A", "B\u266d", "B"
  };

  private MusicText() {}

  /**
   * A degree with proper accidentals: {@code b9} becomes a flat nine, {@code n3} a natural three; a
   * dash for null.
   */
  public static String degree(String degree) {
    return degree == null
        ? "\u2013"
        : degree
            .replace("bb", "\u266d\u266d")
            .replace('b', '\u266d')
            .replace('#', '\u266f')
            .replace('n', '\u266e');
  }

  /** A spelled pitch as in tables, {@code Bb4}, with proper accidentals. */
  public static String pitch(String name) {
    if (name.isEmpty()) {
      return name;
    }
    return name.charAt(0) + name.substring(1).replace('b', '\u266d').replace('#', '\u266f');
  }

  /** A landing kind in words: {@code phrase-end} becomes {@code phrase end}. */
  public static String landing(String kind) {
    return switch (kind) {
      case "phrase-end" -> Text.of("line.phrase-end");
      case "before-rest" -> Text.of("line.before-rest");
      case "held" -> Text.of("line.held");
      case "chord-arrival" -> Text.of("line.chord-arrival");
      default -> kind.replace('-', ' ');
    };
  }

  /** A tonal centre in words, as in {@code E♭ minor}; empty when unknown. */
  public static String centre(Integer tonic, String mode) {
    if (tonic == null || "unknown".equals(mode)) {
      return "";
    }
    return TONICS[Math.floorMod(tonic, 12)] + " " + mode.toLowerCase(Locale.ROOT);
  }
}
