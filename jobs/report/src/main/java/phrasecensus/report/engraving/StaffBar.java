package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.report.rows.InOrder;
import phrasecensus.report.rows.SoloLine;

/**
 * A bar with everything that has a place across: signs with what clings to them, chord symbols, and
 * how much room each wants and needs. Places are in staff spaces from the left end of the bar.
 */
final class StaffBar {
  /** Room between the bar line and the first sign. */
  private static final double LEAD = 1.1;

  /** Least room between two signs. */
  private static final double AIR = 0.3;

  /** What two signs need beyond that, so that a tie between them can be seen. */
  private static final double FOR_A_TIE = 0.5;

  private static final double GRACE_STEP = 1.05;
  private static final double BETWEEN_CHORDS = 0.9;

  final WrittenBar written;
  final Clef clef;
  final int fifths;
  final List<Item> items = new ArrayList<>();

  /** Alterations that accidentals of this bar leave behind, by diatonic place. */
  private final Map<Integer, Integer> altered;

  /** Chord symbols by onset. */
  final TreeMap<Double, ChordLabel> chords = new TreeMap<>();

  /** Places in time at which something stands, in order; the last is the end of the bar. */
  final List<Double> times = new ArrayList<>();

  /** Room before each place in time: what it wants at natural width and what it needs. */
  final List<double[]> gaps = new ArrayList<>();

  /** A grace note before an item. */
  record Grace(int place, Glyph accidental, boolean slashed) {
    double width() {
      return GRACE_STEP + (accidental == null ? 0 : accidental.width() * 0.65 + 0.1);
    }
  }

  /** A sign on the staff. */
  static final class Item {
    final WrittenBar.Sign sign;
    final int place;
    final Glyph accidental;
    final List<Grace> graces;
    boolean raised;
    boolean pale;
    double x;
    boolean up;
    double stemEnd;
    boolean beamed;

    /** All that hang on the same beam; itself alone without one. */
    List<Item> group = List.of();

    Item(WrittenBar.Sign sign, int place, Glyph accidental, List<Grace> graces) {
      this.sign = sign;
      this.place = place;
      this.accidental = accidental;
      this.graces = graces;
    }

    /** Steps above the middle line at which it stands, an octave lower under an 8va. */
    int staffPlace() {
      return raised ? place - 7 : place;
    }

    double y() {
      return -staffPlace() / 2.0;
    }

    Glyph head() {
      return switch (sign.value().halvings()) {
        case 0 -> Glyph.NOTEHEAD_WHOLE;
        case 1 -> Glyph.NOTEHEAD_HALF;
        default -> Glyph.NOTEHEAD_BLACK;
      };
    }

    Glyph rest() {
      return Glyph.rest(sign.value() == null ? 0 : sign.value().halvings());
    }

    double accidentalWidth() {
      return accidental == null ? 0 : accidental.width() + 0.25;
    }

    /** How far it reaches to the left of its place. */
    double left() {
      double width = accidentalWidth();
      for (Grace grace : graces) {
        width += grace.width();
      }
      return width + (graces.isEmpty() ? 0 : 0.3);
    }

    /** How far it reaches to the right of its place. */
    double right() {
      double width = sign.isRest() ? rest().width() : head().width();
      if (sign.value() != null) {
        width += sign.value().dots() * 0.7;
        if (!sign.isRest() && sign.value().flags() > 0 && staffPlace() < 0) {
          width += 0.8;
        }
      }
      return width;
    }

    /** Room it wants to the next sign: more for longer values, but less than in proportion. */
    double wanted() {
      double quarters = Math.min(4, sign.length().toDouble());
      return 1.05
          + 2.15 * Math.pow(quarters, 0.6)
          + (sign.value() == null ? 0 : 0.3 * sign.value().dots());
    }
  }

  StaffBar(
      SoloLine solo,
      WrittenBar written,
      Clef clef,
      int fifths,
      Map<Integer, List<SoloLine.GraceTone>> graces,
      StaffBar before) {
    this.written = written;
    this.clef = clef;
    this.fifths = fifths;
    this.altered = addItems(graces, before == null ? Map.of() : before.altered);
    double start = written.bar().onset();
    double end = written.bar().end();
    for (SoloLine.ChordSpan chord :
        InOrder.beginning(solo.chords(), SoloLine.ChordSpan::onset, start, end)) {
      if (chord.onset() >= start - 1e-9 && chord.onset() < end - 1e-9) {
        chords.put(chord.onset(), ChordLabel.of(chord.symbol()));
      }
    }
  }

  /** Repeats a chord that holds on from an earlier bar, where the music is begun in the middle. */
  void holdChord(SoloLine solo) {
    double start = written.bar().onset();
    for (SoloLine.ChordSpan chord : solo.chords()) {
      if (chord.onset() < start - 1e-9 && chord.end() > start + 1e-9) {
        chords.put(start, ChordLabel.of(chord.symbol()));
      }
    }
  }

