package phrasecensus.report.rows;

import java.util.List;
import phrasecensus.tables.row.FiguresRow;

/**
 * A recurring figure with the solos in which it is found.
 *
 * @param row how often it is found, and which place shows it
 * @param ofStudent solos of the student whose figure it is, in order of their ids; empty for a
 *     figure of the corpus
 * @param ofCorpus solos of the corpus, in order of their ids, the first {@link Figures#MOST_SOLOS}
 *     of them
 */
public record Figure(FiguresRow row, List<InSolo> ofStudent, List<InSolo> ofCorpus) {
  public Figure {
    ofStudent = List.copyOf(ofStudent);
    ofCorpus = List.copyOf(ofCorpus);
  }

  /**
   * Where it is found in a solo.
   *
   * @param places how many
   * @param firstNote its first note at the first of them
   * @param bars text of the bar of each of the first {@link Figures#MOST_PLACES}
   */
  public record InSolo(String soloId, int places, int firstNote, List<String> bars) {
    public InSolo {
      bars = List.copyOf(bars);
    }
  }
}
