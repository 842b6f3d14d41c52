package phrasecensus.readers.musicxml;

import static phrasecensus.music.chord.ChordAlteration.Type.ADD;
import static phrasecensus.music.chord.ChordAlteration.Type.ALTER;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import phrasecensus.music.chord.ChordAlteration;
import phrasecensus.music.chord.ChordKind;
import phrasecensus.music.chord.ChordSuffix;

/**
 * Chord kinds outside the standard whose meaning is plain: words that programs write into {@code
 * kind}, and the usual suffixes of chord symbols (common practice, no source). Anything else stays
 * unknown; nothing is guessed.
 */
final class ForeignChordKinds {
  /** A kind of the standard with what must be done to it. */
  record Meaning(ChordKind kind, List<ChordAlteration> alterations) {}

  private static final Map<String, Meaning> WORDS = new HashMap<>();

  static {
    mean(ChordKind.MAJOR, "maj", "major-triad", "ma", "M");
    mean(ChordKind.MINOR, "min", "m", "mi", "-", "minor-triad");
    mean(ChordKind.AUGMENTED, "aug", "+", "augmented-triad");
    mean(ChordKind.DIMINISHED, "dim", "°", "o", "diminished-triad");
    mean(ChordKind.DOMINANT, "dominant-seventh", "dominant-7th", "dom7", "7", "seventh");
    mean(
        ChordKind.MAJOR_SEVENTH,
        "major-7th",
        "maj7",
        "ma7",
        "M7",
        "j7",
        "Δ",
        "Δ7",
        "△",
        "△7",
        "^7");
    mean(ChordKind.MINOR_SEVENTH, "minor-7th", "min7", "mi7", "m7", "-7");
    mean(ChordKind.DIMINISHED_SEVENTH, "diminished-7th", "dim7", "°7", "o7");
    mean(ChordKind.AUGMENTED_SEVENTH, "augmented-7th", "aug7", "+7", "7+", "7#5");
    mean(
        ChordKind.HALF_DIMINISHED,
        "half-diminished-seventh",
        "half-diminished-7th",
        "m7b5",
        "min7b5",
        "mi7b5",
        "-7b5",
        "ø",
        "ø7");
    mean(
        ChordKind.MAJOR_MINOR,
        "minor-major",
        "minor-major-seventh",
        "minor-major-7th",
        "mmaj7",
        "mM7",
        "minmaj7",
        "m(maj7)",
        "-maj7",
        "-Δ7",
        "-j7",
        "mΔ7");
    mean(ChordKind.MAJOR_SIXTH, "major-6th", "maj6", "6", "M6", "sixth");
    mean(ChordKind.MINOR_SIXTH, "minor-6th", "min6", "m6", "-6", "mi6");
    mean(ChordKind.DOMINANT_NINTH, "dominant-9th", "9", "dom9", "ninth");
    mean(ChordKind.MAJOR_NINTH, "major-9th", "maj9", "M9", "ma9", "Δ9", "j9");
    mean(ChordKind.MINOR_NINTH, "minor-9th", "min9", "m9", "-9", "mi9");
    mean(ChordKind.DOMINANT_11TH, "dominant-eleventh", "11");
    mean(ChordKind.MAJOR_11TH, "major-eleventh", "maj11");
    mean(ChordKind.MINOR_11TH, "minor-eleventh", "min11", "m11", "-11");
    mean(ChordKind.DOMINANT_13TH, "dominant-thirteenth", "13");
    mean(ChordKind.MAJOR_13TH, "major-thirteenth", "maj13");
    mean(ChordKind.MINOR_13TH, "minor-thirteenth", "min13", "m13", "-13");
    mean(ChordKind.SUSPENDED_SECOND, "sus2", "suspended-2nd");
    mean(ChordKind.SUSPENDED_FOURTH, "sus4", "sus", "suspended-4th", "suspended");
    mean(ChordKind.POWER, "5", "power-chord");
    mean(ChordKind.NONE, "nc", "n.c.", "no-chord");
    ChordAlteration ninth = new ChordAlteration(ADD, 9, 0);
    ChordAlteration flatNinth = new ChordAlteration(ADD, 9, -1);
    ChordAlteration sharpNinth = new ChordAlteration(ADD, 9, 1);
    ChordAlteration seventh = new ChordAlteration(ADD, 7, 0);
    mean(ChordKind.AUGMENTED_SEVENTH, List.of(ninth), "augmented-ninth", "augmented-9th", "+9");
    mean(ChordKind.MAJOR_SIXTH, List.of(ninth), "maj69", "major-69", "69", "6/9", "6(9)");
    mean(ChordKind.MINOR_SIXTH, List.of(ninth), "min69", "minor-69", "m69", "m6/9", "-69");
    mean(
        ChordKind.SUSPENDED_FOURTH,
        List.of(seventh),
        "suspended-fourth-seventh",
        "dominant-suspended-fourth",
        "7sus4",
        "7sus",
        "sus47",
        "sus7");
    mean(ChordKind.SUSPENDED_FOURTH, List.of(seventh, ninth), "9sus4", "9sus");
    mean(ChordKind.DOMINANT, List.of(flatNinth), "7b9", "dominant-flat-ninth");
    mean(ChordKind.DOMINANT, List.of(sharpNinth), "7#9");
    mean(ChordKind.DOMINANT, List.of(new ChordAlteration(ADD, 11, 1)), "7#11", "dominant-7#11");
    mean(ChordKind.DOMINANT, List.of(new ChordAlteration(ADD, 13, -1)), "7b13");
    mean(ChordKind.DOMINANT, List.of(new ChordAlteration(ALTER, 5, -1)), "7b5");
    mean(ChordKind.MAJOR_SEVENTH, List.of(new ChordAlteration(ADD, 11, 1)), "maj7#11", "Δ7#11");
    mean(ChordKind.MAJOR, List.of(ninth), "add9", "major-add9");
    mean(ChordKind.MINOR, List.of(ninth), "madd9", "m(add9)", "minor-add9");
  }

  private ForeignChordKinds() {}

  private static void mean(ChordKind kind, String... words) {
    mean(kind, List.of(), words);
  }

  private static void mean(ChordKind kind, List<ChordAlteration> alterations, String... words) {
    for (String word : words) {
      WORDS.put(word, new Meaning(kind, alterations));
    }
  }

  /** What a word for a kind, or the text of a chord symbol after its root, means. */
  static Optional<Meaning> meaning(String word) {
    String plain =
        word.strip()
            .replace('_', '-')
            .replace('−', '-')
            .replace('–', '-')
            .replace('♭', 'b')
            .replace('♯', '#');
    Meaning exact = WORDS.get(plain);
    if (exact != null) {
      return Optional.of(exact);
    }
    // A capital M alone means major, so only longer words are put into lower case.
    Meaning lower =
        plain.length() < 3 ? null : WORDS.get(plain.toLowerCase(Locale.ROOT).replace(' ', '-'));
    return lower != null
        ? Optional.of(lower)
        : ChordSuffix.read(plain).map(suffix -> new Meaning(suffix.kind(), suffix.alterations()));
  }

  /** The kind of the standard that a word means but for capitals. */
  static Optional<ChordKind> misspelt(String word) {
    String lower = word.toLowerCase(Locale.ROOT).replace(' ', '-').replace('_', '-');
    for (ChordKind kind : ChordKind.values()) {
      if (kind.musicXmlName().toLowerCase(Locale.ROOT).equals(lower)) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }
}
