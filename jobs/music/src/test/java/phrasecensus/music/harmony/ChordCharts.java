package phrasecensus.music.harmony;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Chord charts of the tests, each with its centre and the length of its chorus. */
final class ChordCharts {
  private ChordCharts() {}

  /**
   * A chart.
   *
   * @param name what it is
   * @param tonic pitch class
   * @param modes the right mode, and what is right beside it
   * @param chorus bars of a chorus
   * @param bars of the whole chart
   * @param solo the chart as a solo without a note
   */
  record Chart(String name, int tonic, List<Mode> modes, int chorus, int bars, Solo solo) {
    boolean isTonic(TonalCentre centre) {
      return centre.tonic() == tonic;
    }

    boolean isTonicAndMode(TonalCentre centre) {
      return isTonic(centre) && modes.contains(centre.mode());
    }

    @Override
    public String toString() {
      return name;
    }
  }

  /** All charts of a file beside this class. */
  static List<Chart> read(String file) {
    try (InputStream bytes = ChordCharts.class.getResourceAsStream(file)) {
      return parse(new String(bytes.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** All charts of a text, as the files have them. */
  static List<Chart> parse(String text) {
    List<Chart> charts = new ArrayList<>();
    for (String chart : text.split("(?m)^= ")) {
      if (!chart.startsWith("#")) {
        charts.add(chart(chart.strip().split("\n")));
      }
    }
    return charts;
  }

  private static Chart chart(String[] lines) {
    String[] answer = lines[1].split("[ ,]+");
    List<Mode> modes = new ArrayList<>();
    for (String mode : answer[1].split("/")) {
      modes.add(Mode.valueOf(mode.toUpperCase(Locale.ROOT)));
    }
    String[] time = (answer.length > 3 ? answer[3] : "4/4").split("/");
    Metre metre = Metre.of(Integer.parseInt(time[0]), Integer.parseInt(time[1]));
    List<String> bars = new ArrayList<>();
    for (String line : List.of(lines).subList(2, lines.length)) {
      for (String bar : line.split("\\|")) {
        bars.add(bar.strip().equals("%") ? bars.get(bars.size() - 1) : bar.strip());
      }
    }
    StringBuilder chords = new StringBuilder();
    for (int i = 0; i < bars.size(); i++) {
      String[] symbols = bars.get(i).split(" +");
      for (int j = 0; j < symbols.length; j++) {
        Fraction place = Fraction.of(i).plus(Fraction.of(j, symbols.length));
        chords.append(metre.barLength().times(place)).append(':').append(symbols[j]).append(' ');
      }
    }
    return new Chart(
        lines[0].strip(),
        SoloText.name(answer[0]).pitchClass(),
        modes,
        Integer.parseInt(answer[2]),
        bars.size(),
        SoloText.solo(metre, bars.size(), "", chords.toString()));
  }
}
