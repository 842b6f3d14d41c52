package phrasecensus.readers.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.Articulations;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.Backup;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Clef;
import org.audiveris.proxymusic.ClefSign;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.Fermata;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Forward;
import org.audiveris.proxymusic.Harmony;
import org.audiveris.proxymusic.HarmonyType;
import org.audiveris.proxymusic.Key;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.Metronome;
import org.audiveris.proxymusic.Notations;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.Notehead;
import org.audiveris.proxymusic.NoteheadValue;
import org.audiveris.proxymusic.Offset;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.Slur;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.StartStopContinue;
import org.audiveris.proxymusic.Tie;
import org.audiveris.proxymusic.Tied;
import org.audiveris.proxymusic.TiedType;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.Transpose;
import org.audiveris.proxymusic.YesNo;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Syllable;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.musicxml.NoteReading.NoteSigns;
import phrasecensus.readers.musicxml.NoteReading.SlurEnd;
import phrasecensus.readers.musicxml.PartReading.BarReading;
import phrasecensus.readers.musicxml.PartReading.ChordReading;
import phrasecensus.readers.musicxml.PartReading.ClefReading;
import phrasecensus.readers.musicxml.PartReading.KeyReading;
import phrasecensus.readers.musicxml.PartReading.LineEnd;
import phrasecensus.readers.musicxml.PartReading.PartDescription;
import phrasecensus.readers.musicxml.PartReading.Place;
import phrasecensus.readers.musicxml.PartReading.Rehearsal;
import phrasecensus.readers.musicxml.PartReading.Stretch;
import phrasecensus.readers.musicxml.PartReading.TempoReading;
import phrasecensus.readers.musicxml.PartReading.TimeReading;

/**
 * Walks through the bars of one part and places everything in time: a cursor per bar, moved by
 * notes, {@code backup} and {@code forward} (W3C MusicXML 4.0).
 */
final class PartAssembler {
  private static final int CACHED_LENGTHS = 512;
  private static final int LONGEST_NUMBER = 40;
  private static final String CHORD = "a chord symbol";

  /** A 64th note, in quarter notes: what is shorter is no mistake of a player or writer. */
  private static final Fraction SHORTEST_WRITTEN = Fraction.of(1, 16);

  private static final ClefSign PERCUSSION = ClefSign.PERCUSSION;

  private final PartDescription description;
  private final ScoreStream stream;
  private final ProblemLog problems;
  private final boolean concertScore;
  private final boolean keepSlashNoteheads;
  private final ChordSymbols chordSymbols;

  private final List<BarReading> bars = new ArrayList<>();
  private final List<NoteReading> notes = new ArrayList<>();
  private final List<ChordReading> chords = new ArrayList<>();
  private final List<KeyReading> keys = new ArrayList<>();
  private final List<ClefReading> clefs = new ArrayList<>();
  private final List<TimeReading> times = new ArrayList<>();
  private final List<TempoReading> tempi = new ArrayList<>();
  private final List<LineEnd> lines = new ArrayList<>();
  private final List<Rehearsal> rehearsals = new ArrayList<>();
  private final List<Place> doubleBars = new ArrayList<>();
  private final List<Stretch> unknown = new ArrayList<>();
  private final ChordPlaces chordPlaces;
  private final BarCursor cursor = new BarCursor();

  private int staves = 1;
  private boolean percussionClef;
  private boolean clefSeen;

  // What holds from bar to bar.
  private Fraction divisions;
  private Fraction[] lengths = new Fraction[CACHED_LENGTHS];
  private Transposition allStaves = Transposition.NONE;
  private final Map<Integer, Transposition> byStaff = new HashMap<>();
  private Metre metre = Metre.FREE;
  private boolean metreSeen;
  private Integer keyFifths;
  private String keyMode;
  private boolean slashes;
  private boolean barRepeat;

  // The bar that is being read.
  private Fraction onset = Fraction.ZERO;
  private Fraction stackOnset = Fraction.ZERO;
  private String stackVoice = "";
  private Fraction slashStart;
  private String barNumber = "";
  private boolean brokenBackup;
  private boolean mainNotes;
  private int notesInBar;
  private Fraction durationInFile = Fraction.ZERO;
  private BarSigns signs;

  private final ExactTime exact;

  PartAssembler(
      PartDescription description,
      ScoreStream stream,
      ReadSettings settings,
      ProblemLog problems,
      boolean concertScore) {
    this.exact = new ExactTime(settings.limit(Limit.TIME_PARTS));
    this.description = description;
    this.stream = stream;
    this.problems = problems;
    this.concertScore = concertScore;
    this.keepSlashNoteheads = settings.keepSlashNoteheads();
    this.chordSymbols = new ChordSymbols(description.id(), stream, problems);
    this.chordPlaces = new ChordPlaces(description.id(), problems, chords, notes);
  }

