package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import phrasecensus.report.rows.SoloLine;

/**
 * Which bars of a solo a sheet shows: all of them where they fit, else groups of four that tell most
 * of what the lesson is about.
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
      groups.add(
          new Passage(from == pickup ? 0 : from, Math.min(all, from + GROUP) - 1));
    }
    TreeSet<Integer> chosen = new TreeSet<>();
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < groups.size(); i++) {
      places.add(i);
    }
    places.stream()
        .sorted(
            Comparator.comparingDouble((Integer i) -> -weight(line, finding, groups.get(i)))
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

  /** How much a group of bars tells; 0 for all alike, so that the first ones are shown. */
  private static double weight(LessonLine line, String finding, Passage group) {
    SoloLine.BarSpan first = line.solo().bars().get(group.first());
    SoloLine.BarSpan last = line.solo().bars().get(group.last());
    double weight = 0;
    for (SoloLine.Tone note : line.solo().notes()) {
      if (note.onset() >= first.onset() - 1e-9 && note.onset() < last.end() - 1e-9) {
        weight +=
            switch (finding) {
              case "outside_key" -> note.isOutsideKey() ? 1 : 0;
              case "weak_landings" ->
                  note.resting() != null && Boolean.FALSE.equals(note.resting().onChordTone())
                      ? 1
                      : 0;
              case "long_notes" -> LessonLine.moves(note) ? 0 : note.length();
              case "no_breath" -> isIn(line.longest().orElse(null), note) ? 1 : 0;
              case "fragments" -> isScrap(line, note) ? 1 : 0;
              default -> 0;
            };
      }
    }
    return weight;
  }

  private static boolean isIn(Stretch stretch, SoloLine.Tone note) {
    return stretch != null && stretch.index() == note.stretch();
  }

  private static boolean isScrap(LessonLine line, SoloLine.Tone note) {
    return line.stretches().stream()
        .anyMatch(each -> isIn(each, note) && each.bars() < LessonLine.SHORTEST_PHRASE - 1e-9);
  }
}
