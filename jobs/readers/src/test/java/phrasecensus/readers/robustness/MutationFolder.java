package phrasecensus.readers.robustness;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.w3c.dom.Document;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

/**
 * Writes folders of damaged scores for the command line: most are damaged as trees, some as bytes,
 * some lie in compressed scores and in archives with faults of their own. The same seed gives the
 * same files.
 *
 * <p>Arguments: the folder to write, the number of files, the first seed, then files or folders to
 * start from. Every hundredth goes to the folder's {@code students}, the others to its {@code
 * corpus}.
 */
public final class MutationFolder {
  /** Sources above this would take most of the time. */
  private static final int LARGEST_SOURCE = 10_000;

  private static final int IN_ARCHIVE = 20;
  private static final int BARS = 12;

  private MutationFolder() {}

  /** A score up to its twelfth bar, so that a long one is small enough. */
  static byte[] beginning(byte[] score) {
    String text = new String(score, StandardCharsets.ISO_8859_1);
    int from = text.indexOf("<measure", 0);
    for (int bar = 0; bar < BARS && from >= 0; bar++) {
      from = text.indexOf("<measure", from + 1);
    }
    int to = text.indexOf("</part>", Math.max(0, from));
    return from < 0 || to < 0
        ? score
        : (text.substring(0, from) + text.substring(to)).getBytes(StandardCharsets.ISO_8859_1);
  }

  /** A place in a list, the first ones more often. */
  private static int smaller(Random random, int size) {
    return Math.min(random.nextInt(size), Math.min(random.nextInt(size), random.nextInt(size)));
  }

  public static void main(String[] arguments) throws IOException {
    Path folder = Path.of(arguments[0]);
    int count = Integer.parseInt(arguments[1]);
    long seed = Long.parseLong(arguments[2]);
    Map<String, byte[]> sources = new TreeMap<>();
    for (int i = 3; i < arguments.length; i++) {
      sources.putAll(MutationRun.bases(Path.of(arguments[i])));
    }
    write(folder, count, seed, sources);
  }

  /** Writes the files; those sources that are no score, or large, are left out. */
  static void write(Path folder, int count, long firstSeed, Map<String, byte[]> sources)
      throws IOException {
    // In order of size, so that small ones can be taken more often: they break in the same places.
    List<Document> trees = new ArrayList<>();
    List<Map.Entry<String, byte[]>> bySize = new ArrayList<>(sources.entrySet());
    bySize.sort(Comparator.comparingInt(source -> source.getValue().length));
    for (Map.Entry<String, byte[]> source : bySize) {
      byte[] bytes = beginning(source.getValue());
      boolean usable =
          bytes.length <= LARGEST_SOURCE
              && bytes.length > 0
              && bytes[0] == '<'
              && SoloReader.read(bytes, source.getKey(), ReadSettings.defaults()).isRead();
      if (usable) {
        TreeMutations.tree(bytes).ifPresent(trees::add);
      }
    }
    Path corpus = Files.createDirectories(folder.resolve("corpus"));
    Path students = Files.createDirectories(folder.resolve("students"));
    List<String> names = new ArrayList<>();
    List<byte[]> contents = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      long seed = firstSeed + i;
      Random random = new Random(seed);
      byte[] score = TreeMutations.mutated(trees.get(smaller(random, trees.size())), seed);
      String name = "m" + seed;
      switch (random.nextInt(20)) {
        case 0 -> {
          score = Mutations.mutated(score, seed);
          name += ".xml";
        }
        case 1, 2 -> {
          score = ArchiveMutations.compressedScore(score, seed);
          name += ".mxl";
        }
        default -> name += ".musicxml";
      }
      if (random.nextInt(10) == 0) {
        names.add(name);
        contents.add(score);
      } else {
        Files.write((i % 100 == 7 ? students : corpus).resolve(name), score);
      }
      if (names.size() == IN_ARCHIVE || i == count - 1 && !names.isEmpty()) {
        byte[] archive = ArchiveMutations.zip(names, contents, random);
        Files.write(corpus.resolve("z" + seed + ".zip"), ArchiveMutations.damaged(archive, random));
        names.clear();
        contents.clear();
      }
    }
  }
}
