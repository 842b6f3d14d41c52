package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import phrasecensus.report.rows.InOrder;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/**
 * A solo along its time, four bars a picture: chord symbols, notes at their pitch, landings with
 * their degrees, phrases as brackets. The page sets one picture a row on a narrow screen and two on
 * a wide one, so nothing is scaled.
 *
 * <p>Pitches and chord symbols are as the player reads them.
 */
public final class Timeline {
  private static final int BARS = 4;

  /** A width that the narrowest page has, in pixels: what has room there has room everywhere. */
  private static final double NARROW = 340;

  private static final double HEAD = 14;
  private static final double CHORD_LEVEL = 15;
  private static final double SIGN_LEVEL = 27;

  private final Numbers numbers;

  public Timeline(Numbers numbers) {
    this.numbers = numbers;
  }

  /** The pictures of a solo in order; empty for a solo without bars or notes. */
  public List<Picture> pictures(String id, SoloLine solo) {
    if (solo.bars().isEmpty() || solo.notes().isEmpty()) {
      return List.of();
    }
    int lowest = solo.notes().stream().mapToInt(SoloLine.Tone::midiWritten).min().orElse(60) - 1;
    int highest = solo.notes().stream().mapToInt(SoloLine.Tone::midiWritten).max().orElse(60) + 1;
    double step = Math.max(2.6, Math.min(5, 100.0 / (highest - lowest + 1)));
    Roll roll = new Roll(lowest, highest, step);
    List<List<SoloLine.BarSpan>> lines = lines(solo.bars());
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      rows.add(new Row(solo, lines.get(i), roll, id + "-" + (i + 1)));
    }
    // Pictures that stand side by side have their lanes at the same heights.
    int chordLevels = rows.stream().mapToInt(row -> levels(row.chords)).max().orElse(1);
    int signLevels = rows.stream().mapToInt(row -> levels(row.signs)).max().orElse(1);
    return rows.stream().map(row -> row.picture(chordLevels, signLevels)).toList();
  }

  /** Bars four by four, a pickup with the four that it leads into. */
  static List<List<SoloLine.BarSpan>> lines(List<SoloLine.BarSpan> bars) {
    List<List<SoloLine.BarSpan>> lines = new ArrayList<>();
    List<SoloLine.BarSpan> line = new ArrayList<>();
    int full = 0;
    for (SoloLine.BarSpan bar : bars) {
      line.add(bar);
      if (!bar.pickup()) {
        full++;
      }
      if (full == BARS) {
        lines.add(List.copyOf(line));
        line.clear();
        full = 0;
      }
    }
    if (!line.isEmpty()) {
      lines.add(List.copyOf(line));
    }
    return lines;
  }

  /**
   * Something in a lane.
   *
   * @param level 0, or 1 where it would cover what stands before it
   */
  private record Placed<T>(T what, double x, int level) {}

  private static <T> int levels(List<Placed<T>> placed) {
    return placed.stream().mapToInt(each -> each.level() + 1).max().orElse(1);
  }

  private record Roll(int lowest, int highest, double step) {
    double height() {
      return (highest - lowest + 1) * step;
    }
  }

  /** One picture in the making. */
  private final class Row {
    private final SoloLine solo;
    private final List<SoloLine.BarSpan> bars;
    private final Roll roll;
    private final String id;
    private final double start;
    private final double end;
    private final double span;
    private final List<SoloLine.Tone> touching;
    private final Map<Integer, SoloLine.Tone> notes = new HashMap<>();
    private final List<Placed<SoloLine.ChordSpan>> chords;
    private final List<Placed<SoloLine.LandingMark>> signs;
    private final List<Mark> marks = new ArrayList<>();

    Row(SoloLine solo, List<SoloLine.BarSpan> bars, Roll roll, String id) {
      this.solo = solo;
      this.bars = bars;
      this.roll = roll;
      this.id = id;
      this.start = bars.get(0).onset();
      this.end = bars.get(bars.size() - 1).end();
      double length = end - start;
      // A short last line keeps the width of a bar.
      this.span = bars.size() < BARS ? length * BARS / bars.size() : length;
      this.touching =
          InOrder.touching(solo.notes(), SoloLine.Tone::onset, SoloLine.Tone::end, start, end);
      touching.forEach(note -> notes.put(note.index(), note));
      this.chords = placedChords();
      this.signs = placedLandings();
    }

    private double x(double time) {
      return (Math.max(start, Math.min(end, time)) - start) / span;
    }

    private boolean holds(double time) {
      return time >= start && time < end;
    }

    Picture picture(int chordLevels, int signLevels) {
      double rollTop = HEAD + chordLevels * CHORD_LEVEL + 5;
      double rollBottom = rollTop + roll.height();
      double signsTop = rollBottom + 5;
      double bracketTop = signsTop + signLevels * SIGN_LEVEL + 6;
      drawChords(HEAD, chordLevels);
      drawGrid(rollTop, rollBottom);
      drawNotes(rollTop);
      drawLandings(rollTop, signsTop);
      drawPhrases(bracketTop);
      String title =
          bars.size() == 1
              ? Text.of("picture.line.bar", number(0))
              : Text.of("picture.line.bars", number(0), number(bars.size() - 1));
      return new Picture(id, title, description(), (int) Math.ceil(bracketTop + 20), marks);
    }

    private String number(int place) {
      String number = bars.get(place).number();
      return bars.get(place).pickup() ? Text.of("picture.line.pickup", number) : number;
    }

    private List<Placed<SoloLine.ChordSpan>> placedChords() {
      double[] reached = {-1, -1};
      List<Placed<SoloLine.ChordSpan>> placed = new ArrayList<>();
      for (SoloLine.ChordSpan chord : beginningChords()) {
        if (holds(chord.onset())) {
          double x = x(chord.onset());
          int level = reached[0] <= x ? 0 : reached[1] <= x ? 1 : reached[0] < reached[1] ? 0 : 1;
          reached[level] = x + (chord.symbol().length() * 6.8 + 6) / NARROW;
          placed.add(new Placed<>(chord, x, level));
        }
      }
      return placed;
    }

    private List<SoloLine.ChordSpan> beginningChords() {
      return InOrder.beginning(solo.chords(), SoloLine.ChordSpan::onset, start, end);
    }

    private List<SoloLine.PhraseSpan> touchingPhrases() {
      return InOrder.touching(
          solo.phrases(), SoloLine.PhraseSpan::onset, SoloLine.PhraseSpan::end, start, end);
    }

    private void drawChords(double top, int levels) {
      for (Placed<SoloLine.ChordSpan> chord : chords) {
        double y = top + 12 + (levels - 1 - chord.level()) * CHORD_LEVEL;
        marks.add(Mark.words(chord.x(), y, chord.what().symbol(), "chord"));
      }
    }

    private void drawGrid(double top, double bottom) {
      for (int midi = roll.lowest(); midi <= roll.highest(); midi++) {
        if (Math.floorMod(midi, 12) == 0) {
          double y = top + (roll.highest() - midi + 0.5) * roll.step();
          marks.add(Mark.level(0, x(end), y, "hair"));
          marks.add(Mark.anchored(0, y + 4, -5, "end", "C" + (midi / 12 - 1), "tiny"));
        }
      }
      boolean first = true;
      for (SoloLine.BarSpan bar : bars) {
        double x = x(bar.onset());
        marks.add(
            Mark.upright(x, top, bottom, bar.section() == null ? "barline" : "barline double"));
        boolean named = bar.section() != null && !bar.section().isBlank();
        if (named) {
          marks.add(
              Mark.words(x, 11, bar.section() + (first ? "  " + bar.number() : ""), "section"));
        } else if (first) {
          marks.add(Mark.words(x, 11, bar.number(), "tiny"));
        }
        first = false;
      }
      marks.add(Mark.upright(x(end), top, bottom, "barline"));
    }

    private void drawNotes(double top) {
      for (SoloLine.Tone note : touching) {
        if (note.onset() < end && note.end() > start) {
          double left = x(note.onset());
          // A sliver of air parts repeated notes.
          double right = Math.max(left + 0.004, x(note.end()) - 0.003);
          double y = top + (roll.highest() - note.midiWritten()) * roll.step();
          String style =
              note.role() == null
                  ? "tone plain"
                  : note.isCoreChordTone() ? "tone core" : "tone other";
          marks.add(Mark.area(left, right, y, Math.max(3, roll.step()), style));
        }
      }
    }

    private List<Placed<SoloLine.LandingMark>> placedLandings() {
      double[] reached = {-1, -1};
      List<Placed<SoloLine.LandingMark>> placed = new ArrayList<>();
      if (touching.isEmpty()) {
        return placed;
      }
      for (SoloLine.LandingMark landing :
          InOrder.numbered(
              solo.landings(),
              SoloLine.LandingMark::noteIndex,
              touching.get(0).index(),
              touching.get(touching.size() - 1).index())) {
        SoloLine.Tone note = notes.get(landing.noteIndex());
        if (note != null && holds(note.onset())) {
          double x = x(note.onset());
          double half = Math.max(7, MusicText.degree(landing.degree()).length() * 3.4) / NARROW;
          int level = reached[0] <= x - half || reached[1] > x - half ? 0 : 1;
          reached[level] = x + half;
          placed.add(new Placed<>(landing, x, level));
        }
      }
      return placed;
    }

    private void drawLandings(double rollTop, double top) {
      for (Placed<SoloLine.LandingMark> sign : signs) {
        SoloLine.LandingMark landing = sign.what();
        SoloLine.Tone note = notes.get(landing.noteIndex());
        double y = top + sign.level() * SIGN_LEVEL + 7;
        double noteBottom = rollTop + (roll.highest() - note.midiWritten() + 1) * roll.step();
        boolean chordTone = landing.chordTone() != null && landing.chordTone();
        marks.add(Mark.upright(sign.x(), noteBottom, y - 6, "guide"));
        marks.add(
            Mark.sign(
                sign.x(), y, shape(landing.kind()), chordTone ? "landing full" : "landing open"));
        marks.add(
            Mark.anchored(
                sign.x(), y + 17, 0, "middle", MusicText.degree(landing.degree()), "degree"));
      }
    }

    private void drawPhrases(double top) {
      for (SoloLine.PhraseSpan phrase : touchingPhrases()) {
        if (phrase.onset() < end && phrase.end() > start) {
          double left = x(phrase.onset());
          double right = Math.max(left + 0.004, x(phrase.end()) - 0.002);
          marks.add(Mark.level(left, right, top, "bracket"));
          boolean begins = phrase.onset() >= start;
          if (begins) {
            marks.add(Mark.upright(left, top - 5, top, "bracket"));
          }
          if (phrase.end() <= end) {
            marks.add(Mark.upright(right, top - 5, top, "bracket"));
          }
          String number = String.valueOf(phrase.index() + 1);
          String label =
              phrase.lengthBars() == null
                  ? number
                  : Text.of("picture.line.phrase", number, numbers.decimal(phrase.lengthBars(), 2));
          double room = (right - left) * NARROW;
          String fitting =
              begins ? (label.length() * 5.8 < room ? label : number) : "(" + number + ")";
          if (begins || room > 24) {
            marks.add(Mark.words(left, top + 14, fitting, "phrase"));
          }
        }
      }
    }

    private String description() {
      StringBuilder text = new StringBuilder();
      List<String> chords =
          beginningChords().stream()
              .filter(c -> holds(c.onset()))
              .map(SoloLine.ChordSpan::symbol)
              .toList();
      text.append(
              chords.isEmpty()
                  ? Text.of("picture.line.chords.none")
                  : Text.of("picture.line.chords", String.join(", ", chords)))
          .append(' ');
      Set<String> phrases = new LinkedHashSet<>();
      for (SoloLine.PhraseSpan phrase : touchingPhrases()) {
        if (phrase.onset() < end && phrase.end() > start) {
          phrases.add(String.valueOf(phrase.index() + 1));
        }
      }
      text.append(
              phrases.isEmpty()
                  ? Text.of("picture.line.phrases.none")
                  : Text.of(
                      phrases.size() == 1
                          ? "picture.line.phrases.one"
                          : "picture.line.phrases.many",
                      String.join(", ", phrases)))
          .append(' ');
      List<String> landings = new ArrayList<>();
      for (Placed<SoloLine.LandingMark> sign : signs) {
        String degree = sign.what().degree();
        landings.add(
            degree == null
                ? MusicText.landing(sign.what().kind())
                : Text.of(
                    "picture.line.landing",
                    MusicText.landing(sign.what().kind()),
                    MusicText.degree(degree)));
      }
      if (!landings.isEmpty()) {
        text.append(Text.of("picture.line.landings", String.join(", ", landings)));
      }
      return text.toString().strip();
    }
  }

  /** The shape of a landing kind. */
  public static String shape(String kind) {
    return switch (kind) {
      case "phrase-end" -> "diamond";
      case "before-rest" -> "triangle";
      case "held" -> "square";
      default -> "circle";
    };
  }
}
