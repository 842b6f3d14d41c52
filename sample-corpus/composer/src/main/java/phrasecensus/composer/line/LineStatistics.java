package phrasecensus.composer.line;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import phrasecensus.composer.tune.Tune;

/**
 * Figures on a solo, counted on the composer's own values, to hold the corpus against published
 * ones. Shares are from 0 to 1; rounded doubles.
 *
 * @param phrases phrases, parted by silences of a beat or more
 * @param medianPhraseBars median phrase length, first onset to end of last tone, in bars
 * @param landingShare phrase ends on a core chord tone (tones without a chord left out)
 * @param chordToneShare tones that are core chord tones
 * @param stepShare intervals of one or two semitones inside phrases
 * @param repeatShare repeated tones inside phrases
 * @param leapShare intervals of five semitones or more inside phrases
 * @param offbeatStartShare phrases that begin off the beat
 * @param eighthShare tones that last an eighth
 * @param tonesPerBar tones per bar
 * @param soundingShare sounding time over all time
 * @param semitones range from lowest to highest tone
 * @param longestSeconds longest phrase in seconds
 */
public record LineStatistics(
    int phrases,
    double medianPhraseBars,
    double landingShare,
    double chordToneShare,
    double stepShare,
    double repeatShare,
    double leapShare,
    double offbeatStartShare,
    double eighthShare,
    double tonesPerBar,
    double soundingShare,
    int semitones,
    double longestSeconds) {
  private static final int BEAT = Tune.QUARTER;

  /** Counts a solo with at least one tone. */
  public static LineStatistics of(Solo solo) {
    List<List<Tone>> phrases = phrases(solo.tones());
    List<Double> lengths = new ArrayList<>();
    int landings = 0;
    int onChord = 0;
    int intervals = 0;
    int steps = 0;
    int repeats = 0;
    int leaps = 0;
    int offbeat = 0;
    double longest = 0;
    for (List<Tone> phrase : phrases) {
      Tone first = phrase.get(0);
      Tone last = phrase.get(phrase.size() - 1);
      double bars = (last.end() - first.onset()) / (double) solo.tune().barTicks();
      lengths.add(bars);
      longest = Math.max(longest, bars * solo.tune().beats() * 60 / solo.tempo());
      offbeat += Math.floorMod(first.onset(), BEAT) == 0 ? 0 : 1;
      Changes.Span span = solo.changes().of(last.onset(), last.length());
      if (!span.chord().core().isEmpty()) {
        landings++;
        onChord += isChordTone(span, last) ? 1 : 0;
      }
      for (int i = 1; i < phrase.size(); i++) {
        int wide = Math.abs(phrase.get(i).midi() - phrase.get(i - 1).midi());
        intervals++;
        steps += wide == 1 || wide == 2 ? 1 : 0;
        repeats += wide == 0 ? 1 : 0;
        leaps += wide >= 5 ? 1 : 0;
      }
    }
    int judged = 0;
    int chordTones = 0;
    int eighths = 0;
    long sounding = 0;
    int low = Integer.MAX_VALUE;
    int high = Integer.MIN_VALUE;
    for (Tone tone : solo.tones()) {
      Changes.Span span = solo.changes().of(tone.onset(), tone.length());
      if (!span.chord().core().isEmpty()) {
        judged++;
        chordTones += isChordTone(span, tone) ? 1 : 0;
      }
      eighths += tone.length() == BEAT / 2 ? 1 : 0;
      sounding += tone.length();
      low = Math.min(low, tone.midi());
      high = Math.max(high, tone.midi());
    }
    Collections.sort(lengths);
    int middle = lengths.size() / 2;
    double median =
        lengths.size() % 2 == 1
            ? lengths.get(middle)
            : (lengths.get(middle - 1) + lengths.get(middle)) / 2;
    double tones = solo.tones().size();
    return new LineStatistics(
        phrases.size(),
        median,
        onChord / (double) Math.max(1, landings),
        chordTones / (double) Math.max(1, judged),
        steps / (double) Math.max(1, intervals),
        repeats / (double) Math.max(1, intervals),
        leaps / (double) Math.max(1, intervals),
        offbeat / (double) phrases.size(),
        eighths / tones,
        tones / solo.bars(),
        sounding / (double) (solo.pickup() + solo.changes().end()),
        high - low,
        longest);
  }

  /** Tones parted by silences of at least a beat. */
  public static List<List<Tone>> phrases(List<Tone> tones) {
    List<List<Tone>> phrases = new ArrayList<>();
    Tone before = null;
    for (Tone tone : tones) {
      if (before == null || tone.onset() - before.end() >= BEAT) {
        phrases.add(new ArrayList<>());
      }
      phrases.get(phrases.size() - 1).add(tone);
      before = tone;
    }
    return phrases;
  }

  /** True when the tone is a core chord tone of the chord as written. */
  private static boolean isChordTone(Changes.Span span, Tone tone) {
    return span.chord().holds(Math.floorMod(tone.midi(), 12));
  }
}
