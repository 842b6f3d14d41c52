package phrasecensus.music.statistic;

import java.util.HashMap;
import java.util.Map;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/** Counts for the facet <i>movement</i>, phrase by phrase in the order of the solo. */
final class MovementTally {
  private static final Fraction SWUNG_TRIPLET = Fraction.of(2, 3);
  private static final Fraction SWUNG_DOTTED = Fraction.of(3, 4);

  private int notes;
  private double soundingQuarters;
  private final int[] valueCounts = new int[NoteValue.values().length];
  private final double[] valueQuarters = new double[NoteValue.values().length];

  private int eighthOrShorter;

  private double phraseQuarters;
  private double restQuarters;
  private double phraseBeats;
  private double phraseBars;
  private int notesInMetre;
  private boolean withoutMetre;

  private double gapVariability;
  private int gapPairs;
  private int gaps;
  private int eighthGaps;
  private int equalGapPairs;

  private int placedNotes;
  private int offBeat;
  private int anticipations;
  private int syncopation;
  private double beatDistance;

  private final Map<Metre, MetricalGrid> grids = new HashMap<>();
  private Metre gridMetre;
  private MetricalGrid grid;

  void add(PhraseLine line) {
    notes += line.size();
    for (int i = 0; i < line.size(); i++) {
      addNoteValue(line.note(i).length());
      eighthOrShorter += isEighthOrShorter(line, i) ? 1 : 0;
      addPlace(line, i);
    }
    addGaps(line);
    addLength(line);
  }

  /** Adds what was counted in a phrase. */
  void add(MovementTally phrase) {
    notes += phrase.notes;
    soundingQuarters += phrase.soundingQuarters;
    Counts.add(valueCounts, phrase.valueCounts);
    Counts.add(valueQuarters, phrase.valueQuarters);
    eighthOrShorter += phrase.eighthOrShorter;
    phraseQuarters += phrase.phraseQuarters;
    restQuarters += phrase.restQuarters;
    phraseBeats += phrase.phraseBeats;
    phraseBars += phrase.phraseBars;
    notesInMetre += phrase.notesInMetre;
    withoutMetre |= phrase.withoutMetre;
    gapVariability += phrase.gapVariability;
    gapPairs += phrase.gapPairs;
    gaps += phrase.gaps;
    eighthGaps += phrase.eighthGaps;
    equalGapPairs += phrase.equalGapPairs;
    placedNotes += phrase.placedNotes;
    offBeat += phrase.offBeat;
    anticipations += phrase.anticipations;
    syncopation += phrase.syncopation;
    beatDistance += phrase.beatDistance;
  }

  /**
   * True for an eighth or shorter, and for the long note of a swung pair that is written out: on a
   * quarter, two thirds or three quarters of it long, and no member of a run of such notes.
   */
  private static boolean isEighthOrShorter(PhraseLine line, int i) {
    Fraction length = line.note(i).length();
    if (!length.isAfter(Fraction.HALF)) {
      return true;
    }
    BeatPlace place = line.place(i);
    if (place == null
        || !place.quarters().isWhole()
        || !(length.equals(SWUNG_TRIPLET) || length.equals(SWUNG_DOTTED))) {
      return false;
    }
    Fraction next = line.nextOnset(i);
    return next == null || next.isAfter(line.end(i)) || !length.equals(line.nextLength(i));
  }

  private void addNoteValue(Fraction length) {
    int value = NoteValue.of(length).ordinal();
    double quarters = length.toDouble();
    valueCounts[value]++;
    valueQuarters[value] += quarters;
    soundingQuarters += quarters;
  }

