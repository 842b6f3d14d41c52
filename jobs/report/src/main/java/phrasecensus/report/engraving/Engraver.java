package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.report.engraving.StaffBar.Item;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.FileText;

/**
 * Engraves a solo line: writes it down as signs, chooses clefs, breaks it into systems of a given
 * width and draws each, with chord symbols above, landings and phrases below. Line weights are the
 * engraving defaults of SMuFL 1.4; spacing, stems and beams follow common practice, no source.
 */
public final class Engraver {
  /** From here on, in steps above the middle line, notes are written an octave lower. */
  private static final int HIGH = 12;

  /** Notes beside such a one go with it down to here. */
  private static final int RATHER_HIGH = 7;

  /** The least measure to which a system may be squeezed when it holds more than one bar. */
  private static final double TIGHTEST = 0.66;

  private static final double LOOSEST_LAST = 1.3;

  /**
   * How small a system may be drawn whose one bar is too wide; only then are its signs squeezed.
   */
  private static final double SMALLEST = 0.7;

  private final SoloLine solo;
  private final Layout layout;
  private final List<StaffBar> bars = new ArrayList<>();
  private final int first;
  private final int stop;
  private final int[] sectionStarts;
  private final String[] openEndings;
  private final Map<Integer, SoloLine.LandingMark> landings = new HashMap<>();

  private Engraver(WrittenSolo writtenSolo, Integer keyFifths, Layout layout) {
    this.solo = writtenSolo.line();
    this.layout = layout;
    Map<Integer, List<SoloLine.GraceTone>> graces = new HashMap<>();
    for (SoloLine.GraceTone grace : solo.graceNotes()) {
      if (grace.beforeNote() != null) {
        graces.computeIfAbsent(grace.beforeNote(), any -> new ArrayList<>()).add(grace);
      }
    }
    List<WrittenBar> written = writtenSolo.bars();
    List<Clef> clefs = writtenSolo.clefs();
    int transposition = solo.notes().isEmpty() ? 0 : solo.notes().get(0).transposition();
    int otherwise = keyFifths == null ? 0 : writtenFifths(keyFifths, transposition);
    for (int i = 0; i < written.size(); i++) {
      Integer key = written.get(i).bar().staff().keyWritten();
      int fifths = key == null ? otherwise : Math.max(-7, Math.min(7, key));
      StaffBar before = i == 0 || i == layout.firstBar() ? null : bars.get(i - 1);
      bars.add(new StaffBar(solo, written.get(i), clefs.get(i), fifths, graces, before));
    }
    this.first = Math.max(0, Math.min(layout.firstBar(), bars.size()));
    this.stop = (int) Math.min(bars.size(), layout.lastBar() + 1L);
    this.sectionStarts = sectionStarts();
    this.openEndings = openEndings();
    solo.landings().forEach(mark -> landings.put(mark.noteIndex(), mark));
    raiseHighNotes();
    if (first > 0 && first < stop) {
      bars.get(first).holdChord(solo);
    }
    for (StaffBar bar : bars.subList(first, Math.max(first, stop))) {
      bar.measure();
      for (Item item : bar.items) {
        item.pale = layout.isPale(item.sign.onset().toDouble());
      }
    }
  }

  /**
   * The systems of a solo, top to bottom; empty without bars.
   *
   * @param id start of every system's id, unique in the page
   * @param keyFifths key signature at concert pitch where the bars have none; null for none
   * @throws IllegalArgumentException with a sentence where something cannot be drawn
   */
  public static List<Engraving> engrave(
      String id, SoloLine solo, Integer keyFifths, Layout layout) {
    return engrave(id, WrittenSolo.of(solo), keyFifths, layout);
  }

  /** The same for a solo that has been written down already. */
  public static List<Engraving> engrave(
      String id, WrittenSolo solo, Integer keyFifths, Layout layout) {
    return new Engraver(solo, keyFifths, layout).systems(id);
  }

  /** The key signature as the player reads it, at most six accidentals. */
  static int writtenFifths(int concert, int transposition) {
    int fifths = concert + 7 * Math.floorMod(transposition, 12);
    fifths = Math.floorMod(fifths + 5, 12) - 5;
    return concert < 0 && fifths == 6 ? -6 : fifths;
  }

  SoloLine solo() {
    return solo;
  }

  Layout layout() {
    return layout;
  }

  List<StaffBar> bars() {
    return bars;
  }

  /** True for the last bar of the solo, however much of it is drawn. */
  boolean isLastOfSolo(int bar) {
    return bar == bars.size() - 1;
  }

