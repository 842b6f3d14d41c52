package phrasecensus.music.harmony;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import phrasecensus.music.harmony.TonalCentre.Mode;

/** How much each chord class on each degree speaks for a mode, read from a resource. */
final class CentreWeights {
  private static final int CLASSES = ChordClass.values().length;
  private final double[] weights = new double[3 * 12 * CLASSES];

  private CentreWeights() {}

  static CentreWeights read() {
    CentreWeights weights = new CentreWeights();
    for (String line : rows("chord-function-weights.csv")) {
      String[] cells = line.split(",");
      Mode mode = Mode.valueOf(cells[0].toUpperCase(Locale.ROOT));
      ChordClass chordClass = ChordClass.valueOf(cells[3].toUpperCase(Locale.ROOT));
      weights.weights[index(mode, Integer.parseInt(cells[1]), chordClass)] =
          Double.parseDouble(cells[4]);
    }
    return weights;
  }

  private static int index(Mode mode, int semitones, ChordClass chordClass) {
    return (mode.ordinal() * 12 + Math.floorMod(semitones, 12)) * CLASSES + chordClass.ordinal();
  }

  /**
   * The weight of a chord.
   *
   * @param mode major, minor or blues
   * @param semitones root above the tonic, any sign
   */
  double weight(Mode mode, int semitones, ChordClass chordClass) {
    return weights[index(mode, semitones, chordClass)];
  }

  /** Rows of a resource beside this class, without comment lines and the line of column names. */
  static List<String> rows(String resource) {
    try (InputStream bytes = CentreWeights.class.getResourceAsStream(resource)) {
      if (bytes == null) {
        throw new IllegalStateException("Cannot read " + resource + ": not in the program's jar");
      }
      return new BufferedReader(new InputStreamReader(bytes, StandardCharsets.UTF_8))
          .lines()
          .filter(line -> !line.isBlank() && !line.startsWith("#"))
          .skip(1)
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read " + resource, e);
    }
  }
}
