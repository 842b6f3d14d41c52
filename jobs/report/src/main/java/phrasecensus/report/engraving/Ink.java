package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.report.engraving.Engraving.Layer;
import phrasecensus.report.engraving.Engraving.Path;
import phrasecensus.report.engraving.Engraving.Run;
import phrasecensus.report.engraving.Engraving.Words;

/**
 * Takes what is drawn, in staff spaces, and turns it into as few and as short paths as SVG allows:
 * one a style, in whole tenths of a staff space, each point counted from the last one. Signs become
 * the points of a path too; the style sheet sets the sign there as a marker.
 */
final class Ink {
  private final Map<String, Line> lines = new TreeMap<>();
  private final List<Words> words = new ArrayList<>();

  /** A length in staff spaces as a page has it. */
  static int tenths(double staffSpaces) {
    return (int) Math.round(staffSpaces * 10);
  }

  /** The path of a style, to be gone on with. */
  Line line(String style) {
    return lines.computeIfAbsent(style, any -> new Line());
  }

  /** Sets a sign with its origin at a place. */
  void sign(Glyph glyph, double x, double y) {
    line(glyph.id()).point(x, y);
  }

  void words(double x, double y, String style, String text) {
    words.add(Words.of(tenths(x), tenths(y), style, text));
  }

  void words(double x, double y, String style, List<Run> runs) {
    words.add(new Words(tenths(x), tenths(y), style, runs));
  }

  boolean isEmpty() {
    return lines.isEmpty() && words.isEmpty();
  }

  Layer layer(boolean pale) {
    List<Path> paths = new ArrayList<>();
    lines.forEach((style, line) -> paths.add(new Path(style, line.data())));
    return new Layer(pale, paths, words);
  }

  /** A path in the making. */
  static final class Line {
    private final StringBuilder data = new StringBuilder();
    private int x;
    private int y;
    private int startX;
    private int startY;
    private boolean points;

    Line from(double toX, double toY) {
      move('m', toX, toY);
      startX = x;
      startY = y;
      return this;
    }

    Line to(double toX, double toY) {
      move('l', toX, toY);
      return this;
    }

    Line across(double toX) {
      data.append('h').append(tenths(toX) - x);
      x = tenths(toX);
      return this;
    }

    Line down(double toY) {
      data.append('v').append(tenths(toY) - y);
      y = tenths(toY);
      return this;
    }

    /** A curve with two control points. */
    Line curve(double x1, double y1, double x2, double y2, double toX, double toY) {
      data.append('c');
      append(tenths(x1) - x, tenths(y1) - y);
      data.append(' ');
      append(tenths(x2) - x, tenths(y2) - y);
      data.append(' ');
      append(tenths(toX) - x, tenths(toY) - y);
      x = tenths(toX);
      y = tenths(toY);
      return this;
    }

    Line close() {
      data.append('z');
      x = startX;
      y = startY;
      return this;
    }

    private void point(double toX, double toY) {
      if (points) {
        to(toX, toY);
      } else {
        from(toX, toY);
        points = true;
      }
    }

    private void move(char command, double toX, double toY) {
      data.append(data.isEmpty() ? 'M' : command);
      append(tenths(toX) - x, tenths(toY) - y);
      x = tenths(toX);
      y = tenths(toY);
    }

    private void append(int dx, int dy) {
      data.append(dx);
      if (dy >= 0) {
        data.append(' ');
      }
      data.append(dy);
    }

    /** Closed where signs stand, so that the last point is not taken for an end. */
    private String data() {
      return points ? data + "z" : data.toString();
    }
  }
}
