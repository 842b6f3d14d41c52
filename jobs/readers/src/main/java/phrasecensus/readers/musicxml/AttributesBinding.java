package phrasecensus.readers.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.math.BigInteger;
import javax.xml.stream.XMLStreamException;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.Clef;
import org.audiveris.proxymusic.ClefSign;
import org.audiveris.proxymusic.Double;
import org.audiveris.proxymusic.Key;
import org.audiveris.proxymusic.MeasureRepeat;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.Slash;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.Step;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.Transpose;

/**
 * Divisions, keys, metres, clefs and transpositions as ProxyMusic's objects; see {@link
 * ScoreBinding}.
 */
final class AttributesBinding {
  private final ScoreStream stream;
  private final ObjectFactory factory = new ObjectFactory();

  AttributesBinding(ScoreStream stream) {
    this.stream = stream;
  }

  Attributes attributes() throws XMLStreamException {
    Attributes attributes = new Attributes();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "divisions" -> attributes.setDivisions(stream.decimal());
        case "key" -> attributes.getKey().add(key());
        case "time" -> attributes.getTime().add(time());
        case "staves" -> attributes.setStaves(BigInteger.valueOf(stream.whole()));
        case "clef" -> attributes.getClef().add(clef());
        case "transpose" -> attributes.getTranspose().add(transpose());
        case "measure-style" -> attributes.getMeasureStyle().add(measureStyle());
        default -> stream.passOver();
      }
    }
    stream.next();
    return attributes;
  }

  private Key key() throws XMLStreamException {
    Key key = new Key();
    key.setNumber(number());
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "fifths" -> key.setFifths(BigInteger.valueOf(stream.whole()));
        case "mode" -> key.setMode(stream.text());
        case "key-step" -> key.getNonTraditionalKey().add(Step.fromValue(stream.text()));
        case "key-alter" -> key.getNonTraditionalKey().add(stream.decimal());
        default -> stream.passOver();
      }
    }
    stream.next();
    return key;
  }

  private Time time() throws XMLStreamException {
    Time time = new Time();
    time.setNumber(number());
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "beats" -> {
          JAXBElement<String> beats = factory.createTimeBeats(stream.text());
          time.getTimeSignature().add(beats);
        }
        case "beat-type" -> {
          JAXBElement<String> beatType = factory.createTimeBeatType(stream.text());
          time.getTimeSignature().add(beatType);
        }
        case "senza-misura" -> time.setSenzaMisura(stream.text());
        default -> stream.passOver();
      }
    }
    stream.next();
    return time;
  }

  private Clef clef() throws XMLStreamException {
    Clef clef = new Clef();
    clef.setNumber(number());
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "sign" -> clef.setSign(ClefSign.fromValue(stream.text()));
        case "line" -> clef.setLine(BigInteger.valueOf(stream.whole()));
        case "clef-octave-change" -> clef.setClefOctaveChange(BigInteger.valueOf(stream.whole()));
        default -> stream.passOver();
      }
    }
    stream.next();
    return clef;
  }

  private Transpose transpose() throws XMLStreamException {
    Transpose transpose = new Transpose();
    transpose.setNumber(number());
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "diatonic" -> transpose.setDiatonic(BigInteger.valueOf(stream.whole()));
        case "chromatic" -> transpose.setChromatic(stream.decimal());
        case "octave-change" -> transpose.setOctaveChange(BigInteger.valueOf(stream.whole()));
        case "double" -> {
          transpose.setDouble(new Double());
          stream.passOver();
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return transpose;
  }

  private MeasureStyle measureStyle() throws XMLStreamException {
    MeasureStyle style = new MeasureStyle();
    style.setNumber(number());
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "measure-repeat" -> {
          MeasureRepeat repeat = new MeasureRepeat();
          repeat.setType(startStop());
          repeat.setValue(stream.text());
          style.setMeasureRepeat(repeat);
        }
        case "slash" -> {
          Slash slash = new Slash();
          slash.setType(startStop());
          style.setSlash(slash);
          stream.passOver();
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return style;
  }

  private StartStop startStop() {
    String type = stream.attribute("type");
    return type == null ? null : StartStop.fromValue(type);
  }

  private BigInteger number() {
    String number = stream.attribute("number");
    return number == null ? null : new BigInteger(number);
  }
}
