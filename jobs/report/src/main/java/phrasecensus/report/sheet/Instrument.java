package phrasecensus.report.sheet;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import phrasecensus.music.pitch.Transposition;

/**
 * Instruments that a sheet can be written for: transposition, the usual written range and the
 * General MIDI program. Transpositions and ranges: common practice, no source.
 */
public enum Instrument {
  CONCERT(
      "concert pitch",
      Transposition.NONE,
      55,
      88,
      0,
      "c",
      "p",
      "piano",
      "vib",
      "vibraphone",
      "voice"),
  FLUTE("flute", Transposition.NONE, 60, 96, 73),
  CLARINET("clarinet in B♭", new Transposition(-1, -2, 0), 52, 91, 71, "clarinet", "cl", "b♭"),
  BASS_CLARINET(
      "bass clarinet in B♭", new Transposition(-1, -2, -1), 51, 86, 71, "bass clarinet", "bcl"),
  SOPRANO_SAXOPHONE(
      "soprano saxophone", new Transposition(-1, -2, 0), 58, 89, 64, "soprano sax", "ss"),
  ALTO_SAXOPHONE(
      "alto saxophone", new Transposition(-5, -9, 0), 58, 89, 65, "alto sax", "as", "e♭"),
  TENOR_SAXOPHONE("tenor saxophone", new Transposition(-1, -2, -1), 58, 89, 66, "tenor sax", "ts"),
  BARITONE_SAXOPHONE(
      "baritone saxophone", new Transposition(-5, -9, -1), 57, 89, 67, "baritone sax", "bs"),
  TRUMPET(
      "trumpet in B♭", new Transposition(-1, -2, 0), 54, 84, 56, "trumpet", "tp", "cornet", "cor"),
  FLUGELHORN("flugelhorn in B♭", new Transposition(-1, -2, 0), 54, 81, 56, "flugelhorn", "flg"),
  HORN("horn in F", new Transposition(-4, -7, 0), 54, 79, 60, "horn", "french horn", "f"),
  TROMBONE("trombone", Transposition.NONE, 40, 70, 57, "tb"),
  VIOLIN("violin", Transposition.NONE, 55, 93, 40),
  GUITAR("guitar", new Transposition(0, 0, -1), 52, 84, 26, "g"),
  DOUBLE_BASS("double bass", new Transposition(0, 0, -1), 40, 67, 32, "bass", "b");

  /** Phrases move by no more, up or down, to lie well. */
  private static final int MOST_OCTAVES = 3;

  private final String label;
  private final Transposition transposition;
  private final int lowest;
  private final int highest;
  private final int program;
  private final List<String> otherNames;

  Instrument(
      String label,
      Transposition transposition,
      int lowest,
      int highest,
      int program,
      String... otherNames) {
    this.label = label;
    this.transposition = transposition;
    this.lowest = lowest;
    this.highest = highest;
    this.program = program;
    this.otherNames = List.of(otherNames);
  }

  /**
   * The instrument of a name, in any case, with {@code b} or a flat sign, its key before or after
   * it or left out, as in {@code Bb clarinet}.
   */
  public static Optional<Instrument> named(String name) {
    String wanted = simple(name);
    return Arrays.stream(values()).filter(each -> each.names().contains(wanted)).findFirst();
  }

  private List<String> names() {
    String key =
        switch (transposition.chromatic()) {
          case -2 -> "bb";
          case -9 -> "eb";
          case -7 -> "f";
          default -> "c";
        };
    List<String> names = new ArrayList<>(List.of(simple(label)));
    String bare = simple(label.replaceFirst(" in .*", ""));
    for (String base : Stream.concat(Stream.of(bare), otherNames.stream()).toList()) {
      names.add(simple(base));
      names.add(simple(key + " " + base));
      names.add(simple(base + " in " + key));
    }
    return names;
  }

  /**
   * The label that a name most likely means: one that holds its words, else the first; for 'did you
   * mean'.
   */
  public static Optional<String> meant(String name) {
    String wanted = simple(name);
    return wanted.isEmpty()
        ? Optional.empty()
        : Arrays.stream(values())
            .filter(each -> each.names().stream().anyMatch(known -> known.contains(wanted)))
            .map(Instrument::label)
            .findFirst();
  }

  /** Every label, for a message. */
  public static String labels() {
    return Arrays.stream(values()).map(Instrument::label).collect(Collectors.joining(", "));
  }

  private static String simple(String name) {
    String plain =
        Normalizer.normalize(name.replace('♭', 'b'), Normalizer.Form.NFD)
            .toLowerCase(Locale.ROOT)
            .replaceAll("[^a-z]+", " ")
            .strip();
    return plain.replaceFirst("sax$", "saxophone");
  }

  /** Its name on the page. */
  public String label() {
    return label;
  }

  /** From written to sounding pitch. */
  public Transposition transposition() {
    return transposition;
  }

  /** Lowest written pitch of the usual range, as a MIDI number. */
  public int lowest() {
    return lowest;
  }

  /** Highest written pitch of the usual range, as a MIDI number. */
  public int highest() {
    return highest;
  }

  /** How many semitones a written pitch lies outside the usual range. */
  int outside(int midiWritten) {
    return outside(midiWritten, 0, 0);
  }

  /**
   * The same of a smaller range; concert pitch, which is no instrument, has all of its own.
   *
   * @param above semitones that it begins above the lowest pitch
   * @param below semitones that it ends below the highest pitch
   */
  int outside(int midiWritten, int above, int below) {
    boolean whole = this == CONCERT;
    return Math.max(
        0,
        Math.max(
            lowest + (whole ? 0 : above) - midiWritten,
            midiWritten - highest + (whole ? 0 : below)));
  }

  /**
   * How many semitones a phrase lies outside the usual range, in the octave where it lies best.
   *
   * @param lowest its lowest sounding pitch, as a MIDI number
   * @param highest its highest sounding pitch, as a MIDI number
   */
  public int beyond(int lowest, int highest) {
    int moved = transposition.inverse().semitones();
    int least = Integer.MAX_VALUE;
    for (int octaves = -MOST_OCTAVES; octaves <= MOST_OCTAVES; octaves++) {
      int shift = moved + 12 * octaves;
      least = Math.min(least, outside(lowest + shift) + outside(highest + shift));
    }
    return least;
  }

  /** General MIDI program, 0 to 127. */
  public int program() {
    return program;
  }
}