  private void raiseHighNotes() {
    List<Item> run = new ArrayList<>();
    for (StaffBar bar : bars) {
      for (Item item : bar.items) {
        boolean high =
            !item.sign.isRest() && item.place >= RATHER_HIGH && bar.clef.glyph() == Glyph.G_CLEF;
        if (high) {
          run.add(item);
        } else if (!item.sign.isRest()) {
          raise(run);
          run.clear();
        }
      }
    }
    raise(run);
  }

  /** From the first to the last note that is really high; one alone keeps its lines. */
  private static void raise(List<Item> run) {
    int from = 0;
    int to = run.size();
    while (from < to && run.get(from).place < HIGH - 2) {
      from++;
    }
    while (to > from && run.get(to - 1).place < HIGH - 2) {
      to--;
    }
    List<Item> high = run.subList(from, to);
    if (high.size() > 1 && high.stream().anyMatch(item -> item.place >= HIGH)) {
      high.forEach(item -> item.raised = true);
    }
  }

  // Signs at the beginning of bars and systems.

  /** True when the metre has to be shown at a bar, the first one of a system or not. */
  boolean showsMetre(int bar) {
    String metre = metre(bar);
    return MetreSign.isDrawn(metre) && (bar == first || !metre(bar - 1).equals(metre));
  }

  String metre(int bar) {
    return bars.get(bar).written.bar().metre();
  }

  boolean changesKey(int bar) {
    return bar > first && bars.get(bar).fifths != bars.get(bar - 1).fifths;
  }

  boolean changesClef(int bar) {
    return bar > first && bars.get(bar).clef != bars.get(bar - 1).clef;
  }

  /** Accidentals of a key signature; naturals where all accidentals of the last one go. */
  static double keyWidth(int fifths, int naturals) {
    int count = fifths == 0 ? Math.abs(naturals) : Math.abs(fifths);
    double step = fifths == 0 ? 0.9 : fifths > 0 ? 1.0 : 0.9;
    return count == 0 ? 0 : count * step + 0.6;
  }

  /** Width of clef, key and metre at the beginning of a system. */
  double headerWidth(int bar) {
    double header = 0.7 + bars.get(bar).clef.glyph().width() + 0.8;
    header += keyWidth(bars.get(bar).fifths, 0);
    header += showsMetre(bar) ? MetreSign.width(metre(bar)) + 0.7 : 0;
    return header + (startsRepeat(bar) ? 1.6 : 0);
  }

  boolean startsRepeat(int bar) {
    return bars.get(bar).written.bar().staff().startsRepeat();
  }

  /** Width of what changes at a bar line inside a system; a new clef stands before the line. */
  double prefixWidth(int bar) {
    double width = 0;
    if (changesKey(bar)) {
      width += 0.5 + keyWidth(bars.get(bar).fifths, bars.get(bar - 1).fifths);
    }
    if (showsMetre(bar)) {
      width += 0.5 + MetreSign.width(metre(bar));
    }
    return width + (startsRepeat(bar) ? 1.5 : 0);
  }

  /** Width of what stands before the bar line at the end of a bar. */
  double suffixWidth(int bar) {
    double clef = bar + 1 < stop && changesClef(bar + 1) ? 2.6 : 0;
    return clef
        + switch (lineAfter(bar)) {
          case PLAIN -> 0;
          case DOUBLE -> 0.4;
          case FINAL -> 0.8;
          case REPEAT -> 1.4;
        };
  }

  /** Width of the warning at the end of a system that metre or key change on the next one. */
  double warningWidth(int nextBar) {
    if (nextBar >= stop) {
      return 0;
    }
    double width = 0;
    if (changesKey(nextBar)) {
      width += 0.5 + keyWidth(bars.get(nextBar).fifths, bars.get(nextBar - 1).fifths);
    }
    return width + (showsMetre(nextBar) ? 0.5 + MetreSign.width(metre(nextBar)) : 0);
  }

  /** How a bar line looks. */
  enum Line {
    PLAIN,
    DOUBLE,
    FINAL,
    REPEAT
  }

  Line lineAfter(int bar) {
    SoloLine.Staff staff = bars.get(bar).written.bar().staff();
    if (staff.endsRepeat()) {
      return Line.REPEAT;
    }
    if (isLastOfSolo(bar)) {
      return Line.FINAL;
    }
    boolean section = bars.get(bar + 1).written.bar().section() != null;
    boolean parted = staff.endsDouble() || section || changesKey(bar + 1);
    return parted && !startsRepeat(bar + 1) ? Line.DOUBLE : Line.PLAIN;
  }

