package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.score.Bar;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.musicxml.PartReading.BarReading;
import phrasecensus.readers.musicxml.PlayOrder.Visit;

/**
 * The bars of a part in the order that is wanted, as written or as played, each with its place in
 * time and in its metre.
 */
final class PlayedBars {
  private final PartReading part;
  private final ProblemLog problems;
  private final boolean asPlayed;
  private final List<Visit> order;
  private final List<Bar> bars = new ArrayList<>();
  private final int[][] playedAt;

  /**
   * @throws phrasecensus.readers.Refusal if unfolding gives more bars than the limit
   */
  PlayedBars(ScoreReading score, PartReading part, ReadSettings settings, ProblemLog problems) {
    this.part = part;
    this.problems = problems;
    this.asPlayed = settings.asPlayed();
    this.order = asPlayed ? unfolded(score, settings.limit(Limit.UNFOLDED_BARS)) : asWritten();
    placeBars();
    this.playedAt = playedAt();
  }

  List<Bar> bars() {
    return bars;
  }

  /** True when every bar comes once, in the order of the score. */
  boolean isAsWritten() {
    return !asPlayed;
  }

  /** Number of bars in this order. */
  int count() {
    return order.size();
  }

  Bar bar(int played) {
    return bars.get(played);
  }

  /** The bar as written that is played at a place of the order. */
  int written(int played) {
    return order.get(played).bar();
  }

  /** When a place in a bar as written comes in one playing of that bar. */
  Fraction moment(int played, Fraction offset) {
    return bars.get(played).onset().plus(offset);
  }

  /** True unless a note sounds only on other passes than this one. */
  boolean soundsOn(NoteReading note, int played) {
    return !asPlayed
        || note.timeOnly().isEmpty()
        || BarSignsBuilder.passes(note.timeOnly()).contains(order.get(played).number());
  }

  private List<Visit> asWritten() {
    List<Visit> visits = new ArrayList<>(part.bars().size());
    for (int bar = 0; bar < part.bars().size(); bar++) {
      visits.add(new Visit(bar, 1));
    }
    return visits;
  }

  private List<Visit> unfolded(ScoreReading score, long mostBars) {
    List<BarSigns> signs = new ArrayList<>();
    for (int bar = 0; bar < part.bars().size(); bar++) {
      BarSigns all = part.bars().get(bar).signs();
      for (PartReading other : score.parts()) {
        if (other != part && bar < other.bars().size()) {
          all = all.and(other.bars().get(bar).signs());
        }
      }
      signs.add(all);
    }
    if (PlayOrder.hasJumpWordsOnly(signs)) {
      problem(
          "",
          "jump-by-words",
          "jumps that only words and signs tell",
          "they are played as the usual words mean");
      signs = PlayOrder.withWords(signs);
    }
    return PlayOrder.of(signs, mostBars);
  }

  private void placeBars() {
    List<Fraction> offsets = metricalOffsets();
    boolean pickup = !offsets.isEmpty() && offsets.get(0).isPositive();
    Fraction onset = Fraction.ZERO;
    for (int played = 0; played < order.size(); played++) {
      int index = order.get(played).bar();
      BarReading bar = part.bars().get(index);
      bars.add(
          new Bar(
              played,
              bar.number(),
              onset,
              bar.length(),
              bar.metre(),
              offsets.get(index),
              index == 0 && pickup));
      onset = onset.plus(bar.length());
    }
  }

  /** Where the first moment of each bar as written stands in a full bar of its metre. */
  private List<Fraction> metricalOffsets() {
    List<Fraction> offsets = new ArrayList<>();
    List<BarReading> read = part.bars();
    for (int i = 0; i < read.size(); i++) {
      BarReading bar = read.get(i);
      Fraction full = bar.metre().barLength();
      Fraction offset = Fraction.ZERO;
      if (!bar.metre().isFree() && bar.length().isPositive() && bar.length().isBefore(full)) {
        if (i == 0) {
          offset = read.size() > 1 ? pickupOffset(bar, full) : Fraction.ZERO;
        } else {
          Fraction before = offsets.get(i - 1).plus(read.get(i - 1).length());
          Fraction joined = before.plus(bar.length());
          boolean split = before.isBefore(full) && joined.compareTo(full) <= 0;
          if (split && (bar.implicit() || joined.equals(full))) {
            offset = before;
          } else if (bar.implicit() || completesBarOfAnotherMetre(i)) {
            offset = full.minus(bar.length());
          }
        }
      }
      offsets.add(offset);
    }
    reportLengths(offsets);
    return offsets;
  }

