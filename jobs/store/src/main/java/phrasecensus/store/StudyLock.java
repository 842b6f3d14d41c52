package phrasecensus.store;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.UUID;
import org.apache.hadoop.fs.FileAlreadyExistsException;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.ipc.RemoteException;
import phrasecensus.tables.InputException;

/**
 * What keeps two runs from working on one study: a file, which says in the way that suits its file
 * system whether the run that wrote it is still there.
 */
public abstract class StudyLock {
  /** Name of the file in the study folder. */
  public static final String FILE_NAME = ".phrase-census-lock";

  /** Begins what is in the file: a file of that name without it is somebody else's. */
  private static final String OURS = "Phrase Census run ";

  /** How often a lock is written anew where nothing else tells that its run lives. */
  private static final Duration RENEWAL = Duration.ofSeconds(15);

  /** A lock that was not renewed for so long was left by a run that was killed. */
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private static final int LONGEST = 200;

  final FileSystem fileSystem;
  final Path file;

  private StudyLock(FileSystem fileSystem, Path file) {
    this.fileSystem = fileSystem;
    this.file = file;
  }

  /**
   * Locks a study folder.
   *
   * @param location as messages call it
   * @throws InputException if another run has it
   */
  static StudyLock of(Path folder, FileSystem fileSystem, String location) throws IOException {
    Path file = new Path(folder, FILE_NAME);
    StudyLock lock =
        StudyPlaces.isLocal(fileSystem)
            ? new OfProcess(fileSystem, file)
            : StudyPlaces.knowsWhenWritersAreGone(fileSystem, file)
                ? new Leased(fileSystem, file)
                : new Renewed(fileSystem, file, RENEWAL);
    for (int attempt = 0; ; attempt++) {
      try {
        lock.create();
        return lock;
      } catch (FileAlreadyExistsException | RemoteException e) {
        lock.refuseSomebodyElses(location);
        if (attempt > 0 || lock.isHeld()) {
          throw new InputException(
              "Cannot write the study into "
                  + location
                  + ": another run is working on it. Wait for it to end; "
                  + lock.advice(),
              e);
        }
        fileSystem.delete(file, false);
      }
    }
  }

  /**
   * Writes the file.
   *
   * @throws FileAlreadyExistsException or {@link RemoteException} if there is one
   */
  abstract void create() throws IOException;

  /** Whether the run that wrote the file is still there. */
  abstract boolean isHeld() throws IOException;

  /** What to do when it is not, a sentence that follows a semicolon. */
  abstract String advice();

  /** Gives the study free. */
  void release() throws IOException {
    fileSystem.delete(file, false);
  }

  /** What our file says of its run; empty where a run was killed while it wrote it. */
  String content() throws IOException {
    String text = text();
    return text.startsWith(OURS) ? text.substring(OURS.length()) : "";
  }

  private String text() throws IOException {
    try (var stream = fileSystem.open(file)) {
      return new String(stream.readNBytes(LONGEST), StandardCharsets.UTF_8).strip();
    }
  }

  /** The file, for a run that is told in these words. */
  static String written(String run) {
    return OURS + run;
  }

  private void refuseSomebodyElses(String location) throws IOException {
    try {
      String text = text();
      if (!text.startsWith(OURS) && !OURS.startsWith(text)) {
        throw new InputException(
            "Cannot write the study into "
                + location
                + ": its file "
                + FILE_NAME
                + " is not this program's. Nothing was touched; move the file elsewhere.");
      }
    } catch (FileNotFoundException e) {
      // The run that held it has ended meanwhile.
    }
  }

  /** On a local disk: the file has the number of the process. */
  private static final class OfProcess extends StudyLock {
    OfProcess(FileSystem fileSystem, Path file) {
      super(fileSystem, file);
    }

    @Override
    void create() throws IOException {
      StudyPlaces.writeNew(fileSystem, file, written(Long.toString(ProcessHandle.current().pid())));
    }

