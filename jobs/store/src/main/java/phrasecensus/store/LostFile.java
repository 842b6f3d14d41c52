package phrasecensus.store;

import java.io.IOException;

/**
 * A file that was there when the folder was listed, and was gone, or failed, when it was to be
 * read. One alone is a file that cannot be read; many say that the disk or the network fails.
 */
public final class LostFile extends IOException {
  private static final long serialVersionUID = 1L;

  /** Why a file is rejected that is not there. */
  public static final String GONE = "The file could not be opened: it is gone or may not be read.";

  /**
   * @param reason a sentence
   */
  LostFile(String reason, Throwable cause) {
    super(reason, cause);
  }
}
