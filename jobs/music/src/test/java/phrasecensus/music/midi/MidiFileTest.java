package phrasecensus.music.midi;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.Test;
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
        .containsExactly("480:on:60", "800:off:60", "800:on:62", "960:off:62", "960:on:64",
            "1440:off:64");
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
}