  int barCount() {
    return bars.size();
  }

  /**
   * Adds the next bar.
   *
   * @throws phrasecensus.readers.Refusal if its times cannot be kept exactly
   */
  void addBar(String number, boolean implicit, List<Object> contents) {
    try {
      readBar(number, implicit, contents);
    } catch (ArithmeticException e) {
      throw exact.refusal(PlainText.of(number, LONGEST_NUMBER));
    }
    exact.endBar(PlainText.of(number, LONGEST_NUMBER));
  }

  private void readBar(String number, boolean implicit, List<Object> contents) {
    barNumber = number;
    cursor.startBar();
    stackOnset = Fraction.ZERO;
    stackVoice = "";
    slashStart = slashes ? Fraction.ZERO : null;
    brokenBackup = false;
    mainNotes = false;
    notesInBar = 0;
    signs = BarSigns.NONE;
    Metre atStart = null;
    int noteInBar = 0;
    for (Object item : contents) {
      if (item instanceof Note note) {
        addNote(note, noteInBar++);
      } else if (item instanceof Backup backup) {
        moveBack(backup);
      } else if (item instanceof Forward forward) {
        moveOn(forward);
      } else if (item instanceof Attributes attributes) {
        addAttributes(attributes);
      } else if (item instanceof Harmony harmony) {
        addChord(harmony);
      } else if (item instanceof Direction direction) {
        addDirection(direction);
      } else if (item instanceof Sound sound) {
        addSound(sound, cursor.at());
      } else if (item instanceof Barline barline) {
        addBarline(barline);
      }
      if (atStart == null && cursor.at().isPositive()) {
        atStart = metre;
      }
    }
    Metre barMetre = atStart == null ? metre : atStart;
    Fraction length = barLength(barMetre);
    chordPlaces.endBar(length, barMetre, barNumber);
    for (int i = chords.size() - 1; i >= 0 && chords.get(i).bar() == bars.size(); i--) {
      exact.add(chords.get(i).place());
    }
    closeUnknown(length);
    bars.add(new BarReading(number, implicit, onset, length, barMetre, allStaves, signs));
    exact.add(barMetre);
    onset = onset.plus(length);
    exact.reach(onset);
  }

  private Fraction barLength(Metre barMetre) {
    Fraction high = cursor.high();
    Fraction full = barMetre.barLength();
    if (!high.isPositive()) {
      return full;
    }
    if (barMetre.isFree() || high.equals(full)) {
      return high;
    }
    if (cursor.notesEnd().isBefore(high) && high.isAfter(full)) {
      problem(
          "forward-beyond-bar",
          "a step forward behind the last note, to "
              + high
              + " quarter notes in a bar of "
              + barMetre.text(),
          "the bar ends with its metre or its last note");
      high = Fraction.larger(cursor.notesEnd(), full);
    }
    if (isFullButForRounding(high, full)) {
      endNotesAt(high, full);
      return full;
    }
    return brokenBackup ? Fraction.larger(high, full) : high;
  }

  /** True when a division a note, too short to be written, is all that a bar is off its metre. */
  private boolean isFullButForRounding(Fraction length, Fraction full) {
    if (length.equals(full) || divisions == null) {
      return false;
    }
    Fraction off = length.isAfter(full) ? length.minus(full) : full.minus(length);
    return off.isBefore(SHORTEST_WRITTEN)
        && off.times(divisions).compareTo(Fraction.of(Math.max(1, notesInBar))) <= 0;
  }

  private void endNotesAt(Fraction end, Fraction wanted) {
    for (int i = notes.size() - 1; i >= 0 && notes.get(i).bar() == bars.size(); i--) {
      NoteReading note = notes.get(i);
      Fraction length = wanted.minus(note.offset());
      if (!note.grace() && note.offset().plus(note.length()).equals(end) && length.isPositive()) {
        notes.set(i, note.lasting(length));
      }
    }
    problems.addFirst(
        description.id(),
        barNumber,
        "durations-rounded",
        "a bar of " + end + " quarter notes, off its metre by rounded durations",
        "it is as long as its metre, here and in the bars like it");
  }

  private void closeUnknown(Fraction length) {
    int bar = bars.size();
    if (slashStart != null && slashStart.isBefore(length)) {
      unknown.add(new Stretch(bar, slashStart, length));
    } else if (barRepeat && !mainNotes && length.isPositive()) {
      unknown.add(new Stretch(bar, Fraction.ZERO, length));
      problem(
          "empty-bar-repeat",
          "a bar-repeat sign over an empty bar",
          "nothing is copied; the bar counts as neither notes nor rest");
    }
  }

