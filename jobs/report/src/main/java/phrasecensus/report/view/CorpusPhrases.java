package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.report.lesson.ExampleChoice;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.StudyRows;

/**
 * Solos of the corpus in which lesson sheets look for examples: an even sample of a large corpus,
 * all of a small one, read once when the first sheet asks.
 */
final class CorpusPhrases {
  /** Solos that are searched. */
  private static final int MOST_SOLOS = 40;

  private final StudyRows rows;
  private List<ExampleChoice.CorpusSolo> solos;

  CorpusPhrases(StudyRows rows) {
    this.rows = rows;
  }

  /** The solos, in order of their paths; empty without a corpus. */
  synchronized List<ExampleChoice.CorpusSolo> solos() {
    if (solos == null) {
      List<ExampleChoice.CorpusSolo> read = new ArrayList<>();
      if (rows.solosIn(Group.ALL) > 0) {
        Set<String> ids = new TreeSet<>(rows.spread(Map.of(Group.ALL, MOST_SOLOS)));
        rows.prepareLines(ids);
        for (String id : ids) {
          SoloLine line = rows.corpusLine(id);
          if (!line.notes().isEmpty() && !line.bars().isEmpty()) {
            rows.corpusSolo(id)
                .ifPresent(
                    facts -> read.add(new ExampleChoice.CorpusSolo(facts, LessonLine.of(line))));
          }
        }
      }
      solos = List.copyOf(read);
    }
    return solos;
  }
}
