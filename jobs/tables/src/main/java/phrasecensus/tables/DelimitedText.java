package phrasecensus.tables;

import java.io.IOException;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.DuplicateHeaderMode;

/**
 * A CSV file as spreadsheets write it: comma, semicolon or tab between the columns (RFC 4180
 * otherwise), UTF-8 with or without byte order mark, or Windows-1252.
 *
 * @param text without byte order mark
 * @param delimiter what stands between two columns
 */
record DelimitedText(String text, char delimiter) {
  private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");

  /**
   * Decodes a file.
   *
   * @param name what the file is and how it is called
   * @param encoding as stated; empty for UTF-8, else Windows-1252
   * @param delimiter as stated: comma, semicolon or tab; empty for what stands most often in the
   *     first line, outside quotation marks
   * @param remarks receives a sentence when the encoding was guessed
   * @throws InputException if the bytes are not what the encoding says
   */
  static DelimitedText of(
      String name, byte[] bytes, String encoding, String delimiter, List<String> remarks) {
    String text = decode(name, bytes, encoding, remarks);
    return new DelimitedText(text, delimiter(text, delimiter));
  }

  /** A parser of the rows below the header; header names may be missing or stand twice. */
  CSVParser parser() throws IOException {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(delimiter)
            .setHeader()
            .setSkipHeaderRecord(true)
            .setIgnoreEmptyLines(true)
            .setTrim(true)
            .setDuplicateHeaderMode(DuplicateHeaderMode.ALLOW_ALL)
            .setAllowMissingColumnNames(true)
            .get();
    return CSVParser.parse(new StringReader(text), format);
  }

  private static String decode(String name, byte[] bytes, String encoding, List<String> remarks) {
    if (bytes.length >= 2
        && (bytes[0] == (byte) 0xFE && bytes[1] == (byte) 0xFF
            || bytes[0] == (byte) 0xFF && bytes[1] == (byte) 0xFE)) {
      throw new InputException("Cannot read the " + name + ": it is UTF-16. Save it as UTF-8.");
    }
    if (encoding.equals("windows-1252")) {
      return new String(bytes, WINDOWS_1252);
    }
    String text;
    try {
      text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(bytes))
              .toString();
    } catch (CharacterCodingException e) {
      if (encoding.equals("utf-8")) {
        throw new InputException(
            "Cannot read the "
                + name
                + ": it is not UTF-8, as the study says. Save it as UTF-8, or state 'encoding:"
                + " windows-1252'.",
            e);
      }
      text = new String(bytes, WINDOWS_1252);
      remarks.add("The " + name + " is not UTF-8; it was read as Windows-1252.");
    }
    return text.startsWith("\uFEFF") ? text.substring(1) : text;
  }

  private static char delimiter(String text, String stated) {
    switch (stated) {
      case "comma":
        return ',';
      case "semicolon":
        return ';';
      case "tab":
        return '\t';
      default:
        break;
    }
    String header = text.lines().findFirst().orElse("").replaceAll("\"[^\"]*\"", "");
    char best = ',';
    for (char candidate : new char[] {';', '\t'}) {
      if (count(header, candidate) > count(header, best)) {
        best = candidate;
      }
    }
    return best;
  }

  private static long count(String text, char wanted) {
    return text.chars().filter(c -> c == wanted).count();
  }
}
