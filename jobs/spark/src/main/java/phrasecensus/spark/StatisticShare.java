package phrasecensus.spark;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectOutputStream;
import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import phrasecensus.comparison.CorpusSolo;
import phrasecensus.comparison.StatisticValues;
import phrasecensus.music.norm.NormValue;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.MixDefinition;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * The values of some statistics in the solos of one part, packed: what goes through the one shuffle
 * there is, by which all values of a statistic meet in one task.
 */
final class StatisticShare implements Serializable {
  private static final long serialVersionUID = 1L;

  private static final Set<String> COMPARED =
      StatisticsCatalogue.builtIn().all().stream()
          .filter(StatisticDefinition::compared)
          .map(StatisticDefinition::key)
          .collect(Collectors.toUnmodifiableSet());

  private static final Map<String, String> MIXES = new HashMap<>();

  static {
    for (MixDefinition mix : StatisticsCatalogue.builtIn().mixes()) {
      mix.classes().forEach(share -> MIXES.put(share, mix.key()));
    }
  }

  private final PackedSolos packed;
  private transient List<Solo> solos;
  private final TreeMap<String, Values> ofSolos = new TreeMap<>();
  private final TreeMap<String, Details> detailsOfSolos = new TreeMap<>();
  private final TreeMap<String, PhraseValues> ofPhrases = new TreeMap<>();
  private final TreeMap<String, TreeMap<String, Values>> ofRules = new TreeMap<>();

  private StatisticShare(PackedSolos packed) {
    this.packed = packed;
  }

  private record Solo(
      String soloId, String player, double phrases, double tempo, List<String> groups) {}

  /**
   * The solos of a part. Each of its shares carries them, as many as there are tasks: so what solos
   * have in common is there once, and their names are in one piece.
   */
  private static final class PackedSolos implements Serializable {
    private static final long serialVersionUID = 1L;

    private final byte[] soloIds;
    private final int[] ends;
    private final String[] players;
    private final int[] playerOf;
    private final int[] phrases;
    private final double[] tempos;
    private final ArrayList<ArrayList<String>> groups;
    private final int[] groupsOf;

    PackedSolos(
        List<String> soloIds,
        List<String> players,
        int[] phrases,
        double[] tempos,
        List<ArrayList<String>> groups) {
      this.phrases = phrases;
      this.tempos = tempos;
      ByteArrayOutputStream names = new ByteArrayOutputStream();
      ends = new int[soloIds.size()];
      playerOf = new int[soloIds.size()];
      groupsOf = new int[soloIds.size()];
      Map<String, Integer> differentPlayers = new LinkedHashMap<>();
      Map<ArrayList<String>, Integer> differentGroups = new LinkedHashMap<>();
      for (int i = 0; i < soloIds.size(); i++) {
        names.writeBytes(soloIds.get(i).getBytes(StandardCharsets.UTF_8));
        ends[i] = names.size();
        playerOf[i] = place(players.get(i), differentPlayers);
        groupsOf[i] = place(groups.get(i), differentGroups);
      }
      this.soloIds = names.toByteArray();
      this.players = differentPlayers.keySet().toArray(String[]::new);
      this.groups = new ArrayList<>(differentGroups.keySet());
    }

    private static <T> int place(T value, Map<T, Integer> places) {
      return places.computeIfAbsent(value, any -> places.size());
    }

    List<Solo> unpacked() {
      List<List<String>> shared = groups.stream().map(List::copyOf).toList();
      List<Solo> solos = new ArrayList<>(ends.length);
      for (int i = 0, start = 0; i < ends.length; start = ends[i++]) {
        solos.add(
            new Solo(
                new String(soloIds, start, ends[i] - start, StandardCharsets.UTF_8),
                players[playerOf[i]],
                phrases[i],
                tempos[i],
                shared.get(groupsOf[i])));
      }
      return solos;
    }
  }

  /** Values with the places of their solos in the list of the share; NaN where undefined. */
  private static final class Values implements Serializable {
    private static final long serialVersionUID = 1L;

    private int[] solos = new int[16];
    private double[] values = new double[16];
    private int size;

    void add(int solo, double value) {
      if (size == values.length) {
        solos = Arrays.copyOf(solos, 2 * size);
        values = Arrays.copyOf(values, 2 * size);
      }
      solos[size] = solo;
      values[size++] = value;
    }

    private void writeObject(ObjectOutputStream out) throws IOException {
      solos = Arrays.copyOf(solos, size);
      values = Arrays.copyOf(values, size);
      out.defaultWriteObject();
    }
  }

