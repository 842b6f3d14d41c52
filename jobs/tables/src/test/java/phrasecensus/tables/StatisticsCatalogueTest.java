package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class StatisticsCatalogueTest {
  private final StatisticsCatalogue catalogue = StatisticsCatalogue.builtIn();

  @Test
  void everyEntryIsFilledIn() {
    for (StatisticDefinition d : catalogue.all()) {
      assertThat(
              new String[] {
                d.name(),
                d.meaning(),
                d.formula(),
                d.unit(),
                d.range(),
                d.aggregation(),
                d.undefined(),
                d.n(),
                d.source(),
                d.higher(),
                d.lower()
              })
          .as(d.key())
          .doesNotContainNull()
          .allMatch(text -> !text.isBlank());
      assertThat(Set.of("harmony", "movement", "phrasing", "line")).contains(d.facet());
      assertThat(d.levels()).as(d.key()).isNotEmpty().isSubsetOf("phrase", "solo");
    }
  }

  @Test
  void everyFacetHasComparedStatistics() {
    assertThat(
            catalogue.all().stream()
                .filter(StatisticDefinition::compared)
                .collect(Collectors.groupingBy(StatisticDefinition::facet, Collectors.counting())))
        .hasSize(4)
        .allSatisfy((facet, count) -> assertThat(count).isGreaterThanOrEqualTo(3));
  }

  @Test
  void comparedStatisticsHaveASoloLevel() {
    assertThat(catalogue.all())
        .filteredOn(StatisticDefinition::compared)
        .allMatch(d -> d.levels().contains("solo"));
  }

  @Test
  void comparedStatisticsAndNoOthersHaveAScale() {
    assertThat(catalogue.all())
        .allMatch(d -> d.compared() == (d.scale() != null))
        .filteredOn(StatisticDefinition::compared)
        .allMatch(d -> Set.of("share", "log", "root", "plain").contains(d.scale()))
        // What a share is of is counted, so that its scale is the one for counts.
        .allMatch(d -> !d.unit().equals("share") || d.scale().equals("share"));
  }

  @Test
  void keysAreSnakeCase() {
    assertThat(catalogue.all())
        .extracting(StatisticDefinition::key)
        .allMatch(key -> key.matches("[a-z][a-z0-9]*(_[a-z0-9]+)*"));
  }
}
