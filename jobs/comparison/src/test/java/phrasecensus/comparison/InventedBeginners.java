package phrasecensus.comparison;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Beginners' solos made by program, each by a recipe of which a teacher would know what to say
 * first: the kinds of things that go wrong, in metres, keys, clefs, lengths and notations of every
 * sort. Nothing in them is anybody's.
 */
final class InventedBeginners {
  /** What is done in a solo. */
  enum Recipe {
    GOOD("none"),
    STRETCHED("none"),
    OUTSIDE("outside_key"),
    WRONG_SCALE("outside_key"),
    WEAK_LANDINGS("weak_landings"),
    LONG("long_notes"),
    QUARTERS("long_notes"),
    UNBROKEN("no_breath"),
    UNBROKEN_MIXED("no_breath"),
    UNBROKEN_ALMOST("no_breath"),
    FRAGMENTS("fragments"),
    OUTSIDE_UNBROKEN("outside_key"),
    LONG_UNBROKEN("long_notes"),
    TOO_SHORT("not_enough"),
    SILENT("not_enough");

    final String first;

    Recipe(String first) {
      this.first = first;
    }
  }

  /**
   * How a solo is written down.
   *
   * @param beats of the metre
   * @param beatType its denominator
   * @param bars full bars
   * @param fifths signature that the player reads
   * @param minor true for the minor key of the signature
   * @param chords one chord a bar
   * @param chromatic semitones from written to sounding
   * @param diatonic letter steps from written to sounding
   * @param low true for a bass clef and a low register
   * @param tempo quarter notes a minute
   * @param swung true to write eighths on the beat as triplet quarter and eighth
   * @param pickup true for an empty bar of one beat before the first
   * @param parts true for an accompaniment in a part of its own before the solo
   */
  record Setting(
      int beats,
      int beatType,
      int bars,
      int fifths,
      boolean minor,
      boolean chords,
      int chromatic,
      int diatonic,
      boolean low,
      int tempo,
      boolean swung,
      boolean pickup,
      boolean parts) {}

