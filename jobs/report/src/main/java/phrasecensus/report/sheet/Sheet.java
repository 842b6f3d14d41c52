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
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordText;
import phrasecensus.music.midi.MidiFile;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
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
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The music of a sheet: phrases one after the other, each from the first to the last bar in which
 * it sounds, with its chords, transposed to an instrument and put into the octave that suits it.
 *
 * @param solo all of it as one line
 * @param captions where a phrase comes from, at the moment its first bar begins
 * @param systemStarts indexes of the bars with which phrases begin
 * @param lastDegrees note index to the degree of the last note of a phrase over its chord
 */
public record Sheet(
    Solo solo,
    Map<Fraction, String> captions,
    Set<Integer> systemStarts,
    Map<Integer, String> lastDegrees) {
  private static final String TITLELESS = "untitled";

  public Sheet {
    captions = Collections.unmodifiableMap(new TreeMap<>(captions));
    systemStarts = Collections.unmodifiableSet(new TreeSet<>(systemStarts));
    lastDegrees = Collections.unmodifiableMap(new TreeMap<>(lastDegrees));
  }

  /**
   * Sets phrases.
   *
   * @throws InputException if a table cannot be read
   */
  public static Sheet of(
      TableSource tables, List<SheetPhrase> phrases, Instrument instrument, String title) {
    Maker maker = new Maker(instrument);
    Set<String> ids = new TreeSet<>();
    phrases.forEach(phrase -> ids.add(phrase.solo().soloId()));
    Map<String, Map<String, List<TableRow>>> rows = new HashMap<>();
    for (String table : List.of("bars", "chords", "notes", "phrases")) {
      for (TableRow row : tables.rows(table, "solo_id", ids)) {
        rows.computeIfAbsent(row.text("solo_id"), any -> new HashMap<>())
            .computeIfAbsent(table, any -> new ArrayList<>())
            .add(row);
      }
    }
    int number = 1;
    for (SheetPhrase phrase : phrases) {
      maker.add(number++, phrase, rows.getOrDefault(phrase.solo().soloId(), Map.of()));
    }
    return maker.sheet(title);
  }

  /** What it sounds like, without swing. */
  public byte[] midi(String title, Instrument instrument) {
    return MidiFile.of(
        title,
        instrument.program(),
        solo.tempi().stream()
            .map(tempo -> new MidiFile.Tempo(tempo.onset(), tempo.quartersPerMinute()))
            .toList(),
        solo.notes().stream()
            .map(note -> new MidiFile.Sound(note.onset(), note.length(), note.midi()))
            .toList(),
        MidiFile.Feel.STRAIGHT);
  }

  /** Puts one phrase after the other. */
  private static final class Maker {
    private final Instrument instrument;
    private final List<Bar> bars = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();
    private final List<ChordSpan> chords = new ArrayList<>();
    private final List<KeyChange> keys = new ArrayList<>();
    private final List<TempoChange> tempi = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private final Map<Fraction, String> captions = new TreeMap<>();
    private final Set<Integer> systemStarts = new TreeSet<>();
    private final Map<Integer, String> lastDegrees = new TreeMap<>();
    private Fraction reached = Fraction.ZERO;

    Maker(Instrument instrument) {
      this.instrument = instrument;
    }

    private static Fraction fraction(TableRow row, String stem) {
      return Fraction.of(row.longInteger(stem + "_num"), row.longInteger(stem + "_den"));
    }

    void add(int number, SheetPhrase phrase, Map<String, List<TableRow>> rows) {
      TableRow span =
          rows.getOrDefault("phrases", List.of()).stream()
              .filter(row -> row.integer("phrase_index") == phrase.phraseIndex())
              .findFirst()
              .orElseThrow(
                  () ->
                      new InputException(
                          "Cannot write the sheet: the tables of the study do not fit together."
                              + " Make the study again."));
      Fraction onset = fraction(span, "onset");
      Fraction end = fraction(span, "end");
      List<TableRow> inside = new ArrayList<>();
      for (TableRow bar : rows.getOrDefault("bars", List.of())) {
        Fraction barOnset = fraction(bar, "onset");
        if (barOnset.isBefore(end) && barOnset.plus(fraction(bar, "length")).isAfter(onset)) {
          inside.add(bar);
        }
      }
      TableRow first = inside.get(0);
      TableRow last = inside.get(inside.size() - 1);
      Fraction from = fraction(first, "onset");
      Fraction to = fraction(last, "onset").plus(fraction(last, "length"));
      Fraction shift = reached.minus(from);
      Transposition respelled = respelling(first, span, rows);
      int octaves = octaves(span, rows);
      systemStarts.add(bars.size());
      captions.put(reached, caption(number, phrase, span, octaves));
      addKey(first, respelled);
      if (!span.isMissing("tempo_qpm")) {
        addTempo(span.number("tempo_qpm"));
      }
      for (TableRow bar : inside) {
        bars.add(
            new Bar(
                bars.size(),
                String.valueOf(bars.size() + 1),
                fraction(bar, "onset").plus(shift),
                fraction(bar, "length"),
                metre(bar.text("metre")),
                fraction(bar, "metrical_offset"),
                false));
      }
      addChords(rows, from, to, shift, respelled);
      for (TableRow row : rows.getOrDefault("notes", List.of())) {
        int index = row.integer("note_index");
        if (index >= span.integer("first_note_index") && index <= span.integer("last_note_index")) {
          Pitch concert =
              new Transposition(0, 0, octaves)
                  .sounding(respelled.sounding(pitch(row.text("name_concert"))));
          Fraction length = fraction(row, "length");
          Fraction at = fraction(row, "onset").plus(shift);
          notes.add(
              new Note(
                  notes.size(),
                  at,
                  length,
                  concert,
                  instrument.transposition().inverse().sounding(concert),
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
      marks.add(new Mark(Mark.Kind.DOUBLE_BAR, reached, reached, ""));
    }

    private int barAt(Fraction moment) {
      for (int i = bars.size() - 1; i > 0; i--) {
        if (!bars.get(i).onset().isAfter(moment)) {
          return i;
        }
      }
      return 0;
    }

    private static String caption(int number, SheetPhrase phrase, TableRow span, int octaves) {
      String title = FileText.printable(phrase.solo().title());
      String performer = FileText.printable(phrase.solo().performer());
      String firstBar = FileText.printable(span.text("first_bar_number"));
      String lastBar = FileText.printable(span.text("last_bar_number"));
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
          + moved;
    }

    private static Metre metre(String text) {
      if (!text.matches("[0-9]{1,2}/[0-9]{1,2}")) {
        return text.equals("free") ? Metre.FREE : sum(text);
      }
      String[] both = text.split("/");
      return Metre.of(Integer.parseInt(both[0]), Integer.parseInt(both[1]));
    }

    /** A sum of signatures, as in {@code 3+2/8}. */
    private static Metre sum(String text) {
      Fraction length = Fraction.ZERO;
      Fraction shortest = Fraction.ONE;
      for (String part : text.split("(?<=/[0-9]{1,2})\\+")) {
        String[] both = part.split("/");
        Fraction unit = Fraction.of(4, Integer.parseInt(both[1]));
        for (String beats : both[0].split("\\+")) {
          length = length.plus(unit.times(Integer.parseInt(beats)));
        }
        shortest = Fraction.smaller(shortest, unit);
      }
      return new Metre(text, length, shortest);
    }

    /** Keeps written key signatures within six accidentals by spelling the phrase anew. */
    private Transposition respelling(
        TableRow bar, TableRow span, Map<String, List<TableRow>> rows) {
      int moved = instrument.transposition().inverse().fifths();
      double fifths;
      if (!bar.isMissing("key_fifths_concert")) {
        fifths = bar.integer("key_fifths_concert") + moved;
      } else {
        // Without a signature the notes themselves tell; C major lies two fifths above its tonic.
        fifths =
            rows.getOrDefault("notes", List.of()).stream()
                    .filter(row -> isOf(row, span))
                    .mapToInt(row -> pitch(row.text("name_concert")).name().fifths())
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
      int index = note.integer("note_index");
      return index >= span.integer("first_note_index") && index <= span.integer("last_note_index");
    }

    /** The octaves by which the phrase moves to lie best for the instrument, as few as possible. */
    private int octaves(TableRow span, Map<String, List<TableRow>> rows) {
      int best = 0;
      long least = Long.MAX_VALUE;
      int moved = instrument.transposition().inverse().semitones();
      for (int octaves : new int[] {0, 1, -1, 2, -2, 3, -3}) {
        long outside = 0;
        for (TableRow row : rows.getOrDefault("notes", List.of())) {
          if (isOf(row, span)) {
            outside += instrument.outside(row.integer("midi_concert") + moved + 12 * octaves);
          }
        }
        if (outside < least) {
          least = outside;
          best = octaves;
        }
      }
      return best;
    }

    private void addKey(TableRow bar, Transposition respelled) {
      int moved = instrument.transposition().fifths();
      // Without a signature nothing is known of the key, and the player's page has none either.
      boolean unknown = bar.isMissing("key_fifths_concert");
      int concert = unknown ? moved : bar.integer("key_fifths_concert") + respelled.fifths();
      int written = concert - moved;
      KeyChange last = keys.isEmpty() ? null : keys.get(keys.size() - 1);
      boolean changes = last == null ? !unknown : last.concertFifths() != concert;
      if (changes) {
        keys.add(new KeyChange(reached, concert, written, null));
      }
    }

    private void addTempo(double quartersPerMinute) {
      boolean same =
          !tempi.isEmpty()
              && tempi.get(tempi.size() - 1).quartersPerMinute() == quartersPerMinute;
      if (!same) {
        tempi.add(new TempoChange(reached, quartersPerMinute));
      }
    }

    private void addChords(
        Map<String, List<TableRow>> rows,
        Fraction from,
        Fraction to,
        Fraction shift,
        Transposition respelled) {
      for (TableRow row : rows.getOrDefault("chords", List.of())) {
        Fraction onset = Fraction.larger(from, fraction(row, "onset"));
        Fraction end = Fraction.smaller(to, fraction(row, "end"));
        if (onset.isBefore(end)) {
          ChordText.chord(
                  row.text("symbol"), row.text("kind"), row.integers("pitch_classes"))
              .map(chord -> chord.sounding(respelled))
              .ifPresent(
                  chord ->
                      chords.add(
                          new ChordSpan(
                              onset.plus(shift), end.plus(shift), chord, written(chord), "")));
        }
      }
    }

    private Chord written(Chord concert) {
      return concert.sounding(instrument.transposition().inverse());
    }

    private static Pitch pitch(String name) {
      int alter = 0;
      int i = 1;
      while (i < name.length() && (name.charAt(i) == '♯' || name.charAt(i) == '♭')) {
        alter += name.charAt(i) == '♯' ? 1 : -1;
        i++;
      }
      String octave = name.substring(i).replaceFirst("[+-][0-9]+¢$", "");
      return Pitch.of(Step.valueOf(name.substring(0, 1)), alter, Integer.parseInt(octave));
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
      return new Sheet(solo, captions, systemStarts, lastDegrees);
    }
  }
}