  /** What the values of solos rest on, in the order of the values. */
  private static final class Details implements Serializable {
    private static final long serialVersionUID = 1L;

    private int[] counts = new int[16];
    private double[] odd = new double[16];
    private double[] even = new double[16];
    private int size;

    void add(int count, double oddValue, double evenValue) {
      if (size == counts.length) {
        resize(2 * size);
      }
      counts[size] = count;
      odd[size] = oddValue;
      even[size++] = evenValue;
    }

    private void resize(int length) {
      counts = Arrays.copyOf(counts, length);
      odd = Arrays.copyOf(odd, length);
      even = Arrays.copyOf(even, length);
    }

    private void writeObject(ObjectOutputStream out) throws IOException {
      resize(size);
      out.defaultWriteObject();
    }
  }

  /** Values of phrases, those of a solo together: how many each solo has, and all of them. */
  private static final class PhraseValues implements Serializable {
    private static final long serialVersionUID = 1L;

    private int[] solos = new int[16];
    private int[] counts = new int[16];
    private double[] values = new double[64];
    private int different;
    private int size;

    void add(int solo, double value) {
      if (different == 0 || solos[different - 1] != solo) {
        if (different == solos.length) {
          solos = Arrays.copyOf(solos, 2 * different);
          counts = Arrays.copyOf(counts, 2 * different);
        }
        solos[different++] = solo;
      }
      if (size == values.length) {
        values = Arrays.copyOf(values, 2 * size);
      }
      counts[different - 1]++;
      values[size++] = value;
    }

    private void writeObject(ObjectOutputStream out) throws IOException {
      solos = Arrays.copyOf(solos, different);
      counts = Arrays.copyOf(counts, different);
      values = Arrays.copyOf(values, size);
      out.defaultWriteObject();
    }
  }

  /**
   * Reads what a part holds, in as many shares as there are tasks to come: a statistic goes to the
   * share of its name's or its mix's place.
   *
   * @param by what groups the norms
   * @param ofPhrases statistics of which the values of phrases are wanted too
   * @param ofRules true if the values under further phrase rules are wanted too
   */
  static List<StatisticShare> of(
      TableParts.Part part, List<Grouping> by, Set<String> ofPhrases, boolean ofRules, int shares)
      throws IOException {
    boolean corpus = part.role().equals(InputFile.CORPUS);
    List<String> soloIds = new ArrayList<>();
    List<String> players = new ArrayList<>();
    List<Number> phrases = new ArrayList<>();
    List<Number> tempos = new ArrayList<>();
    List<ArrayList<String>> groups = new ArrayList<>();
    Map<String, Integer> places = new HashMap<>();
    try (GroupScan scan =
        GroupScan.open(part, by, "solo_id", "performer", "phrases", "tempo_qpm")) {
      for (GroupScan.Solo row = scan.next(); row != null; row = scan.next()) {
        phrases.add(row.number(2));
        tempos.add(row.number(3));
        places.put(row.text(0), soloIds.size());
        soloIds.add(row.text(0));
        players.add(row.text(1));
        groups.add(row.groups());
      }
    }
    PackedSolos solos =
        new PackedSolos(
            soloIds,
            players,
            phrases.stream().mapToInt(each -> each == null ? 0 : each.intValue()).toArray(),
            tempos.stream()
                .mapToDouble(each -> each == null ? Double.NaN : each.doubleValue())
                .toArray(),
            groups);
    List<StatisticShare> made = new ArrayList<>();
    for (int i = 0; i < shares; i++) {
      made.add(new StatisticShare(solos));
    }
    if (corpus) {
      try (ColumnScan scan =
          part.scan(
              "solo_statistics", "solo_id", "statistic", "value", "n", "odd_value", "even_value")) {
        for (Object[] row = scan.next(); row != null; row = scan.next()) {
          String statistic = (String) row[1];
          StatisticShare share = made.get(place(statistic, shares));
          int solo = places.get((String) row[0]);
          share
              .ofSolos
              .computeIfAbsent(statistic, key -> new Values())
              .add(solo, row[2] == null ? Double.NaN : (Double) row[2]);
          if (COMPARED.contains(statistic)) {
            share
                .detailsOfSolos
                .computeIfAbsent(statistic, key -> new Details())
                .add(((Number) row[3]).intValue(), number(row[4]), number(row[5]));
          }
        }
      }
    }
    if (corpus && ofRules) {
      try (ColumnScan scan =
          part.scan("rule_statistics", "solo_id", "statistic", "value", "rule")) {
        for (Object[] row = scan.next(); row != null; row = scan.next()) {
          String statistic = (String) row[1];
          made.get(place(statistic, shares))
              .ofRules
              .computeIfAbsent(statistic, key -> new TreeMap<>())
              .computeIfAbsent((String) row[3], rule -> new Values())
              .add(places.get((String) row[0]), row[2] == null ? Double.NaN : (Double) row[2]);
        }
      }
    }
    if (!ofPhrases.isEmpty()) {
      try (ColumnScan scan = part.scan("phrase_statistics", "solo_id", "statistic", "value")) {
        for (Object[] row = scan.next(); row != null; row = scan.next()) {
          String statistic = (String) row[1];
          if (row[2] != null && ofPhrases.contains(statistic)) {
            made.get(place(statistic, shares))
                .ofPhrases
                .computeIfAbsent(statistic, key -> new PhraseValues())
                .add(places.get((String) row[0]), (Double) row[2]);
          }
        }
      }
    }
    return made;
  }

