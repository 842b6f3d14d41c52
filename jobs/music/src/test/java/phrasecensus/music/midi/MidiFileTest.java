package phrasecensus.music.midi;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;

/** Reads files back with the reader of the JDK, which knows nothing of our writer. */
class MidiFileTest {
  private static MidiFile.Sound sound(String onset, String length, int midi) {
    return new MidiFile.Sound(Fraction.parse(onset), Fraction.parse(length), midi);
  }

  private static Sequence read(byte[] file) throws Exception {
    return MidiSystem.getSequence(new ByteArrayInputStream(file));
  }

  /** {@code tick:on|off:pitch}, in order. */
  private static List<String> notes(Sequence sequence) {
    List<String> notes = new ArrayList<>();
    Track track = sequence.getTracks()[0];
    for (int i = 0; i < track.size(); i++) {
      MidiEvent event = track.get(i);
      if (event.getMessage() instanceof ShortMessage message
          && message.getCommand() != ShortMessage.PROGRAM_CHANGE) {
        boolean on = message.getCommand() == ShortMessage.NOTE_ON;
        notes.add(event.getTick() + ":" + (on ? "on" : "off") + ":" + message.getData1());
      }
    }
    return notes;
  }

  private static byte[] file(MidiFile.Feel feel, MidiFile.Sound... sounds) {
    return MidiFile.of(
        "Line", 65, List.of(new MidiFile.Tempo(Fraction.ZERO, 150)), List.of(sounds), feel);
  }

  @Test
  void notesStartAndStopWhereTheyAreWritten() throws Exception {
    Sequence sequence =
        read(file(MidiFile.Feel.STRAIGHT, sound("0", "1/2", 60), sound("1/2", "1/3", 62)));

    assertThat(sequence.getResolution()).isEqualTo(480);
    assertThat(sequence.getDivisionType()).isEqualTo(Sequence.PPQ);
    assertThat(notes(sequence)).containsExactly("0:on:60", "240:off:60", "240:on:62", "400:off:62");
  }

  @Test
  void swungEighthsAreTwoThirdsAndOneThird() throws Exception {
    Sequence sequence =
        read(
            file(
                MidiFile.Feel.SWUNG,
                sound("1", "1/2", 60),
                sound("3/2", "1/2", 62),
                sound("2", "1", 64)));

    assertThat(notes(sequence))
        .containsExactly(
            "480:on:60", "800:off:60", "800:on:62", "960:off:62", "960:on:64", "1440:off:64");
  }

  @Test
  void theTempoIsThatOfTheSolo() throws Exception {
    Track track = read(file(MidiFile.Feel.STRAIGHT, sound("0", "1", 60))).getTracks()[0];

    List<Integer> micros = new ArrayList<>();
    for (int i = 0; i < track.size(); i++) {
      if (track.get(i).getMessage() instanceof MetaMessage meta && meta.getType() == 0x51) {
        byte[] data = meta.getData();
        micros.add((data[0] & 0xFF) << 16 | (data[1] & 0xFF) << 8 | data[2] & 0xFF);
      }
    }
    assertThat(micros).containsExactly(400_000);
  }

  @Test
  void aLateNoteHasALongDelta() throws Exception {
    Sequence sequence = read(file(MidiFile.Feel.STRAIGHT, sound("5000", "1", 60)));

    assertThat(notes(sequence)).containsExactly("2400000:on:60", "2400480:off:60");
  }

  @Test
  void aPitchThatMidiCannotNameIsLeftOut() throws Exception {
    assertThat(notes(read(file(MidiFile.Feel.STRAIGHT, sound("0", "1", 130))))).isEmpty();
  }

  /**
   * Standard MIDI Files 1.0 (MIDI Manufacturers Association, 1996), from memory: a header chunk of
   * six bytes with format, tracks and division; a track chunk with its length, set tempo FF 51 03
   * in microseconds a quarter note, end of track FF 2F 00.
   */
  @Test
  void theBytesAreThoseOfTheSpecification() {
    byte[] file = file(MidiFile.Feel.STRAIGHT, sound("0", "1", 60));

    assertThat(HexFormat.ofDelimiter(" ").formatHex(file))
        .isEqualTo(
            "4d 54 68 64 00 00 00 06 00 00 00 01 01 e0 "
                + "4d 54 72 6b 00 00 00 1f "
                + "00 ff 03 04 4c 69 6e 65 "
                + "00 ff 51 03 06 1a 80 "
                + "00 c0 41 "
                + "00 90 3c 48 "
                + "83 60 80 3c 00 "
                + "00 ff 2f 00");
  }

  /** Numbers and their variable-length quantities as the specification lists them, from memory. */
  @ParameterizedTest(name = "{0} is written {1}")
  @CsvSource({
    "0x40, 40",
    "0x7F, 7f",
    "0x80, 81 00",
    "0x2000, c0 00",
    "0x3FFF, ff 7f",
    "0x4000, 81 80 00",
    "0x100000, c0 80 00",
    "0x1FFFFF, ff ff 7f",
    "0x200000, 81 80 80 00",
    "0x8000000, c0 80 80 00",
    "0xFFFFFFF, ff ff ff 7f"
  })
  void deltasAreVariableLengthQuantities(int ticks, String bytes) {
    byte[] file =
        MidiFile.of(
            "",
            0,
            List.of(),
            List.of(new MidiFile.Sound(Fraction.of(ticks, MidiFile.TICKS), Fraction.ONE, 60)),
            MidiFile.Feel.STRAIGHT);

    assertThat(HexFormat.ofDelimiter(" ").formatHex(file)).contains(" " + bytes + " 90 3c ");
  }
}
