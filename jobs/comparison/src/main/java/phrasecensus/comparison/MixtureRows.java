package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import phrasecensus.music.comparison.RelativeVariance;
import phrasecensus.music.norm.JensenShannon;
import phrasecensus.music.norm.PercentileRank;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.MixDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code mixtures}. */
final class MixtureRows {
  private MixtureRows() {}

  /**
   * The classes of one mix of a student beside a group; none when the student has too few phrases
   * or no such mix, or the group has no solo with one.
   *
   * @param solos the student's solos one by one: the one itself, or all that are pooled
   */
  static List<TableRow> of(
      MixDefinition mix, GroupMix group, Student student, List<Student> solos) {
    double[] own = mean(mix, solos);
    if (own == null || group.solos() == 0 || student.phrases() < RelativeVariance.LEAST_COUNT) {
      return List.of();
    }
    double[] usual = group.mean();
    JensenShannon divergence = JensenShannon.of(own, usual);
    List<Integer> order =
        IntStream.range(0, own.length)
            .boxed()
            .sorted(Comparator.comparingDouble((Integer i) -> -divergence.contributions().get(i)))
            .toList();
    Sample distances = group.distances();
    boolean alone = student.scope().equals(Student.SOLO);
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < own.length; i++) {
      rows.add(
          TableRow.of(TableSchemas.named("mixtures"))
              .set("student", student.student())
              .set("scope", student.scope())
              .set("solo_id", student.soloId())
              .set("group_by", group.by())
              .set("group_value", group.value())
              .set("mix", mix.key())
              .set("class", mix.classes().get(i))
              .set("solos", group.solos())
              .set("student_share", own[i])
              .set("group_share", usual[i])
              .set("contribution", divergence.contributions().get(i))
              .set("rank", order.indexOf(i) + 1)
              .set("distance", divergence.distance())
              .set("usual_distance", distances.isEmpty() ? null : (Double) distances.median())
              .set(
                  "percentile_rank",
                  distances.isEmpty() || !alone
                      ? null
                      : (Double) PercentileRank.of(distances, divergence.distance()).percent())
              .build());
    }
    return rows;
  }

  /** The mean of the shares over the solos that have the mix; null when none has. */
  private static double[] mean(MixDefinition mix, List<Student> solos) {
    double[] mean = new double[mix.classes().size()];
    int n = 0;
    for (Student solo : solos) {
      if (solo.values().keySet().containsAll(mix.classes())) {
        n++;
        for (int i = 0; i < mean.length; i++) {
          mean[i] += solo.values().get(mix.classes().get(i));
        }
      }
    }
    double sum = 0;
    for (int i = 0; i < mean.length; i++) {
      mean[i] /= Math.max(1, n);
      sum += mean[i];
    }
    return sum > 0 ? mean : null;
  }
}
