package phrasecensus.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.StatisticsCatalogue;

/** What the report keeps of a corpus is what a page shows of it, however large the corpus is. */
class LargeCorpusTest {
  private static final int COPIES = 40;
  private static final int SOLOS = 60 * COPIES;
  private static final InventedStudy STUDY = InventedStudy.usual();
  private static final PassingCorpus CORPUS = new PassingCorpus(STUDY.tables(), COPIES);
  private static final StudyReport.Warm REPORT =
      StudyReport.warm(
          CORPUS, STUDY.manifest(), StatisticsCatalogue.builtIn(), ReportSettings.usual());
  private static final String PAGE = REPORT.corpusPage();

  @Test
  void everyRowOfTheCorpusGoesByAndNoneIsHeld() {
    int phrases = STUDY.tables().rows("phrases", Map.of("role", "corpus")).size();
    assertThat(CORPUS.passed("solos")).isGreaterThanOrEqualTo(SOLOS);
    assertThat(CORPUS.passed("phrases")).isGreaterThanOrEqualTo(COPIES * phrases);
    assertThat(CORPUS.passed("files")).isEqualTo(SOLOS + 2 * COPIES);
    // The last row of a stream may still be in a variable.
    assertThat(CORPUS.mostHeld()).isLessThanOrEqualTo(2);
  }

  @Test
  void namesOfMostSolosAreForgotten() {
    for (int i = 0; i < REPORT.students(); i++) {
      assertThat(REPORT.studentPage(i)).isNotEmpty();
    }
    assertThat(CORPUS.namesHeld()).isLessThan(SOLOS / 3);
    assertThat(REPORT.students()).isEqualTo(3);
  }

  @Test
  void theCorpusPageCountsWhatWentBy() {
    assertThat(PAGE)
        .contains("2,400\u00a0corpus solos", "8\u00a0named players")
        .contains("2,492\u00a0files, 80 of them not read");
  }
}
