package phrasecensus.composer.line;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import phrasecensus.composer.chance.Chance;
import phrasecensus.composer.harmony.ChordKind.Family;
import phrasecensus.composer.tune.Tune;

/** Makes a solo: plans phrases, gives them rhythm and pitches, and chooses among several tries. */
public final class Improviser {
  private static final int BEAT = Tune.QUARTER;

  /** Lines drawn for a phrase, of which the best is kept. */
  private static final int TRIES = 28;

  /** Mean share of chord tones aimed at; lines come out a little above it. */
  private static final double CHORD_TONES = 0.49;

  /** Spread of that share between solos: published solos differ much (see the README). */
  private static final double CHORD_TONES_SPREAD = 0.05;

  private final Tune tune;
  private final int choruses;
  private final int tempo;
  private final Style style;
  private final Habits habits;
  private final Compass compass;
  private final Departure departure;
  private final Chance chance;
  private final Changes changes;
  private final Changes deaf;
  private final double aimedShare;

  /**
   * Prepares a solo.
   *
   * @param tune what is played
   * @param choruses how often
   * @param tempo quarter notes per minute
   * @param style how it is played
   * @param habits by whom
   * @param compass on what
   * @param departure a student's known departure
   * @param seed equal seeds give equal solos
   */
  public Improviser(
      Tune tune,
      int choruses,
      int tempo,
      Style style,
      Habits habits,
      Compass compass,
      Departure departure,
      long seed) {
    this.tune = tune;
    this.choruses = choruses;
    this.tempo = tempo;
    this.style = style;
    this.habits = habits;
    this.compass = compass;
    this.departure = departure;
    this.chance = new Chance(seed);
    this.changes = Changes.of(tune, choruses);
    double away = chance.branch("chord tones").normal();
    this.aimedShare = CHORD_TONES + CHORD_TONES_SPREAD * Math.max(-1.8, Math.min(1.8, away));
    this.deaf = Changes.ignoring(changes.farthest(), changes.end());
  }

  private record Written(Rhythm rhythm, List<Slot> slots, int[] pitches) {}

  /** The solo. */
  public Solo solo() {
    Chance planning = chance.branch("plan");
    boolean pickup = departure.kind() == Departure.Kind.NONE && planning.happens(0.35);
    PhrasePlanner planner =
        new PhrasePlanner(tune, style, habits, compass.wind(), tempo, departure, planning);
    List<PhrasePlanner.Plan> plans = planner.plans(changes.end(), pickup);
    List<Tone> tones = new ArrayList<>();
    Written before = null;
    List<Changes> hearings = new ArrayList<>();
    double owed = 0;
    for (int i = 0; i < plans.size(); i++) {
      PhrasePlanner.Plan plan = plans.get(i);
      int free =
          i + 1 < plans.size() ? plans.get(i + 1).start() - planner.leastRest() : changes.end();
      int length = plan.last() - plan.start();
      owed += departure.of(Departure.Kind.IGNORES_CHANGES) * length;
      boolean listens = owed < length / 2.0;
      owed -= listens ? 0 : length;
      boolean closing = i == plans.size() - 1;
      hearings.add(listens ? changes : deaf);
      before = phrase(i, closing, plan, free, before, hearings.get(i), tones);
    }
    int start = tones.isEmpty() ? 0 : Math.min(0, tones.get(0).onset());
    int pickupTicks = start == 0 ? 0 : -Math.floorDiv(start, BEAT) * BEAT;
    return new Solo(
        tune, choruses, tempo, pickupTicks, Speller.spelled(tones, hearings, tune.key()), changes);
  }

