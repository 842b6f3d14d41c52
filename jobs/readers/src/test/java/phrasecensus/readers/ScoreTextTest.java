package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Documents whose declared encoding contradicts their bytes. */
class ScoreTextTest {
  private static final String BODY =
      "<score-partwise><work><work-title>Café à minuit</work-title></work><part-list>"
          + "<score-part id='P1'><part-name>Flûte</part-name></score-part></part-list>"
          + "<part id='P1'><measure number='1'><attributes><divisions>1</divisions></attributes>"
          + "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>"
          + "</measure></part></score-partwise>";

  private static byte[] document(String declared, String charset, String mark) {
    String declaration =
        declared == null || declared.isEmpty()
            ? ""
            : "<?xml version=\"1.0\" encoding=\"" + declared + "\" standalone=\"no\"?>";
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    if (mark != null) {
      bytes.writeBytes("\uFEFF".getBytes(Charset.forName(mark)));
    }
    bytes.writeBytes((declaration + BODY).getBytes(Charset.forName(charset)));
    return bytes.toByteArray();
  }

  @ParameterizedTest(name = "{0} declared, {1} with mark of {2}")
  @CsvSource({
    "UTF-16, UTF-8, ",
    "utf-16le, UTF-8, ",
    "UTF-16, windows-1252, ",
    "UTF-16, UTF-8, UTF-8",
    "UTF-8, UTF-16LE, UTF-16LE",
    "UTF-8, UTF-16BE, UTF-16BE",
    "UTF-8, UTF-16LE, ",
    "UTF-8, UTF-16BE, ",
    ", UTF-16LE, ",
    "ISO-8859-1, UTF-16LE, UTF-16LE",
    "UTF-8, windows-1252, ",
    ", windows-1252, ",
    "ISO-8859-1, UTF-8, ",
    "windows-1252, UTF-8, ",
    "US-ASCII, UTF-8, ",
    "US-ASCII, windows-1252, ",
    "ISO-8859-1, UTF-8, UTF-8",
    "x-no-such-encoding, UTF-8, ",
    "no such!, windows-1252, ",
    "UTF-32, UTF-8, ",
    "UTF-16, UTF-32LE, UTF-32LE",
  })
  void theBytesDecideAndTheFileIsTold(String declared, String charset, String mark) {
    ReadResult result =
        SoloReader.read(document(declared, charset, mark), "a.musicxml", ReadSettings.defaults());

    assertThat(result.isRead()).as(result.reason()).isTrue();
    assertThat(result.solo().description().title()).isEqualTo("Café à minuit");
    assertThat(result.problems())
        .extracting(Problem::code)
        .containsExactly("encoding-contradicts-bytes");
  }

  @ParameterizedTest(name = "{0} declared, {1} with mark of {2}")
  @CsvSource({
    "UTF-8, UTF-8, ",
    "utf-8, UTF-8, UTF-8",
    ", UTF-8, UTF-8",
    ", UTF-8, ",
    "UTF-16, UTF-16LE, UTF-16LE",
    "UTF-16, UTF-16BE, UTF-16BE",
    ", UTF-16LE, UTF-16LE",
    "ISO-8859-1, ISO-8859-1, ",
    "windows-1252, windows-1252, ",
    "utf-16le, UTF-16LE, UTF-16LE",
  })
  void whereTheyAgreeNothingIsSaid(String declared, String charset, String mark) {
    ReadResult result =
        SoloReader.read(document(declared, charset, mark), "a.musicxml", ReadSettings.defaults());

    assertThat(result.isRead()).as(result.reason()).isTrue();
    assertThat(result.solo().description().title()).isEqualTo("Café à minuit");
    assertThat(result.problems()).isEmpty();
  }

  @Test
  void bytesThatDecodeInNoWayAreRefusedWithWhatToDo() {
    byte[] odd = document("UTF-8", "UTF-16LE", "UTF-16LE");
    byte[] cut = java.util.Arrays.copyOf(odd, odd.length - 1);

    assertThat(SoloReader.read(cut, "a.musicxml", ReadSettings.defaults()).reason())
        .contains("UTF-16LE")
        .contains("save it again as UTF-8");
  }

  @Test
  void plainLettersNeedNoLook() {
    byte[] document =
        "<?xml version='1.0' encoding='ISO-8859-1'?><a/>".getBytes(StandardCharsets.US_ASCII);

    assertThat(ScoreText.readable(document, new ProblemLog())).isSameAs(document);
  }
}
