package phrasecensus.music.form;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.harmony.ChorusFinder;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.ChorusFinder.Source;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Solo;

/**
 * The form under a solo, bar by bar.
 *
 * <p>Choruses are those of {@link ChorusFinder}. They count from 1; a chorus that the solo enters
 * after its first bar counts, an introduction and a pickup do not belong to any.
 *
 * <p>A section begins at each rehearsal mark and at each chorus. Without rehearsal marks double bar
 * lines part sections; without those a twelve-bar blues is one section a chorus, and in other tunes
 * sections are unknown. What stands before the first of them is in none, an introduction is one.
 * Bars count from 1; both parts of a bar that is written in two are one bar. All of this is common
 * practice, no source.
 */
public final class SoloForm {
  /** Where no bar is counted. */
  public static final int UNKNOWN = 0;

  private final Optional<Choruses> choruses;
  private final int[] chorus;
  private final int[] barInChorus;
  private final int[] section;
  private final int[] barInSection;
  private final String[] sectionName;

  private SoloForm(Optional<Choruses> choruses, int bars) {
    this.choruses = choruses;
    this.chorus = new int[bars];
    this.barInChorus = new int[bars];
    this.section = new int[bars];
    this.barInSection = new int[bars];
    this.sectionName = new String[bars];
  }

  /** The form of a solo; linear in bars and marks. */
  public static SoloForm of(Solo solo) {
    return of(solo, ChorusFinder.find(solo));
  }

  /**
   * The form of a solo.
   *
   * @param choruses what {@link ChorusFinder} finds
   */
  public static SoloForm of(Solo solo, Optional<Choruses> choruses) {
    List<Bar> bars = solo.bars();
    SoloForm form = new SoloForm(choruses, bars.size());
    boolean[] chorusBegins = chorusBegins(bars, choruses);
    String[] marks = marksAtBars(solo, Mark.Kind.REHEARSAL);
    form.fillSections(bars, chorusBegins, marks, marksAtBars(solo, Mark.Kind.DOUBLE_BAR));
    form.fillChoruses(bars, chorusBegins, marks);
    return form;
  }

  private static boolean[] chorusBegins(List<Bar> bars, Optional<Choruses> choruses) {
    boolean[] begins = new boolean[bars.size()];
    int next = 0;
    for (int i = 0; choruses.isPresent() && i < begins.length; i++) {
      if (next < choruses.get().onsets().size()
          && bars.get(i).onset().equals(choruses.get().onsets().get(next))
          && isFull(bars.get(i))) {
        begins[i] = true;
        next++;
      }
    }
    return begins;
  }

  private static boolean isFull(Bar bar) {
    return !bar.pickup() && bar.metricalOffset().isZero();
  }

  /** Text of the first mark in each bar, at the full bar after a pickup; null where none stands. */
  private static String[] marksAtBars(Solo solo, Mark.Kind kind) {
    List<Bar> bars = solo.bars();
    String[] texts = new String[bars.size()];
    int bar = 0;
    for (Mark mark : solo.marks()) {
      if (mark.kind() != kind || mark.onset().compareTo(solo.length()) >= 0) {
        continue;
      }
      while (bar + 1 < bars.size() && !bars.get(bar + 1).onset().isAfter(mark.onset())) {
        bar++;
      }
      int at = bars.get(bar).pickup() && bar + 1 < bars.size() ? bar + 1 : bar;
      texts[at] = texts[at] == null ? mark.text() : texts[at];
    }
    return texts;
  }

  private void fillSections(
      List<Bar> bars, boolean[] chorusBegins, String[] marks, String[] doubleBars) {
    boolean marked = Arrays.stream(marks).anyMatch(text -> text != null);
    boolean parted = !marked && innerDoubleBar(bars, doubleBars);
    boolean blues = choruses.isPresent() && choruses.get().source() == Source.BLUES;
    if (!marked && !parted && !blues) {
      return;
    }
    int number = 0;
    int count = 0;
    String name = null;
    for (int i = 0; i < section.length; i++) {
      boolean full = isFull(bars.get(i));
      boolean begins =
          marks[i] != null
              || chorusBegins[i] && number > 0
              || parted && full && (number == 0 || doubleBars[i] != null)
              || !marked && !parted && chorusBegins[i];
      if (begins) {
        number++;
        count = 0;
        name = marks[i] != null ? marks[i] : name;
      }
      count += full || begins ? 1 : 0;
      section[i] = number;
      barInSection[i] = number == 0 ? UNKNOWN : count;
      sectionName[i] = name;
    }
  }

