package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.picture.Timeline;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;

/**
 * Engraves a solo line: breaks it into systems of a given width and draws each, with chord symbols
 * above, landings and phrases below. Line weights are the engraving defaults of SMuFL 1.4; spacing,
 * stems and beams follow common practice, no source.
 */
public final class Engraver {
  private static final double BEAM = 0.5;
  private static final double BEAM_STEP = 0.75;
  private static final double STEM_LENGTH = 3.5;
  private static final double HEAD = Glyph.NOTEHEAD_BLACK.width();

  /** Room between the bar line and the first sign. */
  private static final double BAR_LEAD = 1.1;

  private static final double TEXT_WIDTH = 0.98;
  private static final int[] SHARP_PLACES = {4, 1, 5, 2, -1, 3, 0};
  private static final int[] FLAT_PLACES = {0, 3, -1, 2, -2, 1, -3};

  private final SoloLine solo;
  private final int fifths;
  private final double width;
  private final double staffSpace;
  private final boolean bass;
  private final List<Measured> bars = new ArrayList<>();
  private final Map<Integer, SoloLine.LandingMark> landings = new HashMap<>();

  private Engraver(SoloLine solo, Integer keyFifths, int pixels, double staffSpace) {
    this.solo = solo;
    this.staffSpace = staffSpace;
    this.width = pixels / staffSpace;
    int transposition = solo.notes().isEmpty() ? 0 : solo.notes().get(0).transposition();
    this.fifths = writtenFifths(keyFifths == null ? 0 : keyFifths, transposition);
    this.bass =
        solo.notes().stream()
                .mapToInt(SoloLine.Tone::midiWritten)
                .sorted()
                .skip(solo.notes().size() / 2)
                .findFirst()
                .orElse(60)
            < 57;
    solo.landings().forEach(landing -> landings.put(landing.noteIndex(), landing));
  }

  /**
   * The systems of a solo, top to bottom; empty without bars.
   *
   * @param id start of every system's id, unique in the page
   * @param keyFifths key signature at concert pitch, sharps positive; null for none
   * @param pixels width of a system
   * @param staffSpace pixels between two lines of the staff
   * @throws IllegalArgumentException with a sentence where something cannot be drawn
   */
  public static List<Engraving> engrave(
      String id, SoloLine solo, Integer keyFifths, int pixels, double staffSpace) {
    Engraver engraver = new Engraver(solo, keyFifths, pixels, staffSpace);
    Map<Integer, Integer> inKey = new HashMap<>();
    for (WrittenBar bar : Notation.of(solo)) {
      inKey.clear();
      engraver.bars.add(engraver.measured(bar, inKey));
    }
    List<Engraving> systems = new ArrayList<>();
    int from = 0;
    while (from < engraver.bars.size()) {
      int to = engraver.lastThatFits(from);
      systems.add(engraver.new System(id + "-" + (systems.size() + 1), from, to).engraving());
      from = to;
    }
    return List.copyOf(systems);
  }

  /** The key signature as the player reads it, at most six accidentals. */
  static int writtenFifths(int concert, int transposition) {
    int fifths = concert + 7 * Math.floorMod(transposition, 12);
    fifths = Math.floorMod(fifths + 5, 12) - 5;
    return concert < 0 && fifths == 6 ? -6 : fifths;
  }

  /**
   * A bar with its widths in staff spaces.
   *
   * @param accidentals one a sign: what stands before it, null for nothing
   * @param offsets one a sign: from the start of the bar to the left edge of the sign
   * @param width with the room after the last sign
   */
  private record Measured(
      WrittenBar bar, List<Glyph> accidentals, double[] offsets, double width) {}

