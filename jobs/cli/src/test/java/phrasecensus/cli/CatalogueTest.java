package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.music.statistic.StatisticKeys;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/** Code and catalogue list the same statistics in the same order. */
class CatalogueTest {
  @Test
  void phraseStatisticsAreThoseOfTheCatalogue() {
    assertThat(StatisticKeys.phraseLevel())
        .containsExactlyElementsOf(
            StatisticsCatalogue.builtIn().ofLevel("phrase").stream()
                .map(StatisticDefinition::key)
                .toList());
  }

  @Test
  void soloStatisticsAreThoseOfTheCatalogue() {
    assertThat(StatisticKeys.soloLevel())
        .containsExactlyElementsOf(
            StatisticsCatalogue.builtIn().ofLevel("solo").stream()
                .map(StatisticDefinition::key)
                .toList());
  }

  /** Without them a study could not be compared in that statistic. */
  @Test
  void everyComparedStatisticHasShippedFiguresOnItsScale() {
    assertThat(
            ShippedTable.builtIn().all().stream()
                .map(figures -> figures.statistic() + " " + figures.scale().key()))
        .containsExactlyElementsOf(
            StatisticsCatalogue.builtIn().all().stream()
                .filter(StatisticDefinition::compared)
                .map(definition -> definition.key() + " " + definition.scale())
                .toList());
  }
}
