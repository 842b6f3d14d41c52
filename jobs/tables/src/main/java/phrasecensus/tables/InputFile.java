package phrasecensus.tables;

import java.io.Serializable;

/**
 * A score to read.
 *
 * @param role {@code corpus} or {@code student}
 * @param file path relative to the folder of its role, with {@code /}
 * @param address where to open it, or the archive it lies in
 * @param entry its name in the archive; empty for a file of its own
 * @param bytes its size, or what the archive says of it
 * @param refusal why it is not opened at all, a sentence; null for any usual file
 */
public record InputFile(
    String role, String file, String address, String entry, long bytes, String refusal)
    implements Serializable {
  /** Role of the files that make the norms. */
  public static final String CORPUS = "corpus";

  /** Role of the files that are compared with them. */
  public static final String STUDENT = "student";

  /** A file of its own. */
  public InputFile(String role, String file, String address, long bytes) {
    this(role, file, address, "", bytes, null);
  }

  /** Whether it lies in an archive. */
  public boolean isInArchive() {
    return !entry.isEmpty();
  }

  /** The key of its solo in every table. */
  public String soloId() {
    return role + "/" + file;
  }
}
