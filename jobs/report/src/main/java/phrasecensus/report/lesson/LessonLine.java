package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import phrasecensus.report.rows.SoloLine;

/**
 * A solo as a lesson looks at it: parted by its breaths, whatever rule finds its phrases, with the
 * notes that it rests on.
 *
 * @param solo the line as the study has it
 * @param stretches in order; every note is in one
 */
public record LessonLine(SoloLine solo, List<Stretch> stretches) {
  /** A stretch up to this long is heard as one phrase, in bars (common practice, no source). */
  public static final double LONGEST_PHRASE = 4.5;

  /** From this length on a stretch is more than a scrap, in bars. */
  public static final double SHORTEST_PHRASE = 1;

  private static final double ROUNDING = 1e-9;

  public LessonLine {
    stretches = List.copyOf(stretches);
  }

  /** Reads a line. */
  public static LessonLine of(SoloLine solo) {
    return new LessonLine(solo, stretches(solo.bars(), solo.notes()));
  }

  /** Notes by the stretch that they are in, looking at few bars for each. */
  static List<Stretch> stretches(List<SoloLine.BarSpan> bars, List<SoloLine.Tone> all) {
    TreeMap<Integer, List<SoloLine.Tone>> byStretch = new TreeMap<>();
    for (SoloLine.Tone note : all) {
      byStretch.computeIfAbsent(note.stretch(), any -> new ArrayList<>()).add(note);
    }
    List<Stretch> stretches = new ArrayList<>();
    byStretch.forEach((index, notes) -> stretches.add(stretch(bars, index, notes)));
    return stretches;
  }

  private static Stretch stretch(
      List<SoloLine.BarSpan> bars, int index, List<SoloLine.Tone> notes) {
    SoloLine.Tone first = notes.get(0);
    SoloLine.Tone last = notes.get(notes.size() - 1);
    int from = barAt(bars, first.onset());
    int to = barAt(bars, last.onset());
    double length = 0;
    for (int i = Math.max(0, from - 1); i < bars.size() && bars.get(i).onset() < last.end(); i++) {
      SoloLine.BarSpan bar = bars.get(i);
      double sounds = Math.min(bar.end(), last.end()) - Math.max(bar.onset(), first.onset());
      if (sounds > ROUNDING) {
        length += sounds / fullLength(bars, i);
      }
    }
    return new Stretch(index, notes, length, number(bars, from), number(bars, to), from, to);
  }

  /** The length of a bar; of a pickup that of the bar it leads into. */
  private static double fullLength(List<SoloLine.BarSpan> bars, int bar) {
    boolean part = bars.get(bar).pickup() && bar + 1 < bars.size();
    double length = bars.get(part ? bar + 1 : bar).length();
    return length > 0 ? length : 1;
  }

  /** The last bar that starts no later; bars are in order of time. */
  private static int barAt(List<SoloLine.BarSpan> bars, double moment) {
    int found = 0;
    int beyond = bars.size();
    while (found + 1 < beyond) {
      int middle = (found + beyond) >>> 1;
      if (bars.get(middle).onset() <= moment + ROUNDING) {
        found = middle;
      } else {
        beyond = middle;
      }
    }
    return found;
  }

  private static String number(List<SoloLine.BarSpan> bars, int bar) {
    return bars.isEmpty() ? "" : bars.get(bar).number();
  }

  /** The number of the bar in which a note starts. */
  public String bar(SoloLine.Tone note) {
    return number(solo.bars(), barAt(solo.bars(), note.onset()));
  }

  /** The longest stretch; empty without notes. */
  public Optional<Stretch> longest() {
    Stretch longest = null;
    for (Stretch stretch : stretches) {
      if (longest == null || stretch.bars() > longest.bars() + ROUNDING) {
        longest = stretch;
      }
    }
    return Optional.ofNullable(longest);
  }

  /** How many stretches are shorter than a bar. */
  public long scraps() {
    return stretches.stream().filter(each -> each.bars() < SHORTEST_PHRASE - ROUNDING).count();
  }

  /** The length in bars of which half the stretches are shorter; 0 without notes. */
  public double middleLength() {
    List<Double> lengths = stretches.stream().map(Stretch::bars).sorted().toList();
    int n = lengths.size();
    return n == 0 ? 0 : (lengths.get((n - 1) / 2) + lengths.get(n / 2)) / 2;
  }

  /** The notes that the line rests on, in order. */
  public List<SoloLine.Tone> resting() {
    return solo.notes().stream().filter(note -> note.resting() != null).toList();
  }

  /** True where chord symbols stand in the file. */
  public boolean hasChords() {
    return solo.chords().stream().anyMatch(chord -> !chord.symbol().equals("N.C."));
  }

  /** True for a note of an eighth or shorter. */
  public static boolean moves(SoloLine.Tone note) {
    return note.length() <= 0.5 + ROUNDING;
  }

  /**
   * The line to be drawn: brackets over the stretches between breaths in place of phrases, marks
   * under the notes it rests on in place of landings.
   */
  public SoloLine drawn() {
    List<SoloLine.LandingMark> marks = new ArrayList<>();
    resting().forEach(note -> marks.add(note.landing(note.index(), note.stretch())));
    return new SoloLine(
        solo.bars(),
        solo.chords(),
        solo.notes(),
        stretches.stream().map(Stretch::asPhrase).toList(),
        marks,
        solo.graceNotes());
  }
}
