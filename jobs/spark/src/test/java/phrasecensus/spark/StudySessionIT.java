package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.InputException;

class StudySessionIT {
  /** Spark's own setting for its tests: what memory it believes there is, in bytes. */
  private static final String MEMORY = "spark.testing.memory";

  @AfterEach
  void believeInAllMemoryAgain() {
    System.clearProperty(MEMORY);
  }

  @Test
  void tooLittleMemoryIsSaidWithWhatToDo() {
    System.setProperty(MEMORY, Long.toString(300L << 20));
    assertThatThrownBy(StudySession::open)
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot start: Java may use ")
        .hasMessageEndingWith("Spark asks for 450. Start with JAVA_OPTS=-Xmx512m or more.");
  }
}
