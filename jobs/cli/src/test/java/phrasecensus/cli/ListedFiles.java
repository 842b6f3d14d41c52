package phrasecensus.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import phrasecensus.tables.FileList;
import phrasecensus.tables.Sha256;

/** Makes the list of a changed study fit again, as if another version had written the study so. */
final class ListedFiles {
  /** The file that a run has in a study while it works on it. */
  static final String LOCK = ".phrase-census-lock";

  private ListedFiles() {}

  static void write(Path study) throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> paths = Files.walk(study)) {
      for (Path path : paths.filter(Files::isRegularFile).toList()) {
        String name = study.relativize(path).toString();
        if (name.startsWith("tables/") || name.equals("manifest.json")) {
          files.put(name, Sha256.of(Files.readAllBytes(path)));
        }
      }
    }
    Files.write(study.resolve(FileList.FILE_NAME), FileList.of(FileList.STUDY, files).bytes());
  }
}
