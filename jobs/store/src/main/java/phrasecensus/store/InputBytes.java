package phrasecensus.store;

import java.io.Closeable;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.security.AccessControlException;
import phrasecensus.tables.InputFile;

/** Opens input files, those in archives too; an archive is opened once, for one thread. */
public final class InputBytes implements Closeable {
  private static final int MOST_READINGS = 3;

  private final long largestFile;
  private final long largestRatio;
  private final Configuration configuration;
  private final Map<String, ZippedScores> archives = new LinkedHashMap<>();

  /**
   * @param largestFile bytes that a file may have
   * @param largestRatio how many times its compressed size a file in an archive may have, beyond a
   *     megabyte
   */
  public InputBytes(long largestFile, long largestRatio, Configuration configuration) {
    this.largestFile = largestFile;
    this.largestRatio = largestRatio;
    this.configuration = configuration;
  }

  /**
   * The content of a file, whole as it was at one moment.
   *
   * @throws AccessControlException if it may not be read
   * @throws LostFile if it is gone, if what it lies on fails, or if it does not stand still
   * @throws IOException if it is larger than it may be, or lies in an archive that is damaged
   */
  public byte[] of(InputFile file) throws IOException {
    Path path = new Path(URI.create(file.address()));
    if (InputPaths.isLocal(path) && !InputPaths.canBeTold(path.toUri().getPath())) {
      throw new LostFile("The file could not be opened: " + InputPaths.whyNotTold(), null);
    }
    try {
      return file.isInArchive() ? inArchive(file, path) : whole(file, path);
    } catch (FileNotFoundException | NoSuchFileException e) {
      if (String.valueOf(e.getMessage()).toLowerCase(Locale.ROOT).contains("permission")) {
        throw refused(e);
      }
      throw new LostFile(LostFile.GONE, e);
    } catch (AccessDeniedException e) {
      throw refused(e);
    }
  }

  private static AccessControlException refused(IOException cause) {
    AccessControlException refused = new AccessControlException("permission denied");
    refused.initCause(cause);
    return refused;
  }

  private byte[] inArchive(InputFile file, Path path) throws IOException {
    ZippedScores archive = archives.get(file.address());
    if (archive == null) {
      archive = ZippedScores.open(path, configuration);
      archives.put(file.address(), archive);
    }
    return archive.bytes(file.entry(), largestFile, largestRatio);
  }

  /** Reads again what was written to meanwhile. */
  private byte[] whole(InputFile file, Path path) throws IOException {
    if (InputPaths.isNoFile(path)) {
      throw new IOException("it is a pipe, a socket or a device by now");
    }
    FileSystem fileSystem = InputPaths.fileSystem(path, configuration);
    for (int time = 0; time < MOST_READINGS; time++) {
      Object before = state(path);
      byte[] bytes = bytes(fileSystem, path);
      boolean unchanged =
          before != null
              ? before.equals(state(path))
              : bytes.length == file.bytes()
                  || bytes.length == fileSystem.getFileStatus(path).getLen();
      if (unchanged) {
        return bytes;
      }
    }
    throw new LostFile(
        "The file was written to each time it was read. Read it again when it is finished.", null);
  }

  /** Size and time of last writing of a local file; null on a store, which shows a file whole. */
  private static Object state(Path path) throws IOException {
    if (!InputPaths.isLocal(path)) {
      return null;
    }
    BasicFileAttributes attributes =
        Files.readAttributes(
            java.nio.file.Path.of(path.toUri().getPath()), BasicFileAttributes.class);
    return List.of(attributes.size(), attributes.lastModifiedTime());
  }

  private byte[] bytes(FileSystem fileSystem, Path path) throws IOException {
    // It may have grown since it was listed.
    int most = (int) Math.min(largestFile, Integer.MAX_VALUE - 16);
    byte[] bytes;
    try (InputStream stream = fileSystem.open(path)) {
      bytes = stream.readNBytes(most + 1);
    } catch (FileNotFoundException
        | NoSuchFileException
        | AccessDeniedException
        | AccessControlException e) {
      throw e;
    } catch (IOException e) {
      throw new LostFile("The file could not be read: " + Stores.reason(e) + ".", e);
    }
    if (bytes.length > most) {
      throw new IOException("it has more than " + most + " bytes, the limit file-size");
    }
    return bytes;
  }

  @Override
  public void close() throws IOException {
    for (ZippedScores archive : archives.values()) {
      archive.close();
    }
  }
}