  /** Notes that are not printed count only where a part has no others. */
  private void readHiddenNotesWhereThereAreNoOthers() {
    boolean hidden = false;
    for (NoteReading note : notes) {
      hidden |= note.kind() == NoteReading.Kind.HIDDEN && note.isPitched();
      if (note.isMelody() && note.isPitched()) {
        return;
      }
    }
    if (hidden) {
      notes.replaceAll(
          note -> note.kind() == NoteReading.Kind.HIDDEN ? note.of(NoteReading.Kind.MELODY) : note);
      problems.add(
          description.id(),
          "",
          "hidden-notes-only",
          "a part all of whose notes are hidden on the page",
          "they are read all the same");
    }
  }

  PartReading reading() {
    readHiddenNotesWhereThereAreNoOthers();
    return new PartReading(
        description,
        staves,
        percussionClef,
        bars,
        notes,
        chords,
        keys,
        clefs,
        times,
        tempi,
        lines,
        rehearsals,
        doubleBars,
        unknown);
  }

  private void addNote(Note note, int noteInBar) {
    boolean grace = note.getGrace() != null;
    boolean stacked = note.getChord() != null;
    Fraction length = grace ? Fraction.ZERO : length(note);
    Fraction offset = stacked ? stackOnset : cursor.at();
    exact.add(offset);
    exact.add(length);
    String voice = note.getVoice() == null ? "" : note.getVoice().strip();
    if (!stacked) {
      stackOnset = offset;
      stackVoice = voice;
      cursor.passNote(length, grace ? length : durationInFile);
      if (!grace) {
        notesInBar++;
        chordPlaces.passed(offset, length, metre, barNumber, note);
      }
    } else if (voice.isEmpty()) {
      voice = stackVoice;
    }
    if (note.getRest() != null || note.getCue() != null) {
      mainNotes |= note.getRest() == null;
      return;
    }
    mainNotes = true;
    int staff = number(note.getStaff(), 1);
    staves = Math.max(staves, staff);
    Pitch written = null;
    Pitch concert = null;
    if (note.getPitch() != null && !stream.isPitchless(noteInBar)) {
      written = pitch(note.getPitch());
      concert = transposition(staff).sounding(written);
    } else if (note.getPitch() == null && note.getUnpitched() == null) {
      problem(
          "note-without-pitch",
          "a note that is neither pitched, unpitched nor a rest",
          "it is kept as an onset without pitch");
    }
    if (!grace && !length.isPositive()) {
      grace = true;
    }
    boolean tieStart = false;
    boolean tieStop = false;
    for (Tie tie : note.getTie()) {
      tieStart |= tie.getType() == StartStop.START;
      tieStop |= tie.getType() == StartStop.STOP;
    }
    NoteSigns noteSigns = NoteSigns.NONE;
    boolean uncertain = isUncertain(note.getNotehead());
    if (note.getNotations().isEmpty() && note.getLyric().isEmpty()) {
      noteSigns = uncertain ? NoteSigns.UNCERTAIN : NoteSigns.NONE;
    } else {
      if (note.getTie().isEmpty()) {
        for (Notations notations : note.getNotations()) {
          for (Object item : notations.getTiedOrSlurOrTuplet()) {
            if (item instanceof Tied tied) {
              boolean goesOn = tied.getType() == TiedType.CONTINUE;
              tieStart |= goesOn || tied.getType() == TiedType.START;
              tieStop |= goesOn || tied.getType() == TiedType.STOP;
            }
          }
        }
      }
      noteSigns = signs(note, uncertain);
    }
    notes.add(
        new NoteReading(
            bars.size(),
            offset,
            grace ? Fraction.ZERO : length,
            written,
            concert,
            voice,
            staff,
            grace,
            note.getGrace() != null && note.getGrace().getSlash() == YesNo.YES,
            stacked,
            tieStart && !grace,
            tieStop && !grace,
            kind(note),
            note.getTimeOnly() == null ? "" : note.getTimeOnly(),
            noteSigns));
  }

  private NoteReading.Kind kind(Note note) {
    if (slashStart != null) {
      return NoteReading.Kind.IN_SLASHES;
    }
    if (note.getPrintObject() == YesNo.NO) {
      return NoteReading.Kind.HIDDEN;
    }
    boolean slash =
        note.getNotehead() != null && note.getNotehead().getValue() == NoteheadValue.SLASH;
    return slash && !keepSlashNoteheads ? NoteReading.Kind.SLASH_HEAD : NoteReading.Kind.MELODY;
  }

