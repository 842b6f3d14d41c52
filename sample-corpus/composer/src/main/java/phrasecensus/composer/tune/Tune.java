package phrasecensus.composer.tune;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.composer.harmony.ChordSymbol;
import phrasecensus.composer.harmony.Key;

/**
 * A tune as a player has it on the stand: its chords, one chorus long.
 *
 * @param title title
 * @param form form in words
 * @param key key, sounding pitch
 * @param beats quarter-note beats in a bar, 3 or 4
 * @param tempo usual tempo, quarter notes per minute
 * @param blues true when dominant sevenths rest as in a blues
 * @param bars the bars of one chorus
 */
public record Tune(
    String title, String form, Key key, int beats, int tempo, boolean blues, List<Bar> bars) {
  /** Ticks in a quarter note: the smallest number that holds sixteenths and triplets. */
  public static final int QUARTER = 24;

  /**
   * One bar of the chart.
   *
   * @param section rehearsal mark that stands at this bar, empty for none
   * @param chords chords in order, at least one
   */
  public record Bar(String section, List<Placed> chords) {
    /** Copies the chords in. */
    public Bar {
      chords = List.copyOf(chords);
    }
  }

  /**
   * A chord at its place in a bar.
   *
   * @param onset ticks from the bar line
   * @param chord chord
   */
  public record Placed(int onset, ChordSymbol chord) {}

  /** Copies the bars in. */
  public Tune {
    bars = List.copyOf(bars);
  }

  /**
   * Reads a chart: bars between {@code |}, chords between blanks, a section mark such as {@code
   * [A]} before its first bar. Two chords share a bar of four as 2 + 2, a bar of three as 2 + 1.
   *
   * @throws IllegalArgumentException if a bar is empty or has too many chords
   */
  public static Tune of(
      String title, String form, String key, int beats, int tempo, boolean blues, String chart) {
    List<Bar> bars = new ArrayList<>();
    for (String text : chart.split("\\|")) {
      String section = "";
      List<ChordSymbol> chords = new ArrayList<>();
      for (String word : text.strip().split("\\s+")) {
        if (word.startsWith("[")) {
          section = word.substring(1, word.length() - 1);
        } else {
          chords.add(ChordSymbol.of(word));
        }
      }
      if (chords.isEmpty() || chords.size() > 2) {
        throw new IllegalArgumentException("Invalid bar in " + title + ": " + text);
      }
      List<Placed> placed = new ArrayList<>();
      for (int i = 0; i < chords.size(); i++) {
        placed.add(new Placed(i * 2 * QUARTER, chords.get(i)));
      }
      bars.add(new Bar(section, placed));
    }
    return new Tune(title, form, Key.of(key), beats, tempo, blues, bars);
  }

  /** Ticks in a bar. */
  public int barTicks() {
    return beats * QUARTER;
  }
}
