package phrasecensus.spark;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.spark.rows.FileRows;

/** Opens input files, those in archives too; an archive is opened once, for one thread. */
final class InputBytes implements Closeable {
  private final FileRows reading;
  private final Configuration configuration;
  private final Map<String, ZippedScores> archives = new LinkedHashMap<>();

  /**
   * @param reading knows the limits
   */
  InputBytes(FileRows reading, Configuration configuration) {
    this.reading = reading;
    this.configuration = configuration;
  }

  /** The content of a file. */
  byte[] of(InputFile file) throws IOException {
    Path path = new Path(URI.create(file.address()));
    if (!file.isInArchive()) {
      if (InputPaths.isNoFile(path)) {
        throw new IOException("it is a pipe, a socket or a device by now");
      }
      FileSystem fileSystem = InputPaths.fileSystem(path, configuration);
      try (InputStream stream = fileSystem.open(path)) {
        return stream.readAllBytes();
      }
    }
    ZippedScores archive = archives.get(file.address());
    if (archive == null) {
      archive = ZippedScores.open(path, configuration);
      archives.put(file.address(), archive);
    }
    return archive.bytes(file.entry(), reading.largestFile(), reading.largestRatio());
  }

  @Override
  public void close() throws IOException {
    for (ZippedScores archive : archives.values()) {
      archive.close();
    }
  }
}
