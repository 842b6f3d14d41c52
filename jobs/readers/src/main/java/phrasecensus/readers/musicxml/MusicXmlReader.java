package phrasecensus.readers.musicxml;

import com.ctc.wstx.api.WstxInputProperties;
import com.ctc.wstx.exc.WstxLazyException;
import com.ctc.wstx.stax.WstxInputFactory;
import java.io.ByteArrayInputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.audiveris.proxymusic.Identification;
import org.audiveris.proxymusic.MidiInstrument;
import org.audiveris.proxymusic.MiscellaneousField;
import org.audiveris.proxymusic.PartList;
import org.audiveris.proxymusic.ScoreInstrument;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.TypedText;
import phrasecensus.grammar.ScoreElements;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.Refusal;
import phrasecensus.readers.musicxml.PartReading.PartDescription;

/** Reads a MusicXML document, partwise or timewise, one bar at a time. */
final class MusicXmlReader {
  private static final int LONGEST_TEXT = 1000;

  /** A path or a name of a file where a title should stand. */
  private static final Pattern FILE_NAME =
      Pattern.compile(
          "^[A-Za-z]:[\\\\/]|^(?:/[^/]+){2,}$|\\.(?:xml|musicxml|mxl|mus|musx|sib|mscz|mscx|gp[0-9x]?)$",
          Pattern.CASE_INSENSITIVE);

  private static final WstxInputFactory XML = factory();

  private final ReadSettings settings;
  private final ProblemLog problems;

  private String workTitle = "";
  private String movementTitle = "";
  private boolean concertScore;
  private final Credits credits = new Credits();
  private final Map<String, String> creators = new TreeMap<>();
  private final Map<String, String> miscellaneous = new TreeMap<>();
  private final Map<String, PartDescription> descriptions = new LinkedHashMap<>();

  private MusicXmlReader(ReadSettings settings, ProblemLog problems) {
    this.settings = settings;
    this.problems = problems;
  }

  /**
   * Reads a document.
   *
   * @throws Refusal if it is not well-formed, no score, or beyond a limit
   */
  static ScoreReading read(byte[] document, ReadSettings settings, ProblemLog problems) {
    return new MusicXmlReader(settings, problems).read(document);
  }

