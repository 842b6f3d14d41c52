package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.CorpusModel;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.music.comparison.TempoRemoval;
import phrasecensus.music.likeness.PlacedSolo;

/** The solos of a corpus over all compared statistics together. */
public final class PlacedCorpus {
  private PlacedCorpus() {}

  /** The solos in order of solo_id; those without any compared value are left out. */
  public static List<PlacedSolo> of(CorpusStatistics corpus) {
    Map<String, PlacedSolo> solos = new TreeMap<>();
    List<String> statistics = new ArrayList<>(corpus.solos().keySet());
    for (int k = 0; k < statistics.size(); k++) {
      List<ComparedSolo> values = corpus.whole(statistics.get(k));
      TempoRemoval tempo =
          CorpusModel.of(ShippedTable.builtIn().of(statistics.get(k)).orElseThrow(), values, true)
              .tempoRemoval();
      for (ComparedSolo value : values) {
        double place = tempo.place(value);
        if (!Double.isNaN(place)) {
          solos.computeIfAbsent(value.soloId(), id -> placed(value, statistics.size()))
                  .places()[k] =
              place;
        }
      }
    }
    return List.copyOf(solos.values());
  }

  private static PlacedSolo placed(ComparedSolo solo, int statistics) {
    double[] places = new double[statistics];
    Arrays.fill(places, Double.NaN);
    return new PlacedSolo(solo.soloId(), solo.player(), solo.group(), places);
  }
}
