package phrasecensus.store.parquet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.parquet.filter2.compat.FilterCompat;
import org.apache.parquet.filter2.predicate.FilterApi;
import org.apache.parquet.filter2.predicate.FilterPredicate;
import org.apache.parquet.io.api.Binary;
import phrasecensus.tables.Column;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/** The rows of one file of a table that have certain texts, in the file's order. */
final class RowScan implements AutoCloseable {
  private final ColumnScan scan;
  private final TableSchema schema;
  private final int[] places;
  private final List<Set<String>> texts;

  private RowScan(ColumnScan scan, TableSchema schema, int[] places, List<Set<String>> texts) {
    this.scan = scan;
    this.schema = schema;
    this.places = places;
    this.texts = texts;
  }

  /**
   * Opens a file.
   *
   * @param schema of the rows; columns of the file that it does not have are not read
   * @param among texts by column of the schema, of which a row must have one
   */
  static RowScan open(
      FileStatus file,
      TableSchema schema,
      Map<String, Set<String>> among,
      Configuration configuration)
      throws IOException {
    FilterPredicate predicate = null;
    int[] places = new int[among.size()];
    List<Set<String>> texts = new ArrayList<>();
    for (Map.Entry<String, Set<String>> entry : among.entrySet()) {
      Set<Binary> binaries = new HashSet<>();
      entry.getValue().forEach(text -> binaries.add(Binary.fromString(text)));
      FilterPredicate one = FilterApi.in(FilterApi.binaryColumn(entry.getKey()), binaries);
      predicate = predicate == null ? one : FilterApi.and(predicate, one);
      places[texts.size()] = schema.place(entry.getKey());
      texts.add(entry.getValue());
    }
    return new RowScan(
        ColumnScan.open(
            file,
            schema.columns().stream().map(Column::name).toList(),
            predicate == null ? FilterCompat.NOOP : FilterCompat.get(predicate),
            configuration),
        schema,
        places,
        texts);
  }

  /** The next row; null after the last. */
  TableRow next() throws IOException {
    Object[] values = scan.next();
    while (values != null && !isWanted(values)) {
      values = scan.next();
    }
    return values == null ? null : TableRow.of(schema, values);
  }

  private boolean isWanted(Object[] values) {
    for (int i = 0; i < places.length; i++) {
      if (values[places[i]] == null || !texts.get(i).contains(values[places[i]])) {
        return false;
      }
    }
    return true;
  }

  @Override
  public void close() throws IOException {
    scan.close();
  }
}
