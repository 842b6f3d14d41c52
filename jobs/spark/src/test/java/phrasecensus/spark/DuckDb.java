package phrasecensus.spark;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/** DuckDB as an independent reader of what is written: it knows nothing of this program. */
final class DuckDb {
  private DuckDb() {}

  /** The rows of a query, each the values of its columns in order. */
  static List<List<Object>> query(String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery(sql)) {
      List<List<Object>> rows = new ArrayList<>();
      while (result.next()) {
        List<Object> row = new ArrayList<>();
        for (int i = 1; i <= result.getMetaData().getColumnCount(); i++) {
          row.add(result.getObject(i));
        }
        rows.add(row);
      }
      return rows;
    }
  }
}
