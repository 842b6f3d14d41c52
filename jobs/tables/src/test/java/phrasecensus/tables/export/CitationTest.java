package phrasecensus.tables.export;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Publication;
import phrasecensus.tables.YamlText;

/**
 * How a data set is cited, held against the keys of the Citation File Format 1.2.0 (Druskat et al.
 * 2021) and of the Data Package standard 2.0 (Open Knowledge Foundation 2024).
 */
class CitationTest {
  private static final Publication PUBLICATION =
      new Publication(
          List.of(
              new Publication.Author("Lark", "Ada", "", "0000-0002-1825-0097"),
              new Publication.Author("The Harbour Group: \"North\"", "", "", "")),
          "1.2",
          "2026-03-14",
          "10.1234/abcd",
          "CC-BY-4.0");
  private static final Manifest.Study STUDY =
      new Manifest.Study(
          "x",
          "Two decades: a #study",
          "",
          new DataSource("Open Solos", "CC0-1.0", "A. Editor 2020", "https://example.org/solos"),
          PUBLICATION);

  private JsonNode citation;
  private JsonNode dataPackage;

  @BeforeEach
  void read() throws Exception {
    citation = YamlText.root("citation", Citation.ofData(STUDY, "0.1.0"));
    dataPackage =
        new ObjectMapper()
            .readTree(
                DataPackage.json(
                    new Manifest(
                        "Phrase Census 0.1.0",
                        STUDY,
                        Map.of(),
                        List.of(),
                        new Manifest.Report(true, false),
                        List.of(),
                        List.of(),
                        1,
                        Map.of()),
                    List.of()));
  }

  @Test
  void theDataSetIsCitedByItsAuthorsTitleVersionAndDoi() {
    assertThat(citation.path("type").asText()).isEqualTo("dataset");
    assertThat(citation.path("title").asText()).isEqualTo("Two decades: a #study");
    assertThat(citation.path("version").asText()).isEqualTo("1.2");
    assertThat(citation.path("doi").asText()).isEqualTo("10.1234/abcd");
    assertThat(citation.path("date-released").asText()).isEqualTo("2026-03-14");
    assertThat(citation.path("license").asText()).isEqualTo("CC-BY-4.0");
  }

  @Test
  void aPersonHasTwoNamesAndAGroupHasOne() {
    JsonNode authors = citation.path("authors");
    assertThat(authors.path(0).path("family-names").asText()).isEqualTo("Lark");
    assertThat(authors.path(0).path("orcid").asText())
        .isEqualTo("https://orcid.org/0000-0002-1825-0097");
    assertThat(authors.path(1).path("name").asText()).isEqualTo("The Harbour Group: \"North\"");
  }

  @Test
  void theDataAndTheProgramAreReferredTo() {
    assertThat(citation.path("references").findValuesAsText("title"))
        .containsExactly("Open Solos", "Phrase Census");
    assertThat(citation.path("references"))
        .allSatisfy(each -> assertThat(each.path("authors").size()).isPositive());
  }

  @Test
  void thePackageNamesItsContributorsAndItsOwnLicence() {
    assertThat(dataPackage.path("id").asText()).isEqualTo("https://doi.org/10.1234/abcd");
    assertThat(dataPackage.path("created").asText()).isEqualTo("2026-03-14T00:00:00Z");
    assertThat(dataPackage.path("contributors").path(0).path("familyName").asText())
        .isEqualTo("Lark");
    assertThat(dataPackage.path("contributors").path(1).path("title").asText())
        .isEqualTo("The Harbour Group: \"North\"");
    assertThat(dataPackage.path("licenses").findValuesAsText("name")).containsExactly("CC-BY-4.0");
  }
}
