package phrasecensus.music.aim;

import java.util.List;
import java.util.Locale;

/**
 * What is asked of every solo. The question about harmony has two answers, {@link #TONAL_CENTRE}
 * and {@link #LANDINGS}; {@link #OWN} is asked only where a teacher has an aim that belongs to none
 * of the others.
 */
public enum Question {
  /** Are the notes those of the key or of the chord at hand? */
  TONAL_CENTRE,
  /** Does the line come to rest on 1 3 5 7? */
  LANDINGS,
  /** Do notes of an eighth or shorter carry the line? */
  MOVEMENT,
  /** Does the line breathe in phrases? */
  PHRASES,
  /** Anything else that a teacher asks for. */
  OWN;

  private final String word = name().toLowerCase(Locale.ROOT);

  /** The order in which aims are looked at unless a study says otherwise. */
  public static final List<Question> USUAL_ORDER = List.of(values());

  /**
   * The word in tables and study files: lower case with underscores, as in {@code tonal_centre}.
   */
  public String word() {
    return word;
  }
}
