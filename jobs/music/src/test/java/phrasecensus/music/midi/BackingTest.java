package phrasecensus.music.midi;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.music.analysis.SoloText.chord;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.time.Fraction;

/** Chords beside a line, read back by the reader of the JDK. */
class BackingTest {
  private static ChordSpan span(int from, int to, String symbol) {
    return new ChordSpan(Fraction.of(from), Fraction.of(to), chord(symbol), chord(symbol), "");
  }

  /** Third and seventh between E3 (52) and D sharp 4, the bass from C2 (36): by hand. */
  @ParameterizedTest(name = "{0}: bass {1}, shell {2}")
  @CsvSource({"C7, 36, 52 58", "Dm7, 38, 53 60", "Fmaj7, 41, 52 57", "G7/B, 47, 53 59"})
  void aShellIsThirdAndSeventh(String symbol, int bass, String shell) {
    Voicing voicing = Voicing.of(chord(symbol)).orElseThrow();

    assertThat(voicing.bass()).isEqualTo(bass);
    assertThat(voicing.shell().stream().map(String::valueOf).reduce((a, b) -> a + " " + b))
        .contains(shell);
  }

  @Test
  void noChordIsSilent() {
    assertThat(Voicing.of(chord("NC"))).isEmpty();
    assertThat(Backing.parts(List.of(span(0, 4, "NC")), Fraction.ZERO, Fraction.of(4))).isEmpty();
  }

  private static Sequence read() throws Exception {
    Fraction start = Fraction.of(2);
    byte[] file =
        MidiFile.of(
            "Line",
            66,
            List.of(new MidiFile.Tempo(Fraction.ZERO, 120)),
            List.of(new MidiFile.Signature(Fraction.ZERO, 6, 8)),
            List.of(new MidiFile.Marker(Fraction.ONE, "Phrase 1")),
            List.of(new MidiFile.Sound(Fraction.ZERO, Fraction.ONE, 70)),
            Backing.parts(List.of(span(0, 4, "C7"), span(4, 8, "Fmaj7")), start, Fraction.of(6)),
            MidiFile.Feel.STRAIGHT);
    return MidiSystem.getSequence(new ByteArrayInputStream(file));
  }

  private static List<String> messages(Track track) {
    List<String> messages = new ArrayList<>();
    for (int i = 0; i < track.size(); i++) {
      long tick = track.get(i).getTick();
      if (track.get(i).getMessage() instanceof ShortMessage message) {
        messages.add(
            tick
                + ":"
                + message.getCommand()
                + "/"
                + message.getChannel()
                + ":"
                + message.getData1());
      } else if (track.get(i).getMessage() instanceof MetaMessage meta && meta.getType() == 0x58) {
        messages.add(tick + ":" + meta.getData()[0] + "/" + (1 << meta.getData()[1]));
      } else if (track.get(i).getMessage() instanceof MetaMessage meta
          && (meta.getType() == 3 || meta.getType() == 6)) {
        messages.add(
            tick + ":" + new String(meta.getData(), java.nio.charset.StandardCharsets.UTF_8));
      }
    }
    return messages;
  }

  @Test
  void theLineHasTheSignatureAndTheMarker() throws Exception {
    assertThat(messages(read().getTracks()[0]))
        .containsExactly(
            "0:Line", "0:6/8", "0:192/0:66", "0:144/0:70", "480:Phrase 1", "480:128/0:70");
  }

  @Test
  void chordsAndBassAreTracksOfTheirOwn() throws Exception {
    Track[] tracks = read().getTracks();

    assertThat(tracks).hasSize(3);
    assertThat(messages(tracks[1])).startsWith("0:Chords", "0:192/1:0", "0:144/1:52", "0:144/1:58");
    assertThat(messages(tracks[2]))
        .containsExactly(
            "0:Bass", "0:192/2:32", "0:144/2:36", "960:128/2:36", "960:144/2:41", "1920:128/2:41");
  }
}
