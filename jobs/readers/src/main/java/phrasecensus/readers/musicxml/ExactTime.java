package phrasecensus.readers.musicxml;

import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.GraceNote;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Refusal;

/**
 * Sees to it that whatever is added up of a score's times later can be kept exactly.
 *
 * <p>All times are whole multiples of one grid, the least common denominator. Lengths in bars and
 * beats divide times by bars and beats of several metres and add the quotients up, which refines
 * the grid by the least common multiple of the metres' numerators. Every such sum has a numerator
 * of at most the number of those parts in the whole score, so that 64 bits hold it when the number,
 * times the halves and thirds that analysis takes of a beat, stays below them.
 */
final class ExactTime {
  private final long most;
  private long grid = 1;
  private long lastDenominator = 1;
  private long metres = 1;
  private long beatsInQuarter = 1;
  private Metre lastMetre;
  private Fraction end = Fraction.ZERO;

  /**
   * @param most how many parts the length of a score may have
   */
  ExactTime(long most) {
    this.most = most;
  }

  /** Checks a solo that was put together from several parts or whose repeats are unfolded. */
  static void check(Solo solo, long most) {
    ExactTime exact = new ExactTime(most);
    int note = 0;
    int chord = 0;
    for (Bar bar : solo.bars()) {
      Fraction barEnd = bar.end();
      exact.add(bar.onset());
      exact.add(bar.length());
      exact.add(bar.metricalOffset());
      exact.add(bar.metre());
      for (; note < solo.notes().size(); note++) {
        Note next = solo.notes().get(note);
        if (next.onset().isAtLeast(barEnd)) {
          break;
        }
        exact.add(next.onset());
        exact.add(next.length());
      }
      for (; chord < solo.chords().size(); chord++) {
        ChordSpan next = solo.chords().get(chord);
        if (next.onset().isAtLeast(barEnd)) {
          break;
        }
        exact.add(next.onset());
        exact.add(next.end());
      }
      exact.reach(barEnd);
      exact.endBar(bar.number());
    }
    for (; note < solo.notes().size(); note++) {
      exact.add(solo.notes().get(note).onset());
      exact.add(solo.notes().get(note).length());
      exact.reach(solo.notes().get(note).end());
    }
    for (; chord < solo.chords().size(); chord++) {
      exact.add(solo.chords().get(chord).onset());
      exact.reach(solo.chords().get(chord).end());
    }
    for (GraceNote grace : solo.graceNotes()) {
      exact.add(grace.onset());
    }
    for (KeyChange key : solo.keys()) {
      exact.add(key.onset());
    }
    for (TempoChange tempo : solo.tempi()) {
      exact.add(tempo.onset());
    }
    for (Mark mark : solo.marks()) {
      exact.add(mark.onset());
      exact.reach(mark.end());
    }
    for (Span span : solo.unknownSpans()) {
      exact.add(span.onset());
      exact.reach(span.end());
    }
    for (Fraction onset : solo.unpitchedOnsets()) {
      exact.add(onset);
    }
    if (!solo.bars().isEmpty()) {
      exact.endBar(solo.bars().get(solo.bars().size() - 1).number());
    }
  }

  /** Takes in a time or a length. */
  void add(Fraction time) {
    long denominator = time.denominator();
    // Most times are like the one before.
    if (denominator != lastDenominator) {
      lastDenominator = denominator;
      if (grid % denominator != 0) {
        grid = leastCommonMultiple(grid, denominator);
      }
    }
  }

  /** Takes in a metre. */
  void add(Metre metre) {
    if (metre == lastMetre) {
      return;
    }
    lastMetre = metre;
    add(metre.barLength());
    add(metre.beatLength());
    if (!metre.isFree()) {
      metres = leastCommonMultiple(metres, metre.barLength().numerator());
    }
    metres = leastCommonMultiple(metres, metre.beatLength().numerator());
    beatsInQuarter =
        Math.max(beatsInQuarter, Fraction.ONE.dividedBy(metre.beatLength()).floor() + 1);
  }

  /** Takes in a moment up to which the score goes. */
  void reach(Fraction moment) {
    add(moment);
    end = Fraction.larger(end, moment);
  }

  /**
   * Checks what was taken in so far.
   *
   * @param number of the bar that was last taken in
   * @throws Refusal if it is beyond the limit
   */
  void endBar(String number) {
    long parts;
    try {
      parts =
          Math.multiplyExact(
              Math.multiplyExact(grid, metres),
              Math.multiplyExact(beatsInQuarter, Math.addExact(end.floor(), 1)));
    } catch (ArithmeticException e) {
      parts = Long.MAX_VALUE;
    }
    if (parts > most) {
      throw refusal(number);
    }
  }

  /** The refusal of a score whose times cannot be kept exactly from some bar on. */
  Refusal refusal(String number) {
    return Refusal.beyondExactTime(number, most);
  }

  private static long leastCommonMultiple(long first, long second) {
    return Math.multiplyExact(first / divisor(first, second), second);
  }

  private static long divisor(long first, long second) {
    long a = first;
    long b = second;
    while (b != 0) {
      long rest = a % b;
      a = b;
      b = rest;
    }
    return a;
  }
}