  private Measured measured(WrittenBar bar, Map<Integer, Integer> altered) {
    List<WrittenBar.Sign> signs = bar.signs();
    List<Glyph> accidentals = new ArrayList<>();
    double[] offsets = new double[signs.size()];
    double at = BAR_LEAD;
    for (int i = 0; i < signs.size(); i++) {
      WrittenBar.Sign sign = signs.get(i);
      Glyph accidental = null;
      if (!sign.isRest() && sign.begins()) {
        int usual = altered.getOrDefault(sign.pitch().diatonic(), sign.pitch().alterInKey(fifths));
        if (usual != sign.pitch().alter()) {
          accidental = accidental(sign.pitch().alter());
          altered.put(sign.pitch().diatonic(), sign.pitch().alter());
        }
      }
      accidentals.add(accidental);
      if (accidental != null) {
        at += accidental.width() + 0.2 - (i == 0 ? 0.5 : 0);
      }
      offsets[i] = at;
      at += space(sign);
    }
    double width = at + 0.3;
    double chords = 0;
    Fraction end = bar.bar().exactOnset().plus(bar.bar().exactLength());
    for (SoloLine.ChordSpan chord : solo.chords()) {
      if (chord.onset() >= bar.bar().onset() - 1e-9 && chord.onset() < end.toDouble() - 1e-9) {
        chords += chord.symbol().length() * TEXT_WIDTH + 1;
      }
    }
    return new Measured(bar, accidentals, offsets, Math.max(width, chords + BAR_LEAD));
  }

  /** Wider for longer values, but less than in proportion. */
  private static double space(WrittenBar.Sign sign) {
    if (sign.value() == null) {
      return 5;
    }
    double quarters = Math.min(4, sign.length().toDouble());
    return 1.05 + 2.15 * Math.pow(quarters, 0.6) + 0.5 * sign.value().dots();
  }

  private static Glyph accidental(int alter) {
    return switch (alter) {
      case 1 -> Glyph.SHARP;
      case -1 -> Glyph.FLAT;
      case 2 -> Glyph.DOUBLE_SHARP;
      case -2 -> Glyph.DOUBLE_FLAT;
      case 0 -> Glyph.NATURAL;
      default -> throw new IllegalArgumentException("A triple accidental is not drawn.");
    };
  }

  private double headerWidth(int from) {
    double header = 0.6 + (bass ? Glyph.F_CLEF : Glyph.G_CLEF).width() + 0.9;
    header += Math.abs(fifths) * (fifths > 0 ? 1.0 : 0.9) + (fifths == 0 ? 0 : 0.6);
    return header + (showsMetre(from) ? 2.4 : 0);
  }

  private boolean showsMetre(int index) {
    String metre = bars.get(index).bar().bar().metre();
    boolean isMetre = metre.matches("\\d{1,2}/\\d{1,2}");
    return isMetre && (index == 0 || !bars.get(index - 1).bar().bar().metre().equals(metre));
  }

  private double widthOf(int index, int from) {
    return bars.get(index).width() + (index > from && showsMetre(index) ? 2.6 : 0);
  }

  private int lastThatFits(int from) {
    double left = width - headerWidth(from) - 0.3;
    int to = from;
    while (to < bars.size() && (to == from || widthOf(to, from) <= left)) {
      left -= widthOf(to, from);
      to++;
    }
    return to;
  }

  /** Words above the chord symbols, whose height is known last. */
  private record Heading(double x, String text, String style) {}

  /** A sign with its place on the system. */
  private static final class Placed {
    private final WrittenBar.Sign sign;
    private final double x;
    private final int place;
    private boolean up;
    private double stemEnd;
    private boolean beamed;

    Placed(WrittenBar.Sign sign, double x, int place) {
      this.sign = sign;
      this.x = Math.round(x * 10) / 10.0;
      this.place = place;
      this.up = place < 0;
    }

    double y() {
      return -place / 2.0;
    }

    double stemX() {
      return up ? x + 1.1 : x + 0.1;
    }
  }

  /** One system in the making; y is 0 on the middle line until all is drawn. */
  private final class System {
    private final String id;
    private final int from;
    private final int to;
    private final Ink ink = new Ink();
    private final List<Heading> headings = new ArrayList<>();
    private final List<Placed> placed = new ArrayList<>();
    private final TreeMap<Double, Double> timeToX = new TreeMap<>();
    private double top = -3.4;
    private double bottom = 3.2;
    private double right;