  private static NoteSigns signs(Note note, boolean uncertain) {
    List<String> articulations = null;
    List<SlurEnd> slurs = null;
    boolean breath = false;
    boolean caesura = false;
    boolean fermata = false;
    for (Notations notations : note.getNotations()) {
      for (Object item : notations.getTiedOrSlurOrTuplet()) {
        if (item instanceof Slur slur) {
          if (slur.getType() == StartStopContinue.START
              || slur.getType() == StartStopContinue.STOP) {
            slurs = slurs == null ? new ArrayList<>(2) : slurs;
            slurs.add(new SlurEnd(slur.getNumber(), slur.getType() == StartStopContinue.START));
          }
        } else if (item instanceof Articulations list) {
          for (JAXBElement<?> articulation : list.getAccentOrStrongAccentOrStaccato()) {
            String word = articulation.getName().getLocalPart();
            if (word.equals("breath-mark")) {
              breath = true;
            } else if (word.equals("caesura")) {
              caesura = true;
            } else {
              articulations = articulations == null ? new ArrayList<>(2) : articulations;
              articulations.add(word);
            }
          }
        } else if (item instanceof Fermata) {
          fermata = true;
        }
      }
    }
    Syllable syllable = Lyrics.syllable(note);
    if (articulations == null
        && slurs == null
        && !breath
        && !caesura
        && !fermata
        && syllable == null) {
      return uncertain ? NoteSigns.UNCERTAIN : NoteSigns.NONE;
    }
    if (articulations != null) {
      articulations.sort(null);
    }
    return new NoteSigns(
        uncertain,
        articulations == null ? List.of() : List.copyOf(articulations),
        slurs == null ? List.of() : List.copyOf(slurs),
        breath,
        caesura,
        fermata,
        syllable);
  }

  private static boolean isUncertain(Notehead notehead) {
    if (notehead == null) {
      return false;
    }
    if (notehead.getParentheses() == YesNo.YES) {
      return true;
    }
    NoteheadValue value = notehead.getValue();
    return value == NoteheadValue.SLASH
        || value == NoteheadValue.X
        || value == NoteheadValue.CROSS
        || value == NoteheadValue.CIRCLE_X
        || value == NoteheadValue.SLASHED
        || value == NoteheadValue.BACK_SLASHED;
  }

  private Pitch pitch(org.audiveris.proxymusic.Pitch pitch) {
    Step step = Step.valueOf(pitch.getStep().value());
    BigDecimal alter = pitch.getAlter();
    if (alter == null) {
      return Pitch.of(step, 0, pitch.getOctave());
    }
    int whole = alter.setScale(0, RoundingMode.HALF_DOWN).intValue();
    int cents =
        alter
            .subtract(BigDecimal.valueOf(whole))
            .movePointRight(2)
            .setScale(0, RoundingMode.HALF_EVEN)
            .intValue();
    return new Pitch(step, whole, pitch.getOctave(), cents);
  }

  private Fraction length(Note note) {
    Fraction written = typeLength(note);
    BigDecimal duration = note.getDuration();
    durationInFile = Fraction.ZERO;
    if (duration != null
        && duration.signum() == 0
        && written != null
        && note.getTimeModification() != null
        && divisions != null
        && isRounded(written, Fraction.ZERO)) {
      tellRounded(written, Fraction.ZERO);
      return written;
    }
    if (duration == null || duration.signum() == 0) {
      if (duration != null && note.getRest() != null && written == null) {
        return Fraction.ZERO;
      }
      boolean wholeBar = note.getRest() != null && note.getRest().getMeasure() == YesNo.YES;
      Fraction length =
          wholeBar || written == null && note.getRest() != null ? metre.barLength() : written;
      String found =
          (note.getRest() == null ? "a note" : "a rest")
              + (duration == null ? " without duration" : " of duration 0");
      if (length == null) {
        problem("duration-missing", found + " and without note type", "read as a grace note");
        return Fraction.ZERO;
      }
      durationInFile = length;
      problem(
          "duration-missing",
          found,
          wholeBar ? "it fills the bar" : "its length is taken from the note type");
      return length;
    }
    Fraction length = quarters(duration);
    durationInFile = length;
    if (written != null && !written.equals(length) && isRounded(written, length)) {
      tellRounded(written, length);
      return written;
    }
    if (written != null && note.getCue() == null && !written.equals(length)) {
      problem(
          "duration-differs-from-type",
          "a note whose duration is "
              + length
              + " quarter notes and whose type is "
              + note.getType().getValue(),
          "the duration counts");
    }
    return length;
  }