  private static WstxInputFactory factory() {
    WstxInputFactory factory = new WstxInputFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, true);
    factory.setProperty(WstxInputProperties.P_MAX_ATTRIBUTES_PER_ELEMENT, 500);
    factory.setProperty(WstxInputProperties.P_MAX_ATTRIBUTE_SIZE, 65_536);
    factory.configureForSpeed();
    return factory;
  }

  /** A plain streaming reader over a document, with the same parser and guards. */
  static XMLStreamReader rawStream(byte[] document) throws XMLStreamException {
    return XML.createXMLStreamReader(new ByteArrayInputStream(document));
  }

  private ScoreReading read(byte[] document) {
    try {
      XMLStreamReader raw = rawStream(document);
      try {
        return read(raw);
      } finally {
        raw.close();
      }
    } catch (XMLStreamException e) {
      throw notWellFormed(e);
    } catch (WstxLazyException e) {
      throw e.getCause() instanceof XMLStreamException cause ? notWellFormed(cause) : e;
    }
  }

  private ScoreReading read(XMLStreamReader raw) throws XMLStreamException {
    ScoreStream stream = new ScoreStream(raw, settings, problems);
    String root = stream.root();
    if (root.equals("opus")) {
      throw new Refusal(
          "It is a list of scores (an opus file), not a score; give the scores themselves.");
    }
    boolean timewise = root.equals(ScoreElements.TIMEWISE);
    if (!timewise && !root.equals(ScoreElements.PARTWISE)) {
      throw new Refusal(
          "It is XML, but no MusicXML score: its root element is '" + shortened(root) + "'.");
    }
    return read(raw, stream, new ScoreBinding(stream));
  }

  private ScoreReading read(XMLStreamReader raw, ScoreStream stream, ScoreBinding binding)
      throws XMLStreamException {
    Map<String, PartAssembler> assemblers = new LinkedHashMap<>();
    stream.next();
    while (!stream.isAtEndOfDocument()) {
      if (!stream.isAtStart()) {
        stream.next();
        continue;
      }
      switch (stream.name()) {
        case "work" -> workTitle = shortened(binding.work().getWorkTitle());
        case "movement-title" -> movementTitle = shortened(stream.text());
        case "identification" -> read(binding.identification());
        case "defaults" -> concertScore = binding.defaults().getConcertScore() != null;
        case "credit" -> credits.add(binding.credit());
        case "part-list" -> read(binding.partList());
        case "part" -> readPart(stream, binding, assemblers);
        case "measure" -> readTimewiseMeasure(stream, binding, assemblers);
        default -> stream.next();
      }
    }
    List<PartReading> parts = assemblers.values().stream().map(PartAssembler::reading).toList();
    if (parts.stream().allMatch(part -> part.bars().isEmpty())) {
      throw new Refusal("The score has no bars.");
    }
    String encoding = raw.getCharacterEncodingScheme();
    if (!creators.containsKey("composer") && !credits.composer().isEmpty()) {
      creators.put("composer", credits.composer());
    }
    return new ScoreReading(
        title(),
        creators,
        miscellaneous,
        encoding == null ? String.valueOf(raw.getEncoding()) : encoding,
        parts);
  }

  private String title() {
    String title = workTitle.isEmpty() ? movementTitle : workTitle;
    boolean unsaid = title.isEmpty() || FILE_NAME.matcher(title).find();
    return unsaid && !credits.title().isEmpty() ? credits.title() : title;
  }

  private void readPart(
      ScoreStream stream, ScoreBinding binding, Map<String, PartAssembler> assemblers)
      throws XMLStreamException {
    String id = stream.part();
    String key = id;
    while (assemblers.containsKey(key)) {
      key += "'";
    }
    if (!key.equals(id)) {
      problems.add(
          id, "", "part-id-repeated", "two parts with the id '" + id + "'", "both are kept apart");
    }
    PartAssembler assembler = assembler(key, stream);
    assemblers.put(key, assembler);
    stream.next();
    while (!stream.isAtEndOfDocument()) {
      if (stream.isAtStart()) {
        stream.startContents();
        String number = stream.bar();
        boolean implicit = "yes".equals(stream.attribute("implicit"));
        assembler.addBar(number, implicit, binding.contents());
      } else if (stream.isAtEnd()) {
        stream.next();
        return;
      } else {
        stream.next();
      }
    }
  }

  private void readTimewiseMeasure(
      ScoreStream stream, ScoreBinding binding, Map<String, PartAssembler> assemblers)
      throws XMLStreamException {
    String number = stream.bar();
    boolean implicit = "yes".equals(stream.attribute("implicit"));
    int before = assemblers.values().stream().mapToInt(PartAssembler::barCount).max().orElse(0);
    stream.next();
    while (!stream.isAtEndOfDocument()) {
      if (stream.isAtStart()) {
        stream.startContents();
        PartAssembler assembler = assemblers.get(stream.part());
        if (assembler == null) {
          assembler = assembler(stream.part(), stream);
          assemblers.put(stream.part(), assembler);
        }
        while (assembler.barCount() < before) {
          assembler.addBar("", false, List.of());
        }
        assembler.addBar(number, implicit, binding.contents());
      } else if (stream.isAtEnd()) {
        stream.next();
        return;
      } else {
        stream.next();
      }
    }
  }

  private PartAssembler assembler(String id, ScoreStream stream) {
    PartDescription description = descriptions.get(id);
    if (description == null) {
      if (!descriptions.isEmpty() || !id.isEmpty()) {
        problems.add(
            id,
            "",
            "part-not-listed",
            "a part that the list of parts does not name",
            "it is read all the same");
      }
      description = new PartDescription(id, "", "", false);
    }
    return new PartAssembler(description, stream, settings, problems, concertScore);
  }

  private void read(Identification identification) {
    for (TypedText creator : identification.getCreator()) {
      String name = shortened(creator.getValue());
      String role = shortened(creator.getType());
      if (!name.isEmpty()) {
        creators.merge(role.isEmpty() ? "creator" : role, name, (a, b) -> a + "; " + b);
      }
    }
    if (identification.getMiscellaneous() != null) {
      for (MiscellaneousField field : identification.getMiscellaneous().getMiscellaneousField()) {
        String name = shortened(field.getName());
        if (!name.isEmpty()) {
          miscellaneous.put(name, shortened(field.getValue()));
        }
      }
    }
  }

  private void read(PartList list) {
    for (Object item : list.getPartGroupOrScorePart()) {
      if (item instanceof ScorePart part) {
        String id = shortened(part.getId());
        String name = part.getPartName() == null ? "" : shortened(part.getPartName().getValue());
        String instrument = "";
        for (ScoreInstrument scoreInstrument : part.getScoreInstrument()) {
          if (instrument.isEmpty()) {
            instrument = shortened(scoreInstrument.getInstrumentName());
          }
        }
        boolean drums = false;
        for (Object sound : part.getMidiDeviceAndMidiInstrument()) {
          drums |=
              sound instanceof MidiInstrument midi
                  && midi.getMidiChannel() != null
                  && midi.getMidiChannel() == 10;
        }
        descriptions.putIfAbsent(id, new PartDescription(id, name, instrument, drums));
      }
    }
  }

  private static String shortened(String text) {
    return PlainText.of(text, LONGEST_TEXT);
  }

  private static Refusal notWellFormed(XMLStreamException e) {
    String message = String.valueOf(e.getMessage());
    int line = message.indexOf('\n');
    String first = line < 0 ? message : message.substring(0, line);
    String place =
        e.getLocation() == null
            ? ""
            : " at line "
                + e.getLocation().getLineNumber()
                + ", column "
                + e.getLocation().getColumnNumber();
    String reason = shortened(first).replaceAll("[.\\s]+$", "");
    return new Refusal("It is not well-formed XML" + place + ": " + reason + ".");
  }
}
