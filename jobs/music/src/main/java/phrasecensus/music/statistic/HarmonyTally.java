package phrasecensus.music.statistic;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import phrasecensus.music.analysis.GuideTones;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.harmony.CentreScale;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.landing.Landings;
import phrasecensus.music.landing.RestingNote;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Solo;

/** Counts for the facet <i>harmony</i>, phrase by phrase in the order of the solo. */
final class HarmonyTally {
  private static final int[] MAJOR_SCALE = {0, 2, 4, 5, 7, 9, 11};
  private static final List<Tone> TONES = List.of(Tone.values());

  private final Share landings = new Share();
  private final Map<Landing.Kind, Share> landingsByKind = new EnumMap<>(Landing.Kind.class);
  private final int[] approaches = new int[Landing.Approach.values().length];
  private int approached;

  private final Share ends = new Share();
  private final Share endsOnGuideTone = new Share();
  private final int[] endsByTone = new int[TONES.size()];

  private final Share notes = new Share();
  private final Share downbeats = new Share();
  private final Share otherBeats = new Share();
  private final Share offBeats = new Share();
  private int writtenTensions;
  private double chordToneQuarters;
  private double judgedQuarters;

  private final Share centreScale = new Share();
  private int scaleTones;
  private TonalCentre.Mode scaleMode;
  private int scaleSize;
  private final Share inKey = new Share();
  private final int[] centredPitchClasses = new int[12];
  private final Share outside = new Share();
  private final Share unexplained = new Share();

  private final Share chordToneAtChange = new Share();
  private final Share nextGuideTone = new Share();
  private final Share enclosedOnBeat = new Share();
  private SoloAnalysis analysis;

  HarmonyTally() {
    for (Landing.Kind kind : Landing.Kind.values()) {
      landingsByKind.put(kind, new Share());
    }
  }

  /** A part of a whole, counted. */
  private static final class Share {
    private int part;
    private int whole;

    void count(boolean fits) {
      whole++;
      part += fits ? 1 : 0;
    }

    void add(Share other) {
      part += other.part;
      whole += other.whole;
    }
  }

  /** The core tones of a chord and the rest, as a landing is told. */
  private enum Tone {
    ROOT,
    THIRD,
    FIFTH,
    SEVENTH,
    OTHER;

    final String key = "phrase_ends_on_" + name().toLowerCase(Locale.ROOT);

    /** A suspended second or fourth counts as the third it replaces, a sixth as the seventh. */
    static Tone of(ChordDegree degree) {
      if (!degree.isCoreChordTone()) {
        return OTHER;
      }
      String name = degree.name();
      return switch (name.charAt(name.length() - 1)) {
        case '1' -> ROOT;
        case '2', '3', '4' -> THIRD;
        case '5' -> FIFTH;
        case '6', '7' -> SEVENTH;
        default -> OTHER;
      };
    }
  }

  void add(PhraseLine line) {
    analysis = line.analysis();
    for (int i = 0; i < line.size(); i++) {
      addNote(line, i);
      addChange(line, i);
    }
    addOutsideNotes(line);
    addLandings(line);
    NoteHarmony last = line.harmony(line.size() - 1);
    if (last.hasVerdict()) {
      ends.count(last.isCoreChordTone());
      endsOnGuideTone.count(last.degree().role() == ChordDegree.Role.GUIDE_TONE);
      endsByTone[Tone.of(last.degree()).ordinal()]++;
    }
  }

  /** Adds what was counted in a phrase. */
  void add(HarmonyTally phrase) {
    analysis = phrase.analysis;
    landings.add(phrase.landings);
    landingsByKind.forEach((kind, share) -> share.add(phrase.landingsByKind.get(kind)));
    Counts.add(approaches, phrase.approaches);
    approached += phrase.approached;
    ends.add(phrase.ends);
    endsOnGuideTone.add(phrase.endsOnGuideTone);
    Counts.add(endsByTone, phrase.endsByTone);
    notes.add(phrase.notes);
    downbeats.add(phrase.downbeats);
    otherBeats.add(phrase.otherBeats);
    offBeats.add(phrase.offBeats);
    writtenTensions += phrase.writtenTensions;
    chordToneQuarters += phrase.chordToneQuarters;
    judgedQuarters += phrase.judgedQuarters;
    centreScale.add(phrase.centreScale);
    scaleTones += phrase.scaleTones;
    inKey.add(phrase.inKey);
    Counts.add(centredPitchClasses, phrase.centredPitchClasses);
    outside.add(phrase.outside);
    unexplained.add(phrase.unexplained);
    chordToneAtChange.add(phrase.chordToneAtChange);
    nextGuideTone.add(phrase.nextGuideTone);
    enclosedOnBeat.add(phrase.enclosedOnBeat);
  }