  private void tellRounded(Fraction written, Fraction counted) {
    problems.addFirst(
        description.id(),
        barNumber,
        "durations-rounded",
        "a note of "
            + written
            + " quarter notes by its type whose duration is rounded to "
            + counted,
        "type and tuplet count, here and in the notes like it");
  }

  /** True when a length is no whole number of divisions and a duration is one next to it. */
  private boolean isRounded(Fraction written, Fraction length) {
    Fraction exact = written.times(divisions);
    Fraction counted = length.times(divisions);
    Fraction off = exact.isAfter(counted) ? exact.minus(counted) : counted.minus(exact);
    return !exact.isWhole() && off.isBefore(Fraction.ONE);
  }

  /** Length by note type, dots and tuplet, in quarter notes; null when the note has no type. */
  private static Fraction typeLength(Note note) {
    if (note.getType() == null || note.getType().getValue() == null) {
      return null;
    }
    Fraction length = typeLength(note.getType().getValue());
    if (length == null) {
      return null;
    }
    int dots = Math.min(note.getDot().size(), 8);
    if (dots > 0) {
      length = length.times(Fraction.of((1L << dots + 1) - 1, 1L << dots));
    }
    if (note.getTimeModification() != null
        && note.getTimeModification().getActualNotes() != null
        && note.getTimeModification().getNormalNotes() != null) {
      length =
          length.times(
              Fraction.of(
                  note.getTimeModification().getNormalNotes().longValue(),
                  note.getTimeModification().getActualNotes().longValue()));
    }
    return length;
  }

  /** Quarter notes in a note type; null for an unknown word. */
  static Fraction typeLength(String type) {
    return NoteTypes.LENGTHS.get(type);
  }

  private static final class NoteTypes {
    static final Map<String, Fraction> LENGTHS = lengths();

    private static Map<String, Fraction> lengths() {
      String[] longest = {
        "maxima", "long", "breve", "whole", "half", "quarter", "eighth", "16th", "32nd", "64th",
        "128th", "256th", "512th", "1024th"
      };
      Map<String, Fraction> lengths = new HashMap<>();
      Fraction length = Fraction.of(32);
      for (String type : longest) {
        lengths.put(type, length);
        length = length.times(Fraction.HALF);
      }
      return Map.copyOf(lengths);
    }
  }

  private void moveBack(Backup backup) {
    if (backup.getDuration() == null) {
      brokenBackup = true;
      problem("backup-without-duration", "a step back without a duration", "it is ignored");
      return;
    }
    Fraction length = quarters(backup.getDuration());
    if (!cursor.back(length, Fraction.ONE.dividedBy(divisions))) {
      brokenBackup = true;
      problem(
          "backup-past-bar",
          "a step back past the start of the bar",
          "it stops at the start of the bar");
    }
    chordPlaces.forget();
  }

  private void moveOn(Forward forward) {
    if (forward.getDuration() == null) {
      problem("forward-without-duration", "a step forward without a duration", "it is ignored");
      return;
    }
    Fraction length = quarters(forward.getDuration());
    chordPlaces.passed(cursor.at(), length, metre, barNumber, null);
    cursor.skip(length);
  }

  private Fraction quarters(BigDecimal duration) {
    if (divisions == null) {
      problem(
          "divisions-missing",
          "durations before any divisions",
          "one division to the quarter note is assumed");
      divisions = Fraction.ONE;
    }
    if (duration.scale() == 0 && duration.precision() < 4) {
      int whole = duration.intValue();
      if (whole >= 0 && whole < CACHED_LENGTHS) {
        Fraction cached = lengths[whole];
        if (cached == null) {
          cached = Fraction.of(whole).dividedBy(divisions);
          lengths[whole] = cached;
        }
        return cached;
      }
    }
    return exact(duration).dividedBy(divisions);
  }

  private static Fraction exact(BigDecimal value) {
    return value.scale() <= 0
        ? Fraction.of(value.longValueExact())
        : Fraction.of(
            value.unscaledValue().longValueExact(),
            BigInteger.TEN.pow(value.scale()).longValueExact());
  }

