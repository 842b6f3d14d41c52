package phrasecensus.report.rows;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordText;
import phrasecensus.music.time.Fraction;
import phrasecensus.tables.Columns;
import phrasecensus.tables.Table;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.Word;
import phrasecensus.tables.row.BarsRow;
import phrasecensus.tables.row.ChordsRow;
import phrasecensus.tables.row.DegreeRole;
import phrasecensus.tables.row.GraceNotesRow;
import phrasecensus.tables.row.LandingKind;
import phrasecensus.tables.row.LandingsRow;
import phrasecensus.tables.row.NotesRow;
import phrasecensus.tables.row.PhrasesRow;
import phrasecensus.tables.row.RestingReason;

/**
 * What one solo sounds like, for pictures: times in quarter notes from the start of the solo. Each
 * list is in the order of its table.
 */
public record SoloLine(
    List<BarSpan> bars,
    List<ChordSpan> chords,
    List<Tone> notes,
    List<PhraseSpan> phrases,
    List<LandingMark> landings,
    List<GraceTone> graceNotes) {
  /** A solo without grace notes. */
  public SoloLine(
      List<BarSpan> bars,
      List<ChordSpan> chords,
      List<Tone> notes,
      List<PhraseSpan> phrases,
      List<LandingMark> landings) {
    this(bars, chords, notes, phrases, landings, List.of());
  }

  /** The tables that hold what a solo sounds like. */
  public static final List<String> TABLES =
      Stream.of(
              BarsRow.TABLE,
              ChordsRow.TABLE,
              NotesRow.TABLE,
              PhrasesRow.TABLE,
              LandingsRow.TABLE,
              GraceNotesRow.TABLE)
          .map(Table::name)
          .toList();

  /** The line of a solo from its rows of these tables. */
  public static SoloLine of(Map<String, List<TableRow>> rows) {
    return new SoloLine(
        all(rows, BarsRow.TABLE, BarSpan::of),
        all(rows, ChordsRow.TABLE, ChordSpan::of),
        all(rows, NotesRow.TABLE, Tone::of),
        all(rows, PhrasesRow.TABLE, PhraseSpan::of),
        all(rows, LandingsRow.TABLE, LandingMark::of),
        all(rows, GraceNotesRow.TABLE, GraceTone::of));
  }

  private static <T> List<T> all(
      Map<String, List<TableRow>> rows, Table<?> table, Function<TableRow, T> reading) {
    return rows.getOrDefault(table.name(), List.of()).stream().map(reading).toList();
  }

  /** Nothing at all. */
  public static final SoloLine NONE =
      new SoloLine(List.of(), List.of(), List.of(), List.of(), List.of());

  /** All lists in order of time; landings need not come so. */
  public SoloLine {
    bars = List.copyOf(bars);
    chords = List.copyOf(chords);
    notes = List.copyOf(notes);
    phrases = List.copyOf(phrases);
    landings = landings.stream().sorted(Comparator.comparingInt(LandingMark::noteIndex)).toList();
    graceNotes = List.copyOf(graceNotes);
  }

  /**
   * The same solo as it sounds: what a player reads is replaced by concert pitch, clefs are left to
   * whoever draws it.
   */
  public SoloLine atConcertPitch() {
    return new SoloLine(
        bars.stream().map(BarSpan::atConcertPitch).toList(),
        chords.stream()
            .map(
                c ->
                    new ChordSpan(
                        c.exactOnset(),
                        c.exactEnd(),
                        c.symbolConcert(),
                        c.symbolConcert(),
                        c.chord()))
            .toList(),
        notes.stream().map(Tone::atConcertPitch).toList(),
        phrases,
        landings,
        graceNotes.stream().map(GraceTone::atConcertPitch).toList());
  }

  /** The phrase with an index, if there is one. */
  public Optional<PhraseSpan> phrase(int index) {
    return phrases.stream().filter(phrase -> phrase.index() == index).findFirst();
  }

  /**
   * A bar as written.
   *
   * @param metre as in {@code 4/4}; {@code free} when none
   * @param offset where its first moment stands in a full bar
   * @param pickup true for a first bar that leads into the first full bar
   * @param section rehearsal mark at its start; null when none
   * @param staff key signature, clef, repeats and endings
   */
  public record BarSpan(
      int index,
      String number,
      Fraction exactOnset,
      Fraction exactLength,
      String metre,
      Fraction offset,
      boolean pickup,
      String section,
      Staff staff) {
    /** A bar of which nothing more is known. */
    public BarSpan(
        int index,
        String number,
        Fraction exactOnset,
        Fraction exactLength,
        String metre,
        Fraction offset,
        boolean pickup,
        String section) {
      this(index, number, exactOnset, exactLength, metre, offset, pickup, section, Staff.BARE);
    }

    /** The columns that it is made of. */
    static final List<Columns> COLUMNS =
        List.of(
            BarsRow.BAR_INDEX,
            BarsRow.BAR_NUMBER,
            BarsRow.ONSET,
            BarsRow.LENGTH,
            BarsRow.METRE,
            BarsRow.METRICAL_OFFSET,
            BarsRow.PICKUP,
            BarsRow.SECTION,
            BarsRow.KEY_FIFTHS_CONCERT,
            BarsRow.KEY_FIFTHS_WRITTEN,
            BarsRow.CLEF,
            BarsRow.STARTS_REPEAT,
            BarsRow.ENDS_REPEAT,
            BarsRow.ENDING,
            BarsRow.ENDS_ENDING,
            BarsRow.ENDS_DOUBLE);

    static BarSpan of(TableRow row) {
      return new BarSpan(
          row.get(BarsRow.BAR_INDEX),
          row.get(BarsRow.BAR_NUMBER),
          BarsRow.ONSET.in(row, Fraction::of),
          BarsRow.LENGTH.in(row, Fraction::of),
          row.get(BarsRow.METRE),
          BarsRow.METRICAL_OFFSET.in(row, Fraction::of),
          row.get(BarsRow.PICKUP),
          row.get(BarsRow.SECTION),
          Staff.of(row));
    }

    private BarSpan atConcertPitch() {
      return new BarSpan(
          index,
          number,
          exactOnset,
          exactLength,
          metre,
          offset,
          pickup,
          section,
          staff.atConcertPitch());
    }

    public double onset() {
      return exactOnset.toDouble();
    }

    public double length() {
      return exactLength.toDouble();
    }

    public double end() {
      return onset() + length();
    }
  }

  /**
   * What stands on the staff around the notes of a bar.
   *
   * @param keyConcert key signature in force as it sounds, sharps positive; null for none
   * @param keyWritten the same as the player reads it
   * @param clef as letter, line and octaves, {@code G2-8}; null when unknown
   * @param startsRepeat a repeat starts at its beginning
   * @param endsRepeat a repeat ends at its end
   * @param ending passes of an ending that starts here; null for none
   * @param endsEnding an ending stops at its end
   * @param endsDouble a double or final bar line ends it
   */
  public record Staff(
      Integer keyConcert,
      Integer keyWritten,
      String clef,
      boolean startsRepeat,
      boolean endsRepeat,
      String ending,
      boolean endsEnding,
      boolean endsDouble) {
    /** Nothing but five lines. */
    public static final Staff BARE = new Staff(null, null, null, false, false, null, false, false);

    static Staff of(TableRow row) {
      return new Staff(
          row.get(BarsRow.KEY_FIFTHS_CONCERT),
          row.get(BarsRow.KEY_FIFTHS_WRITTEN),
          row.get(BarsRow.CLEF),
          row.get(BarsRow.STARTS_REPEAT),
          row.get(BarsRow.ENDS_REPEAT),
          row.get(BarsRow.ENDING),
          row.get(BarsRow.ENDS_ENDING),
          row.get(BarsRow.ENDS_DOUBLE));
    }

    private Staff atConcertPitch() {
      boolean moved = keyConcert != null && !keyConcert.equals(keyWritten);
      return new Staff(
          keyConcert,
          keyConcert,
          moved ? null : clef,
          startsRepeat,
          endsRepeat,
          ending,
          endsEnding,
          endsDouble);
    }
  }

  /**
   * A chord symbol.
   *
   * @param symbol as the player of the solo reads it
   * @param symbolConcert as it sounds
   * @param chord as it sounds; null where its symbol cannot be read
   */
  public record ChordSpan(
      Fraction exactOnset, Fraction exactEnd, String symbol, String symbolConcert, Chord chord) {
    /** A chord at concert pitch of which the symbol alone is known. */
    public ChordSpan(Fraction exactOnset, Fraction exactEnd, String symbol) {
      this(exactOnset, exactEnd, symbol, symbol, null);
    }

    public double onset() {
      return exactOnset.toDouble();
    }

    public double end() {
      return exactEnd.toDouble();
    }

    /** The columns that it is made of. */
    static final List<Columns> COLUMNS =
        List.of(
            ChordsRow.ONSET,
            ChordsRow.END,
            ChordsRow.SYMBOL_WRITTEN,
            ChordsRow.SYMBOL,
            ChordsRow.KIND,
            ChordsRow.PITCH_CLASSES);

    static ChordSpan of(TableRow row) {
      return new ChordSpan(
          ChordsRow.ONSET.in(row, Fraction::of),
          ChordsRow.END.in(row, Fraction::of),
          row.get(ChordsRow.SYMBOL_WRITTEN),
          row.get(ChordsRow.SYMBOL),
          ChordText.chord(
                  row.get(ChordsRow.SYMBOL),
                  row.get(ChordsRow.KIND),
                  row.get(ChordsRow.PITCH_CLASSES))
              .orElse(null));
    }
  }

  /**
   * A grace note.
   *
   * @param beforeNote the note it leads into; null when none follows
   * @param slashed true for the short form with a stroke
   */
  public record GraceTone(
      Integer beforeNote, String nameWritten, String nameConcert, boolean slashed) {
    /** The columns that it is made of. */
    static final List<Columns> COLUMNS =
        List.of(
            GraceNotesRow.BEFORE_NOTE_INDEX,
            GraceNotesRow.NAME_WRITTEN,
            GraceNotesRow.NAME_CONCERT,
            GraceNotesRow.SLASHED);

    static GraceTone of(TableRow row) {
      return new GraceTone(
          row.get(GraceNotesRow.BEFORE_NOTE_INDEX),
          row.get(GraceNotesRow.NAME_WRITTEN),
          row.get(GraceNotesRow.NAME_CONCERT),
          row.get(GraceNotesRow.SLASHED));
    }

    private GraceTone atConcertPitch() {
      return new GraceTone(beforeNote, nameConcert, nameConcert, slashed);
    }
  }

  /**
   * A note of the line.
   *
   * @param midiWritten written pitch
   * @param nameWritten written pitch, spelled
   * @param transposition semitones from sounding to written pitch
   * @param nameConcert sounding pitch, spelled
   * @param role guide-tone, chord-tone, written-tension or not-in-chord; null without a verdict
   * @param inKey belongs to the key or to the chord it is judged by; null where no key is known
   * @param stretch the stretch between breaths that it belongs to, from 0
   * @param resting how the line rests on it; null for other notes
   */
  public record Tone(
      int index,
      Fraction exactOnset,
      Fraction exactLength,
      int midiWritten,
      String nameWritten,
      int transposition,
      String nameConcert,
      String role,
      Boolean inKey,
      int stretch,
      Resting resting) {
    /** A note of which no more is known than its chord says. */
    public Tone(
        int index,
        Fraction exactOnset,
        Fraction exactLength,
        int midiWritten,
        String nameWritten,
        int transposition,
        String nameConcert,
        String role) {
      this(
          index,
          exactOnset,
          exactLength,
          midiWritten,
          nameWritten,
          transposition,
          nameConcert,
          role,
          null,
          0,
          null);
    }

    /** A note at concert pitch. */
    public Tone(
        int index,
        Fraction exactOnset,
        Fraction exactLength,
        int midiWritten,
        String nameWritten,
        int transposition,
        String role) {
      this(
          index,
          exactOnset,
          exactLength,
          midiWritten,
          nameWritten,
          transposition,
          nameWritten,
          role);
    }

    /** The columns that it is made of. */
    static final List<Columns> COLUMNS =
        List.of(
            NotesRow.NOTE_INDEX,
            NotesRow.ONSET,
            NotesRow.LENGTH,
            NotesRow.MIDI_WRITTEN,
            NotesRow.MIDI_CONCERT,
            NotesRow.NAME_WRITTEN,
            NotesRow.NAME_CONCERT,
            NotesRow.DEGREE_ROLE,
            NotesRow.IN_KEY,
            NotesRow.STRETCH_INDEX,
            NotesRow.RESTING,
            NotesRow.RESTING_DEGREE,
            NotesRow.RESTING_ON_CHORD_TONE);

    static Tone of(TableRow row) {
      return new Tone(
          row.get(NotesRow.NOTE_INDEX),
          NotesRow.ONSET.in(row, Fraction::of),
          NotesRow.LENGTH.in(row, Fraction::of),
          row.get(NotesRow.MIDI_WRITTEN),
          row.get(NotesRow.NAME_WRITTEN),
          row.get(NotesRow.MIDI_WRITTEN) - row.get(NotesRow.MIDI_CONCERT),
          row.get(NotesRow.NAME_CONCERT),
          Word.orNull(row.get(NotesRow.DEGREE_ROLE)),
          row.get(NotesRow.IN_KEY),
          row.get(NotesRow.STRETCH_INDEX),
          row.get(NotesRow.RESTING) == null
              ? null
              : new Resting(
                  Word.orNull(row.get(NotesRow.RESTING)),
                  row.get(NotesRow.RESTING_DEGREE),
                  row.get(NotesRow.RESTING_ON_CHORD_TONE)));
    }

    private Tone atConcertPitch() {
      return new Tone(
          index,
          exactOnset,
          exactLength,
          midiConcert(),
          nameConcert,
          0,
          nameConcert,
          role,
          inKey,
          stretch,
          resting);
    }

    /** The same note at another place of a line, written and sounding as it is given. */
    public Tone written(int place, int midi, String name) {
      return new Tone(place, exactOnset, exactLength, midi, name, 0, name, role, inKey, 0, resting);
    }

    /**
     * The note as a landing, for one that the line rests on.
     *
     * @param place its place in the line
     * @param phrase the phrase that it belongs to there
     */
    public LandingMark landing(int place, int phrase) {
      return new LandingMark(
          place,
          phrase,
          RestingReason.BREATH.word().equals(resting.kind())
              ? LandingKind.PHRASE_END.word()
              : LandingKind.HELD.word(),
          resting.degree(),
          resting.onChordTone());
    }

    /** True where it belongs neither to the key nor to the chord at hand. */
    public boolean isOutsideKey() {
      return inKey != null && !inKey;
    }

    /** Sounding pitch as a MIDI number. */
    public int midiConcert() {
      return midiWritten - transposition;
    }

    public double onset() {
      return exactOnset.toDouble();
    }

    public double length() {
      return exactLength.toDouble();
    }

    public double end() {
      return onset() + length();
    }

    /** True where written and sounding pitch differ. */
    public boolean transposed() {
      return transposition != 0;
    }

    /** True for the degrees 1 3 5 7 (6) of the chord symbol. */
    public boolean isCoreChordTone() {
      return DegreeRole.GUIDE_TONE.word().equals(role) || DegreeRole.CHORD_TONE.word().equals(role);
    }
  }

  /**
   * How the line rests on a note.
   *
   * @param kind breath or held
   * @param degree over its chord, in a solo without chords over the tonic; null when unknown
   * @param onChordTone true on 1 3 5 7; null when unknown
   */
  public record Resting(String kind, String degree, Boolean onChordTone) {}

  /**
   * A phrase.
   *
   * @param lengthBars null in free metre
   * @param quartersPerMinute null without a tempo
   */
  public record PhraseSpan(
      int index,
      int firstNote,
      int lastNote,
      double onset,
      double end,
      String firstBar,
      String lastBar,
      Double lengthBars,
      Double quartersPerMinute) {
    /** A phrase of unknown tempo. */
    public PhraseSpan(
        int index,
        int firstNote,
        int lastNote,
        double onset,
        double end,
        String firstBar,
        String lastBar,
        Double lengthBars) {
      this(index, firstNote, lastNote, onset, end, firstBar, lastBar, lengthBars, null);
    }

    /** The columns that it is made of. */
    static final List<Columns> COLUMNS =
        List.of(
            PhrasesRow.PHRASE_INDEX,
            PhrasesRow.FIRST_NOTE_INDEX,
            PhrasesRow.LAST_NOTE_INDEX,
            PhrasesRow.ONSET,
            PhrasesRow.END,
            PhrasesRow.FIRST_BAR_NUMBER,
            PhrasesRow.LAST_BAR_NUMBER,
            PhrasesRow.LENGTH_BARS,
            PhrasesRow.TEMPO_QPM);

    static PhraseSpan of(TableRow row) {
      return new PhraseSpan(
          row.get(PhrasesRow.PHRASE_INDEX),
          row.get(PhrasesRow.FIRST_NOTE_INDEX),
          row.get(PhrasesRow.LAST_NOTE_INDEX),
          row.quotient(PhrasesRow.ONSET),
          row.quotient(PhrasesRow.END),
          row.get(PhrasesRow.FIRST_BAR_NUMBER),
          row.get(PhrasesRow.LAST_BAR_NUMBER),
          row.get(PhrasesRow.LENGTH_BARS),
          row.get(PhrasesRow.TEMPO_QPM));
    }

    public int notes() {
      return lastNote - firstNote + 1;
    }
  }

  /**
   * A landing.
   *
   * @param kind phrase-end, before-rest, held or chord-arrival
   * @param degree over the chord it is judged by; null without a verdict
   * @param chordTone true on a degree 1 3 5 7 (6); null without a verdict
   */
  public record LandingMark(
      int noteIndex, int phraseIndex, String kind, String degree, Boolean chordTone) {
    /** The columns that it is made of. */
    static final List<Columns> COLUMNS =
        List.of(
            LandingsRow.NOTE_INDEX,
            LandingsRow.PHRASE_INDEX,
            LandingsRow.LANDING_KIND,
            LandingsRow.CHORD_DEGREE,
            LandingsRow.CORE_CHORD_TONE);

    static LandingMark of(TableRow row) {
      return new LandingMark(
          row.get(LandingsRow.NOTE_INDEX),
          row.get(LandingsRow.PHRASE_INDEX),
          row.get(LandingsRow.LANDING_KIND).word(),
          row.get(LandingsRow.CHORD_DEGREE),
          row.get(LandingsRow.CORE_CHORD_TONE));
    }
  }
}
