package phrasecensus.readers.musicxml;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import phrasecensus.readers.Limit;
import phrasecensus.readers.Refusal;

/**
 * The order in which bars are played: repeats, endings and jumps, as MusicXML 4.0 defines {@code
 * repeat}, {@code ending} and {@code sound}. A repeat without a start goes back to the end of the
 * last repeat or to the beginning; repeats are not taken again after a jump unless the file says
 * so, and of several endings the last one is played then (common practice, no source).
 */
final class PlayOrder {
  /** A bar on one of its visits; visits count from 1. */
  record Visit(int bar, int number) {}

  private record Ending(int first, int last, List<Integer> passes, int mostPasses) {}

  private static final class Frame {
    int start;
    int pass = 1;

    /** True when a sign starts it, not only the beginning or the end of another repeat. */
    boolean signed;

    Frame(int start) {
      this.start = start;
    }
  }

  private final List<BarSigns> signs;
  private final long mostBars;
  private final Ending[] endings;
  private final int[] visits;
  private final boolean[] jumpTaken;
  private final boolean[] codaTaken;
  private final List<Visit> order = new ArrayList<>();
  private final Deque<Frame> repeats = new ArrayDeque<>();
  private boolean jumped;

  private PlayOrder(List<BarSigns> signs, long mostBars) {
    this.signs = signs;
    this.mostBars = mostBars;
    this.endings = endings(signs);
    this.visits = new int[signs.size()];
    this.jumpTaken = new boolean[signs.size()];
    this.codaTaken = new boolean[signs.size()];
  }

  /**
   * The bars in the order of playing.
   *
   * @throws Refusal if there are more than {@code mostBars}
   */
  static List<Visit> of(List<BarSigns> signs, long mostBars) {
    PlayOrder order = new PlayOrder(signs, mostBars);
    order.walk();
    return order.order;
  }

  /** True when some jump is written that only its words tell. */
  static boolean hasJumpWordsOnly(List<BarSigns> signs) {
    return signs.stream().noneMatch(s -> s.dacapo() || !s.dalsegno().isEmpty())
        && signs.stream()
            .flatMap(s -> s.words().stream())
            .anyMatch(w -> JumpWords.isDacapo(w) || JumpWords.isDalsegno(w));
  }

  /** The signs with usual words and printed signs put in the place of missing playback data. */
  static List<BarSigns> withWords(List<BarSigns> signs) {
    int lastCoda = -1;
    for (int i = 0; i < signs.size(); i++) {
      if (signs.get(i).codaSign()) {
        lastCoda = i;
      }
    }
    List<BarSigns> read = new ArrayList<>();
    for (int i = 0; i < signs.size(); i++) {
      BarSigns bar = signs.get(i);
      List<String> words = bar.words();
      boolean toCoda =
          bar.codaSign() && i < lastCoda || words.stream().anyMatch(JumpWords::isToCoda);
      read.add(
          new BarSigns(
              bar.forwardRepeat(),
              bar.backwardRepeat(),
              bar.times(),
              bar.afterJump(),
              bar.endingStart(),
              bar.endingStop(),
              words.stream().anyMatch(JumpWords::isDacapo),
              words.stream().anyMatch(JumpWords::isDalsegno) ? "segno" : "",
              bar.segnoSign() ? "segno" : bar.segno(),
              toCoda ? "coda" : bar.tocoda(),
              bar.codaSign() && i == lastCoda && lastCoda > 0 ? "coda" : bar.coda(),
              bar.fine() || words.stream().anyMatch(JumpWords::isFine),
              bar.jumpPasses(),
              words,
              bar.segnoSign(),
              bar.codaSign()));
    }
    return read;
  }

