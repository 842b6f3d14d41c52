package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/**
 * Writes sounding notes down again: rests where nothing sounds, ties over bar lines and over the
 * middle of the bar, tuplets where a beat is parted in three, five or seven, and tuplets within
 * tuplets. Common practice, no source; where a file wrote the same length another way, this does
 * not follow it.
 */
final class Notation {
  private static final Fraction COMPOUND_BEAT = Fraction.of(3, 2);

  /** Into more parts no tuplet goes. */
  private static final long MOST_PARTS = 31;

  /**
   * Beats, and quarter notes, that a bar may have; the longest written cadenzas have some hundred.
   */
  private static final int MOST_BEATS = 1000;

  private final SoloLine.BarSpan bar;
  private final Fraction beat;
  private final boolean compound;
  private final Fraction end;

  private Notation(SoloLine.BarSpan bar) {
    this.bar = bar;
    String[] metre = bar.metre().split("/");
    int upper = metre.length == 2 ? number(metre[0]) : 4;
    int lower = metre.length == 2 ? number(metre[1]) : 4;
    this.compound = lower >= 8 && upper % 3 == 0;
    this.beat =
        compound
            ? COMPOUND_BEAT.times(Fraction.of(8, lower))
            : Fraction.of(4, Math.max(4, metre.length > 2 ? largestPart(metre) : lower));
    this.end = bar.offset().plus(bar.exactLength());
  }

  /** A number of one to three digits; 4 for anything else. */
  private static int number(String text) {
    boolean digits = !text.isEmpty() && text.length() <= 3;
    for (int i = 0; digits && i < text.length(); i++) {
      digits = text.charAt(i) >= '0' && text.charAt(i) <= '9';
    }
    return digits ? Integer.parseInt(text) : 4;
  }

  /** The smallest value that a sum of signatures counts in, as in {@code 3+2/8+3/4}. */
  private static int largestPart(String[] metre) {
    int largest = 4;
    for (int i = 1; i < metre.length; i++) {
      String lower = metre[i].split("\\+")[0];
      largest = Math.max(largest, lower.matches("(8|16|32|64)") ? Integer.parseInt(lower) : 4);
    }
    return largest;
  }

  /**
   * The bars of a solo with the signs that fill them.
   *
   * @throws IllegalArgumentException with a sentence where a rhythm or a pitch cannot be written
   */
  static List<WrittenBar> of(SoloLine solo) {
    List<WrittenBar> bars = new ArrayList<>();
    int first = 0;
    List<SoloLine.Tone> notes = solo.notes();
    for (SoloLine.BarSpan bar : solo.bars()) {
      checkLength(bar);
      Fraction barEnd = bar.exactOnset().plus(bar.exactLength());
      while (first < notes.size() && !end(notes.get(first)).isAfter(bar.exactOnset())) {
        first++;
      }
      List<SoloLine.Tone> sounding = new ArrayList<>();
      for (int i = first; i < notes.size() && notes.get(i).exactOnset().isBefore(barEnd); i++) {
        sounding.add(notes.get(i));
      }
      bars.add(new WrittenBar(bar, new Notation(bar).signs(sounding)));
    }
    return bars;
  }

  /** A bar that is divided into more beats than a page has room for would never be done. */
  private static void checkLength(SoloLine.BarSpan bar) {
    Fraction most = new Notation(bar).beat.times(MOST_BEATS);
    Fraction longest = Fraction.smaller(most, Fraction.of(MOST_BEATS));
    if (bar.exactLength().isAfter(longest) || bar.offset().isAfter(longest)) {
      throw new IllegalArgumentException(
          "Bar "
              + bar.number()
              + " is too long to be drawn: it has more than "
              + MOST_BEATS
              + " beats.");
    }
  }

  private static Fraction end(SoloLine.Tone note) {
    return note.exactOnset().plus(note.exactLength());
  }

