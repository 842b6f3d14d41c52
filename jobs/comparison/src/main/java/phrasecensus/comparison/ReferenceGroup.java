package phrasecensus.comparison;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import phrasecensus.music.comparison.OtherGroups;
import phrasecensus.music.comparison.PredictiveMixture;
import phrasecensus.tables.Grouping;

/**
 * The group that a student's solo is held against first: the solo's own in the column that the
 * study names, else in the first that it groups by, where that has solos enough, else the whole
 * corpus. Enough are eleven solos, or six beside other groups that say how solos vary, or three of
 * one player. A narrower group tells no more: what a player of it does is predicted no better by
 * it. A group is never chosen by how like the student it is: that would hide departures.
 *
 * @param by name of the grouping
 * @param value the group
 * @param reason why it is this one
 */
record ReferenceGroup(String by, String value, Reason reason) {
  /** Why a group is the one of reference. */
  enum Reason {
    /** The study names the column. */
    NAMED,
    /** It is of the first column that the study groups by. */
    FIRST_COLUMN,
    /** The study names the whole corpus. */
    WHOLE_NAMED,
    /** The study groups by nothing. */
    NO_GROUPS,
    /** No group of the column is that of this solo, or of all these solos. */
    NOT_IN_A_GROUP,
    /** The solo's group has too few solos. */
    GROUP_TOO_SMALL;

    String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * @param by the study's groupings, in its order
   * @param named name of the grouping that the study asks for, or {@code all}; empty for none
   * @param groups every group of the corpus
   */
  static ReferenceGroup of(
      Student student, List<Grouping> by, String named, List<CorpusGroup> groups) {
    if (named.equals(CorpusGroup.ALL)) {
      return whole(Reason.WHOLE_NAMED);
    }
    if (named.isEmpty() && by.isEmpty()) {
      return whole(Reason.NO_GROUPS);
    }
    String column = named.isEmpty() ? by.get(0).name() : named;
    Optional<CorpusGroup> own =
        groups.stream()
            .filter(group -> group.by().equals(column) && group.isFor(student))
            .findFirst();
    if (own.isEmpty()) {
      return whole(Reason.NOT_IN_A_GROUP);
    }
    return isEnough(own.get(), groups)
        ? new ReferenceGroup(
            column, own.get().value(), named.isEmpty() ? Reason.FIRST_COLUMN : Reason.NAMED)
        : whole(Reason.GROUP_TOO_SMALL);
  }

  /** True when it is this group. */
  boolean is(CorpusGroup group) {
    return by.equals(group.by()) && value.equals(group.value());
  }

  private static ReferenceGroup whole(Reason reason) {
    return new ReferenceGroup(CorpusGroup.ALL, CorpusGroup.ALL, reason);
  }

  private static boolean isEnough(CorpusGroup group, List<CorpusGroup> groups) {
    int solos = group.solos().size();
    if (solos >= PredictiveMixture.LEAST_SOLOS_ALONE || group.isOnePlayer()) {
      return solos >= PredictiveMixture.LEAST_SOLOS_OF_ONE;
    }
    int freedom = 0;
    for (CorpusGroup other : groups) {
      if (other.by().equals(group.by())
          && !other.value().equals(group.value())
          && !Grouping.isLeftover(other.value())
          && other.solos().size() >= OtherGroups.LEAST_SOLOS) {
        freedom += other.solos().size() - 1;
      }
    }
    return solos >= OtherGroups.LEAST_SOLOS && freedom >= OtherGroups.LEAST_FREEDOM;
  }
}