  private void addAttributes(Attributes attributes) {
    if (attributes.getDivisions() != null) {
      if (attributes.getDivisions().signum() > 0) {
        Fraction changed = exact(attributes.getDivisions());
        if (!changed.equals(divisions)) {
          divisions = changed;
          lengths = new Fraction[CACHED_LENGTHS];
        }
      } else {
        problem(
            "invalid-value",
            "'divisions' of 'attributes' is '0'",
            "the last valid divisions go on");
      }
    }
    if (attributes.getStaves() != null) {
      staves = Math.max(staves, attributes.getStaves().intValue());
    }
    // Before the key: a key signature is written for the transposition beside it.
    attributes.getTranspose().forEach(this::addTransposition);
    attributes.getKey().forEach(this::addKey);
    attributes.getTime().forEach(this::addTime);
    if (!clefSeen && !attributes.getClef().isEmpty()) {
      clefSeen = true;
      percussionClef = attributes.getClef().get(0).getSign() == PERCUSSION;
    }
    attributes.getClef().forEach(this::addClef);
    attributes.getMeasureStyle().forEach(this::addMeasureStyle);
  }

  private void addClef(Clef clef) {
    String text = "";
    if (clef.getSign() == ClefSign.G
        || clef.getSign() == ClefSign.F
        || clef.getSign() == ClefSign.C) {
      int usual = clef.getSign() == ClefSign.G ? 2 : clef.getSign() == ClefSign.F ? 4 : 3;
      int octaves = number(clef.getClefOctaveChange(), 0);
      text =
          clef.getSign().value()
              + number(clef.getLine(), usual)
              + (octaves == 0 ? "" : (octaves > 0 ? "+" : "-") + (1 + 7 * Math.abs(octaves)));
    }
    clefs.add(new ClefReading(bars.size(), cursor.at(), number(clef.getNumber(), 1), text));
  }

  private void addTransposition(Transpose transpose) {
    if (transpose.getChromatic() == null) {
      problem("transposition-incomplete", "a transposition without semitones", "it is left out");
      return;
    }
    int chromatic = transpose.getChromatic().setScale(0, RoundingMode.HALF_DOWN).intValue();
    int diatonic =
        transpose.getDiatonic() == null
            ? Transposition.diatonicFor(chromatic)
            : transpose.getDiatonic().intValue();
    int octaves = transpose.getOctaveChange() == null ? 0 : transpose.getOctaveChange().intValue();
    if (concertScore && (chromatic % 12 != 0 || diatonic % 7 != 0)) {
      problem(
          "transposition-in-concert-score",
          "a transposition by " + chromatic + " semitones in a score in concert pitch",
          "only its octaves are applied");
      chromatic = 0;
      diatonic = 0;
    }
    if (transpose.getDouble() != null) {
      problem(
          "octave-doubling",
          "the part sounds in two octaves",
          "the line is read in the written one of the two");
    }
    Transposition transposition = new Transposition(diatonic, chromatic, octaves);
    if (transpose.getNumber() == null) {
      allStaves = transposition;
      byStaff.clear();
    } else {
      byStaff.put(transpose.getNumber().intValue(), transposition);
      if (transpose.getNumber().intValue() == 1) {
        allStaves = transposition;
      }
    }
    transposeKeysHere();
  }

  /** A key signature may stand in an element before the one with its transposition. */
  private void transposeKeysHere() {
    for (int i = keys.size() - 1; i >= 0 && keys.get(i).bar() == bars.size(); i--) {
      KeyReading key = keys.get(i);
      if (key.offset().equals(cursor.at()) && key.written() != null) {
        Integer concert = key.written() + transposition(key.staff()).fifths();
        keys.set(
            i,
            new KeyReading(
                key.bar(), key.offset(), key.staff(), key.written(), concert, key.mode()));
      }
    }
  }

  private Transposition transposition(int staff) {
    return byStaff.isEmpty() ? allStaves : byStaff.getOrDefault(staff, allStaves);
  }

  private void addKey(Key key) {
    int staff = number(key.getNumber(), 1);
    Integer written = null;
    String mode = key.getMode() == null ? null : key.getMode().strip();
    if (key.getFifths() != null) {
      written = key.getFifths().intValue();
    } else if (key.getNonTraditionalKey().isEmpty()) {
      problem("key-incomplete", "a key signature without sharps or flats", "it is left out");
      return;
    }
    Integer concert = written == null ? null : written + transposition(staff).fifths();
    keys.add(
        new KeyReading(
            bars.size(), cursor.at(), staff, written, concert, "".equals(mode) ? null : mode));
    if (staff == 1) {
      keyFifths = written;
      keyMode = mode;
    }
  }

  private void addTime(Time time) {
    Metre read = Metre.FREE;
    if (time.getSenzaMisura() == null) {
      read = metre(time.getTimeSignature());
      if (read == null) {
        problem("time-incomplete", "a time signature without beats", "it is left out");
        return;
      }
    }
    int staff = number(time.getNumber(), 0);
    times.add(new TimeReading(bars.size(), cursor.at(), staff, read));
    if (staff <= 1 || !metreSeen) {
      metre = read;
      metreSeen = true;
    }
  }

