package phrasecensus.composer;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.stream.Stream;

/** Writes the generated part of the sample corpus into a folder. */
public final class Main {
  private Main() {}

  /** Runs the composer; the one argument is the folder {@code sample-corpus}. */
  public static void main(String[] arguments) {
    System.exit(run(arguments, System.out, System.err));
  }

  /**
   * Writes every generated file and removes scores in {@code corpus} and {@code students} that are
   * no longer generated.
   *
   * @return 0 when done, 2 for wrong usage, 3 when the folder cannot be written
   */
  static int run(String[] arguments, PrintStream out, PrintStream err) {
    if (arguments.length != 1) {
      err.println("Usage: java phrasecensus.composer.Main TARGET_FOLDER");
      return 2;
    }
    Path target = Path.of(arguments[0]);
    SortedMap<String, byte[]> files = SampleCorpus.files();
    try {
      for (String folder : List.of("corpus", "students")) {
        removeOthers(target, target.resolve(folder), files);
      }
      for (Map.Entry<String, byte[]> file : files.entrySet()) {
        Path path = target.resolve(file.getKey());
        Files.createDirectories(path.getParent());
        Files.write(path, file.getValue());
      }
    } catch (IOException e) {
      err.println("Cannot write the sample corpus into " + target + ": " + e.getMessage());
      return 3;
    }
    out.println("Wrote " + files.size() + " files into " + target);
    return 0;
  }

  private static void removeOthers(Path target, Path folder, SortedMap<String, byte[]> files)
      throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    List<Path> scores;
    try (Stream<Path> paths = Files.walk(folder)) {
      scores = paths.filter(p -> p.toString().matches(".*\\.(musicxml|xml|mxl)")).toList();
    }
    for (Path score : scores) {
      String name = target.relativize(score).toString().replace('\\', '/');
      if (!files.containsKey(name)) {
        Files.delete(score);
      }
    }
  }
}
