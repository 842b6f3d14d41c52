package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads the paths of engraved systems back: where signs stand, which words there are. */
final class Drawn {
  private static final Pattern STEP = Pattern.compile("([Mml])(-?\\d+) ?(-?\\d+)");

  private Drawn() {}

  /** A point, in tenths of a staff space. */
  record Place(int x, int y) {}

  /** Where a sign stands in a system, in the order of drawing. */
  static List<Place> places(Engraving system, Glyph glyph) {
    return system.layers().stream()
        .flatMap(layer -> layer.paths().stream())
        .filter(path -> path.style().equals(glyph.id()))
        .flatMap(path -> points(path.data()).stream())
        .toList();
  }

  /** Where a sign stands, system after system. */
  static List<Place> places(List<Engraving> systems, Glyph glyph) {
    return systems.stream().flatMap(system -> places(system, glyph).stream()).toList();
  }

  /** Words of a style, in the order of drawing. */
  static List<String> words(List<Engraving> systems, String style) {
    return systems.stream()
        .flatMap(system -> system.layers().stream())
        .flatMap(layer -> layer.words().stream())
        .filter(words -> words.style().equals(style))
        .map(Engraving.Words::text)
        .toList();
  }

  private static List<Place> points(String data) {
    List<Place> places = new ArrayList<>();
    Matcher step = STEP.matcher(data);
    int x = 0;
    int y = 0;
    while (step.find()) {
      boolean absolute = step.group(1).equals("M");
      x = Integer.parseInt(step.group(2)) + (absolute ? 0 : x);
      y = Integer.parseInt(step.group(3)) + (absolute ? 0 : y);
      places.add(new Place(x, y));
    }
    return places;
  }
}
