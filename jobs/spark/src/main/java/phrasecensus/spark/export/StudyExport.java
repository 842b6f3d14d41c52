package phrasecensus.spark.export;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.Consumer;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import phrasecensus.spark.parquet.ParquetTables;
import phrasecensus.spark.parquet.RowDigest;
import phrasecensus.spark.parquet.TableFile;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.MethodsText;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.export.CsvTable;

/**
 * Writes a study as a folder of files that need no program of ours: {@code csv/TABLE.csv}, {@code
 * parquet/TABLE.parquet} with the same rows in the same order, and what explains them. The same
 * study gives the same bytes.
 */
public final class StudyExport {
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

  /**
   * Writes the export.
   *
   * @param location a folder of this machine: new, empty, or an untouched export
   * @return the folder
   * @throws InputException if the study is not whole or the folder cannot be written
   */
  public Path into(String location) {
    try (ExportFolder folder = ExportFolder.at(location)) {
      // Hadoop would put a checksum file beside every Parquet file; SHA256SUMS says it for all.
      FileSystem.getLocal(configuration).setWriteChecksum(false);
      for (TableSchema schema : TableSchemas.all()) {
        if (manifest.tables().containsKey(schema.table())) {
          progress.accept("Writing table " + schema.table());
          write(schema.table(), folder);
        }
      }
      folder.write(Manifest.FILE_NAME, manifest.json());
      folder.write(
          "METHODS.md", MethodsText.markdown(manifest, source, StatisticsCatalogue.builtIn()));
      folder.commit();
      return Path.of(location).toAbsolutePath().normalize();
    } catch (IOException e) {
      throw new InputException(
          "Cannot export into " + location + ": " + ExportFolder.reason(e) + ".", e);
    }
  }

  private void write(String table, ExportFolder folder) throws IOException {
    TableSchema schema = source.schema(table);
    Path csv = folder.file("csv/" + table + ".csv");
    Path parquet = folder.file("parquet/" + table + ".parquet");
    RowDigest digest = new RowDigest();
    try (BufferedWriter text = Files.newBufferedWriter(csv, StandardCharsets.UTF_8);
        TableFile file =
            TableFile.create(
                new org.apache.hadoop.fs.Path(parquet.toUri()), schema, configuration)) {
      CsvTable rows = new CsvTable(schema, text);
      source.each(
          table,
          row -> {
            rows.write(row);
            file.write(row);
            digest.add(row);
          });
    }
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
