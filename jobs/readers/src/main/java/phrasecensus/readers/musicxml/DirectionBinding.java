package phrasecensus.readers.musicxml;

import java.math.BigDecimal;
import java.math.BigInteger;
import javax.xml.stream.XMLStreamException;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.BarStyle;
import org.audiveris.proxymusic.BarStyleColor;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Bracket;
import org.audiveris.proxymusic.Coda;
import org.audiveris.proxymusic.Dashes;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.Empty;
import org.audiveris.proxymusic.Ending;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Metronome;
import org.audiveris.proxymusic.PerMinute;
import org.audiveris.proxymusic.Repeat;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.Segno;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.StartStopDiscontinue;

/** Directions, sounds and bar lines as ProxyMusic's objects; see {@link ScoreBinding}. */
final class DirectionBinding {
  private final ScoreStream stream;

  DirectionBinding(ScoreStream stream) {
    this.stream = stream;
  }

  Direction direction() throws XMLStreamException {
    Direction direction = new Direction();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "direction-type" -> direction.getDirectionType().add(type());
        case "offset" -> direction.setOffset(HarmonyBinding.offset(stream));
        case "staff" -> direction.setStaff(BigInteger.valueOf(stream.whole()));
        case "sound" -> direction.setSound(sound());
        default -> stream.passOver();
      }
    }
    stream.next();
    return direction;
  }

  private DirectionType type() throws XMLStreamException {
    DirectionType type = new DirectionType();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "rehearsal" -> type.getRehearsal().add(formattedText());
        case "segno" -> {
          type.getSegno().add(new Segno());
          stream.passOver();
        }
        case "coda" -> {
          type.getCoda().add(new Coda());
          stream.passOver();
        }
        case "words" -> type.getWordsOrSymbol().add(formattedText());
        case "dashes" -> {
          Dashes dashes = new Dashes();
          dashes.setType(NoteBinding.startStopContinue(stream));
          dashes.setNumber(NoteBinding.number(stream));
          type.setDashes(dashes);
          stream.passOver();
        }
        case "bracket" -> {
          Bracket bracket = new Bracket();
          bracket.setType(NoteBinding.startStopContinue(stream));
          bracket.setNumber(NoteBinding.number(stream));
          type.setBracket(bracket);
          stream.passOver();
        }
        case "metronome" -> type.setMetronome(metronome());
        default -> stream.passOver();
      }
    }
    stream.next();
    return type;
  }

  private FormattedTextId formattedText() throws XMLStreamException {
    FormattedTextId text = new FormattedTextId();
    text.setValue(stream.text());
    return text;
  }

  /** Of several beat units the last one stays. */
  private Metronome metronome() throws XMLStreamException {
    Metronome metronome = new Metronome();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "beat-unit" -> metronome.setBeatUnit(stream.text());
        case "beat-unit-dot" -> {
          metronome.getBeatUnitDot().add(new Empty());
          stream.passOver();
        }
        case "per-minute" -> {
          PerMinute perMinute = new PerMinute();
          perMinute.setValue(stream.text());
          metronome.setPerMinute(perMinute);
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return metronome;
  }

  Sound sound() throws XMLStreamException {
    Sound sound = new Sound();
    String tempo = stream.attribute("tempo");
    sound.setTempo(tempo == null ? null : new BigDecimal(tempo));
    sound.setDacapo(NoteBinding.yesNo(stream, "dacapo"));
    sound.setSegno(token("segno"));
    sound.setDalsegno(token("dalsegno"));
    sound.setCoda(token("coda"));
    sound.setTocoda(token("tocoda"));
    sound.setForwardRepeat(NoteBinding.yesNo(stream, "forward-repeat"));
    sound.setFine(token("fine"));
    sound.setTimeOnly(token("time-only"));
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "offset" -> sound.setOffset(HarmonyBinding.offset(stream));
        default -> stream.passOver();
      }
    }
    stream.next();
    return sound;
  }

  Barline barline() throws XMLStreamException {
    Barline barline = new Barline();
    String location = stream.attribute("location");
    barline.setLocation(location == null ? null : RightLeftMiddle.fromValue(location));
    barline.setSegnoAttribute(token("segno"));
    barline.setCodaAttribute(token("coda"));
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "bar-style" -> {
          BarStyleColor style = new BarStyleColor();
          style.setValue(BarStyle.fromValue(stream.text()));
          barline.setBarStyle(style);
        }
        case "segno" -> {
          barline.setSegno(new Segno());
          stream.passOver();
        }
        case "coda" -> {
          barline.setCoda(new Coda());
          stream.passOver();
        }
        case "ending" -> barline.setEnding(ending());
        case "repeat" -> barline.setRepeat(repeat());
        default -> stream.passOver();
      }
    }
    stream.next();
    return barline;
  }

  private Ending ending() throws XMLStreamException {
    Ending ending = new Ending();
    String type = stream.attribute("type");
    ending.setNumber(token("number"));
    ending.setType(type == null ? null : StartStopDiscontinue.fromValue(type));
    stream.passOver();
    return ending;
  }

  private Repeat repeat() throws XMLStreamException {
    Repeat repeat = new Repeat();
    String direction = stream.attribute("direction");
    String times = stream.attribute("times");
    repeat.setDirection(direction == null ? null : BackwardForward.fromValue(direction));
    repeat.setTimes(times == null ? null : new BigInteger(times));
    repeat.setAfterJump(NoteBinding.yesNo(stream, "after-jump"));
    stream.passOver();
    return repeat;
  }

  private String token(String attribute) {
    return ScoreBinding.token(stream.attribute(attribute));
  }
}
