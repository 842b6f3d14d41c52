package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.engraving.StaffBar.Grace;
import phrasecensus.report.engraving.StaffBar.Item;
import phrasecensus.report.picture.Timeline;
import phrasecensus.report.rows.InOrder;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;

/** Draws one system. Places are in staff spaces; y is 0 on the middle line and grows downward. */
final class SystemDrawing {
  private static final double STEM_LENGTH = 3.5;
  private static final double GRACE = 0.65;
  private static final double WORD = 1.4;

  /** Radius of a ring around a head. */
  private static final double RING = 1.05;

  /** From the left edge of a head to where its tie begins, and back from where one ends. */
  private static final double TIE_TIP = 0.75;

  private final Engraver engraver;
  private final Layout layout;
  private final String id;
  private final int from;
  private final int to;
  private final boolean goesOn;
  private final double measure;
  private final double squeeze;
  private final double width;
  private final Ink ink = new Ink();
  private final Ink paleInk = new Ink();
  private final Skyline skyline = new Skyline();
  private final List<Item> items = new ArrayList<>();
  private final TreeMap<Double, Double> timeToX = new TreeMap<>();
  private final Map<Integer, Double> barStart = new HashMap<>();
  private final Map<Integer, Double> barEnd = new HashMap<>();
  private double right;

  /**
   * @param goesOn true when another system follows
   * @param measure by which the wants of signs for room are met
   * @param squeeze below 1 where not even their needs are
   * @param width of the drawing; it is shown smaller where it is wider than the layout
   */
  SystemDrawing(
      Engraver engraver,
      String id,
      int from,
      int to,
      boolean goesOn,
      double measure,
      double squeeze,
      double width) {
    this.engraver = engraver;
    this.layout = engraver.layout();
    this.id = id;
    this.from = from;
    this.to = to;
    this.goesOn = goesOn;
    this.measure = measure;
    this.squeeze = squeeze;
    this.width = width;
  }

  Engraving engraving() {
    place();
    for (int i = from; i < to; i++) {
      for (List<Item> group : BeamGroups.of(bar(i))) {
        group.forEach(item -> item.group = group);
        if (group.size() > 1) {
          beam(group, bar(i).written.bar());
        } else {
          stem(group.get(0));
        }
      }
    }
    for (int i = from; i < to; i++) {
      for (Item item : bar(i).items) {
        draw(item);
      }
    }
    for (int line = -2; line <= 2; line++) {
      ink.line("staff").from(0, line).across(right);
    }
    skyline.add(0, -2.2, right, 2.2);
    ties();
    tuplets();
    octaves();
    chords();
    endings();
    headings();
    double bottom = below();
    List<Engraving.Layer> layers = new ArrayList<>();
    if (!paleInk.isEmpty()) {
      layers.add(paleInk.layer(true));
    }
    layers.add(ink.layer(false));
    return new Engraving(
        id,
        label(),
        Ink.tenths(width),
        Ink.tenths(skyline.top() - 0.5),
        Ink.tenths(Math.max(bottom, skyline.bottom() + 0.5)),
        layers);
  }

  private StaffBar bar(int index) {
    return engraver.bars().get(index);
  }

  private Ink ink(boolean pale) {
    return pale ? paleInk : ink;
  }

  private static double snapped(double value) {
    return Math.round(value * 10) / 10.0;
  }

  // Places across.

  private void place() {
    double x = header();
    for (int i = from; i < to; i++) {
      StaffBar bar = bar(i);
      if (i > from) {
        x = prefix(i, x);
      }
      barStart.put(i, x);
      Map<Double, Item> byTime = new HashMap<>();
      bar.items.forEach(item -> byTime.put(item.sign.onset().toDouble(), item));
      double start = x;
      for (int k = 0; k < bar.times.size(); k++) {
        double[] gap = bar.gaps.get(k);
        x += Math.max(gap[0] * measure, gap[1]) * squeeze;
        boolean end = k == bar.times.size() - 1;
        timeToX.put(bar.times.get(k), x);
        Item item = end ? null : byTime.get(bar.times.get(k));
        if (item != null) {
          item.x = snapped(x);
          items.add(item);
        }
      }
      for (Item item : bar.items) {
        if (item.sign.value() == null) {
          item.x = snapped(start + (x - start) / 2 - 0.56);
        }
      }
      x = suffix(i, x);
      barEnd.put(i, x);
    }
    right = x;
    if (goesOn && engraver.warningWidth(to) > 0) {
      right = warning(x);
    }
  }

