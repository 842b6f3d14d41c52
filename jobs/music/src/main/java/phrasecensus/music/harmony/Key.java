package phrasecensus.music.harmony;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Step;

/**
 * A key in one word or two: where home is, and the scale that 'in the key' means.
 *
 * @param centre tonic and mode, known
 * @param scale {@link CentreScale#MINOR} where the form of minor is left to the notes
 */
public record Key(TonalCentre centre, CentreScale scale) {
  private static final Pattern ENGLISH =
      Pattern.compile("([A-Ga-g])(#|b(?!lues)|♯|♭|[\\s-]?sharp|[\\s-]?flat)?[\\s_/-]*(.*)");
  private static final Pattern GERMAN =
      Pattern.compile("(?i)([a-h])(is|es|s)?\\s*-?\\s*(dur|moll)");

  private static final Map<String, CentreScale> SCALES =
      Map.ofEntries(
          Map.entry("", CentreScale.IONIAN),
          Map.entry("major", CentreScale.IONIAN),
          Map.entry("maj", CentreScale.IONIAN),
          Map.entry("ionian", CentreScale.IONIAN),
          Map.entry("minor", CentreScale.MINOR),
          Map.entry("min", CentreScale.MINOR),
          Map.entry("mi", CentreScale.MINOR),
          Map.entry("m", CentreScale.MINOR),
          Map.entry("aeolian", CentreScale.AEOLIAN),
          Map.entry("natural minor", CentreScale.AEOLIAN),
          Map.entry("harmonic minor", CentreScale.HARMONIC_MINOR),
          Map.entry("melodic minor", CentreScale.MELODIC_MINOR),
          Map.entry("blues", CentreScale.BLUES),
          Map.entry("dorian", CentreScale.DORIAN),
          Map.entry("dor", CentreScale.DORIAN),
          Map.entry("phrygian", CentreScale.PHRYGIAN),
          Map.entry("phryg", CentreScale.PHRYGIAN),
          Map.entry("lydian", CentreScale.LYDIAN),
          Map.entry("lyd", CentreScale.LYDIAN),
          Map.entry("mixolydian", CentreScale.MIXOLYDIAN),
          Map.entry("mixo", CentreScale.MIXOLYDIAN),
          Map.entry("mix", CentreScale.MIXOLYDIAN),
          Map.entry("locrian", CentreScale.LOCRIAN));

  /**
   * Reads a key as people write it: {@code G}, {@code E minor}, {@code F#m}, {@code Bb blues},
   * {@code D dorian}, {@code Eb-maj}, {@code fis-Moll}; empty for anything else.
   */
  public static Optional<Key> parse(String text) {
    String given = text.strip();
    Matcher german = GERMAN.matcher(given);
    if (german.matches()) {
      return Optional.of(
          of(
              germanTonic(german.group(1), german.group(2)),
              german.group(3).equalsIgnoreCase("dur") ? CentreScale.IONIAN : CentreScale.MINOR));
    }
    Matcher english = ENGLISH.matcher(given);
    if (!english.matches()) {
      return Optional.empty();
    }
    String words = english.group(3).strip();
    String word = words.equals("M") ? "" : words.toLowerCase(Locale.ROOT).replaceAll("\\s+", " ");
    CentreScale scale = SCALES.get(word);
    if (scale == null) {
      return Optional.empty();
    }
    int tonic =
        new NoteName(
                Step.valueOf(english.group(1).toUpperCase(Locale.ROOT)), alter(english.group(2)))
            .pitchClass();
    boolean minorByLetter = word.isEmpty() && Character.isLowerCase(given.charAt(0));
    return minorByLetter ? Optional.empty() : Optional.of(of(tonic, scale));
  }

  private static int alter(String sign) {
    if (sign == null) {
      return 0;
    }
    return sign.equals("#") || sign.equals("♯") || sign.endsWith("sharp") ? 1 : -1;
  }

  /** German names: H is B, B is B flat. */
  private static int germanTonic(String letter, String ending) {
    String upper = letter.toUpperCase(Locale.ROOT);
    int natural = upper.equals("H") ? 11 : upper.equals("B") ? 10 : Step.valueOf(upper).semitones();
    int alter = ending == null ? 0 : ending.equalsIgnoreCase("is") ? 1 : -1;
    return Math.floorMod(natural + alter, 12);
  }

  /**
   * The key of a scale.
   *
   * @param tonic 0 (C) to 11
   */
  public static Key of(int tonic, CentreScale scale) {
    Mode mode =
        switch (scale) {
          case IONIAN -> Mode.MAJOR;
          case MINOR, AEOLIAN, HARMONIC_MINOR, MELODIC_MINOR -> Mode.MINOR;
          case BLUES -> Mode.BLUES;
          case DORIAN, PHRYGIAN, LYDIAN, MIXOLYDIAN, LOCRIAN -> Mode.MODAL;
        };
    return new Key(new TonalCentre(tonic, mode), scale);
  }

  /** The scale of a centre that has one by its mode; Dorian for a modal one. */
  public static CentreScale scaleOf(TonalCentre centre) {
    return centre.mode() == Mode.MODAL ? CentreScale.DORIAN : CentreScale.ofMode(centre);
  }

  /** The tonic, 0 to 11, of the major key with the usual signature of this key. */
  public int majorOfSignature() {
    int above =
        switch (scale) {
          case IONIAN, BLUES -> 0;
          case DORIAN -> 2;
          case PHRYGIAN -> 4;
          case LYDIAN -> 5;
          case MIXOLYDIAN -> 7;
          case MINOR, AEOLIAN, HARMONIC_MINOR, MELODIC_MINOR -> 9;
          case LOCRIAN -> 11;
        };
    return Math.floorMod(centre.tonic() - above, 12);
  }

  /** The same key a number of semitones higher, lower when negative. */
  public Key transposed(int semitones) {
    return new Key(
        new TonalCentre(Math.floorMod(centre.tonic() + semitones, 12), centre.mode()), scale);
  }

  /**
   * True when music in this key is written with such a signature: the one whose scale on some
   * degree it is. A blues is written with the signature of its major, its Mixolydian or its minor.
   *
   * @param fifths sharps, or flats when negative
   */
  public boolean isWrittenWith(int fifths) {
    int major = Math.floorMod(7 * fifths, 12);
    int above = Math.floorMod(centre.tonic() - major, 12);
    return switch (scale) {
      case IONIAN -> above == 0;
      case DORIAN -> above == 2 || above == 9;
      case PHRYGIAN -> above == 4 || above == 9;
      case LYDIAN -> above == 5 || above == 0;
      case MIXOLYDIAN -> above == 7 || above == 0;
      case MINOR, AEOLIAN, HARMONIC_MINOR, MELODIC_MINOR -> above == 9;
      case LOCRIAN -> above == 11;
      case BLUES -> above == 0 || above == 7 || above == 9;
    };
  }
}