    @Override
    boolean isHeld() throws IOException {
      String owner = content();
      return owner.matches("\\d{1,18}")
          && Long.parseLong(owner) != ProcessHandle.current().pid()
          && ProcessHandle.of(Long.parseLong(owner)).map(ProcessHandle::isAlive).orElse(false);
    }

    @Override
    String advice() {
      return "if there is none, delete " + file.toUri().getPath() + ".";
    }
  }

  /** On HDFS: the file stays open, and the file system knows whether its writer lives. */
  private static final class Leased extends StudyLock {
    private OutputStream lease;

    Leased(FileSystem fileSystem, Path file) {
      super(fileSystem, file);
    }

    @Override
    void create() throws IOException {
      lease = fileSystem.create(file, false);
    }

    @Override
    boolean isHeld() throws IOException {
      try {
        // Refused as long as another writer lives.
        fileSystem.append(file).close();
        return false;
      } catch (IOException e) {
        return fileSystem.exists(file);
      }
    }

    @Override
    String advice() {
      return "where one was killed, the file system lets go after a minute.";
    }

    @Override
    void release() throws IOException {
      lease.close();
      super.release();
    }
  }

  /**
   * On a store that knows nothing of writers: the file is written anew four times a minute, and one
   * that is older than a minute by the clock of the store was left behind.
   */
  static final class Renewed extends StudyLock {
    private static final String OWNER = UUID.randomUUID().toString();

    private final Duration renewal;
    private boolean released;

    Renewed(FileSystem fileSystem, Path file, Duration renewal) {
      super(fileSystem, file);
      this.renewal = renewal;
    }

    @Override
    void create() throws IOException {
      try {
        StudyPlaces.writeNew(fileSystem, file, written(OWNER));
      } catch (IOException e) {
        if (fileSystem.exists(file)) {
          // Every store has an exception of its own for this.
          throw alreadyThere(e);
        }
        throw e;
      }
      if (!content().equals(OWNER)) {
        throw alreadyThere(null);
      }
      Thread renewing = new Thread(this::renew, "study-lock");
      renewing.setDaemon(true);
      renewing.start();
    }

    private FileAlreadyExistsException alreadyThere(IOException cause) {
      FileAlreadyExistsException exists = new FileAlreadyExistsException(file.toString());
      exists.initCause(cause);
      return exists;
    }

    private synchronized void renew() {
      while (!released) {
        try {
          wait(renewal.toMillis());
          if (!released && !isOurs()) {
            return;
          }
          if (!released) {
            Durable.write(fileSystem, file, written(OWNER).getBytes(StandardCharsets.UTF_8));
          }
        } catch (InterruptedException e) {
          return;
        } catch (IOException e) {
          // The store may be out of reach for a while; the next time comes soon.
        }
      }
    }

    /** Not when this run was held up for so long that another one has taken the study over. */
    private boolean isOurs() throws IOException {
      try {
        return content().equals(OWNER);
      } catch (FileNotFoundException e) {
        return false;
      }
    }

    @Override
    boolean isHeld() throws IOException {
      try {
        return !content().equals(OWNER) && age().compareTo(PATIENCE) < 0;
      } catch (FileNotFoundException e) {
        return false;
      }
    }

    private Duration age() throws IOException {
      Path probe = new Path(file.getParent(), FILE_NAME + "-" + UUID.randomUUID());
      Durable.write(fileSystem, probe, new byte[0]);
      try {
        return Duration.ofMillis(
            fileSystem.getFileStatus(probe).getModificationTime()
                - fileSystem.getFileStatus(file).getModificationTime());
      } finally {
        fileSystem.delete(probe, false);
      }
    }

    @Override
    String advice() {
      return "where one was killed, the study is free a minute later.";
    }

    @Override
    synchronized void release() throws IOException {
      released = true;
      notifyAll();
      if (isOurs()) {
        super.release();
      }
    }
  }
}
