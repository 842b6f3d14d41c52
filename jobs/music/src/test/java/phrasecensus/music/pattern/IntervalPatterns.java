package phrasecensus.music.pattern;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;

/**
 * Where each run of {@code n} successive intervals occurs in a solo: figures that do not depend on
 * transposition and never cross the end of a phrase. A window recurs when its pattern occurs at
 * least twice. The share of windows that recur grows with the amount of music, so it compares only
 * between equal amounts. Plain lists and no packing: what faster counts are held against.
 */
public final class IntervalPatterns {
  private final int length;
  private final Map<IntervalPattern, List<Place>> places;
  private final int windows;
  private final int recurring;

  /**
   * Where a pattern begins.
   *
   * @param phraseIndex the phrase
   * @param noteInPhrase its first note, from 0 in the phrase
   */
  public record Place(int phraseIndex, int noteInPhrase) {}

  private IntervalPatterns(int length, Map<IntervalPattern, List<Place>> places) {
    this.length = length;
    this.places = places;
    int all = 0;
    int again = 0;
    for (List<Place> found : places.values()) {
      all += found.size();
      again += found.size() > 1 ? found.size() : 0;
    }
    this.windows = all;
    this.recurring = again;
  }

  /**
   * The patterns of a length by pitch alone.
   *
   * @param length intervals in a pattern, at least 1; 3 to 8 are usual
   * @throws IllegalArgumentException if {@code length} is below 1
   */
  public static IntervalPatterns byPitch(SoloAnalysis analysis, int length) {
    List<int[]> runs = new ArrayList<>();
    for (Phrase phrase : analysis.phrases()) {
      runs.add(intervals(analysis.solo().notes(), phrase));
    }
    return byPitch(runs, length);
  }

  /**
   * The same from intervals.
   *
   * @param runs intervals in semitones, upwards positive, one run a phrase
   */
  public static IntervalPatterns byPitch(List<int[]> runs, int length) {
    return find(runs, null, length);
  }

  /**
   * The patterns of a length by pitch and rhythm: the ratios of successive onset gaps must be equal
   * too, exactly. Otherwise as {@link #byPitch(SoloAnalysis, int)}.
   */
  public static IntervalPatterns byPitchAndRhythm(SoloAnalysis analysis, int length) {
    List<int[]> runs = new ArrayList<>();
    List<Fraction[]> ratios = new ArrayList<>();
    for (Phrase phrase : analysis.phrases()) {
      runs.add(intervals(analysis.solo().notes(), phrase));
      ratios.add(gapRatios(analysis.solo().notes(), phrase));
    }
    return find(runs, ratios, length);
  }

  private static int[] intervals(List<Note> notes, Phrase phrase) {
    int[] intervals = new int[phrase.noteCount() - 1];
    for (int i = 0; i < intervals.length; i++) {
      int note = phrase.firstNote() + i;
      intervals[i] = notes.get(note + 1).midi() - notes.get(note).midi();
    }
    return intervals;
  }

  /** Each onset gap over the one before: one fewer than intervals. */
  private static Fraction[] gapRatios(List<Note> notes, Phrase phrase) {
    Fraction[] ratios = new Fraction[Math.max(0, phrase.noteCount() - 2)];
    Fraction gap = null;
    for (int note = phrase.firstNote(); note < phrase.lastNote(); note++) {
      Fraction next = notes.get(note + 1).onset().minus(notes.get(note).onset());
      if (gap != null) {
        ratios[note - phrase.firstNote() - 1] = next.dividedBy(gap);
      }
      gap = next;
    }
    return ratios;
  }

  private static IntervalPatterns find(List<int[]> runs, List<Fraction[]> ratios, int length) {
    if (length < 1) {
      throw new IllegalArgumentException("Invalid pattern length: " + length);
    }
    Map<IntervalPattern, List<Place>> places = new LinkedHashMap<>();
    for (int run = 0; run < runs.size(); run++) {
      int[] intervals = runs.get(run);
      for (int start = 0; start + length <= intervals.length; start++) {
        List<Integer> figure = new ArrayList<>(length);
        List<Fraction> pace = new ArrayList<>(ratios == null ? 0 : length);
        for (int i = start; i < start + length; i++) {
          figure.add(intervals[i]);
          if (ratios != null && i > start) {
            pace.add(ratios.get(run)[i - 1]);
          }
        }
        places
            .computeIfAbsent(new IntervalPattern(figure, pace), p -> new ArrayList<>(1))
            .add(new Place(run, start));
      }
    }
    return new IntervalPatterns(length, places);
  }

  /** The same without {@linkplain IntervalPattern#isRunOrRepetition() runs and repetitions}. */
  public IntervalPatterns withoutRunsAndRepetitions() {
    Map<IntervalPattern, List<Place>> kept = new LinkedHashMap<>();
    places.forEach(
        (pattern, found) -> {
          if (!pattern.isRunOrRepetition()) {
            kept.put(pattern, found);
          }
        });
    return new IntervalPatterns(length, kept);
  }

  /** Intervals in a pattern. */
  public int length() {
    return length;
  }

  /** Windows looked at. */
  public int windows() {
    return windows;
  }

  /** Windows whose pattern occurs at least twice. */
  public int recurringWindows() {
    return recurring;
  }

  /** The patterns in order of first occurrence, each with its places in order. */
  public Map<IntervalPattern, List<Place>> places() {
    return Collections.unmodifiableMap(places);
  }
}
