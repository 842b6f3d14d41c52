package phrasecensus.spark;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.norm.NormLevel;
import phrasecensus.tables.Grouping;

/**
 * The group that a student's solo is held against first.
 *
 * <p>The study names the grouping; otherwise it is the narrowest group of the solo with enough
 * solos: the one made by most columns, of several the first in the study's list. Enough are eleven
 * solos, the fewest with a middle half, by three players. Where no group will do it is the whole
 * corpus. A group is never chosen by how like the student it is: that would hide departures.
 *
 * @param by name of the grouping
 * @param value the group
 * @param reason why it is this one, in words
 */
record ReferenceGroup(String by, String value, String reason) {
  private static final String WHOLE_CORPUS = "the whole corpus";

  /**
   * @param by the study's groupings, in its order
   * @param named name of the grouping that the study asks for, or {@code all}; empty for none
   * @param groups every group of the corpus
   */
  static ReferenceGroup of(
      Student student, List<Grouping> by, String named, List<CorpusGroup> groups) {
    if (named.equals(NormsJob.ALL)) {
      return whole("the study names " + WHOLE_CORPUS);
    }
    List<CorpusGroup> own =
        groups.stream()
            .filter(group -> !group.by().equals(NormsJob.ALL) && group.isFor(student))
            .toList();
    if (!named.isEmpty()) {
      Optional<CorpusGroup> asked =
          own.stream().filter(group -> group.by().equals(named)).findFirst();
      if (asked.isEmpty()) {
        return whole(
            "the study names "
                + named
                + ", but no group of it is that of "
                + (student.scope().equals(Student.POOLED) ? "all these solos" : "this solo")
                + ": "
                + WHOLE_CORPUS);
      }
      return isEnough(asked.get())
          ? of(asked.get(), "the study names " + named)
          : whole(
              "the study names "
                  + named
                  + ", but its group "
                  + asked.get().value()
                  + " has only "
                  + size(asked.get())
                  + ": "
                  + WHOLE_CORPUS);
    }
    List<String> order = by.stream().map(Grouping::name).toList();
    return own.stream()
        .filter(ReferenceGroup::isEnough)
        .min(
            Comparator.comparingInt(
                    (CorpusGroup group) ->
                        -by.get(order.indexOf(group.by())).columns().size())
                .thenComparingInt(group -> order.indexOf(group.by())))
        .map(group -> of(group, "the narrowest group with enough solos: " + size(group)))
        .orElseGet(
            () ->
                whole(
                    own.isEmpty()
                        ? WHOLE_CORPUS
                        : "no narrower group has eleven solos by three players: " + WHOLE_CORPUS));
  }

  /** True when it is this group. */
  boolean is(CorpusGroup group) {
    return by.equals(group.by()) && value.equals(group.value());
  }

  private static ReferenceGroup of(CorpusGroup group, String reason) {
    return new ReferenceGroup(group.by(), group.value(), reason);
  }

  private static ReferenceGroup whole(String reason) {
    return new ReferenceGroup(NormsJob.ALL, NormsJob.ALL, reason);
  }

  private static boolean isEnough(CorpusGroup group) {
    return NormLevel.of(group.solos().size()).reaches(NormLevel.QUARTILES)
        && group.players() >= Norm.LEAST_PLAYERS;
  }

  private static String size(CorpusGroup group) {
    return counted(group.solos().size(), "solo") + " by " + counted(group.players(), "player");
  }

  private static String counted(int count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }
}