  /** A stretch of the bar, places counted from where a full bar starts. */
  private record Piece(Fraction from, Fraction to, SoloLine.Tone note) {}

  private List<WrittenBar.Sign> signs(List<SoloLine.Tone> sounding) {
    if (sounding.isEmpty()) {
      return List.of(
          new WrittenBar.Sign(
              bar.exactOnset(),
              bar.exactLength(),
              Fraction.ZERO,
              null,
              null,
              -1,
              true,
              false,
              List.of()));
    }
    List<Piece> pieces = pieces(sounding);
    List<WrittenBar.Sign> signs = new ArrayList<>();
    List<Cell> cells = new ArrayList<>();
    for (Fraction[] region : tuplets(pieces)) {
      addCells(region[0], region[1], pieces, cells);
    }
    for (Piece piece : pieces) {
      Fraction from = piece.from();
      for (Cell cell : cells) {
        if (cell.overlaps(from, piece.to())) {
          if (from.isBefore(cell.from())) {
            plain(piece, from, cell.from(), signs);
            from = cell.from();
          }
          Fraction to = Fraction.smaller(piece.to(), cell.to());
          inTuplet(piece, from, to, cell, signs);
          from = to;
        }
      }
      if (from.isBefore(piece.to())) {
        plain(piece, from, piece.to(), signs);
      }
    }
    return signs;
  }

  private List<Piece> pieces(List<SoloLine.Tone> sounding) {
    Fraction shift = bar.offset().minus(bar.exactOnset());
    List<Piece> pieces = new ArrayList<>();
    Fraction reached = bar.offset();
    for (SoloLine.Tone note : sounding) {
      Fraction from = note.exactOnset().plus(shift);
      Fraction to = end(note).plus(shift);
      if (from.isBefore(reached)) {
        from = reached;
      }
      if (to.isAfter(end)) {
        to = end;
      }
      if (!from.isBefore(to)) {
        continue;
      }
      if (reached.isBefore(from)) {
        pieces.add(new Piece(reached, from, null));
      }
      pieces.add(new Piece(from, to, note));
      reached = to;
    }
    if (reached.isBefore(end)) {
      pieces.add(new Piece(reached, end, null));
    }
    return pieces;
  }

  /** Beats that are not parted in halves, joined where a note lies across two of them. */
  private List<Fraction[]> tuplets(List<Piece> pieces) {
    TreeSet<Fraction> beats = new TreeSet<>();
    TreeSet<Fraction> joined = new TreeSet<>();
    for (Piece piece : pieces) {
      for (Fraction place : List.of(piece.from(), piece.to())) {
        if (!isBinary(place)) {
          beats.add(beatOf(place));
        }
      }
      if (!isBinary(piece.from()) || !isBinary(piece.to())) {
        Fraction next = beatOf(piece.from()).plus(beat);
        while (next.isBefore(piece.to())) {
          if (!isBinary(piece.from()) && !isBinary(piece.to())) {
            joined.add(next);
          }
          next = next.plus(beat);
        }
      }
    }
    List<Fraction[]> regions = new ArrayList<>();
    for (Fraction start : beats) {
      Fraction[] last = regions.isEmpty() ? null : regions.get(regions.size() - 1);
      if (last != null && last[1].equals(start) && joined.contains(start)) {
        last[1] = start.plus(beat);
      } else {
        regions.add(new Fraction[] {start, start.plus(beat)});
      }
    }
    List<Fraction[]> narrow = new ArrayList<>();
    for (Fraction[] region : regions) {
      addNarrowest(region, pieces, narrow);
    }
    return narrow;
  }

