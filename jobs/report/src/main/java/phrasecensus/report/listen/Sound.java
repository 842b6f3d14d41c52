package phrasecensus.report.listen;

import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import phrasecensus.music.midi.Backing;
import phrasecensus.music.midi.MidiFile;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.InOrder;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.sheet.Instrument;

/**
 * A stretch of a solo as a MIDI file, at sounding pitch and as written, without swing. It starts on
 * a beat, so that whoever plays it can swing the halves of beats. The file stands in the page
 * itself as a {@code data:} address (RFC 2397): a page that is sent on alone still has its sounds,
 * and a page opened from disk may not read other files.
 *
 * @param file name under which it is saved
 * @param address the whole file
 * @param beat quarter notes from the bar line to the start of the file
 * @param home pitch class of the tonal centre, 0 (C) to 11; null when unknown
 * @param swings true where a beat is a quarter or half note, whose halves can be swung
 */
public record Sound(String file, String address, int beat, Integer home, boolean swings) {
  private static final double USUAL_TEMPO = 120;

  /** A phrase. */
  public static Sound of(String file, SoloFacts facts, SoloLine line, SoloLine.PhraseSpan phrase) {
    return of(
        file,
        program(facts),
        line,
        InOrder.numbered(line.notes(), SoloLine.Tone::index, phrase.firstNote(), phrase.lastNote()),
        tempo(facts, phrase.quartersPerMinute()),
        facts.centreTonic());
  }

  /** A whole solo; at its first tempo throughout. */
  public static Sound of(String file, SoloFacts facts, SoloLine line) {
    return of(file, program(facts), line, line.notes(), tempo(facts, null), facts.centreTonic());
  }

  private static Fraction end(SoloLine.Tone note) {
    return note.exactOnset().plus(note.exactLength());
  }

  private static List<ChordSpan> chords(SoloLine line) {
    return line.chords().stream()
        .filter(chord -> chord.chord() != null)
        .map(
            chord ->
                new ChordSpan(
                    chord.exactOnset(), chord.exactEnd(), chord.chord(), chord.chord(), ""))
        .toList();
  }

  private static List<MidiFile.Signature> signature(String metre) {
    if (!metre.matches("[0-9]{1,2}/[0-9]{1,2}")) {
      return List.of();
    }
    String[] both = metre.split("/");
    return List.of(
        new MidiFile.Signature(
            Fraction.ZERO, Integer.parseInt(both[0]), Integer.parseInt(both[1])));
  }

  private static int program(SoloFacts facts) {
    return Instrument.named(facts.instrument() == null ? "" : facts.instrument())
        .orElse(Instrument.CONCERT)
        .program();
  }

  private static Double tempo(SoloFacts facts, Double ofPhrase) {
    return ofPhrase != null ? ofPhrase : facts.tempo();
  }

  /**
   * A stretch.
   *
   * @param program General MIDI program, 0 to 127
   * @param notes of the line, one after the other
   * @param tempo quarter notes a minute; null when unknown
   * @param home pitch class of the tonal centre, sounding; null when unknown
   * @return null when there is nothing to hear
   */
  public static Sound of(
      String file,
      int program,
      SoloLine line,
      List<SoloLine.Tone> notes,
      Double tempo,
      Integer home) {
    if (notes.isEmpty() || line.bars().isEmpty()) {
      return null;
    }
    Fraction onset = notes.get(0).exactOnset();
    SoloLine.BarSpan bar = line.bars().get(0);
    double moment = onset.toDouble();
    for (SoloLine.BarSpan each :
        InOrder.touching(
            line.bars(), SoloLine.BarSpan::onset, SoloLine.BarSpan::end, moment, moment)) {
      if (!each.exactOnset().isAfter(onset)) {
        bar = each;
      }
    }
    Fraction inBar = onset.minus(bar.exactOnset()).plus(bar.offset());
    Fraction start = onset.minus(inBar.minus(Fraction.of(inBar.floor())));
    List<MidiFile.Sound> sounds = new ArrayList<>();
    for (SoloLine.Tone note : notes) {
      sounds.add(
          new MidiFile.Sound(
              note.exactOnset().minus(start), note.exactLength(), note.midiConcert()));
    }
    double played = tempo != null ? tempo : USUAL_TEMPO;
    byte[] midi =
        MidiFile.of(
            file,
            program,
            List.of(new MidiFile.Tempo(Fraction.ZERO, played)),
            signature(bar.metre()),
            List.of(),
            sounds,
            Backing.parts(chords(line), start, end(notes.get(notes.size() - 1))),
            MidiFile.Feel.STRAIGHT);
    return new Sound(
        file + ".mid",
        "data:audio/midi;base64," + Base64.getEncoder().encodeToString(midi),
        (int) inBar.floor(),
        home,
        bar.metre().matches("[0-9+]+/[24]"));
  }
}
