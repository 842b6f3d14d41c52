package phrasecensus.store.parquet;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

class RowDigestTest {
  private static TableRow row(int phrase, Double value) {
    return TableRow.of(TableSchemas.named("phrase_statistics"))
        .set("solo_id", "corpus/a")
        .set("role", "corpus")
        .set("file", "a")
        .set("phrase_index", phrase)
        .set("statistic", "phrase_notes")
        .set("value", value)
        .set("n", 3)
        .build();
  }

  private static String digest(List<TableRow> rows) {
    RowDigest digest = new RowDigest();
    rows.forEach(digest::add);
    return digest.hex();
  }

  private static List<TableRow> rows(int count) {
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      rows.add(row(i, i % 3 == 0 ? null : i / 7.0));
    }
    return rows;
  }

  @Test
  void orderDoesNotMatter() {
    List<TableRow> rows = rows(200);
    String straight = digest(rows);

    Collections.shuffle(rows, new Random(1));

    assertThat(digest(rows)).isEqualTo(straight);
  }

  @Test
  void digestsOfPartsAddUpToTheDigestOfTheWhole() {
    List<TableRow> rows = rows(300);
    String parts = RowDigest.none();
    for (int from = 0; from < 300; from += 50) {
      parts = RowDigest.sum(parts, digest(rows.subList(from, from + 50)));
    }

    assertThat(parts).isEqualTo(digest(rows));
  }

  @Test
  void carriesAreNotLost() {
    RowDigest digest = new RowDigest();
    BigInteger expected = BigInteger.ZERO;
    for (TableRow row : rows(500)) {
      expected = expected.add(new BigInteger(digest(List.of(row)), 16));
      digest.add(row);
    }

    assertThat(new BigInteger(digest.hex(), 16))
        .isEqualTo(expected.mod(BigInteger.ONE.shiftLeft(128)));
  }

  @Test
  void aMissingValueIsNotZero() {
    assertThat(digest(List.of(row(0, null)))).isNotEqualTo(digest(List.of(row(0, 0.0))));
  }
}
