package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputException;
import phrasecensus.tables.TableRow;

/** What is to be said of bands of numbers once it is known which solos lie in them. */
public final class Bands {
  private Bands() {}

  /**
   * Sentences on bands without solos and on solos without a band.
   *
   * @param norms rows of table norms
   * @throws InputException where no solo has a number in a column that is to be divided into bands
   */
  public static List<String> remarks(List<Grouping> by, List<TableRow> norms) {
    List<String> remarks = new ArrayList<>();
    for (Grouping grouping : by) {
      if (grouping.parts().size() > 1 || !grouping.parts().get(0).isBanded()) {
        continue;
      }
      Map<String, Integer> solos = new TreeMap<>();
      for (TableRow row : norms) {
        if (row.text("group_by").equals(grouping.name())) {
          solos.put(row.text("group_value"), row.integer("n") + row.integer("undefined"));
        }
      }
      remarks.addAll(remarks(grouping.parts().get(0), solos));
    }
    return remarks;
  }

  private static List<String> remarks(Grouping.Part part, Map<String, Integer> solos) {
    int none = solos.getOrDefault(Grouping.NO_VALUE, 0);
    int words = solos.getOrDefault(Grouping.NO_NUMBER, 0);
    int outside = solos.getOrDefault(Grouping.OUTSIDE, 0);
    int all = solos.values().stream().mapToInt(Integer::intValue).sum();
    if (none + words == all) {
      throw new InputException(
          "Cannot group by bands of '"
              + part.column()
              + "': none of the "
              + all
              + " corpus solos has a number there. Group by the column itself, or fill it with"
              + " numbers such as 120 or 1956.");
    }
    List<String> remarks = new ArrayList<>();
    for (String band : part.bands()) {
      if (!solos.containsKey(band)) {
        remarks.add("No corpus solo lies in the band " + band + " of '" + part.column() + "'.");
      }
    }
    if (words > 0) {
      remarks.add(
          words
              + " of "
              + all
              + " corpus solos have no number but something else in '"
              + part.column()
              + "' and lie in no band; their group is "
              + Grouping.NO_NUMBER
              + ".");
    }
    if (outside > 0) {
      remarks.add(
          outside
              + " of "
              + all
              + " corpus solos lie outside the bands of '"
              + part.column()
              + "'; their group is "
              + Grouping.OUTSIDE
              + ".");
    }
    return remarks;
  }
}
