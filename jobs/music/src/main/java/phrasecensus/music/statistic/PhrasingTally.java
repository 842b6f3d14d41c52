package phrasecensus.music.statistic;

import java.util.List;
import java.util.OptionalDouble;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.rest.Stretch;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.ScoreTime;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Span;
import phrasecensus.music.time.Fraction;

/** Counts for the facet <i>phrasing</i>, phrase by phrase in the order of the solo. */
final class PhrasingTally {
  private static final Fraction TWO = Fraction.of(2);
  private static final int BEATS_COUNTED = 4;

  private int phrases;
  private int notes;
  private final Sample bars = new Sample();
  private final Sample beats = new Sample();
  private final Sample seconds = new Sample();
  private final Sample onsetSpanBars = new Sample();
  private final Sample barsTouched = new Sample();
  private final Sample noteCounts = new Sample();
  private final Sample silenceBeats = new Sample();
  private final Sample silenceSeconds = new Sample();

  /** Phrases whose length rounds to 0, 1, 2, 3, 4 bars, and longer ones. */
  private final int[] byWholeBars = new int[6];

  private final Sample startBeats = new Sample();
  private final Sample endBeats = new Sample();
  private final int[] startsByBeat = new int[BEATS_COUNTED];
  private final int[] endsByBeat = new int[BEATS_COUNTED];
  private int startsOnBeat;
  private int endsOnBeat;
  private int pickups;

  private int placedStarts;
  private int startsOfGroup;
  private int placedEnds;
  private int endsOfGroup;
  private int startsOfSection;
  private int inSections;
  private int acrossSections;
  private int inChoruses;
  private int acrossChoruses;

  private SoloAnalysis analysis;
  private Solo solo;
  private Note firstNote;
  private Note lastNote;
  private double soundingQuarters;

  private Fraction silenceBefore;
  private Fraction runEnd;
  private Note runStart;
  private int runNotes;
  private int longestRunNotes;
  private Fraction longestRunBars = Fraction.ZERO;
  private boolean runWithoutMetre;

  void add(PhraseLine line) {
    analysis = line.analysis();
    solo = line.solo();
    Note first = line.first();
    Note last = line.last();
    phrases++;
    notes += line.size();
    addLength(line, first, last);
    addSilence(line);
    addPlaces(line, last);
    for (int i = 0; i < line.size(); i++) {
      addToRun(line, i);
    }
    if (firstNote == null) {
      firstNote = first;
    }
    lastNote = last;
  }

  private void addLength(PhraseLine line, Note first, Note last) {
    Fraction end = line.end();
    if (line.bars() != null) {
      bars.add(line.bars().toDouble());
      byWholeBars[wholeBars(line.bars())]++;
      beats.add(line.beats().toDouble());
    }
    Fraction onsetSpan = ScoreTime.bars(solo, first.onset(), last.onset(), first.barIndex());
    if (onsetSpan != null) {
      onsetSpanBars.add(onsetSpan.toDouble());
    }
    OptionalDouble inSeconds = ScoreTime.seconds(solo, first.onset(), end);
    if (inSeconds.isPresent()) {
      seconds.add(inSeconds.getAsDouble());
    }
    barsTouched.add(barsTouched(first, end));
    noteCounts.add(line.size());
  }

  /** Length rounded to whole bars, halves up; 5 stands for five and more. */
  private static int wholeBars(Fraction bars) {
    return (int) Math.min(5, bars.plus(Fraction.HALF).floor());
  }

  /**
   * Bars in which it sounds; the later part of a bar that is written in two parts is no new bar.
   */
  private int barsTouched(Note first, Fraction end) {
    List<Bar> all = solo.bars();
    int touched = 1;
    for (int i = first.barIndex() + 1; i < all.size() && all.get(i).onset().isBefore(end); i++) {
      if (all.get(i).length().isPositive()
          && (all.get(i).pickup() || all.get(i).metricalOffset().isZero())) {
        touched++;
      }
    }
    return touched;
  }

  private void addSilence(PhraseLine line) {
    Fraction next = line.nextOnset(line.size() - 1);
    Fraction end = line.end();
    if (next == null || ScoreTime.isUncertain(solo, end, next)) {
      return;
    }
    Fraction inBeats = ScoreTime.beats(solo, end, next, solo.barAt(end).index());
    if (inBeats != null) {
      silenceBeats.add(inBeats.toDouble());
    }
    OptionalDouble inSeconds = ScoreTime.seconds(solo, end, next);
    if (inSeconds.isPresent()) {
      silenceSeconds.add(inSeconds.getAsDouble());
    }
  }