  private static Ending[] endings(List<BarSigns> signs) {
    List<Ending> found = new ArrayList<>();
    for (int first = 0; first < signs.size(); first++) {
      if (!signs.get(first).endingStart().isEmpty()) {
        int last = first;
        while (last < signs.size() - 1
            && !signs.get(last).endingStop()
            && signs.get(last + 1).endingStart().isEmpty()) {
          last++;
        }
        found.add(new Ending(first, last, signs.get(first).endingStart(), 0));
        first = last;
      }
    }
    Ending[] at = new Ending[signs.size()];
    for (int i = 0; i < found.size(); ) {
      int end = i + 1;
      while (end < found.size() && found.get(end).first() == found.get(end - 1).last() + 1) {
        end++;
      }
      int most =
          found.subList(i, end).stream()
              .flatMap(e -> e.passes().stream())
              .mapToInt(Integer::intValue)
              .max()
              .orElse(1);
      for (; i < end; i++) {
        Ending e = found.get(i);
        for (int bar = e.first(); bar <= e.last(); bar++) {
          at[bar] = new Ending(e.first(), e.last(), e.passes(), most);
        }
      }
    }
    return at;
  }

  private void walk() {
    repeats.push(new Frame(0));
    int bar = 0;
    while (bar < signs.size()) {
      BarSigns here = signs.get(bar);
      if (here.forwardRepeat()) {
        if (repeats.peek().start != bar) {
          repeats.push(new Frame(bar));
        }
        repeats.peek().signed = true;
      }
      Ending ending = endings[bar];
      if (ending != null && ending.first() == bar) {
        int pass = jumped ? ending.mostPasses() : repeats.peek().pass;
        if (!ending.passes().contains(pass)) {
          bar = ending.last() + 1;
          continue;
        }
      }
      if (order.size() >= mostBars) {
        throw Refusal.beyond(Limit.UNFOLDED_BARS, mostBars);
      }
      order.add(new Visit(bar, ++visits[bar]));
      bar = next(bar, here, ending);
    }
  }

  private int next(int bar, BarSigns here, Ending ending) {
    boolean lastOfEnding = ending != null && ending.last() == bar;
    if (here.backwardRepeat()) {
      Frame frame = repeats.peek();
      int passes = here.times() > 0 ? here.times() : ending != null ? ending.mostPasses() : 2;
      if ((!jumped || here.afterJump()) && frame.pass < passes) {
        frame.pass++;
        return frame.start;
      }
      finishRepeat(bar);
    } else if (lastOfEnding && ending.passes().contains(ending.mostPasses())) {
      finishRepeat(bar);
    }
    if (here.fine() && (jumped && here.jumpPasses().isEmpty() || passIsListed(bar, here))) {
      return signs.size();
    }
    if (!here.tocoda().isEmpty()
        && !codaTaken[bar]
        && (here.jumpPasses().isEmpty() ? jumped : passIsListed(bar, here))) {
      int coda = place(here.tocoda(), false);
      if (coda >= 0) {
        codaTaken[bar] = true;
        return jumpTo(coda);
      }
    }
    if ((here.dacapo() || !here.dalsegno().isEmpty())
        && !jumpTaken[bar]
        && (here.jumpPasses().isEmpty() || passIsListed(bar, here))) {
      int target = here.dacapo() ? 0 : place(here.dalsegno(), true);
      if (target >= 0) {
        jumpTaken[bar] = here.jumpPasses().isEmpty();
        jumped = true;
        return jumpTo(target);
      }
    }
    return bar + 1;
  }

  private boolean passIsListed(int bar, BarSigns here) {
    return here.jumpPasses().contains(visits[bar]);
  }

  private int jumpTo(int bar) {
    repeats.clear();
    repeats.push(new Frame(bar));
    return bar;
  }

  private void finishRepeat(int bar) {
    boolean inner = repeats.size() > 1;
    if (inner) {
      repeats.pop();
    }
    Frame frame = repeats.peek();
    if (!inner || !frame.signed) {
      frame.start = bar + 1;
      frame.pass = 1;
      frame.signed = false;
    }
  }

  /** The bar with a segno or coda of that token, else the only one; -1 for none. */
  private int place(String token, boolean segno) {
    int any = -1;
    for (int i = 0; i < signs.size(); i++) {
      String here = segno ? signs.get(i).segno() : signs.get(i).coda();
      if (here.equals(token)) {
        return i;
      }
      boolean sign = segno ? signs.get(i).segnoSign() : signs.get(i).codaSign();
      if (!here.isEmpty() || sign) {
        any = any < 0 || !segno ? i : any;
      }
    }
    return any;
  }
}