  private void addPlace(PhraseLine line, int i) {
    BeatPlace place = line.place(i);
    if (place == null) {
      return;
    }
    placedNotes++;
    if (place.isOnBeatOne()) {
      return;
    }
    Fraction silence = line.silenceAfter(i);
    Fraction held = place.quarters().plus(line.note(i).length());
    Fraction next = silence.isZero() ? held : held.plus(silence);
    if (!place.isOnBeat()) {
      offBeat++;
      if (place.isInSecondHalfOfBeat()
          && BeatPlace.inBeats(held, place.metre()).isAfter(Fraction.of(place.beatNumber()))) {
        anticipations++;
      }
      beatDistance += MetricalDistance.term(place.beats(), BeatPlace.inBeats(next, place.metre()));
    }
    syncopation += grid(place.metre()).excess(place.quarters(), line.isLastOfSolo(i) ? null : next);
  }

  private MetricalGrid grid(Metre metre) {
    if (metre != gridMetre) {
      gridMetre = metre;
      grid = grids.computeIfAbsent(metre, MetricalGrid::new);
    }
    return grid;
  }

  /**
   * Onset gaps and rests; a silence of a beat or more inside the phrase parts two chains of gaps.
   */
  private void addGaps(PhraseLine line) {
    Fraction previous = null;
    for (int i = 0; i + 1 < line.size(); i++) {
      BeatPlace place = line.place(i);
      Fraction beat = place == null ? Fraction.ONE : place.metre().beatLength();
      Fraction silence = line.silenceAfter(i);
      restQuarters += silence.toDouble();
      Fraction gap = line.gapAfter(i);
      gaps++;
      eighthGaps += gap.equals(Fraction.HALF) ? 1 : 0;
      if (silence.isAtLeast(beat)) {
        previous = null;
        continue;
      }
      if (previous != null) {
        gapVariability += PairwiseVariability.term(previous.toDouble(), gap.toDouble());
        gapPairs++;
        if (gap.equals(previous)) {
          equalGapPairs++;
        }
      }
      previous = gap;
    }
  }

  private void addLength(PhraseLine line) {
    phraseQuarters += line.end().minus(line.first().onset()).toDouble();
    if (line.bars() == null) {
      withoutMetre = true;
      return;
    }
    phraseBars += line.bars().toDouble();
    phraseBeats += line.beats().toDouble();
    notesInMetre += line.size();
  }

  void phraseValues(StatisticList out) {
    out.share("value_share_eighth", valueCounts[NoteValue.EIGHTH.ordinal()], notes);
    sharedValues(out);
  }

  void soloValues(StatisticList out, PhrasingTally phrasing) {
    for (NoteValue value : NoteValue.values()) {
      out.share("value_share_" + value.word(), valueCounts[value.ordinal()], notes);
    }
    for (NoteValue value : NoteValue.values()) {
      out.ratio(
          "time_share_" + value.word(), valueQuarters[value.ordinal()], soundingQuarters, notes);
    }
    out.add("note_value_entropy", notes == 0 ? null : Entropy.bits(valueCounts), notes);
    out.ratio("notes_per_bar", notes, phrasing.playedBars(), notes);
    out.ratio("notes_per_second", notes, phrasing.playedSeconds(), notes);
    out.share("onset_gap_eighth_share", eighthGaps, gaps);
    sharedValues(out);
    out.share("eighth_or_shorter_share", eighthOrShorter, notes);
  }

  private void sharedValues(StatisticList out) {
    out.ratio("notes_per_beat", notesInMetre, phraseBeats, notesInMetre);
    out.add("onset_gap_npvi", gapPairs == 0 ? null : gapVariability / gapPairs, gapPairs);
    out.share("equal_gap_share", equalGapPairs, gapPairs);
    out.share("off_beat_share", offBeat, placedNotes);
    out.share("anticipation_share", anticipations, placedNotes);
    out.ratio("syncopation_per_bar", syncopation, withoutMetre ? 0 : phraseBars, placedNotes);
    out.ratio("beat_distance", beatDistance, placedNotes, placedNotes);
    out.ratio("rest_inside_share", restQuarters, phraseQuarters, notes);
  }
}
