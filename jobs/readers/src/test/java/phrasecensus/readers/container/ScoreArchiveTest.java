package phrasecensus.readers.container;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import phrasecensus.readers.Limit;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

/**
 * Compressed scores as MusicXML 4.0 describes container files, and what is found in their place.
 */
class ScoreArchiveTest {
  private static final String SCORE =
      "<score-partwise><part-list><score-part id='P1'><part-name>Solo</part-name></score-part>"
          + "</part-list><part id='P1'><measure number='1'><note><pitch><step>C</step>"
          + "<octave>4</octave></pitch><duration>4</duration></note></measure></part>"
          + "</score-partwise>";

  private static String container(String rootFiles) {
    return "<?xml version='1.0'?><container><rootfiles>" + rootFiles + "</rootfiles></container>";
  }

  /** An archive of names and contents in turn. */
  private static byte[] archive(Object... entries) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (int i = 0; i < entries.length; i += 2) {
        zip.putNextEntry(new ZipEntry((String) entries[i]));
        zip.write(
            entries[i + 1] instanceof byte[] content
                ? content
                : ((String) entries[i + 1]).getBytes(StandardCharsets.UTF_8));
      }
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    return bytes.toByteArray();
  }

  /** An archive whose entries are not compressed, so that their text lies open in it. */
  private static byte[] stored(String name, String text) throws IOException {
    byte[] content = text.getBytes(StandardCharsets.UTF_8);
    CRC32 crc = new CRC32();
    crc.update(content);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      ZipEntry entry = new ZipEntry(name);
      entry.setMethod(ZipEntry.STORED);
      entry.setSize(content.length);
      entry.setCrc(crc.getValue());
      zip.putNextEntry(entry);
      zip.write(content);
    }
    return bytes.toByteArray();
  }

  /** An octave that was altered since: PKWARE's APPNOTE 4.4.7 has a CRC-32 for every entry. */
  @Test
  void aStoredScoreThatIsNotWhatWasPutInIsRefused() throws IOException {
    byte[] archive = stored("score.xml", SCORE);
    assertThat(read(archive).isRead()).isTrue();
    int at =
        new String(archive, StandardCharsets.ISO_8859_1).indexOf("<octave>4") + "<octave>".length();
    archive[at] = '5';

    ReadResult result = read(archive);

    assertThat(result.isRead()).isFalse();
    assertThat(result.reason())
        .isEqualTo(
            "The archive is damaged: 'score.xml' is not what was put into it, by its checksum.");
  }

  private static ReadResult read(byte[] archive) {
    return SoloReader.read(archive, "a.mxl", ReadSettings.defaults());
  }

  private static void assertReadWith(ReadResult result, String... codes) {
    assertThat(result.isRead()).as(result.reason()).isTrue();
    assertThat(result.format()).isEqualTo("mxl");
    assertThat(result.problems())
        .extracting(Problem::code)
        .filteredOn(code -> !code.equals("divisions-missing"))
        .containsExactly(codes);
  }

  @Test
  void theContainerNamesTheScore() {
    assertReadWith(
        read(
            archive(
                "cover.xml",
                "<html/>",
                "META-INF/container.xml",
                container("<rootfile full-path='music/score.xml'/>"),
                "music/score.xml",
                SCORE)));
  }

  @Test
  void theScoreNeedNotBeTheFirstRootFile() {
    assertReadWith(
        read(
            archive(
                "META-INF/container.xml",
                container(
                    "<rootfile full-path='a.pdf' media-type='application/pdf'/>"
                        + "<rootfile full-path='s.xml'"
                        + " media-type='application/vnd.recordare.musicxml+xml'/>"),
                "a.pdf",
                "%PDF",
                "s.xml",
                SCORE)));
  }

  @Test
  void theContainerMayHaveANameSpace() {
    assertReadWith(
        read(
            archive(
                "META-INF/container.xml",
                container("<rootfile full-path='s.xml'/>")
                    .replace("<container>", "<container xmlns='urn:oasis:names:tc:opendocument'>"),
                "s.xml",
                SCORE)));
  }

  @Test
  void aMalformedContainerGivesWayToTheOnlyScore() {
    assertReadWith(
        read(
            archive(
                "META-INF/container.xml",
                container("<rootfile full-path='Ain't.xml'/>"),
                "Ain't.xml",
                SCORE)),
        "container-not-usable");
  }

  @Test
  void withoutContainerFoldersOfAMacAreNoScores() {
    assertReadWith(
        read(archive("__MACOSX/._s.xml", "junk", "._s.xml", "junk", "s.xml", SCORE)),
        "container-not-usable");
  }

  @Test
  void severalScoresWithoutContainerAreRefused() {
    assertThat(read(archive("a.xml", SCORE, "b.xml", SCORE)).reason())
        .contains("2 scores; which one is meant?");
  }

  @Test
  void anInnerMxlNameMayHoldPlainXmlOrAnotherArchive() {
    String container = container("<rootfile full-path='s.mxl'/>");

    assertReadWith(read(archive("META-INF/container.xml", container, "s.mxl", SCORE)));
    assertReadWith(
        read(archive("META-INF/container.xml", container, "s.mxl", archive("s.xml", SCORE))),
        "archive-in-archive",
        "container-not-usable");
  }

  @Test
  void anArchiveUnderAPlainNameIsReadAndReported() {
    ReadResult result =
        SoloReader.read(archive("s.xml", SCORE), "a.musicxml", ReadSettings.defaults());

    assertThat(result.problems()).extracting(Problem::code).contains("name-does-not-fit");
  }

  @Test
  void anArchiveWithoutScoreIsRefused() {
    assertThat(read(archive("readme.txt", "hello")).reason()).contains("no score");
  }

  @Test
  void aCutArchiveIsRefused() {
    byte[] whole = archive("s.xml", SCORE);

    assertThat(read(Arrays.copyOf(whole, whole.length - 30)).reason()).contains("damaged");
  }

  @Test
  void aBombIsRefusedByItsRatio() {
    byte[] bomb = archive("s.xml", new byte[50_000_000]);

    assertThat(bomb.length).isLessThan(100_000);
    assertThat(read(bomb).reason()).contains("decompression-ratio of 300 times");
  }

  @Test
  void decompressedSizeIsLimited() {
    ReadSettings settings = ReadSettings.defaults().withLimit(Limit.DECOMPRESSED_SIZE, 100);

    assertThat(SoloReader.read(archive("s.xml", SCORE), "a.mxl", settings).reason())
        .contains("decompressed-size of 100 bytes");
  }
}
