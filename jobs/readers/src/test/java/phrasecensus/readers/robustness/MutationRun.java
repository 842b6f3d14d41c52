package phrasecensus.readers.robustness;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

/**
 * Reads a great number of damaged files and counts what comes of them.
 *
 * <p>Arguments: the number of mutations, the first seed, then files or folders to start from.
 */
public final class MutationRun {
  /**
   * What came of a run.
   *
   * @param read files that gave a solo
   * @param rejected files that gave a reason
   * @param failures inputs that broke the reader, each with base and seed
   * @param slowestMillis longest time for one input
   */
  record Outcome(
      int read, int rejected, List<String> failures, long slowestMillis, String slowest) {}

  private MutationRun() {}

  public static void main(String[] arguments) throws IOException {
    int count = Integer.parseInt(arguments[0]);
    long firstSeed = Long.parseLong(arguments[1]);
    Map<String, byte[]> bases = new TreeMap<>();
    for (int i = 2; i < arguments.length; i++) {
      bases.putAll(bases(Path.of(arguments[i])));
    }
    long start = System.nanoTime();
    Outcome outcome = run(bases, count, firstSeed);
    System.out.printf(
        Locale.ROOT,
        "%d mutations of %d files in %d s: %d read, %d rejected, %d failures; slowest %d ms (%s)%n",
        count,
        bases.size(),
        TimeUnit.NANOSECONDS.toSeconds(System.nanoTime() - start),
        outcome.read(),
        outcome.rejected(),
        outcome.failures().size(),
        outcome.slowestMillis(),
        outcome.slowest());
    outcome.failures().forEach(System.out::println);
    System.exit(outcome.failures().isEmpty() ? 0 : 1);
  }

  /** The files at a path of at most 200,000 bytes, by name. */
  static Map<String, byte[]> bases(Path path) throws IOException {
    Map<String, byte[]> bases = new TreeMap<>();
    try (Stream<Path> files = Files.walk(path)) {
      for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
        String name = file.getFileName().toString();
        if (name.matches(".*\\.(xml|musicxml|mxl)") && Files.size(file) <= 200_000) {
          bases.put(name, Files.readAllBytes(file));
        }
      }
    }
    return bases;
  }

  static Outcome run(Map<String, byte[]> bases, int count, long firstSeed) {
    List<Map.Entry<String, byte[]>> all = new ArrayList<>(bases.entrySet());
    List<String> failures = new ArrayList<>();
    int read = 0;
    int rejected = 0;
    long slowest = 0;
    String slowestName = "";
    for (int i = 0; i < count; i++) {
      long seed = firstSeed + i;
      Map.Entry<String, byte[]> base = all.get(i % all.size());
      byte[] mutated = Mutations.mutated(base.getValue(), seed);
      long start = System.nanoTime();
      try {
        ReadSettings settings = ReadSettings.defaults().withAsPlayed(i % 2 == 1);
        ReadResult result = SoloReader.read(mutated, base.getKey(), settings);
        if (result.isRead()) {
          read++;
        } else {
          rejected++;
        }
      } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
        failures.add(base.getKey() + " seed " + seed + ": " + e);
      }
      long millis = TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - start);
      if (i > 100 && millis > slowest) {
        slowest = millis;
        slowestName = base.getKey() + " seed " + seed;
      }
    }
    return new Outcome(read, rejected, failures, slowest, slowestName);
  }
}
