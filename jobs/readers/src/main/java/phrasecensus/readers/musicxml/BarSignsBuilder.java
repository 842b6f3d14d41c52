package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.List;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.StartStopDiscontinue;
import org.audiveris.proxymusic.YesNo;

/** Collects what one bar line or direction says about the order of playing. */
final class BarSignsBuilder {
  private boolean forwardRepeat;
  private boolean backwardRepeat;
  private int times;
  private boolean afterJump;
  private List<Integer> endingStart = List.of();
  private boolean endingStop;
  private boolean dacapo;
  private String dalsegno = "";
  private String segno = "";
  private String tocoda = "";
  private String coda = "";
  private boolean fine;
  private List<Integer> jumpPasses = List.of();
  private List<String> words = List.of();
  private boolean segnoSign;
  private boolean codaSign;
  private boolean any;

  BarSignsBuilder barline(Barline barline) {
    if (barline.getRepeat() != null && barline.getRepeat().getDirection() != null) {
      any = true;
      if (barline.getRepeat().getDirection() == BackwardForward.FORWARD) {
        forwardRepeat = true;
      } else {
        backwardRepeat = true;
        times =
            barline.getRepeat().getTimes() == null ? 0 : barline.getRepeat().getTimes().intValue();
        afterJump = barline.getRepeat().getAfterJump() == YesNo.YES;
      }
    }
    if (barline.getEnding() != null && barline.getEnding().getType() != null) {
      any = true;
      if (barline.getEnding().getType() == StartStopDiscontinue.START) {
        endingStart = passes(barline.getEnding().getNumber());
      } else {
        endingStop = true;
      }
    }
    segno = present(barline.getSegnoAttribute());
    coda = present(barline.getCodaAttribute());
    segnoSign = segno.isEmpty() && barline.getSegno() != null;
    codaSign = coda.isEmpty() && barline.getCoda() != null;
    any |= !segno.isEmpty() || !coda.isEmpty() || segnoSign || codaSign;
    return this;
  }

  BarSignsBuilder sound(Sound sound) {
    any = true;
    forwardRepeat = sound.getForwardRepeat() == YesNo.YES;
    dacapo = sound.getDacapo() == YesNo.YES;
    dalsegno = present(sound.getDalsegno());
    segno = present(sound.getSegno());
    tocoda = present(sound.getTocoda());
    coda = present(sound.getCoda());
    fine = sound.getFine() != null && !sound.getFine().strip().equals("no");
    if (dacapo || !dalsegno.isEmpty() || !tocoda.isEmpty() || fine) {
      jumpPasses = passes(sound.getTimeOnly());
    }
    return this;
  }

  BarSignsBuilder words(String text) {
    any = true;
    words = List.of(text);
    return this;
  }

  BarSignsBuilder signs(boolean printedSegno, boolean printedCoda) {
    any = true;
    segnoSign = printedSegno;
    codaSign = printedCoda;
    return this;
  }

  BarSigns build() {
    return any
        ? new BarSigns(
            forwardRepeat,
            backwardRepeat,
            times,
            afterJump,
            endingStart,
            endingStop,
            dacapo,
            dalsegno,
            segno,
            tocoda,
            coda,
            fine,
            jumpPasses,
            words,
            segnoSign,
            codaSign)
        : BarSigns.NONE;
  }

  private static String present(String token) {
    return token == null ? "" : token.strip();
  }

  /** The numbers in a list of passes such as {@code 1,2}; empty for none. */
  static List<Integer> passes(String text) {
    if (text == null) {
      return List.of();
    }
    List<Integer> passes = new ArrayList<>();
    for (String number : text.split("[^0-9]+")) {
      if (!number.isEmpty() && number.length() < 4) {
        passes.add(Integer.parseInt(number));
      }
    }
    return List.copyOf(passes);
  }
}
