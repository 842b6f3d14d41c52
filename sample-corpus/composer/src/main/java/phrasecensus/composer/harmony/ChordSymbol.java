package phrasecensus.composer.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A chord symbol, sounding pitch.
 *
 * @param root root; C for {@link ChordKind#NONE}, where it means nothing
 * @param kind kind
 * @param degrees added or altered degrees, in the order written
 * @param bass bass note, null when it is the root
 * @param suffix what stands after the root on a lead sheet
 */
public record ChordSymbol(
    NoteName root, ChordKind kind, List<Degree> degrees, NoteName bass, String suffix) {
  /** The symbol for "no chord". */
  public static final ChordSymbol NO_CHORD =
      new ChordSymbol(NoteName.of("C"), ChordKind.NONE, List.of(), null, "N.C.");

  /**
   * A degree beside the kind.
   *
   * @param value degree number, 5 to 13
   * @param alter semitones
   * @param type {@code add} or {@code alter}, as in MusicXML
   */
  public record Degree(int value, int alter, String type) {}

  private record Shape(ChordKind kind, List<Degree> degrees) {
    Shape(ChordKind kind, Degree... degrees) {
      this(kind, List.of(degrees));
    }
  }

  private static final Pattern SYMBOL = Pattern.compile("([A-G][b#]?)([^/]*)(?:/([A-G][b#]?))?");

  private static final Map<String, Shape> SHAPES =
      Map.ofEntries(
          Map.entry("", new Shape(ChordKind.MAJOR)),
          Map.entry("m", new Shape(ChordKind.MINOR)),
          Map.entry("+", new Shape(ChordKind.AUGMENTED)),
          Map.entry("6", new Shape(ChordKind.MAJOR_SIXTH)),
          Map.entry("69", new Shape(ChordKind.MAJOR_SIXTH, new Degree(9, 0, "add"))),
          Map.entry("maj7", new Shape(ChordKind.MAJOR_SEVENTH)),
          Map.entry("maj7#11", new Shape(ChordKind.MAJOR_SEVENTH, new Degree(11, 1, "add"))),
          Map.entry("maj9", new Shape(ChordKind.MAJOR_NINTH)),
          Map.entry("7", new Shape(ChordKind.DOMINANT)),
          Map.entry("7b9", new Shape(ChordKind.DOMINANT, new Degree(9, -1, "add"))),
          Map.entry("7#9", new Shape(ChordKind.DOMINANT, new Degree(9, 1, "add"))),
          Map.entry("7#11", new Shape(ChordKind.DOMINANT, new Degree(11, 1, "add"))),
          Map.entry("7b5", new Shape(ChordKind.DOMINANT, new Degree(5, -1, "alter"))),
          Map.entry("9", new Shape(ChordKind.DOMINANT_NINTH)),
          Map.entry("13", new Shape(ChordKind.DOMINANT_13TH)),
          Map.entry("13b9", new Shape(ChordKind.DOMINANT_13TH, new Degree(9, -1, "alter"))),
          Map.entry("+7", new Shape(ChordKind.AUGMENTED_SEVENTH)),
          Map.entry("7sus4", new Shape(ChordKind.SUSPENDED_FOURTH, new Degree(7, 0, "add"))),
          Map.entry("m7", new Shape(ChordKind.MINOR_SEVENTH)),
          Map.entry("m9", new Shape(ChordKind.MINOR_NINTH)),
          Map.entry("m11", new Shape(ChordKind.MINOR_11TH)),
          Map.entry("m6", new Shape(ChordKind.MINOR_SIXTH)),
          Map.entry("mmaj7", new Shape(ChordKind.MAJOR_MINOR)),
          Map.entry("m7b5", new Shape(ChordKind.HALF_DIMINISHED)),
          Map.entry("dim7", new Shape(ChordKind.DIMINISHED_SEVENTH)));

  /**
   * Reads a lead-sheet symbol such as {@code Bbm7}, {@code F7b9}, {@code G6/D} or {@code NC}.
   *
   * @throws IllegalArgumentException if the symbol is unknown
   */
  public static ChordSymbol of(String text) {
    if (text.equals("NC")) {
      return NO_CHORD;
    }
    Matcher matcher = SYMBOL.matcher(text);
    Shape shape = matcher.matches() ? SHAPES.get(matcher.group(2)) : null;
    if (shape == null) {
      throw new IllegalArgumentException("Invalid chord symbol: " + text);
    }
    NoteName bass = matcher.group(3) == null ? null : NoteName.of(matcher.group(3));
    return new ChordSymbol(
        NoteName.of(matcher.group(1)), shape.kind(), shape.degrees(), bass, matcher.group(2));
  }

  /** Copies the degrees in. */
  public ChordSymbol {
    degrees = List.copyOf(degrees);
  }

  /** Root, third, fifth and seventh (or sixth) as fifths above the root, alterations done. */
  public List<Integer> core() {
    List<Integer> core = new ArrayList<>(kind.core());
    for (Degree degree : degrees) {
      if (degree.value() == 5) {
        core.set(2, core.get(2) + 7 * degree.alter());
      } else if (degree.value() == 7) {
        core.add(-2);
      }
    }
    return core;
  }

  /** True when the pitch class is a core chord tone. */
  public boolean holds(int pitchClass) {
    for (int offset : core()) {
      if (root.up(offset).pitchClass() == pitchClass) {
        return true;
      }
    }
    return false;
  }

  /** The symbol as another instrument reads it. */
  public ChordSymbol up(int fifths) {
    if (kind == ChordKind.NONE || fifths == 0) {
      return this;
    }
    NoteName newRoot = root.up(fifths).readable();
    int used = newRoot.fifths() - root.fifths();
    return new ChordSymbol(
        newRoot, kind, degrees, bass == null ? null : bass.up(used).readable(), suffix);
  }

  @Override
  public String toString() {
    return kind == ChordKind.NONE ? suffix : root + suffix + (bass == null ? "" : "/" + bass);
  }
}
