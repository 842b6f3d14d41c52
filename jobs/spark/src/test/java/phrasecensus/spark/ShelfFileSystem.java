package phrasecensus.spark;

import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Abortable;
import org.apache.hadoop.fs.BlockLocation;
import org.apache.hadoop.fs.CommonPathCapabilities;
import org.apache.hadoop.fs.CreateFlag;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FSDataOutputStreamBuilder;
import org.apache.hadoop.fs.FileAlreadyExistsException;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.LocatedFileStatus;
import org.apache.hadoop.fs.Options.CreateFileOptionKeys;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RawLocalFileSystem;
import org.apache.hadoop.fs.RemoteIterator;
import org.apache.hadoop.fs.permission.FsPermission;
import org.apache.hadoop.util.Progressable;
import org.apache.hadoop.util.functional.RemoteIterators;

/**
 * A folder of the local disk that behaves as object stores do, under addresses as in {@code
 * shelf:/some/folder}: an object is there, whole, when its stream is closed; one that must not be
 * there yet is refused in that moment, if the store is asked as it wants to be asked; nothing is
 * appended to; folders are there as long as something is in them; a file is renamed by copying it,
 * and a folder not at all.
 */
final class ShelfFileSystem extends RawLocalFileSystem {
  private static final URI NAME = URI.create("shelf:///");
  private static final String CONDITION =
      CreateFileOptionKeys.FS_OPTION_CREATE_CONDITIONAL_OVERWRITE;

  private static Thread watched;
  private static Failure failure;
  private static int calls;
  private static int failingCall;
  private static Runnable meanwhile;
  private static int folderRenames;
  private static int fileRenames;
  private static boolean abortable = true;
  private static Condition condition = Condition.OPTION;

  /** What happens at a call that is to fail. */
  enum Failure {
    /** The process ends before anything is done. */
    KILL,
    /** Nothing is done, and the caller is told so. */
    REFUSE,
    /** It is done, and the caller is told that it failed. */
    LOSE_THE_ANSWER
  }

  /** The end of a process that is killed: nobody may catch it. */
  static final class Killed extends Error {
    private static final long serialVersionUID = 1L;
  }

  @FunctionalInterface
  private interface Call<T> {
    T made() throws IOException;
  }

  /** The address of a local folder or file. */
  static String address(java.nio.file.Path local) {
    return "shelf:" + local.toAbsolutePath();
  }

  /** Settings of Hadoop that know the scheme. */
  static Configuration configuration() {
    Configuration configuration = StudyFolder.configuration();
    configuration.set("fs.shelf.impl", ShelfFileSystem.class.getName());
    return configuration;
  }

  /** Lets a call of this thread fail, counted from one; those of other threads do not count. */
  static synchronized void failAt(int call, Failure how) {
    watched = Thread.currentThread();
    failure = how;
    failingCall = call;
    calls = 0;
  }

  /** Lets something else happen just before a call of this thread, which then goes on. */
  static synchronized void beforeCall(int call, Runnable happening) {
    failAt(call, null);
    meanwhile = happening;
  }

  /**
   * Lets calls succeed again.
   *
   * @return whether the call was made that was waited for
   */
  static synchronized boolean endOfFailures() {
    watched = null;
    return calls >= failingCall;
  }

  /** Folders that somebody wanted to be renamed. */
  static synchronized int folderRenames() {
    return folderRenames;
  }

  /** Files that were renamed, each a copy, since the process began. */
  static synchronized int fileRenames() {
    return fileRenames;
  }

  /** Whether a file that is being written can be given up, as some stores can. */
  static synchronized void setAbortable(boolean can) {
    abortable = can;
  }

  /** How a store is asked to create an object on condition that there is none. */
  enum Condition {
    /** By an option of its own; else it only looks when the object is begun, as S3A does. */
    OPTION,
    /** By not overwriting. */
    NOT_OVERWRITING,
    /** Not at all: it looks when the object is begun. */
    NONE
  }

