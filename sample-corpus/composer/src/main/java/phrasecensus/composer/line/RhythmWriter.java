package phrasecensus.composer.line;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.composer.chance.Chance;
import phrasecensus.composer.tune.Tune;

/** Fills a planned phrase with onsets, one beat cell after the other. */
final class RhythmWriter {
  private static final int BEAT = Tune.QUARTER;

  /** Below this tempo the double-time feel sets in; quarter notes per minute. */
  private static final int SLOW = 100;

  private final Tune tune;
  private final Style style;
  private final Habits habits;
  private final int tempo;
  private final double longNotes;
  private final Chance chance;

  /** Beats that should have been long by now and were not. */
  private double owed;

  RhythmWriter(
      Tune tune, Style style, Habits habits, int tempo, Departure departure, Chance chance) {
    this.tune = tune;
    this.style = style;
    this.habits = habits;
    this.tempo = tempo;
    this.longNotes = departure.of(Departure.Kind.LONG_NOTES);
    this.chance = chance;
  }

  /** A fresh rhythm from {@code start} to a last onset at {@code last}. */
  Rhythm fresh(int start, int last) {
    List<Integer> onsets = new ArrayList<>();
    List<Integer> joints = new ArrayList<>();
    int beat = Math.floorDiv(start + BEAT - 1, BEAT) * BEAT;
    if (beat > start) {
      onsets.add(start);
    }
    continued(onsets, joints, beat, last);
    return new Rhythm(onsets, joints);
  }

  /** The beginning of another phrase up to one of its joints, moved to {@code start}, then on. */
  Rhythm answer(Rhythm model, int joint, int start, int last) {
    int shift = start - model.onsets().get(0);
    List<Integer> onsets = new ArrayList<>();
    List<Integer> joints = new ArrayList<>();
    for (int onset : model.onsets()) {
      if (onset < joint) {
        onsets.add(onset + shift);
      }
    }
    for (int earlier : model.joints()) {
      if (earlier < joint) {
        joints.add(earlier + shift);
      }
    }
    continued(onsets, joints, joint + shift, last);
    return new Rhythm(onsets, joints);
  }

  private void continued(List<Integer> onsets, List<Integer> joints, int from, int last) {
    int beat = from;
    int finalBeat = Math.floorDiv(last, BEAT) * BEAT;
    BeatCell before = null;
    while (beat < finalBeat) {
      BeatCell cell = cell(beat, finalBeat, before, onsets.isEmpty());
      joints.add(beat);
      for (int onset : cell.onsets()) {
        onsets.add(beat + onset);
      }
      beat += cell.beats() * BEAT;
      before = cell;
    }
    joints.add(beat);
    if (last > finalBeat && longNotes < 1 && !chance.happens(0.25)) {
      onsets.add(finalBeat);
    }
    if (onsets.isEmpty() || onsets.get(onsets.size() - 1) < last) {
      onsets.add(last);
    }
  }

  private BeatCell cell(int beat, int finalBeat, BeatCell before, boolean first) {
    int room = (finalBeat - beat) / BEAT;
    int place = Math.floorMod(beat, tune.barTicks()) / BEAT;
    if (longNotes > 0 && chance.happens(longNotes * 0.94 + 0.2 * owed)) {
      BeatCell held =
          room >= 4 && chance.happens(0.35)
              ? BeatCell.WHOLE
              : room >= 2 ? BeatCell.HALF : BeatCell.QUARTER;
      owed += (longNotes - 1) * held.beats();
      return held;
    }
    owed += longNotes;
    BeatCell[] cells = BeatCell.values();
    double[] weights = new double[cells.length];
    for (BeatCell cell : cells) {
      double weight = style.cells().getOrDefault(cell, 0.0);
      if (tempo < SLOW) {
        weight = slow(cell, weight);
      }
      if (cell.beats() > room || place + cell.beats() > tune.beats()) {
        weight = 0;
      }
      weight *=
          switch (cell) {
            case EIGHTHS -> habits.density() * (before == BeatCell.EIGHTHS ? 1.4 : 1);
            case SIXTEENTHS, TWO_ONE, ONE_TWO -> habits.density();
            case TRIPLET, LONG_SHORT, TURN, QUARTER_TRIPLET ->
                habits.triplets() * (before == BeatCell.TRIPLET ? 0.6 : 1);
            case OFFBEAT -> first ? 0 : offbeat(place, before);
            case DOTTED, QUARTER, CHARLESTON, SYNCOPATED, HALF, WHOLE -> 1;
          };
      if (cell == BeatCell.QUARTER_TRIPLET && place % 2 != 0) {
        weight = 0;
      }
      if (first && (cell == BeatCell.HALF || cell == BeatCell.QUARTER)) {
        weight *= 0.7;
      }
      weights[cell.ordinal()] = weight;
    }
    return cells[chance.index(weights)];
  }

  /** A tie over the beat: likeliest over the bar line, never out of an uneven cell. */
  private double offbeat(int place, BeatCell before) {
    if (before == null || before == BeatCell.OFFBEAT) {
      return 0.3;
    }
    return switch (before) {
      case EIGHTHS, SYNCOPATED, CHARLESTON -> place == 0 ? 1.6 : place == 2 ? 1.1 : 0.6;
      case QUARTER, OFFBEAT, TWO_ONE -> 0.5;
      case TRIPLET, LONG_SHORT, DOTTED, SIXTEENTHS, ONE_TWO, TURN, HALF, QUARTER_TRIPLET, WHOLE ->
          0;
    };
  }

  private static double slow(BeatCell cell, double weight) {
    return switch (cell) {
      case SIXTEENTHS -> 2.6;
      case TWO_ONE, ONE_TWO -> 1.3;
      case TRIPLET -> 1.6;
      case TURN -> 0;
      case EIGHTHS -> 3;
      case QUARTER -> 0.8;
      case CHARLESTON, SYNCOPATED, QUARTER_TRIPLET -> weight * 0.5;
      case OFFBEAT, LONG_SHORT, DOTTED, HALF, WHOLE -> weight;
    };
  }

  /** Gives each onset its sounding length; the last tone lasts until {@code free} at most. */
  List<Slot> slots(Rhythm rhythm, int free) {
    List<Slot> slots = new ArrayList<>();
    List<Integer> onsets = rhythm.onsets();
    for (int i = 0; i < onsets.size(); i++) {
      int onset = onsets.get(i);
      if (i + 1 < onsets.size()) {
        int length = onsets.get(i + 1) - onset;
        boolean plain = onset % (BEAT / 2) == 0 && length % (BEAT / 2) == 0;
        boolean cut = plain && length >= BEAT && longNotes == 0 && chance.happens(style.detached());
        slots.add(new Slot(onset, cut ? length - BEAT / 2 : length));
      } else {
        slots.add(new Slot(onset, Math.max(BEAT / 2, Math.min(lastLength(onset), free - onset))));
      }
    }
    return slots;
  }

  private int lastLength(int onset) {
    if (chance.happens(longNotes)) {
      return 2 * BEAT;
    }
    boolean onBeat = Math.floorMod(onset, BEAT) == 0;
    double[] weights = onBeat ? new double[] {4, 4, 1.5, 1.5} : new double[] {6, 2.2, 1.2, 0.6};
    double calm = style.cells().getOrDefault(BeatCell.HALF, 0.0);
    weights[2] *= 1 + 2 * calm;
    weights[3] *= 1 + 3 * calm;
    int[] lengths = onBeat ? new int[] {12, 24, 36, 48} : new int[] {12, 24, 36, 60};
    return lengths[chance.index(weights)];
  }
}
