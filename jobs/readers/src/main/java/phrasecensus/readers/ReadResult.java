package phrasecensus.readers;

import java.util.List;
import phrasecensus.music.score.Solo;

/**
 * What came of one file.
 *
 * @param outcome read or rejected
 * @param solo the solo; null exactly when the file was rejected
 * @param reason why the file was rejected, in a sentence; empty when it was read
 * @param problems everything that could not be taken as it stands, in order of the file
 * @param format {@code musicxml}, {@code mxl}, or {@code unknown} for a file that is neither
 * @param encoding character encoding of the score; empty when it was not reached
 * @param parts number of parts in the score
 * @param notesInStacksLeftOut notes of the line's voice under the top note of a stack
 * @param notesInOtherVoicesLeftOut notes of the chosen part in other voices
 */
public record ReadResult(
    Outcome outcome,
    Solo solo,
    String reason,
    List<Problem> problems,
    String format,
    String encoding,
    int parts,
    int notesInStacksLeftOut,
    int notesInOtherVoicesLeftOut) {
  /** What can come of a file. */
  public enum Outcome {
    /** There is a solo. */
    READ,
    /** There is a reason. */
    REJECTED
  }

  /**
   * @throws IllegalArgumentException if solo and reason do not fit the outcome
   */
  public ReadResult {
    if ((outcome == Outcome.READ) != (solo != null) || (solo == null) == reason.isEmpty()) {
      throw new IllegalArgumentException("Invalid read result: " + outcome + " with " + reason);
    }
    problems = List.copyOf(problems);
  }

  /** A file without a solo. */
  public static ReadResult rejected(
      String reason, List<Problem> problems, String format, String encoding) {
    return new ReadResult(Outcome.REJECTED, null, reason, problems, format, encoding, 0, 0, 0);
  }

  public boolean isRead() {
    return outcome == Outcome.READ;
  }
}
