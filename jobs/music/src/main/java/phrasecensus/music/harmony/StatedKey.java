package phrasecensus.music.harmony;

import java.util.Optional;
import phrasecensus.music.changes.Changes;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Solo;

/**
 * A key that people state for a solo, as it sounds.
 *
 * @param key sounding
 * @param contradiction true where the file has a signature that the key is not written with
 */
public record StatedKey(Key key, boolean contradiction) {
  /** How a stated key is meant. */
  public enum Pitch {
    /** As the player reads it. */
    WRITTEN,
    /** As it sounds. */
    SOUNDING,
    /** Whichever of the two agrees with the file's signature, as it sounds when neither does. */
    UNSAID
  }

  /**
   * Brings a key to the pitch at which it sounds.
   *
   * @param stated as people wrote it
   * @param solo its first signature tells what agrees
   */
  public static StatedKey of(Key stated, Pitch pitch, Solo solo) {
    int semitones = Changes.transposition(solo).semitones();
    Key ifWritten = stated.transposed(semitones);
    Optional<Integer> signature =
        solo.keys().stream()
            .map(KeyChange::concertFifths)
            .filter(java.util.Objects::nonNull)
            .findFirst();
    boolean written =
        switch (pitch) {
          case WRITTEN -> true;
          case SOUNDING -> false;
          case UNSAID ->
              signature.isPresent()
                  && !stated.isWrittenWith(signature.get())
                  && ifWritten.isWrittenWith(signature.get());
        };
    Key key = written ? ifWritten : stated;
    return new StatedKey(key, signature.isPresent() && !key.isWrittenWith(signature.get()));
  }
}
