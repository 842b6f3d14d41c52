package phrasecensus.store;

import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.zip.CRC32;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.InputFile;

/**
 * A zip archive that holds scores as a folder would. Nothing is ever unpacked to disk, and no size
 * that the archive states is believed.
 */
public final class ZippedScores implements Closeable {
  private static final int MOST_ENTRIES = 1_000_000;
  private static final long LARGEST_STATED = 1L << 40;
  private static final int RATIO_FREE_BYTES = 1 << 20;
  private static final Pattern DRIVE = Pattern.compile("[A-Za-z]:[/\\\\]");

  private final ZipFile zip;

  private ZippedScores(ZipFile zip) {
    this.zip = zip;
  }

  /** Whether a file is called as an archive is. */
  public static boolean isArchive(String name) {
    return name.toLowerCase(Locale.ROOT).endsWith(".zip");
  }

  public static ZippedScores open(Path path, Configuration configuration) throws IOException {
    if (InputPaths.isNoFile(path)) {
      throw new IOException("it is a pipe, a socket or a device");
    }
    FileSystem fileSystem = InputPaths.fileSystem(path, configuration);
    FSDataInputStream stream = fileSystem.open(path);
    try {
      return new ZippedScores(
          ZipFile.builder()
              .setSeekableByteChannel(new Channel(stream, fileSystem.getFileStatus(path).getLen()))
              .setIgnoreLocalFileHeader(true)
              .get());
    } catch (IOException | RuntimeException e) {
      stream.close();
      throw e instanceof IOException failure && !(e instanceof EOFException)
          ? failure
          : new IOException(damaged(e), e);
    }
  }

  /**
   * The scores in the archive, in order of path.
   *
   * @param role of the files
   * @param prefix of their paths, ending with {@code /}, or empty
   * @param address of the archive
   * @throws IOException if the archive has more entries than any collection of scores
   */
  List<InputFile> scores(String role, String prefix, String address) throws IOException {
    List<InputFile> scores = new ArrayList<>();
    Set<String> names = new HashSet<>();
    int seen = 0;
    for (Enumeration<ZipArchiveEntry> all = zip.getEntries(); all.hasMoreElements(); ) {
      ZipArchiveEntry entry = all.nextElement();
      if (++seen > MOST_ENTRIES) {
        throw new IOException("it has more than " + MOST_ENTRIES + " entries");
      }
      String name = entry.getName();
      boolean archive = isArchive(name);
      if (entry.isDirectory() || isHidden(name) || !(InputListing.isScore(name) || archive)) {
        continue;
      }
      String refusal = null;
      if (leadsOut(name)) {
        refusal = "Its name in the archive leads out of the archive.";
      } else if (archive) {
        refusal = "It is an archive inside an archive; only scores are read there.";
      } else if (entry.isUnixSymlink()) {
        refusal = "It is a link inside an archive; links are not followed there.";
      } else if (!zip.canReadEntryData(entry)) {
        refusal = "It is encrypted or compressed in a way that is not known here.";
      }
      String shown = prefix + (refusal == null ? name : harmless(name));
      while (!names.add(shown)) {
        // Tables tell files by their names, and nothing says which of the two was meant.
        refusal = "The archive has more than one entry of this name; the first is read.";
        shown += " (again)";
      }
      scores.add(
          new InputFile(
              role,
              shown,
              address,
              name,
              Math.max(0, Math.min(entry.getSize(), LARGEST_STATED)),
              refusal));
    }
    return scores;
  }

  private static boolean isHidden(String name) {
    for (String part : name.split("/")) {
      if (part.startsWith(".") && !part.equals(".") && !part.equals("..")
          || part.equals("__MACOSX")) {
        return true;
      }
    }
    return false;
  }

  /**
   * Absolute, with a drive, or with a step up, be it after a slash or a backslash: no archiver
   * writes such names. A file on Linux may well be called with a colon, a backslash or a line
   * break.
   */
  private static boolean leadsOut(String name) {
    return name.startsWith("/")
        || name.startsWith("\\")
        || DRIVE.matcher(name).lookingAt()
        || name.indexOf(0) >= 0
        || List.of(name.split("[/\\\\]")).stream().anyMatch(p -> p.equals("..") || p.equals("."));
  }

  /** A name to tell a refused entry by. */
  private static String harmless(String name) {
    return name.replaceAll("[\\\\:\\p{Cntrl}]", "_")
        .replaceAll("(^|/)\\.{1,2}(?=/|$)", "$1_")
        .replaceAll("^/+", "_");
  }

  public boolean has(String name) {
    return zip.getEntry(name) != null;
  }

  /**
   * The content of an entry.
   *
   * @param most bytes it may have
   * @param ratio how many times its compressed size it may have, beyond a megabyte
   * @throws IOException if it is not there, damaged, or larger
   */
  public byte[] bytes(String name, long most, long ratio) throws IOException {
    ZipArchiveEntry entry = zip.getEntry(name);
    if (entry == null) {
      throw new IOException("the archive has no entry '" + name + "'");
    }
    long compressed = Math.max(1, entry.getCompressedSize());
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    CRC32 crc = new CRC32();
    byte[] buffer = new byte[1 << 16];
    try (InputStream stream = zip.getInputStream(entry)) {
      for (int read = stream.read(buffer); read >= 0; read = stream.read(buffer)) {
        bytes.write(buffer, 0, read);
        crc.update(buffer, 0, read);
        if (bytes.size() > most) {
          throw new IOException(
              "it has more than " + most + " bytes when decompressed, the limit file-size");
        }
        if (bytes.size() > RATIO_FREE_BYTES && bytes.size() / compressed > ratio) {
          throw new IOException(
              "decompressed it is more than "
                  + ratio
                  + " times as large, the limit decompression-ratio");
        }
      }
    } catch (EOFException | RuntimeException e) {
      throw new IOException(damaged(e), e);
    }
    if (entry.getCrc() != ZipArchiveEntry.CRC_UNKNOWN && crc.getValue() != entry.getCrc()) {
      throw new IOException("by its checksum it is not what was put into the archive");
    }
    return bytes.toByteArray();
  }

  private static String damaged(Exception e) {
    return e.getMessage() == null || e instanceof EOFException
        ? "it is damaged"
        : "it is damaged (" + e.getMessage() + ")";
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }

  /** A Hadoop stream as the zip library wants it. */
  private static final class Channel implements SeekableByteChannel {
    private final FSDataInputStream stream;
    private final long size;
    private boolean open = true;

    Channel(FSDataInputStream stream, long size) {
      this.stream = stream;
      this.size = size;
    }

    @Override
    public int read(ByteBuffer into) throws IOException {
      byte[] bytes = new byte[Math.min(into.remaining(), 1 << 16)];
      int read;
      try {
        read = stream.read(bytes, 0, bytes.length);
      } catch (IOException e) {
        throw new LostFile("The archive could not be read: " + Stores.reason(e) + ".", e);
      }
      if (read > 0) {
        into.put(bytes, 0, read);
      }
      return read;
    }

    @Override
    public long position() throws IOException {
      return stream.getPos();
    }

    @Override
    public SeekableByteChannel position(long position) throws IOException {
      stream.seek(Math.min(position, size));
      return this;
    }

    @Override
    public long size() {
      return size;
    }

    @Override
    public boolean isOpen() {
      return open;
    }

    @Override
    public void close() throws IOException {
      open = false;
      stream.close();
    }

    @Override
    public int write(ByteBuffer from) {
      throw new NonWritableChannelException();
    }

    @Override
    public SeekableByteChannel truncate(long length) {
      throw new NonWritableChannelException();
    }
  }
}