  private double header() {
    StaffBar bar = bar(from);
    double x = 0.7;
    clef(bar.clef, x, false);
    x += bar.clef.glyph().width() + 0.8;
    x = key(bar, bar.fifths, 0, x);
    if (engraver.showsMetre(from)) {
      MetreSign.draw(ink, engraver.metre(from), x);
      x += MetreSign.width(engraver.metre(from)) + 0.7;
    }
    if (engraver.startsRepeat(from)) {
      x = startOfRepeat(x);
    }
    return x;
  }

  private void clef(Clef clef, double x, boolean small) {
    Glyph glyph = small ? clef.glyph().small() : clef.glyph();
    ink.sign(glyph, x, clef.y());
    double size = small ? 0.75 : 1;
    boolean treble = clef.glyph() == Glyph.G_CLEF;
    double top = treble ? clef.y() - 4.3 * size : clef.y() - 1.1;
    double bottom = treble ? clef.y() + 2.5 * size : clef.y() + 2.6;
    skyline.add(x, top, x + 2.6 * size, bottom);
    if (clef.octave() != 0) {
      double y = clef.octave() < 0 ? bottom + 1.1 : top - 0.2;
      ink.words(x + 1.2 * size, y, "eight", "8");
      skyline.add(x + 0.8, y - 1, x + 1.8, y);
    }
  }

  /** Draws a key signature, or naturals where nothing is left of the last one. */
  private double key(StaffBar bar, int fifths, int before, double left) {
    int shown = fifths == 0 ? before : fifths;
    double x = left;
    for (int i = 0; i < Math.abs(shown); i++) {
      Glyph glyph = fifths == 0 ? Glyph.NATURAL : fifths > 0 ? Glyph.SHARP : Glyph.FLAT;
      ink.sign(glyph, x, -bar.clef.accidentalPlace(shown > 0, i) / 2.0);
      x += fifths > 0 ? 1.0 : 0.9;
    }
    return x + (shown == 0 ? 0 : 0.6);
  }

  private double prefix(int index, double left) {
    double x = left;
    if (engraver.changesKey(index)) {
      x = key(bar(index), bar(index).fifths, bar(index - 1).fifths, x + 0.5);
    }
    if (engraver.showsMetre(index)) {
      MetreSign.draw(ink, engraver.metre(index), x + 0.5);
      x += 0.5 + MetreSign.width(engraver.metre(index));
    }
    return engraver.startsRepeat(index) ? startOfRepeat(x - 0.1) : x;
  }

  private double startOfRepeat(double x) {
    thick(x);
    thin(x + 0.9);
    ink.sign(Glyph.AUGMENTATION_DOT, x + 1.2, -0.5);
    ink.sign(Glyph.AUGMENTATION_DOT, x + 1.2, 0.5);
    return x + 1.6;
  }

  private double suffix(int index, double left) {
    double x = left;
    if (index + 1 < to && engraver.changesClef(index + 1)) {
      clef(bar(index + 1).clef, x, true);
      x += 2.6;
    }
    switch (engraver.lineAfter(index)) {
      case PLAIN -> thin(x);
      case DOUBLE -> {
        thin(x);
        thin(x + 0.5);
        x += 0.5;
      }
      case FINAL -> {
        thin(x);
        thick(x + 0.4);
        x += 0.9;
      }
      case REPEAT -> {
        ink.sign(Glyph.AUGMENTATION_DOT, x - 0.1, -0.5);
        ink.sign(Glyph.AUGMENTATION_DOT, x - 0.1, 0.5);
        thin(x + 0.7);
        thick(x + 1.1);
        x += 1.6;
      }
    }
    return x;
  }

  private double warning(double left) {
    double x = left;
    if (engraver.changesKey(to)) {
      x = key(bar(to - 1), bar(to).fifths, bar(to - 1).fifths, x + 0.5);
    }
    if (engraver.showsMetre(to)) {
      MetreSign.draw(ink, engraver.metre(to), x + 0.5);
      x += 0.5 + MetreSign.width(engraver.metre(to));
    }
    return x;
  }

  private void thin(double x) {
    ink.line("bar").from(x, -2).down(2);
  }

  private void thick(double x) {
    double left = snapped(x);
    ink.line("fill").from(left, -2).across(left + 0.5).down(2).across(left).close();
  }

  // Stems and beams.

  private void stem(Item item) {
    if (item.sign.isRest() || item.sign.value() == null || !item.sign.value().hasStem()) {
      return;
    }
    item.up = item.staffPlace() < 0;
    int flags = item.sign.value().flags();
    double length = STEM_LENGTH + Math.max(0, flags - 2) * 0.75;
    item.stemEnd = item.up ? Math.min(item.y() - length, 0) : Math.max(item.y() + length, 0);
  }

  private static double stemX(Item item) {
    return item.up ? item.x + 1.1 : item.x + 0.1;
  }

