package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Span;
import phrasecensus.music.time.Fraction;

/**
 * What lies between a note and the one before it: the only places where a phrase can begin.
 *
 * @param note index of the later note, from 1
 * @param silence from the end of the earlier note to the onset of the later one, in quarter notes;
 *     zero or more
 * @param onsetGap from onset to onset, in quarter notes; positive
 * @param beatLength the metre's beat where the earlier note ends, in quarter notes
 * @param unknown true when a stretch that is neither note nor rest lies between them
 */
record Joint(int note, Fraction silence, Fraction onsetGap, Fraction beatLength, boolean unknown) {

  /** The joints of a solo, one fewer than its notes; one pass over notes, bars and spans. */
  static List<Joint> of(Solo solo) {
    List<Note> notes = solo.notes();
    List<Joint> joints = new ArrayList<>(Math.max(0, notes.size() - 1));
    int bar = 0;
    int span = 0;
    for (int i = 1; i < notes.size(); i++) {
      Note earlier = notes.get(i - 1);
      Note later = notes.get(i);
      Fraction end = Fraction.smaller(earlier.end(), later.onset());
      bar = barAt(solo.bars(), bar, end);
      while (span < solo.unknownSpans().size()
          && !solo.unknownSpans().get(span).end().isAfter(earlier.onset())) {
        span++;
      }
      boolean unknown = false;
      for (int s = span; s < solo.unknownSpans().size() && !unknown; s++) {
        Span candidate = solo.unknownSpans().get(s);
        if (!candidate.onset().isBefore(later.onset())) {
          break;
        }
        unknown = candidate.end().isAfter(end);
      }
      joints.add(
          new Joint(
              i,
              later.onset().minus(end),
              later.onset().minus(earlier.onset()),
              solo.bars().isEmpty() ? Fraction.ONE : solo.bars().get(bar).metre().beatLength(),
              unknown));
    }
    return joints;
  }

  /** Index of the bar that holds a moment, searched forward from one that does not lie after it. */
  static int barAt(List<Bar> bars, int from, Fraction moment) {
    int bar = from;
    while (bar + 1 < bars.size() && !bars.get(bar + 1).onset().isAfter(moment)) {
      bar++;
    }
    return bar;
  }
}
