package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What is said of all statistics of a student beside one group. Three families, each of its own:
 * the questions, the headlines, and of the other statistics those that are reliable enough. A
 * statistic that is not tested is counted in none of them.
 *
 * @param statistics in the order given
 * @param questions those with a tested headline, by facet in order of name
 */
public record StudentVerdicts(List<Verdict> statistics, List<Question> questions) {
  /** Copies the lists. */
  public StudentVerdicts {
    statistics = List.copyOf(statistics);
    questions = List.copyOf(questions);
  }

  /**
   * One statistic before it is judged.
   *
   * @param statistic key in the catalogue
   * @param facet which question it belongs to
   * @param headline true where it answers the question
   * @param p NaN where it is not tested
   * @param phrases that the student's values rest on together
   * @param phrasesForHalf see {@link Reliability}
   */
  public record Tested(
      String statistic,
      String facet,
      boolean headline,
      double p,
      double phrases,
      double phrasesForHalf) {
    boolean isTested() {
      return !Double.isNaN(p);
    }

    /** True where half of what is told is not chance. */
    public boolean isReliable() {
      return phrases >= phrasesForHalf;
    }
  }

  /** Which statistics a statistic is tested together with. */
  public enum Family {
    HEADLINES,
    OTHERS,
    /** None: not tested, or told from too few phrases to be counted. */
    NONE
  }

  /**
   * @param statistic key in the catalogue
   * @param family what it was tested with
   * @param tests how many statistics the family has; 0 for none
   * @param p NaN where it is not tested
   * @param adjusted bound on the share of chance findings among those told so far out; NaN outside
   *     a family
   * @param level at which it is clear and its interval is taken; .05 outside a family
   * @param clear true exactly where p is at most the level and the statistic is in a family
   * @param reliable true where the student's phrases are enough for it
   */
  public record Verdict(
      String statistic,
      Family family,
      int tests,
      double p,
      double adjusted,
      double level,
      boolean clear,
      boolean reliable) {
    public boolean isTested() {
      return !Double.isNaN(p);
    }
  }

  /**
   * A question that headlines answer.
   *
   * @param facet its name
   * @param p of its tested headlines together, see {@link CombinedTest}
   * @param adjusted over the questions
   * @param together true where the headlines taken together are clear
   * @param headline true where one of them is clear by itself
   */
  public record Question(
      String facet, double p, double adjusted, boolean together, boolean headline) {
    /** True where the student's answer differs from the group's. */
    public boolean isDifferent() {
      return together || headline;
    }
  }

  /** Judges statistics that are compared together. */
  public static StudentVerdicts of(List<Tested> statistics) {
    List<Tested> headlines =
        statistics.stream().filter(each -> each.headline && each.isTested()).toList();
    List<Tested> others =
        statistics.stream()
            .filter(each -> !each.headline && each.isTested() && each.isReliable())
            .toList();
    TestFamily ofHeadlines = family(headlines);
    TestFamily ofOthers = family(others);
    List<Verdict> verdicts = new ArrayList<>();
    TreeMap<String, Boolean> clear = new TreeMap<>();
    TreeMap<String, List<Double>> byFacet = new TreeMap<>();
    for (Tested each : statistics) {
      int headline = headlines.indexOf(each);
      int other = others.indexOf(each);
      if (headline >= 0) {
        Verdict verdict = verdict(each, Family.HEADLINES, ofHeadlines, headline);
        verdicts.add(verdict);
        clear.merge(each.facet, verdict.clear, Boolean::logicalOr);
        byFacet.computeIfAbsent(each.facet, facet -> new ArrayList<>()).add(each.p);
      } else if (other >= 0) {
        verdicts.add(verdict(each, Family.OTHERS, ofOthers, other));
      } else {
        verdicts.add(
            new Verdict(
                each.statistic,
                Family.NONE,
                0,
                each.p,
                Double.NaN,
                TestFamily.LEVEL,
                false,
                each.isReliable()));
      }
    }
    return new StudentVerdicts(verdicts, questions(byFacet, clear));
  }

  private static Verdict verdict(Tested each, Family family, TestFamily tests, int place) {
    return new Verdict(
        each.statistic,
        family,
        tests.size(),
        each.p,
        tests.adjusted()[place],
        tests.level(),
        each.p <= tests.level(),
        each.isReliable());
  }

  private static List<Question> questions(
      TreeMap<String, List<Double>> byFacet, Map<String, Boolean> clear) {
    List<String> facets = List.copyOf(byFacet.keySet());
    double[] combined =
        byFacet.values().stream()
            .mapToDouble(p -> CombinedTest.p(p.stream().mapToDouble(each -> each).toArray()))
            .toArray();
    TestFamily family = TestFamily.of(combined);
    List<Question> questions = new ArrayList<>();
    for (int i = 0; i < combined.length; i++) {
      questions.add(
          new Question(
              facets.get(i),
              combined[i],
              family.adjusted()[i],
              family.isClear(i),
              clear.get(facets.get(i))));
    }
    return questions;
  }

  private static TestFamily family(List<Tested> tested) {
    return TestFamily.of(tested.stream().mapToDouble(Tested::p).toArray());
  }
}
