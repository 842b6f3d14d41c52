package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Stream;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * The transcriber's own marks end a phrase.
 *
 * <p>A phrase ends after the note under a breath mark, a caesura or a fermata; over a rest, after
 * the note before it. A phrase begins at the first note under a phrase arc and at the note after
 * its last one. A phrase arc is a bracket, or a slur over at least {@code minimumSlurNotes} notes
 * that lies in no other slur: shorter ones join a few notes in articulation, and those within a
 * larger one do too (common practice, no source). Where an arc ends on the note on which the next
 * one begins, that note begins the phrase. Slashes and other stretches that are neither note nor
 * rest always end a phrase. A solo without any such mark ({@link #isMarked}) is one phrase to this
 * rule, so that {@link AppliedRule} has another one find its phrases.
 *
 * @param minimumSlurNotes notes that a slur must cover to stand for a phrase; at least 2
 */
public record MarkedRule(int minimumSlurNotes) implements PhraseRule {
  /** The name under which studies know the rule. */
  public static final String NAME = "marked";

  /** Slurs over four notes or more. */
  public static final MarkedRule DEFAULT = new MarkedRule(4);

  /**
   * @throws IllegalArgumentException if the number is below 2
   */
  public MarkedRule {
    if (minimumSlurNotes < 2) {
      throw new IllegalArgumentException(
          "Invalid minimum-slur-notes: " + minimumSlurNotes + " is below 2");
    }
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Map<String, String> settings() {
    return Map.of("minimum-slur-notes", Integer.toString(minimumSlurNotes));
  }

  /** True where the transcriber marked a phrase: an arc stands for one, or one ends inside. */
  public boolean isMarked(Solo solo) {
    Ends ends = ends(solo);
    return !ends.arcs.isEmpty() || !inner(ends.boundaries, solo).isEmpty();
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    TreeSet<Integer> boundaries = ends(solo).boundaries;
    for (Joint joint : Joint.of(solo)) {
      if (joint.unknown()) {
        boundaries.add(joint.note());
      }
    }
    return inner(boundaries, solo);
  }

  private static List<Integer> inner(TreeSet<Integer> boundaries, Solo solo) {
    return List.copyOf(boundaries.subSet(1, Math.max(1, solo.notes().size())));
  }

  /** Phrase arcs, and where marks say that phrases begin. */
  private record Ends(TreeSet<Integer> boundaries, List<Arc> arcs) {}

  private Ends ends(Solo solo) {
    TreeSet<Integer> boundaries = new TreeSet<>();
    List<Note> notes = solo.notes();
    List<Arc> slurs = new ArrayList<>();
    List<Arc> brackets = new ArrayList<>();
    for (Mark mark : solo.marks()) {
      switch (mark.kind()) {
        case BREATH, CAESURA, FERMATA -> boundaries.add(lastNoteAt(notes, mark.onset()) + 1);
        case BRACKET -> brackets.add(Arc.of(notes, mark));
        case SLUR -> slurs.add(Arc.of(notes, mark));
        case REHEARSAL, DOUBLE_BAR -> {
          // sections are not phrases: a phrase may run across their borders
        }
      }
    }
    List<Arc> arcs =
        Stream.concat(
                brackets.stream().filter(arc -> arc.noteCount() > 0),
                outermost(slurs).stream().filter(arc -> arc.noteCount() >= minimumSlurNotes))
            .toList();
    TreeSet<Integer> starts = new TreeSet<>();
    arcs.forEach(arc -> starts.add(arc.first()));
    boundaries.addAll(starts);
    for (Arc arc : arcs) {
      if (!starts.contains(arc.last())) {
        boundaries.add(arc.last() + 1);
      }
    }
    return new Ends(boundaries, arcs);
  }

  /** The arcs that no other one holds; of equal ones, one. */
  private static List<Arc> outermost(List<Arc> arcs) {
    List<Arc> sorted = new ArrayList<>(arcs);
    sorted.sort(
        Comparator.comparingInt(Arc::first)
            .thenComparing(Comparator.comparingInt(Arc::last).reversed()));
    List<Arc> outermost = new ArrayList<>();
    int reached = -1;
    for (Arc arc : sorted) {
      if (arc.last() > reached) {
        outermost.add(arc);
        reached = arc.last();
      }
    }
    return outermost;
  }

  /** Index of the last note that starts at or before a moment; -1 when none does. */
  private static int lastNoteAt(List<Note> notes, Fraction moment) {
    int low = 0;
    int high = notes.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (notes.get(middle).onset().isAfter(moment)) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low - 1;
  }

  /** First and last note under an arc; empty, with {@code last < first}, over no note. */
  private record Arc(int first, int last) {
    static Arc of(List<Note> notes, Mark mark) {
      int before = lastNoteAt(notes, mark.onset());
      boolean startsOnNote = before >= 0 && notes.get(before).onset().equals(mark.onset());
      return new Arc(startsOnNote ? before : before + 1, lastNoteAt(notes, mark.end()));
    }

    int noteCount() {
      return last - first + 1;
    }
  }
}
