package phrasecensus.store;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.store.parquet.ParquetTables;
import phrasecensus.tables.FileList;
import phrasecensus.tables.FolderMarker;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;

/**
 * A finished study held against what was written: every byte of manifest, tables and report against
 * the lists beside them, and every row of every part against the digests in the manifest. Nothing
 * is locked and nothing is changed.
 *
 * @param files how many files were looked at
 * @param differences sentences, empty when everything is as it was written
 */
public record StudyVerification(int files, List<String> differences) {
  public StudyVerification {
    differences = List.copyOf(differences);
  }

  /**
   * Verifies the study in a folder.
   *
   * @throws InputException if there is none, it cannot be read, or a run changed it meanwhile
   */
  public static StudyVerification of(String location, Configuration configuration) {
    try {
      Path path = InputPaths.of(location);
      FileSystem fileSystem = Stores.of(path, configuration);
      Path folder = fileSystem.makeQualified(path);
      StudyPlaces places = StudyPlaces.of(folder, fileSystem, configuration);
      places.look();
      FileList before = OwnFiles.list(fileSystem, places.current());
      if (!before.isWhole(FileList.STUDY) && !fileSystem.exists(places.manifest())) {
        throw new InputException(
            "Cannot verify " + location + ": it holds no finished study and no export.");
      }
      List<String> differences = new ArrayList<>();
      FolderMarker marker = OwnFiles.marker(fileSystem, folder);
      if (marker == null) {
        differences.add(FolderMarker.FILE_NAME + " is gone, damaged or changed.");
      }
      int files = tables(fileSystem, places, before, differences);
      rows(places, configuration, differences);
      Path report = places.report();
      if (report != null && fileSystem.exists(report)) {
        files += report(fileSystem, report, before, differences);
      }
      places.look();
      if (!before.equals(OwnFiles.list(fileSystem, places.current()))) {
        throw new InputException(
            "Cannot verify " + location + ": a run changed it meanwhile. Verify it again.");
      }
      return new StudyVerification(files, differences);
    } catch (IOException | IllegalArgumentException e) {
      throw new InputException("Cannot verify " + location + ": " + e.getMessage() + ".", e);
    }
  }

  private static int tables(
      FileSystem fileSystem, StudyPlaces places, FileList list, List<String> differences)
      throws IOException {
    if (!list.isWhole(FileList.STUDY)) {
      differences.add(FileList.FILE_NAME + ", the list of the files, is gone, damaged or changed.");
    }
    OwnFiles.differing(fileSystem, places.current(), list, list.files().keySet())
        .forEach(path -> differences.add(path + " is gone, damaged or changed."));
    if (list.isWhole(FileList.STUDY)) {
      for (String path :
          OwnFiles.unlisted(fileSystem, places.current(), RenamedPlaces.TABLES, list)) {
        if (!OwnFiles.isHidden(path)) {
          differences.add(path + " was put there by somebody else.");
        }
      }
    }
    return list.files().size() + 1;
  }

  /** Rows against the manifest: a list that fits the files says nothing of what is in them. */
  private static void rows(
      StudyPlaces places, Configuration configuration, List<String> differences) {
    try (var stream = places.manifest().getFileSystem(configuration).open(places.manifest())) {
      Manifest manifest = Manifest.parse(Manifest.FILE_NAME, stream);
      ParquetTables tables = new ParquetTables(places.tables(), configuration);
      for (Map.Entry<String, Manifest.Table> table : manifest.tables().entrySet()) {
        Set<String> parts = new TreeSet<>(table.getValue().parts().keySet());
        for (String part : parts) {
          Manifest.Part found = null;
          try {
            found = tables.part(table.getKey(), part);
          } catch (IOException | RuntimeException e) {
            // It cannot be read.
          }
          if (!table.getValue().parts().get(part).equals(found)) {
            differences.add(
                "The rows of "
                    + RenamedPlaces.TABLES
                    + "/"
                    + table.getKey()
                    + "/"
                    + part
                    + " are not those of which the manifest tells.");
          }
        }
      }
    } catch (IOException | InputException e) {
      differences.add(Manifest.FILE_NAME + " cannot be read.");
    }
  }

  private static int report(
      FileSystem fileSystem, Path report, FileList tables, List<String> differences)
      throws IOException {
    FileList list = OwnFiles.list(fileSystem, report);
    String folder = RenamedPlaces.REPORT + "/";
    if (!list.isWhole(FileList.REPORT)) {
      differences.add(
          folder + FileList.FILE_NAME + ", the list of the pages, is gone, damaged or changed.");
    } else if (!list.belongsTo().equals(tables.files().get(Manifest.FILE_NAME))) {
      differences.add(
          "The report is of other tables than these, as "
              + folder
              + FileList.FILE_NAME
              + " says. 'phrase-census report' writes it anew.");
    }
    OwnFiles.differing(fileSystem, report, list, list.files().keySet())
        .forEach(path -> differences.add(folder + path + " is gone, damaged or changed."));
    return list.files().size() + 1;
  }
}
