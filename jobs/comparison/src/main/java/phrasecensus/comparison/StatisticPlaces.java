package phrasecensus.comparison;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.TempoRemoval;
import phrasecensus.music.likeness.LikenessSpace;
import phrasecensus.music.likeness.PlacedSolo;

/**
 * Where solos of the corpus lie in one statistic, on its scale, tempo taken out: what tells how
 * like solos are. Of corpora of more than {@value #MOST_SOLOS} solos some players are taken, with
 * all their solos; a covariance is not better known by more.
 *
 * @param statistic key
 * @param tempo what places any further solo
 * @param soloIds the solos, in order of solo_id; the same for every statistic of a study
 * @param players of them; empty where not known
 * @param groups of them in the study's first grouping; empty where they have none
 * @param places of them; NaN where undefined
 */
public record StatisticPlaces(
    String statistic,
    TempoRemoval tempo,
    ArrayList<String> soloIds,
    ArrayList<String> players,
    ArrayList<String> groups,
    double[] places)
    implements Serializable {
  static final int MOST_SOLOS = 2_000;

  static StatisticPlaces of(String statistic, ComparisonModels models) {
    TempoRemoval tempo = models.tempoRemoval();
    List<ComparedSolo> solos = some(models.compared());
    StatisticPlaces made =
        new StatisticPlaces(
            statistic,
            tempo,
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            solos.stream().mapToDouble(tempo::place).toArray());
    for (ComparedSolo solo : solos) {
      made.soloIds.add(solo.soloId());
      made.players.add(solo.player());
      made.groups.add(solo.group());
    }
    return made;
  }

  /** Players in an order that has nothing to do with their names, until there are solos enough. */
  private static List<ComparedSolo> some(List<ComparedSolo> solos) {
    if (solos.size() <= MOST_SOLOS) {
      return solos;
    }
    TreeMap<Long, List<ComparedSolo>> dealt = new TreeMap<>();
    for (ComparedSolo solo : solos) {
      String name = solo.player().isEmpty() ? "\0" + solo.soloId() : solo.player();
      dealt.computeIfAbsent(dealt(name), number -> new ArrayList<>()).add(solo);
    }
    List<ComparedSolo> some = new ArrayList<>();
    for (List<ComparedSolo> player : dealt.values()) {
      if (some.size() < MOST_SOLOS) {
        some.addAll(player);
      }
    }
    some.sort(Comparator.comparing(ComparedSolo::soloId));
    return some;
  }

  private static long dealt(String name) {
    long number = 0;
    for (int i = 0; i < name.length(); i++) {
      number = number * 31 + name.charAt(i);
    }
    // The finalizer of SplitMix64, so that names that differ in one letter lie far apart.
    number = (number ^ number >>> 30) * 0xbf58476d1ce4e5b9L;
    number = (number ^ number >>> 27) * 0x94d049bb133111ebL;
    return number ^ number >>> 31;
  }

  /** Places of every solo of the corpus that has one. */
  static Map<String, Double> bySolo(ComparisonModels models) {
    TempoRemoval tempo = models.tempoRemoval();
    Map<String, Double> places = new HashMap<>();
    for (ComparedSolo solo : models.compared()) {
      double place = tempo.place(solo);
      if (!Double.isNaN(place)) {
        places.put(solo.soloId(), place);
      }
    }
    return places;
  }

  /** The space of solos over all statistics; null where too few differ. */
  public static LikenessSpace space(List<StatisticPlaces> statistics) {
    if (statistics.isEmpty()) {
      return null;
    }
    StatisticPlaces first = statistics.get(0);
    List<PlacedSolo> solos = new ArrayList<>();
    for (int i = 0; i < first.places.length; i++) {
      double[] places = new double[statistics.size()];
      for (int k = 0; k < places.length; k++) {
        places[k] = statistics.get(k).places[i];
      }
      if (!Arrays.stream(places).allMatch(Double::isNaN)) {
        solos.add(
            new PlacedSolo(
                first.soloIds.get(i), first.players.get(i), first.groups.get(i), places));
      }
    }
    return LikenessSpace.of(solos).orElse(null);
  }

  /** The statistic alone, which places further solos. */
  public StatisticPlaces withoutSolos() {
    return new StatisticPlaces(
        statistic, tempo, new ArrayList<>(), new ArrayList<>(), new ArrayList<>(), new double[0]);
  }

  /** The place of a student's solo in every statistic. */
  public static double[] of(Student solo, List<StatisticPlaces> statistics, String grouping) {
    return statistics.stream()
        .mapToDouble(
            each ->
                each.tempo.place(
                    solo.compared(each.statistic, solo.groups().getOrDefault(grouping, ""))))
        .toArray();
  }
}