  private void addNote(PhraseLine line, int i) {
    NoteHarmony harmony = line.harmony(i);
    if (harmony.centre().isKnown()) {
      centreScale.count(harmony.inCentreScale());
      inKey.count(harmony.inKey());
      centredPitchClasses[line.note(i).concert().pitchClass()]++;
      scaleTones += scaleSize(harmony);
    }
    if (!harmony.hasVerdict()) {
      return;
    }
    boolean fits = harmony.isCoreChordTone();
    notes.count(fits);
    if (harmony.degree().role() == ChordDegree.Role.WRITTEN_TENSION) {
      writtenTensions++;
    }
    double quarters = line.note(i).length().toDouble();
    judgedQuarters += quarters;
    chordToneQuarters += fits ? quarters : 0;
    BeatPlace place = line.place(i);
    if (place != null) {
      (place.isOnBeatOne() ? downbeats : place.isOnBeat() ? otherBeats : offBeats).count(fits);
      if (fits && place.isOnBeat() && i >= 2) {
        enclosedOnBeat.count(Landings.isEnclosed(line.midi(i - 2), line.midi(i - 1), line.midi(i)));
      }
    }
  }

  /** Tones in the scale of the centre; only that of a modal centre depends on the chord. */
  private int scaleSize(NoteHarmony harmony) {
    TonalCentre centre = harmony.centre();
    boolean modal = centre.mode() == TonalCentre.Mode.MODAL;
    if (modal || centre.mode() != scaleMode) {
      scaleMode = centre.mode();
      Chord chord = modal && harmony.chord() != null ? harmony.chord().concert() : null;
      CentreScale scale = CentreScale.of(centre, chord).orElse(null);
      scaleSize = scale == null ? 0 : scale.semitones().size();
    }
    return scaleSize;
  }

  /** The first note under a chord that differs from the chord written before it. */
  private void addChange(PhraseLine line, int i) {
    int index = line.phrase().firstNote() + i;
    NoteHarmony harmony = line.harmony(i);
    if (index == 0 || !harmony.hasVerdict()) {
      return;
    }
    NoteHarmony before = analysis.harmony().get(index - 1);
    if (before.chord() == harmony.chord() || harmony.chord().equals(before.chord())) {
      return;
    }
    ChordSpan previous = chordBefore(line.solo(), harmony.chord());
    if (previous != null && harmony.chord().concert().isChangeFrom(previous.concert())) {
      chordToneAtChange.count(harmony.isCoreChordTone());
    }
  }

  /** The chord span before this one; null when there is none. */
  private static ChordSpan chordBefore(Solo solo, ChordSpan chord) {
    List<ChordSpan> chords = solo.chords();
    int low = 0;
    int high = chords.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (chords.get(middle).onset().isBefore(chord.onset())) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low == 0 ? null : chords.get(low - 1);
  }

  private void addOutsideNotes(PhraseLine line) {
    for (OutsideNotes.Place place : OutsideNotes.places(line)) {
      if (place != OutsideNotes.Place.NOT_JUDGED) {
        outside.count(place != OutsideNotes.Place.INSIDE);
        unexplained.count(place == OutsideNotes.Place.UNEXPLAINED);
      }
    }
  }

  private void addLandings(PhraseLine line) {
    for (Landing landing : line.landings()) {
      NoteHarmony harmony = line.analysis().harmony().get(landing.noteIndex());
      if (harmony.hasVerdict()) {
        if (landing.kind() != Landing.Kind.CHORD_ARRIVAL) {
          landings.count(harmony.isCoreChordTone());
        }
        for (Landing.Kind kind : landing.kinds()) {
          landingsByKind.get(kind).count(harmony.isCoreChordTone());
        }
      }
      if (landing.nextGuideTone() != null) {
        nextGuideTone.count(landing.nextGuideTone());
      }
      if (landing.approach() != Landing.Approach.NONE) {
        approached++;
        approaches[landing.approach().ordinal()]++;
      }
    }
  }

