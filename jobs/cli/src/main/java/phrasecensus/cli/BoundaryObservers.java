package phrasecensus.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.phrase.ObserverAgreement;

/** What a rule and people say about every place where a phrase may begin, over many lines. */
final class BoundaryObservers {
  private final List<List<Double>> said = new ArrayList<>();

  /**
   * @param people how many there are
   */
  BoundaryObservers(int people) {
    for (int i = 0; i <= people; i++) {
      said.add(new ArrayList<>());
    }
  }

  /**
   * Takes the next line.
   *
   * @param rule inner boundaries that the rule finds
   * @param people boundaries by person; empty where one says nothing about the line
   */
  void add(int noteCount, List<Integer> rule, List<Optional<List<Integer>>> people) {
    for (int note = 1; note < noteCount; note++) {
      said.get(0).add(rule.contains(note) ? 1.0 : 0);
      for (int i = 0; i < people.size(); i++) {
        said.get(i + 1).add(value(people.get(i), note));
      }
    }
  }

  private static double value(Optional<List<Integer>> boundaries, int note) {
    return boundaries.map(marked -> marked.contains(note) ? 1.0 : 0).orElse(Double.NaN);
  }

  /** Alpha of the rule and the first person. */
  double ruleAndFirst() {
    return alpha(said.subList(0, 2));
  }

  /** Alpha of the people. */
  double people() {
    return alpha(said.subList(1, said.size()));
  }

  /** Alpha of the people and the rule as one more. */
  double all() {
    return alpha(said);
  }

  private static double alpha(List<List<Double>> observers) {
    return ObserverAgreement.alpha(
        observers.stream()
            .map(each -> each.stream().mapToDouble(Double::doubleValue).toArray())
            .toList(),
        ObserverAgreement.NOMINAL);
  }
}
