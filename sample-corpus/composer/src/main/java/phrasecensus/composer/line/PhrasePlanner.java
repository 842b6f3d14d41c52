package phrasecensus.composer.line;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.composer.chance.Chance;
import phrasecensus.composer.tune.Tune;

/** Lays phrases over the form: where each begins and where its last tone stands. */
final class PhrasePlanner {
  private static final int BEAT = Tune.QUARTER;
  private static final int PROPOSALS = 24;

  /** Median length in beats of a student's phrases at full departure: nine bars of four. */
  private static final double UNBROKEN_BEATS = 36;

  /** Share of the usual silence that is left at full departure. */
  private static final double UNBROKEN_REST = 0.45;

  /** A breath: shorter silences do not part phrases. */
  private static final double BREATH_SECONDS = 0.34;

  /** Longest phrase of a player who breathes, in seconds, and of one who need not. */
  private static final double WIND_SECONDS = 8.0;

  private static final double HAND_SECONDS = 11.0;

  /**
   * A planned phrase.
   *
   * @param start onset of its first tone
   * @param last onset of its last tone
   */
  record Plan(int start, int last) {}

  private final Tune tune;
  private final Style style;
  private final Habits habits;
  private final boolean wind;
  private final double beatSeconds;
  private final Departure departure;
  private final Chance chance;

  PhrasePlanner(
      Tune tune,
      Style style,
      Habits habits,
      boolean wind,
      int tempo,
      Departure departure,
      Chance chance) {
    this.tune = tune;
    this.style = style;
    this.habits = habits;
    this.wind = wind;
    this.beatSeconds = 60.0 / tempo;
    this.departure = departure;
    this.chance = chance;
  }

  /** Least silence between two phrases, in ticks, on the grid of half beats. */
  int leastRest() {
    int halves = (int) StrictMath.ceil(2 * BREATH_SECONDS / beatSeconds);
    return Math.max(BEAT, halves * BEAT / 2);
  }

  List<Plan> plans(int end, boolean pickup) {
    List<Plan> plans = new ArrayList<>();
    int free = pickup ? -BEAT : chance.element(List.of(0, 12, 24, 36, 60));
    boolean first = true;
    while (true) {
      Plan plan = proposal(free, first && pickup, end);
      if (plan == null) {
        return plans;
      }
      plans.add(plan);
      first = false;
      free = plan.last() + BEAT / 2;
    }
  }

  private Plan proposal(int free, boolean pickup, int end) {
    List<Plan> candidates = new ArrayList<>();
    double[] weights = new double[PROPOSALS];
    int lastPossible = end - BEAT;
    for (int i = 0; i < PROPOSALS; i++) {
      int start = pickup ? chance.element(List.of(-24, -12, -36)) : start(free);
      int last = start + length();
      last = snap(last, 0.42 + 0.58 * departure.of(Departure.Kind.LONG_NOTES));
      if (last > lastPossible) {
        last = lastPossible - (chance.happens(0.5) ? BEAT / 2 : 0);
      }
      Plan plan = new Plan(start, last);
      candidates.add(plan);
      boolean possible = last - start >= 3 * BEAT / 2 && start >= (pickup ? -36 : free);
      weights[i] = possible ? weight(plan, end) : 0;
    }
    for (double weight : weights) {
      if (weight > 0) {
        return candidates.get(chance.index(weights));
      }
    }
    return null;
  }

  private int start(int free) {
    double spaced = style.restBeats() * habits.space();
    double beats = chance.logNormal(spaced, style.restSpread());
    double kept = departure.of(Departure.Kind.NO_RESTS);
    beats *= StrictMath.pow(UNBROKEN_REST, kept);
    int rest = free <= 0 ? 0 : Math.max(leastRest(), (int) (beats * BEAT));
    double offbeat = style.offbeatStart() * (1 - departure.of(Departure.Kind.LONG_NOTES));
    int start = snap(free + rest, 1 - offbeat);
    return start < free + (free <= 0 ? 0 : leastRest()) ? start + BEAT : start;
  }

  private int length() {
    double scale = tune.beats() / 4.0;
    double usual = style.phraseBeats() * (tune.beats() == 3 ? 0.5 + scale / 2 : 1);
    double breath = (wind ? WIND_SECONDS : HAND_SECONDS) / beatSeconds;
    double strength = departure.of(Departure.Kind.NO_RESTS);
    double beats = Math.min(chance.logNormal(usual, style.phraseSpread()), breath);
    double unbroken = chance.logNormal(UNBROKEN_BEATS, 0.2);
    double mixed = StrictMath.pow(beats, 1 - strength) * StrictMath.pow(unbroken, strength);
    return (int) (Math.max(1.5, Math.min(mixed, 56)) * BEAT);
  }

  /** To a beat with the given probability, else to the half beat. */
  private int snap(int tick, double onBeat) {
    int beat = Math.floorDiv(tick, BEAT) * BEAT;
    return chance.happens(onBeat) ? beat : beat + BEAT / 2;
  }

  /** Prefers ends in the third and fourth bar of four, and phrases inside the sections of eight. */
  private double weight(Plan plan, int end) {
    int barOfFour = Math.floorMod(Math.floorDiv(plan.last(), tune.barTicks()), 4);
    double[] ends = {0.75, 0.8, 1.5, 1.25};
    double weight = ends[barOfFour];
    int section = 8 * tune.barTicks();
    boolean twelve = tune.bars().size() % 12 == 0;
    if (twelve) {
      section = 4 * tune.barTicks();
    }
    int border = Math.floorDiv(plan.last(), section) * section;
    boolean crosses = border > plan.start() + BEAT && plan.last() > border + BEAT;
    if (crosses) {
      weight *= twelve ? 0.6 : 0.45;
    }
    if (end - plan.last() < 8 * BEAT && end - plan.last() > 4 * BEAT) {
      weight *= 0.7;
    }
    return weight;
  }
}