  /** Ticks of an eighth; a triplet eighth has two thirds of them. */
  private static final int EIGHTH = 6;

  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};
  private static final int[] MINOR = {0, 2, 3, 5, 7, 8, 10};
  private static final String[] SHARP = {
    "C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"
  };
  private static final String[] FLAT = {
    "C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"
  };

  private record Sound(int ticks, Integer midi) {}

  private final Recipe recipe;
  private final Setting setting;
  private final Random random;
  private final int tonic;
  private final int[] scale;
  private final int barTicks;
  private final List<Sound> line = new ArrayList<>();
  private int at;
  private int degree;

  private InventedBeginners(Recipe recipe, Setting setting, long seed) {
    this.recipe = recipe;
    this.setting = setting;
    this.random = new Random(seed);
    this.tonic = Math.floorMod(7 * setting.fifths() + (setting.minor() ? 9 : 0), 12);
    this.scale = setting.minor() ? MINOR : MAJOR;
    this.barTicks = setting.beats() * 8 / setting.beatType() * EIGHTH;
  }

  /** A score in MusicXML. */
  static byte[] score(Recipe recipe, Setting setting, long seed) {
    InventedBeginners solo = new InventedBeginners(recipe, setting, seed);
    solo.play();
    return solo.musicXml().getBytes(StandardCharsets.UTF_8);
  }

  private int length() {
    return setting.bars() * barTicks;
  }

  private void play() {
    degree = random.nextInt(4);
    switch (recipe) {
      case GOOD, WEAK_LANDINGS, OUTSIDE, WRONG_SCALE -> phrases(2, EIGHTH);
      case STRETCHED -> phrases(0, EIGHTH);
      case QUARTERS -> phrases(2, 2 * EIGHTH);
      case LONG -> phrases(2, 4 * EIGHTH);
      case UNBROKEN, OUTSIDE_UNBROKEN -> run(length(), EIGHTH, false);
      case UNBROKEN_MIXED -> run(length(), EIGHTH, true);
      case UNBROKEN_ALMOST -> {
        while (at < length()) {
          run(Math.min(length() - at, 10 * barTicks - 2 * EIGHTH), EIGHTH, false);
          rest(Math.min(length() - at, 2 * EIGHTH));
        }
      }
      case LONG_UNBROKEN -> run(length(), 4 * EIGHTH, false);
      case FRAGMENTS -> fragments();
      case TOO_SHORT -> {
        for (int i = 0; i < 5; i++) {
          note(EIGHTH, inScale());
        }
      }
      case SILENT -> {}
    }
    rest(length() - at);
  }

  /** Phrases of so many bars, 0 for one and a half to four in turn, a breath after each. */
  private void phrases(int bars, int usual) {
    while (length() - at >= barTicks) {
      int wanted =
          bars > 0 ? bars * barTicks : (3 + random.nextInt(6)) * barTicks / 2 / EIGHTH * EIGHTH;
      int ticks = Math.min(wanted, length() - at);
      int end = at + ticks;
      int breath = (2 + random.nextInt(2)) * EIGHTH;
      int held = Math.max(3 * EIGHTH, usual);
      while (end - breath - held - at >= usual) {
        int next = usual == EIGHTH && random.nextInt(8) == 0 ? 2 * EIGHTH : usual;
        note(Math.min(next, end - breath - held - at), pitch());
      }
      note(end - breath - at, landing());
      rest(end - at);
    }
  }

  private void run(int ticks, int usual, boolean mixed) {
    int end = at + ticks;
    while (at < end) {
      int next = mixed && random.nextInt(6) == 0 ? 2 * usual : usual;
      note(Math.min(next, end - at), usual > EIGHTH ? landing() : pitch());
    }
  }

  private void fragments() {
    while (at < length()) {
      int notes = 2 + random.nextInt(2);
      for (int i = 0; i < notes && at < length(); i++) {
        note(Math.min(EIGHTH, length() - at), i + 1 == notes ? landing() : pitch());
      }
      rest(Math.min((3 + random.nextInt(2)) * EIGHTH, length() - at));
    }
  }

  private int bottom() {
    return setting.low() ? 48 : 67;
  }

  private int pitch() {
    return switch (recipe) {
      case OUTSIDE, OUTSIDE_UNBROKEN -> bottom() + random.nextInt(14);
      default -> inScale();
    };
  }

  /** The next tone of a line that moves by step in the scale, in two octaves. */
  private int inScale() {
    degree += random.nextInt(5) - 2;
    degree = Math.max(0, Math.min(9, degree));
    int shift = recipe == Recipe.WRONG_SCALE ? (setting.fifths() > 0 ? -2 : 2) : 0;
    return tone(Math.floorMod(tonic + 7 * shift, 12), degree);
  }

  private int tone(int from, int step) {
    int lowest = bottom() + Math.floorMod(from - bottom(), 12);
    return lowest + scale[step % 7] + 12 * (step / 7);
  }

  /** A note to rest on: 1 3 5 7 of chord or key, or for weak landings none of these. */
  private int landing() {
    if (recipe == Recipe.OUTSIDE
        || recipe == Recipe.WRONG_SCALE
        || recipe == Recipe.OUTSIDE_UNBROKEN) {
      return pitch();
    }
    int root = setting.chords() ? root(at / barTicks) : 0;
    int[] wanted = recipe == Recipe.WEAK_LANDINGS ? new int[] {1, 3, 5} : new int[] {0, 2, 4, 6};
    int best = -1;
    for (int step = 0; step <= 9; step++) {
      for (int tone : wanted) {
        boolean fits = Math.floorMod(step - root, 7) == tone;
        if (fits && (best < 0 || Math.abs(step - degree) < Math.abs(best - degree))) {
          best = step;
        }
      }
    }
    degree = best;
    return tone(tonic, best);
  }

  /** Degree of the root in a bar, from 0: I vi ii V, in minor i iv V i. */
  private int root(int bar) {
    return (setting.minor() ? new int[] {0, 3, 4, 0} : new int[] {0, 5, 1, 4})[bar % 4];
  }

  private String kind(int bar) {
    return (setting.minor()
            ? new String[] {"minor-seventh", "minor-seventh", "minor-seventh", "minor-seventh"}
            : new String[] {"major-seventh", "minor-seventh", "minor-seventh", "dominant"})
        [bar % 4];
  }

  private void note(int ticks, int midi) {
    line.add(new Sound(ticks, midi));
    at += ticks;
  }

  private void rest(int ticks) {
    if (ticks > 0) {
      line.add(new Sound(ticks, null));
      at += ticks;
    }
  }

  private String musicXml() {
    StringBuilder text = new StringBuilder("<score-partwise version=\"4.0\"><part-list>");
    if (setting.parts()) {
      text.append("<score-part id=\"P1\"><part-name>Piano</part-name></score-part>");
    }
    text.append("<score-part id=\"P2\"><part-name>Solo</part-name></score-part></part-list>");
    if (setting.parts()) {
      text.append("<part id=\"P1\">");
      int bars = setting.bars() + (setting.pickup() ? 1 : 0);
      for (int bar = 0; bar < bars; bar++) {
        boolean pickup = bar == 0 && setting.pickup();
        text.append("<measure number=\"").append(bar + (setting.pickup() ? 0 : 1)).append('"');
        text.append(pickup ? " implicit=\"yes\">" : ">");
        text.append(bar == 0 ? attributes(false) : "");
        text.append("<note><rest/><duration>")
            .append(pickup ? 2 * EIGHTH : barTicks)
            .append("</duration></note></measure>");
      }
      text.append("</part>");
    }
    text.append("<part id=\"P2\">");
    if (setting.pickup()) {
      text.append("<measure number=\"0\" implicit=\"yes\">").append(attributes(true));
      text.append("<note><rest/><duration>").append(2 * EIGHTH).append("</duration></note>");
      text.append("</measure>");
    }
    bars(text);
    return text.append("</part></score-partwise>").toString();
  }

  private String attributes(boolean solo) {
    int shift = solo ? 0 : Math.floorMod(7 * setting.chromatic(), 12);
    int fifths = solo ? setting.fifths() : Math.floorMod(setting.fifths() + shift + 5, 12) - 5;
    return "<attributes><divisions>"
        + 2 * EIGHTH
        + "</divisions><key><fifths>"
        + fifths
        + "</fifths></key><time><beats>"
        + setting.beats()
        + "</beats><beat-type>"
        + setting.beatType()
        + "</beat-type></time><clef><sign>"
        + (setting.low() ? "F</sign><line>4" : "G</sign><line>2")
        + "</line></clef>"
        + (solo && setting.chromatic() != 0
            ? "<transpose><diatonic>"
                + setting.diatonic()
                + "</diatonic><chromatic>"
                + setting.chromatic()
                + "</chromatic></transpose>"
            : "")
        + "</attributes>"
        + (setting.tempo() > 0 && solo ? "<sound tempo=\"" + setting.tempo() + "\"/>" : "");
  }

  private void bars(StringBuilder text) {
    int index = 0;
    int left = line.isEmpty() ? 0 : line.get(0).ticks();
    boolean tied = false;
    for (int bar = 0; bar < setting.bars(); bar++) {
      text.append("<measure number=\"").append(bar + 1).append("\">");
      if (bar == 0 && !setting.pickup()) {
        text.append(attributes(true));
      }
      if (setting.chords()) {
        text.append(harmony(bar));
      }
      int place = 0;
      while (place < barTicks) {
        int ticks = Math.min(left, barTicks - place);
        boolean goesOn = ticks < left;
        sound(text, line.get(index), place, ticks, tied, goesOn);
        tied = goesOn;
        left -= ticks;
        place += ticks;
        if (left == 0 && ++index < line.size()) {
          left = line.get(index).ticks();
        }
      }
      text.append("</measure>");
    }
  }

  /** Where swing is written out, an eighth on the beat lasts four thirds of one, the next two. */
  private void sound(
      StringBuilder text, Sound sound, int place, int ticks, boolean tied, boolean goesOn) {
    int from = swing(place);
    int duration = swing(place + ticks) - from;
    text.append("<note>");
    if (sound.midi() == null) {
      text.append("<rest/>");
    } else {
      String name = (setting.fifths() < 0 ? FLAT : SHARP)[Math.floorMod(sound.midi(), 12)];
      text.append("<pitch><step>").append(name.charAt(0)).append("</step>");
      if (name.length() > 1) {
        text.append("<alter>").append(name.charAt(1) == '#' ? 1 : -1).append("</alter>");
      }
      text.append("<octave>").append(sound.midi() / 12 - 1).append("</octave></pitch>");
    }
    text.append("<duration>").append(duration).append("</duration>");
    if (sound.midi() != null) {
      text.append(tied ? "<tie type=\"stop\"/>" : "");
      text.append(goesOn ? "<tie type=\"start\"/>" : "");
    }
    text.append("</note>");
  }

  private int swing(int ticks) {
    return setting.swung() && ticks % (2 * EIGHTH) == EIGHTH ? ticks + EIGHTH / 3 : ticks;
  }

  private String harmony(int bar) {
    String name =
        (setting.fifths() < 0 ? FLAT : SHARP)[Math.floorMod(tonic + scale[root(bar)], 12)];
    return "<harmony><root><root-step>"
        + name.charAt(0)
        + "</root-step>"
        + (name.length() > 1
            ? "<root-alter>" + (name.charAt(1) == '#' ? 1 : -1) + "</root-alter>"
            : "")
        + "</root><kind>"
        + kind(bar)
        + "</kind></harmony>";
  }
}
