package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Chooses a clef for every bar: the file's own where it has one that suits, else treble or bass by
 * the range, with as few changes as lines outside the staff allow. Finds the cheapest row of clefs
 * by dynamic programming; the weights are our own.
 */
final class ClefChoice {
  /** A change is worth it when it saves many lines outside the staff. */
  private static final double CHANGE = 60;

  /** What it costs to leave the clef of the file, a bar. */
  private static final double NOT_THE_FILES = 4;

  /** A clef that only a file may ask for. */
  private static final double NEVER = 1e6;

  /** What an unusual clef costs where the file does not ask for one, a bar. */
  private static final double UNUSUAL = 12;

  private ClefChoice() {}

  static List<Clef> of(List<WrittenBar> bars) {
    List<Map<Clef, Clef>> ways = new ArrayList<>();
    Map<Clef, Double> costs = new EnumMap<>(Clef.class);
    for (Clef clef : Clef.values()) {
      costs.put(clef, 0.0);
    }
    Clef fileBefore = null;
    for (WrittenBar bar : bars) {
      Clef file =
          bar.bar().staff().clef() == null
              ? null
              : Clef.named(bar.bar().staff().clef()).orElse(null);
      // Where the file changes its clef, so may we.
      double change = file != fileBefore ? 0 : CHANGE;
      Map<Clef, Clef> way = new EnumMap<>(Clef.class);
      Map<Clef, Double> next = new EnumMap<>(Clef.class);
      for (Clef clef : Clef.values()) {
        Clef best = clef;
        double least = costs.get(clef);
        for (Clef from : Clef.values()) {
          if (costs.get(from) + change < least) {
            least = costs.get(from) + change;
            best = from;
          }
        }
        way.put(clef, best);
        next.put(clef, least + cost(bar, clef, file));
      }
      ways.add(way);
      costs = next;
      fileBefore = file;
    }
    Clef at = Clef.TREBLE;
    for (Clef clef : Clef.values()) {
      at = costs.get(clef) < costs.get(at) ? clef : at;
    }
    List<Clef> chosen = new ArrayList<>();
    for (int i = bars.size() - 1; i >= 0; i--) {
      chosen.add(0, at);
      at = ways.get(i).get(at);
    }
    return chosen;
  }

  private static double cost(WrittenBar bar, Clef clef, Clef file) {
    double cost = 0;
    if (clef != file) {
      cost += file == null ? 0 : NOT_THE_FILES;
      // A tenor line at concert pitch may stand in the treble clef with an eight below.
      cost +=
          switch (clef) {
            case TREBLE, BASS -> 0;
            case TREBLE_OCTAVE_DOWN -> UNUSUAL;
            case TREBLE_OCTAVE_UP, ALTO, TENOR, BASS_OCTAVE_DOWN -> NEVER;
          };
    }
    for (WrittenBar.Sign sign : bar.signs()) {
      if (!sign.isRest() && sign.begins()) {
        cost += clef.cost(sign.pitch());
      }
    }
    return cost;
  }
}
