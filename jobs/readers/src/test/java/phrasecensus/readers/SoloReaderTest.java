package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Encodings, document types, limits and everything that is no score. */
class SoloReaderTest {
  private static final String BODY =
      "<score-partwise version='4.0'><work><work-title>Fjære</work-title></work>"
          + "<part-list><score-part id='P1'><part-name>Solo</part-name></score-part></part-list>"
          + "<part id='P1'><measure number='1'><attributes><divisions>1</divisions></attributes>"
          + "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>"
          + "</measure></part></score-partwise>";

  static byte[] score() {
    return BODY.getBytes(StandardCharsets.UTF_8);
  }

  private static ReadResult read(String document) {
    return read(document.getBytes(StandardCharsets.UTF_8));
  }

  private static ReadResult read(byte[] document) {
    return SoloReader.read(document, "a.musicxml", ReadSettings.defaults());
  }

  @Test
  void aReasonEndsWithOneFullStop() {
    ReadResult result = read(BODY.replace("</measure>", ""));

    assertThat(result.reason())
        .startsWith("It is not well-formed XML at line 1, column ")
        .endsWith(".")
        .doesNotEndWith("..");
  }

  @ParameterizedTest
  @ValueSource(strings = {"UTF-8", "ISO-8859-1", "UTF-16", "UTF-16LE", "UTF-16BE", "windows-1252"})
  void everyUsualEncodingIsRead(String encoding) {
    String declared = encoding.startsWith("UTF-16") ? "UTF-16" : encoding;
    String document = "<?xml version='1.0' encoding='" + declared + "'?>" + BODY;

    ReadResult result = read(document.getBytes(Charset.forName(encoding)));

    assertThat(result.isRead()).as(result.reason()).isTrue();
    assertThat(result.solo().description().title()).isEqualTo("Fjære");
    assertThat(result.encoding()).isEqualTo(declared);
  }

  @Test
  void aByteOrderMarkIsNoText() {
    assertThat(read("\uFEFF" + BODY).isRead()).isTrue();
    assertThat(read(("\uFEFF" + BODY).getBytes(StandardCharsets.UTF_16LE)).isRead()).isTrue();
  }

  @Test
  void whiteSpaceBeforeTheDeclarationIsSkippedAndReported() {
    ReadResult result = read("\n  <?xml version='1.0'?>" + BODY);

    assertThat(result.isRead()).isTrue();
    assertThat(result.problems())
        .extracting(Problem::code)
        .containsExactly("space-before-document");
  }

  @Test
  void nameSpacesAreIgnored() {
    String prefixed =
        BODY.replace("<", "<m:")
            .replace("<m:/", "</m:")
            .replaceFirst("<m:score-partwise", "<m:score-partwise xmlns:m='urn:x'");

    assertThat(read(prefixed).isRead()).isTrue();
    assertThat(read(BODY.replaceFirst("version", "xmlns='urn:y' version")).solo().notes())
        .hasSize(1);
  }

  @Test
  void aDocumentTypeIsNeverFetched() {
    String document =
        "<!DOCTYPE score-partwise PUBLIC '-//Recordare//DTD MusicXML 4.0 Partwise//EN'"
            + " 'http://192.0.2.1/partwise.dtd'>"
            + BODY;

    Assertions.assertThatCode(() -> assertThat(read(document).isRead()).isTrue())
        .doesNotThrowAnyException();
    org.junit.jupiter.api.Assertions.assertTimeout(Duration.ofSeconds(5), () -> read(document));
  }

  @Test
  void entitiesAreNeverExpanded() {
    String document =
        "<!DOCTYPE x [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>"
            + "<!ENTITY f SYSTEM 'file:///etc/hostname'>]>"
            + BODY.replace("Fjære", "x&b;&f;");

    ReadResult result = read(document);

    assertThat(result.isRead()).as(result.reason()).isTrue();
    assertThat(result.solo().description().title()).isEqualTo("x");
    assertThat(result.problems()).extracting(Problem::code).containsOnly("entity-not-expanded");
  }