  private void beam(List<Item> group, SoloLine.BarSpan bar) {
    Item farthest = group.get(0);
    double sum = 0;
    for (Item item : group) {
      sum += item.staffPlace();
      int away = Math.abs(item.staffPlace()) - Math.abs(farthest.staffPlace());
      if (away > 0 || away == 0 && item.staffPlace() > farthest.staffPlace()) {
        farthest = item;
      }
    }
    boolean balanced = group.stream().anyMatch(item -> item.staffPlace() == -farthestPlace(group));
    boolean up = balanced ? sum < 0 : farthest.staffPlace() < 0;
    for (Item item : group) {
      item.up = up;
      item.beamed = true;
    }
    int most = group.stream().mapToInt(item -> item.sign.value().flags()).max().orElse(1);
    Item first = group.get(0);
    Item last = group.get(group.size() - 1);
    double run = Math.max(1, stemX(last) - stemX(first));
    double slope = rise(group, up, run) / run;
    double shortest = 2.6 + Math.max(0, most - 1) * 0.55;
    double wanted = 3.1 + Math.max(0, most - 1) * 0.45;
    double side = up ? -1 : 1;
    // How far out the beam has to lie at the first stem.
    double start = Double.NEGATIVE_INFINITY;
    for (Item item : group) {
      double along = slope * (stemX(item) - stemX(first));
      boolean outer = item == first || item == last;
      double length = outer ? wanted : shortest;
      double out = Math.max(side * item.y() + length, most == 1 ? 0 : 0.25);
      start = Math.max(start, out - side * along);
    }
    start = side * onLine(start);
    for (Item item : group) {
      item.stemEnd = start + slope * (stemX(item) - stemX(first));
    }
    Fraction fullStart = bar.exactOnset().minus(bar.offset());
    for (int level = 0; level < most; level++) {
      Predicate<Integer> parted =
          level > 0 && most > 2 ? place -> isParted(group, place, fullStart) : place -> false;
      beams(group, level, slope, up, parted);
    }
  }

  /**
   * True where inner beams of a group with thirty-seconds are parted before a note, so that eighths
   * can be seen.
   */
  private static boolean isParted(List<Item> group, int place, Fraction fullStart) {
    if (place == 0 || place == group.size()) {
      return true;
    }
    WrittenBar.Sign before = group.get(place - 1).sign;
    WrittenBar.Sign after = group.get(place).sign;
    return before.tuplet() == null
        && after.tuplet() == null
        && before.onset().minus(fullStart).times(2).floor()
            != after.onset().minus(fullStart).times(2).floor();
  }

  private static int farthestPlace(List<Item> group) {
    int farthest = 0;
    for (Item item : group) {
      if (Math.abs(item.staffPlace()) > Math.abs(farthest)) {
        farthest = item.staffPlace();
      }
    }
    return farthest;
  }

  /**
   * Moves the outer edge of a beam of half a space outward until it lies on a line, hangs from one
   * or straddles it: in between it would leave a sliver of white.
   */
  private static double onLine(double out) {
    double quarters = Math.ceil(out * 4 - 1e-6);
    // Three quarters beyond a line, the beam would lie in the middle of the space.
    boolean inSpace = Math.floorMod((int) quarters, 4) == 3;
    return (out < 2.5 && inSpace ? quarters + 1 : quarters) / 4;
  }

  /** How far a beam rises downward from its first to its last stem, by the interval between. */
  private static double rise(List<Item> group, boolean up, double run) {
    Item first = group.get(0);
    Item last = group.get(group.size() - 1);
    int steps = first.staffPlace() - last.staffPlace();
    if (steps == 0) {
      return 0;
    }
    int nearest = Integer.MIN_VALUE;
    for (Item item : group.subList(1, group.size() - 1)) {
      nearest = Math.max(nearest, up ? item.staffPlace() : -item.staffPlace());
    }
    int firstOut = up ? first.staffPlace() : -first.staffPlace();
    int lastOut = up ? last.staffPlace() : -last.staffPlace();
    // A note in the middle as near to the beam as the outer ones: the beam is level.
    if (group.size() > 2 && nearest >= Math.max(firstOut, lastOut)) {
      return 0;
    }
    double size =
        switch (Math.abs(steps)) {
          case 1 -> 0.25;
          case 2 -> 0.5;
          case 3 -> 0.75;
          case 4 -> 1;
          default -> 1.25;
        };
    size = Math.min(size, run * 0.25);
    // Turning back and forth counts for less than going one way.
    if (group.size() > 2 && nearest > Math.min(firstOut, lastOut) && turns(group)) {
      size = Math.min(size, 0.5);
    }
    return Math.signum(steps) * Math.round(size * 4) / 4.0;
  }