  /** The metre of pairs of beats and beat type; null when they are no pairs of positive numbers. */
  private static Metre metre(List<JAXBElement<String>> signature) {
    if (signature.isEmpty() || signature.size() % 2 != 0) {
      return null;
    }
    Fraction length = Fraction.ZERO;
    Fraction shortest = null;
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < signature.size(); i += 2) {
      if (!signature.get(i).getName().getLocalPart().equals("beats")
          || !signature.get(i + 1).getName().getLocalPart().equals("beat-type")) {
        return null;
      }
      String beats = signature.get(i).getValue();
      int sum = sum(beats);
      int type = sum(signature.get(i + 1).getValue());
      if (sum <= 0 || type <= 0) {
        return null;
      }
      if (signature.size() == 2 && !beats.contains("+")) {
        return Metre.of(sum, type);
      }
      Fraction unit = Fraction.of(4, type);
      length = length.plus(unit.times(sum));
      shortest = shortest == null ? unit : Fraction.smaller(shortest, unit);
      text.append(text.isEmpty() ? "" : "+").append(beats).append('/').append(type);
    }
    return new Metre(text.toString(), length, shortest);
  }

  private static int sum(String numbers) {
    int sum = 0;
    for (String number : numbers.split("[+ ]+")) {
      if (!number.isEmpty()) {
        sum += Integer.parseInt(number);
      }
    }
    return sum;
  }

  private void addMeasureStyle(MeasureStyle style) {
    if (style.getSlash() != null && number(style.getNumber(), 1) == 1) {
      if (style.getSlash().getType() == StartStop.START) {
        slashes = true;
        slashStart = slashStart == null ? cursor.at() : slashStart;
      } else if (style.getSlash().getType() == StartStop.STOP && slashes) {
        slashes = false;
        if (slashStart.isBefore(cursor.at())) {
          unknown.add(new Stretch(bars.size(), slashStart, cursor.at()));
        }
        slashStart = null;
      }
    }
    if (style.getMeasureRepeat() != null) {
      barRepeat = style.getMeasureRepeat().getType() == StartStop.START;
    }
  }

  private void addChord(Harmony harmony) {
    ChordSymbols.Symbol symbol = chordSymbols.symbol(barNumber, harmony, keyFifths, keyMode);
    int staff = number(harmony.getStaff(), 1);
    Fraction offset = displaced(harmony.getOffset(), cursor.at(), CHORD);
    Chord concert = symbol.chord().sounding(transposition(staff));
    chords.add(
        new ChordReading(
            bars.size(),
            offset,
            offset,
            symbol.goesOn(),
            staff,
            symbol.chord(),
            concert,
            symbol.kindWord(),
            symbol.text(),
            harmony.getType() == HarmonyType.ALTERNATE));
    if (offset.equals(cursor.at())) {
      chordPlaces.addPlain();
    } else {
      chordPlaces.addDisplaced(cursor.at());
    }
  }

  private Fraction displaced(Offset offset, Fraction place, String what) {
    if (offset == null || offset.getValue() == null || offset.getValue().signum() == 0) {
      return place;
    }
    Fraction displaced = place.plus(quarters(offset.getValue()));
    exact.add(displaced);
    if (onset.plus(displaced).isNegative()) {
      problem(
          "offset-before-start",
          what + " is placed before the start of the part",
          "it is placed at the start");
      return onset.negated();
    }
    // Of a chord symbol only the end of the bar shows whether it counts at that place.
    if (!what.equals(CHORD)
        && (displaced.isNegative()
            || !metre.isFree()
                && displaced.isAfter(Fraction.larger(cursor.high(), metre.barLength())))) {
      problem("offset-leaves-bar", what + " is placed outside its bar", "it counts at that place");
    }
    return displaced;
  }

  private void addDirection(Direction direction) {
    Fraction place = cursor.at();
    if (direction.getOffset() != null) {
      place = displaced(direction.getOffset(), cursor.at(), "a direction");
    }
    boolean sounded = direction.getSound() != null && direction.getSound().getTempo() != null;
    for (DirectionType type : direction.getDirectionType()) {
      for (FormattedTextId rehearsal : type.getRehearsal()) {
        rehearsals.add(new Rehearsal(bars.size(), place, plain(rehearsal.getValue())));
      }
      if (type.getBracket() != null) {
        addLine(type.getBracket().getType(), type.getBracket().getNumber(), false, place);
      }
      if (type.getDashes() != null) {
        addLine(type.getDashes().getType(), type.getDashes().getNumber(), true, place);
      }
      if (type.getMetronome() != null && !sounded) {
        addTempo(type.getMetronome(), place);
      }
      addJumpSigns(direction, type);
    }
    if (direction.getSound() != null) {
      addSound(direction.getSound(), place);
    }
  }

  private void addJumpSigns(Direction direction, DirectionType type) {
    boolean sounded = direction.getSound() != null && jumps(direction.getSound());
    if (sounded) {
      return;
    }
    if (!type.getSegno().isEmpty() || !type.getCoda().isEmpty()) {
      signs =
          signs.and(
              new BarSignsBuilder()
                  .signs(!type.getSegno().isEmpty(), !type.getCoda().isEmpty())
                  .build());
    }
    for (Object words : type.getWordsOrSymbol()) {
      if (words instanceof FormattedTextId text && text.getValue() != null) {
        String plain = plain(text.getValue()).toLowerCase(Locale.ROOT);
        if (JumpWords.isJump(plain)) {
          signs = signs.and(new BarSignsBuilder().words(plain).build());
        }
      }
    }
  }

  private static boolean jumps(Sound sound) {
    return sound.getDacapo() == YesNo.YES
        || sound.getDalsegno() != null
        || sound.getSegno() != null
        || sound.getTocoda() != null
        || sound.getCoda() != null
        || sound.getFine() != null;
  }

  private void addLine(StartStopContinue type, Integer number, boolean dashes, Fraction place) {
    if (type == StartStopContinue.START || type == StartStopContinue.STOP) {
      lines.add(
          new LineEnd(
              bars.size(),
              place,
              dashes,
              number == null ? 1 : number,
              type == StartStopContinue.START));
    }
  }

  private void addTempo(Metronome metronome, Fraction place) {
    if (metronome.getBeatUnit() == null
        || metronome.getPerMinute() == null
        || metronome.getPerMinute().getValue() == null) {
      return;
    }
    Matcher number = Numbers.FIRST.matcher(plain(metronome.getPerMinute().getValue()));
    Fraction unit = typeLength(metronome.getBeatUnit());
    if (unit == null || !number.find()) {
      return;
    }
    int dots = Math.min(metronome.getBeatUnitDot().size(), 8);
    unit = unit.times(Fraction.of((1L << dots + 1) - 1, 1L << dots));
    double tempo = Double.parseDouble(number.group()) * unit.toDouble();
    if (tempo > 0) {
      tempi.add(new TempoReading(bars.size(), place, tempo, false));
    }
  }

  private static final class Numbers {
    static final Pattern FIRST = Pattern.compile("[0-9]{1,4}(\\.[0-9]{1,4})?");
  }

  private void addSound(Sound sound, Fraction directionPlace) {
    Fraction place = directionPlace;
    if (sound.getOffset() != null) {
      place = displaced(sound.getOffset(), cursor.at(), "a tempo or jump");
    }
    if (sound.getTempo() != null) {
      if (sound.getTempo().signum() > 0) {
        tempi.add(new TempoReading(bars.size(), place, sound.getTempo().doubleValue(), true));
      } else {
        problem("invalid-value", "a tempo of 0", "the tempo is left out");
      }
    }
    if (jumps(sound) || sound.getForwardRepeat() == YesNo.YES) {
      signs = signs.and(new BarSignsBuilder().sound(sound).build());
    }
  }

  private void addBarline(Barline barline) {
    RightLeftMiddle location =
        barline.getLocation() == null ? RightLeftMiddle.RIGHT : barline.getLocation();
    if (barline.getBarStyle() != null && barline.getBarStyle().getValue() != null) {
      switch (barline.getBarStyle().getValue()) {
        case LIGHT_LIGHT, LIGHT_HEAVY, HEAVY_LIGHT, HEAVY_HEAVY ->
            doubleBars.add(
                switch (location) {
                  case LEFT -> new Place(bars.size(), Fraction.ZERO, false);
                  case MIDDLE -> new Place(bars.size(), cursor.at(), false);
                  case RIGHT -> new Place(bars.size(), Fraction.ZERO, true);
                });
        default -> {
          // Other styles divide nothing.
        }
      }
    }
    BarSigns more = new BarSignsBuilder().barline(barline).build();
    signs = signs.and(more);
  }

  private static int number(BigInteger number, int otherwise) {
    return number == null ? otherwise : number.intValue();
  }

  private static String plain(String text) {
    return PlainText.of(text, 200);
  }

  private void problem(String code, String found, String done) {
    problems.add(description.id(), barNumber, code, found, done);
  }
}