  /**
   * The halves of a stretch that are parted unevenly, where a note begins at its middle: a triplet
   * of sixteenths before a plain eighth is a triplet of half a beat, and the eighth stands outside.
   */
  private static void addNarrowest(Fraction[] region, List<Piece> pieces, List<Fraction[]> narrow) {
    Fraction middle = region[0].plus(region[1]).times(Fraction.HALF);
    boolean begins = pieces.stream().anyMatch(piece -> piece.from().equals(middle));
    if (!begins || !isBinary(middle)) {
      narrow.add(region);
      return;
    }
    for (Fraction[] half :
        List.of(new Fraction[] {region[0], middle}, new Fraction[] {middle, region[1]})) {
      boolean uneven =
          pieces.stream()
              .map(Piece::from)
              .anyMatch(
                  place -> !isBinary(place) && place.isAfter(half[0]) && place.isBefore(half[1]));
      if (uneven) {
        addNarrowest(half, pieces, narrow);
      }
    }
  }

  private static boolean isBinary(Fraction place) {
    return Long.bitCount(place.denominator()) == 1;
  }

  private Fraction beatOf(Fraction place) {
    return beat.times(place.dividedBy(beat).floor());
  }

  /**
   * A stretch that a tuplet fills, places counted as those of pieces.
   *
   * @param tuplets those it stands in, outermost first, its own last
   * @param stretch how many times longer its notes are written than they sound
   * @param inner tuplets within this one
   */
  private record Cell(
      Fraction from,
      Fraction to,
      List<WrittenBar.Tuplet> tuplets,
      Fraction stretch,
      List<Cell> inner) {
    boolean overlaps(Fraction start, Fraction stop) {
      return start.isBefore(stop) && from.isBefore(stop) && to.isAfter(start);
    }
  }

  /** One tuplet, or where a stretch of several beats is too much for one, one a beat. */
  private void addCells(Fraction from, Fraction to, List<Piece> pieces, List<Cell> cells) {
    try {
      cells.add(cell(from, to, pieces, List.of(), Fraction.ONE));
    } catch (IllegalArgumentException e) {
      if (!from.plus(beat).isBefore(to)) {
        throw e;
      }
      for (Fraction start = from; start.isBefore(to); start = start.plus(beat)) {
        if (oddParts(start, start.plus(beat), pieces) > 1) {
          cells.add(cell(start, start.plus(beat), pieces, List.of(), Fraction.ONE));
        }
      }
    }
  }

  /** The tuplet of a stretch, with further ones inside where the parts are parted again. */
  private Cell cell(
      Fraction from,
      Fraction to,
      List<Piece> pieces,
      List<WrittenBar.Tuplet> outer,
      Fraction outerStretch) {
    long parts = oddParts(from, to, pieces);
    long count = parts;
    if (parts == 1 || parts > 7) {
      count = countOfNested(from, to, pieces, parts);
    }
    if (count == 1 || outer.size() > 2) {
      throw new IllegalArgumentException(
          "Bar " + bar.number() + " has a rhythm of " + parts + " in a beat, which is not drawn.");
    }
    Fraction length = to.minus(from);
    long unit = odd(length.times(outerStretch).numerator());
    long normal = unit;
    while (normal * 2 <= count) {
      normal *= 2;
    }
    List<WrittenBar.Tuplet> tuplets = new ArrayList<>(outer);
    tuplets.add(
        new WrittenBar.Tuplet(
            from.minus(bar.offset()).plus(bar.exactOnset()), length, (int) count, (int) normal));
    Fraction stretch = outerStretch.times(Fraction.of(count, normal));
    List<Cell> inner = new ArrayList<>();
    if (count != parts) {
      Fraction step = length.times(Fraction.of(1, count));
      for (int i = 0; i < count; i++) {
        Fraction start = from.plus(step.times(i));
        if (oddParts(start, start.plus(step), pieces) > 1) {
          inner.add(cell(start, start.plus(step), pieces, tuplets, stretch));
        }
      }
    }
    return new Cell(from, to, List.copyOf(tuplets), stretch, inner);
  }

