package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class ProblemKindsTest {
  @Test
  void eachKindIsToldOnceWithItsFirstBarsTheWorstFirst() {
    ProblemKinds kinds = new ProblemKinds();
    kinds.add("white", 4, "P1", "1", "white space", "taken away");
    for (int bar = 1; bar <= 7; bar++) {
      kinds.add("tie", 2, "P1", String.valueOf(bar), "a tie at bar " + bar, "kept apart");
      kinds.add("tie", 2, "P1", String.valueOf(bar), "another", "kept apart");
    }
    kinds.add("chord", 2, "P1", "3", "a chord", "unknown");
    kinds.add("none", 1, "P1", "", "no notes", "no line");

    assertThat(kinds.worstFirst())
        .containsExactly(
            new ProblemKinds.Kind("none", 1, 1, "P1", List.of(), false, "no notes", "no line"),
            new ProblemKinds.Kind(
                "tie",
                2,
                14,
                "P1",
                List.of("1", "2", "3", "4", "5"),
                true,
                "a tie at bar 1",
                "kept apart"),
            new ProblemKinds.Kind("chord", 2, 1, "P1", List.of("3"), false, "a chord", "unknown"),
            new ProblemKinds.Kind(
                "white", 4, 1, "P1", List.of("1"), false, "white space", "taken away"));
  }
}