  void phraseValues(StatisticList out) {
    share(out, "landing_chord_tone_share", landings);
    share(out, "phrase_ends_on_chord_tone", ends);
    phraseEnds(out);
    share(out, "chord_tone_share", notes);
    out.ratio("chord_tone_time_share", chordToneQuarters, judgedQuarters, notes.whole);
    centre(out);
    share(out, "outside_share", outside);
    share(out, "unexplained_outside_share", unexplained);
  }

  void soloValues(StatisticList out) {
    soloValues(
        out,
        analysis == null ? new GuideTones.AtChanges(0, 0) : GuideTones.atChanges(analysis),
        analysis == null ? new GuideTones.Resolutions(0, 0) : GuideTones.resolutions(analysis));
  }

  /** The values of a part of the solo, without resolutions, which join phrases. */
  void partValues(StatisticList out, GuideTones.AtChanges atChanges) {
    soloValues(out, atChanges, new GuideTones.Resolutions(0, 0));
  }

  private void soloValues(
      StatisticList out, GuideTones.AtChanges atChanges, GuideTones.Resolutions resolutions) {
    share(out, "landing_chord_tone_share", landings);
    share(out, "phrase_ends_on_chord_tone", ends);
    share(out, "before_rest_chord_tone_share", landingsByKind.get(Landing.Kind.BEFORE_REST));
    share(out, "held_chord_tone_share", landingsByKind.get(Landing.Kind.HELD));
    share(out, "chord_arrival_chord_tone_share", landingsByKind.get(Landing.Kind.CHORD_ARRIVAL));
    phraseEnds(out);
    share(out, "chord_tone_share", notes);
    out.ratio("chord_tone_time_share", chordToneQuarters, judgedQuarters, notes.whole);
    share(out, "chord_tone_share_beat_one", downbeats);
    share(out, "chord_tone_share_other_beats", otherBeats);
    share(out, "chord_tone_share_off_beat", offBeats);
    out.share("written_tension_share", writtenTensions, notes.whole);
    centre(out);
    share(out, "chord_tone_at_change_share", chordToneAtChange);
    out.share("guide_tone_at_change_share", atChanges.reached(), atChanges.changes());
    out.share("guide_tone_resolution_share", resolutions.resolved(), resolutions.opportunities());
    share(out, "next_guide_tone_share", nextGuideTone);
    approach(out, Landing.Approach.CHROMATIC);
    approach(out, Landing.Approach.STEP);
    approach(out, Landing.Approach.ENCLOSURE);
    approach(out, Landing.Approach.LEAP);
    approach(out, Landing.Approach.REPETITION);
    share(out, "enclosed_on_beat_share", enclosedOnBeat);
    share(out, "outside_share", outside);
    share(out, "unexplained_outside_share", unexplained);
    share(out, "in_key_share", inKey);
    otherScale(out);
    share(out, "resting_chord_tone_share", resting());
  }

  private void otherScale(StatisticList out) {
    int best = 0;
    for (int tonic = 0; tonic < 12; tonic++) {
      int fitting = 0;
      for (int semitones : MAJOR_SCALE) {
        fitting += centredPitchClasses[(tonic + semitones) % 12];
      }
      best = Math.max(best, fitting);
    }
    int excess = best - inKey.part;
    out.ratio("other_scale_excess", excess, inKey.whole, inKey.whole);
  }

  private Share resting() {
    Share resting = new Share();
    if (analysis != null) {
      for (RestingNote note : analysis.restingNotes()) {
        if (note.onChordTone() != null) {
          resting.count(note.onChordTone());
        }
      }
    }
    return resting;
  }

  private void phraseEnds(StatisticList out) {
    for (Tone tone : TONES) {
      out.share(tone.key, endsByTone[tone.ordinal()], ends.whole);
    }
    share(out, "phrase_ends_on_guide_tone", endsOnGuideTone);
  }

  private void centre(StatisticList out) {
    share(out, "centre_scale_share", centreScale);
    out.ratio("centre_scale_chance", scaleTones, 12.0 * centreScale.whole, centreScale.whole);
  }

  private void approach(StatisticList out, Landing.Approach approach) {
    out.share("approach_" + approach.word() + "_share", approaches[approach.ordinal()], approached);
  }

  private static void share(StatisticList out, String key, Share share) {
    out.share(key, share.part, share.whole);
  }
}