    System(String id, int from, int to) {
      this.id = id;
      this.from = from;
      this.to = to;
    }

    Engraving engraving() {
      layOut();
      beams();
      for (Placed each : placed) {
        draw(each);
      }
      ties();
      tuplets();
      for (int line = -2; line <= 2; line++) {
        ink.line("staff").from(0, line).across(right);
      }
      chords();
      below();
      return drawn();
    }

    private void layOut() {
      double header = headerWidth(from);
      double natural = 0;
      for (int i = from; i < to; i++) {
        natural += widthOf(i, from);
      }
      double room = width - header - 0.2;
      boolean last = to == bars.size();
      double stretch = room / natural;
      if (last && stretch > 1.25) {
        stretch = 1.25;
      }
      header(header);
      double x = header;
      for (int i = from; i < to; i++) {
        Measured bar = bars.get(i);
        if (i > from && showsMetre(i)) {
          metre(bar.bar().bar().metre(), x + 0.6);
          x += 2.6;
        }
        double start = x;
        double barWidth = bar.width() * stretch;
        double factor = (barWidth - BAR_LEAD) / (bar.width() - BAR_LEAD);
        for (int k = 0; k < bar.bar().signs().size(); k++) {
          WrittenBar.Sign sign = bar.bar().signs().get(k);
          double at = start + BAR_LEAD + (bar.offsets()[k] - BAR_LEAD) * factor;
          if (sign.value() == null) {
            at = start + barWidth / 2 - 0.6;
          }
          int place = sign.isRest() ? 0 : sign.pitch().diatonic() - (bass ? 22 : 34);
          Placed next = new Placed(sign, at, place);
          placed.add(next);
          timeToX.put(
              sign.value() == null ? bar.bar().bar().onset() : sign.onset().toDouble(),
              sign.value() == null ? start + BAR_LEAD : at);
          if (bar.accidentals().get(k) != null) {
            Glyph accidental = bar.accidentals().get(k);
            sign(accidental, at - accidental.width() - 0.22, next.y());
            bottom = Math.max(bottom, next.y() + 1.5);
            top = Math.min(top, next.y() - 1.8);
          }
        }
        x = start + barWidth;
        timeToX.put(bar.bar().bar().end(), x);
        boolean end = i == bars.size() - 1;
        boolean section = i + 1 < bars.size() && bars.get(i + 1).bar().bar().section() != null;
        barLine(x, section, end);
        String mark = bar.bar().bar().section();
        if (mark != null && !mark.isBlank()) {
          headings.add(new Heading(i == from ? 0 : start, mark, "section"));
        }
        if (i == from) {
          double beside = mark == null || mark.isBlank() ? 0 : mark.length() * 1.3 + 0.8;
          headings.add(new Heading(beside, bar.bar().bar().number(), "tiny"));
        }
      }
      right = x;
    }

    private void header(double header) {
      ink.line("bar").from(0.1, -2).down(2);
      double x = 0.6;
      Glyph clef = bass ? Glyph.F_CLEF : Glyph.G_CLEF;
      sign(clef, x, bass ? -1 : 1);
      x += clef.width() + 0.9;
      int[] places = fifths > 0 ? SHARP_PLACES : FLAT_PLACES;
      for (int i = 0; i < Math.abs(fifths); i++) {
        Glyph glyph = fifths > 0 ? Glyph.SHARP : Glyph.FLAT;
        sign(glyph, x, -(places[i] - (bass ? 2 : 0)) / 2.0);
        x += fifths > 0 ? 1.0 : 0.9;
      }
      if (showsMetre(from)) {
        metre(bars.get(from).bar().bar().metre(), header - 2.2);
      }
    }

    private void metre(String metre, double x) {
      String[] parts = metre.split("/");
      double widest = Math.max(digitsWidth(parts[0]), digitsWidth(parts[1]));
      digits(parts[0], x + (widest - digitsWidth(parts[0])) / 2, -1);
      digits(parts[1], x + (widest - digitsWidth(parts[1])) / 2, 1);
    }

