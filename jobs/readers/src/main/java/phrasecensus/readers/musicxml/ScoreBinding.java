package phrasecensus.readers.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import javax.xml.stream.XMLStreamException;
import org.audiveris.proxymusic.Backup;
import org.audiveris.proxymusic.Credit;
import org.audiveris.proxymusic.Defaults;
import org.audiveris.proxymusic.Empty;
import org.audiveris.proxymusic.FormattedText;
import org.audiveris.proxymusic.Forward;
import org.audiveris.proxymusic.Identification;
import org.audiveris.proxymusic.LeftCenterRight;
import org.audiveris.proxymusic.MidiInstrument;
import org.audiveris.proxymusic.Miscellaneous;
import org.audiveris.proxymusic.MiscellaneousField;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.PartList;
import org.audiveris.proxymusic.PartName;
import org.audiveris.proxymusic.ScoreInstrument;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.TypedText;
import org.audiveris.proxymusic.Work;

/**
 * Turns elements of a {@link ScoreStream} into ProxyMusic's objects, one bar at a time.
 *
 * <p>The objects are made here and in the classes beside it, element by element, and hold what
 * JAXB's unmarshaller would put into them, as far as anything reads it (a test compares the two).
 * That takes a third of the unmarshaller's time, and spares the half second in which it looks at
 * all of ProxyMusic's classes. Every value has been checked by the stream, so none is refused here.
 *
 * <p>Every method is called where an element starts and leaves the stream behind its end.
 */
final class ScoreBinding {
  private final ScoreStream stream;
  private final ObjectFactory factory = new ObjectFactory();
  private final NoteBinding notes;
  private final AttributesBinding attributes;
  private final HarmonyBinding harmonies;
  private final DirectionBinding directions;

  ScoreBinding(ScoreStream stream) {
    this.stream = stream;
    this.notes = new NoteBinding(stream);
    this.attributes = new AttributesBinding(stream);
    this.harmonies = new HarmonyBinding(stream);
    this.directions = new DirectionBinding(stream);
  }

  /** What a bar holds, in the order of the file. */
  List<Object> contents() throws XMLStreamException {
    List<Object> contents = new ArrayList<>();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "note" -> contents.add(notes.note());
        case "backup" -> contents.add(backup());
        case "forward" -> contents.add(forward());
        case "attributes" -> contents.add(attributes.attributes());
        case "harmony" -> contents.add(harmonies.harmony());
        case "direction" -> contents.add(directions.direction());
        case "sound" -> contents.add(directions.sound());
        case "barline" -> contents.add(directions.barline());
        default -> stream.passOver();
      }
    }
    stream.next();
    return contents;
  }

  private Backup backup() throws XMLStreamException {
    Backup backup = new Backup();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "duration" -> backup.setDuration(stream.decimal());
        default -> stream.passOver();
      }
    }
    stream.next();
    return backup;
  }

  private Forward forward() throws XMLStreamException {
    Forward forward = new Forward();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "duration" -> forward.setDuration(stream.decimal());
        default -> stream.passOver();
      }
    }
    stream.next();
    return forward;
  }

  Work work() throws XMLStreamException {
    Work work = new Work();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "work-title" -> work.setWorkTitle(stream.text());
        default -> stream.passOver();
      }
    }
    stream.next();
    return work;
  }

  Identification identification() throws XMLStreamException {
    Identification identification = new Identification();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "creator" -> {
          TypedText creator = new TypedText();
          creator.setType(token(stream.attribute("type")));
          creator.setValue(stream.text());
          identification.getCreator().add(creator);
        }
        case "miscellaneous" -> identification.setMiscellaneous(miscellaneous());
        default -> stream.passOver();
      }
    }
    stream.next();
    return identification;
  }

  private Miscellaneous miscellaneous() throws XMLStreamException {
    Miscellaneous miscellaneous = new Miscellaneous();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "miscellaneous-field" -> {
          MiscellaneousField field = new MiscellaneousField();
          field.setName(token(stream.attribute("name")));
          field.setValue(stream.text());
          miscellaneous.getMiscellaneousField().add(field);
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return miscellaneous;
  }

  Credit credit() throws XMLStreamException {
    Credit credit = new Credit();
    String page = stream.attribute("page");
    credit.setPage(page == null ? null : new BigInteger(page));
    stream.next();
    while (stream.isAtStart()) {
      List<JAXBElement<?>> contents = credit.getCreditTypeOrLinkOrBookmark();
      switch (stream.name()) {
        case "credit-type" -> contents.add(factory.createCreditCreditType(stream.text()));
        case "credit-words" -> contents.add(factory.createCreditCreditWords(creditWords()));
        default -> stream.passOver();
      }
    }
    stream.next();
    return credit;
  }

  private FormattedText creditWords() throws XMLStreamException {
    FormattedText words = new FormattedText();
    words.setJustify(leftCenterRight(stream.attribute("justify")));
    words.setHalign(leftCenterRight(stream.attribute("halign")));
    words.setFontSize(stream.attribute("font-size"));
    words.setValue(stream.text());
    return words;
  }

  private static LeftCenterRight leftCenterRight(String word) {
    return word == null ? null : LeftCenterRight.fromValue(word);
  }

  Defaults defaults() throws XMLStreamException {
    Defaults defaults = new Defaults();
    stream.next();
    while (stream.isAtStart()) {
      if (stream.name().equals("concert-score")) {
        defaults.setConcertScore(new Empty());
      }
      stream.passOver();
    }
    stream.next();
    return defaults;
  }

  PartList partList() throws XMLStreamException {
    PartList list = new PartList();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "score-part" -> list.getPartGroupOrScorePart().add(scorePart());
        default -> stream.passOver();
      }
    }
    stream.next();
    return list;
  }

  private ScorePart scorePart() throws XMLStreamException {
    ScorePart part = new ScorePart();
    part.setId(token(stream.attribute("id")));
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "part-name" -> {
          PartName name = new PartName();
          name.setValue(stream.text());
          part.setPartName(name);
        }
        case "score-instrument" -> part.getScoreInstrument().add(scoreInstrument());
        case "midi-instrument" -> part.getMidiDeviceAndMidiInstrument().add(midiInstrument());
        default -> stream.passOver();
      }
    }
    stream.next();
    return part;
  }

  private ScoreInstrument scoreInstrument() throws XMLStreamException {
    ScoreInstrument instrument = new ScoreInstrument();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "instrument-name" -> instrument.setInstrumentName(stream.text());
        default -> stream.passOver();
      }
    }
    stream.next();
    return instrument;
  }

  private MidiInstrument midiInstrument() throws XMLStreamException {
    MidiInstrument instrument = new MidiInstrument();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "midi-channel" -> instrument.setMidiChannel(stream.whole());
        default -> stream.passOver();
      }
    }
    stream.next();
    return instrument;
  }

  /** A text as a token of XML Schema: no white space but single spaces inside; null for null. */
  static String token(String text) {
    if (text == null) {
      return null;
    }
    StringBuilder token = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c != ' ' && c != '\t' && c != '\n' && c != '\r') {
        token.append(c);
      } else if (!token.isEmpty() && token.charAt(token.length() - 1) != ' ') {
        token.append(' ');
      }
    }
    if (!token.isEmpty() && token.charAt(token.length() - 1) == ' ') {
      token.setLength(token.length() - 1);
    }
    return token.toString();
  }
}
