package phrasecensus.spark;

import java.io.Serializable;

/**
 * A score to read.
 *
 * @param role {@code corpus} or {@code student}
 * @param file path relative to the folder of its role, with {@code /}
 * @param address where to open it
 * @param bytes its size
 */
public record InputFile(String role, String file, String address, long bytes)
    implements Serializable {
  /** Role of the files that make the norms. */
  public static final String CORPUS = "corpus";

  /** Role of the files that are compared with them. */
  public static final String STUDENT = "student";

  /** The key of its solo in every table. */
  public String soloId() {
    return role + "/" + file;
  }
}
