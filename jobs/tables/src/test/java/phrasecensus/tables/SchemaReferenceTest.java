package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class SchemaReferenceTest {
  private static final Path PAGE =
      Path.of(System.getProperty("project.root"), "schemas", "README.md");

  @Test
  void thePageIsThatOfTheSchemas() throws IOException {
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(PAGE, SchemaReference.markdown());
    }

    assertThat(PAGE)
        .as("stale: run mvn test -pl jobs/tables -Dgolden.update=true and look at the difference")
        .hasContent(SchemaReference.markdown());
  }
}
