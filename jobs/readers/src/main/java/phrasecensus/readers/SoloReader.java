package phrasecensus.readers;

import java.util.Arrays;
import java.util.Locale;
import phrasecensus.readers.container.ScoreArchive;
import phrasecensus.readers.musicxml.MusicXmlSolos;

/**
 * Reads one file. Looks at the bytes, not at the name, to tell the format. Safe for many threads at
 * once.
 */
public final class SoloReader {
  private SoloReader() {}

  /**
   * Reads a solo, or says why not. Whatever it throws is a fault of the reader's own, not of the
   * bytes.
   *
   * @param bytes the whole file
   * @param fileName its name or path, for the file's extension; need not exist
   */
  public static ReadResult read(byte[] bytes, String fileName, ReadSettings settings) {
    ProblemLog problems = new ProblemLog();
    String format = "unknown";
    try {
      long mostBytes = settings.limit(Limit.FILE_SIZE);
      if (bytes.length > mostBytes) {
        throw Refusal.beyond(Limit.FILE_SIZE, mostBytes);
      }
      byte[] document = bytes;
      if (ScoreArchive.isArchive(bytes)) {
        format = "mxl";
        document = ScoreArchive.score(bytes, settings, problems);
      }
      document = withoutLeadingSpace(document, problems);
      if (!looksLikeXml(document)) {
        throw new Refusal(
            document.length == 0
                ? "The file is empty."
                : "It is neither XML nor a compressed score.");
      }
      document = ScoreText.readable(document, problems);
      format = format.equals("mxl") ? format : "musicxml";
      reportName(format, fileName, problems);
      return MusicXmlSolos.read(document, format, settings, problems);
    } catch (Refusal refusal) {
      return ReadResult.rejected(refusal.getMessage(), problems.problems(), format, "");
    } catch (ArithmeticException e) {
      return ReadResult.rejected(
          Refusal.beyondExactTime("", settings.limit(Limit.TIME_PARTS)).getMessage(),
          problems.problems(),
          format,
          "");
    }
  }

  private static void reportName(String format, String fileName, ProblemLog problems) {
    boolean namedArchive = fileName.toLowerCase(Locale.ROOT).endsWith(".mxl");
    if (namedArchive != format.equals("mxl")) {
      problems.add(
          Problem.ofFile(
              "name-does-not-fit",
              namedArchive
                  ? "plain XML in a file named as a compressed score"
                  : "a compressed score in a file named as plain XML",
              "it is read by its contents"));
    }
  }

  /** White space before an XML declaration makes a document ill-formed, but harms nothing. */
  private static byte[] withoutLeadingSpace(byte[] document, ProblemLog problems) {
    int start = 0;
    while (start < document.length
        && (document[start] == ' '
            || document[start] == '\n'
            || document[start] == '\r'
            || document[start] == '\t')) {
      start++;
    }
    if (start == 0 || start == document.length || document[start] != '<') {
      return document;
    }
    problems.add(
        Problem.ofFile(
            "space-before-document", "white space before the XML document", "it is skipped"));
    return Arrays.copyOfRange(document, start, document.length);
  }

  /** True when a {@code <} is the first character in any of the encodings that XML starts with. */
  private static boolean looksLikeXml(byte[] document) {
    for (int i = 0; i < Math.min(8, document.length); i++) {
      if (document[i] == '<') {
        return true;
      }
    }
    return false;
  }
}