  @Test
  void anOpusIsRefusedWithASentence() {
    ReadResult result = read("<opus version='4.0'><title>All</title></opus>");

    assertThat(result.outcome()).isEqualTo(ReadResult.Outcome.REJECTED);
    assertThat(result.reason()).contains("a list of scores (an opus file)");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "MThd",
        "<html/>",
        "<score-partwise/>",
        "<score-partwise>",
        "<",
        "PK\3\4"
      })
  void whatIsNoScoreIsRefusedWithAReason(String document) {
    ReadResult result = read(document);

    assertThat(result.isRead()).isFalse();
    assertThat(result.reason()).isNotBlank().endsWith(".").doesNotContain("Exception");
  }

  @Test
  void brokenXmlIsRefusedWithItsPlace() {
    assertThat(read(BODY.replace("</pitch>", "")).reason())
        .contains("not well-formed XML at line 1, column");
  }

  @Test
  void bytesThatAreNoUtf8AreReadByTheUsualEncodingOfWindows() {
    byte[] document = BODY.getBytes(StandardCharsets.ISO_8859_1);

    ReadResult result = read(document);

    assertThat(result.isRead()).as(result.reason()).isTrue();
    assertThat(result.problems())
        .extracting(Problem::code)
        .containsExactly("encoding-contradicts-bytes");
  }

  @Test
  void plainXmlUnderAnArchiveNameIsReadAndReported() {
    ReadResult result = SoloReader.read(score(), "a.mxl", ReadSettings.defaults());

    assertThat(result.format()).isEqualTo("musicxml");
    assertThat(result.problems()).extracting(Problem::code).containsExactly("name-does-not-fit");
  }

  @Test
  void everyLimitRefusesByName() {
    ReadSettings settings = ReadSettings.defaults();
    byte[] score = score();
    byte[] deep =
        BODY.replace("<work>", "<x>".repeat(200) + "</x>".repeat(200) + "<work>")
            .getBytes(StandardCharsets.UTF_8);

    assertThat(SoloReader.read(score, "a.xml", settings.withLimit(Limit.FILE_SIZE, 10)).reason())
        .contains("file-size of 10 bytes");
    assertThat(SoloReader.read(score, "a.xml", settings.withLimit(Limit.ELEMENT_COUNT, 5)).reason())
        .contains("element-count of 5 elements");
    assertThat(SoloReader.read(deep, "a.xml", settings).reason())
        .contains("nesting-depth of 100 elements");
  }

  @Test
  void readingTimeIsLimited() {
    StringBuilder notes = new StringBuilder();
    for (int i = 0; i < 60_000; i++) {
      notes.append("<note><rest/><duration>1</duration></note>");
    }
    byte[] score =
        BODY.replace("</measure>", notes + "</measure>").getBytes(StandardCharsets.UTF_8);

    assertThat(
            SoloReader.read(
                    score, "a.xml", ReadSettings.defaults().withLimit(Limit.READING_TIME, 1))
                .reason())
        .contains("reading-time of 1 milliseconds");
  }

  @Test
  void manyThreadsReadAtOnce() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(8);
    try {
      Callable<Integer> reading = () -> read(BODY).solo().notes().size();
      for (Future<Integer> size : threads.invokeAll(java.util.Collections.nCopies(200, reading))) {
        assertThat(size.get()).isEqualTo(1);
      }
    } finally {
      threads.shutdown();
    }
  }

  @Test
  void twoReadingsOfOneFileAreEqual() {
    assertThat(read(BODY)).isEqualTo(read(BODY));
    assertThat(List.of(read(BODY).solo().bars())).hasSize(1);
  }

  @Test
  void settingsRefuseLimitsThatAreNotPositive() {
    Assertions.assertThatThrownBy(() -> ReadSettings.defaults().withLimit(Limit.NESTING_DEPTH, 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid limit nesting-depth: 0");
  }
}