  /**
   * Bars whose content is longer or shorter than their metre and that are no pickup, no part of a
   * split bar, no end of a repeat that a pickup completes, and no short last bar, after which
   * nothing stands in another place.
   */
  private void reportLengths(List<Fraction> offsets) {
    List<BarReading> read = part.bars();
    Map<Fraction, Integer> shortBars = new HashMap<>();
    for (BarReading bar : read) {
      if (bar.length().isBefore(bar.metre().barLength())) {
        shortBars.merge(bar.length(), 1, Integer::sum);
      }
    }
    for (int i = 0; i < read.size(); i++) {
      BarReading bar = read.get(i);
      Fraction full = bar.metre().barLength();
      if (bar.metre().isFree() || bar.length().equals(full)) {
        continue;
      }
      boolean longer = bar.length().isAfter(full);
      if (longer || !isCompletedElsewhere(i, offsets, shortBars)) {
        problem(
            bar.number(),
            "bar-length",
            "a bar of " + bar.length() + " quarter notes in " + bar.metre().text(),
            "it is as long as what is in it");
      }
    }
  }

  /** True for the pickup of a section in another metre that completes the bar before it. */
  private boolean completesBarOfAnotherMetre(int index) {
    BarReading bar = part.bars().get(index);
    BarReading before = part.bars().get(index - 1);
    Fraction full = before.metre().barLength();
    return !before.metre().barLength().equals(bar.metre().barLength())
        && before.length().isBefore(full)
        && before.length().plus(bar.length()).equals(full);
  }

  private boolean isCompletedElsewhere(
      int index, List<Fraction> offsets, Map<Fraction, Integer> shortBars) {
    List<BarReading> read = part.bars();
    BarReading bar = read.get(index);
    boolean followedBySplit =
        index + 1 < read.size()
            && (read.get(index + 1).implicit()
                || offsets.get(index + 1).isPositive()
                || bar.length().plus(read.get(index + 1).length()).equals(bar.metre().barLength()));
    boolean last = index == read.size() - 1;
    if (index == 0
        || last
        || bar.implicit()
        || offsets.get(index).isPositive()
        || followedBySplit) {
      return true;
    }
    Fraction missing = bar.metre().barLength().minus(bar.length());
    boolean ends = bar.signs().backwardRepeat() || bar.signs().endingStop();
    if (completesBarOfAnotherMetre(index)) {
      return true;
    }
    int others = shortBars.getOrDefault(missing, 0) - (missing.equals(bar.length()) ? 1 : 0);
    return ends && others > 0;
  }

  private Fraction pickupOffset(BarReading first, Fraction full) {
    boolean marked = first.implicit() || first.number().equals("0");
    if (!marked) {
      boolean complemented =
          part.bars().stream()
              .skip(1)
              .filter(
                  b -> b.signs().backwardRepeat() || b == part.bars().get(part.bars().size() - 1))
              .anyMatch(b -> b.length().plus(first.length()).equals(full));
      if (!complemented) {
        problem(
            first.number(),
            "short-first-bar",
            "a first bar of "
                + first.length()
                + " quarter notes in "
                + first.metre().text()
                + " that is not marked as a pickup",
            "it is read as a pickup");
      }
    }
    return full.minus(first.length());
  }

  /** For each bar as written the places where it is played. */
  private int[][] playedAt() {
    int[][] places = new int[part.bars().size()][];
    int[] counts = new int[part.bars().size()];
    for (Visit visit : order) {
      counts[visit.bar()]++;
    }
    for (int i = 0; i < counts.length; i++) {
      places[i] = new int[counts[i]];
      counts[i] = 0;
    }
    for (int played = 0; played < order.size(); played++) {
      int bar = order.get(played).bar();
      places[bar][counts[bar]++] = played;
    }
    return places;
  }

  int[] playedAt(int bar) {
    return bar < playedAt.length ? playedAt[bar] : new int[0];
  }

  Fraction length() {
    return bars.isEmpty() ? Fraction.ZERO : bars.get(bars.size() - 1).end();
  }

  private void problem(String bar, String code, String found, String done) {
    problems.add(part.description().id(), bar, code, found, done);
  }
}