  /** Sets how the store is asked. */
  static synchronized void setCondition(Condition asked) {
    condition = asked;
  }

  private static <T> T call(Call<T> call) throws IOException {
    synchronized (ShelfFileSystem.class) {
      boolean counted = Thread.currentThread() == watched;
      calls += counted ? 1 : 0;
      if (counted && failure == Failure.KILL && calls >= failingCall) {
        throw new Killed();
      }
      if (!counted || calls != failingCall) {
        return call.made();
      }
      if (failure == null) {
        watched = null;
        meanwhile.run();
        return call.made();
      }
      if (failure == Failure.LOSE_THE_ANSWER) {
        call.made();
      }
      throw new IOException("the shelf does not answer");
    }
  }

  @Override
  public URI getUri() {
    return NAME;
  }

  @Override
  public String getScheme() {
    return NAME.getScheme();
  }

  @Override
  public boolean hasPathCapability(Path path, String capability) {
    synchronized (ShelfFileSystem.class) {
      return switch (capability) {
        case CommonPathCapabilities.ABORTABLE_STREAM -> abortable;
        case CONDITION -> condition == Condition.OPTION;
        default -> false;
      };
    }
  }

  @Override
  public FSDataInputStream open(Path file, int bufferSize) throws IOException {
    return call(() -> super.open(file, bufferSize));
  }

  @Override
  public FileStatus getFileStatus(Path path) throws IOException {
    return call(() -> super.getFileStatus(path));
  }

  @Override
  public boolean exists(Path path) throws IOException {
    return call(() -> pathToFile(path).exists());
  }

  @Override
  public FileStatus[] listStatus(Path path) throws IOException {
    return call(() -> super.listStatus(path));
  }

  /** All objects whose names begin so, in one call. */
  @Override
  public RemoteIterator<LocatedFileStatus> listFiles(Path path, boolean recursive)
      throws IOException {
    return call(
        () -> {
          List<LocatedFileStatus> listed = new ArrayList<>();
          try (Stream<java.nio.file.Path> found = Files.walk(pathToFile(path).toPath())) {
            for (java.nio.file.Path file : found.filter(Files::isRegularFile).sorted().toList()) {
              Path address = new Path(NAME.getScheme(), null, file.toString());
              FileStatus plain =
                  new FileStatus(
                      Files.size(file),
                      false,
                      1,
                      1,
                      Files.getLastModifiedTime(file).toMillis(),
                      address);
              listed.add(new LocatedFileStatus(plain, new BlockLocation[0]));
            }
          } catch (NoSuchFileException e) {
            throw new FileNotFoundException(path + " is not there");
          }
          return RemoteIterators.remoteIteratorFromIterable(listed);
        });
  }

  @Override
  public boolean mkdirs(Path folder) {
    return true;
  }

  @Override
  public boolean mkdirs(Path folder, FsPermission permission) {
    return true;
  }

  @Override
  public FSDataOutputStream create(
      Path file,
      boolean overwrite,
      int bufferSize,
      short replication,
      long blockSize,
      Progressable progress)
      throws IOException {
    refuseToReplace(file, overwrite);
    synchronized (ShelfFileSystem.class) {
      boolean careless = overwrite || condition != Condition.NOT_OVERWRITING;
      return new FSDataOutputStream(new Unfinished(file, careless), null);
    }
  }

  @Override
  @SuppressWarnings("rawtypes") // as it is inherited
  public FSDataOutputStreamBuilder createFile(Path file) {
    return new Builder(this, file);
  }