  /** Adds the signs; gives what pitches of the bar have accidentals in the end. */
  private Map<Integer, Integer> addItems(
      Map<Integer, List<SoloLine.GraceTone>> graces, Map<Integer, Integer> barBefore) {
    Map<Integer, Integer> altered = new HashMap<>();
    for (WrittenBar.Sign sign : written.signs()) {
      if (sign.isRest()) {
        items.add(new Item(sign, 0, null, List.of()));
        continue;
      }
      List<Grace> before = new ArrayList<>();
      if (sign.begins()) {
        for (SoloLine.GraceTone grace : graces.getOrDefault(sign.noteIndex(), List.of())) {
          WrittenPitch pitch = WrittenPitch.of(grace.nameWritten());
          before.add(
              new Grace(clef.place(pitch), accidental(pitch, altered, barBefore), grace.slashed()));
        }
      }
      Glyph accidental = sign.begins() ? accidental(sign.pitch(), altered, barBefore) : null;
      items.add(new Item(sign, clef.place(sign.pitch()), accidental, List.copyOf(before)));
    }
    return altered;
  }

  /**
   * The accidental that a pitch needs after what stands before it in the bar, or that reminds the
   * player where the same place was altered in the bar before, or another octave in this one; null
   * for none.
   */
  private Glyph accidental(
      WrittenPitch pitch, Map<Integer, Integer> altered, Map<Integer, Integer> barBefore) {
    int place = pitch.diatonic();
    boolean shown = altered.containsKey(place);
    int usual = altered.getOrDefault(place, pitch.alterInKey(fifths));
    boolean doubtful =
        barBefore.getOrDefault(place, usual) != usual
            || altered.getOrDefault(place + 7, usual) != usual
            || altered.getOrDefault(place - 7, usual) != usual;
    if (usual == pitch.alter() && (shown || !doubtful)) {
      return null;
    }
    altered.put(place, pitch.alter());
    return Glyph.accidental(pitch.alter());
  }

  /** Measures the room; to be called when it is known what stands under an 8va. */
  void measure() {
    times.clear();
    gaps.clear();
    TreeMap<Double, Item> byTime = new TreeMap<>();
    for (Item item : items) {
      byTime.put(item.sign.onset().toDouble(), item);
    }
    Item before = null;
    double reached = written.bar().onset();
    for (Map.Entry<Double, Item> each : byTime.entrySet()) {
      Item item = each.getValue();
      if (before == null) {
        add(each.getKey(), LEAD, Math.max(LEAD, 0.55 + item.left()));
      } else {
        double needed = before.right() + AIR + item.left() + (before.sign.tied() ? FOR_A_TIE : 0);
        between(reached, each.getKey(), Math.max(before.wanted(), needed), needed);
      }
      before = item;
      reached = each.getKey();
    }
    double needed = before == null ? 2 : before.right() + 0.6;
    double wanted = before == null ? 4 : before.sign.value() == null ? 5 : before.wanted();
    between(reached, written.bar().end(), Math.max(wanted, needed), needed);
    makeRoomForChords();
  }

  /** Adds the places of chords between two signs, and that of the second one. */
  private void between(double from, double to, double wanted, double needed) {
    double at = from;
    for (double chord : chords.subMap(from, false, to, false).keySet()) {
      double share = (chord - at) / (to - from);
      add(chord, wanted * share, needed * share);
      at = chord;
    }
    double share = to > from ? (to - at) / (to - from) : 1;
    add(to, wanted * share, needed * share);
  }

  private void add(double time, double wanted, double needed) {
    times.add(time);
    gaps.add(new double[] {wanted, needed});
  }

  private void makeRoomForChords() {
    List<Double> onsets = new ArrayList<>(chords.keySet());
    for (int i = 0; i < onsets.size(); i++) {
      boolean last = i + 1 == onsets.size();
      int from = place(onsets.get(i));
      int to = last ? times.size() - 1 : place(onsets.get(i + 1));
      double room = chords.get(onsets.get(i)).width() + (last ? 0.2 : BETWEEN_CHORDS);
      double wanted = 0;
      double needed = 0;
      for (int k = from + 1; k <= to; k++) {
        wanted += gaps.get(k)[0];
        needed += gaps.get(k)[1];
      }
      if (needed < room) {
        for (int k = from + 1; k <= to; k++) {
          double[] gap = gaps.get(k);
          gap[1] = Math.max(gap[1], wanted > 0 ? gap[0] / wanted * room : room / (to - from));
          gap[0] = Math.max(gap[0], gap[1]);
        }
      }
    }
  }

  private int place(double time) {
    for (int i = 0; i < times.size(); i++) {
      if (Math.abs(times.get(i) - time) < 1e-9) {
        return i;
      }
    }
    return 0;
  }

  /** Width when the wants of its signs are met in a measure, but at least what they need. */
  double width(double measure) {
    double width = 0;
    for (double[] gap : gaps) {
      width += Math.max(gap[0] * measure, gap[1]);
    }
    return width;
  }
}