  private static double number(Object value) {
    return value == null ? Double.NaN : ((Number) value).doubleValue();
  }

  private List<Solo> solos() {
    if (solos == null) {
      solos = packed.unpacked();
    }
    return solos;
  }

  /** The shares of a mix go to one place, so that the mix can be put together there. */
  private static int place(String statistic, int shares) {
    return Math.floorMod(MIXES.getOrDefault(statistic, statistic).hashCode(), shares);
  }

  /** The statistics of shares with the same place from every part. */
  static Set<String> statistics(List<StatisticShare> shares) {
    Set<String> statistics = new TreeSet<>();
    shares.forEach(share -> statistics.addAll(share.ofSolos.keySet()));
    return statistics;
  }

  /** Everything that such shares know of one statistic. */
  static StatisticValues values(String statistic, List<String> by, List<StatisticShare> shares) {
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn()
            .named(statistic)
            .orElseThrow(() -> new IllegalStateException("Unknown statistic: " + statistic));
    List<CorpusSolo> solos = new ArrayList<>();
    Map<String, double[]> phrases = new HashMap<>();
    TreeMap<String, List<CorpusSolo>> furtherRules = new TreeMap<>();
    for (StatisticShare share : shares) {
      Values ofSolos = share.ofSolos.get(statistic);
      if (ofSolos != null) {
        share.addTo(solos, ofSolos, share.detailsOfSolos.get(statistic));
      }
      share
          .ofRules
          .getOrDefault(statistic, new TreeMap<>())
          .forEach(
              (rule, ofRule) ->
                  share.addTo(
                      furtherRules.computeIfAbsent(rule, name -> new ArrayList<>()), ofRule, null));
      PhraseValues ofPhrases = share.ofPhrases.get(statistic);
      if (ofPhrases != null) {
        for (int i = 0, start = 0; i < ofPhrases.different; i++) {
          int end = start + ofPhrases.counts[i];
          double[] sorted = Arrays.copyOfRange(ofPhrases.values, start, end);
          Arrays.sort(sorted);
          phrases.put(share.solos().get(ofPhrases.solos[i]).soloId(), sorted);
          start = end;
        }
      }
    }
    return new StatisticValues(definition, by, solos, phrases, furtherRules);
  }

  /** Lets go of what such shares know of one statistic. */
  static void forget(String statistic, List<StatisticShare> shares) {
    for (StatisticShare share : shares) {
      share.ofSolos.remove(statistic);
      share.detailsOfSolos.remove(statistic);
      share.ofPhrases.remove(statistic);
      share.ofRules.remove(statistic);
    }
  }

  /** The details may be null, as for statistics that are not compared. */
  private void addTo(List<CorpusSolo> list, Values values, Details details) {
    for (int i = 0; i < values.size; i++) {
      Solo solo = solos().get(values.solos[i]);
      Double value = Double.isNaN(values.values[i]) ? null : (Double) values.values[i];
      list.add(
          new CorpusSolo(
              solo.soloId(),
              new NormValue(solo.player(), value),
              solo.groups(),
              details == null
                  ? CorpusSolo.Basis.UNKNOWN
                  : new CorpusSolo.Basis(
                      details.counts[i],
                      solo.phrases(),
                      solo.tempo(),
                      details.odd[i],
                      details.even[i])));
    }
  }
}
