package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * One statistic of a corpus whose solos one column sorts into groups: values on their scale, what
 * tempo makes of them taken out, and the sums of every group. From it follows what a student is
 * held against: one of the groups, the others standing by, or the whole corpus.
 *
 * <p>Solos without a value are left out of everything but the range of tempo. A solo without a
 * tempo takes the weighted mean of its group. Where tempo is taken out, a group of which no tempo
 * is known says nothing of slopes and of other groups.
 */
public final class CorpusModel {
  /** How many solos of the corpus the shipped slopes count for. */
  public static final double SHIPPED_WEIGHT = 40;

  private final ShippedFigures shipped;
  private final double[] prior;
  private final List<ComparedSolo> solos;
  private final TempoScale tempoScale;
  private final double[] residual;
  private final double[] relative;
  private final double[] u;
  private final double[] uu;
  private final TempoSlopes slopes;
  private final boolean tempoTakenOut;
  private final TreeMap<String, int[]> places = new TreeMap<>();
  private final Set<String> withoutTempo = new HashSet<>();
  private final Map<String, OtherGroups.Group> groups = new HashMap<>();
  private final Map<String, double[]> tempoOfGroup = new TreeMap<>();
  private double[] tempoOfCorpus = new double[2];

  private CorpusModel(
      ShippedFigures shipped, Collection<ComparedSolo> corpus, boolean takeTempoOut) {
    this.shipped = shipped;
    this.prior = Correlation.prior(shipped.correlationMean());
    this.tempoScale =
        shipped.tempoScale().holding(corpus.stream().mapToDouble(ComparedSolo::tempo).toArray());
    this.solos = corpus.stream().filter(solo -> !Double.isNaN(solo.on(shipped.scale()))).toList();
    int n = solos.size();
    this.residual = new double[n];
    this.relative = new double[n];
    this.u = new double[n];
    this.uu = new double[n];
    Map<String, List<Integer>> members = new LinkedHashMap<>();
    for (int i = 0; i < n; i++) {
      residual[i] = solos.get(i).on(shipped.scale());
      relative[i] = RelativeVariance.of(shipped.noise(), solos.get(i).count());
      members.computeIfAbsent(solos.get(i).group(), value -> new ArrayList<>()).add(i);
    }
    members.forEach(
        (value, all) -> places.put(value, all.stream().mapToInt(Integer::intValue).toArray()));
    boolean anyTempo = setTempos();
    this.tempoTakenOut = takeTempoOut && anyTempo;
    this.slopes = tempoTakenOut ? slopesOfGroups() : TempoSlopes.NONE;
    if (tempoTakenOut) {
      for (int i = 0; i < n; i++) {
        residual[i] -= slopes.at(u[i], uu[i]);
      }
    }
  }

  /**
   * @param shipped what is known of the statistic beforehand
   * @param corpus every solo of the corpus, those without a value too; without the student's own
   * @param takeTempoOut false to leave slopes at 0, as for a student of whose tempo nothing is
   *     known
   */
  public static CorpusModel of(
      ShippedFigures shipped, Collection<ComparedSolo> corpus, boolean takeTempoOut) {
    return new CorpusModel(shipped, corpus, takeTempoOut);
  }

  /** Places every solo by its tempo, or where it has none by its group's; false if none has any. */
  private boolean setTempos() {
    double[] all = new double[3];
    places.forEach(
        (value, members) -> {
          double[] own = new double[3];
          for (int i : members) {
            if (solos.get(i).hasTempo()) {
              u[i] = tempoScale.doublings(solos.get(i).tempo());
              uu[i] = u[i] * u[i];
              double w = 1 / relative[i];
              own[0] += w;
              own[1] += w * u[i];
              own[2] += w * uu[i];
            }
          }
          if (own[0] == 0) {
            withoutTempo.add(value);
            return;
          }
          for (int k = 0; k < own.length; k++) {
            all[k] += own[k];
          }
          double[] mean = {own[1] / own[0], own[2] / own[0]};
          tempoOfGroup.put(value, mean);
          for (int i : members) {
            if (!solos.get(i).hasTempo()) {
              u[i] = mean[0];
              uu[i] = mean[1];
            }
          }
        });
    if (all[0] > 0) {
      tempoOfCorpus = new double[] {all[1] / all[0], all[2] / all[0]};
    }
    for (String value : withoutTempo) {
      for (int i : places.get(value)) {
        u[i] = tempoOfCorpus[0];
        uu[i] = tempoOfCorpus[1];
      }
    }
    return all[0] > 0;
  }