  private Written phrase(
      int index,
      boolean closing,
      PhrasePlanner.Plan plan,
      int free,
      Written before,
      Changes hearing,
      List<Tone> tones) {
    Chance own = chance.branch("phrase " + index);
    RhythmWriter writer = new RhythmWriter(tune, style, habits, tempo, departure, own);
    int start = plan.start();
    int joint = before == null || !own.happens(style.motif()) ? -1 : joint(before, plan, own);
    Rhythm rhythm;
    int copied = 0;
    if (joint >= 0) {
      int first = before.rhythm().onsets().get(0);
      int grid = 2 * BEAT;
      int aligned = start + Math.floorMod(first - start, grid);
      if (aligned - start >= BEAT && index > 0 && aligned - grid >= earliest(tones)) {
        aligned -= grid;
      }
      int copiedJoint = joint;
      copied = (int) before.rhythm().onsets().stream().filter(o -> o < copiedJoint).count();
      int last = Math.max(plan.last(), aligned + joint - first);
      if (last + BEAT / 2 > free) {
        rhythm = writer.fresh(start, plan.last());
        copied = 0;
      } else {
        rhythm = writer.answer(before.rhythm(), joint, aligned, last);
      }
    } else {
      rhythm = writer.fresh(start, plan.last());
    }
    List<Slot> slots = writer.slots(rhythm, free);
    int[] pitches = pitches(index, closing, slots, hearing, before, copied, own);
    place(index, slots, pitches, hearing, tones, own);
    return new Written(rhythm, slots, pitches);
  }

  private int earliest(List<Tone> tones) {
    return tones.get(tones.size() - 1).end() + BEAT;
  }

  /** A place three to six tones into the earlier phrase where its motif may stop, -1 for none. */
  private int joint(Written before, PhrasePlanner.Plan plan, Chance own) {
    List<Integer> fitting = new ArrayList<>();
    int first = before.rhythm().onsets().get(0);
    for (int joint : before.rhythm().joints()) {
      long inside = before.rhythm().onsets().stream().filter(o -> o < joint).count();
      boolean fits = joint - first <= plan.last() - plan.start() - BEAT;
      if (inside >= 3 && inside <= 7 && fits) {
        fitting.add(joint);
      }
    }
    return fitting.isEmpty() ? -1 : own.element(fitting);
  }

  private int[] pitches(
      int index,
      boolean closing,
      List<Slot> slots,
      Changes hearing,
      Written before,
      int copied,
      Chance own) {
    int count = slots.size();
    double[] curve = curve(slots, before, own);
    double[] pull = new double[count];
    Arrays.fill(pull, 0.032);
    if (copied > 0) {
      int moved = own.element(List.of(-3, -2, -1, 0, 0, 1, 2, 3));
      for (int i = 0; i < Math.min(copied, count - 1); i++) {
        curve[i] = within(before.pitches()[i] + moved);
        pull[i] = 0.45;
      }
    }
    double[] landing = landing(!closing && own.happens(0.22));
    int blueThird =
        tune.blues() && style.blue() != 0 ? (tune.key().tonic().pitchClass() + 3) % 12 : -1;
    double pullToChord = style.chordPull() + 7 * (aimedShare - CHORD_TONES);
    for (int attempt = 0; ; attempt++) {
      int[] fixed = new int[count];
      Arrays.fill(fixed, -1);
      if (attempt < 3) {
        placeFigures(slots, hearing, curve, copied, fixed, own);
      }
      PitchSampler sampler =
          new PitchSampler(
              slots,
              hearing,
              style,
              habits,
              new PitchSampler.Aim(
                  compass.low(),
                  compass.high(),
                  curve,
                  pull,
                  fixed,
                  landing,
                  blueThird,
                  pullToChord));
      if (sampler.possible()) {
        return best(sampler, slots, hearing, own);
      }
      if (attempt > 3) {
        throw new IllegalStateException("Cannot write phrase " + index + " of " + tune.title());
      }
    }
  }