  private static boolean turns(List<Item> group) {
    boolean rises = false;
    boolean falls = false;
    for (int i = 1; i < group.size(); i++) {
      rises |= group.get(i).staffPlace() > group.get(i - 1).staffPlace();
      falls |= group.get(i).staffPlace() < group.get(i - 1).staffPlace();
    }
    return rises && falls;
  }

  private void beams(
      List<Item> group, int level, double slope, boolean up, Predicate<Integer> parted) {
    double shift = (up ? 1 : -1) * level * 0.75;
    double thick = up ? 0.5 : -0.5;
    int i = 0;
    while (i < group.size()) {
      if (group.get(i).sign.value().flags() <= level) {
        i++;
        continue;
      }
      int k = i;
      while (k + 1 < group.size()
          && group.get(k + 1).sign.value().flags() > level
          && !parted.test(k + 1)) {
        k++;
      }
      Item a = group.get(i);
      Item b = group.get(k);
      double left = stemX(a) - 0.06;
      double rightEdge = stemX(b) + 0.06;
      double leftY = a.stemEnd;
      double rightY = b.stemEnd;
      if (i == k) {
        boolean inner = parted.test(i) == parted.test(i + 1);
        double stub = (inner ? isStubToTheLeft(group, i) : parted.test(i + 1)) ? -1.1 : 1.1;
        left = Math.min(stemX(a), stemX(a) + stub);
        rightEdge = Math.max(stemX(a), stemX(a) + stub);
        leftY = stub < 0 ? a.stemEnd + slope * stub : a.stemEnd;
        rightY = stub < 0 ? a.stemEnd : a.stemEnd + slope * stub;
      }
      boolean pale = group.stream().allMatch(item -> item.pale);
      ink(pale)
          .line("fill")
          .from(left, leftY + shift)
          .to(rightEdge, rightY + shift)
          .down(rightY + shift + thick)
          .to(left, leftY + shift + thick)
          .close();
      skyline.add(left, Math.min(leftY, rightY), rightEdge, Math.max(leftY, rightY));
      i = k + 1;
    }
  }

  /** A lone short note after a longer one has its second beam before it, towards that one. */
  private static boolean isStubToTheLeft(List<Item> group, int place) {
    if (place == 0 || place == group.size() - 1) {
      return place > 0;
    }
    return group.get(place - 1).sign.length().isAfter(group.get(place + 1).sign.length())
        || !group.get(place + 1).sign.length().isAfter(group.get(place - 1).sign.length());
  }

  // Signs.

  private void draw(Item item) {
    Ink own = ink(item.pale);
    if (item.sign.isRest()) {
      if (!engraver.layout().restless()) {
        rest(own, item);
      }
      return;
    }
    WrittenValue value = item.sign.value();
    double y = item.y();
    Glyph head = item.head();
    own.sign(head, item.x, y);
    ledgers(own, item.staffPlace(), item.x - 0.4, item.x + head.width() + 0.4);
    skyline.add(item.x - 0.3, y - 0.6, item.x + head.width() + 0.3, y + 0.6);
    if (item.accidental != null) {
      double x = item.x - item.accidentalWidth();
      own.sign(item.accidental, x, y);
      boolean flat = item.accidental == Glyph.FLAT || item.accidental == Glyph.DOUBLE_FLAT;
      skyline.add(x, y - (flat ? 1.8 : 1.4), item.x, y + (flat ? 0.7 : 1.4));
    }
    if (value.hasStem()) {
      double root = item.up ? y - 0.15 : y + 0.15;
      double tip = item.beamed ? item.stemEnd + (item.up ? 0.1 : -0.1) : item.stemEnd;
      own.line("stem").from(stemX(item), root).down(tip);
      skyline.add(stemX(item) - 0.2, root, stemX(item) + 0.2, item.stemEnd);
      if (!item.beamed) {
        for (int flag = 0; flag < value.flags(); flag++) {
          double at = item.stemEnd + (item.up ? 1 : -1) * flag * 0.75;
          own.sign(item.up ? Glyph.FLAG_UP : Glyph.FLAG_DOWN, stemX(item) - 0.1, at);
        }
        if (value.flags() > 0) {
          double reach = item.stemEnd + (item.up ? 3.2 : -3.2);
          skyline.add(stemX(item), item.stemEnd, stemX(item) + 1, reach);
        }
      }
    }
    for (int dot = 0; dot < value.dots(); dot++) {
      double at = item.x + head.width() + 0.35 + dot * 0.6;
      boolean flagged = item.up && !item.beamed && value.flags() > 0;
      own.sign(
          Glyph.AUGMENTATION_DOT,
          at + (flagged ? 0.2 : 0),
          Math.floorMod(item.staffPlace(), 2) == 0 ? y - 0.5 : y);
    }
    if (isRinged(item)) {
      ring(own, item.x + head.width() / 2, y);
    }
    graces(own, item);
  }

