package phrasecensus.composer.score;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import phrasecensus.composer.line.Tone;
import phrasecensus.composer.tune.Tune;

/**
 * Cuts tones into written notes, bar by bar: values that exist, triplets in their groups, and the
 * middle of the bar visible where reading asks for it. Common practice, no source.
 */
final class BarLayout {
  private static final int BEAT = Tune.QUARTER;

  private BarLayout() {}

  /**
   * The written notes and rests of one bar.
   *
   * @param tones tones of the whole line, in order
   * @param barStart first tick of the bar
   * @param barLength its ticks
   * @param cuts ticks from the bar's start where no note may run on, such as chord changes
   */
  static List<Piece> pieces(List<Tone> tones, int barStart, int barLength, List<Integer> cuts) {
    List<int[]> segments = new ArrayList<>();
    List<Tone> owners = new ArrayList<>();
    int at = 0;
    for (Tone tone : tones) {
      int from = Math.max(0, tone.onset() - barStart);
      int to = Math.min(barLength, tone.end() - barStart);
      if (from >= to) {
        continue;
      }
      if (from > at) {
        segments.add(new int[] {at, from});
        owners.add(null);
      }
      segments.add(new int[] {from, to});
      owners.add(tone);
      at = to;
    }
    if (at < barLength) {
      segments.add(new int[] {at, barLength});
      owners.add(null);
    }
    TreeSet<Integer> borders = new TreeSet<>();
    for (int[] segment : segments) {
      borders.add(segment[0]);
      borders.add(segment[1]);
    }
    List<Piece.Triplet> triplets = triplets(borders, barLength);
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < segments.size(); i++) {
      Tone tone = owners.get(i);
      for (Piece cut :
          cut(segments.get(i)[0], segments.get(i)[1], tone, triplets, cuts, barLength)) {
        boolean stop = tone != null && barStart + cut.start() > tone.onset();
        boolean start = tone != null && barStart + cut.end() < tone.end();
        pieces.add(new Piece(cut.start(), cut.length(), tone, stop, start, cut.tuplet()));
      }
    }
    return pieces;
  }

  private static List<Piece.Triplet> triplets(TreeSet<Integer> borders, int barLength) {
    List<Piece.Triplet> triplets = new ArrayList<>();
    int beat = 0;
    while (beat < barLength) {
      boolean overTwo =
          beat + 2 * BEAT <= barLength
              && borders.contains(beat + 16)
              && borders.contains(beat + 32)
              && !borders.contains(beat + BEAT);
      if (overTwo) {
        triplets.add(new Piece.Triplet(beat, beat + 2 * BEAT));
        beat += 2 * BEAT;
        continue;
      }
      if (borders.contains(beat + 4)) {
        triplets.add(new Piece.Triplet(beat, beat + BEAT / 2));
      } else if (borders.contains(beat + 8) || borders.contains(beat + 16)) {
        triplets.add(new Piece.Triplet(beat, beat + BEAT));
      }
      beat += BEAT;
    }
    return triplets;
  }

  private static List<Piece> cut(
      int from,
      int to,
      Tone tone,
      List<Piece.Triplet> triplets,
      List<Integer> cuts,
      int barLength) {
    List<Piece> pieces = new ArrayList<>();
    int at = from;
    while (at < to) {
      Piece.Triplet inside = null;
      int limit = to;
      for (Piece.Triplet triplet : triplets) {
        if (triplet.start() <= at && at < triplet.end()) {
          inside = triplet;
        } else if (triplet.start() > at) {
          limit = Math.min(limit, triplet.start());
        }
      }
      if (inside != null) {
        int end = Math.min(to, inside.end());
        pieces.add(new Piece(at, end - at, tone, false, false, inside));
        at = end;
        continue;
      }
      for (int cut : cuts) {
        if (cut > at) {
          limit = Math.min(limit, cut);
        }
      }
      int end = plainEnd(at, limit, tone == null, barLength);
      pieces.add(new Piece(at, end - at, tone, false, false, null));
      at = end;
    }
    return pieces;
  }

  /** Where the first written value of a stretch ends. */
  private static int plainEnd(int from, int to, boolean rest, int barLength) {
    if (rest && from == 0 && to == barLength) {
      return to;
    }
    int end = to;
    while (!allowed(from, end - from, rest, barLength)) {
      end = split(from, end, barLength);
    }
    return end;
  }

  private static int split(int from, int to, int barLength) {
    int middle = 2 * BEAT;
    if (barLength == 4 * BEAT && from < middle && middle < to) {
      return middle;
    }
    for (int grid = BEAT; grid > 1; grid /= 2) {
      int next = (from / grid + 1) * grid;
      int before = (to - 1) / grid * grid;
      if (next < to) {
        return from % grid == 0 ? before : next;
      }
    }
    throw new IllegalStateException("Cannot write a note from tick " + from + " to " + to);
  }

  private static boolean allowed(int from, int length, boolean rest, int barLength) {
    boolean four = barLength == 4 * BEAT;
    boolean onBeat = from % BEAT == 0;
    boolean halfBeat = from % BEAT == BEAT / 2;
    boolean overMiddle = four && from < 2 * BEAT && from + length > 2 * BEAT;
    return switch (length) {
      case 96 -> from == 0;
      case 72 -> !rest && onBeat;
      case 48 -> onBeat && (!rest || four && from % 48 == 0);
      case 36 -> !rest && !overMiddle && (onBeat || halfBeat);
      case 24 -> onBeat || !rest && halfBeat && !overMiddle;
      case 18 -> !rest && (onBeat || from % BEAT == 6);
      case 12 -> onBeat || halfBeat || !rest && from % BEAT == 6;
      case 6 -> from % 6 == 0;
      default -> false;
    };
  }
}
