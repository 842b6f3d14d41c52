package phrasecensus.spark;

import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemNotFoundException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Stream;
import org.apache.commons.codec.digest.MurmurHash3;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.readers.SoloReader;
import phrasecensus.rows.FileRows;
import phrasecensus.store.Program;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.PhraseMarks;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/**
 * What the rows of a file depend on, as short digests: two readings with the same key give the same
 * rows, so that a later run may take those of an earlier one.
 */
final class ReadingKey implements Serializable {
  private static final long serialVersionUID = 1L;
  private static final int CHARACTERS = 32;

  /** Our own code that makes rows; a change of any of it makes every key another. */
  private static final List<Class<?>> CODE =
      List.of(
          SoloAnalyser.class,
          SoloReader.class,
          TableRow.class,
          FileRows.class,
          TableFile.class,
          ReadJob.class);

  private final String shared;

  private ReadingKey(String shared) {
    this.shared = shared;
  }

  /**
   * The part that all files of a run share.
   *
   * @param settings as recorded in the manifest, further phrase rules included; phrase marks are a
   *     matter of each file
   * @param solosSchema table solos with its metadata columns
   */
  static ReadingKey of(Map<String, String> settings, TableSchema solosSchema) {
    MessageDigest digest = Sha256.digest();
    add(digest, code());
    add(digest, Program.version());
    add(digest, Program.libraries());
    settings.forEach(
        (name, value) -> {
          add(digest, name);
          add(digest, value);
        });
    add(digest, solosSchema.sparkJson());
    return new ReadingKey(hex(digest));
  }

  /**
   * The key of one file.
   *
   * @param sha256 of its bytes
   * @param metadata its row of the metadata file
   * @param marks of the study; null for none. Only what they say of this file counts, so that other
   *     marks of one file leave the rows of the rest
   */
  String of(
      String role, String file, String sha256, Map<String, String> metadata, PhraseMarks marks) {
    MessageDigest digest = Sha256.digest();
    add(digest, shared);
    add(digest, role);
    add(digest, file);
    add(digest, sha256);
    new TreeMap<>(metadata)
        .forEach(
            (column, value) -> {
              add(digest, column);
              add(digest, value);
            });
    if (marks != null) {
      add(digest, marks.asWritten(file).map(List::toString).orElse("no phrase marks"));
    }
    return hex(digest);
  }

  private static void add(MessageDigest digest, String text) {
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    digest.update((byte) 0);
  }

  private static String hex(MessageDigest digest) {
    return HexFormat.of().formatHex(digest.digest()).substring(0, CHARACTERS);
  }

  /**
   * A digest of our own jars, or class folders; one that no other run has where they are not found.
   */
  private static String code() {
    MessageDigest digest = Sha256.digest();
    for (Class<?> type : CODE) {
      CodeSource source = type.getProtectionDomain().getCodeSource();
      try {
        addFiles(source.getLocation().toURI(), digest);
      } catch (IOException
          | URISyntaxException
          | IllegalArgumentException
          | FileSystemNotFoundException e) {
        return UUID.randomUUID().toString();
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void addFiles(URI location, MessageDigest into) throws IOException {
    try (Stream<Path> walk = Files.walk(Path.of(location))) {
      for (Path path : walk.filter(Files::isRegularFile).sorted().toList()) {
        try (InputStream stream = Files.newInputStream(path)) {
          byte[] bytes = stream.readAllBytes();
          // Megabytes before anything is read, and nobody forges our own jars: a fast hash does.
          for (long half : MurmurHash3.hash128x64(bytes, 0, bytes.length, 0)) {
            into.update(ByteBuffer.allocate(Long.BYTES).putLong(half).array());
          }
        }
      }
    }
  }
}
