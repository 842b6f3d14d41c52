package phrasecensus.report.listen;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.Test;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;

/** What a page carries to be heard, read by the MIDI reader of the JDK. */
class SoundTest {
  private static final SoloFacts FACTS = facts("alto saxophone", 150.0);

  private static SoloFacts facts(String instrument, Double tempo) {
    return new SoloFacts(
        "corpus/a",
        "a",
        null,
        null,
        "",
        "",
        instrument,
        "4/4",
        tempo,
        null,
        null,
        null,
        2,
        3,
        1,
        Map.of(),
        Map.of());
  }

  private static SoloLine.BarSpan bar(int index, String onset, String metre, String offset) {
    return new SoloLine.BarSpan(
        index,
        String.valueOf(index + 1),
        Fraction.parse(onset),
        Fraction.of(4),
        metre,
        Fraction.parse(offset),
        false,
        null);
  }

  /** A note whose player reads it nine semitones higher than it sounds. */
  private static SoloLine.Tone tone(int index, String onset, String length, int midi) {
    return new SoloLine.Tone(
        index, Fraction.parse(onset), Fraction.parse(length), midi + 9, "", 9, "", null);
  }

  private static SoloLine line(String metre, SoloLine.Tone... tones) {
    return new SoloLine(
        List.of(bar(0, "0", metre, "0"), bar(1, "4", metre, "0")),
        List.of(),
        List.of(tones),
        List.of(new SoloLine.PhraseSpan(0, 1, 2, 0, 8, "1", "2", 1.0, null)),
        List.of());
  }

  private static final SoloLine LINE =
      line("4/4", tone(0, "0", "1", 50), tone(1, "5/2", "1/2", 60), tone(2, "3", "3/2", 62));

  private static Sequence read(Sound sound) throws Exception {
    String prefix = "data:audio/midi;base64,";
    assertThat(sound.address()).startsWith(prefix);
    return MidiSystem.getSequence(
        new ByteArrayInputStream(
            Base64.getDecoder().decode(sound.address().substring(prefix.length()))));
  }

  private static List<String> messages(Sequence sequence, int command) {
    List<String> messages = new ArrayList<>();
    Track track = sequence.getTracks()[0];
    for (int i = 0; i < track.size(); i++) {
      if (track.get(i).getMessage() instanceof ShortMessage message
          && message.getCommand() == command) {
        messages.add(track.get(i).getTick() + ":" + message.getData1());
      }
    }
    return messages;
  }

  @Test
  void aPhraseSoundsAtConcertPitchAndStartsWithItsBeat() throws Exception {
    Sequence sequence = read(Sound.of("x", FACTS, LINE, LINE.phrases().get(0)));

    assertThat(messages(sequence, ShortMessage.NOTE_ON)).containsExactly("240:60", "480:62");
    assertThat(messages(sequence, ShortMessage.NOTE_OFF)).containsExactly("480:60", "1200:62");
  }

  @Test
  void aWholeSoloHasAllNotes() throws Exception {
    Sequence sequence = read(Sound.of("x", FACTS, LINE));

    assertThat(messages(sequence, ShortMessage.NOTE_ON))
        .containsExactly("0:50", "1200:60", "1440:62");
  }

  /** Numbers of the General MIDI sound set count from 1: alto sax 66, acoustic grand piano 1. */
  @Test
  void theInstrumentIsThatOfTheSoloWhereItIsKnown() throws Exception {
    assertThat(messages(read(Sound.of("x", FACTS, LINE)), ShortMessage.PROGRAM_CHANGE))
        .containsExactly("0:65");
    assertThat(
            messages(
                read(Sound.of("x", facts("nose flute of a kind", null), LINE)),
                ShortMessage.PROGRAM_CHANGE))
        .containsExactly("0:0");
  }

  @Test
  void theTempoIsThatOfTheSoloAnd120WithoutOne() throws Exception {
    assertThat(read(Sound.of("x", FACTS, LINE)).getMicrosecondLength())
        .isEqualTo(Math.round((3 + 1.5) * 400_000));
    assertThat(read(Sound.of("x", facts("", null), LINE)).getMicrosecondLength())
        .isEqualTo(Math.round((3 + 1.5) * 500_000));
  }

  @Test
  void beatsOfQuarterNotesSwingAndGroupsOfEighthsDoNot() {
    assertThat(Sound.of("x", FACTS, LINE).swings()).isTrue();
    assertThat(Sound.of("x", FACTS, line("6/8", tone(0, "0", "1", 50))).swings()).isFalse();
  }

  @Test
  void aLineWithoutNotesHasNoSound() {
    assertThat(Sound.of("x", FACTS, SoloLine.NONE)).isNull();
  }
}