    private double digitsWidth(String digits) {
      return digits.chars().mapToDouble(c -> Glyph.digit(c - '0').width()).sum();
    }

    private void digits(String digits, double x, double y) {
      double at = x;
      for (char digit : digits.toCharArray()) {
        sign(Glyph.digit(digit - '0'), at, y);
        at += Glyph.digit(digit - '0').width();
      }
    }

    private void barLine(double x, boolean section, boolean end) {
      if (end) {
        ink.line("bar").from(x - 0.85, -2).down(2);
        rectangle(x - 0.5, -2.065, x, 2.065);
      } else if (section) {
        ink.line("bar").from(x - 0.5, -2).down(2);
        ink.line("bar").from(x - 0.08, -2).down(2);
      } else {
        ink.line("bar").from(x - 0.08, -2).down(2);
      }
    }

    private void rectangle(double left, double up, double rightEdge, double down) {
      ink.line("fill").from(left, up).across(rightEdge).down(down).across(left).close();
    }

    private void word(double x, double y, String style, String text) {
      ink.words(x, y, style, text);
    }

    private void sign(Glyph glyph, double x, double y) {
      ink.sign(glyph, x, y);
    }

    /** Groups the flagged notes of a beat, two beats where both hold nothing but eighths. */
    private void beams() {
      Map<String, List<Placed>> groups = new LinkedHashMap<>();
      int bar = from - 1;
      WrittenBar current = null;
      String running = "";
      int part = 0;
      for (Placed each : placed) {
        if (current == null || !current.signs().contains(each.sign)) {
          bar++;
          current = bars.get(bar).bar();
          part++;
        }
        boolean joins =
            !each.sign.isRest() && each.sign.value() != null && each.sign.value().flags() > 0;
        Fraction beat =
            each.sign.tuplet() != null
                ? each.sign.tuplet().onset()
                : halfBar(current, each.sign.beat());
        String key = bar + ":" + beat + (each.sign.tuplet() != null ? "t" : "");
        if (!joins || !key.equals(running)) {
          part++;
          running = key;
        }
        if (joins) {
          groups.computeIfAbsent(key + ":" + part, any -> new ArrayList<>()).add(each);
        } else {
          stem(each);
        }
      }
      for (List<Placed> group : groups.values()) {
        if (group.size() == 1) {
          stem(group.get(0));
        } else {
          beam(group);
        }
      }
    }

    private Fraction halfBar(WrittenBar bar, Fraction beat) {
      if (!bar.bar().metre().equals("4/4")) {
        return beat;
      }
      Fraction half = beat.floor() < 2 ? Fraction.ZERO : Fraction.of(2);
      boolean onlyEighths =
          bar.signs().stream()
              .filter(s -> s.value() != null)
              .filter(s -> !s.beat().isBefore(half) && s.beat().isBefore(half.plus(Fraction.of(2))))
              .allMatch(
                  s ->
                      s.tuplet() == null
                          && s.value().halvings() <= 3
                          && (s.isRest() || s.value().dots() == 0));
      return onlyEighths ? half : beat;
    }

    private void stem(Placed each) {
      if (each.sign.isRest() || !each.sign.value().hasStem()) {
        return;
      }
      int flags = each.sign.value().flags();
      double length = STEM_LENGTH + Math.max(0, flags - 2) * BEAM_STEP;
      each.stemEnd = each.up ? Math.min(each.y() - length, 0) : Math.max(each.y() + length, 0);
    }

