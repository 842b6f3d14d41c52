package phrasecensus.composer.line;

import java.util.List;
import phrasecensus.composer.chance.Chance;
import phrasecensus.composer.harmony.ChordKind.Family;
import phrasecensus.composer.tune.Tune;

/**
 * Draws the pitches of one phrase by weighted chance.
 *
 * <p>Every line of pitches has a weight: the product of what each tone is worth over its chord,
 * what each interval is worth, and what each pair of successive intervals is worth. Lines are drawn
 * in exact proportion to that weight, by summing forwards over all pairs of neighbouring pitches
 * and drawing backwards (forward filtering, backward sampling), so a line aims at its end from its
 * first tone. The weights are set by hand.
 */
final class PitchSampler {
  private static final int BEAT = Tune.QUARTER;
  private static final int WIDEST = 12;

  /** Log weights of intervals of 0 to 12 semitones. */
  private static final double[] INTERVALS = {
    -1.2, 0.3, 0.5, 0.05, -0.05, -0.4, -1.8, -0.7, -1.5, -1.6, -2.8, -4.2, -1.8
  };

  private final int low;
  private final int size;
  private final double[][] unary;
  private final double[][][] pairs;
  private final double[][][] triples;
  private final double[][][] forward;
  private final boolean[][] onTarget;
  private final boolean possible;

  /**
   * What the sampler is to aim at.
   *
   * @param low lowest pitch
   * @param high highest pitch
   * @param curve pitch the line leans towards at each slot
   * @param pull how strongly, as one over twice the variance, at each slot
   * @param fixed pitch a slot must have, -1 for free
   * @param landing weight of each interval above the chord root at the last slot
   * @param blueThird pitch class of the blue third, -1 for none
   * @param chordPull log weight of a chord tone on a strong beat, before its place is looked at
   */
  record Aim(
      int low,
      int high,
      double[] curve,
      double[] pull,
      int[] fixed,
      double[] landing,
      int blueThird,
      double chordPull) {}

  PitchSampler(List<Slot> slots, Changes hearing, Style style, Habits habits, Aim aim) {
    this.low = aim.low();
    this.size = aim.high() - aim.low() + 1;
    int count = slots.size();
    this.unary = new double[count][size];
    this.pairs = new double[count][][];
    this.triples = new double[2][][];
    this.forward = new double[count][][];

    Changes.Span[] spans = new Changes.Span[count];
    Kind[][] kinds = new Kind[count][size];
    for (int i = 0; i < count; i++) {
      Slot slot = slots.get(i);
      spans[i] = hearing.of(slot.onset(), slot.length());
      for (int p = 0; p < size; p++) {
        kinds[i][p] = kind(spans[i], low + p, aim.blueThird());
        unary[i][p] = StrictMath.exp(worth(slots, i, p, spans[i], kinds[i][p], style, habits, aim));
      }
    }
    for (int i = 1; i < count; i++) {
      pairs[i] = pairs(slots, i, spans, kinds, style, i == count - 1);
    }
    for (int target = 0; target < 2; target++) {
      triples[target] = triples(target == 1);
    }
    this.onTarget = new boolean[count][size];
    for (int i = 0; i < count; i++) {
      boolean onBeat = Math.floorMod(slots.get(i).onset(), BEAT) == 0;
      for (int p = 0; p < size; p++) {
        onTarget[i][p] = onBeat && kinds[i][p] == Kind.CHORD;
      }
    }
    this.possible = sum();
  }

  /** What a pitch is to a chord. */
  private enum Kind {
    CHORD,
    TENSION,
    AVOID,
    BLUE,
    BLUE_FIFTH,
    OUTSIDE
  }

  private static Kind kind(Changes.Span span, int midi, int blueThird) {
    int pitchClass = Math.floorMod(midi, 12);
    if (span.heard().holds(pitchClass)) {
      return Kind.CHORD;
    }
    int above = Math.floorMod(pitchClass - span.heard().root().pitchClass(), 12);
    if (blueThird >= 0 && span.heard().kind().family() == Family.DOMINANT) {
      if (pitchClass == blueThird) {
        return Kind.BLUE;
      }
      if (pitchClass == (blueThird + 3) % 12) {
        return Kind.BLUE_FIFTH;
      }
    }
    if (!span.scale().holds(pitchClass)) {
      return Kind.OUTSIDE;
    }
    boolean dominant = span.heard().kind().family() == Family.DOMINANT;
    if (dominant) {
      return above == 5 ? Kind.AVOID : Kind.TENSION;
    }
    boolean overChordTone = span.heard().holds(Math.floorMod(pitchClass - 1, 12));
    return overChordTone ? Kind.AVOID : Kind.TENSION;
  }

