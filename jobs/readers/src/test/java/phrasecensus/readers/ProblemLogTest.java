package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class ProblemLogTest {
  @Test
  void aFrequentKindDoesNotHideAWorseOne() {
    ProblemLog log = new ProblemLog();
    for (int bar = 0; bar < 3000; bar++) {
      log.add("P1", String.valueOf(bar), "tie-without-stop", "a tie", "joined");
    }
    log.add("P1", "9", "bar-length", "a long bar", "as long as its content");

    List<Problem> problems = log.problems();

    assertThat(problems).hasSize(ProblemLog.MOST + 2);
    assertThat(problems).extracting(Problem::code).contains("bar-length", "more-problems");
    assertThat(problems.get(problems.size() - 1).found()).contains("{tie-without-stop=2000}");
  }

  @Test
  void whatIsToldOncePerFileIsToldOnce() {
    ProblemLog log = new ProblemLog();
    log.addFirst("P1", "1", "durations-rounded", "a note", "by its type");
    log.addFirst("P2", "7", "durations-rounded", "another note", "by its type");

    assertThat(log.problems()).hasSize(1);
  }
}