  // Systems.

  private double fixedWidth(int from, int to) {
    double width = headerWidth(from) + warningWidth(to) + 0.1;
    for (int i = from; i < to; i++) {
      width += suffixWidth(i) + (i > from ? prefixWidth(i) : 0);
    }
    return width;
  }

  private double width(int from, int to, double measure) {
    double width = 0;
    for (int i = from; i < to; i++) {
      width += bars.get(i).width(measure);
    }
    return width;
  }

  /** The measure by which the bars of a system fill a width; below 0 where they need more. */
  private double measure(int from, int to, double room) {
    if (width(from, to, 0) > room) {
      return -1;
    }
    double low = 0;
    double high = 64;
    for (int i = 0; i < 40; i++) {
      double middle = (low + high) / 2;
      if (width(from, to, middle) > room) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return low;
  }

  private List<Engraving> systems(String id) {
    List<Engraving> systems = new ArrayList<>();
    if (first >= stop) {
      return systems;
    }
    int[] breaks = breaks();
    int from = first;
    double before = 1;
    while (from < stop) {
      int to = breaks[from];
      double room = layout.width() - fixedWidth(from, to);
      double measure = measure(from, to, room);
      double width = layout.width();
      double squeeze = 1;
      if (measure < 0) {
        double needed = width(from, to, 0);
        width = Math.min(width + needed - room, width / SMALLEST);
        squeeze = Math.min(1, (width - fixedWidth(from, to)) / needed);
      }
      double most = systems.isEmpty() ? LOOSEST_LAST : Math.max(1, Math.min(before, LOOSEST_LAST));
      // Bars to write into take all the room there is.
      boolean full = to < stop || measure < most * 1.15 || layout.restless();
      before = full ? Math.max(0, measure) : most;
      systems.add(
          new SystemDrawing(
                  this,
                  id + "-" + (systems.size() + 1),
                  from,
                  to,
                  to < stop,
                  full ? Math.max(0, measure) : most,
                  squeeze,
                  width)
              .engraving());
      from = to;
    }
    return List.copyOf(systems);
  }

  /** For the first bar of each system, the bar after its last: the breaks that cost least. */
  private int[] breaks() {
    int[] next = new int[stop + 1];
    double[] cost = new double[stop + 1];
    for (int from = stop - 1; from >= first; from--) {
      cost[from] = Double.POSITIVE_INFINITY;
      for (int to = from + 1; to <= stop; to++) {
        double own = cost(from, to);
        if (Double.isInfinite(own)) {
          break;
        }
        if (own + cost[to] < cost[from]) {
          cost[from] = own + cost[to];
          next[from] = to;
        }
      }
    }
    return next;
  }

  private double cost(int from, int to) {
    double room = layout.width() - fixedWidth(from, to);
    double measure = measure(from, to, room);
    if (to > from + 1 && measure < TIGHTEST) {
      return Double.POSITIVE_INFINITY;
    }
    double away = Math.log(Math.max(0.05, measure));
    double cost = to == stop ? Math.max(0, -away) * 40 : away * away * (away < 0 ? 90 : 40);
    if (to < stop) {
      int inSection = to - sectionStarts[to];
      cost += inSection % 4 == 0 ? 0 : inSection % 2 == 0 ? 3 : 5;
    }
    return 4 + cost;
  }

  /** For each bar, the last one up to it at which a section or the first full bar begins. */
  private int[] sectionStarts() {
    int[] starts = new int[bars.size()];
    int start = first < bars.size() && bars.get(first).written.bar().pickup() ? first + 1 : first;
    for (int i = first; i < starts.length; i++) {
      if (i > first
          && (bars.get(i).written.bar().section() != null || lineAfter(i - 1) != Line.PLAIN)) {
        start = i;
      }
      starts[i] = start;
    }
    return starts;
  }

  /** For each bar, the ending that goes on into it from the bars before; null for none. */
  private String[] openEndings() {
    String[] open = new String[bars.size()];
    for (int i = 1; i < open.length; i++) {
      SoloLine.Staff before = bars.get(i - 1).written.bar().staff();
      String here = before.ending() == null ? open[i - 1] : FileText.printable(before.ending());
      open[i] = before.endsEnding() ? null : here;
    }
    return open;
  }

  String openEnding(int bar) {
    return openEndings[bar];
  }

  /** The landing that is a note; null for none. */
  SoloLine.LandingMark landing(int note) {
    return landings.get(note);
  }
}