  private void addPlaces(PhraseLine line, Note last) {
    BeatPlace start = line.place(0);
    boolean pickup = false;
    if (start != null) {
      startBeats.add(1 + start.beats().toDouble());
      if (start.isOnBeat()) {
        startsOnBeat++;
      }
      countBeat(startsByBeat, start);
      Fraction nextBarLine =
          line.first().onset().plus(start.metre().barLength().minus(start.quarters()));
      pickup = start.isInSecondHalf() && last.onset().isAtLeast(nextBarLine);
      pickups += pickup ? 1 : 0;
    }
    BeatPlace end = line.place(line.size() - 1);
    if (end != null) {
      endBeats.add(1 + end.beats().toDouble());
      if (end.isOnBeat()) {
        endsOnBeat++;
      }
      countBeat(endsByBeat, end);
    }
    addFormPlaces(line.analysis().form(), line.first().barIndex(), last.barIndex(), pickup);
  }

  /** A phrase with a pickup starts in the form with the bar that the pickup leads into. */
  private void addFormPlaces(SoloForm form, int firstBar, int lastBar, boolean pickup) {
    int startBar = pickup ? Math.min(SoloForm.nextFullBar(solo, firstBar), lastBar) : firstBar;
    int startGroup = form.barInGroupOfFour(startBar);
    if (startGroup != SoloForm.UNKNOWN) {
      placedStarts++;
      startsOfGroup += startGroup == 1 ? 1 : 0;
    }
    int endGroup = form.barInGroupOfFour(lastBar);
    if (endGroup != SoloForm.UNKNOWN) {
      placedEnds++;
      endsOfGroup += endGroup == 4 ? 1 : 0;
    }
    if (form.section(startBar) != SoloForm.UNKNOWN) {
      startsOfSection += form.barInSection(startBar) == 1 ? 1 : 0;
      inSections++;
      acrossSections += form.section(startBar) != form.section(lastBar) ? 1 : 0;
    }
    if (form.chorus(startBar) != SoloForm.UNKNOWN) {
      inChoruses++;
      acrossChoruses += form.chorus(startBar) != form.chorus(lastBar) ? 1 : 0;
    }
  }

  private static void countBeat(int[] counts, BeatPlace place) {
    long beat = place.beatNumber();
    if (beat >= 1 && beat <= BEATS_COUNTED) {
      counts[(int) beat - 1]++;
    }
  }

  private void addToRun(PhraseLine line, int i) {
    Note note = line.note(i);
    if (runStart != null && silenceBefore.isPositive()) {
      BeatPlace place = line.place(i);
      Fraction beat = place == null ? Fraction.ONE : place.metre().beatLength();
      if (silenceBefore.times(TWO).isAtLeast(beat)) {
        endRun();
      }
    }
    if (runStart == null) {
      runStart = note;
      runNotes = 0;
    }
    runNotes++;
    runEnd = line.end(i);
    silenceBefore = line.silenceAfter(i);
    soundingQuarters += note.length().toDouble();
  }

  private void endRun() {
    longestRunNotes = Math.max(longestRunNotes, runNotes);
    Fraction inBars = ScoreTime.bars(solo, runStart.onset(), runEnd, runStart.barIndex());
    if (inBars == null) {
      runWithoutMetre = true;
    } else {
      longestRunBars = Fraction.larger(longestRunBars, inBars);
    }
    runStart = null;
  }

  void phraseValues(StatisticList out) {
    out.median("phrase_length_bars", bars);
    out.median("phrase_length_beats", beats);
    out.median("phrase_length_seconds", seconds);
    out.median("phrase_onset_span_bars", onsetSpanBars);
    out.median("phrase_bars_touched", barsTouched);
    out.median("phrase_notes", noteCounts);
    out.median("phrase_start_beat", startBeats);
    out.median("phrase_end_beat", endBeats);
    out.share("phrase_starts_on_beat", startsOnBeat, startBeats.size());
    out.share("phrase_ends_on_beat", endsOnBeat, endBeats.size());
    out.share("phrase_starts_with_pickup", pickups, startBeats.size());
    out.median("silence_after_beats", silenceBeats);
    out.median("silence_after_seconds", silenceSeconds);
  }

