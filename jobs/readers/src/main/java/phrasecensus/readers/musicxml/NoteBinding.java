package phrasecensus.readers.musicxml;

import jakarta.xml.bind.JAXBElement;
import java.math.BigInteger;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.xml.namespace.QName;
import javax.xml.stream.XMLStreamException;
import org.audiveris.proxymusic.Articulations;
import org.audiveris.proxymusic.Empty;
import org.audiveris.proxymusic.EmptyPlacement;
import org.audiveris.proxymusic.Fermata;
import org.audiveris.proxymusic.Grace;
import org.audiveris.proxymusic.Lyric;
import org.audiveris.proxymusic.Notations;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.NoteType;
import org.audiveris.proxymusic.Notehead;
import org.audiveris.proxymusic.NoteheadValue;
import org.audiveris.proxymusic.Pitch;
import org.audiveris.proxymusic.Rest;
import org.audiveris.proxymusic.Slur;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.StartStopContinue;
import org.audiveris.proxymusic.Step;
import org.audiveris.proxymusic.Syllabic;
import org.audiveris.proxymusic.TextElementData;
import org.audiveris.proxymusic.Tie;
import org.audiveris.proxymusic.Tied;
import org.audiveris.proxymusic.TiedType;
import org.audiveris.proxymusic.TimeModification;
import org.audiveris.proxymusic.Unpitched;
import org.audiveris.proxymusic.YesNo;

/** Notes and rests as ProxyMusic's objects; see {@link ScoreBinding}. */
final class NoteBinding {
  private final ScoreStream stream;
  private final Map<String, QName> articulationNames = new HashMap<>();

  NoteBinding(ScoreStream stream) {
    this.stream = stream;
  }

  Note note() throws XMLStreamException {
    Note note = new Note();
    note.setTimeOnly(ScoreBinding.token(stream.attribute("time-only")));
    note.setPrintObject(yesNo(stream, "print-object"));
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "grace" -> {
          Grace grace = new Grace();
          grace.setSlash(yesNo(stream, "slash"));
          note.setGrace(grace);
          stream.passOver();
        }
        case "cue" -> {
          note.setCue(new Empty());
          stream.passOver();
        }
        case "chord" -> {
          note.setChord(new Empty());
          stream.passOver();
        }
        case "pitch" -> note.setPitch(pitch());
        case "unpitched" -> {
          note.setUnpitched(new Unpitched());
          stream.passOver();
        }
        case "rest" -> {
          Rest rest = new Rest();
          rest.setMeasure(yesNo(stream, "measure"));
          note.setRest(rest);
          stream.passOver();
        }
        case "duration" -> note.setDuration(stream.decimal());
        case "tie" -> {
          Tie tie = new Tie();
          String type = stream.attribute("type");
          tie.setType(type == null ? null : StartStop.fromValue(type));
          note.getTie().add(tie);
          stream.passOver();
        }
        case "voice" -> note.setVoice(stream.text());
        case "type" -> {
          NoteType type = new NoteType();
          type.setValue(stream.text());
          note.setType(type);
        }
        case "dot" -> {
          note.getDot().add(new EmptyPlacement());
          stream.passOver();
        }
        case "time-modification" -> note.setTimeModification(timeModification());
        case "notehead" -> note.setNotehead(notehead());
        case "staff" -> note.setStaff(BigInteger.valueOf(stream.whole()));
        case "notations" -> note.getNotations().add(notations());
        case "lyric" -> note.getLyric().add(lyric());
        default -> stream.passOver();
      }
    }
    stream.next();
    return note;
  }

  private Pitch pitch() throws XMLStreamException {
    Pitch pitch = new Pitch();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "step" -> pitch.setStep(Step.fromValue(stream.text()));
        case "alter" -> pitch.setAlter(stream.decimal());
        case "octave" -> pitch.setOctave(stream.whole());
        default -> stream.passOver();
      }
    }
    stream.next();
    return pitch;
  }

  private TimeModification timeModification() throws XMLStreamException {
    TimeModification tuplet = new TimeModification();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "actual-notes" -> tuplet.setActualNotes(BigInteger.valueOf(stream.whole()));
        case "normal-notes" -> tuplet.setNormalNotes(BigInteger.valueOf(stream.whole()));
        default -> stream.passOver();
      }
    }
    stream.next();
    return tuplet;
  }

  private Notehead notehead() throws XMLStreamException {
    Notehead notehead = new Notehead();
    notehead.setParentheses(yesNo(stream, "parentheses"));
    notehead.setValue(NoteheadValue.fromValue(stream.text()));
    return notehead;
  }

  private Lyric lyric() throws XMLStreamException {
    Lyric lyric = new Lyric();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "syllabic" ->
            lyric.getElisionAndSyllabicAndText().add(Syllabic.fromValue(stream.text()));
        case "text" -> {
          TextElementData data = new TextElementData();
          data.setValue(stream.text());
          lyric.getElisionAndSyllabicAndText().add(data);
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return lyric;
  }

  private Notations notations() throws XMLStreamException {
    Notations notations = new Notations();
    stream.next();
    while (stream.isAtStart()) {
      List<Object> signs = notations.getTiedOrSlurOrTuplet();
      switch (stream.name()) {
        case "tied" -> {
          Tied tied = new Tied();
          String type = stream.attribute("type");
          tied.setType(type == null ? null : TiedType.fromValue(type));
          signs.add(tied);
          stream.passOver();
        }
        case "slur" -> {
          Slur slur = new Slur();
          slur.setType(startStopContinue(stream));
          slur.setNumber(number(stream));
          signs.add(slur);
          stream.passOver();
        }
        case "articulations" -> signs.add(articulations());
        case "fermata" -> {
          signs.add(new Fermata());
          stream.passOver();
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return notations;
  }

  /** Of an articulation only its name is read. */
  private Articulations articulations() throws XMLStreamException {
    Articulations articulations = new Articulations();
    stream.next();
    while (stream.isAtStart()) {
      articulations
          .getAccentOrStrongAccentOrStaccato()
          .add(
              new JAXBElement<>(
                  articulationNames.computeIfAbsent(stream.name(), QName::new),
                  EmptyPlacement.class,
                  new EmptyPlacement()));
      stream.passOver();
    }
    stream.next();
    return articulations;
  }

  static YesNo yesNo(ScoreStream stream, String attribute) {
    String value = stream.attribute(attribute);
    return value == null ? null : YesNo.fromValue(value);
  }

  static StartStopContinue startStopContinue(ScoreStream stream) {
    String type = stream.attribute("type");
    return type == null ? null : StartStopContinue.fromValue(type);
  }

  /** The attribute {@code number}; null where there is none. */
  static Integer number(ScoreStream stream) {
    String number = stream.attribute("number");
    return number == null ? null : Integer.valueOf(number);
  }
}
