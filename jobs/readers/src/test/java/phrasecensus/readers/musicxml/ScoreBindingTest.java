package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.xml.bind.JAXBContext;
import jakarta.xml.bind.JAXBElement;
import java.io.IOException;
import java.io.StringReader;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.audiveris.proxymusic.ScorePartwise;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import phrasecensus.grammar.ScoreElements;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SharedFolder;
import phrasecensus.readers.SoloReader;

/** Holds the objects made by {@link ScoreBinding} against those that JAXB makes of the same XML. */
class ScoreBindingTest {
  /** Every element and attribute that is read, most of them more than once. */
  private static final String EVERYTHING =
      """
      <score-partwise>
        <work><work-title> A  title </work-title></work>
        <movement-title>A movement</movement-title>
        <identification>
          <creator type=" com  poser ">One</creator><creator>Two</creator><creator/>
          <miscellaneous>
            <miscellaneous-field name="style">any</miscellaneous-field>
            <miscellaneous-field name="empty"/>
          </miscellaneous>
        </identification>
        <defaults><concert-score/></defaults>
        <credit page="2"><credit-type>title</credit-type>
          <credit-words justify="center" halign="left" font-size="24.5">A title</credit-words>
          <credit-words>more</credit-words></credit>
        <credit/>
        <part-list>
          <score-part id="P1">
            <part-name>Solo</part-name>
            <score-instrument id="I1"><instrument-name>Horn</instrument-name></score-instrument>
            <midi-instrument id="I1"><midi-channel>10</midi-channel></midi-instrument>
          </score-part>
        </part-list>
        <part id="P1">
          <measure number="1" implicit="yes">
            <attributes>
              <divisions>12</divisions>
              <key><fifths>-3</fifths><mode>minor</mode></key>
              <key number="2"><key-step>F</key-step><key-alter>0.5</key-alter></key>
              <time><beats>3+2</beats><beat-type>8</beat-type></time>
              <time number="2"><senza-misura/></time>
              <staves>2</staves>
              <clef number="1"><sign>G</sign><line>2</line>
                <clef-octave-change>-1</clef-octave-change></clef>
              <clef><sign>none</sign></clef>
              <transpose number="1"><diatonic>-1</diatonic><chromatic>-2</chromatic>
                <octave-change>+1</octave-change><double/></transpose>
              <measure-style number="1"><slash type="start"/></measure-style>
              <measure-style><measure-repeat type="stop">2</measure-repeat></measure-style>
            </attributes>
            <harmony type="alternate">
              <root><root-step>B</root-step><root-alter>-1</root-alter></root>
              <kind text=" maj  7 ">major-seventh</kind>
              <inversion>2</inversion>
              <bass><bass-step>D</bass-step><bass-alter>0</bass-alter></bass>
              <degree><degree-value>9</degree-value><degree-alter>-1</degree-alter>
                <degree-type>add</degree-type></degree>
              <degree><degree-value>5</degree-value></degree>
              <offset>-3</offset><staff>2</staff>
            </harmony>
            <harmony>
              <numeral><numeral-root>5</numeral-root><numeral-alter>1</numeral-alter>
                <numeral-key><numeral-fifths>2</numeral-fifths>
                  <numeral-mode>harmonic minor</numeral-mode></numeral-key></numeral>
              <kind>something else</kind>
            </harmony>
            <harmony><function>V</function><kind>dominant</kind></harmony>
            <direction>
              <direction-type><rehearsal>A</rehearsal><rehearsal>B</rehearsal></direction-type>
              <direction-type><segno/><segno/></direction-type>
              <direction-type><coda/></direction-type>
              <direction-type><words>Fine</words><words/></direction-type>
              <direction-type><dashes type="start" number="2"/></direction-type>
              <direction-type><bracket type="stop"/></direction-type>
              <direction-type><metronome><beat-unit>half</beat-unit><beat-unit-dot/>
                <beat-unit>eighth</beat-unit></metronome></direction-type>
              <direction-type><metronome><beat-unit>quarter</beat-unit>
                <per-minute>c. 120</per-minute></metronome></direction-type>
              <offset>6</offset><staff>1</staff>
              <sound tempo="121.50" dacapo="yes" segno=" s  1 " dalsegno="s" coda="c" tocoda="c"
                forward-repeat="no" fine="yes" time-only="1, 2"><offset>2</offset></sound>
            </direction>
            <sound tempo="90"/>
            <note>
              <grace slash="yes"/>
              <pitch><step>C</step><alter>1</alter><octave>5</octave></pitch>
              <voice>1</voice><type>eighth</type>
            </note>
            <note time-only="1" print-object="no">
              <pitch><step>E</step><alter>-0.5</alter><octave>4</octave></pitch>
              <duration>4.0</duration><tie type="start"/><tie type="stop"/><tie/>
              <voice>second</voice><type>eighth</type><dot/><dot/>
              <time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes>
              </time-modification>
              <notehead parentheses="yes">x</notehead><staff>2</staff>
              <notations>
                <tied type="let-ring"/><slur type="start" number="3"/><slur type="stop"/>
                <articulations><accent/><breath-mark/><caesura/><other-articulation/>
                </articulations><fermata/>
              </notations>
              <notations/>
              <lyric><syllabic>begin</syllabic><text>Lo</text><elision> </elision>
                <syllabic>end</syllabic><text>o</text><extend/></lyric>
              <lyric number="2"><extend/></lyric>
            </note>
            <note><chord/><unpitched/><duration>4</duration></note>
            <note><cue/><rest measure="yes"/><duration>012</duration><voice/></note>
            <note><rest/><duration>+1.25</duration></note>
            <backup><duration>12</duration></backup>
            <forward><duration>6</duration></forward>
            <barline location="left" segno="s" coda="c">
              <bar-style>heavy-light</bar-style><segno/><coda/>
              <ending number="1, 2" type="discontinue"/>
              <repeat direction="backward" times="3" after-jump="no"/>
            </barline>
            <barline/>
          </measure>
          <measure number="2"/>
        </part>
      </score-partwise>
      """;

