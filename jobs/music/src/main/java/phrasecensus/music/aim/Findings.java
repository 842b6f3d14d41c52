package phrasecensus.music.aim;

import java.util.Set;

/** What is amiss where an aim of a teacher's own is not met and nobody said what that means. */
public final class Findings {
  private static final Set<String> OUTSIDE =
      Set.of("outside_share", "unexplained_outside_share", "other_scale_excess");
  private static final Set<String> OTHER_ENDS = Set.of("phrase_ends_on_other");
  private static final String LONG_VALUES =
      "(value|time)_share_(whole|dotted_half|half|dotted_quarter|quarter|quarter_triplet)";
  private static final String LENGTHS =
      "phrase_length_(bars|beats|seconds)|phrase_onset_span_bars|phrase_bars_touched|phrase_notes";
  private static final String RUNS = "unbroken_time_share|longest_stretch_bars|longest_run_.*";
  private static final String SCRAPS =
      "scrap_time_share|short_stretch_share|phrases_under_half_bar|phrases_per_8_bars";

  private Findings() {}

  /**
   * What a value outside its range says about a question.
   *
   * @param statistic key in the catalogue
   * @param below true for a value that is too small, false for one too large
   * @return {@link Finding#OWN} where the statistic does not speak of what the question is about on
   *     that side
   */
  public static Finding of(Question question, String statistic, boolean below) {
    return switch (question) {
      case TONAL_CENTRE -> below != OUTSIDE.contains(statistic) ? Finding.OUTSIDE_KEY : Finding.OWN;
      case LANDINGS ->
          below != OTHER_ENDS.contains(statistic) ? Finding.WEAK_LANDINGS : Finding.OWN;
      case MOVEMENT -> below != statistic.matches(LONG_VALUES) ? Finding.LONG_NOTES : Finding.OWN;
      case PHRASES -> ofPhrases(statistic, below);
      case OWN -> Finding.OWN;
    };
  }

  private static Finding ofPhrases(String statistic, boolean below) {
    if (statistic.matches(LENGTHS)) {
      return below ? Finding.FRAGMENTS : Finding.NO_BREATH;
    }
    if (statistic.matches(RUNS)) {
      return below ? Finding.OWN : Finding.NO_BREATH;
    }
    if (statistic.matches(SCRAPS)) {
      return below ? Finding.OWN : Finding.FRAGMENTS;
    }
    return statistic.startsWith("silence_after") && below ? Finding.NO_BREATH : Finding.OWN;
  }
}
