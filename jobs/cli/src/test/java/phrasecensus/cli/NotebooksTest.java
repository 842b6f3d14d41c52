package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is committed of the notebooks; the full check executes them. */
class NotebooksTest {
  private static final Path FOLDER =
      Path.of(System.getProperty("project.root"), "notebooks-export");

  static List<Path> notebooks() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.filter(file -> file.toString().endsWith(".ipynb")).sorted().toList();
    }
  }

  @Test
  void sevenQuestionsAreAsked() throws IOException {
    assertThat(notebooks()).hasSize(7);
  }

  @ParameterizedTest
  @MethodSource("notebooks")
  void aNotebookIsOfFormatFourAndHoldsNoOutput(Path notebook) throws IOException {
    JsonNode json = new ObjectMapper().readTree(notebook.toFile());

    assertThat(json.path("nbformat").intValue()).isEqualTo(4);
    for (JsonNode cell : json.path("cells")) {
      assertThat(cell.path("id").asText()).isNotEmpty();
      if (cell.path("cell_type").asText().equals("code")) {
        assertThat(cell.path("outputs")).isEmpty();
        assertThat(cell.path("execution_count").isNull()).isTrue();
      }
    }
  }

  @ParameterizedTest
  @MethodSource("notebooks")
  void aNotebookStatesItsQuestionAndChecksNumbers(Path notebook) throws IOException {
    JsonNode cells = new ObjectMapper().readTree(notebook.toFile()).path("cells");
    String text = Files.readString(notebook);

    assertThat(cells.get(0).path("cell_type").asText()).isEqualTo("markdown");
    assertThat(cells.get(0).path("source").get(0).asText())
        .startsWith("# " + notebook.getFileName().toString().charAt(0) + ". ");
    assertThat(text).contains("same(", "pyplot.show()");
  }

  @Test
  void theReadmeShowsEveryQueryAsItIs() throws IOException {
    Path readme = FOLDER.resolve("README.md");
    String start = "```sql\n";
    String queries = Files.readString(FOLDER.resolve("queries.sql"));
    String text = Files.readString(readme);
    int from = text.indexOf(start) + start.length();
    int to = text.indexOf("```", from);
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(readme, text.substring(0, from) + queries + text.substring(to));
      text = Files.readString(readme);
      to = text.indexOf("```", from);
    }

    assertThat(text.substring(from, to))
        .as("stale: run mvn test -pl jobs/cli -am -Dtest=NotebooksTest -Dgolden.update=true")
        .isEqualTo(queries);
  }
}
