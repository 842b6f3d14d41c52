package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import phrasecensus.music.norm.Cluster;
import phrasecensus.music.norm.ClusterBootstrap;
import phrasecensus.music.norm.Interval;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.norm.NormValue;
import phrasecensus.music.norm.Norms;

/** One statistic in one group of the corpus. */
public final class CorpusGroup {
  /** The group that holds the whole corpus, and the grouping that makes it. */
  public static final String ALL = "all";

  private final String by;
  private final String value;
  private final List<CorpusSolo> solos;
  private final Norm norm;

  /**
   * @param by name of the grouping that makes the group
   * @param value what its solos have in common
   * @param solos in order of solo_id, so that sums over them round alike however they were read
   */
  CorpusGroup(String by, String value, List<CorpusSolo> solos) {
    this.by = by;
    this.value = value;
    this.solos = List.copyOf(solos);
    this.norm = Norms.of(normValues());
  }

  String by() {
    return by;
  }

  String value() {
    return value;
  }

  /** True when the student is held against this group. */
  boolean isFor(Student student) {
    return by.equals(ALL) || value.equals(student.groups().get(by));
  }

  /** The group without some solos; itself when it has none of them. */
  CorpusGroup without(Set<String> soloIds) {
    List<CorpusSolo> others =
        soloIds.isEmpty()
            ? solos
            : solos.stream().filter(solo -> !soloIds.contains(solo.soloId())).toList();
    return others.size() == solos.size() ? this : new CorpusGroup(by, value, others);
  }

  /** How many players the solos of the group have, those without a value too. */
  int players() {
    return (int) solos.stream().map(CorpusSolo::player).distinct().count();
  }

  /** Players of the solos with a value, those without a name one by one. */
  public int units() {
    int unnamed = 0;
    Set<String> named = new HashSet<>();
    for (CorpusSolo solo : solos) {
      if (solo.value() != null) {
        if (solo.player().equals(NormValue.UNKNOWN_PLAYER)) {
          unnamed++;
        } else {
          named.add(solo.player());
        }
      }
    }
    return named.size() + unnamed;
  }

  /** True where all solos are by one player whose name is known. */
  boolean isOnePlayer() {
    return players() == 1 && !solos.get(0).player().equals(NormValue.UNKNOWN_PLAYER);
  }

  public List<CorpusSolo> solos() {
    return solos;
  }

  Norm norm() {
    return norm;
  }

  private List<NormValue> normValues() {
    return solos.stream().map(CorpusSolo::normValue).toList();
  }

  /** The interval of the mean over solos; empty when they are too few. */
  Optional<Interval> meanInterval() {
    List<Cluster> clusters = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    for (CorpusSolo solo : solos) {
      if (solo.value() != null) {
        clusters.add(new Cluster("", solo.player(), solo.soloId()));
        values.add(solo.value());
      }
    }
    return clusters.size() < ClusterBootstrap.LEAST_SOLOS
        ? Optional.empty()
        : ClusterBootstrap.of(clusters, Resampling.SEED)
            .meanInterval(values.stream().mapToDouble(each -> each).toArray());
  }

  /**
   * The values of all phrases, one array for each solo that has any.
   *
   * @param bySolo values of phrases by solo_id
   */
  List<double[]> phrasesBySolo(Map<String, double[]> bySolo) {
    return solos.stream()
        .map(solo -> bySolo.get(solo.soloId()))
        .filter(values -> values != null && values.length > 0)
        .toList();
  }
}
