package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/**
 * Writes sounding notes down again: rests where nothing sounds, ties over bar lines and over the
 * middle of the bar, tuplets where a beat is parted in three, five or seven. Common practice, no
 * source; where a file wrote the same length another way, this does not follow it.
 */
final class Notation {
  private static final Fraction COMPOUND_BEAT = Fraction.of(3, 2);

  private final SoloLine.BarSpan bar;
  private final Fraction beat;
  private final boolean compound;
  private final Fraction end;

  private Notation(SoloLine.BarSpan bar) {
    this.bar = bar;
    String[] metre = bar.metre().split("/");
    int upper = metre.length == 2 && metre[0].matches("\\d{1,3}") ? Integer.parseInt(metre[0]) : 4;
    int lower = metre.length == 2 && metre[1].matches("\\d{1,3}") ? Integer.parseInt(metre[1]) : 4;
    this.compound = lower >= 8 && upper % 3 == 0;
    this.beat =
        compound
            ? COMPOUND_BEAT.times(Fraction.of(8, lower))
            : lower > 4 ? Fraction.of(4, lower) : Fraction.ONE;
    this.end = bar.offset().plus(bar.exactLength());
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
              null));
    }
    List<Piece> pieces = pieces(sounding);
    List<WrittenBar.Sign> signs = new ArrayList<>();
    List<Fraction[]> tuplets = tuplets(pieces);
    for (Piece piece : pieces) {
      Fraction from = piece.from();
      for (Fraction[] tuplet : tuplets) {
        if (from.isBefore(piece.to())
            && tuplet[0].isBefore(piece.to())
            && tuplet[1].isAfter(from)) {
          if (from.isBefore(tuplet[0])) {
            plain(piece, from, tuplet[0], signs);
            from = tuplet[0];
          }
          Fraction to = piece.to().isBefore(tuplet[1]) ? piece.to() : tuplet[1];
          inTuplet(piece, from, to, tuplet, pieces, signs);
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
  private static void addNarrowest(
      Fraction[] region, List<Piece> pieces, List<Fraction[]> narrow) {
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
                  place ->
                      !isBinary(place) && place.isAfter(half[0]) && place.isBefore(half[1]));
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

  private void inTuplet(
      Piece piece,
      Fraction from,
      Fraction to,
      Fraction[] region,
      List<Piece> pieces,
      List<WrittenBar.Sign> signs) {
    Fraction length = region[1].minus(region[0]);
    long parts = 1;
    for (Piece each : pieces) {
      for (Fraction place : List.of(each.from(), each.to())) {
        if (place.isAfter(region[0]) && place.isBefore(region[1])) {
          long odd = odd(place.minus(region[0]).dividedBy(length).denominator());
          parts = parts % odd == 0 ? parts : odd % parts == 0 ? odd : parts * odd;
        }
      }
    }
    if (parts > 9 || parts == 1) {
      throw new IllegalArgumentException(
          "Bar " + bar.number() + " has a rhythm of " + parts + " in a beat, which is not drawn.");
    }
    int normal = Integer.highestOneBit((int) parts);
    Fraction stretch = Fraction.of(parts, normal);
    WrittenBar.Tuplet tuplet =
        new WrittenBar.Tuplet(
            region[0].minus(bar.offset()).plus(bar.exactOnset()), length, (int) parts, normal);
    Fraction at = from;
    while (at.isBefore(to)) {
      Fraction written = to.minus(at).times(stretch);
      Fraction taken = largest(written);
      add(piece, at, at.plus(taken.dividedBy(stretch)), WrittenValue.of(taken), tuplet, signs);
      at = at.plus(taken.dividedBy(stretch));
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
    for (int halvings = 0; halvings <= 6; halvings++) {
      Fraction plain = Fraction.of(4, 1L << halvings);
      if (!plain.isAfter(written)) {
        return plain;
      }
    }
    throw new IllegalArgumentException(
        "Bar " + bar.number() + " has a note that is shorter than a sixty-fourth.");
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
      add(piece, from, to, value, null, signs);
      return;
    }
    Fraction units = span.dividedBy(unit);
    if (units.equals(Fraction.ONE)) {
      if (span.isBefore(Fraction.of(1, 64))) {
        throw new IllegalArgumentException(
            "Bar " + bar.number() + " has a note that is shorter than a sixty-fourth.");
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
      add(piece, from, to, value, null, signs);
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
      return value.dots() == 0 && from.equals(start) && onUnits;
    }
    if (!even) {
      return onUnits;
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
      WrittenBar.Tuplet tuplet,
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
            tuplet));
  }
}
