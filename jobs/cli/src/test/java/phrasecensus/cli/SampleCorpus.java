package phrasecensus.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The corpus in the repository, and small pieces of it to study. */
final class SampleCorpus {
  static final Path FOLDER = Path.of(System.getProperty("project.root"), "sample-corpus");
  static final Path STUDY_FILE = FOLDER.resolve("study.yaml");
  static final Path A_SOLO = FOLDER.resolve("corpus/tarpaulin-blues-marrack-quayside.musicxml");

  private SampleCorpus() {}

  /** A folder with the first scores of the sample corpus and what is known about them. */
  static Path firstSolos(Path into, int count) throws IOException {
    Files.createDirectories(into);
    StringBuilder metadata = new StringBuilder();
    List<String> rows = Files.readAllLines(FOLDER.resolve("corpus/solos.csv"));
    metadata.append(rows.get(0)).append('\n');
    try (Stream<Path> files = Files.list(FOLDER.resolve("corpus"))) {
      for (Path file :
          files.filter(path -> !path.toString().endsWith(".csv")).sorted().limit(count).toList()) {
        String name = file.getFileName().toString();
        Files.copy(file, into.resolve(name));
        rows.stream()
            .filter(row -> row.startsWith(name + ","))
            .forEach(row -> metadata.append(row).append('\n'));
      }
    }
    Files.writeString(into.resolve("solos.csv"), metadata);
    return into;
  }

  /** A folder with the solos of one student, in a folder that bears the student's name. */
  static Path studentSolos(Path into, String student) throws IOException {
    Path folder = Files.createDirectories(into.resolve(student));
    try (Stream<Path> files = Files.list(FOLDER.resolve("students/" + student))) {
      for (Path file : files.sorted().toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
    return into;
  }
}
