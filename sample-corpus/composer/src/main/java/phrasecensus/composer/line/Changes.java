package phrasecensus.composer.line;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.composer.harmony.ChordKind;
import phrasecensus.composer.harmony.ChordScale;
import phrasecensus.composer.harmony.ChordSymbol;
import phrasecensus.composer.harmony.NoteName;
import phrasecensus.composer.tune.Tune;

/** The chords of a whole solo in score time, without gaps. */
public final class Changes {
  /** A note in the last half beat of a chord that sounds into the next one belongs to the next. */
  private static final int ANTICIPATION = Tune.QUARTER / 2;

  /**
   * A chord with its time.
   *
   * @param index place in the sequence, from 0
   * @param start first tick; bar 1 begins at 0
   * @param end first tick after it
   * @param chord chord as written
   * @param heard chord the line refers to: in a break ("no chord") the tonic
   * @param scale scale of {@code heard}
   */
  public record Span(
      int index, int start, int end, ChordSymbol chord, ChordSymbol heard, ChordScale scale) {}

  private final List<Span> spans;

  private Changes(List<Span> spans) {
    this.spans = List.copyOf(spans);
  }

  /** The chords of that many choruses of a tune; a chord that merely repeats is one span. */
  public static Changes of(Tune tune, int choruses) {
    List<ChordSymbol> chords = new ArrayList<>();
    List<Integer> starts = new ArrayList<>();
    for (int bar = 0; bar < choruses * tune.bars().size(); bar++) {
      for (Tune.Placed placed : tune.bars().get(bar % tune.bars().size()).chords()) {
        ChordSymbol chord = placed.chord();
        if (chords.isEmpty() || !chords.get(chords.size() - 1).equals(chord)) {
          chords.add(chord);
          starts.add(bar * tune.barTicks() + placed.onset());
        }
      }
    }
    int end = choruses * tune.bars().size() * tune.barTicks();
    ChordSymbol tonic =
        ChordSymbol.of(tune.key().tonic() + (tune.key().minor() ? "m7" : tune.blues() ? "7" : "6"));
    List<Span> spans = new ArrayList<>();
    for (int i = 0; i < chords.size(); i++) {
      ChordSymbol heard = chords.get(i).kind() == ChordKind.NONE ? tonic : chords.get(i);
      ChordSymbol next = chords.get((i + 1) % chords.size());
      spans.add(
          new Span(
              i,
              starts.get(i),
              i + 1 < chords.size() ? starts.get(i + 1) : end,
              chords.get(i),
              heard,
              ChordScale.of(heard, next, tune.key(), tune.blues())));
    }
    return new Changes(spans);
  }

  /** What a player hears who takes no notice: one major chord from beginning to end. */
  public static Changes ignoring(NoteName tonic, int end) {
    ChordSymbol chord = ChordSymbol.of(tonic + "maj7");
    return new Changes(
        List.of(new Span(0, Integer.MIN_VALUE / 2, end, chord, chord, ChordScale.majorOn(tonic))));
  }

  /**
   * The tonic of the major scale that agrees least with these chords: fewest core chord tones over
   * time, the notes of its own tonic chord counted twice as a player there would rest on them.
   */
  public NoteName farthest() {
    NoteName best = null;
    long least = Long.MAX_VALUE;
    for (int fifths = -6; fifths < 6; fifths++) {
      NoteName tonic = new NoteName(fifths);
      ChordSymbol home = ChordSymbol.of(tonic + "maj7");
      ChordScale scale = ChordScale.majorOn(tonic);
      long agreement = 0;
      for (Span span : spans) {
        for (int pitchClass = 0; pitchClass < 12; pitchClass++) {
          if (span.heard().holds(pitchClass)) {
            int counted = home.holds(pitchClass) ? 2 : scale.holds(pitchClass) ? 1 : 0;
            agreement += (long) counted * (span.end() - span.start());
          }
        }
      }
      if (agreement < least) {
        least = agreement;
        best = tonic;
      }
    }
    return best;
  }

  /** All chords in order. */
  public List<Span> spans() {
    return spans;
  }

  /** The end of the last chord. */
  public int end() {
    return spans.get(spans.size() - 1).end();
  }

  /** The chord that sounds at a tick; the first one before the beginning. */
  public Span at(int tick) {
    int low = 0;
    int high = spans.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) / 2;
      if (spans.get(middle).start() <= tick) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return spans.get(low);
  }

  /** The chord a note belongs to, anticipation allowed for. */
  public Span of(int onset, int length) {
    Span span = at(onset);
    boolean anticipates =
        onset + length > span.end()
            && onset >= span.end() - ANTICIPATION
            && span.index() + 1 < spans.size();
    return anticipates ? spans.get(span.index() + 1) : span;
  }
}
