package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;

/** How far what is drawn reaches up and down, stretch by stretch; y grows downward. */
final class Skyline {
  private record Box(double left, double right, double top, double bottom) {}

  private final List<Box> boxes = new ArrayList<>();

  void add(double left, double top, double right, double bottom) {
    boxes.add(new Box(left, right, Math.min(top, bottom), Math.max(top, bottom)));
  }

  /** The highest of all that stands between two places; {@code otherwise} where that is higher. */
  double top(double left, double right, double otherwise) {
    double top = otherwise;
    for (Box box : boxes) {
      if (box.left < right && box.right > left) {
        top = Math.min(top, box.top);
      }
    }
    return top;
  }

  /** The lowest of all that stands between two places; {@code otherwise} where that is lower. */
  double bottom(double left, double right, double otherwise) {
    double bottom = otherwise;
    for (Box box : boxes) {
      if (box.left < right && box.right > left) {
        bottom = Math.max(bottom, box.bottom);
      }
    }
    return bottom;
  }

  double top() {
    return top(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, 0);
  }

  double bottom() {
    return bottom(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, 0);
  }
}