    private void beam(List<Placed> group) {
      int farthest =
          group.stream()
              .max(
                  Comparator.comparingInt((Placed p) -> Math.abs(p.place))
                      .thenComparing(p -> p.place))
              .orElseThrow()
              .place;
      boolean up = farthest < 0;
      group.forEach(p -> p.up = up);
      Placed first = group.get(0);
      Placed last = group.get(group.size() - 1);
      int most = group.stream().mapToInt(p -> p.sign.value().flags()).max().orElse(1);
      double length = STEM_LENGTH - 0.25 + (most - 1) * 0.4;
      double rise = Math.max(-1, Math.min(1, (last.y() - first.y()) / 2));
      boolean level =
          group.stream()
              .skip(1)
              .limit(group.size() - 2L)
              .anyMatch(
                  p ->
                      up
                          ? p.y() <= Math.min(first.y(), last.y())
                          : p.y() >= Math.max(first.y(), last.y()));
      double slope =
          level && group.size() > 2 ? 0 : rise / Math.max(1, last.stemX() - first.stemX());
      double start = up ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
      for (Placed p : group) {
        double wanted = up ? p.y() - length : p.y() + length;
        wanted = up ? Math.min(wanted, 0.25) : Math.max(wanted, -0.25);
        double atFirst = wanted - slope * (p.stemX() - first.stemX());
        start = up ? Math.min(start, atFirst) : Math.max(start, atFirst);
      }
      for (Placed p : group) {
        p.stemEnd = start + slope * (p.stemX() - first.stemX());
        p.beamed = true;
      }
      for (int level2 = 0; level2 < most; level2++) {
        levelOfBeams(group, level2, slope, up);
      }
    }

    private void levelOfBeams(List<Placed> group, int level, double slope, boolean up) {
      double shift = (up ? 1 : -1) * level * BEAM_STEP;
      int i = 0;
      while (i < group.size()) {
        if (group.get(i).sign.value().flags() <= level) {
          i++;
          continue;
        }
        int k = i;
        while (k + 1 < group.size() && group.get(k + 1).sign.value().flags() > level) {
          k++;
        }
        Placed a = group.get(i);
        Placed b = group.get(k);
        double left = a.stemX() - 0.06;
        double rightEdge = b.stemX() + 0.06;
        double yLeft = a.stemEnd;
        double yRight = b.stemEnd;
        if (i == k) {
          boolean toTheLeft = i > 0;
          double stub = toTheLeft ? -1.1 : 1.1;
          double other = a.stemEnd + slope * stub;
          left = toTheLeft ? a.stemX() + stub : left;
          rightEdge = toTheLeft ? a.stemX() + 0.06 : a.stemX() + stub;
          yLeft = toTheLeft ? other : a.stemEnd;
          yRight = toTheLeft ? a.stemEnd : other;
        }
        double thick = up ? BEAM : -BEAM;
        ink.line("fill")
            .from(left, yLeft + shift)
            .to(rightEdge, yRight + shift)
            .down(yRight + shift + thick)
            .to(left, yLeft + shift + thick)
            .close();
        i = k + 1;
      }
    }

    private void draw(Placed each) {
      WrittenValue value = each.sign.value();
      if (each.sign.isRest()) {
        rest(each);
        return;
      }
      double y = each.y();
      Glyph head =
          value.halvings() == 0
              ? Glyph.NOTEHEAD_WHOLE
              : value.halvings() == 1 ? Glyph.NOTEHEAD_HALF : Glyph.NOTEHEAD_BLACK;
      sign(head, each.x, y);
      for (int line = 6; line <= each.place; line += 2) {
        ledger(each.x, -line / 2.0, head.width());
      }
      for (int line = -6; line >= each.place; line -= 2) {
        ledger(each.x, -line / 2.0, head.width());
      }
      if (value.hasStem()) {
        double root = each.up ? y - 0.17 : y + 0.17;
        double tip = each.beamed ? each.stemEnd + (each.up ? 0.1 : -0.1) : each.stemEnd;
        ink.line("stem").from(each.stemX(), root).down(tip);
        if (!each.beamed) {
          for (int flag = 0; flag < value.flags(); flag++) {
            double at = each.stemEnd + (each.up ? 1 : -1) * flag * BEAM_STEP;
            sign(each.up ? Glyph.FLAG_UP : Glyph.FLAG_DOWN, each.stemX() - 0.06, at);
          }
        }
        reach(each.stemEnd);
      }
      reach(y);
      for (int dot = 0; dot < value.dots(); dot++) {
        sign(
            Glyph.AUGMENTATION_DOT,
            each.x + head.width() + 0.3,
            Math.floorMod(each.place, 2) == 0 ? y - 0.5 : y);
      }
    }

