package phrasecensus.cli;

import java.io.IOException;
import java.io.Reader;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;

/**
 * What was found about one library that ships: a row of {@code advisories.csv}.
 *
 * @param artefact group and artefact
 * @param version the version that was looked up
 * @param advisories identifiers of the advisories considered, empty when none was found
 * @param verdict {@code none found}, {@code not affected} or {@code affected}
 * @param severity the highest severity that touches this version: {@code low}, {@code moderate},
 *     {@code high} or {@code critical}; empty unless affected
 * @param reason why an affected version ships all the same, or what to know
 * @param source where the advisories were read
 * @param looked day of looking, as in ISO 8601
 */
record Advisory(
    String artefact,
    String version,
    List<String> advisories,
    String verdict,
    String severity,
    String reason,
    String source,
    String looked) {

  /** Reads the table; lines that begin with a number sign are remarks. */
  static List<Advisory> table(Reader text) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setCommentMarker('#').get();
    try (CSVParser rows = CSVParser.parse(text, format)) {
      return rows.stream()
          .map(
              row ->
                  new Advisory(
                      row.get("artefact"),
                      row.get("version"),
                      words(row.get("advisories")),
                      row.get("verdict"),
                      row.get("severity"),
                      row.get("reason"),
                      row.get("source"),
                      row.get("looked")))
          .toList();
    }
  }

  private static List<String> words(String cell) {
    return cell.isBlank() ? List.of() : List.of(cell.trim().split(" +"));
  }

  /** Artefact and version, as the list of licences has them. */
  String coordinates() {
    return artefact + ":" + version;
  }

  boolean affected() {
    return verdict.equals("affected");
  }

  /** Whether a critical fault touches this version and nobody said why it ships. */
  boolean unexplained() {
    return affected() && severity.equals("critical") && reason.isBlank();
  }
}
