package phrasecensus.report.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import phrasecensus.report.rows.Student;
import phrasecensus.report.wording.Numbers;

class NamesTest {
  @Test
  void slugsAreLettersDigitsAndHyphens() {
    assertThat(Names.slug("Zo\u00eb  \u00d8stergaard!")).isEqualTo("zoe-stergaard");
    assertThat(Names.slug("../../etc")).isEqualTo("etc");
    assertThat(Names.slug("\u5f35")).isEqualTo("unnamed");
    assertThat(Names.slug("x".repeat(300))).hasSize(48);
  }

  @Test
  void studentsWithTheSameSlugGetPagesOfTheirOwn() {
    Student one =
        new Student("A b", List.of(), List.of(), List.of(), List.of(), List.of(), List.of());
    Student other =
        new Student("a-b", List.of(), List.of(), List.of(), List.of(), List.of(), List.of());

    Names names = new Names(List.of(one, other), false, new Numbers(Locale.ENGLISH));

    assertThat(names.page(one)).isEqualTo("student-a-b.html");
    assertThat(names.page(other)).isEqualTo("student-a-b-2.html");
  }
}
