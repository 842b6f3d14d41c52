package phrasecensus.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.report.sheet.SheetChoice;
import phrasecensus.report.sheet.SheetRequest;
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
    assertThat(CORPUS.passed("phrases")).isEqualTo(COPIES * phrases);
    // Once more for the names of files that are the same, until enough are found.
    int files = SOLOS + 2 * COPIES;
    assertThat(CORPUS.passed("files")).isBetween(files, 2 * files);
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
  void aSheetIsChosenWithoutHoldingTheCorpus() {
    SheetRequest request =
        new SheetRequest(
            StatisticsCatalogue.builtIn().named("phrase_length_bars").orElseThrow(),
            null,
            null,
            List.of(),
            "style",
            "night ferry",
            8);
    PassingCorpus large = new PassingCorpus(STUDY.tables(), COPIES);
    SheetChoice.Chosen ofMany = SheetChoice.of(large, request);
    SheetChoice.Chosen ofFew = SheetChoice.of(new PassingCorpus(STUDY.tables(), 1), request);
    assertThat(ofMany.phrases()).hasSize(8);
    assertThat(ofMany.phrases().get(0)).isEqualTo(ofFew.phrases().get(0));
    assertThat(ofMany.fitting()).isEqualTo(COPIES * ofFew.fitting());
    // Rows of the last solo may still be in a variable.
    assertThat(large.mostHeld()).isLessThan(60);
  }

  @Test
  void theCorpusPageCountsWhatWentBy() {
    assertThat(PAGE)
        .contains("2,400\u00a0corpus solos", "8\u00a0named players")
        .contains("2,492\u00a0files, 80 of them not read");
  }
}
