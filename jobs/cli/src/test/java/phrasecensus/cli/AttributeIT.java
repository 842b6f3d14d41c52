package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;

class AttributeIT {
  @TempDir private Path temporary;

  /** .33 of 167 solos was asked for where guessing finds .025 and the commonest player .05. */
  @Test
  void aThirdOfTheSolosOfKnownPlayersAreGivenToTheirOwn() {
    String study = FolderBytes.copy(RealSolosStudy.folder(), temporary.resolve("study")).toString();
    Map<String, ?> before = tables(study);

    CommandRun run = CommandRun.of("attribute", study);

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    try (StudyFolder folder = StudyFolder.finished(study, StudyFolder.configuration())) {
      List<TableRow> players =
          folder.source().rows("attributions", Map.of("attributed_by", "performer"));
      List<TableRow> styles =
          folder.source().rows("attributions", Map.of("attributed_by", "style"));
      assertThat(players).hasSizeGreaterThanOrEqualTo(167);
      // .33 of 167 is 55.
      assertThat(players.stream().filter(row -> row.flag("right")).count())
          .isGreaterThanOrEqualTo(55);
      assertThat(right(players)).as("of %d", players.size()).isGreaterThanOrEqualTo(.33);
      assertThat(right(styles)).isGreaterThan(.36);
      assertThat(players).allMatch(row -> row.integer("solos_left_out") == 1);
    }
    assertThat(run.out())
        .contains("performer: ", "style: ", "by chance 0.02")
        .doesNotContain("NaN");
    Map<String, Object> after = new TreeMap<>(tables(study));
    assertThat(after.remove("attributions")).isNotNull();
    assertThat(after).isEqualTo(before);
  }

  private static Map<String, ?> tables(String study) {
    try (StudyFolder folder = StudyFolder.finished(study, StudyFolder.configuration())) {
      return folder.manifest().tables();
    }
  }

  private static double right(List<TableRow> rows) {
    return (double) rows.stream().filter(row -> row.flag("right")).count() / rows.size();
  }

  @Test
  void aCorpusWithoutKnownPlayersIsTold() {
    String study = temporary.resolve("unknown").toString();
    Path corpus = SampleCorpus.FOLDER.resolve("students/hester-loom");
    assertThat(CommandRun.of("study", corpus.toString(), "--into", study).exitCode())
        .isEqualTo(ExitCode.DONE);

    CommandRun run = CommandRun.of("attribute", study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err()).contains("Cannot give solos of", "'performer'");
  }
}