  /**
   * Into how many equal parts a stretch falls when its parts fall into parts again; a number that
   * needs no inner tuplet is taken as it is when every part of it is there.
   */
  private long countOfNested(Fraction from, Fraction to, List<Piece> pieces, long parts) {
    long best = 1;
    int fewest = Integer.MAX_VALUE;
    Fraction length = to.minus(from);
    for (long count : new long[] {3, 5, 7}) {
      if (parts % count != 0 || parts == count) {
        continue;
      }
      Fraction step = length.times(Fraction.of(1, count));
      int nested = 0;
      for (int i = 0; i < count; i++) {
        long inside = oddParts(from.plus(step.times(i)), from.plus(step.times(i + 1)), pieces);
        nested += inside == 1 ? 0 : inside <= 7 ? 1 : 100;
      }
      if (nested < fewest && nested < 100) {
        fewest = nested;
        best = count;
      }
    }
    long within =
        pieces.stream().filter(p -> !p.from().isBefore(from) && p.from().isBefore(to)).count();
    boolean simple = parts <= MOST_PARTS && parts > 1 && within >= parts - 2;
    return best == 1 && parts <= MOST_PARTS || simple ? parts : best;
  }

  /** The odd number into which the places within a stretch part it; 1 for halves and quarters. */
  private static long oddParts(Fraction from, Fraction to, List<Piece> pieces) {
    Fraction length = to.minus(from);
    long parts = 1;
    for (Piece each : pieces) {
      for (Fraction place : List.of(each.from(), each.to())) {
        if (place.isAfter(from) && place.isBefore(to)) {
          long odd = odd(place.minus(from).dividedBy(length).denominator());
          parts = parts / gcd(parts, odd) * odd;
        }
      }
    }
    return parts;
  }

  private static long gcd(long a, long b) {
    return b == 0 ? a : gcd(b, a % b);
  }

  private void inTuplet(
      Piece piece, Fraction from, Fraction to, Cell cell, List<WrittenBar.Sign> signs) {
    Fraction at = from;
    for (Cell inner : cell.inner()) {
      if (inner.overlaps(at, to)) {
        inOneTuplet(piece, at, Fraction.larger(at, inner.from()), cell, signs);
        at = Fraction.larger(at, inner.from());
        Fraction stop = Fraction.smaller(to, inner.to());
        inTuplet(piece, at, stop, inner, signs);
        at = stop;
      }
    }
    inOneTuplet(piece, at, to, cell, signs);
  }

  private void inOneTuplet(
      Piece piece, Fraction from, Fraction to, Cell cell, List<WrittenBar.Sign> signs) {
    Fraction at = from;
    while (at.isBefore(to)) {
      Fraction taken = largest(to.minus(at).times(cell.stretch()));
      Fraction next = at.plus(taken.dividedBy(cell.stretch()));
      add(piece, at, next, WrittenValue.of(taken), cell.tuplets(), signs);
      at = next;
    }
  }

  private static long odd(long number) {
    return number >> Long.numberOfTrailingZeros(number);
  }

  /** The longest length of one sign that is not longer than this. */
  private Fraction largest(Fraction written) {
    if (WrittenValue.of(written).isPresent()) {
      return written;
    }
    for (int halvings = 0; halvings <= WrittenValue.MOST_HALVINGS; halvings++) {
      Fraction plain = Fraction.of(4, 1L << halvings);
      if (!plain.isAfter(written)) {
        return plain;
      }
    }
    throw new IllegalArgumentException(
        "Bar " + bar.number() + " has a note that is shorter than any note value.");
  }

  private void plain(Piece piece, Fraction from, Fraction to, List<WrittenBar.Sign> signs) {
    split(piece, from, to, Fraction.ZERO, fullEnd(), beat, signs);
  }

  /** End of the bar as the metre wants it, or of the bar as it is where that is longer. */
  private Fraction fullEnd() {
    Fraction beats = end.dividedBy(beat);
    return beats.isWhole() ? end : beat.times(beats.floor() + 1);
  }