  private boolean isRinged(Item item) {
    return layout.rings()
        && item.sign.begins()
        && !item.pale
        && engraver.solo().notes().get(item.sign.noteIndex()).isOutsideKey();
  }

  private void ring(Ink own, double x, double y) {
    // A quarter of a circle is nearly a curve whose handles are .55 of its radius long.
    double across = RING * 0.55;
    own.line("ring")
        .from(x - RING, y)
        .curve(x - RING, y - across, x - across, y - RING, x, y - RING)
        .curve(x + across, y - RING, x + RING, y - across, x + RING, y)
        .curve(x + RING, y + across, x + across, y + RING, x, y + RING)
        .curve(x - across, y + RING, x - RING, y + across, x - RING, y)
        .close();
    skyline.add(x - RING, y - RING, x + RING, y + RING);
  }

  private void rest(Ink own, Item item) {
    WrittenValue value = item.sign.value();
    Glyph glyph = item.rest();
    double y = glyph == Glyph.REST_WHOLE ? -1 : 0;
    own.sign(glyph, item.x, y);
    skyline.add(item.x, -1.6, item.x + glyph.width(), 1.6);
    for (int dot = 0; value != null && dot < value.dots(); dot++) {
      own.sign(Glyph.AUGMENTATION_DOT, item.x + glyph.width() + 0.25 + dot * 0.6, -0.5);
    }
  }

  private static void ledgers(Ink own, int place, double left, double right) {
    for (int line = 6; line <= place; line += 2) {
      own.line("ledger").from(left, -line / 2.0).across(right);
    }
    for (int line = -6; line >= place; line -= 2) {
      own.line("ledger").from(left, -line / 2.0).across(right);
    }
  }

  /** Grace notes before a note: small, stems up, beamed where there are several. */
  private void graces(Ink own, Item item) {
    if (item.graces.isEmpty()) {
      return;
    }
    double width = item.left() - item.accidentalWidth();
    double x = item.x - item.accidentalWidth() - width + 0.1;
    List<double[]> stems = new ArrayList<>();
    double top = Double.POSITIVE_INFINITY;
    double headStart = 0;
    for (int i = 0; i < item.graces.size(); i++) {
      Grace grace = item.graces.get(i);
      int place = item.raised ? grace.place() - 7 : grace.place();
      double y = -place / 2.0;
      if (grace.accidental() != null) {
        own.sign(grace.accidental().small(), x, y);
        x += grace.accidental().width() * GRACE + 0.1;
      }
      x = snapped(x);
      headStart = i == 0 ? x : headStart;
      own.sign(Glyph.GRACE_NOTEHEAD, x, y);
      ledgers(own, place, x - 0.25, x + 1.05);
      stems.add(new double[] {x + 0.7, y - 0.1});
      top = Math.min(top, y - 2.4);
      skyline.add(x - 0.2, y - 0.5, x + 1, y + 0.5);
      x +=
          grace.width()
              - (grace.accidental() == null ? 0 : grace.accidental().width() * GRACE + 0.1);
    }
    for (double[] stem : stems) {
      own.line("thin-stem").from(stem[0], stem[1]).down(top);
    }
    double[] first = stems.get(0);
    double[] last = stems.get(stems.size() - 1);
    if (stems.size() == 1) {
      own.sign(Glyph.GRACE_FLAG, first[0] - 0.05, top);
      if (item.graces.get(0).slashed()) {
        own.line("thin-stem").from(first[0] - 0.6, top + 1.6).to(first[0] + 0.9, top + 0.5);
      }
    } else {
      for (int beam = 0; beam < 2; beam++) {
        double y = top + beam * 0.55;
        own.line("fill").from(first[0], y).across(last[0]).down(y + 0.3).across(first[0]).close();
      }
    }
    skyline.add(first[0] - 0.5, top, last[0] + 0.8, top + 1);
    // A small slur into the note, on the side away from the stems.
    Grace lead = item.graces.get(0);
    double leadY = -(item.raised ? lead.place() - 7 : lead.place()) / 2.0 + 0.6;
    // Under the head, but beside it where a stem goes down, and never across its accidental.
    boolean beside = item.sign.value().hasStem() && !item.up;
    double end = beside ? item.x - item.accidentalWidth() - 0.1 : item.x + 0.4;
    double endY = item.y() + (beside ? 0.3 : 0.7);
    double lowest = Math.max(leadY, endY);
    for (Grace grace : item.graces) {
      lowest = Math.max(lowest, -(item.raised ? grace.place() - 7 : grace.place()) / 2.0 + 0.6);
    }
    double height = Math.max(0.4, lowest + 0.3 - (leadY + endY) / 2);
    if (end - headStart < 5) {
      bow(own, headStart + 0.3, leadY, end, endY, height);
    }
  }

