package phrasecensus.report.engraving;

import java.util.List;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/**
 * A bar as signs on a staff.
 *
 * @param signs in order of time, filling the bar
 */
record WrittenBar(SoloLine.BarSpan bar, List<Sign> signs) {
  WrittenBar {
    signs = List.copyOf(signs);
  }

  /**
   * A note or a rest of one written value.
   *
   * @param onset in quarter notes from the start of the solo
   * @param length sounding, in quarter notes
   * @param beat start of the beat it belongs to, from the start of the bar; what beams keep to
   * @param value how it is written; null for a rest that fills its bar
   * @param pitch null for a rest
   * @param noteIndex the note that it is, or is part of; -1 for a rest
   * @param begins true where the note begins here, false where it is tied over
   * @param tied true where it goes on in the next sign
   * @param tuplets those it stands in, outermost first
   */
  record Sign(
      Fraction onset,
      Fraction length,
      Fraction beat,
      WrittenValue value,
      WrittenPitch pitch,
      int noteIndex,
      boolean begins,
      boolean tied,
      List<Tuplet> tuplets) {
    Sign {
      tuplets = List.copyOf(tuplets);
    }

    /** The outermost tuplet; null when it stands in none. */
    Tuplet tuplet() {
      return tuplets.isEmpty() ? null : tuplets.get(0);
    }

    boolean isRest() {
      return pitch == null;
    }

    Fraction end() {
      return onset.plus(length);
    }
  }

  /**
   * A tuplet.
   *
   * @param onset in quarter notes from the start of the solo
   * @param count how many stand …
   * @param normal … in the time of how many
   */
  record Tuplet(Fraction onset, Fraction length, int count, int normal) {}
}
