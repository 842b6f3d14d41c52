package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Step;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;

/**
 * The key of a solo as its player reads it.
 *
 * @param tonic the home note, spelled
 * @param scale the scale in one word, as in {@code major}, {@code blues}, {@code dorian}; empty
 *     where only the tonic is known
 */
public record Home(NoteName tonic, String scale) {
  private static final int[] MAJOR = {0, 2, 4, 5, 7};
  private static final int[] MINOR = {0, 2, 3, 5, 7};

  /**
   * The key of a solo at the pitch of its line.
   *
   * @return empty where no key is known
   */
  public static Optional<Home> of(SoloFacts facts, SoloLine line) {
    if (facts.centreTonic() == null || "unknown".equals(facts.centreMode())) {
      return Optional.empty();
    }
    int transposition = line.notes().isEmpty() ? 0 : line.notes().get(0).transposition();
    String scale = scale(facts.centreMode(), facts.columns().getOrDefault("centre_scale", ""));
    Integer signature = line.bars().isEmpty() ? null : line.bars().get(0).staff().keyWritten();
    int pitchClass = Math.floorMod(facts.centreTonic() + transposition, 12);
    return Optional.of(new Home(spelled(pitchClass, scale, signature, line), scale));
  }

  /** The major key of the signature as the player reads it, C major without one. */
  public static Home ofSignature(SoloFacts facts, SoloLine line) {
    Integer written = line.bars().isEmpty() ? null : line.bars().get(0).staff().keyWritten();
    Integer signature = written == null ? facts.keyFifths() : written;
    int fifths = signature == null ? 0 : Math.max(-6, Math.min(6, signature));
    return new Home(NoteName.atFifths(fifths), "major");
  }

  private static String scale(String mode, String scale) {
    if (scale.endsWith("minor") || mode.equals("minor")) {
      return "minor";
    }
    return scale.isEmpty() ? mode.equals("modal") ? "" : mode : scale;
  }

  /** As the line itself spells it, else the spelling nearest to the signature. */
  private static NoteName spelled(int pitchClass, String scale, Integer signature, SoloLine line) {
    Map<NoteName, Integer> counts = new HashMap<>();
    for (SoloLine.Tone note : line.notes()) {
      if (Math.floorMod(note.midiWritten(), 12) == pitchClass) {
        counts.merge(name(note.nameWritten()), 1, Integer::sum);
      }
    }
    int usual = (signature == null ? 0 : signature) + above(scale);
    NoteName best = null;
    for (int fifths = Math.floorMod(7 * pitchClass, 12) - 12; fifths <= 12; fifths += 12) {
      NoteName name = NoteName.atFifths(fifths);
      boolean more =
          best == null
              || counts.getOrDefault(name, 0) > counts.getOrDefault(best, 0)
              || counts.getOrDefault(name, 0).equals(counts.getOrDefault(best, 0))
                  && Math.abs(fifths - usual) < Math.abs(best.fifths() - usual);
      best = more ? name : best;
    }
    return best;
  }

  /** How many fifths the tonic lies above that of the major scale with the same signature. */
  private static int above(String scale) {
    return switch (scale) {
      case "minor" -> 3;
      case "dorian" -> 2;
      case "phrygian" -> 4;
      case "lydian" -> -1;
      case "mixolydian" -> 1;
      case "locrian" -> 5;
      default -> 0;
    };
  }

  /** A spelled pitch of the tables without its octave. */
  static NoteName name(String pitch) {
    int alter = 0;
    int i = 1;
    while (i < pitch.length() && "\u266f#\u266db".indexOf(pitch.charAt(i)) >= 0) {
      alter += "\u266f#".indexOf(pitch.charAt(i)) >= 0 ? 1 : -1;
      i++;
    }
    return new NoteName(Step.valueOf(pitch.substring(0, 1)), alter);
  }

  /** Sharps of the usual key signature, flats negative, at most six. */
  public int signature() {
    int fifths = tonic.fifths() - above(scale);
    return fifths > 6 ? fifths - 12 : fifths < -6 ? fifths + 12 : fifths;
  }

  /** True for scales with a minor third. */
  public boolean isMinor() {
    return List.of("minor", "dorian", "phrygian", "locrian").contains(scale);
  }

  /** The key in words: {@code G major}, {@code B♭ blues}. */
  public String words() {
    return scale.isEmpty() ? tonic.toString() : tonic + " " + scale.toLowerCase(Locale.ROOT);
  }

  public String home() {
    return tonic.toString();
  }

  public String third() {
    return degree(2, isMinor() ? 3 : 4).toString();
  }

  public String fifth() {
    return degree(4, scale.equals("locrian") ? 6 : 7).toString();
  }

  /** Five notes from home upward: of a blues those of its minor pentatonic scale. */
  public String five() {
    List<String> names = new ArrayList<>();
    if (scale.equals("blues")) {
      int[] steps = {0, 2, 3, 4, 6};
      int[] semitones = {0, 3, 5, 7, 10};
      for (int i = 0; i < steps.length; i++) {
        names.add(degree(steps[i], semitones[i]).toString());
      }
    } else {
      int[] semitones = isMinor() ? MINOR.clone() : MAJOR.clone();
      semitones[1] = scale.equals("phrygian") || scale.equals("locrian") ? 1 : semitones[1];
      semitones[3] = scale.equals("lydian") ? 6 : semitones[3];
      semitones[4] = scale.equals("locrian") ? 6 : semitones[4];
      for (int i = 0; i < semitones.length; i++) {
        names.add(degree(i, semitones[i]).toString());
      }
    }
    return String.join(" ", names);
  }

  private NoteName degree(int steps, int semitones) {
    Step step = tonic.step().plus(steps);
    int alter = Math.floorMod(tonic.pitchClass() + semitones - step.semitones() + 6, 12) - 6;
    return new NoteName(step, alter);
  }
}
