package phrasecensus.tables;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The problems of one file told once a kind, the worst first; all of them stand in the table {@code
 * problems}.
 */
public final class ProblemKinds {
  /** Bars that are named of each kind. */
  public static final int BARS_NAMED = 5;

  /**
   * The problems of one kind.
   *
   * @param code the kind
   * @param severity 1 for the worst, as in the table
   * @param count how many there are
   * @param part part id of the first; empty when it concerns the whole file
   * @param bars the first different bars, at most {@value #BARS_NAMED}; empty for none
   * @param moreBars true when there are further bars
   * @param found what was found first
   * @param done what was done first
   */
  public record Kind(
      String code,
      int severity,
      int count,
      String part,
      List<String> bars,
      boolean moreBars,
      String found,
      String done) {
    /** Worst first, of equals the more frequent, then by name. */
    public static final Comparator<Kind> WORST_FIRST =
        Comparator.comparingInt(Kind::severity)
            .thenComparing(Comparator.comparingInt(Kind::count).reversed())
            .thenComparing(Kind::code);

    public Kind {
      bars = List.copyOf(bars);
    }
  }

  private static final class Counted {
    private final int severity;
    private final String part;
    private final String found;
    private final String done;
    private final Set<String> bars = new LinkedHashSet<>();
    private int count;
    private boolean moreBars;

    Counted(int severity, String part, String found, String done) {
      this.severity = severity;
      this.part = part;
      this.found = found;
      this.done = done;
    }
  }

  private final Map<String, Counted> kinds = new LinkedHashMap<>();

  /** Counts a problem. */
  public void add(String code, int severity, String part, String bar, String found, String done) {
    Counted kind = kinds.computeIfAbsent(code, any -> new Counted(severity, part, found, done));
    kind.count++;
    if (!bar.isEmpty() && !kind.bars.contains(bar)) {
      if (kind.bars.size() < BARS_NAMED) {
        kind.bars.add(bar);
      } else {
        kind.moreBars = true;
      }
    }
  }

  /** What was counted, the worst first. */
  public List<Kind> worstFirst() {
    List<Kind> all = new ArrayList<>();
    kinds.forEach(
        (code, kind) ->
            all.add(
                new Kind(
                    code,
                    kind.severity,
                    kind.count,
                    kind.part,
                    List.copyOf(kind.bars),
                    kind.moreBars,
                    kind.found,
                    kind.done)));
    all.sort(Kind.WORST_FIRST);
    return all;
  }
}
