package phrasecensus.spark.parquet;

import java.io.IOException;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.hadoop.util.HadoopOutputFile;
import org.apache.parquet.hadoop.util.HadoopStreams;
import org.apache.parquet.io.OutputFile;
import org.apache.parquet.io.PositionOutputStream;

/**
 * A file that Parquet's library writes, whose stream is within reach: the library can only close it,
 * and so would put half a file in its place.
 */
final class StoredFile implements OutputFile {
  private static final int BUFFER = 8192;

  private final Path path;
  private final FileSystem fileSystem;
  private final HadoopOutputFile usual;
  private FSDataOutputStream stream;

  StoredFile(Path path, Configuration configuration) throws IOException {
    this.path = path;
    this.fileSystem = path.getFileSystem(configuration);
    this.usual = HadoopOutputFile.fromPath(path, configuration);
  }

  @Override
  public PositionOutputStream create(long blockSizeHint) throws IOException {
    return opened(false, blockSizeHint);
  }

  @Override
  public PositionOutputStream createOrOverwrite(long blockSizeHint) throws IOException {
    return opened(true, blockSizeHint);
  }

  private PositionOutputStream opened(boolean overwrite, long blockSizeHint) throws IOException {
    stream =
        fileSystem.create(
            path,
            overwrite,
            BUFFER,
            fileSystem.getDefaultReplication(path),
            Math.max(fileSystem.getDefaultBlockSize(path), blockSizeHint));
    return HadoopStreams.wrap(stream);
  }

  /** Sees to it that nothing of the file is ever there; only where the store can do that. */
  void abort() {
    stream.abort();
  }

  @Override
  public boolean supportsBlockSize() {
    return usual.supportsBlockSize();
  }

  @Override
  public long defaultBlockSize() {
    return usual.defaultBlockSize();
  }

  @Override
  public String getPath() {
    return usual.getPath();
  }

  @Override
  public String toString() {
    return path.toString();
  }
}
