package phrasecensus.report.engraving;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import phrasecensus.report.engraving.Engraving.Run;
import phrasecensus.report.wording.FileText;

/**
 * A chord symbol as it is set: root large, its accidental and the kind raised and smaller, several
 * alterations one above the other, the bass after a stroke. Common practice, no source.
 *
 * @param runs to be set one after the other
 * @param width in staff spaces
 */
record ChordLabel(List<Run> runs, double width) {
  /** Sizes of type in staff spaces, as the style sheet has them. */
  static final double SIZE = 1.8;

  /** Chord symbols are set bold, which is wider. */
  private static final double BOLD = 1.1;

  private static final double SIGN = 1.6;
  private static final double SMALL = 1.3;
  private static final double STACKED = 1.2;
  private static final int RAISED = -6;
  private static final int UPPER = -13;
  private static final int LOWER = -2;

  /** Accidentals of roots stand a little raised. */
  private static final int ACCIDENTAL = -2;

  private static final int LONGEST_FREE_TEXT = 24;
  private static final Pattern PARTS =
      Pattern.compile(
          "([A-G])([\u266f\u266d]*)(m(?![a-z]))?((?:[^(/]|/9)*?(?:\\((?:maj7)\\))?)"
              + "(?:\\(([^)]*)\\))?"
              + "(?:/([A-G])([\u266f\u266d]*))?");

  ChordLabel {
    runs = List.copyOf(runs);
  }

  /**
   * Sets a symbol as tables have it, as in {@code B♭m7(♭5)/A♭}; other texts are set as they are.
   */
  static ChordLabel of(String symbol) {
    Matcher parts = PARTS.matcher(symbol);
    if (!parts.matches()) {
      String text = FileText.printable(symbol);
      if (text.length() > LONGEST_FREE_TEXT) {
        text = text.substring(0, LONGEST_FREE_TEXT - 1) + "\u2026";
      }
      return new ChordLabel(List.of(Run.plain(text)), TextWidth.of(text, SIZE));
    }
    Setter setter = new Setter();
    setter.plain(parts.group(1));
    setter.accidental(parts.group(2));
    if (parts.group(3) != null) {
      setter.small(parts.group(3), 0);
    }
    setter.small(parts.group(4), RAISED);
    if (parts.group(5) != null) {
      setter.alterations(List.of(parts.group(5).split(" ")));
    }
    if (parts.group(6) != null) {
      setter.plain("/" + parts.group(6));
      setter.accidental(parts.group(7));
    }
    return new ChordLabel(setter.runs, setter.width);
  }

  /** Sets one run after the other and keeps the height of the last one. */
  private static final class Setter {
    private final List<Run> runs = new ArrayList<>();
    private double width;
    private int height;
    private double owed;

    void plain(String text) {
      add("", 0, 0, text, SIZE);
    }

    void small(String text, int raised) {
      if (!text.isEmpty()) {
        add("small", 0, raised, text, SMALL);
      }
    }

    void accidental(String text) {
      if (!text.isEmpty()) {
        add("sign", 0, ACCIDENTAL, text, SIGN);
      }
    }

    void alterations(List<String> each) {
      if (each.size() == 1) {
        small("(" + each.get(0) + ")", RAISED);
        return;
      }
      // Two a pile, piles side by side, the upper one first.
      for (int i = 0; i < each.size(); i += 2) {
        String upper = each.get(i);
        add("stacked", 1, i + 1 < each.size() ? UPPER : RAISED, upper, STACKED);
        if (i + 1 < each.size()) {
          double back = TextWidth.of(upper, STACKED);
          double start = width - back * BOLD;
          add("stacked", -Ink.tenths(back), LOWER, each.get(i + 1), STACKED);
          owed = Math.max(0, start + back * BOLD - width);
        }
      }
    }

    private void add(String style, int dx, int raised, String text, double size) {
      int shift = dx + Ink.tenths(owed);
      owed = 0;
      runs.add(new Run(style, shift, raised - height, text));
      height = raised;
      width += shift / 10.0 + TextWidth.of(text, size) * BOLD;
    }
  }
}
