package phrasecensus.music.statistic;

import java.util.HashMap;
import java.util.Map;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;

/** Counts for the facet <i>movement</i>, phrase by phrase in the order of the solo. */
final class MovementTally {
  private int notes;
  private double soundingQuarters;
  private final int[] valueCounts = new int[NoteValue.values().length];
  private final double[] valueQuarters = new double[NoteValue.values().length];

  private double phraseQuarters;
  private double restQuarters;
  private double phraseBeats;
  private double phraseBars;
  private int notesInMetre;
  private boolean withoutMetre;

  private double gapVariability;
  private int gapPairs;
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
    phraseQuarters += phrase.phraseQuarters;
    restQuarters += phrase.restQuarters;
    phraseBeats += phrase.phraseBeats;
    phraseBars += phrase.phraseBars;
    notesInMetre += phrase.notesInMetre;
    withoutMetre |= phrase.withoutMetre;
    gapVariability += phrase.gapVariability;
    gapPairs += phrase.gapPairs;
    equalGapPairs += phrase.equalGapPairs;
    placedNotes += phrase.placedNotes;
    offBeat += phrase.offBeat;
    anticipations += phrase.anticipations;
    syncopation += phrase.syncopation;
    beatDistance += phrase.beatDistance;
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
    Note note = line.note(i);
    Fraction next = line.nextOnset(i);
    placedNotes++;
    if (!place.isOnBeat()) {
      offBeat++;
      Fraction beats = place.beats();
      Fraction nextBeat = Fraction.of(beats.floor() + 1);
      Fraction held = beats.plus(inBeats(note.length(), place.metre()));
      if (nextBeat.minus(beats).compareTo(Fraction.HALF) <= 0 && held.isAfter(nextBeat)) {
        anticipations++;
      }
      Fraction silence = line.silenceAfter(i);
      beatDistance +=
          MetricalDistance.term(
              beats, silence.isZero() ? held : held.plus(inBeats(silence, place.metre())));
    }
    if (!place.isOnBeatOne()) {
      syncopation +=
          grid(place.metre())
              .excess(
                  place.quarters(),
                  next == null ? null : place.quarters().plus(next.minus(note.onset())));
    }
  }

  private static Fraction inBeats(Fraction quarters, Metre metre) {
    Fraction beat = metre.beatLength();
    return beat.equals(Fraction.ONE) ? quarters : quarters.dividedBy(beat);
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
      if (silence.isAtLeast(beat)) {
        previous = null;
        continue;
      }
      Fraction gap = line.note(i + 1).onset().minus(line.note(i).onset());
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
    Note first = line.first();
    Fraction end = line.end();
    phraseQuarters += end.minus(first.onset()).toDouble();
    Fraction bars = ScoreTime.bars(line.solo(), first.onset(), end, first.barIndex());
    if (bars == null) {
      withoutMetre = true;
      return;
    }
    phraseBars += bars.toDouble();
    phraseBeats += ScoreTime.beats(line.solo(), first.onset(), end, first.barIndex()).toDouble();
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
    sharedValues(out);
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
