package phrasecensus.report.picture;

import phrasecensus.report.wording.FileText;

/** One thing drawn in a {@link Picture}. The style is the name of a class of the style sheet. */
public sealed interface Mark {

  /** A filled or outlined rectangle. */
  record Area(String x, String y, String width, String height, String style) implements Mark {}

  /** A straight line. */
  record Rule(String x1, String y1, String x2, String y2, String style) implements Mark {}

  /**
   * Words.
   *
   * @param anchor start, middle or end: which part of the words stands at {@code x}
   * @param shift pixels to the right of {@code x}
   */
  record Words(String x, String y, String shift, String anchor, String text, String style)
      implements Mark {}

  /** A shape of the page's stock, centred on a point. */
  record Sign(String x, String y, String shape, String style) implements Mark {}

  /** A rectangle; {@code left} and {@code right} are shares of the width. */
  static Mark area(double left, double right, double top, double height, String style) {
    return new Area(
        across(left), down(top), across(Math.max(0, right - left)), down(height), style);
  }

  /** A level line. */
  static Mark level(double left, double right, double y, String style) {
    return new Rule(across(left), down(y), across(right), down(y), style);
  }

  /** An upright line. */
  static Mark upright(double x, double top, double bottom, String style) {
    return new Rule(across(x), down(top), across(x), down(bottom), style);
  }

  /** A line between two points. */
  static Mark line(double x1, double y1, double x2, double y2, String style) {
    return new Rule(across(x1), down(y1), across(x2), down(y2), style);
  }

  /** A shape: {@code circle}, {@code diamond}, {@code square}, {@code triangle}. */
  static Mark sign(double x, double y, String shape, String style) {
    return new Sign(across(x), down(y), shape, style);
  }

  /** Words that start at a place. */
  static Mark words(double x, double y, String text, String style) {
    return anchored(x, y, 0, "start", text, style);
  }

  /** Words centred on a place, kept inside the picture near its edges. */
  static Mark centred(double x, double y, String text, String style) {
    String anchor = x < 0.08 ? "start" : x > 0.92 ? "end" : "middle";
    return anchored(x, y, 0, anchor, text, style);
  }

  /** Words beside a mark, on the side where there is more room. */
  static Mark beside(double x, double y, double gap, String text, String style) {
    return x < 0.5
        ? anchored(x, y, gap, "start", text, style)
        : anchored(x, y, -gap, "end", text, style);
  }

  /** Words with a stated anchor. */
  static Mark anchored(double x, double y, double shift, String anchor, String text, String style) {
    return new Words(
        across(x), down(y), down(shift), anchor, FileText.withoutDirection(text), style);
  }

  /** A share of the width as SVG wants it, to a hundredth of a percent. */
  static String across(double share) {
    return hundredths(Math.round(share * 10_000)) + "%";
  }

  /** Pixels to a tenth. */
  static String down(double pixels) {
    return hundredths(Math.round(pixels * 10) * 10);
  }

  private static String hundredths(long number) {
    String sign = number < 0 ? "-" : "";
    long size = Math.abs(number);
    String whole = sign + size / 100;
    long rest = size % 100;
    if (rest == 0) {
      return whole;
    }
    return whole
        + "."
        + (rest % 10 == 0
            ? String.valueOf(rest / 10)
            : rest < 10 ? "0" + rest : String.valueOf(rest));
  }
}
