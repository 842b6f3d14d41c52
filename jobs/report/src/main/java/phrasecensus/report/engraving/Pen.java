package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;

/**
 * A broad pen: turns points with a pen width each into the outline of the stroke that goes smoothly
 * through them. Between points the path is a Catmull-Rom curve, so that a sign can be read and
 * changed as the few places where the pen passes.
 */
final class Pen {
  private static final int STEPS = 7;

  private Pen() {}

  /**
   * The outline of a stroke, as SVG path data.
   *
   * @param points x, y and width of the pen, in turn; at least two points
   */
  static String stroke(double... points) {
    int n = points.length / 3;
    List<double[]> path = new ArrayList<>();
    for (int i = 0; i < n - 1; i++) {
      for (int k = 0; k < STEPS; k++) {
        path.add(between(points, n, i, (double) k / STEPS));
      }
    }
    path.add(between(points, n, n - 2, 1));
    StringBuilder left = new StringBuilder();
    List<String> right = new ArrayList<>();
    for (int i = 0; i < path.size(); i++) {
      double[] before = path.get(Math.max(0, i - 1));
      double[] after = path.get(Math.min(path.size() - 1, i + 1));
      double dx = after[0] - before[0];
      double dy = after[1] - before[1];
      double length = Math.max(1e-9, Math.hypot(dx, dy));
      double half = path.get(i)[2] / 2;
      double nx = -dy / length * half;
      double ny = dx / length * half;
      left.append(i == 0 ? 'M' : 'L').append(place(path.get(i)[0] + nx, path.get(i)[1] + ny));
      right.add(place(path.get(i)[0] - nx, path.get(i)[1] - ny));
    }
    for (int i = right.size() - 1; i >= 0; i--) {
      left.append('L').append(right.get(i));
    }
    return left.append('Z').toString();
  }

  /**
   * A rest of an eighth or less, as SVG path data: one hook in the third space for an eighth, then
   * by turns one below and one above for each halving.
   */
  static String hookedRest(int hooks) {
    int top = -(hooks - 1) / 2;
    int foot = top + hooks;
    StringBuilder path = new StringBuilder();
    double lean = 0.22;
    for (int i = 0; i < hooks; i++) {
      double y = top + i - 0.68;
      double x = 0.27 + lean * (hooks - 1 - i);
      path.append(ellipse(x, y, 0.3, 0.3, 0));
      path.append(
          stroke(
              x - 0.1, y + 0.2, 0.08, x + 0.2, y + 0.3, 0.18, x + 0.52, y + 0.2, 0.16, x + 0.7,
              y - 0.16, 0.08));
    }
    double tip = 0.27 + lean * (hooks - 1) + 0.63;
    double end = tip - lean * (foot - top + 0.86);
    return path.append('M')
        .append(place(tip, top - 0.84))
        .append('H')
        .append(number(tip + 0.14))
        .append('L')
        .append(place(end + 0.19, foot))
        .append('H')
        .append(number(end))
        .append('Z')
        .toString();
  }

  /** An ellipse, as SVG path data; {@code tilt} in degrees, positive turns clockwise. */
  static String ellipse(double x, double y, double wide, double high, double tilt) {
    return round(x, y, wide, high, tilt, 1);
  }

  /** An ellipse cut out of what it stands in, being drawn the other way round. */
  static String hole(double x, double y, double wide, double high, double tilt) {
    return round(x, y, wide, high, tilt, 0);
  }

  private static String round(
      double x, double y, double wide, double high, double tilt, int sweep) {
    double dx = wide * Math.cos(Math.toRadians(tilt));
    double dy = wide * Math.sin(Math.toRadians(tilt));
    String arc = "A" + number(wide) + " " + number(high) + " " + number(tilt) + " 1 " + sweep + " ";
    return "M"
        + place(x - dx, y - dy)
        + arc
        + place(x + dx, y + dy)
        + arc
        + place(x - dx, y - dy)
        + "Z";
  }

  private static double[] between(double[] points, int n, int segment, double t) {
    double[] value = new double[3];
    for (int c = 0; c < 3; c++) {
      double a = points[3 * Math.max(0, segment - 1) + c];
      double b = points[3 * segment + c];
      double d = points[3 * (segment + 1) + c];
      double e = points[3 * Math.min(n - 1, segment + 2) + c];
      value[c] =
          0.5
              * (2 * b
                  + (d - a) * t
                  + (2 * a - 5 * b + 4 * d - e) * t * t
                  + (3 * b - a - 3 * d + e) * t * t * t);
    }
    value[2] = Math.max(0, value[2]);
    return value;
  }

  static String place(double x, double y) {
    return number(x) + " " + number(y);
  }

  /** A number with at most two decimals, as short as SVG allows. */
  static String number(double value) {
    long hundredths = Math.round(value * 100);
    long size = Math.abs(hundredths);
    long whole = size / 100;
    long rest = size % 100;
    StringBuilder text = new StringBuilder();
    if (hundredths < 0) {
      text.append('-');
    }
    if (whole > 0 || rest == 0) {
      text.append(whole);
    }
    if (rest > 0) {
      text.append('.').append(rest / 10);
      if (rest % 10 > 0) {
        text.append(rest % 10);
      }
    }
    return text.toString();
  }
}