  private double worth(
      List<Slot> slots,
      int i,
      int p,
      Changes.Span span,
      Kind kind,
      Style style,
      Habits habits,
      Aim aim) {
    int midi = low + p;
    if (aim.fixed()[i] >= 0) {
      return midi == aim.fixed()[i] ? 0 : Double.NEGATIVE_INFINITY;
    }
    double distance = midi - aim.curve()[i];
    double worth = -distance * distance * aim.pull()[i];
    int edge = Math.min(p, size - 1 - p);
    worth -= edge == 0 ? 1.2 : edge == 1 ? 0.5 : 0;

    Slot slot = slots.get(i);
    boolean last = i == slots.size() - 1;
    int gap = last ? 2 * BEAT : slots.get(i + 1).onset() - slot.onset();
    boolean onBeat = Math.floorMod(slot.onset(), BEAT) == 0;
    boolean strong = Math.floorMod(slot.onset() - span.start(), 2 * BEAT) == 0 && onBeat;
    boolean held = gap >= BEAT;
    if (last) {
      int above = Math.floorMod(midi - span.heard().root().pitchClass(), 12);
      double weight = aim.landing()[above];
      if (kind == Kind.OUTSIDE || kind == Kind.AVOID || kind == Kind.BLUE_FIFTH) {
        return Double.NEGATIVE_INFINITY;
      }
      double rare = kind == Kind.BLUE ? -1.3 : 0;
      return worth + rare + 1.4 * StrictMath.log(weight);
    }
    double outside = style.chromatic() + habits.chromatic();
    return worth
        + switch (kind) {
          case CHORD -> aim.chordPull() * (strong ? 0.9 : onBeat ? 0.6 : 0.1) + (held ? 0.5 : 0);
          case TENSION -> held ? 0.1 : 0;
          case AVOID -> held ? -1.8 : strong ? -0.7 : onBeat ? -0.3 : 0;
          case BLUE -> style.blue() - (held ? 1.3 : 0.5);
          case BLUE_FIFTH -> style.blue() - (held ? 5 : strong ? 2.6 : onBeat ? 1.9 : 1.3);
          case OUTSIDE -> held ? -6 : strong ? outside - 2.2 : onBeat ? outside - 1.0 : outside;
        };
  }

  private double[][] pairs(
      List<Slot> slots,
      int i,
      Changes.Span[] spans,
      Kind[][] kinds,
      Style style,
      boolean lastPair) {
    double[][] weights = new double[size][size];
    boolean change = spans[i].index() != spans[i - 1].index();
    int gap = slots.get(i).onset() - slots.get(i - 1).onset();
    boolean quick = gap < BEAT / 2;
    for (int a = 0; a < size; a++) {
      for (int b = 0; b < size; b++) {
        int wide = Math.abs(b - a);
        if (wide > WIDEST) {
          continue;
        }
        double worth = INTERVALS[wide];
        if (wide == 5 || wide == 7) {
          worth += style.fourths();
        }
        if (quick && wide > 4) {
          worth -= wide > 6 ? 2.2 : 1.0;
        }
        if (gap >= BEAT && wide == 0) {
          worth += 0.8;
        }
        Kind from = kinds[i - 1][a];
        Kind to = kinds[i][b];
        if (from == Kind.OUTSIDE && !change) {
          worth += to == Kind.OUTSIDE ? -1.6 : wide == 1 ? 0.4 : wide == 2 ? -1.6 : -4;
        } else if (from == Kind.OUTSIDE) {
          worth += wide == 1 ? 0.4 : wide == 2 ? -1.0 : -4;
        }
        if (to == Kind.OUTSIDE && wide > 2) {
          worth -= wide > 4 ? 2.0 : 0.8;
        }
        if ((from == Kind.BLUE || from == Kind.BLUE_FIFTH) && wide > 3) {
          worth -= 1.5;
        }
        if (from == Kind.AVOID && wide > 2) {
          worth -= 1.0;
        }
        if (wide >= 3 && wide <= 4 && (from != Kind.CHORD && to != Kind.CHORD)) {
          worth -= 0.5;
        }
        if (wide >= 5 && to != Kind.CHORD) {
          worth -= 0.5;
        }
        if (change && resolves(spans[i - 1], spans[i], low + a, low + b)) {
          worth += 0.3;
        }
        if (lastPair && wide > 7) {
          worth -= 1.5;
        }
        weights[a][b] = StrictMath.exp(worth);
      }
    }
    return weights;
  }

  /** The seventh that falls a semitone or tone to the third of a chord a fourth higher. */
  static boolean resolves(Changes.Span from, Changes.Span to, int before, int after) {
    int fall = before - after;
    if (fall < 1 || fall > 2) {
      return false;
    }
    int up = Math.floorMod(to.heard().root().pitchClass() - from.heard().root().pitchClass(), 12);
    int seventh = Math.floorMod(before - from.heard().root().pitchClass(), 12);
    int third = Math.floorMod(after - to.heard().root().pitchClass(), 12);
    return up == 5 && (seventh == 10 || seventh == 11) && (third == 3 || third == 4);
  }