  /** A tie or slur: a bow between two points, {@code height} downward, thin at its ends. */
  private void bow(Ink own, double x1, double y1, double x2, double y2, double height) {
    double third = (x2 - x1) * 0.28;
    double inner = height * 4 / 3;
    double outer = inner + Math.signum(height) * 0.3;
    own.line("fill")
        .from(x1, y1)
        .curve(x1 + third, y1 + outer, x2 - third, y2 + outer, x2, y2)
        .curve(x2 - third, y2 + inner, x1 + third, y1 + inner, x1, y1)
        .close();
    skyline.add(x1, Math.min(y1, y2), x2, Math.max(y1, y2));
    skyline.add(
        x1 + third / 2,
        (y1 + y2) / 2,
        x2 - third / 2,
        (y1 + y2) / 2 + height + Math.signum(height) * 0.2);
  }

  private void ties() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.sign.isRest()) {
        continue;
      }
      if (item.sign.tied()) {
        Item next = i + 1 < items.size() ? items.get(i + 1) : null;
        boolean mixed = next != null && isStemUp(next) != isStemUp(item);
        boolean above = mixed || !isStemUp(item);
        // Above a stem that goes up there is room only behind it.
        double left = item.x + (above && hasStemUp(item) ? 1.3 : TIE_TIP);
        double end = next == null ? right - 0.1 : next.x + next.head().width() - TIE_TIP;
        tie(item, left, end, above);
      }
      if (i == 0 && !item.sign.begins()) {
        double start = Math.max(item.x - 1.6, barStart.get(from) - 0.6);
        tie(item, start, item.x + item.head().width() - TIE_TIP, !isStemUp(item));
      }
    }
  }

  /** Stemless notes count by where their stem would go. */
  private static boolean isStemUp(Item item) {
    return item.sign.value().hasStem() ? item.up : item.staffPlace() < 0;
  }

  private static boolean hasStemUp(Item item) {
    return item.sign.value().hasStem() && item.up;
  }

  private void tie(Item item, double left, double rightEnd, boolean above) {
    double side = above ? -1 : 1;
    double length = rightEnd - left;
    boolean besideDot = above && item.sign.value().dots() > 0;
    double y = item.y() + side * (besideDot ? 0.85 : 0.7);
    double height = Math.max(0.35, Math.min(1, 0.25 + length * 0.08));
    bow(ink(item.pale), left, y, rightEnd, y, side * height);
  }

  // Tuplets, octaves.

  private void tuplets() {
    Map<WrittenBar.Tuplet, List<Item>> members = new LinkedHashMap<>();
    for (int depth = 2; depth >= 0; depth--) {
      for (Item item : items) {
        if (item.sign.tuplets().size() > depth) {
          members
              .computeIfAbsent(item.sign.tuplets().get(depth), any -> new ArrayList<>())
              .add(item);
        }
      }
    }
    members.forEach(this::tuplet);
  }

  private void tuplet(WrittenBar.Tuplet tuplet, List<Item> group) {
    Item first = group.get(0);
    Item last = group.get(group.size() - 1);
    int ups = 0;
    int downs = 0;
    for (Item item : group) {
      if (!item.sign.isRest() && item.sign.value().hasStem()) {
        ups += item.up ? 1 : 0;
        downs += item.up ? 0 : 1;
      }
    }
    boolean up = ups >= downs;
    boolean nested = group.stream().anyMatch(item -> item.sign.tuplets().size() > 1);
    boolean oneBeam = !nested && group.size() > 1 && group.equals(first.group);
    double left = first.x - (oneBeam ? 0 : 0.1);
    double rightEnd = last.x + (last.sign.isRest() ? last.rest() : last.head()).width() + 0.1;
    double middle = (left + rightEnd) / 2;
    boolean pale = first.pale;
    if (oneBeam) {
      left = stemX(first);
      rightEnd = stemX(last);
      middle = (left + rightEnd) / 2;
    }
    double halfNumber = 0.45 + 0.25 * String.valueOf(tuplet.count()).length();
    double y;
    if (oneBeam) {
      double edge =
          up
              ? skyline.top(middle - halfNumber, middle + halfNumber, 9)
              : skyline.bottom(middle - halfNumber, middle + halfNumber, -9);
      y = up ? edge - 0.85 : edge + 0.85;
    } else {
      double edge = up ? skyline.top(left, rightEnd, -2.4) : skyline.bottom(left, rightEnd, 2.4);
      y = up ? edge - 0.9 : edge + 0.9;
    }
    ink(pale).words(middle, y + 0.5, "tuplet", String.valueOf(tuplet.count()));
    if (!oneBeam) {
      double hook = up ? 0.6 : -0.6;
      Ink own = ink(pale);
      own.line("bracket").from(left, y + hook).down(y).across(middle - halfNumber - 0.2);
      own.line("bracket").from(middle + halfNumber + 0.2, y).across(rightEnd).down(y + hook);
      skyline.add(left, y - 0.2, rightEnd, y + 0.2);
    }
    skyline.add(middle - halfNumber, y - 0.6, middle + halfNumber, y + 0.6);
  }

  private void octaves() {
    int i = 0;
    while (i < items.size()) {
      if (!items.get(i).raised) {
        i++;
        continue;
      }
      int k = i;
      int last = i;
      while (k < items.size() && (items.get(k).raised || items.get(k).sign.isRest())) {
        last = items.get(k).raised ? k : last;
        k++;
      }
      double left = items.get(i).x - 0.3;
      double rightEnd = items.get(last).x + 1.6;
      double y = skyline.top(left, rightEnd, -3) - 1;
      boolean pale = items.get(i).pale;
      ink(pale).words(left, y + 0.5, "octave", "8va");
      if (rightEnd > left + 3) {
        ink(pale).line("dashes").from(left + 2.6, y).across(rightEnd);
        ink(pale).line("bracket").from(rightEnd, y).down(y + 0.8);
      }
      skyline.add(left, y - 0.8, rightEnd, y + 0.8);
      i = last + 1;
    }
  }

  // Above the staff.

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

  /** Where a moment lies when something starts there: not at the end of the bar before it. */
  private double startX(double time) {
    for (int i = from; i < to; i++) {
      if (Math.abs(bar(i).written.bar().onset() - time) < 1e-9 && !bar(i).items.isEmpty()) {
        Item item = bar(i).items.get(0);
        return item.sign.value() == null ? barStart.get(i) + 0.9 : item.x;
      }
    }
    return x(time);
  }

  private void chords() {
    Map<Double, ChordLabel> labels = new TreeMap<>();
    for (int i = from; i < to; i++) {
      labels.putAll(bar(i).chords);
    }
    double y = -3.3;
    for (Map.Entry<Double, ChordLabel> label : labels.entrySet()) {
      double x = startX(label.getKey());
      y = Math.min(y, skyline.top(x - 0.3, x + label.getValue().width(), -2.8) - 0.55);
    }
    for (Map.Entry<Double, ChordLabel> label : labels.entrySet()) {
      double x = startX(label.getKey());
      ink(label.getKey() >= layout.to() - 1e-9).words(x, y, "chord", label.getValue().runs());
      skyline.add(x - 0.2, y - 2, x + label.getValue().width(), y);
    }
  }

  private void endings() {
    String open = engraver.openEnding(from);
    int i = from;
    while (i < to) {
      String here = openIn(i, open);
      if (here == null) {
        open = null;
        i++;
        continue;
      }
      boolean begins = bar(i).written.bar().staff().ending() != null;
      int k = i;
      String state = endingAfter(k, here);
      while (state != null && k + 1 < to && bar(k + 1).written.bar().staff().ending() == null) {
        k++;
        state = endingAfter(k, state);
      }
      boolean closes = state == null;
      double left = barStart.get(i) - (i > from ? 0 : 0.4);
      double rightEnd = barEnd.get(k) - 0.3;
      double y = skyline.top(left, rightEnd, -3.4) - 2.1;
      Ink.Line line = ink.line("bracket").from(left, begins ? y + 1.7 : y);
      if (begins) {
        line.down(y);
      }
      line.across(rightEnd);
      if (closes && bar(k).written.bar().staff().endsRepeat()) {
        line.down(y + 1.7);
      }
      ink.words(left + 0.5, y + 1.5, "ending", begins ? here + "." : "(" + here + ".)");
      skyline.add(left, y - 0.2, rightEnd, y + 1.8);
      open = state;
      i = k + 1;
    }
  }

  private String openIn(int bar, String before) {
    String starts = bar(bar).written.bar().staff().ending();
    return starts == null ? before : FileText.printable(starts);
  }

  private String endingAfter(int bar, String here) {
    return bar(bar).written.bar().staff().endsEnding() ? null : here;
  }

  private void headings() {
    String number = FileText.printable(bar(from).written.bar().number());
    if (!bar(from).written.bar().pickup()) {
      double numberWidth = TextWidth.of(number, WORD);
      double numberY = skyline.top(0, numberWidth, -3) - 0.5;
      ink.words(0, numberY, "tiny", number);
      skyline.add(0, numberY - 1.1, numberWidth, numberY);
    }
    for (int i = from; i < to; i++) {
      String mark = bar(i).written.bar().section();
      if (mark == null || mark.isBlank()) {
        continue;
      }
      String text = FileText.printable(mark);
      double left = i == from ? 0.1 : barStart.get(i) - 0.2;
      double box = TextWidth.of(text, 1.9) + 1;
      left = Math.max(0.1, Math.min(left, width - box - 0.2));
      double bottom = skyline.top(left, left + box, -3.4) - 0.6;
      double top = bottom - 2.2;
      ink.line("bracket").from(left, top).across(left + box).down(bottom).across(left).close();
      ink.words(left + box / 2, bottom - 0.45, "section", text);
      skyline.add(left, top - 0.1, left + box, bottom);
    }
  }

  // Below the staff.

  private double below() {
    record Shown(Item item, SoloLine.LandingMark mark, double half, int level) {}
    List<Shown> shown = new ArrayList<>();
    double[] reached = {-9, -9};
    double row = 3.4;
    int levels = 0;
    for (Item item : items) {
      SoloLine.LandingMark mark =
          item.sign.isRest() || !item.sign.begins() || item.pale
              ? null
              : engraver.landing(item.sign.noteIndex());
      if (mark == null) {
        continue;
      }
      double half = Math.max(1, TextWidth.of(MusicText.degree(mark.degree()), 1.5) / 2 + 0.1);
      double x = item.x + 0.6;
      int level = reached[0] <= x - half || reached[1] > x - half ? 0 : 1;
      reached[level] = x + half;
      levels = Math.max(levels, level + 1);
      shown.add(new Shown(item, mark, half, level));
      row = Math.max(row, skyline.bottom(x - half, x + half, 2.2) + 1.4);
    }
    for (Shown each : shown) {
      double x = each.item().x + 0.6;
      double y = row + each.level() * 3.4;
      boolean core = each.mark().chordTone() != null && each.mark().chordTone();
      ink.sign(Glyph.landing(Timeline.shape(each.mark().kind()), core), x, y);
      ink.words(x, y + 2.2, "degree", MusicText.degree(each.mark().degree()));
      skyline.add(x - each.half(), y - 1, x + each.half(), y + 2.4);
    }
    double bottom = levels == 0 ? skyline.bottom() + 0.4 : row + levels * 3.4 - 0.8;
    return phrases(Math.max(bottom, skyline.bottom() + 0.3));
  }

  private double phrases(double above) {
    double start = bar(from).written.bar().onset();
    double end = bar(to - 1).written.bar().end();
    double y = above + 0.9;
    boolean any = false;
    for (SoloLine.PhraseSpan phrase :
        InOrder.touching(
            engraver.solo().phrases(),
            SoloLine.PhraseSpan::onset,
            SoloLine.PhraseSpan::end,
            start,
            end)) {
      boolean outside = phrase.onset() >= end - 1e-9 || phrase.end() <= start + 1e-9;
      boolean pale = layout.isPale(phrase.onset()) || phrase.end() > layout.to() + 1e-9;
      if (outside || pale) {
        continue;
      }
      any = true;
      boolean begins = phrase.onset() >= start - 1e-9;
      boolean ends = phrase.end() <= end + 1e-9;
      double left = begins ? x(phrase.onset()) : barStart.get(from) - 0.4;
      double rightEnd = ends ? Math.max(left + 0.8, x(phrase.end()) - 0.5) : right;
      Ink.Line line = ink.line("phrase-line").from(left, begins ? y - 0.7 : y);
      if (begins) {
        line.down(y);
      }
      line.across(rightEnd);
      if (ends) {
        line.down(y - 0.7);
      }
      String number = String.valueOf(phrase.index() + 1);
      ink.words(left, y + 1.5, "phrase", begins ? number : "(" + number + ")");
    }
    return any ? y + 2 : above + 0.3;
  }

  private String label() {
    String firstBar = FileText.printable(bar(from).written.bar().number());
    String lastBar = FileText.printable(bar(to - 1).written.bar().number());
    StringBuilder text = new StringBuilder(to - from == 1 ? "Bar " : "Bars ").append(firstBar);
    text.append(to - from == 1 ? "" : " to " + lastBar);
    if (engraver.layout().restless()) {
      return text.append(", to be filled by the player").toString();
    }
    text.append(", engraved:");
    for (Item item : items) {
      if (item.sign.isRest()) {
        text.append(" rest");
      } else if (item.sign.begins()) {
        SoloLine.Tone note = engraver.solo().notes().get(item.sign.noteIndex());
        text.append(' ').append(MusicText.pitch(note.nameWritten()));
        text.append(isRinged(item) ? " (ringed)" : "");
      }
    }
    return text.toString();
  }
}
