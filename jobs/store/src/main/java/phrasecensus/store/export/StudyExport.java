package phrasecensus.store.export;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import phrasecensus.store.Program;
import phrasecensus.store.parquet.ParquetTables;
import phrasecensus.store.parquet.RowDigest;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.MethodsText;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.export.Citation;
import phrasecensus.tables.export.CsvTable;
import phrasecensus.tables.export.DataPackage;
import phrasecensus.tables.export.Dictionary;

/**
 * Writes a study as a folder of files that need no program of ours: {@code csv/TABLE.csv}, {@code
 * parquet/TABLE.parquet} with the same rows in the same order, and what explains them. The same
 * study gives the same bytes.
 */
public final class StudyExport {
  /** What {@code notebooks-export/} holds, in the jar and in every export. */
  static final List<String> NOTEBOOKS =
      List.of(
          "1-what-is-in-this-corpus.ipynb",
          "2-how-long-are-phrases.ipynb",
          "3-what-phrases-land-on.ipynb",
          "4-note-values-and-movement.ipynb",
          "5-one-student-beside-the-corpus.ipynb",
          "6-two-groups-compared.ipynb",
          "7-how-much-the-phrase-rule-matters.ipynb",
          "README.md",
          "census_tables.py",
          "phrase_census.R",
          "queries.sql");

  private final ParquetTables source;
  private final Manifest manifest;
  private final Configuration configuration;
  private final Consumer<String> progress;

  /**
   * @param source the tables of a finished study
   * @param manifest its manifest
   * @param progress told in a line what is being done
   */
  public StudyExport(
      ParquetTables source,
      Manifest manifest,
      Configuration configuration,
      Consumer<String> progress) {
    this.source = source;
    this.manifest = manifest;
    this.configuration = configuration;
    this.progress = progress;
  }

  /** Whether a folder says that it is an export. */
  public static boolean isIn(Path folder) {
    return ExportFolder.isIn(folder);
  }

  /**
   * What in an export is not as it was written, sentences; empty when all is.
   *
   * @throws InputException if it cannot be read
   */
  public static List<String> differences(Path export) {
    List<String> differences = new ArrayList<>();
    try {
      ExportFolder.missing(export).forEach(file -> differences.add(file + " is gone."));
      for (String file : ExportFolder.others(export)) {
        differences.add(file + " is not as it was written, or was added.");
      }
      return differences;
    } catch (IOException e) {
      throw new InputException("Cannot verify " + export + ": " + ExportFolder.reason(e) + ".", e);
    }
  }

  /** How many files an export lists. */
  public static int files(Path export) {
    try {
      return ExportFolder.checksums(export).size();
    } catch (IOException e) {
      return 0;
    }
  }

  /**
   * Writes the export.
   *
   * @param location a folder of this machine: new, empty, or an untouched export
   * @param unchanged called when all is written and before it becomes the export; throws where the
   *     study is no longer the one that was opened
   * @return the folder
   * @throws InputException if the tables are not those of the manifest or the folder cannot be
   *     written
   */
  public Path into(String location, Runnable unchanged) {
    StatisticsCatalogue catalogue = StatisticsCatalogue.builtIn();
    try (ExportFolder folder = ExportFolder.at(location, progress)) {
      // Hadoop would put a checksum file beside every Parquet file; SHA256SUMS says it for all.
      FileSystem.getLocal(configuration).setWriteChecksum(false);
      List<DataPackage.WrittenTable> written = new ArrayList<>();
      for (TableSchema known : TableSchemas.all()) {
        String table = known.table();
        if (manifest.tables().containsKey(table)) {
          progress.accept("Writing table " + table);
          TableSchema schema = source.schema(table);
          RowDigest digest = write(schema, rows -> source.each(table, rows), folder);
          check(table, digest);
          written.add(described(schema, folder));
        }
      }
      write(
          catalogue.schema(),
          rows -> {
            for (TableRow row : catalogue.rows()) {
              rows.take(row);
            }
          },
          folder);
      written.add(described(catalogue.schema(), folder));
      List<TableSchema> schemas = written.stream().map(DataPackage.WrittenTable::schema).toList();
      folder.write(Manifest.FILE_NAME, manifest.json());
      folder.write("METHODS.md", MethodsText.markdown(manifest, source, catalogue));
      folder.write("dictionary.md", Dictionary.markdown(schemas, catalogue));
      folder.write("dictionary.html", Dictionary.html(schemas, catalogue));
      if (!manifest.study().publication().authors().isEmpty()) {
        folder.write(Citation.FILE_NAME, Citation.ofData(manifest.study(), Program.version()));
      }
      folder.write(Citation.OF_PROGRAM, Citation.ofProgram(Program.version()));
      folder.write(DataPackage.FILE_NAME, DataPackage.json(manifest, written));
      for (String notebook : NOTEBOOKS) {
        folder.write("notebooks/" + notebook, inExport(resource(notebook)));
      }
      unchanged.run();
      folder.commit();
      return Path.of(location).toAbsolutePath().normalize();
    } catch (IOException e) {
      throw new InputException(
          "Cannot export into " + location + ": " + ExportFolder.reason(e) + ".", e);
    }
  }

  /** Gives every row of a table to a taker. */
  @FunctionalInterface
  private interface Rows {
    void into(ParquetTables.RowTaker taker) throws IOException;
  }

  private RowDigest write(TableSchema schema, Rows rows, ExportFolder folder) throws IOException {
    Path parquet = folder.file(parquet(schema));
    RowDigest digest = new RowDigest();
    try (BufferedWriter text =
            Files.newBufferedWriter(folder.file(csv(schema)), StandardCharsets.UTF_8);
        TableFile file =
            TableFile.create(
                new org.apache.hadoop.fs.Path(parquet.toUri()), schema, configuration)) {
      CsvTable csv = new CsvTable(schema, text);
      rows.into(
          row -> {
            csv.write(row);
            file.write(row);
            digest.add(row);
          });
    }
    return digest;
  }

  private static String csv(TableSchema schema) {
    return "csv/" + schema.table() + ".csv";
  }

  private static String parquet(TableSchema schema) {
    return "parquet/" + schema.table() + ".parquet";
  }

  private static DataPackage.WrittenTable described(TableSchema schema, ExportFolder folder)
      throws IOException {
    return new DataPackage.WrittenTable(
        schema, folder.written(csv(schema)), folder.written(parquet(schema)));
  }

  private static String resource(String notebook) throws IOException {
    try (InputStream stream = StudyExport.class.getResourceAsStream("/notebooks/" + notebook)) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find " + notebook + " in the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** Queries for a study folder, made to read the tables where an export has them. */
  private static String inExport(String text) {
    return text.replaceAll("STUDY/tables/(\\w+)/\\*\\.parquet", "../parquet/$1.parquet")
        .replace("Put the study folder in the place of STUDY", "Run it in the folder notebooks");
  }

  private void check(String table, RowDigest digest) {
    Manifest.Table expected = manifest.tables().get(table);
    if (digest.rows() != expected.rows() || !digest.hex().equals(expected.digest())) {
      throw new InputException(
          "Cannot export the study: table "
              + table
              + " is not the one its manifest describes ("
              + digest.rows()
              + " rows where "
              + expected.rows()
              + " were written, or other values). Run the study again.");
    }
  }
}
