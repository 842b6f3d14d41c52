package phrasecensus.store;

import java.io.IOException;
import java.nio.file.Path;
import phrasecensus.store.parquet.ParquetTables;
import phrasecensus.tables.Manifest;

/** Makes the pages of a report. */
@FunctionalInterface
public interface ReportPages {
  /**
   * Writes the pages.
   *
   * @param tables which may not be the current ones yet
   * @param manifest of these tables
   * @param into an empty folder of this machine, or one with a hidden file of this program in it
   */
  void write(ParquetTables tables, Manifest manifest, Path into) throws IOException;
}