  private int[] best(PitchSampler sampler, List<Slot> slots, Changes hearing, Chance own) {
    int[] best = null;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < TRIES; i++) {
      int[] line = sampler.line(own);
      double cost = LineJudge.cost(line, slots, hearing, aimedShare);
      if (cost < least) {
        least = cost;
        best = line;
      }
    }
    return best;
  }

  private double middle() {
    return (compass.low() + compass.high()) / 2.0 + habits.register();
  }

  private double within(double pitch) {
    return Math.max(compass.low() + 1, Math.min(compass.high() - 1, pitch));
  }

  /** Where the line leans: one of four contours, with waves in a long phrase. */
  private double[] curve(List<Slot> slots, Written before, Chance own) {
    int count = slots.size();
    int from = slots.get(0).onset();
    double beats = Math.max(1, (slots.get(count - 1).onset() - from) / (double) BEAT);
    double place = Math.max(0, from) / (double) changes.end();
    double climax = 3.5 * (1 - Math.min(1, Math.abs(place - 0.68) / 0.5)) - 1;
    double centre = middle() + climax;
    if (before != null) {
      double lastPitch = before.pitches()[before.pitches().length - 1];
      centre = 0.65 * centre + 0.35 * lastPitch;
    }
    centre += own.between(-4.5, 4.5);
    double width = Math.min(11, 3.8 + 0.9 * beats) * own.between(0.8, 1.25);
    int contour = own.index(new double[] {0.36, 0.29, 0.21, 0.14});
    double[] curve = new double[count];
    double waves = beats > 7 ? Math.round(beats / 6.5) : 0;
    double swing = own.happens(0.5) ? 2.6 : -2.6;
    for (int i = 0; i < count; i++) {
      double x = (slots.get(i).onset() - from) / (beats * BEAT);
      double arch = 4 * x * (1 - x);
      double shape =
          switch (contour) {
            case 0 -> 0.5 - x;
            case 1 -> 0.75 * arch - 0.45;
            case 2 -> x - 0.5;
            default -> 0.45 - 0.75 * arch;
          };
      double wave = waves == 0 ? 0 : swing * StrictMath.sin(2 * Math.PI * waves * x);
      curve[i] = within(centre + width * shape + wave);
    }
    return curve;
  }

  /**
   * Weights of the degrees a phrase comes to rest on. Root and fifth lead, then third and seventh,
   * then ninth and thirteenth ({@code colour}), near the shares found in published solos (see the
   * README).
   */
  private static double[] landing(boolean colour) {
    double[] weights = new double[12];
    weights[0] = colour ? 0.15 : 1.0;
    weights[7] = colour ? 0.2 : 0.9;
    weights[6] = 0.35;
    weights[8] = 0.2;
    weights[3] = colour ? 0.15 : 0.75;
    weights[4] = colour ? 0.15 : 0.75;
    weights[10] = colour ? 0.15 : 0.45;
    weights[11] = colour ? 0.15 : 0.45;
    weights[2] = colour ? 1.0 : 0.1;
    weights[9] = colour ? 0.7 : 0.25;
    weights[5] = colour ? 0.4 : 0.05;
    weights[1] = 0.02;
    return weights;
  }

  private void placeFigures(
      List<Slot> slots, Changes hearing, double[] curve, int copied, int[] fixed, Chance own) {
    int i = copied;
    while (i < slots.size() - 2) {
      List<Figure> fitting = fitting(slots, i, hearing);
      if (!fitting.isEmpty() && own.happens(style.figures())) {
        double[] weights = new double[fitting.size()];
        for (int j = 0; j < weights.length; j++) {
          weights[j] = habits.favourites().contains(fitting.get(j).name()) ? 4 : 1;
        }
        Figure figure = fitting.get(own.index(weights));
        int root = rootFor(figure, slots, i, hearing, curve);
        if (root >= 0) {
          for (int j = 0; j < figure.semitones().size(); j++) {
            fixed[i + j] = root + figure.semitones().get(j);
          }
          i += figure.semitones().size() + 2;
          continue;
        }
      }
      i++;
    }
  }

  private List<Figure> fitting(List<Slot> slots, int from, Changes hearing) {
    List<Figure> fitting = new ArrayList<>();
    Slot slot = slots.get(from);
    Changes.Span span = hearing.of(slot.onset(), slot.length());
    for (Figure figure : Figure.ALL) {
      int count = figure.semitones().size();
      if (from + count >= slots.size() || !figure.families().contains(family(span))) {
        continue;
      }
      int step = slots.get(from + 1).onset() - slot.onset();
      boolean fits =
          figure.triplet()
              ? step == BEAT / 3 && Math.floorMod(slot.onset(), BEAT) == 0
              : (step == BEAT / 2 || step == BEAT / 4)
                  && Math.floorMod(slot.onset(), 2 * step) == 0;
      for (int j = 1; j < count && fits; j++) {
        Slot here = slots.get(from + j);
        int gap = here.onset() - slots.get(from + j - 1).onset();
        boolean even = figure.triplet() ? j > 2 || gap == step : gap == step;
        fits = even && hearing.of(here.onset(), here.length()).index() == span.index();
      }
      if (fits) {
        fitting.add(figure);
      }
    }
    return fitting;
  }

  private static Family family(Changes.Span span) {
    return span.heard().kind().family();
  }

  /** The octave of the chord root that brings the figure nearest to the curve, -1 for none near. */
  private int rootFor(Figure figure, List<Slot> slots, int from, Changes hearing, double[] curve) {
    Slot slot = slots.get(from);
    int pitchClass = hearing.of(slot.onset(), slot.length()).heard().root().pitchClass();
    int best = -1;
    double least = 5.5;
    for (int root = pitchClass; root < 110; root += 12) {
      double distance = 0;
      boolean inside = true;
      for (int j = 0; j < figure.semitones().size(); j++) {
        int midi = root + figure.semitones().get(j);
        inside &= midi >= compass.low() && midi <= compass.high();
        distance += (midi - curve[from + j]) / figure.semitones().size();
      }
      if (inside && Math.abs(distance) < least) {
        least = Math.abs(distance);
        best = root;
      }
    }
    return best;
  }

  private void place(
      int index, List<Slot> slots, int[] pitches, Changes hearing, List<Tone> tones, Chance own) {
    for (int i = 0; i < slots.size(); i++) {
      Slot slot = slots.get(i);
      boolean last = i == slots.size() - 1;
      boolean cut = !last && slot.end() < slots.get(i + 1).onset();
      boolean onBeat = Math.floorMod(slot.onset(), BEAT) == 0;
      boolean peak = i > 0 && !last && pitches[i] > pitches[i - 1] && pitches[i] > pitches[i + 1];
      Tone.Mark mark = Tone.Mark.NONE;
      if (cut && own.happens(0.6)) {
        mark = Tone.Mark.STACCATO;
      } else if (!onBeat && peak && own.happens(0.3)) {
        mark = Tone.Mark.ACCENT;
      } else if (slot.length() >= 2 * BEAT && own.happens(0.4)) {
        mark = Tone.Mark.TENUTO;
      }
      boolean slur = !last && !cut && !onBeat && pitches[i] != pitches[i + 1] && own.happens(0.3);
      boolean roomForGrace = i == 0 || Math.abs(pitches[i] - pitches[i - 1]) >= 3;
      boolean stable =
          hearing.of(slot.onset(), slot.length()).heard().holds(Math.floorMod(pitches[i], 12));
      boolean grace =
          onBeat
              && stable
              && slot.length() >= BEAT / 2
              && roomForGrace
              && pitches[i] - 1 >= compass.low()
              && own.happens(0.05);
      tones.add(
          new Tone(
              slot.onset(),
              slot.length(),
              pitches[i],
              null,
              index,
              mark,
              slur,
              grace ? pitches[i] - 1 : -1));
    }
  }
}