  private static boolean innerDoubleBar(List<Bar> bars, String[] doubleBars) {
    for (int i = 1; i < doubleBars.length; i++) {
      if (doubleBars[i] != null && !bars.get(i - 1).pickup()) {
        return true;
      }
    }
    return false;
  }

  private void fillChoruses(List<Bar> bars, boolean[] chorusBegins, String[] marks) {
    if (choruses.isEmpty()) {
      return;
    }
    int first = 0;
    while (!chorusBegins[first]) {
      first++;
    }
    boolean marked = Arrays.stream(marks).anyMatch(text -> text != null);
    int before = 0;
    for (int i = first - 1; i >= 0 && isEntered(bars.get(i), i, marked); i--) {
      barInChorus[i] = choruses.get().bars() - before;
      before += isFull(bars.get(i)) ? 1 : 0;
      chorus[i] = 1;
    }
    int number = before > 0 ? 1 : 0;
    int count = 0;
    for (int i = first; i < chorus.length; i++) {
      if (chorusBegins[i]) {
        number++;
        count = 0;
      }
      count += isFull(bars.get(i)) ? 1 : 0;
      chorus[i] = number;
      barInChorus[i] = count;
    }
  }

  /** True for a bar before the first beginning of a chorus that belongs to an earlier one. */
  private boolean isEntered(Bar bar, int index, boolean marked) {
    return !bar.pickup()
        && (marked
            ? sectionName[index] != null && !ChorusFinder.isIntroduction(sectionName[index])
            : true);
  }

  /** The choruses, if the chords tell them. */
  public Optional<Choruses> choruses() {
    return choruses;
  }

  /**
   * Number of the chorus from 1; {@link #UNKNOWN} for a bar in none.
   *
   * @param bar index of a bar of the solo
   */
  public int chorus(int bar) {
    return chorus[bar];
  }

  /** Number of a bar in its chorus from 1; {@link #UNKNOWN} for a bar in none. */
  public int barInChorus(int bar) {
    return barInChorus[bar];
  }

  /** Number of the section in the solo from 1; {@link #UNKNOWN} for a bar in none. */
  public int section(int bar) {
    return section[bar];
  }

  /** Number of a bar in its section from 1; {@link #UNKNOWN} for a bar in none. */
  public int barInSection(int bar) {
    return barInSection[bar];
  }

  /** The text of the section's rehearsal mark; null without one. */
  public String sectionName(int bar) {
    return sectionName[bar];
  }

  /**
   * Number of a bar in its group of four from 1 to 4: groups count from the section, without
   * sections from the chorus; {@link #UNKNOWN} without both.
   */
  public int barInGroupOfFour(int bar) {
    int place = barInSection[bar] != UNKNOWN ? barInSection[bar] : barInChorus[bar];
    return place == UNKNOWN ? UNKNOWN : (place - 1) % 4 + 1;
  }

  /** The next bar that begins at a bar line; the number of bars when there is none. */
  public static int nextFullBar(Solo solo, int bar) {
    int next = bar + 1;
    while (next < solo.bars().size() && !isFull(solo.bars().get(next))) {
      next++;
    }
    return next;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof SoloForm form
        && choruses.equals(form.choruses)
        && Arrays.equals(chorus, form.chorus)
        && Arrays.equals(barInChorus, form.barInChorus)
        && Arrays.equals(section, form.section)
        && Arrays.equals(barInSection, form.barInSection)
        && Arrays.equals(sectionName, form.sectionName);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(barInChorus) + Arrays.hashCode(barInSection);
  }
}