  private TempoSlopes slopesOfGroups() {
    int[] kept =
        places.entrySet().stream()
            .filter(group -> !withoutTempo.contains(group.getKey()))
            .flatMapToInt(group -> Arrays.stream(group.getValue()))
            .sorted()
            .toArray();
    Map<String, Integer> codes = new HashMap<>();
    int[] group = new int[kept.length];
    for (int i = 0; i < kept.length; i++) {
      group[i] = codes.computeIfAbsent(solos.get(kept[i]).group(), value -> codes.size());
    }
    return TempoSlopes.sums(
            at(residual, kept), at(u, kept), at(uu, kept), group, codes.size(), at(relative, kept))
        .drawnToward(shipped.tempo(), SHIPPED_WEIGHT);
  }

  private static double[] at(double[] figures, int[] places) {
    return Arrays.stream(places).mapToDouble(i -> figures[i]).toArray();
  }

  private OtherGroups.Group group(int[] members) {
    return new OtherGroups.Group(at(residual, members), players(members), at(relative, members));
  }

  private int[] players(int[] members) {
    Map<String, Integer> codes = new HashMap<>();
    int[] players = new int[members.length];
    int next = 0;
    for (int i = 0; i < members.length; i++) {
      String name = solos.get(members[i]).player();
      Integer known = name.isEmpty() ? null : codes.get(name);
      if (known == null) {
        known = next++;
        if (!name.isEmpty()) {
          codes.put(name, known);
        }
      }
      players[i] = known;
    }
    return players;
  }

  private OtherGroups others(String value) {
    List<OtherGroups.Group> others = new ArrayList<>();
    places.forEach(
        (other, members) -> {
          if (!other.equals(value)
              && !other.isEmpty()
              && !(tempoTakenOut && withoutTempo.contains(other))) {
            others.add(groups.computeIfAbsent(other, name -> group(members)));
          }
        });
    return OtherGroups.of(others, prior);
  }

  /** One group of the column, with what the others say. */
  public GroupComparison group(String value) {
    int[] members = places.getOrDefault(value, new int[0]);
    return compared(members, others(value), vary(members) || othersVary(value));
  }

  /**
   * Some solos of a group; all others of the group say nothing but how the statistic goes with
   * tempo.
   *
   * @param value the group
   * @param soloIds which of its solos
   */
  public GroupComparison sample(String value, Set<String> soloIds) {
    int[] members =
        Arrays.stream(places.getOrDefault(value, new int[0]))
            .filter(i -> soloIds.contains(solos.get(i).soloId()))
            .toArray();
    return compared(members, others(value), vary(members) || othersVary(value));
  }

  /** The whole corpus as one group; nobody stands by. */
  public GroupComparison whole() {
    int[] all = new int[solos.size()];
    Arrays.setAll(all, i -> i);
    return compared(all, OtherGroups.SILENT, vary(all));
  }

  /**
   * Two groups of the column beside each other.
   *
   * @param first value of one group
   * @param second value of the other
   * @param seed of the study
   * @return empty where a group has too few solos with a value or nothing varies
   */
  public Optional<CorpusContrast> contrast(String first, String second, long seed) {
    int[] firsts = places.getOrDefault(first, new int[0]);
    int[] members =
        IntStream.concat(
                Arrays.stream(firsts), Arrays.stream(places.getOrDefault(second, new int[0])))
            .toArray();
    if (!vary(members)) {
      return Optional.empty();
    }
    boolean[] inFirst = new boolean[members.length];
    Arrays.fill(inFirst, 0, firsts.length, true);
    OtherGroups.Group both = group(members);
    double weights = 0;
    double meanU = 0;
    double meanUu = 0;
    double inverse = 0;
    for (int i : members) {
      weights += 1 / relative[i];
      meanU += u[i] / relative[i];
      meanUu += uu[i] / relative[i];
      inverse += 1 / solos.get(i).n();
    }
    double shift = slopes.at(meanU / weights, meanUu / weights);
    double harmonicN = members.length / inverse;
    return GroupContrast.of(
            both.values(), inFirst, both.player(), both.variance(), prior, unnamed(members), seed)
        .map(
            contrast ->
                new CorpusContrast(contrast, shipped.scale(), tempoTakenOut, shift, harmonicN));
  }

  /**
   * True where the statistic differs between some of these solos. On the scale even equal values
   * differ, by their n and by what tempo takes out: that says nothing of how solos vary.
   */
  private boolean vary(int[] members) {
    return Arrays.stream(members)
        .anyMatch(i -> solos.get(i).value() != solos.get(members[0]).value());
  }

  /** True where it differs between solos of one of the groups that stand by this one. */
  private boolean othersVary(String value) {
    return places.entrySet().stream()
        .anyMatch(
            other ->
                !other.getKey().equals(value)
                    && !other.getKey().isEmpty()
                    && other.getValue().length >= OtherGroups.LEAST_SOLOS
                    && vary(other.getValue()));
  }

