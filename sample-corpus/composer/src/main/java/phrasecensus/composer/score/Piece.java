package phrasecensus.composer.score;

import phrasecensus.composer.line.Tone;

/**
 * One written note or rest: a tone may need several, tied.
 *
 * @param start ticks from the start of its bar
 * @param length ticks
 * @param tone the tone, null for a rest
 * @param tieStop true when it goes on from the piece before
 * @param tieStart true when it goes on in the piece after
 * @param tuplet triplet it is in, null for none
 */
record Piece(int start, int length, Tone tone, boolean tieStop, boolean tieStart, Triplet tuplet) {
  /**
   * A stretch of three units in the time of two.
   *
   * @param start ticks from the start of the bar
   * @param end first tick after it
   */
  record Triplet(int start, int end) {}

  int end() {
    return start + length;
  }

  boolean rest() {
    return tone == null;
  }

  /** Length the written value would have outside a triplet, in ticks. */
  int written() {
    return tuplet == null ? length : length * 3 / 2;
  }

  /**
   * Name of the written value, dots left out.
   *
   * @throws IllegalStateException if no single value has this length
   */
  String type() {
    return switch (written()) {
      case 96 -> "whole";
      case 72, 48 -> "half";
      case 36, 24 -> "quarter";
      case 18, 12 -> "eighth";
      case 6 -> "16th";
      default -> throw new IllegalStateException("Cannot write one note of " + this);
    };
  }

  boolean dotted() {
    return written() % 18 == 0;
  }

  /** Beams it takes when beamed: 0 for a quarter and longer. */
  int beams() {
    return written() < 12 ? 2 : written() < 24 ? 1 : 0;
  }
}