  private static final List<String> ATTRIBUTES =
      List.of(
          "after-jump",
          "coda",
          "dacapo",
          "dalsegno",
          "direction",
          "fine",
          "font-size",
          "forward-repeat",
          "halign",
          "id",
          "implicit",
          "justify",
          "location",
          "measure",
          "name",
          "number",
          "page",
          "parentheses",
          "print-object",
          "segno",
          "slash",
          "tempo",
          "text",
          "time-only",
          "times",
          "tocoda",
          "type");

  private static JAXBContext jaxb;

  @BeforeAll
  static void buildContext() throws Exception {
    jaxb = JAXBContext.newInstance(ScorePartwise.class);
  }

  @Test
  void everyElementThatIsReadBecomesWhatJaxbMakesOfIt() throws Exception {
    assertThat(differences(EVERYTHING.getBytes(StandardCharsets.UTF_8))).isEmpty();
  }

  @Test
  void aDifferenceIsSeen() throws Exception {
    byte[] quarters = "<duration>4</duration>".getBytes(StandardCharsets.UTF_8);
    Object ours = contents(note(quarters)).get(0);
    Object other = contents(note("<duration>5</duration>".getBytes(StandardCharsets.UTF_8))).get(0);
    List<String> found = new ArrayList<>();

    compare("note", ours, other, found);

    assertThat(found).containsExactly("note.duration: 4 and 5");
  }

  @Test
  void theSampleCorpusBecomesWhatJaxbMakesOfIt() throws Exception {
    Path corpus = Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");

    assertThat(differences(scores(corpus))).isEmpty();
  }

  @Test
  void theMusicXmlTestSuiteBecomesWhatJaxbMakesOfIt() throws Exception {
    Path suite = SharedFolder.existing("reference/musicxml-suite/input/xmlFiles");

    assertThat(differences(scores(suite))).isEmpty();
  }