  /**
   * @param varied false where neither this group nor another tells how solos vary: nothing is
   *     tested then
   */
  private GroupComparison compared(int[] members, OtherGroups others, boolean varied) {
    OtherGroups.Group group = group(members);
    boolean onePlayer =
        members.length > 0
            && !solos.get(members[0]).player().isEmpty()
            && Arrays.stream(group.player()).allMatch(player -> player == 0);
    Optional<PredictiveMixture> mixture =
        !varied
            ? Optional.empty()
            : onePlayer
                ? PredictiveMixture.ofOnePlayer(group.values(), group.variance(), others)
                : PredictiveMixture.of(
                    group.values(), group.player(), group.variance(), prior, others);
    int players = Arrays.stream(group.player()).max().orElse(-1) + 1;
    return new GroupComparison(
        shipped,
        tempoScale,
        slopes,
        tempoTakenOut,
        others,
        mixture,
        onePlayer,
        members.length,
        players,
        unnamed(members),
        members.length == 0 ? Double.NaN : mean(group.variance()),
        group.values(),
        weights(group, players));
  }

  private int unnamed(int[] members) {
    return (int) Arrays.stream(members).filter(i -> solos.get(i).player().isEmpty()).count();
  }

  private static double[] weights(OtherGroups.Group group, int players) {
    double[] omega = new double[players];
    for (int i = 0; i < group.player().length; i++) {
      omega[group.player()[i]] += 1 / group.variance()[i];
    }
    return omega;
  }

  private static double mean(double[] figures) {
    return Arrays.stream(figures).average().orElseThrow();
  }

  /**
   * The values of solos as they would be at another tempo, each with the n that it has.
   *
   * @param value a group; null for the whole corpus
   * @param shift what that tempo adds on the scale, see {@link StudentComparison#shift}
   */
  public double[] valuesAt(String value, double shift) {
    int[] members = new int[solos.size()];
    Arrays.setAll(members, i -> i);
    if (value != null) {
      members = places.getOrDefault(value, new int[0]);
    }
    return Arrays.stream(members)
        .mapToDouble(i -> shipped.scale().backward(residual[i] + shift, solos.get(i).n()))
        .toArray();
  }

  /**
   * Reliability by these solos themselves; empty where fewer than {@value Reliability#LEAST_SOLOS}
   * have halves, or their halves do not differ.
   *
   * @param halved solos of this corpus with a value on the scale
   */
  public Optional<Reliability> reliability(List<HalvedSolo> halved) {
    List<Reliability.Halves> halves =
        HalvedSolo.on(
            shipped.scale(),
            halved,
            solo -> {
              if (!tempoTakenOut || !solo.hasTempo()) {
                return 0;
              }
              double doublings = tempoScale.doublings(solo.tempo());
              return slopes.at(doublings, doublings * doublings);
            });
    if (halves.size() < Reliability.LEAST_SOLOS) {
      return Optional.empty();
    }
    Reliability reliability = Reliability.of(halves);
    return reliability.phraseVariance() > 0 ? Optional.of(reliability) : Optional.empty();
  }

  /** What takes tempo out of any solo, of this corpus or not. */
  public TempoRemoval tempoRemoval() {
    Map<String, Double> ofGroup = new TreeMap<>();
    tempoOfGroup.forEach((value, mean) -> ofGroup.put(value, slopes.at(mean[0], mean[1])));
    return new TempoRemoval(
        shipped.scale(),
        tempoScale,
        slopes,
        ofGroup,
        slopes.at(tempoOfCorpus[0], tempoOfCorpus[1]));
  }

  /** True where tempo was taken out: it is asked for, and a tempo is known. */
  public boolean isTempoTakenOut() {
    return tempoTakenOut;
  }

  /** True where some solo of the group has a tempo and a value. */
  public boolean knowsTempoOf(String value) {
    return places.containsKey(value) && !withoutTempo.contains(value);
  }

  /** True where some solo has a tempo and a value. */
  public boolean knowsTempo() {
    return withoutTempo.size() < places.size();
  }

  public TempoSlopes slopes() {
    return slopes;
  }

  /** Standard deviation of a group's values on their scale, tempo left in; NaN below two. */
  public double deviation(String value) {
    int[] members = places.getOrDefault(value, new int[0]);
    double mean = Arrays.stream(members).mapToDouble(this::onScale).average().orElse(Double.NaN);
    double squares =
        Arrays.stream(members).mapToDouble(i -> (onScale(i) - mean) * (onScale(i) - mean)).sum();
    return members.length < 2 ? Double.NaN : Math.sqrt(squares / (members.length - 1));
  }

  private double onScale(int place) {
    return solos.get(place).on(shipped.scale());
  }
}
