package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
    List<LandingMark> landings) {

  /** Nothing at all. */
  public static final SoloLine NONE =
      new SoloLine(List.of(), List.of(), List.of(), List.of(), List.of());

  private static Fraction fraction(TableRow row, String stem) {
    return Fraction.of(row.longInteger(stem + "_num"), row.longInteger(stem + "_den"));
  }

  public SoloLine {
    bars = List.copyOf(bars);
    chords = List.copyOf(chords);
    notes = List.copyOf(notes);
    phrases = List.copyOf(phrases);
    landings = List.copyOf(landings);
  }

  /** The phrase with an index, if there is one. */
  public Optional<PhraseSpan> phrase(int index) {
    return phrases.stream().filter(phrase -> phrase.index() == index).findFirst();
  }

  /** The same as far as some number of bars. */
  public SoloLine firstBars(int most) {
    return bars.size() <= most
        ? this
        : new SoloLine(bars.subList(0, most), chords, notes, phrases, landings);
  }

  /**
   * The bars in which a phrase sounds, with all that is in them. Notes keep their places in the
   * line, so the list of notes is whole; only bars, chords, phrases and landings are left out.
   */
  public SoloLine around(PhraseSpan phrase) {
    double least = 1e-9;
    List<BarSpan> kept =
        bars.stream()
            .filter(bar -> bar.end() > phrase.onset() + least && bar.onset() < phrase.end() - least)
            .toList();
    if (kept.isEmpty()) {
      return NONE;
    }
    double from = kept.get(0).onset();
    double to = kept.get(kept.size() - 1).end();
    List<ChordSpan> held = new ArrayList<>();
    for (ChordSpan chord : chords) {
      if (chord.end() > from + least && chord.onset() < to - least) {
        held.add(new ChordSpan(Math.max(from, chord.onset()), chord.end(), chord.symbol()));
      }
    }
    return new SoloLine(
        kept,
        held,
        notes,
        List.of(phrase),
        landings.stream().filter(l -> l.phraseIndex() == phrase.index()).toList());
  }

  /**
   * A bar as written.
   *
   * @param metre as in {@code 4/4}; {@code free} when none
   * @param offset where its first moment stands in a full bar
   * @param pickup true for a first bar that leads into the first full bar
   * @param section rehearsal mark at its start; null when none
   */
  public record BarSpan(
      int index,
      String number,
      Fraction exactOnset,
      Fraction exactLength,
      String metre,
      Fraction offset,
      boolean pickup,
      String section) {
    static BarSpan of(TableRow row) {
      return new BarSpan(
          row.integer("bar_index"),
          row.text("bar_number"),
          fraction(row, "onset"),
          fraction(row, "length"),
          row.text("metre"),
          fraction(row, "metrical_offset"),
          row.flag("pickup"),
          row.text("section"));
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
   * A chord symbol.
   *
   * @param symbol as the player of the solo reads it
   */
  public record ChordSpan(double onset, double end, String symbol) {
    static ChordSpan of(TableRow row) {
      return new ChordSpan(row.quotient("onset"), row.quotient("end"), row.text("symbol_written"));
    }
  }

  /**
   * A note of the line.
   *
   * @param midiWritten written pitch
   * @param nameWritten written pitch, spelled
   * @param transposition semitones from sounding to written pitch
   * @param role guide-tone, chord-tone, written-tension or not-in-chord; null without a verdict
   */
  public record Tone(
      int index,
      Fraction exactOnset,
      Fraction exactLength,
      int midiWritten,
      String nameWritten,
      int transposition,
      String role) {
    static Tone of(TableRow row) {
      return new Tone(
          row.integer("note_index"),
          fraction(row, "onset"),
          fraction(row, "length"),
          row.integer("midi_written"),
          row.text("name_written"),
          row.integer("midi_written") - row.integer("midi_concert"),
          row.text("degree_role"));
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
   * A phrase.
   *
   * @param lengthBars null in free metre
   */
  public record PhraseSpan(
      int index,
      int firstNote,
      int lastNote,
      double onset,
      double end,
      String firstBar,
      String lastBar,
      Double lengthBars) {
    static PhraseSpan of(TableRow row) {
      return new PhraseSpan(
          row.integer("phrase_index"),
          row.integer("first_note_index"),
          row.integer("last_note_index"),
          row.quotient("onset"),
          row.quotient("end"),
          row.text("first_bar_number"),
          row.text("last_bar_number"),
          row.number("length_bars"));
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