    private void rest(Placed each) {
      WrittenValue value = each.sign.value();
      if (value == null || value.halvings() == 0) {
        sign(Glyph.REST_WHOLE, each.x, -1);
      } else {
        Glyph glyph =
            switch (value.halvings()) {
              case 1 -> Glyph.REST_HALF;
              case 2 -> Glyph.REST_QUARTER;
              case 3 -> Glyph.REST_EIGHTH;
              case 4 -> Glyph.REST_SIXTEENTH;
              default -> Glyph.REST_THIRTY_SECOND;
            };
        sign(glyph, each.x, 0);
        for (int dot = 0; dot < value.dots(); dot++) {
          sign(Glyph.AUGMENTATION_DOT, each.x + glyph.width() + 0.25, -0.5);
        }
      }
    }

    private void ledger(double x, double y, double head) {
      ink.line("ledger").from(x - 0.4, y).across(x + head + 0.4);
    }

    private void reach(double y) {
      top = Math.min(top, y - 0.6);
      bottom = Math.max(bottom, y + 0.6);
    }

    private void ties() {
      for (int i = 0; i < placed.size(); i++) {
        Placed a = placed.get(i);
        if (!a.sign.isRest() && a.sign.tied()) {
          double end = i + 1 < placed.size() ? placed.get(i + 1).x + 0.1 : right - 0.2;
          tie(a.x + HEAD - 0.1, end, a.y(), !a.up);
        }
        if (i == 0 && !a.sign.isRest() && !a.sign.begins()) {
          tie(a.x - 1.6, a.x + 0.1, a.y(), !a.up);
        }
      }
    }

    private void tie(double left, double rightEnd, double y, boolean above) {
      double side = above ? -1 : 1;
      double from = y + side * 0.55;
      double high = from + side * Math.min(1.1, 0.35 + (rightEnd - left) * 0.08);
      double middle = (left + rightEnd) / 2;
      ink.line("fill")
          .from(left, from)
          .curve(middle, high + side * 0.5, rightEnd, from)
          .curve(middle, high + side * 0.1, left, from)
          .close();
      reach(high);
    }

    private void tuplets() {
      Map<WrittenBar.Tuplet, List<Placed>> tuplets = new LinkedHashMap<>();
      for (Placed each : placed) {
        if (each.sign.tuplet() != null) {
          tuplets.computeIfAbsent(each.sign.tuplet(), any -> new ArrayList<>()).add(each);
        }
      }
      tuplets.forEach(
          (tuplet, group) -> {
            boolean up =
                group.stream()
                    .filter(p -> !p.sign.isRest())
                    .findFirst()
                    .map(p -> p.up)
                    .orElse(true);
            double edge = up ? -2.3 : 2.3;
            for (Placed p : group) {
              double end =
                  p.sign.isRest()
                      ? 0
                      : up
                          ? Math.min(p.y() - 0.6, p.sign.value().hasStem() ? p.stemEnd : 0)
                          : Math.max(p.y() + 0.6, p.sign.value().hasStem() ? p.stemEnd : 0);
              edge = up ? Math.min(edge, end) : Math.max(edge, end);
            }
            double left = group.get(0).x;
            double rightEnd = group.get(group.size() - 1).x + HEAD;
            double y = up ? edge - 0.75 : edge + 0.75;
            double middle = (left + rightEnd) / 2;
            word(
                middle,
                y + 0.5,
                "tuplet",
                String.valueOf(group.size() == 2 * tuplet.count() ? group.size() : tuplet.count()));
            boolean oneBeam = group.stream().allMatch(p -> p.beamed);
            if (!oneBeam) {
              double hook = up ? 0.6 : -0.6;
              ink.line("bracket").from(left, y + hook).down(y).across(middle - 0.8);
              ink.line("bracket").from(middle + 0.8, y).across(rightEnd).down(y + hook);
            }
            reach(up ? y - 0.4 : y + 0.4);
          });
    }

