package phrasecensus.music.likeness;

import java.util.ArrayList;
import java.util.List;

/** Twenty-four invented solos by six players in six statistics, the same on every machine. */
final class InventedCorpus {
  private static final int STATISTICS = 6;
  private long state = 20240229;

  private InventedCorpus() {}

  static List<PlacedSolo> solos() {
    return new InventedCorpus().made();
  }

  private List<PlacedSolo> made() {
    List<PlacedSolo> solos = new ArrayList<>();
    for (int player = 0; player < 6; player++) {
      double[] home = new double[STATISTICS];
      for (int k = 0; k < STATISTICS; k++) {
        home[k] = 2 * next() - 1;
      }
      for (int i = 0; i < 3 + player % 3; i++) {
        double common = next() - .5;
        double[] places = new double[STATISTICS];
        for (int k = 0; k < STATISTICS; k++) {
          places[k] = home[k] * 1.2 + (next() - .5) * 1.5 + common * (k % 2);
        }
        solos.add(new PlacedSolo("solo-" + solos.size(), "player " + player, "", places));
      }
    }
    solos.get(4).places()[2] = Double.NaN;
    solos.get(7).places()[0] = Double.NaN;
    return solos;
  }

  private double next() {
    state = (state * 1103515245L + 12345) % 2147483648L;
    return state / 2147483648.0;
  }
}
