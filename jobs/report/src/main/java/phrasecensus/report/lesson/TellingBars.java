package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import phrasecensus.report.rows.SoloLine;

/**
 * Which bars of a solo a sheet shows: all of them where they fit, else groups of four that tell
 * most of what the lesson is about.
 */
public final class TellingBars {
  /** A sheet shows no more bars than these. */
  public static final int MOST = 32;

  private static final int GROUP = 4;

  private TellingBars() {}

  /**
   * Stretches of bars.
   *
   * @param first index of the first bar
   * @param last index of the last one
   */
  public record Passage(int first, int last) {}

  /**
   * The passages to show, in order.
   *
   * @param finding what the lesson is about
   * @param bars how many bars there is room for
   */
  public static List<Passage> of(LessonLine line, String finding, int bars) {
    int all = line.solo().bars().size();
    int pickup = all > 0 && line.solo().bars().get(0).pickup() ? 1 : 0;
    if (all - pickup <= bars) {
      return all == 0 ? List.of() : List.of(new Passage(0, all - 1));
    }
    List<Passage> groups = new ArrayList<>();
    for (int from = pickup; from < all; from += GROUP) {
      groups.add(new Passage(from == pickup ? 0 : from, Math.min(all, from + GROUP) - 1));
    }
    TreeSet<Integer> chosen = new TreeSet<>();
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < groups.size(); i++) {
      places.add(i);
    }
    double[] weights =
        weights(
            line.solo().bars(),
            line.solo().notes(),
            finding,
            tellingStretches(line, finding),
            groups);
    places.stream()
        .sorted(
            Comparator.comparingDouble((Integer i) -> -weights[i])
                .thenComparing(Comparator.naturalOrder()))
        .limit(Math.max(1, bars / GROUP))
        .forEach(chosen::add);
    List<Passage> passages = new ArrayList<>();
    for (int place : chosen) {
      Passage group = groups.get(place);
      Passage before = passages.isEmpty() ? null : passages.get(passages.size() - 1);
      if (before != null && before.last() + 1 == group.first()) {
        passages.set(passages.size() - 1, new Passage(before.first(), group.last()));
      } else {
        passages.add(group);
      }
    }
    return List.copyOf(passages);
  }

  /**
   * How much each group of bars tells; 0 for all alike, so that the first ones are shown. A solo
   * may have thousands of bars, so each note is looked at once.
   */
  static double[] weights(
      List<SoloLine.BarSpan> bars,
      List<SoloLine.Tone> notes,
      String finding,
      Set<Integer> telling,
      List<Passage> groups) {
    double[] weights = new double[groups.size()];
    int next = 0;
    for (int i = 0; i < weights.length; i++) {
      double from = bars.get(groups.get(i).first()).onset() - 1e-9;
      double to = bars.get(groups.get(i).last()).end() - 1e-9;
      while (next < notes.size() && notes.get(next).onset() < from) {
        next++;
      }
      while (next < notes.size() && notes.get(next).onset() < to) {
        weights[i] += weight(notes.get(next), finding, telling);
        next++;
      }
    }
    return weights;
  }

  private static double weight(SoloLine.Tone note, String finding, Set<Integer> telling) {
    return switch (finding) {
      case "outside_key" -> note.isOutsideKey() ? 1 : 0;
      case "weak_landings" ->
          note.resting() != null && Boolean.FALSE.equals(note.resting().onChordTone()) ? 1 : 0;
      case "long_notes" -> LessonLine.moves(note) ? 0 : note.length();
      case "no_breath", "fragments" -> telling.contains(note.stretch()) ? 1 : 0;
      default -> 0;
    };
  }

  /** The stretches between breaths that the lesson is about. */
  private static Set<Integer> tellingStretches(LessonLine line, String finding) {
    return switch (finding) {
      case "no_breath" -> line.longest().map(longest -> Set.of(longest.index())).orElse(Set.of());
      case "fragments" ->
          line.stretches().stream()
              .filter(each -> each.bars() < LessonLine.SHORTEST_PHRASE - 1e-9)
              .map(Stretch::index)
              .collect(Collectors.toSet());
      default -> Set.of();
    };
  }
}
