package phrasecensus.report.sheet;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.chord.ChordText;
import phrasecensus.music.difficulty.Difficulty;
import phrasecensus.music.difficulty.WrittenNote;
import phrasecensus.music.midi.Backing;
import phrasecensus.music.midi.MidiFile;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.wording.FileText;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Table;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.TextColumn;
import phrasecensus.tables.row.BarsRow;
import phrasecensus.tables.row.CentreMode;
import phrasecensus.tables.row.ChordsRow;
import phrasecensus.tables.row.NotesRow;
import phrasecensus.tables.row.PhrasesRow;
import phrasecensus.tables.row.TonalCentresRow;

/**
 * The music of a sheet: phrases one after the other, each from the first to the last bar in which
 * it sounds, with its chords, transposed to an instrument and put into the octave that suits it.
 *
 * @param solo all of it as one line
 * @param stretches its phrases and the empty bars after them, in order
 * @param lastDegrees note index to the degree of the last note of a phrase over its chord
 * @param phrases that it holds, each once
 * @param leftOut how many phrases that came first did not suit, by the reason
 */
public record Sheet(
    Solo solo,
    List<Stretch> stretches,
    Map<Integer, String> lastDegrees,
    List<SheetPhrase> phrases,
    Map<SheetSetting.LeftOut, Integer> leftOut) {
  private static final String TITLELESS = "untitled";

  /**
   * What stands on a system of its own.
   *
   * @param firstBar index of its first bar
   * @param lastBar index of its last bar
   * @param caption where the phrase comes from, or what the player is to do
   * @param answer true for empty bars that the player fills
   */
  public record Stretch(int firstBar, int lastBar, String caption, boolean answer) {}

  /** What a sheet says of the rights in what it holds. */
  public static final String RIGHTS =
      "Solos under copyright are for your own study; ask before you hand out more.";

  public Sheet {
    stretches = List.copyOf(stretches);
    lastDegrees = Collections.unmodifiableMap(new TreeMap<>(lastDegrees));
    phrases = List.copyOf(phrases);
    leftOut = Collections.unmodifiableMap(new TreeMap<>(leftOut));
  }

  /**
   * Sets phrases: the first ones that suit the player, each in all keys that are asked for.
   *
   * @param phrases to choose from, in order
   * @throws InputException if a table cannot be read, or no phrase suits
   */
  public static Sheet of(
      TableSource tables, List<SheetPhrase> phrases, SheetSetting setting, String title) {
    Maker maker = new Maker(setting);
    Set<String> ids = new TreeSet<>();
    phrases.forEach(phrase -> ids.add(phrase.solo().soloId()));
    Map<String, Map<Table<?>, List<TableRow>>> rows = new HashMap<>();
    collect(tables, BarsRow.TABLE, BarsRow.SOLO_ID, ids, rows);
    collect(tables, ChordsRow.TABLE, ChordsRow.SOLO_ID, ids, rows);
    collect(tables, NotesRow.TABLE, NotesRow.SOLO_ID, ids, rows);
    collect(tables, PhrasesRow.TABLE, PhrasesRow.SOLO_ID, ids, rows);
    collect(tables, TonalCentresRow.TABLE, TonalCentresRow.SOLO_ID, ids, rows);
    for (SheetPhrase phrase : phrases) {
      if (maker.phrases.size() < setting.most()) {
        maker.add(phrase, rows.getOrDefault(phrase.solo().soloId(), Map.of()));
      }
    }
    if (maker.phrases.isEmpty()) {
      throw new InputException(
          "Cannot write the sheet: no phrase suits. Left out: "
              + leftOutInWords(maker.leftOut, setting)
              + ". Choose another instrument or level.");
    }
    return maker.sheet(title);
  }

  private static void collect(
      TableSource tables,
      Table<?> table,
      TextColumn<String> soloId,
      Set<String> ids,
      Map<String, Map<Table<?>, List<TableRow>>> rows) {
    for (TableRow row : tables.tableRows(table, soloId.isOneOf(ids))) {
      rows.computeIfAbsent(row.get(soloId), any -> new HashMap<>())
          .computeIfAbsent(table, any -> new ArrayList<>())
          .add(row);
    }
  }

  /**
   * What was left out and why, as in {@code 2 beyond the range of trumpet in B♭}; empty for none.
   */
  public static String leftOutInWords(
      Map<SheetSetting.LeftOut, Integer> leftOut, SheetSetting setting) {
    List<String> parts = new ArrayList<>();
    leftOut.forEach(
        (why, number) ->
            parts.add(
                number
                    + switch (why) {
                      case OUT_OF_RANGE ->
                          " beyond the range of "
                              + setting.instrument().label()
                              + (setting.level() < SheetSetting.EVERY_LEVEL
                                  ? " on level " + setting.level()
                                  : "");
                      case TOO_HARD ->
                          " harder than level " + setting.level() + " as written for it";
                      case WITHOUT_CENTRE -> " without a tonal centre to move from";
                    }));
    return String.join(", ", parts);
  }

  /** Indexes of the bars with which systems begin. */
  public Set<Integer> systemStarts() {
    Set<Integer> starts = new TreeSet<>();
    stretches.forEach(each -> starts.add(each.firstBar()));
    return starts;
  }

  /** Indexes of the bars that the player fills. */
  public Set<Integer> emptyBars() {
    Set<Integer> empty = new TreeSet<>();
    for (Stretch each : stretches) {
      for (int bar = each.firstBar(); each.answer() && bar <= each.lastBar(); bar++) {
        empty.add(bar);
      }
    }
    return empty;
  }

  /** Captions by the moment at which the first bar under them begins. */
  public Map<Fraction, String> captions() {
    Map<Fraction, String> captions = new TreeMap<>();
    stretches.forEach(
        each -> captions.put(solo.bars().get(each.firstBar()).onset(), each.caption()));
    return captions;
  }

  /**
   * What it sounds like, without swing: the line, its chords and bass, a marker at each caption.
   */
  public byte[] midi(String title, Instrument instrument) {
    List<MidiFile.Signature> signatures = new ArrayList<>();
    String metre = "";
    for (Bar bar : solo.bars()) {
      if (!bar.metre().text().equals(metre) && bar.metre().text().matches("[0-9]+/[0-9]+")) {
        String[] both = bar.metre().text().split("/");
        signatures.add(
            new MidiFile.Signature(
                bar.onset(), Integer.parseInt(both[0]), Integer.parseInt(both[1])));
      }
      metre = bar.metre().text();
    }
    List<MidiFile.Marker> markers = new ArrayList<>();
    captions().forEach((at, text) -> markers.add(new MidiFile.Marker(at, text)));
    return MidiFile.of(
        title,
        instrument.program(),
        solo.tempi().stream()
            .map(tempo -> new MidiFile.Tempo(tempo.onset(), tempo.quartersPerMinute()))
            .toList(),
        signatures,
        markers,
        solo.notes().stream()
            .map(note -> new MidiFile.Sound(note.onset(), note.length(), note.midi()))
            .toList(),
        Backing.parts(solo.chords(), Fraction.ZERO, solo.length()),
        MidiFile.Feel.STRAIGHT);
  }

  /** Puts one phrase after the other. */
  private static final class Maker {
    private final SheetSetting setting;
    private final Instrument instrument;
    private final List<SheetPhrase> phrases = new ArrayList<>();
    private final Map<SheetSetting.LeftOut, Integer> leftOut = new TreeMap<>();
    private final List<Bar> bars = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();
    private final List<ChordSpan> chords = new ArrayList<>();
    private final List<KeyChange> keys = new ArrayList<>();
    private final List<TempoChange> tempi = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private final List<Stretch> stretches = new ArrayList<>();
    private final Map<Integer, String> lastDegrees = new TreeMap<>();
    private Fraction reached = Fraction.ZERO;

    Maker(SheetSetting setting) {
      this.setting = setting;
      this.instrument = setting.instrument();
    }

    /**
     * Where a phrase is moved before it is written for the instrument.
     *
     * @param by never null
     * @param fifths concert key signature; null for that of the tune, moved along
     * @param key name of the key as the player reads it; empty for that of the tune
     */
    private record Move(Transposition by, Integer fifths, String key) {}

    /** Adds a phrase in all its keys, or in none where one of them does not suit. */
    void add(SheetPhrase phrase, Map<Table<?>, List<TableRow>> rows) {
      TableRow span =
          rows.getOrDefault(PhrasesRow.TABLE, List.of()).stream()
              .filter(row -> row.get(PhrasesRow.PHRASE_INDEX) == phrase.phraseIndex())
              .findFirst()
              .orElseThrow(
                  () ->
                      new InputException(
                          "Cannot write the sheet: the tables of the study do not fit together."
                              + " Make the study again."));
      Fraction onset = PhrasesRow.ONSET.in(span, Fraction::of);
      Fraction end = PhrasesRow.END.in(span, Fraction::of);
      List<TableRow> inside = new ArrayList<>();
      for (TableRow bar : rows.getOrDefault(BarsRow.TABLE, List.of())) {
        Fraction barOnset = BarsRow.ONSET.in(bar, Fraction::of);
        if (barOnset.isBefore(end)
            && barOnset.plus(BarsRow.LENGTH.in(bar, Fraction::of)).isAfter(onset)) {
          inside.add(bar);
        }
      }
      List<Move> moves = moves(inside.get(0), span, rows);
      if (moves.isEmpty()) {
        leftOut.merge(SheetSetting.LeftOut.WITHOUT_CENTRE, 1, Integer::sum);
        return;
      }
      for (Move move : moves) {
        SheetSetting.LeftOut why = unsuitable(move, inside.get(0), span, rows);
        if (why != null) {
          leftOut.merge(why, 1, Integer::sum);
          return;
        }
      }
      phrases.add(phrase);
      for (Move move : moves) {
        add(phrase, move, inside, span, rows);
      }
    }

    /** Why a phrase does not suit the player; null where it does. */
    private SheetSetting.LeftOut unsuitable(
        Move move, TableRow bar, TableRow span, Map<Table<?>, List<TableRow>> rows) {
      int octaves = octaves(move, span, rows);
      if (outside(move, octaves, span, rows) > 0) {
        return SheetSetting.LeftOut.OUT_OF_RANGE;
      }
      if (setting.level() == SheetSetting.EVERY_LEVEL) {
        return null;
      }
      Transposition written = instrument.transposition().inverse();
      List<WrittenNote> line = new ArrayList<>();
      for (TableRow row : rows.getOrDefault(NotesRow.TABLE, List.of())) {
        if (isOf(row, span)) {
          line.add(
              new WrittenNote(
                  NotesRow.LENGTH.in(row, Fraction::of),
                  written.sounding(move.by().sounding(pitch(row))).withoutDoubles()));
        }
      }
      int signature =
          move.fifths() != null
              ? move.fifths() + written.fifths()
              : bar.get(BarsRow.KEY_FIFTHS_CONCERT) == null
                  ? 0
                  : bar.get(BarsRow.KEY_FIFTHS_CONCERT) + move.by().fifths() + written.fifths();
      return Difficulty.of(line, signature).level() > setting.level()
          ? SheetSetting.LeftOut.TOO_HARD
          : null;
    }

    /** Every key in which the phrase comes; empty where it has no tonal centre to move from. */
    private List<Move> moves(TableRow bar, TableRow span, Map<Table<?>, List<TableRow>> rows) {
      if (setting.keys() == SheetSetting.Keys.OF_TUNE) {
        return List.of(new Move(respelling(bar, span, rows), null, ""));
      }
      Fraction end = PhrasesRow.END.in(span, Fraction::of);
      TableRow centre = null;
      for (TableRow row : rows.getOrDefault(TonalCentresRow.TABLE, List.of())) {
        if (TonalCentresRow.ONSET.in(row, Fraction::of).isBefore(end)) {
          centre = row;
        }
      }
      if (centre == null || centre.get(TonalCentresRow.TONIC_PC) == null) {
        return List.of();
      }
      boolean minor = centre.get(TonalCentresRow.MODE) == CentreMode.MINOR;
      int own = centre.get(TonalCentresRow.TONIC_PC);
      int from = signature(own, minor);
      double spelled =
          rows.getOrDefault(NotesRow.TABLE, List.of()).stream()
              .filter(row -> isOf(row, span))
              .mapToInt(row -> pitch(row).name().fifths())
              .average()
              .orElse(from + 2.0);
      // The notes tell whether the tune is spelled in sharps or flats; see respelling.
      from += 12 * (int) Math.round((spelled - 2 - from) / 12);
      int moved = instrument.transposition().inverse().fifths();
      List<Move> moves = new ArrayList<>();
      for (int i = 0; i < setting.keys().times(); i++) {
        int tonic =
            setting.keys() == SheetSetting.Keys.ONE
                ? setting.tonic()
                : Math.floorMod(own + 5 * i, 12);
        int to = signature(tonic, minor);
        // Six sharps or flats at most as the player reads it.
        to += to + moved > 6 ? -12 : to + moved < -6 ? 12 : 0;
        String concert = key(signature(tonic, minor), minor);
        moves.add(
            new Move(
                byFifths(to - from),
                to,
                moved == 0 ? concert : key(to + moved, minor) + " (concert " + concert + ")"));
      }
      return moves;
    }

    /** Sharps of a key, -6 to 5. */
    private static int signature(int tonic, boolean minor) {
      return Math.floorMod((tonic + (minor ? 3 : 0)) * 7 + 6, 12) - 6;
    }

    private static Transposition byFifths(int fifths) {
      int octaves = Math.floorDiv(7 * fifths + 6, 12);
      return new Transposition(4 * fifths - 7 * octaves, 7 * fifths - 12 * octaves, 0);
    }

    private static String key(int fifths, boolean minor) {
      return NoteName.atFifths(fifths + (minor ? 3 : 0)) + (minor ? " minor" : "");
    }

    private void add(
        SheetPhrase phrase,
        Move move,
        List<TableRow> inside,
        TableRow span,
        Map<Table<?>, List<TableRow>> rows) {
      TableRow first = inside.get(0);
      TableRow last = inside.get(inside.size() - 1);
      Fraction from = BarsRow.ONSET.in(first, Fraction::of);
      Fraction to =
          BarsRow.ONSET.in(last, Fraction::of).plus(BarsRow.LENGTH.in(last, Fraction::of));
      Fraction shift = reached.minus(from);
      int octaves = octaves(move, span, rows);
      stretches.add(
          new Stretch(
              bars.size(),
              bars.size() + inside.size() - 1,
              caption(phrases.size(), phrase, span, octaves, move.key()),
              false));
      addKey(first, move);
      if (span.get(PhrasesRow.TEMPO_QPM) != null) {
        addTempo(span.get(PhrasesRow.TEMPO_QPM));
      }
      addBars(inside, shift);
      addChords(rows, from, to, shift, move.by());
      for (TableRow row : rows.getOrDefault(NotesRow.TABLE, List.of())) {
        if (isOf(row, span)) {
          // Spelled for the reader first; what sounds is named from that, so that the interval
          // between the two stays that of the instrument.
          Pitch written =
              instrument
                  .transposition()
                  .inverse()
                  .sounding(
                      new Transposition(0, 0, octaves).sounding(move.by().sounding(pitch(row))))
                  .withoutDoubles();
          Fraction length = NotesRow.LENGTH.in(row, Fraction::of);
          Fraction at = NotesRow.ONSET.in(row, Fraction::of).plus(shift);
          notes.add(
              new Note(
                  notes.size(),
                  at,
                  length,
                  instrument.transposition().sounding(written),
                  written,
                  barAt(at),
                  List.of(length),
                  0,
                  false,
                  List.of()));
        }
      }
      if (phrase.lastDegree() != null) {
        lastDegrees.put(notes.size() - 1, phrase.lastDegree());
      }
      reached = to.plus(shift);
      if (setting.answers()) {
        Fraction again = reached.minus(from);
        stretches.add(
            new Stretch(bars.size(), bars.size() + inside.size() - 1, answer(inside.size()), true));
        addBars(inside, again);
        addChords(rows, from, to, again, move.by());
        reached = to.plus(again);
      }
      marks.add(new Mark(Mark.Kind.DOUBLE_BAR, reached, reached, ""));
    }

    private static String answer(int bars) {
      return "Now you: " + bars + (bars == 1 ? " bar" : " bars");
    }

    private void addBars(List<TableRow> inside, Fraction shift) {
      for (TableRow bar : inside) {
        bars.add(
            new Bar(
                bars.size(),
                String.valueOf(bars.size() + 1),
                BarsRow.ONSET.in(bar, Fraction::of).plus(shift),
                BarsRow.LENGTH.in(bar, Fraction::of),
                Metre.named(bar.get(BarsRow.METRE)),
                BarsRow.METRICAL_OFFSET.in(bar, Fraction::of),
                false));
      }
    }

    private int barAt(Fraction moment) {
      for (int i = bars.size() - 1; i > 0; i--) {
        if (!bars.get(i).onset().isAfter(moment)) {
          return i;
        }
      }
      return 0;
    }

    private static String caption(
        int number, SheetPhrase phrase, TableRow span, int octaves, String key) {
      String title = FileText.printable(phrase.solo().title());
      String performer = FileText.printable(phrase.solo().performer());
      String firstBar = FileText.printable(span.get(PhrasesRow.FIRST_BAR_NUMBER));
      String lastBar = FileText.printable(span.get(PhrasesRow.LAST_BAR_NUMBER));
      String moved =
          octaves == 0
              ? ""
              : ", "
                  + (Math.abs(octaves) == 1 ? "an octave" : Math.abs(octaves) + " octaves")
                  + (octaves > 0 ? " higher" : " lower");
      return number
          + ". "
          + (title.isEmpty() ? TITLELESS : title)
          + (performer.isEmpty() ? "" : ", " + performer)
          + (firstBar.equals(lastBar) ? ", bar " + firstBar : ", bars " + firstBar + "–" + lastBar)
          + (key.isEmpty() ? moved : ", in " + key);
    }

    /** Keeps written key signatures within six accidentals by spelling the phrase anew. */
    private Transposition respelling(
        TableRow bar, TableRow span, Map<Table<?>, List<TableRow>> rows) {
      int moved = instrument.transposition().inverse().fifths();
      double fifths;
      if (bar.get(BarsRow.KEY_FIFTHS_CONCERT) != null) {
        fifths = bar.get(BarsRow.KEY_FIFTHS_CONCERT) + moved;
      } else {
        // Without a signature the notes themselves tell; C major lies two fifths above its tonic.
        fifths =
            rows.getOrDefault(NotesRow.TABLE, List.of()).stream()
                    .filter(row -> isOf(row, span))
                    .mapToInt(row -> pitch(row).name().fifths())
                    .average()
                    .orElse(0)
                + moved
                - 2;
      }
      return fifths > 6.5
          ? new Transposition(1, 0, 0)
          : fifths < -6.5 ? new Transposition(-1, 0, 0) : Transposition.NONE;
    }

    private static boolean isOf(TableRow note, TableRow span) {
      int index = note.get(NotesRow.NOTE_INDEX);
      return index >= span.get(PhrasesRow.FIRST_NOTE_INDEX)
          && index <= span.get(PhrasesRow.LAST_NOTE_INDEX);
    }

    /** The octaves by which the phrase moves to lie best for the instrument, as few as possible. */
    private int octaves(Move move, TableRow span, Map<Table<?>, List<TableRow>> rows) {
      int best = 0;
      long least = Long.MAX_VALUE;
      for (int octaves : new int[] {0, 1, -1, 2, -2, 3, -3}) {
        long outside = outside(move, octaves, span, rows);
        if (outside < least) {
          least = outside;
          best = octaves;
        }
      }
      return best;
    }

    /** Semitones by which its notes lie outside the range, added up. */
    private long outside(
        Move move, int octaves, TableRow span, Map<Table<?>, List<TableRow>> rows) {
      int moved =
          instrument.transposition().inverse().semitones() + move.by().semitones() + 12 * octaves;
      long outside = 0;
      for (TableRow row : rows.getOrDefault(NotesRow.TABLE, List.of())) {
        if (isOf(row, span)) {
          outside += setting.outside(row.get(NotesRow.MIDI_CONCERT) + moved);
        }
      }
      return outside;
    }

    private void addKey(TableRow bar, Move move) {
      int moved = instrument.transposition().fifths();
      // Without a signature nothing is known of the key, and the player's page has none either.
      boolean unknown = move.fifths() == null && bar.get(BarsRow.KEY_FIFTHS_CONCERT) == null;
      int concert =
          move.fifths() != null
              ? move.fifths()
              : unknown ? moved : bar.get(BarsRow.KEY_FIFTHS_CONCERT) + move.by().fifths();
      int written = concert - moved;
      KeyChange last = keys.isEmpty() ? null : keys.get(keys.size() - 1);
      boolean changes = last == null ? !unknown : last.concertFifths() != concert;
      if (changes) {
        keys.add(new KeyChange(reached, concert, written, null));
      }
    }

    private void addTempo(double quartersPerMinute) {
      boolean same =
          !tempi.isEmpty() && tempi.get(tempi.size() - 1).quartersPerMinute() == quartersPerMinute;
      if (!same) {
        tempi.add(new TempoChange(reached, quartersPerMinute));
      }
    }

    private void addChords(
        Map<Table<?>, List<TableRow>> rows,
        Fraction from,
        Fraction to,
        Fraction shift,
        Transposition respelled) {
      for (TableRow row : rows.getOrDefault(ChordsRow.TABLE, List.of())) {
        Fraction onset = Fraction.larger(from, ChordsRow.ONSET.in(row, Fraction::of));
        Fraction end = Fraction.smaller(to, ChordsRow.END.in(row, Fraction::of));
        if (onset.isBefore(end)) {
          ChordText.chord(
                  row.get(ChordsRow.SYMBOL),
                  row.get(ChordsRow.KIND),
                  row.get(ChordsRow.PITCH_CLASSES))
              .map(
                  chord ->
                      chord
                          .sounding(respelled)
                          .sounding(instrument.transposition().inverse())
                          .simplest())
              .ifPresent(
                  written ->
                      chords.add(
                          new ChordSpan(
                              onset.plus(shift),
                              end.plus(shift),
                              written.sounding(instrument.transposition()),
                              written,
                              "")));
        }
      }
    }

    private static Pitch pitch(TableRow row) {
      return Pitch.named(row.get(NotesRow.NAME_CONCERT)).withoutCents();
    }

    Sheet sheet(String title) {
      String label = instrument.label();
      String part = label.substring(0, 1).toUpperCase(Locale.ROOT) + label.substring(1);
      Solo solo =
          new Solo(
              new SoloDescription(title, Map.of(), Map.of(), "P1", part, part, "", ""),
              bars,
              notes,
              List.of(),
              chords,
              keys,
              tempi,
              marks,
              List.of(),
              List.of());
      return new Sheet(solo, stretches, lastDegrees, phrases, leftOut);
    }
  }
}
