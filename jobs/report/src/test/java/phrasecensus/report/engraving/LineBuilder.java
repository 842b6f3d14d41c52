package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/**
 * A line written down in a few words: {@code "C5 1/2"} a note, {@code "- 1"} a rest, in quarters.
 */
final class LineBuilder {
  private LineBuilder() {}

  /**
   * A solo of full bars.
   *
   * @param metre as in {@code 4/4}
   * @param pickup length of a first, incomplete bar; zero for none
   * @param line notes and rests, parted by commas
   */
  static SoloLine solo(String metre, Fraction pickup, String line) {
    String[] parts = metre.split("/");
    Fraction full = Fraction.of(4L * Integer.parseInt(parts[0]), Integer.parseInt(parts[1]));
    List<SoloLine.Tone> notes = new ArrayList<>();
    Fraction time = Fraction.ZERO;
    for (String word : line.split(",")) {
      String[] both = word.strip().split(" ");
      Fraction length = Fraction.parse(both[1]);
      if (!both[0].equals("-")) {
        notes.add(
            new SoloLine.Tone(notes.size(), time, length, midi(both[0]), both[0], 0, "chord-tone"));
      }
      time = time.plus(length);
    }
    List<SoloLine.BarSpan> bars = new ArrayList<>();
    Fraction onset = Fraction.ZERO;
    if (pickup.isPositive()) {
      bars.add(new SoloLine.BarSpan(0, "0", onset, pickup, metre, full.minus(pickup), true, null));
      onset = pickup;
    }
    while (onset.isBefore(time)) {
      String number = String.valueOf(bars.size() + (pickup.isPositive() ? 0 : 1));
      bars.add(
          new SoloLine.BarSpan(
              bars.size(), number, onset, full, metre, Fraction.ZERO, false, null));
      onset = onset.plus(full);
    }
    return new SoloLine(bars, List.of(), notes, List.of(), List.of());
  }

  private static int midi(String name) {
    WrittenPitch pitch = WrittenPitch.of(name);
    int[] steps = {0, 2, 4, 5, 7, 9, 11};
    return 12 * (Math.floorDiv(pitch.diatonic(), 7) + 1)
        + steps[Math.floorMod(pitch.diatonic(), 7)]
        + pitch.alter();
  }
}