  /** Parts a stretch so that the inner structure of {@code [start, stop)} can be seen. */
  private void split(
      Piece piece,
      Fraction from,
      Fraction to,
      Fraction start,
      Fraction stop,
      Fraction unit,
      List<WrittenBar.Sign> signs) {
    Fraction span = stop.minus(start);
    Optional<WrittenValue> value = WrittenValue.of(to.minus(from));
    if (from.equals(start) && to.equals(stop) && value.isPresent()) {
      add(piece, from, to, value, List.of(), signs);
      return;
    }
    Fraction units = span.dividedBy(unit);
    if (units.equals(Fraction.ONE)) {
      if (span.isBefore(Fraction.of(1, 256))) {
        throw new IllegalArgumentException(
            "Bar " + bar.number() + " has a note that is shorter than any note value.");
      }
      boolean three = odd(span.numerator()) == 3;
      Fraction smaller = span.times(three ? Fraction.of(1, 3) : Fraction.HALF);
      split(piece, from, to, start, stop, smaller, signs);
      return;
    }
    boolean even = units.isWhole() && units.numerator() % 2 == 0;
    Fraction cut =
        even
            ? start.plus(span.times(Fraction.HALF))
            : start.plus(unit.times(from.minus(start).dividedBy(unit).floor() + 1));
    if (!to.isAfter(cut)) {
      Fraction left = even ? start : cut.minus(unit);
      split(piece, from, to, left, cut, unit, signs);
    } else if (!from.isBefore(cut)) {
      split(piece, from, to, cut, stop, unit, signs);
    } else if (value.isPresent()
        && isClear(piece, from, to, start, stop, unit, even, value.get())) {
      add(piece, from, to, value, List.of(), signs);
    } else {
      split(piece, from, cut, even ? start : cut.minus(unit), cut, unit, signs);
      split(piece, cut, to, cut, stop, unit, signs);
    }
  }

  /** True when one sign across the cut still shows where the beats are. */
  private static boolean isClear(
      Piece piece,
      Fraction from,
      Fraction to,
      Fraction start,
      Fraction stop,
      Fraction unit,
      boolean even,
      WrittenValue value) {
    boolean onUnits =
        from.minus(start).dividedBy(unit).isWhole() && to.minus(start).dividedBy(unit).isWhole();
    if (piece.note() == null) {
      // In three or five beats each beat of silence has its own rest.
      return even && value.dots() == 0 && from.equals(start) && onUnits;
    }
    if (!even) {
      Fraction length = to.minus(from);
      boolean onOne =
          from.minus(start).dividedBy(unit).isWhole() || to.minus(start).dividedBy(unit).isWhole();
      return onUnits || onOne && length.equals(unit.times(Fraction.of(3, 2)));
    }
    if (!stop.minus(start).isAfter(Fraction.HALF)) {
      // Within an eighth a tie hides more than it shows.
      return true;
    }
    boolean inTheMiddle =
        from.minus(start).equals(stop.minus(to))
            && from.minus(start).times(4).equals(stop.minus(start));
    return from.equals(start) || to.equals(stop) || inTheMiddle;
  }

  private void add(
      Piece piece,
      Fraction from,
      Fraction to,
      Optional<WrittenValue> value,
      List<WrittenBar.Tuplet> tuplets,
      List<WrittenBar.Sign> signs) {
    WrittenValue written =
        value.orElseThrow(
            () ->
                new IllegalArgumentException(
                    "Bar " + bar.number() + " has a rhythm that is not drawn."));
    Fraction shift = bar.exactOnset().minus(bar.offset());
    SoloLine.Tone note = piece.note();
    Fraction onset = from.plus(shift);
    signs.add(
        new WrittenBar.Sign(
            onset,
            to.minus(from),
            beatOf(from),
            written,
            note == null ? null : WrittenPitch.of(note.nameWritten()),
            note == null ? -1 : note.index(),
            note == null || onset.equals(note.exactOnset()),
            note != null && to.plus(shift).isBefore(end(note)),
            tuplets));
  }
}