  /**
   * Weights of two intervals in a row; {@code target}: the third tone is a chord tone on a beat.
   */
  private static double[][] triples(boolean target) {
    int span = 2 * WIDEST + 1;
    double[][] weights = new double[span][span];
    for (int first = -WIDEST; first <= WIDEST; first++) {
      for (int second = -WIDEST; second <= WIDEST; second++) {
        weights[first + WIDEST][second + WIDEST] = StrictMath.exp(turn(first, second, target));
      }
    }
    return weights;
  }

  private static double turn(int first, int second, boolean target) {
    int wide1 = Math.abs(first);
    int wide2 = Math.abs(second);
    boolean same = first * second > 0;
    boolean step1 = wide1 == 1 || wide1 == 2;
    boolean step2 = wide2 == 1 || wide2 == 2;
    boolean skip1 = wide1 == 3 || wide1 == 4;
    boolean skip2 = wide2 == 3 || wide2 == 4;
    double worth = 0;
    if (first == 0 && second == 0) {
      worth -= 5;
    }
    if (wide1 >= 5) {
      worth += same ? (step2 ? -0.5 : -2.6) : step2 ? 0.7 : skip2 ? 0.1 : -1.2;
    }
    if (wide2 >= 5 && wide1 < 5) {
      worth += same && step1 ? -0.4 : 0;
    }
    if (first == -second && first != 0) {
      worth -= wide1 >= 3 ? 2.0 : 1.1;
    }
    if (same && step1 && step2) {
      worth += 0.35;
      if (wide1 == 1 && wide2 == 1) {
        worth -= 0.9;
      }
    }
    if (same && skip1 && skip2) {
      worth += 0.9;
    }
    if (!same && skip1 && skip2) {
      worth -= 0.5;
    }
    if (same && skip1 && step2) {
      worth += 0.1;
    }
    if (target) {
      boolean enclosed =
          first * second < 0 && wide1 <= 4 && wide1 > wide2 && wide2 <= 2 && wide1 - wide2 <= 2;
      worth += enclosed ? 0.25 : 0;
    }
    return worth;
  }

  /** Sums forwards; false when the fixed pitches leave no line. */
  private boolean sum() {
    int count = unary.length;
    for (int i = 0; i < count; i++) {
      forward[i] = i == 0 ? null : new double[size][size];
      double total = 0;
      if (i == 0) {
        for (double weight : unary[0]) {
          total += weight;
        }
        if (!(total > 0)) {
          return false;
        }
        continue;
      }
      for (int b = 0; b < size; b++) {
        for (int c = Math.max(0, b - WIDEST); c < Math.min(size, b + WIDEST + 1); c++) {
          if (unary[i][c] == 0) {
            continue;
          }
          double before = 0;
          if (i == 1) {
            before = unary[0][b];
          } else {
            double[][] turns = triples[onTarget[i][c] ? 1 : 0];
            for (int a = Math.max(0, b - WIDEST); a < Math.min(size, b + WIDEST + 1); a++) {
              before += forward[i - 1][a][b] * turns[b - a + WIDEST][c - b + WIDEST];
            }
          }
          double weight = before * pairs[i][b][c] * unary[i][c];
          forward[i][b][c] = weight;
          total += weight;
        }
      }
      if (!(total > 0)) {
        return false;
      }
      for (double[] row : forward[i]) {
        for (int c = 0; c < size; c++) {
          row[c] /= total;
        }
      }
    }
    return true;
  }

  /** False when no line can satisfy the fixed pitches. */
  boolean possible() {
    return possible;
  }

  /** One line, as MIDI numbers. */
  int[] line(Chance chance) {
    int count = unary.length;
    int[] line = new int[count];
    if (count == 1) {
      line[0] = low + chance.index(unary[0]);
      return line;
    }
    double[] flat = new double[size * size];
    for (int b = 0; b < size; b++) {
      System.arraycopy(forward[count - 1][b], 0, flat, b * size, size);
    }
    int drawn = chance.index(flat);
    int b = drawn / size;
    int c = drawn % size;
    line[count - 1] = low + c;
    line[count - 2] = low + b;
    for (int i = count - 1; i >= 2; i--) {
      double[][] turns = triples[onTarget[i][c] ? 1 : 0];
      double[] weights = new double[size];
      for (int a = Math.max(0, b - WIDEST); a < Math.min(size, b + WIDEST + 1); a++) {
        weights[a] = forward[i - 1][a][b] * turns[b - a + WIDEST][c - b + WIDEST];
      }
      int a = chance.index(weights);
      line[i - 2] = low + a;
      c = b;
      b = a;
    }
    return line;
  }
}
