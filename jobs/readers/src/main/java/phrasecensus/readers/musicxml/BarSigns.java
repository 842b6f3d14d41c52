package phrasecensus.readers.musicxml;

import java.util.List;
import java.util.stream.Stream;

/**
 * What a bar says about the order of playing.
 *
 * @param forwardRepeat a repeat starts at its beginning
 * @param backwardRepeat a repeat ends at its end
 * @param times total passes of that repeat; 0 when the file does not say
 * @param afterJump the repeat is also taken after a jump
 * @param endingStart passes of an ending that starts here; empty for none
 * @param endingStop true when an ending stops here
 * @param dacapo a jump to the beginning
 * @param dalsegno token of a segno to jump to; empty for none
 * @param segno tokens of a segno here; empty for none
 * @param tocoda token of a coda to jump to; empty for none
 * @param coda tokens of a coda here; empty for none
 * @param fine the end after a jump
 * @param jumpPasses the passes on which the jumps count; empty for the usual ones
 * @param words jump words without playback data, in lower case, as in {@code d.c. al fine}
 * @param segnoSign a printed segno without playback data
 * @param codaSign a printed coda without playback data
 */
record BarSigns(
    boolean forwardRepeat,
    boolean backwardRepeat,
    int times,
    boolean afterJump,
    List<Integer> endingStart,
    boolean endingStop,
    boolean dacapo,
    String dalsegno,
    String segno,
    String tocoda,
    String coda,
    boolean fine,
    List<Integer> jumpPasses,
    List<String> words,
    boolean segnoSign,
    boolean codaSign) {
  static final BarSigns NONE =
      new BarSigns(
          false, false, 0, false, List.of(), false, false, "", "", "", "", false, List.of(),
          List.of(), false, false);

  /** What either of two bars says; of two texts the first that is there. */
  BarSigns and(BarSigns other) {
    if (this == NONE) {
      return other;
    }
    if (other == NONE) {
      return this;
    }
    return new BarSigns(
        forwardRepeat || other.forwardRepeat,
        backwardRepeat || other.backwardRepeat,
        Math.max(times, other.times),
        afterJump || other.afterJump,
        endingStart.isEmpty() ? other.endingStart : endingStart,
        endingStop || other.endingStop,
        dacapo || other.dacapo,
        either(dalsegno, other.dalsegno),
        either(segno, other.segno),
        either(tocoda, other.tocoda),
        either(coda, other.coda),
        fine || other.fine,
        jumpPasses.isEmpty() ? other.jumpPasses : jumpPasses,
        both(words, other.words),
        segnoSign || other.segnoSign,
        codaSign || other.codaSign);
  }

  private static List<String> both(List<String> first, List<String> second) {
    return Stream.concat(first.stream(), second.stream()).distinct().toList();
  }

  private static String either(String first, String second) {
    return first.isEmpty() ? second : first;
  }
}
