package phrasecensus.store;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Path;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** The smallest study that there is: one table, whose only row tells the study by its title. */
final class OneRowStudy {
  static final String TABLE = "problems";
  static final String PART = "corpus-00000.parquet";

  private static final TableSchema SCHEMA = TableSchemas.named(TABLE);

  private OneRowStudy() {}

  /** Writes the table aside; the manifest that goes with it. */
  static Manifest write(StudyFolder study, String title, Configuration configuration)
      throws IOException {
    TableFile.Stored stored;
    try (TableFile file =
        TableFile.create(new Path(study.nextTables(), TABLE + "/" + PART), SCHEMA, configuration)) {
      Object[] values = new Object[SCHEMA.columns().size()];
      for (int i = 0; i < values.length; i++) {
        values[i] =
            switch (SCHEMA.columns().get(i).type()) {
              case STRING -> title;
              case INTEGER -> 1;
              default -> throw new IllegalStateException(SCHEMA.columns().get(i).name());
            };
      }
      file.write(TableRow.of(SCHEMA, values));
      stored = file.stored();
    }
    study.written().add(TABLE, PART, stored);
    return new Manifest(
        Program.nameAndVersion(),
        new Manifest.Study("x", title, "", DataSource.NOT_STATED),
        Map.of(),
        List.of(),
        new Manifest.Report(true, false),
        List.of(),
        List.of(),
        StatisticsCatalogue.builtIn().version(),
        Map.of(TABLE, study.written().table(TABLE, SCHEMA.version())));
  }

  /** Two pages that say the title. */
  static ReportPages pages(String title) {
    return (tables, manifest, into) -> {
      Files.writeString(into.resolve("index.html"), title);
      Files.writeString(into.resolve("student.html"), title);
    };
  }
}
