package phrasecensus.music.analysis;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.SAXException;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordAlteration;
import phrasecensus.music.chord.ChordKind;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.time.Fraction;

/**
 * The 220 solos with human annotations that may lie beside the project. A reader for these plain
 * files only: one part, one voice, concert pitch; ties joined.
 */
public final class DevelopmentSolos {
  private DevelopmentSolos() {}

  /** The folder, if it is there. */
  public static Optional<Path> folder() {
    Path folder = Path.of(System.getProperty("project.root", "."), "..", "shared", "data", "solos");
    return Optional.of(folder).filter(Files::isDirectory);
  }

  /** Rows of a table by the first column; cells may be quoted. */
  public static Map<String, Map<String, String>> table(Path file) {
    try {
      List<String> lines = Files.readAllLines(file, StandardCharsets.UTF_8);
      List<String> names = cells(lines.get(0));
      Map<String, Map<String, String>> rows = new TreeMap<>();
      for (String line : lines.subList(1, lines.size())) {
        List<String> cells = cells(line);
        Map<String, String> row = new LinkedHashMap<>();
        for (int i = 0; i < names.size(); i++) {
          row.put(names.get(i), cells.get(i));
        }
        rows.put(cells.get(0), row);
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** First and last note of the human phrases, by song. */
  static Map<String, List<int[]>> phrases(Path folder) {
    try {
      List<String> lines =
          Files.readAllLines(folder.resolve("phrases.csv"), StandardCharsets.UTF_8);
      List<String> names = cells(lines.get(0));
      Map<String, List<int[]>> phrases = new TreeMap<>();
      for (String line : lines.subList(1, lines.size())) {
        List<String> cells = cells(line);
        phrases
            .computeIfAbsent(cells.get(0), song -> new ArrayList<>())
            .add(
                new int[] {
                  Integer.parseInt(cells.get(names.indexOf("note_index"))),
                  Integer.parseInt(cells.get(names.indexOf("end_note_index")))
                });
      }
      return phrases;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The chords of the first whole chorus of a solo, without notes and marks: a chart.
   *
   * @param form the form that people gave, as in {@code (A1,8), (B1,8)}
   */
  public static Optional<Solo> oneChorus(Solo solo, String form) {
    int bars = 0;
    Matcher sections = Pattern.compile("\\(([^,]+),(\\d+)\\)").matcher(form);
    String first = null;
    while (sections.find()) {
      first = first == null ? sections.group(1) : first;
      bars += Integer.parseInt(sections.group(2));
    }
    for (Mark mark : solo.marks()) {
      int from = solo.barAt(mark.onset()).index();
      if (mark.kind() == Mark.Kind.REHEARSAL
          && mark.text().equals(first)
          && from + bars <= solo.bars().size()) {
        return Optional.of(chart(solo, from, from + bars));
      }
    }
    return Optional.empty();
  }

  private static Solo chart(Solo solo, int from, int to) {
    Fraction start = solo.bars().get(from).onset();
    Fraction end = solo.bars().get(to - 1).end();
    List<Bar> bars = new ArrayList<>();
    for (Bar bar : solo.bars().subList(from, to)) {
      Fraction onset = bar.onset().minus(start);
      bars.add(
          new Bar(
              bars.size(),
              bar.number(),
              onset,
              bar.length(),
              bar.metre(),
              bar.metricalOffset(),
              false));
    }
    List<ChordSpan> chords = new ArrayList<>();
    for (ChordSpan span : solo.chords()) {
      if (span.end().isAfter(start) && span.onset().isBefore(end)) {
        chords.add(
            new ChordSpan(
                Fraction.larger(span.onset(), start).minus(start),
                Fraction.smaller(span.end(), end).minus(start),
                span.concert(),
                span.written(),
                span.text()));
      }
    }
    return new Solo(
        solo.description(),
        bars,
        List.of(),
        List.of(),
        chords,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  private static List<String> cells(String line) {
    List<String> cells = new ArrayList<>();
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (char c : line.toCharArray()) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.add(cell.toString());
        cell.setLength(0);
      } else {
        cell.append(c);
      }
    }
    cells.add(cell.toString());
    return cells;
  }

  public static Solo read(Path file) {
    try (InputStream bytes = Files.newInputStream(file)) {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
      Element score = factory.newDocumentBuilder().parse(bytes).getDocumentElement();
      return solo(first(score, "part"));
    } catch (IOException | SAXException | ParserConfigurationException e) {
      throw new IllegalStateException("Cannot read " + file, e);
    }
  }

  private record Symbol(Fraction onset, Chord chord) {}

  private static Solo solo(Element part) {
    List<Bar> bars = new ArrayList<>();
    List<Note> notes = new ArrayList<>();
    List<Symbol> symbols = new ArrayList<>();
    List<Mark> marks = new ArrayList<>();
    Fraction at = Fraction.ZERO;
    long divisions = 1;
    Metre metre = Metre.FREE;
    for (Element measure : children(part)) {
      Fraction start = at;
      for (Element element : children(measure)) {
        switch (element.getTagName()) {
          case "attributes" -> {
            divisions = number(element, "divisions", (int) divisions);
            Element time = first(element, "time");
            if (time != null) {
              metre = Metre.of(number(time, "beats", 4), number(time, "beat-type", 4));
            }
          }
          case "direction" -> {
            Element rehearsal = first(element, "rehearsal");
            if (rehearsal != null) {
              marks.add(new Mark(Mark.Kind.REHEARSAL, at, at, rehearsal.getTextContent()));
            }
          }
          case "harmony" ->
              symbols.add(
                  new Symbol(
                      at.plus(Fraction.of(number(element, "offset", 0), divisions)),
                      chord(element)));
          case "note" -> {
            Fraction length = Fraction.of(number(element, "duration", 0), divisions);
            if (first(element, "pitch") != null) {
              addNote(notes, element, at, length, bars.size());
            }
            at = at.plus(length);
          }
          default -> {}
        }
      }
      Fraction length = at.minus(start);
      boolean pickup = bars.isEmpty() && length.isBefore(metre.barLength());
      bars.add(
          new Bar(
              bars.size(),
              measure.getAttribute("number"),
              start,
              length,
              metre,
              pickup ? metre.barLength().minus(length) : Fraction.ZERO,
              pickup));
    }
    return new Solo(
        new SoloDescription("", Map.of(), Map.of(), "P1", "", "", "only part", "same part"),
        bars,
        notes,
        List.of(),
        spans(symbols, at),
        List.of(),
        List.of(),
        marks,
        List.of(),
        List.of());
  }

  private static void addNote(
      List<Note> notes, Element element, Fraction onset, Fraction length, int bar) {
    boolean continues = false;
    for (Element child : children(element)) {
      continues |= child.getTagName().equals("tie") && child.getAttribute("type").equals("stop");
    }
    Element pitch = first(element, "pitch");
    int last = notes.size() - 1;
    if (continues && last >= 0) {
      Note tied = notes.get(last);
      notes.set(
          last,
          Note.plain(
              last, tied.onset(), tied.length().plus(length), tied.concert(), tied.barIndex()));
    } else {
      notes.add(
          Note.plain(
              notes.size(),
              onset,
              length,
              Pitch.of(
                  Step.valueOf(first(pitch, "step").getTextContent()),
                  number(pitch, "alter", 0),
                  number(pitch, "octave", 4)),
              bar));
    }
  }

  private static List<ChordSpan> spans(List<Symbol> symbols, Fraction end) {
    List<ChordSpan> spans = new ArrayList<>();
    symbols.sort(java.util.Comparator.comparing(Symbol::onset));
    for (int i = 0; i < symbols.size(); i++) {
      Chord chord = symbols.get(i).chord();
      Fraction next = i + 1 < symbols.size() ? symbols.get(i + 1).onset() : end;
      if (next.isAfter(symbols.get(i).onset())) {
        spans.add(new ChordSpan(symbols.get(i).onset(), next, chord, chord, ""));
      }
    }
    return spans;
  }

  private static Chord chord(Element harmony) {
    ChordKind kind = ChordKind.named(first(harmony, "kind").getTextContent()).orElseThrow();
    List<ChordAlteration> alterations = new ArrayList<>();
    for (Element child : children(harmony)) {
      if (child.getTagName().equals("degree")) {
        alterations.add(
            new ChordAlteration(
                ChordAlteration.Type.valueOf(
                    first(child, "degree-type")
                        .getTextContent()
                        .toUpperCase(java.util.Locale.ROOT)),
                number(child, "degree-value", 1),
                number(child, "degree-alter", 0)));
      }
    }
    return new Chord(
        kind == ChordKind.NONE ? null : name(first(harmony, "root"), "root"),
        kind,
        alterations,
        name(first(harmony, "bass"), "bass"));
  }

  private static NoteName name(Element element, String what) {
    return element == null
        ? null
        : new NoteName(
            Step.valueOf(first(element, what + "-step").getTextContent()),
            number(element, what + "-alter", 0));
  }

  private static int number(Element parent, String name, int absent) {
    Element element = first(parent, name);
    return element == null ? absent : Integer.parseInt(element.getTextContent().trim());
  }

  private static Element first(Element parent, String name) {
    return (Element) parent.getElementsByTagName(name).item(0);
  }

  private static List<Element> children(Element parent) {
    List<Element> children = new ArrayList<>();
    for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element element) {
        children.add(element);
      }
    }
    return children;
  }
}
