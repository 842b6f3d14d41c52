package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FileNamePatternTest {
  private static final FileNamePattern USUAL = FileNamePattern.of(FileNamePattern.USUAL);

  @Test
  void readsStudentDateAndTitle() {
    assertThat(USUAL.match("ada_2026-05-01_blues.musicxml"))
        .isEqualTo(
            new FileNamePattern.Match(
                Map.of("student", "ada", "date", "2026-05-01", "title", "blues"), null));
  }

  @Test
  void titleMayHoldTheSeparatorAgain() {
    assertThat(USUAL.match("ada_20260501_all_of_the-ferry.mxl").values())
        .containsEntry("date", "2026-05-01")
        .containsEntry("title", "all of the ferry");
  }

  @Test
  void folderOfTheStudentStandsForTheStudent() {
    assertThat(USUAL.match("Ada/2026-05-01_blues.musicxml").values())
        .containsOnly(Map.entry("date", "2026-05-01"), Map.entry("title", "blues"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "student-01.musicxml",
        "my solo.musicxml",
        "pim-garrow/2025-09-13-lampwick-lane.musicxml",
        "eleven_wet_steps.xml"
      })
  void nameOfAnotherKindSaysNothing(String file) {
    assertThat(USUAL.match(file)).isEqualTo(new FileNamePattern.Match(Map.of(), null));
  }

  @Test
  void dateThatIsNoDayIsSaid() {
    assertThat(USUAL.match("ada_2026-13-45_blues.musicxml").remark())
        .isEqualTo(
            "The file name 'ada_2026-13-45_blues.musicxml' fits the pattern"
                + " {student}_{date}_{title} by half: '2026-13-45' is no day of the calendar."
                + " Nothing is taken from it; rename the file or say it in the metadata.");
  }

  @Test
  void dateInAnotherFormIsSaid() {
    assertThat(USUAL.match("ada_1.5.2026_blues.musicxml").remark())
        .contains("'1.5.2026' is no date as 2026-05-01");
  }

  @Test
  void missingTitleIsSaid() {
    assertThat(USUAL.match("ada_2026-05-01.musicxml").remark())
        .contains("it has a date, and not all of student, date, title");
  }

  @Test
  void studyCanSetAnother() {
    FileNamePattern pattern = FileNamePattern.of("{date} {student} - {title}");

    assertThat(pattern.match("2026-05-01 Ada Lark - Slow Blues.musicxml").values())
        .containsOnly(
            Map.entry("date", "2026-05-01"),
            Map.entry("student", "Ada Lark"),
            Map.entry("title", "Slow Blues"));
    assertThat(FileNamePattern.of("none").match("ada_2026-05-01_blues.musicxml").values())
        .isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"{name}_{date}", "{date}_{date}", "{student}{date}", "solo"})
  void patternThatTellsNothingApartIsRefused(String pattern) {
    assertThatThrownBy(() -> FileNamePattern.of(pattern))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