  private static List<Path> scores(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(path -> path.toString().matches(".*\\.(musicxml|xml)")).sorted().toList();
    }
  }

  private static Map<String, List<String>> differences(List<Path> scores) throws Exception {
    Map<String, List<String>> found = new TreeMap<>();
    int compared = 0;
    for (Path score : scores) {
      byte[] document = Files.readAllBytes(score);
      boolean read = SoloReader.read(document, "solo.xml", ReadSettings.defaults()).isRead();
      if (read && stream(document).root().equals(ScoreElements.PARTWISE)) {
        compared++;
        List<String> here = differences(document);
        if (!here.isEmpty()) {
          found.put(score.getFileName().toString(), here);
        }
      }
    }
    assertThat(compared).isPositive();
    return found;
  }

  private static List<String> differences(byte[] document) throws Exception {
    ScorePartwise theirs =
        (ScorePartwise) jaxb.createUnmarshaller().unmarshal(new StringReader(filtered(document)));
    List<String> found = new ArrayList<>();
    ScoreStream stream = stream(document);
    ScoreBinding binding = new ScoreBinding(stream);
    stream.root();
    stream.next();
    int part = -1;
    int bar = 0;
    int credit = 0;
    while (!stream.isAtEndOfDocument()) {
      if (!stream.isAtStart()) {
        stream.next();
        continue;
      }
      switch (stream.name()) {
        case "work" -> compare("work", binding.work(), theirs.getWork(), found);
        case "identification" ->
            compare("identification", binding.identification(), theirs.getIdentification(), found);
        case "credit" ->
            compare("credit", binding.credit(), theirs.getCredit().get(credit++), found);
        case "defaults" -> compare("defaults", binding.defaults(), theirs.getDefaults(), found);
        case "part-list" -> compare("parts", binding.partList(), theirs.getPartList(), found);
        case "part" -> {
          part++;
          bar = 0;
          stream.next();
        }
        case "measure" -> {
          List<Object> expected =
              theirs.getPart().get(part).getMeasure().get(bar++).getNoteOrBackupOrForward();
          compare("bar " + stream.bar(), binding.contents(), expected, found);
        }
        default -> stream.passOver();
      }
    }
    return found;
  }

  private static byte[] note(byte[] inside) {
    return ("<score-partwise><part id='P1'><measure number='1'><note>"
            + new String(inside, StandardCharsets.UTF_8)
            + "</note></measure></part></score-partwise>")
        .getBytes(StandardCharsets.UTF_8);
  }

  private static List<Object> contents(byte[] document) throws Exception {
    ScoreStream stream = stream(document);
    stream.root();
    while (!stream.isAtStart() || !stream.name().equals("measure")) {
      stream.next();
    }
    return new ScoreBinding(stream).contents();
  }

  private static ScoreStream stream(byte[] document) throws Exception {
    return new ScoreStream(
        MusicXmlReader.rawStream(document), ReadSettings.defaults(), new ProblemLog());
  }

  /** What the stream lets through, as XML. */
  private static String filtered(byte[] document) throws Exception {
    ScoreStream stream = stream(document);
    stream.root();
    StringBuilder xml = new StringBuilder();
    write(stream, xml);
    return xml.toString();
  }

  private static void write(ScoreStream stream, StringBuilder xml) throws Exception {
    String name = stream.name();
    xml.append('<').append(name);
    for (String attribute : ATTRIBUTES) {
      String value = stream.attribute(attribute);
      if (value != null) {
        xml.append(' ').append(attribute).append("=\"").append(escaped(value)).append('"');
      }
    }
    xml.append('>');
    if (stream.hasValue()) {
      xml.append(escaped(stream.text()));
    } else {
      stream.next();
      while (stream.isAtStart()) {
        write(stream, xml);
      }
      stream.next();
    }
    xml.append("</").append(name).append('>');
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace("\"", "&quot;")
        .replace("\r", "&#13;")
        .replace("\n", "&#10;")
        .replace("\t", "&#9;");
  }

  private static void compare(String place, Object ours, Object theirs, List<String> found)
      throws IllegalAccessException {
    Object first = present(ours);
    Object second = present(theirs);
    if (first == null || second == null) {
      if (first != second) {
        found.add(place + ": " + first + " and " + second);
      }
    } else if (first instanceof List<?> list && second instanceof List<?> other) {
      if (list.size() != other.size()) {
        found.add(place + ": " + list.size() + " and " + other.size());
        return;
      }
      for (int i = 0; i < list.size(); i++) {
        compare(place + "[" + i + "]", list.get(i), other.get(i), found);
      }
    } else if (first instanceof JAXBElement<?> element && second instanceof JAXBElement<?> other) {
      compare(place, element.getName().getLocalPart(), other.getName().getLocalPart(), found);
      if (other.getValue() instanceof String) {
        compare(place, element.getValue(), other.getValue(), found);
      }
    } else if (first.getClass() != second.getClass()) {
      found.add(place + ": " + first.getClass() + " and " + second.getClass());
    } else if (!first.getClass().getName().startsWith("org.audiveris.")
        || first.getClass().isEnum()) {
      if (!first.equals(second)) {
        found.add(place + ": " + first + " and " + second);
      }
    } else {
      for (Field field : first.getClass().getDeclaredFields()) {
        if (!Modifier.isStatic(field.getModifiers())) {
          field.setAccessible(true);
          compare(place + "." + field.getName(), field.get(first), field.get(second), found);
        }
      }
    }
  }

  /** An empty list is no list, an empty text no text: the getters do not tell them apart. */
  private static Object present(Object value) {
    return value instanceof List<?> list && list.isEmpty()
            || value instanceof String text && text.isEmpty()
        ? null
        : value;
  }
}
