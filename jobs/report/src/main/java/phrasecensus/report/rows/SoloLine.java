package phrasecensus.report.rows;

import java.util.List;
import phrasecensus.tables.TableRow;

/**
 * What one solo sounds like, for pictures: times in quarter notes from the start of the solo,
 * rounded. Each list is in the order of its table.
 */
public record SoloLine(
    List<BarSpan> bars,
    List<ChordSpan> chords,
    List<Tone> notes,
    List<PhraseSpan> phrases,
    List<LandingMark> landings) {

  public SoloLine {
    bars = List.copyOf(bars);
    chords = List.copyOf(chords);
    notes = List.copyOf(notes);
    phrases = List.copyOf(phrases);
    landings = List.copyOf(landings);
  }

  /**
   * A bar as written.
   *
   * @param pickup true for a first bar that leads into the first full bar
   * @param section rehearsal mark at its start; null when none
   */
  public record BarSpan(
      int index, String number, double onset, double length, boolean pickup, String section) {
    static BarSpan of(TableRow row) {
      return new BarSpan(
          row.integer("bar_index"),
          row.text("bar_number"),
          row.quotient("onset"),
          row.quotient("length"),
          row.flag("pickup"),
          row.text("section"));
    }

    public double end() {
      return onset + length;
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
   * @param transposed true where written and sounding pitch differ
   * @param role guide-tone, chord-tone, written-tension or not-in-chord; null without a verdict
   */
  public record Tone(
      int index,
      double onset,
      double length,
      int midiWritten,
      String nameWritten,
      boolean transposed,
      String role) {
    static Tone of(TableRow row) {
      return new Tone(
          row.integer("note_index"),
          row.quotient("onset"),
          row.quotient("length"),
          row.integer("midi_written"),
          row.text("name_written"),
          row.integer("midi_written") != row.integer("midi_concert"),
          row.text("degree_role"));
    }

    public double end() {
      return onset + length;
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
