package phrasecensus.report.rows;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordText;
import phrasecensus.music.time.Fraction;
import phrasecensus.tables.TableRow;

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
      List.of("bars", "chords", "notes", "phrases", "landings", "grace_notes");

  /** The line of a solo from its rows of these tables. */
  public static SoloLine of(Map<String, List<TableRow>> rows) {
    return new SoloLine(
        all(rows, "bars", BarSpan::of),
        all(rows, "chords", ChordSpan::of),
        all(rows, "notes", Tone::of),
        all(rows, "phrases", PhraseSpan::of),
        all(rows, "landings", LandingMark::of),
        all(rows, "grace_notes", GraceTone::of));
  }

  private static <T> List<T> all(
      Map<String, List<TableRow>> rows, String table, Function<TableRow, T> reading) {
    return rows.getOrDefault(table, List.of()).stream().map(reading).toList();
  }

  private static Integer integerOrNull(TableRow row, String column) {
    return row.isMissing(column) ? null : row.integer(column);
  }

  /** Nothing at all. */
  public static final SoloLine NONE =
      new SoloLine(List.of(), List.of(), List.of(), List.of(), List.of());

  private static Fraction fraction(TableRow row, String stem) {
    return Fraction.of(row.longInteger(stem + "_num"), row.longInteger(stem + "_den"));
  }

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
                        c.onset(), c.end(), c.symbolConcert(), c.symbolConcert(), c.chord()))
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
    static final List<String> COLUMNS =
        List.of(
            "bar_index",
            "bar_number",
            "onset_num",
            "onset_den",
            "length_num",
            "length_den",
            "metre",
            "metrical_offset_num",
            "metrical_offset_den",
            "pickup",
            "section",
            "key_fifths_concert",
            "key_fifths_written",
            "clef",
            "starts_repeat",
            "ends_repeat",
            "ending",
            "ends_ending",
            "ends_double");

    static BarSpan of(TableRow row) {
      return new BarSpan(
          row.integer("bar_index"),
          row.text("bar_number"),
          fraction(row, "onset"),
          fraction(row, "length"),
          row.text("metre"),
          fraction(row, "metrical_offset"),
          row.flag("pickup"),
          row.text("section"),
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
          integerOrNull(row, "key_fifths_concert"),
          integerOrNull(row, "key_fifths_written"),
          row.text("clef"),
          row.flag("starts_repeat"),
          row.flag("ends_repeat"),
          row.text("ending"),
          row.flag("ends_ending"),
          row.flag("ends_double"));
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
      double onset, double end, String symbol, String symbolConcert, Chord chord) {
    /** A chord of which the symbol alone is known. */
    public ChordSpan(double onset, double end, String symbol, String symbolConcert) {
      this(onset, end, symbol, symbolConcert, null);
    }

    /** A chord at concert pitch. */
    public ChordSpan(double onset, double end, String symbol) {
      this(onset, end, symbol, symbol);
    }

    /** The columns that it is made of. */
    static final List<String> COLUMNS =
        List.of(
            "onset_num",
            "onset_den",
            "end_num",
            "end_den",
            "symbol_written",
            "symbol",
            "kind",
            "pitch_classes");

    static ChordSpan of(TableRow row) {
      return new ChordSpan(
          row.quotient("onset"),
          row.quotient("end"),
          row.text("symbol_written"),
          row.text("symbol"),
          ChordText.chord(row.text("symbol"), row.text("kind"), row.integers("pitch_classes"))
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
    static final List<String> COLUMNS =
        List.of("before_note_index", "name_written", "name_concert", "slashed");

    static GraceTone of(TableRow row) {
      return new GraceTone(
          integerOrNull(row, "before_note_index"),
          row.text("name_written"),
          row.text("name_concert"),
          row.flag("slashed"));
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
    static final List<String> COLUMNS =
        List.of(
            "note_index",
            "onset_num",
            "onset_den",
            "length_num",
            "length_den",
            "midi_written",
            "midi_concert",
            "name_written",
            "name_concert",
            "degree_role",
            "in_key",
            "stretch_index",
            "resting",
            "resting_degree",
            "resting_on_chord_tone");

    static Tone of(TableRow row) {
      return new Tone(
          row.integer("note_index"),
          fraction(row, "onset"),
          fraction(row, "length"),
          row.integer("midi_written"),
          row.text("name_written"),
          row.integer("midi_written") - row.integer("midi_concert"),
          row.text("name_concert"),
          row.text("degree_role"),
          row.flag("in_key"),
          row.integer("stretch_index"),
          row.isMissing("resting")
              ? null
              : new Resting(
                  row.text("resting"),
                  row.text("resting_degree"),
                  row.flag("resting_on_chord_tone")));
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
          "breath".equals(resting.kind()) ? "phrase-end" : "held",
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
      return "guide-tone".equals(role) || "chord-tone".equals(role);
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
    static final List<String> COLUMNS =
        List.of(
            "phrase_index",
            "first_note_index",
            "last_note_index",
            "onset_num",
            "onset_den",
            "end_num",
            "end_den",
            "first_bar_number",
            "last_bar_number",
            "length_bars",
            "tempo_qpm");

    static PhraseSpan of(TableRow row) {
      return new PhraseSpan(
          row.integer("phrase_index"),
          row.integer("first_note_index"),
          row.integer("last_note_index"),
          row.quotient("onset"),
          row.quotient("end"),
          row.text("first_bar_number"),
          row.text("last_bar_number"),
          row.number("length_bars"),
          row.number("tempo_qpm"));
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
    static final List<String> COLUMNS =
        List.of("note_index", "phrase_index", "landing_kind", "chord_degree", "core_chord_tone");

    static LandingMark of(TableRow row) {
      return new LandingMark(
          row.integer("note_index"),
          row.integer("phrase_index"),
          row.text("landing_kind"),
          row.text("chord_degree"),
          row.flag("core_chord_tone"));
    }
  }
}