    private double x(double time) {
      Map.Entry<Double, Double> before = timeToX.floorEntry(time + 1e-9);
      Map.Entry<Double, Double> after = timeToX.higherEntry(time + 1e-9);
      if (before == null) {
        return timeToX.firstEntry().getValue();
      }
      if (after == null || after.getKey() - before.getKey() < 1e-9) {
        return before.getValue();
      }
      double part = Math.max(0, time - before.getKey()) / (after.getKey() - before.getKey());
      return before.getValue() + part * (after.getValue() - before.getValue());
    }

    private double start() {
      return bars.get(from).bar().bar().onset();
    }

    private double end() {
      return bars.get(to - 1).bar().bar().end();
    }

    private boolean holds(double time) {
      return time >= start() - 1e-9 && time < end() - 1e-9;
    }

    private void chords() {
      double y = Math.min(-3.3, top - 0.5);
      boolean any = false;
      for (SoloLine.ChordSpan chord : solo.chords()) {
        if (holds(chord.onset())) {
          word(x(chord.onset()), y, "chord", chord.symbol());
          any = true;
        }
      }
      double above = any ? y - 2.2 : y;
      for (Heading heading : headings) {
        word(heading.x(), above, heading.style(), heading.text());
      }
      top = above - 1.6;
    }

    private void below() {
      double y = bottom + 1.0;
      double[] reached = {-9, -9};
      int levels = 0;
      for (Placed each : placed) {
        SoloLine.LandingMark landing =
            each.sign.isRest() || !each.sign.begins() ? null : landings.get(each.sign.noteIndex());
        if (landing == null) {
          continue;
        }
        double x = each.x + HEAD / 2;
        String degree = MusicText.degree(landing.degree());
        double half = Math.max(0.9, degree.length() * 0.5);
        int level = reached[0] <= x - half || reached[1] > x - half ? 0 : 1;
        reached[level] = x + half;
        levels = Math.max(levels, level + 1);
        boolean core = landing.chordTone() != null && landing.chordTone();
        double at = y + level * 3.6;
        ink.sign(Glyph.landing(Timeline.shape(landing.kind()), core), x, at);
        word(x, at + 2.3, "degree", degree);
      }
      double bracket = y + levels * 3.6 + 0.2;
      for (SoloLine.PhraseSpan phrase : solo.phrases()) {
        if (phrase.onset() < end() - 1e-9 && phrase.end() > start() + 1e-9) {
          boolean begins = holds(phrase.onset());
          boolean ends = phrase.end() <= end() + 1e-9;
          double left = begins ? x(phrase.onset()) : headerWidth(from) * 0.9;
          double rightEnd = ends ? Math.max(left + 0.8, x(phrase.end()) - 0.5) : right;
          Ink.Line line = ink.line("phrase-line").from(left, begins ? bracket - 0.7 : bracket);
          if (begins) {
            line.down(bracket);
          }
          line.across(rightEnd);
          if (ends) {
            line.down(bracket - 0.7);
          }
          String number = String.valueOf(phrase.index() + 1);
          word(left, bracket + 1.7, "phrase", begins ? number : "(" + number + ")");
        }
      }
      bottom = bracket + 2.2;
    }

    private Engraving drawn() {
      String label =
          "Bars "
              + bars.get(from).bar().bar().number()
              + " to "
              + bars.get(to - 1).bar().bar().number()
              + ", engraved: "
              + description();
      return new Engraving(
          id, label, Ink.tenths(width), Ink.tenths(top), Ink.tenths(bottom), List.of(ink.layer(false)));
    }

    private String description() {
      StringBuilder text = new StringBuilder();
      for (Placed each : placed) {
        if (each.sign.isRest()) {
          text.append("rest ");
        } else if (each.sign.begins()) {
          SoloLine.Tone note = solo.notes().get(each.sign.noteIndex());
          text.append(MusicText.pitch(note.nameWritten())).append(' ');
        }
      }
      return text.toString().strip();
    }
  }
}
