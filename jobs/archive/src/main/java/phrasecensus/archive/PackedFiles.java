package phrasecensus.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Completes the folder that is packed: the licences and notices that lie inside the libraries,
 * where they can be read, and the SHA-256 of every file.
 */
public final class PackedFiles {
  private static final Pattern LEGAL =
      Pattern.compile("(?i)(?:META-INF/)?((?:licen[cs]e|notice|copying)[^/]*)");

  private PackedFiles() {}

  /**
   * Completes a folder.
   *
   * @param arguments the folder of the archive's files
   * @throws IOException if a library cannot be read or a file not be written
   */
  public static void main(String... arguments) throws IOException {
    Path files = Path.of(arguments[0]);
    for (Path library : below(files.resolve("program/lib"))) {
      copyLegal(library, files.resolve("licences").resolve(name(library)));
    }
    Path program = files.resolve("program/phrase-census.jar");
    try (JarFile jar = new JarFile(program.toFile())) {
      String list = "third-party-licences.txt";
      write(jar, jar.getJarEntry("META-INF/" + list), files.resolve("licences").resolve(list));
    }
    Path sums = files.resolve("files.sha256");
    Files.deleteIfExists(sums);
    StringBuilder lines = new StringBuilder();
    for (Path file : below(files)) {
      lines.append(sha256(file)).append("  ").append(path(files, file)).append('\n');
    }
    Files.writeString(sums, lines);
  }

  /** Files at any depth, in order of their paths as bytes. */
  private static List<Path> below(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile)
          .sorted(Comparator.comparing(file -> path(folder, file)))
          .toList();
    }
  }

  private static String path(Path folder, Path file) {
    return folder.relativize(file).toString().replace('\\', '/');
  }

  private static String name(Path library) {
    return library.getFileName().toString().replaceFirst("\\.jar$", "");
  }

  private static void copyLegal(Path library, Path into) throws IOException {
    try (JarFile jar = new JarFile(library.toFile())) {
      for (JarEntry entry : jar.stream().sorted(Comparator.comparing(JarEntry::getName)).toList()) {
        var legal = LEGAL.matcher(entry.getName());
        if (!entry.isDirectory() && legal.matches() && !entry.getName().endsWith(".class")) {
          write(jar, entry, into.resolve(legal.group(1)));
        }
      }
    }
  }

  private static void write(JarFile jar, JarEntry entry, Path file) throws IOException {
    Files.createDirectories(file.getParent());
    // The same name at the top and in META-INF is the same text twice.
    if (!Files.exists(file)) {
      try (var in = jar.getInputStream(entry)) {
        Files.copy(in, file);
      }
    }
  }

  private static String sha256(Path file) throws IOException {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
      return HexFormat.of().formatHex(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java knows SHA-256", e);
    }
  }
}
