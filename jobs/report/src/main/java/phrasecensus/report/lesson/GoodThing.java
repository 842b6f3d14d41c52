package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.rows.SoloLine;

/**
 * Something that goes well in a solo: true, particular, about a choice.
 *
 * @param kind what it is
 * @param places numbers of the bars, or names of notes, that its sentence speaks of
 */
public record GoodThing(Kind kind, List<String> places) {

  /** What can be said. */
  public enum Kind {
    /** A phrase rests on the third. Bar. */
    THIRD,
    /** Two phrases share a rhythm. Bar, bar. */
    SAME_RHYTHM,
    /** A phrase of one and a half to four bars with a breath after it. First and last bar. */
    WHOLE_THOUGHT,
    /** A note outside the key moves on by a half step to a chord tone. Note, bar. */
    LED_ON,
    /** An entry off the beat after a breath. Bar. */
    OFF_BEAT_ENTRY,
    /** A phrase rests on 1 3 5 7. Bar. */
    GOOD_REST,
    /** The first note is home. Note. */
    STARTS_AT_HOME,
    /** Nothing but that there is a first note. Note. */
    FIRST_NOTE,
    /** A file without notes. */
    FILE
  }

  private static final int FEWEST_NOTES = 4;
  private static final double LONGEST_THOUGHT = 4;
  private static final double SHORTEST_THOUGHT = 1.5;

  public GoodThing {
    places = List.copyOf(places);
  }

  /**
   * One good thing about a solo; where there are several, they take turns.
   *
   * @param home the home note; null when unknown
   * @param turn number of the solo
   */
  public static GoodThing of(LessonLine line, String home, int turn) {
    List<GoodThing> all = new ArrayList<>();
    third(line, all);
    sameRhythm(line, all);
    wholeThought(line, all);
    ledOn(line, all);
    if (all.isEmpty()) {
      offBeatEntry(line, all);
      goodRest(line, all);
    }
    if (!all.isEmpty()) {
      return all.get(Math.floorMod(turn, all.size()));
    }
    if (line.solo().notes().isEmpty()) {
      return new GoodThing(Kind.FILE, List.of());
    }
    SoloLine.Tone first = line.solo().notes().get(0);
    String name = Home.name(first.nameWritten()).toString();
    return new GoodThing(name.equals(home) ? Kind.STARTS_AT_HOME : Kind.FIRST_NOTE, List.of(name));
  }

  private static void third(LessonLine line, List<GoodThing> all) {
    for (Stretch stretch : line.stretches()) {
      SoloLine.Resting resting = stretch.last().resting();
      if (resting != null
          && Boolean.TRUE.equals(resting.onChordTone())
          && List.of("3", "b3").contains(String.valueOf(resting.degree()))) {
        all.add(new GoodThing(Kind.THIRD, List.of(line.bar(stretch.last()))));
        return;
      }
    }
  }

  private static void goodRest(LessonLine line, List<GoodThing> all) {
    for (SoloLine.Tone note : line.resting()) {
      if (Boolean.TRUE.equals(note.resting().onChordTone())) {
        all.add(new GoodThing(Kind.GOOD_REST, List.of(line.bar(note))));
        return;
      }
    }
  }

  private static void sameRhythm(LessonLine line, List<GoodThing> all) {
    for (int i = 0; i < line.stretches().size(); i++) {
      for (int k = i + 1; k < line.stretches().size(); k++) {
        Stretch one = line.stretches().get(i);
        Stretch other = line.stretches().get(k);
        if (one.notes().size() >= FEWEST_NOTES
            && one.bars() >= LessonLine.SHORTEST_PHRASE - 1e-9
            && rhythm(one).equals(rhythm(other))) {
          all.add(new GoodThing(Kind.SAME_RHYTHM, List.of(one.firstBar(), other.firstBar())));
          return;
        }
      }
    }
  }

  private static List<String> rhythm(Stretch stretch) {
    List<String> rhythm = new ArrayList<>();
    for (SoloLine.Tone note : stretch.notes()) {
      rhythm.add(note.exactOnset().minus(stretch.first().exactOnset()) + " " + note.exactLength());
    }
    return rhythm;
  }

  private static void wholeThought(LessonLine line, List<GoodThing> all) {
    for (int i = 0; i + 1 < line.stretches().size(); i++) {
      Stretch stretch = line.stretches().get(i);
      if (stretch.bars() >= SHORTEST_THOUGHT - 1e-9
          && stretch.bars() <= LONGEST_THOUGHT + 1e-9
          && stretch.notes().size() >= FEWEST_NOTES) {
        all.add(new GoodThing(Kind.WHOLE_THOUGHT, List.of(stretch.firstBar(), stretch.lastBar())));
        return;
      }
    }
  }

  private static void ledOn(LessonLine line, List<GoodThing> all) {
    List<SoloLine.Tone> notes = line.solo().notes();
    for (int i = 0; i + 1 < notes.size(); i++) {
      SoloLine.Tone note = notes.get(i);
      SoloLine.Tone next = notes.get(i + 1);
      if (note.isOutsideKey()
          && note.stretch() == next.stretch()
          && Math.abs(next.midiWritten() - note.midiWritten()) == 1
          && next.isCoreChordTone()) {
        all.add(
            new GoodThing(
                Kind.LED_ON, List.of(Home.name(note.nameWritten()).toString(), line.bar(note))));
        return;
      }
    }
  }

  private static void offBeatEntry(LessonLine line, List<GoodThing> all) {
    for (int i = 1; i < line.stretches().size(); i++) {
      SoloLine.Tone first = line.stretches().get(i).first();
      if (first.exactOnset().denominator() == 2) {
        all.add(new GoodThing(Kind.OFF_BEAT_ENTRY, List.of(line.bar(first))));
        return;
      }
    }
  }
}
