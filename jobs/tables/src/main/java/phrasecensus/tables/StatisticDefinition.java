package phrasecensus.tables;

import java.util.List;
import java.util.Optional;

/**
 * One entry of the statistics catalogue.
 *
 * @param key stable name in tables
 * @param name name in words
 * @param meaning what it means to a player, one sentence
 * @param formula how it is computed
 * @param unit unit in words, as in {@code bars} or {@code share}
 * @param range values it can take
 * @param facet harmony, movement, phrasing or line
 * @param levels where it is computed: phrase, solo or both
 * @param ingredient for a statistic that no phrase has a value of: the statistic of phrases that
 *     makes it visible; null where there is none
 * @param aggregation how a solo's value comes about
 * @param undefined when it has no value
 * @param n what the n beside a value counts
 * @param counted the same in one word: {@code notes}, {@code landings}, {@code phrases}, {@code
 *     stretches}, {@code bars}, {@code changes}, {@code intervals}, {@code gaps} or {@code windows}
 * @param source publication, or 'common practice, no source'
 * @param headline true where a headline question rests on it
 * @param compared true where a student's value is compared with the norm
 * @param scale the scale on which it is compared: share, log, root or plain; null where it is not
 * @param higher what a higher value is called, as in {@code longer phrases}
 * @param lower what a lower value is called
 * @param complement of a share whose lower side is called more of something else, the name of the
 *     rest of the whole, as in {@code notes on the beat}; null for any other
 * @param decimals decimals in print
 * @param percent true where it is printed as a percentage
 */
public record StatisticDefinition(
    String key,
    String name,
    String meaning,
    String formula,
    String unit,
    String range,
    String facet,
    List<String> levels,
    Ingredient ingredient,
    String aggregation,
    String undefined,
    String n,
    String counted,
    String source,
    boolean headline,
    boolean compared,
    String scale,
    String higher,
    String lower,
    String complement,
    int decimals,
    boolean percent) {

  /**
   * A statistic of phrases that makes one of solos visible.
   *
   * @param statistic its key
   * @param opposite true when the one is high where the other is low
   */
  public record Ingredient(String statistic, boolean opposite) {}

  /**
   * The rest of the whole under its own name, which is high where this is low: notes on the beat
   * for notes off the beat. Needs {@link #complement()}.
   */
  public StatisticDefinition turned() {
    return new StatisticDefinition(
        key,
        /* name= */ complement,
        meaning,
        formula,
        unit,
        range,
        facet,
        levels,
        ingredient,
        aggregation,
        undefined,
        n,
        counted,
        source,
        headline,
        compared,
        scale,
        /* higher= */ lower,
        /* lower= */ higher,
        /* complement= */ name,
        decimals,
        percent);
  }

  /** The statistic of phrases that makes this one visible: itself where phrases have a value. */
  public Optional<Ingredient> visibleIn() {
    return levels.contains("phrase")
        ? Optional.of(new Ingredient(key, false))
        : Optional.ofNullable(ingredient);
  }
}
