package phrasecensus.comparison;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.CorpusContrast;
import phrasecensus.music.comparison.CorpusModel;
import phrasecensus.music.comparison.GroupComparison;
import phrasecensus.music.comparison.HalvedSolo;
import phrasecensus.music.comparison.Reliability;
import phrasecensus.music.comparison.ShippedFigures;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.music.comparison.TempoRemoval;

/**
 * One statistic of the corpus as students are compared with it: each model is made once, when it is
 * first asked for. For one thread.
 */
final class ComparisonModels {
  private final ShippedFigures shipped;
  private final List<CorpusSolo> solos;
  private final List<String> columns;
  private final Map<Key, CorpusModel> models = new HashMap<>();
  private final Map<GroupKey, GroupComparison> groups = new HashMap<>();
  private Optional<Reliability> ownReliability;

  private record Key(int column, Set<String> without, boolean tempoTakenOut) {}

  private record GroupKey(Key model, String value) {}

  /**
   * @param statistic key of a compared statistic
   * @param solos every solo of the corpus, in order of solo_id
   * @param columns names of the groupings, in the order of the solos' group values
   */
  ComparisonModels(String statistic, List<CorpusSolo> solos, List<String> columns) {
    this.shipped =
        ShippedTable.builtIn()
            .of(statistic)
            .orElseThrow(
                () -> new IllegalStateException("No shipped figures of statistic: " + statistic));
    this.solos = solos;
    this.columns = List.copyOf(columns);
  }

  /**
   * What a student is held against.
   *
   * @param group by name of the grouping and value
   * @param student the student's solos that are compared; those of the corpus that are the
   *     student's own are left out
   * @param own solos of the corpus that are left out
   */
  GroupComparison group(CorpusGroup group, List<ComparedSolo> student, Set<String> own) {
    Key key = key(group, student, own);
    return groups.computeIfAbsent(
        new GroupKey(key, value(group) == null ? "" : group.value()),
        any -> value(group) == null ? model(key).whole() : model(key).group(group.value()));
  }

  /**
   * Two groups of one column beside each other; tempo is taken out where it is known of both.
   *
   * @param by name of the grouping
   */
  Optional<CorpusContrast> contrast(String by, String first, String second) {
    int column = columns.indexOf(by);
    CorpusModel model = model(new Key(column, Set.of(), true));
    if (!model.knowsTempoOf(first) || !model.knowsTempoOf(second)) {
      model = model(new Key(column, Set.of(), false));
    }
    return model.contrast(first, second, Resampling.SEED);
  }

  /** Values of the group's solos as they would be at the student's tempo. */
  double[] valuesAt(CorpusGroup group, List<ComparedSolo> student, Set<String> own, double shift) {
    return model(key(group, student, own)).valuesAt(value(group), shift);
  }

  /** Phrases that make a value half reliable, by the study's own solos where they are enough. */
  double phrasesForHalf() {
    return reliability().map(Reliability::phrasesForHalf).orElse(shipped.phrasesForHalf());
  }

  /** True where the study's own solos are enough to tell reliability. */
  boolean isReliabilityOfStudy() {
    return reliability().isPresent();
  }

  /** Every solo of the corpus as it is compared, with its group of the first grouping. */
  List<ComparedSolo> compared() {
    return solos.stream().map(solo -> solo.compared(firstColumn())).toList();
  }

  /** What takes tempo out, by the whole corpus grouped by the first grouping. */
  TempoRemoval tempoRemoval() {
    return model(new Key(firstColumn(), Set.of(), true)).tempoRemoval();
  }

  private int firstColumn() {
    return columns.isEmpty() ? -1 : 0;
  }

  private Optional<Reliability> reliability() {
    if (ownReliability == null) {
      int column = firstColumn();
      List<HalvedSolo> halved =
          solos.stream()
              .map(solo -> solo.halved(column))
              .filter(each -> !Double.isNaN(each.solo().on(shipped.scale())))
              .toList();
      ownReliability = model(new Key(column, Set.of(), true)).reliability(halved);
    }
    return ownReliability;
  }

  private Key key(CorpusGroup group, List<ComparedSolo> student, Set<String> own) {
    int column = value(group) == null ? (columns.isEmpty() ? -1 : 0) : columns.indexOf(group.by());
    Set<String> without = new TreeSet<>(own);
    boolean known =
        student.stream()
            .filter(solo -> !Double.isNaN(solo.on(shipped.scale())))
            .allMatch(ComparedSolo::hasTempo);
    Key key = new Key(column, without, known);
    if (!known) {
      return key;
    }
    CorpusModel model = model(key);
    boolean knowsTempo =
        value(group) == null ? model.knowsTempo() : model.knowsTempoOf(group.value());
    return knowsTempo ? key : new Key(column, without, false);
  }

  /** Null for the whole corpus. */
  private static String value(CorpusGroup group) {
    return group.by().equals(CorpusGroup.ALL) ? null : group.value();
  }

  private CorpusModel model(Key key) {
    return models.computeIfAbsent(
        key,
        any ->
            CorpusModel.of(
                shipped,
                solos.stream()
                    .filter(solo -> !key.without.contains(solo.soloId()))
                    .map(solo -> solo.compared(key.column))
                    .toList(),
                key.tempoTakenOut));
  }
}
