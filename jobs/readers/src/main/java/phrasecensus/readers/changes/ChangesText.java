package phrasecensus.readers.changes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.changes.Changes;
import phrasecensus.music.changes.Changes.Placed;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.musicxml.ChordSymbolText;

/**
 * Reads changes as musicians type them: {@code Gmaj7 | Em7 | Am7 D7 | % |}. Bars are parted by
 * {@code |}; what stands in a bar shares it equally; {@code /} goes on with the chord before it and
 * {@code %} repeats the bar before.
 */
public final class ChangesText {
  private ChangesText() {}

  /**
   * What was read.
   *
   * @param changes bar by bar
   * @param unread what is no chord symbol, as in {@code 'H7' in bar 3}, in order; its place goes on
   *     with the chord before it
   */
  public record Reading(Changes changes, List<String> unread) {}

  /** Reads changes; without a chord where the text has none. */
  public static Reading read(String text) {
    List<String> unread = new ArrayList<>();
    List<List<Placed>> bars = new ArrayList<>();
    String plain = text.strip().replaceAll("[\\r\\n]+", "|").replaceAll("[|‖]+:?|:[|‖]+", "|");
    for (String bar : plain.replaceAll("^\\|+|\\|+$", "").split("\\|", -1)) {
      String[] words = bar.strip().split("[\\s]+");
      if (words.length == 1 && words[0].equals("%")) {
        bars.add(bars.isEmpty() ? List.of() : bars.get(bars.size() - 1));
        continue;
      }
      List<Placed> chords = new ArrayList<>();
      for (int i = 0; i < words.length; i++) {
        if (words[i].isEmpty() || words[i].matches("[/.%-]")) {
          continue;
        }
        Optional<Chord> chord = ChordSymbolText.chord(words[i].replace(',', ' '));
        if (chord.isPresent()) {
          chords.add(new Placed(Fraction.of(i, words.length), chord.get()));
        } else {
          unread.add("'" + words[i] + "' in bar " + (bars.size() + 1));
        }
      }
      bars.add(chords);
    }
    return new Reading(new Changes(bars), List.copyOf(unread));
  }
}
