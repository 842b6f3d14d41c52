package phrasecensus.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.NoSuchFileException;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.StreamCapabilities;

/**
 * Forces what was written out to the disk, so that it is there after a power cut: without that a
 * local disk may hold new names with nothing in the files, a minute after a program has ended.
 *
 * <p>On a local disk files are forced by name, many at once, which costs the disk little more than
 * one. Elsewhere a stream is asked to force what it took when it is closed, where it can (HDFS). A
 * file system that can do neither promises something of its own: an object store, that an object is
 * safe when the answer to its last part has come. That promise is used.
 */
public final class Durable {
  private static final int AT_ONCE = 16;

  private static final ExecutorService FORCING =
      Executors.newFixedThreadPool(
          AT_ONCE,
          task -> {
            Thread thread = new Thread(task, "forcing-to-disk");
            thread.setDaemon(true);
            return thread;
          });

  private Durable() {}

  /** Whether files can be forced out here, or the file system has a promise of its own alone. */
  static boolean isForced(FileSystem fileSystem, Path folder) throws IOException {
    return StudyPlaces.isLocal(fileSystem)
        || StudyPlaces.knowsWhenWritersAreGone(fileSystem, folder);
  }

  /** Closes a stream when what it took is on the disk, as far as that can be asked for. */
  static void close(FSDataOutputStream stream) throws IOException {
    try (stream) {
      if (stream.hasCapability(StreamCapabilities.HSYNC)) {
        stream.hsync();
      }
    }
  }

  /** Writes a small file and forces it out; an existing one is replaced. */
  static void write(FileSystem fileSystem, Path file, byte[] bytes) throws IOException {
    FSDataOutputStream stream = fileSystem.create(file, true);
    try {
      stream.write(bytes);
    } catch (IOException e) {
      stream.close();
      throw e;
    }
    close(stream);
  }

  /** Forces files and folders out, on a local disk; elsewhere their streams have done it. */
  public static void force(FileSystem fileSystem, Collection<Path> paths) throws IOException {
    if (!StudyPlaces.isLocal(fileSystem)) {
      return;
    }
    List<java.nio.file.Path> local = new ArrayList<>();
    for (Path path : paths) {
      local.add(FolderTree.local(path));
    }
    force(local);
  }

  /** Forces files and folders of this machine out. */
  public static void force(Collection<java.nio.file.Path> paths) throws IOException {
    List<Future<?>> forced = new ArrayList<>();
    for (java.nio.file.Path path : paths) {
      forced.add(FORCING.submit(() -> forceOne(path)));
    }
    try {
      for (Future<?> each : forced) {
        each.get();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while files were forced to the disk", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof UncheckedIOException failure) {
        throw failure.getCause();
      }
      throw new IOException(String.valueOf(e.getCause().getMessage()), e.getCause());
    }
  }

  private static void forceOne(java.nio.file.Path path) {
    // A folder is opened for reading; some systems cannot open one at all, and need no forcing.
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (NoSuchFileException e) {
      throw new UncheckedIOException(new IOException(path + " is gone", e));
    } catch (IOException e) {
      if (!java.nio.file.Files.isDirectory(path)) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
