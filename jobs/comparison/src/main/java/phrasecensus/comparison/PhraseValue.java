package phrasecensus.comparison;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.norm.PhraseSetting;

/**
 * The value of one statistic in one phrase.
 *
 * @param place the phrase
 * @param value never NaN
 * @param n what it was computed from
 */
public record PhraseValue(Place place, double value, int n) implements Serializable {

  public String soloId() {
    return place.soloId;
  }

  /**
   * A phrase and its circumstances; values that Spark can send.
   *
   * @param notes number of its notes
   * @param tempo null when not known
   * @param lengthBars null in free metre
   */
  public record Place(
      String soloId,
      int index,
      int notes,
      Double tempo,
      Double lengthBars,
      ArrayList<String> qualities)
      implements Serializable {
    public static Place of(
        String soloId,
        int index,
        int notes,
        Double tempo,
        Double lengthBars,
        List<String> qualities) {
      return new Place(soloId, index, notes, tempo, lengthBars, new ArrayList<>(qualities));
    }

    PhraseSetting setting() {
      return new PhraseSetting(tempo, lengthBars, qualities);
    }
  }
}