  /** Knows the condition. */
  private static final class Builder
      extends FSDataOutputStreamBuilder<FSDataOutputStream, Builder> {
    private final ShelfFileSystem shelf;

    Builder(ShelfFileSystem shelf, Path file) {
      super(shelf, file);
      this.shelf = shelf;
    }

    @Override
    public Builder getThisBuilder() {
      return this;
    }

    @Override
    public FSDataOutputStream build() {
      rejectUnknownMandatoryKeys(Set.of(CONDITION), "shelf");
      return new FSDataOutputStream(
          shelf.new Unfinished(getPath(), !getOptions().getBoolean(CONDITION, false)), null);
    }
  }

  @Override
  public FSDataOutputStream create(
      Path file,
      FsPermission permission,
      boolean overwrite,
      int bufferSize,
      short replication,
      long blockSize,
      Progressable progress)
      throws IOException {
    return create(file, overwrite, bufferSize, replication, blockSize, progress);
  }

  @Override
  public FSDataOutputStream createNonRecursive(
      Path file,
      FsPermission permission,
      EnumSet<CreateFlag> flags,
      int bufferSize,
      short replication,
      long blockSize,
      Progressable progress)
      throws IOException {
    return create(
        file, flags.contains(CreateFlag.OVERWRITE), bufferSize, replication, blockSize, progress);
  }

  @Override
  public FSDataOutputStream append(Path file, int bufferSize, Progressable progress) {
    throw new UnsupportedOperationException("Nothing is appended to");
  }

  private void refuseToReplace(Path file, boolean overwrite) throws IOException {
    if (!overwrite && exists(file)) {
      throw new FileAlreadyExistsException(file + " is there");
    }
  }

  /** An object until it is closed. */
  private final class Unfinished extends ByteArrayOutputStream implements Abortable {
    private final Path file;
    private final boolean overwrite;
    private boolean closed;

    Unfinished(Path file, boolean overwrite) {
      this.file = file;
      this.overwrite = overwrite;
    }

    @Override
    public AbortableResult abort() {
      boolean was = closed;
      closed = true;
      return new AbortableResult() {
        @Override
        public boolean alreadyClosed() {
          return was;
        }

        @Override
        public IOException anyCleanupException() {
          return null;
        }
      };
    }

    @Override
    public void close() throws IOException {
      if (!closed) {
        closed = true;
        call(
            () -> {
              File local = pathToFile(file);
              if (!overwrite && local.exists()) {
                throw new FileAlreadyExistsException(file + " is there meanwhile");
              }
              Files.createDirectories(local.getParentFile().toPath());
              java.nio.file.Path whole = Files.createTempFile("shelf", null);
              Files.write(whole, toByteArray());
              return Files.move(whole, local.toPath(), StandardCopyOption.ATOMIC_MOVE);
            });
      }
    }
  }

  @Override
  public boolean rename(Path from, Path to) throws IOException {
    if (getFileStatus(from).isDirectory()) {
      synchronized (ShelfFileSystem.class) {
        folderRenames++;
      }
      throw new IOException("Cannot rename the folder " + from);
    }
    synchronized (ShelfFileSystem.class) {
      fileRenames++;
    }
    try (FSDataInputStream stream = open(from);
        FSDataOutputStream copy = create(to, false)) {
      copy.write(stream.readAllBytes());
    }
    return delete(from, false);
  }

  @Override
  public boolean delete(Path path, boolean recursive) throws IOException {
    File local = pathToFile(path);
    File[] inside = local.isDirectory() ? local.listFiles() : null;
    if (inside == null) {
      return call(() -> take(local));
    }
    if (!recursive && inside.length > 0) {
      throw new IOException(path + " is not empty");
    }
    for (File each : inside) {
      delete(new Path(path, each.getName()), true);
    }
    return call(() -> take(local));
  }

  /** Takes an object away, and with it the folders that are empty now. */
  private static boolean take(File object) {
    boolean was = object.delete();
    for (File folder = object.getParentFile();
        folder != null && folder.list() != null && folder.list().length == 0 && folder.delete();
        folder = folder.getParentFile()) {
      // Up to the one that holds something else.
    }
    return was;
  }
}
