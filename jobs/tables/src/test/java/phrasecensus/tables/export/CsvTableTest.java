package phrasecensus.tables.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.util.List;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.Column;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/**
 * Held against RFC 4180 (Shafranovich 2005, section 2) as another program's reader understands it,
 * and against the list of characters that begin a formula in the OWASP page 'CSV Injection'.
 */
class CsvTableTest {
  private static final TableSchema SCHEMA =
      TableSchema.parse(
          """
          {"table": "example", "version": 1, "row": "a row", "key": ["title"],
           "columns": {"type": "struct", "fields": [
             {"name": "title", "type": "string", "nullable": true, "metadata": {}},
             {"name": "onset_num", "type": "long", "nullable": true,
              "metadata": {"unit": "quarter note"}},
             {"name": "onset_den", "type": "long", "nullable": true,
              "metadata": {"unit": "quarter note"}},
             {"name": "share", "type": "double", "nullable": true, "metadata": {}},
             {"name": "pickup", "type": "boolean", "nullable": true, "metadata": {}},
             {"name": "pitch_classes", "nullable": true, "metadata": {},
              "type": {"type": "array", "elementType": "integer", "containsNull": false}},
             {"name": "kinds", "nullable": true, "metadata": {},
              "type": {"type": "array", "elementType": "string", "containsNull": false}}]}}
          """);
  private static final String HEADER =
      "title,onset_num,onset_den,onset,share,pickup,pitch_classes,kinds\r\n";

  private static String csv(TableRow... rows) {
    StringBuilder text = new StringBuilder();
    try {
      CsvTable table = new CsvTable(SCHEMA, text);
      for (TableRow row : rows) {
        table.write(row);
      }
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
    assertThat(text.toString()).startsWith(HEADER);
    return text.substring(HEADER.length());
  }

  private static TableRow titled(String title) {
    return TableRow.of(SCHEMA).set("title", title).build();
  }

  /** The first field as a reader of RFC 4180 has it. */
  private static String read(String csv) {
    try (CSVParser parser = CSVParser.parse(new StringReader(csv), CSVFormat.RFC4180)) {
      List<CSVRecord> records = parser.getRecords();
      assertThat(records).hasSize(1);
      return records.get(0).get(0);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void everyKindOfValueHasItsForm() {
    TableRow row =
        TableRow.of(SCHEMA)
            .set("title", "Low Tide")
            .fraction("onset", 1, 3)
            .set("share", 0.1)
            .set("pickup", true)
            .set("pitch_classes", List.of(0, 4, 7))
            .set("kinds", List.of("held", "a \"b\""))
            .build();

    assertThat(csv(row))
        .isEqualTo(
            "Low Tide,1,3,0.3333333333333333,0.1,TRUE,\"[0,4,7]\","
                + "\"[\"\"held\"\",\"\"a \\\"\"b\\\"\"\"\"]\"\r\n");
  }

  @Test
  void aMissingValueIsAnEmptyFieldAndAnEmptyTextIsQuoted() {
    assertThat(csv(TableRow.of(SCHEMA).build(), titled("")))
        .isEqualTo(",,,,,,,\r\n\"\",,,,,,,\r\n");
  }

  @Test
  void theQuotientStandsBesideItsPairWithTheUnitOfBoth() {
    Column quotient = CsvTable.columns(SCHEMA).get(3);

    assertThat(quotient.name()).isEqualTo("onset");
    assertThat(quotient.unit()).isEqualTo("quarter note");
    assertThat(quotient.description()).isEqualTo("onset_num / onset_den, rounded to a decimal");
  }

  @ParameterizedTest
  @ValueSource(strings = {"a,b", "say \"so\"", "two\r\nlines", "two\nlines", " indented ", "a;b"})
  void whatRfc4180QuotesIsReadAsItWas(String title) {
    assertThat(read(csv(titled(title)))).isEqualTo(title);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        " =1",
        "\u00A0=1",
        "＝1",
        "＋1",
        "－1",
        "＠1",
        "'quoted'",
        "=HYPERLINK(\"http://x\",\"y\")"
      })
  void whatCouldBeAFormulaGetsAnApostrophe(String title) {
    assertThat(read(csv(titled(title)))).isEqualTo("'" + title);
  }

  @ParameterizedTest
  @ValueSource(strings = {"C-7", "♭9", "1=1", "a@b", "O'Neill", "(+1)", "–1"})
  void whatIsNoFormulaStaysAsItIs(String title) {
    assertThat(read(csv(titled(title)))).isEqualTo(title);
  }

  @Test
  void takingTheApostropheOffGivesEveryTextBack() {
    Random random = new Random(20261125);
    String letters = "=+-@'\"\t\r\n ,;ab\u00A0＝é♭";
    for (int i = 0; i < 5000; i++) {
      StringBuilder made = new StringBuilder();
      for (int length = random.nextInt(6); length > 0; length--) {
        made.append(letters.charAt(random.nextInt(letters.length())));
      }
      String text = made.toString();

      String read = read(csv(titled(text)));

      assertThat(read.startsWith("'") ? read.substring(1) : read).as("case " + i).isEqualTo(text);
      assertThat(read).as("case " + i).doesNotMatch("(?s)^\\s*[=+\\-@].*");
    }
  }
}