  void soloValues(StatisticList out) {
    if (runStart != null) {
      endRun();
    }
    out.median("phrase_length_bars", bars);
    out.median("phrase_length_beats", beats);
    out.median("phrase_length_seconds", seconds);
    out.median("phrase_onset_span_bars", onsetSpanBars);
    out.median("phrase_bars_touched", barsTouched);
    out.median("phrase_notes", noteCounts);
    out.share("phrase_starts_on_beat", startsOnBeat, startBeats.size());
    out.share("phrase_ends_on_beat", endsOnBeat, endBeats.size());
    out.share("phrase_starts_with_pickup", pickups, startBeats.size());
    for (int beat = 0; beat < BEATS_COUNTED; beat++) {
      out.share("phrase_starts_beat_" + (beat + 1), startsByBeat[beat], startBeats.size());
    }
    for (int beat = 0; beat < BEATS_COUNTED; beat++) {
      out.share("phrase_ends_beat_" + (beat + 1), endsByBeat[beat], endBeats.size());
    }
    out.share("phrase_starts_four_bar_group", startsOfGroup, placedStarts);
    out.share("phrase_ends_four_bar_group", endsOfGroup, placedEnds);
    out.share("phrase_starts_section", startsOfSection, inSections);
    out.share("phrase_crosses_section", acrossSections, inSections);
    out.share("phrase_crosses_chorus", acrossChoruses, inChoruses);
    out.median("silence_after_beats", silenceBeats);
    out.median("silence_after_seconds", silenceSeconds);
    out.share("phrases_under_half_bar", byWholeBars[0], bars.size());
    out.share("phrases_one_bar", byWholeBars[1], bars.size());
    out.share("phrases_two_bars", byWholeBars[2], bars.size());
    out.share("phrases_three_bars", byWholeBars[3], bars.size());
    out.share("phrases_four_bars", byWholeBars[4], bars.size());
    out.share("phrases_longer", byWholeBars[5], bars.size());
    out.add("phrase_length_variety", beats.spreadInDoublings(), beats.size());
    out.add("longest_run_notes", phrases == 0 ? null : (double) longestRunNotes, notes);
    out.add(
        "longest_run_bars",
        phrases == 0 || runWithoutMetre ? null : longestRunBars.toDouble(),
        notes);
    out.add("phrase_count", phrases == 0 ? null : (double) phrases, phrases);
    out.ratio("phrases_per_8_bars", 8.0 * phrases, playedBars(), phrases);
    double quarters = playedQuarters();
    // Lengths are rounded one by one, so their sum may pass an unbroken whole by a hair.
    out.ratio("sounding_share", Math.min(soundingQuarters, quarters), quarters, notes);
    StretchCounts stretches = StretchCounts.of(stretches());
    out.ratio(
        "unbroken_time_share", stretches.unbrokenBars(), stretches.bars(), stretches.barsBegun());
    out.ratio("scrap_time_share", stretches.scrapBars(), stretches.bars(), stretches.barsBegun());
    out.add("longest_stretch_bars", stretches.longest(), stretches.count());
    out.share("short_stretch_share", stretches.scraps(), stretches.count());
  }

  private List<Stretch> stretches() {
    return analysis == null ? List.of() : analysis.stretches();
  }

  /**
   * Bars from the first onset to the end of the last note, without stretches that are neither note
   * nor rest; 0 when there are none or no metre.
   */
  double playedBars() {
    if (phrases == 0) {
      return 0;
    }
    Fraction length = ScoreTime.bars(solo, firstNote.onset(), lastNote.end(), firstNote.barIndex());
    for (Span span : solo.unknownSpans()) {
      Fraction from = Fraction.larger(span.onset(), firstNote.onset());
      Fraction to = Fraction.smaller(span.end(), lastNote.end());
      if (length != null && from.isBefore(to)) {
        Fraction unknown = ScoreTime.bars(solo, from, to, solo.barAt(from).index());
        length = unknown == null ? null : length.minus(unknown);
      }
    }
    return length == null ? 0 : length.toDouble();
  }

  /** The same in quarter notes, with or without a metre. */
  private double playedQuarters() {
    if (phrases == 0) {
      return 0;
    }
    Fraction length = lastNote.end().minus(firstNote.onset());
    for (Span span : solo.unknownSpans()) {
      Fraction from = Fraction.larger(span.onset(), firstNote.onset());
      Fraction to = Fraction.smaller(span.end(), lastNote.end());
      if (from.isBefore(to)) {
        length = length.minus(to.minus(from));
      }
    }
    return length.toDouble();
  }

  /** Seconds from the first onset to the end of the last note; 0 without notes or tempo. */
  double playedSeconds() {
    return phrases == 0 ? 0 : ScoreTime.seconds(solo, firstNote.onset(), lastNote.end()).orElse(0);
  }
}
