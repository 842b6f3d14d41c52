package phrasecensus.music.pattern;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;

/**
 * Which of many patterns are shown as figures: those of {@value #SHORTEST} to {@value
 * PackedPattern#LONGEST} intervals, by pitch alone, that are {@linkplain IntervalPattern#isFigure
 * figures}, and of figures that hold each other only one, unless the shorter one is found twice as
 * often by itself.
 *
 * <p>The shortest length is the one that Norgaard (2014), "How jazz musicians improvise: the
 * central role of auditory and motor patterns", Music Perception 31(3), counts. That a pattern says
 * nothing beside a longer one that is found in the same places is the idea of closed patterns
 * (Lartillot 2005, "Multi-dimensional motivic pattern extraction founded on adaptive redundancy
 * filtering", Journal of New Music Research 34(4)); half as often instead of as often is ours, as a
 * page has little room. Coverage, the notes that a pattern takes up, ranks patterns in Meredith,
 * Lemström and Wiggins (2002), "Algorithms for discovering repeated patterns in multidimensional
 * representations of polyphonic music", Journal of New Music Research 31(4); here notes of
 * overlapping places count once for each.
 */
public final class FigureChoice {
  /** Fewest intervals of a figure: five notes. */
  public static final int SHORTEST = 4;

  /** Most figures of one length that a corpus shows. */
  public static final int MOST_OF_LENGTH = 2;

  /** Most figures that a student's solos show. */
  public static final int MOST_OF_STUDENT = 3;

  private static final int TWICE = 2;

  /** In most solos first, then with most places; no two different ones are equal. */
  public static final Comparator<Candidate> COMMONEST = new Commonest();

  private FigureChoice() {}

  /**
   * A pattern that may be shown.
   *
   * @param solos solos that hold it, at least one
   * @param windows places where it is found, at least as many
   */
  public record Candidate(PackedPattern pattern, int solos, int windows) implements Serializable {
    private int coverage() {
      return windows * (pattern.length() + 1);
    }
  }

  /** True when a pattern may be shown at all. */
  public static boolean isEligible(PackedPattern pattern) {
    return !pattern.hasRhythm() && pattern.length() >= SHORTEST && pattern.unpacked().isFigure();
  }

  /**
   * What the solos of a corpus share: of each length the {@value #MOST_OF_LENGTH} in most solos,
   * then with most places. Each is in two solos at least.
   *
   * @return the figure in most solos first
   */
  public static List<Candidate> shared(Collection<Candidate> candidates) {
    List<Candidate> ordered =
        eligible(candidates).stream()
            .filter(candidate -> candidate.solos() > 1)
            .sorted(COMMONEST)
            .toList();
    List<Candidate> chosen = new ArrayList<>();
    for (int length = PackedPattern.LONGEST; length >= SHORTEST; length--) {
      int of = 0;
      for (Candidate candidate : ordered) {
        if (candidate.pattern().length() == length
            && of < MOST_OF_LENGTH
            && chosen.stream()
                .allMatch(
                    longer ->
                        !isPart(candidate, longer)
                            || candidate.solos() >= TWICE * longer.solos())) {
          chosen.add(candidate);
          of++;
        }
      }
    }
    chosen.sort(COMMONEST);
    return List.copyOf(chosen);
  }

  /**
   * What one player comes back to: the {@value #MOST_OF_STUDENT} that take up most notes. Each has
   * two places at least.
   *
   * @return the figure that takes up most notes first
   */
  public static List<Candidate> own(Collection<Candidate> candidates) {
    List<Candidate> chosen = new ArrayList<>();
    eligible(candidates).stream()
        .filter(candidate -> candidate.windows() > 1)
        .sorted(
            Comparator.comparingInt(Candidate::coverage)
                .thenComparingInt(candidate -> candidate.pattern().length())
                .reversed()
                .thenComparing(Candidate::pattern))
        .forEach(
            candidate -> {
              if (chosen.size() < MOST_OF_STUDENT
                  && chosen.stream()
                      .noneMatch(other -> isPart(candidate, other) || isPart(other, candidate))) {
                chosen.add(candidate);
              }
            });
    return List.copyOf(chosen);
  }

  private static List<Candidate> eligible(Collection<Candidate> candidates) {
    return candidates.stream().filter(candidate -> isEligible(candidate.pattern())).toList();
  }

  /** A class of its own, as tasks on other machines are sent it. */
  private static final class Commonest implements Comparator<Candidate>, Serializable {
    private static final long serialVersionUID = 1L;

    private static final Comparator<Candidate> ORDER =
        Comparator.comparingInt(Candidate::solos)
            .thenComparingInt(Candidate::windows)
            .reversed()
            .thenComparing(Candidate::pattern);

    @Override
    public int compare(Candidate one, Candidate other) {
      return ORDER.compare(one, other);
    }
  }

  private static boolean isPart(Candidate one, Candidate other) {
    return one.pattern().unpacked().isPartOf(other.pattern().unpacked());
  }
}
