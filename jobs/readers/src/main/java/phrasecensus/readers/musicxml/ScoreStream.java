package phrasecensus.readers.musicxml;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.Refusal;

/**
 * A score as the binding may see it: only elements and attributes with an {@link ElementRule},
 * without name spaces, every value checked. An invalid value is a problem and is not passed on; the
 * binding would turn it into null or zero without a word.
 *
 * <p>Two facts go past the binding, which cannot carry them: notes whose pitch lacks a step or an
 * octave, and the words of chord kinds outside the standard.
 */
final class ScoreStream extends StreamReaderDelegate {
  private static final int CHECK_EVERY = 4096;
  private static final int LONGEST_SHOWN = 60;

  private final ProblemLog problems;
  private final long mostElements;
  private final long deepest;
  private final long mostMillis;
  private final long startedAt = System.nanoTime();
  private final Set<String> spacesReported = new HashSet<>();

  private ElementRule[] open = new ElementRule[16];
  private int[] seen = new int[16];
  private int depth;
  private int rawDepth;
  private long elements;

  private ElementRule current;
  private int event = XMLStreamConstants.START_DOCUMENT;

  /** The leaf whose events are being given out; null between leaves. */
  private ElementRule leaf;

  private char[] text = new char[256];
  private int textStart;
  private int textLength;
  private boolean withText;

  private String[] attributeNames = new String[16];
  private String[] attributeValues = new String[16];
  private int attributeCount;

  private String part = "";
  private String bar = "";
  private int notes;
  private final BitSet pitchless = new BitSet();
  private final Deque<String> foreignKinds = new ArrayDeque<>();

  ScoreStream(XMLStreamReader reader, ReadSettings settings, ProblemLog problems) {
    super(reader);
    this.problems = problems;
    this.mostElements = settings.limit(Limit.ELEMENT_COUNT);
    this.deepest = settings.limit(Limit.NESTING_DEPTH);
    this.mostMillis = settings.limit(Limit.READING_TIME);
  }

  /** Moves to the root element and gives its local name. */
  String root() throws XMLStreamException {
    while (super.next() != XMLStreamConstants.START_ELEMENT) {
      // Comments, processing instructions and the document type are of no interest.
    }
    String name = super.getLocalName();
    ElementRule rule = ScoreElements.root(name);
    if (rule != null) {
      rawDepth = 1;
      push(rule);
      captureAttributes(rule);
      event = XMLStreamConstants.START_ELEMENT;
    }
    return name;
  }

  /** Forgets what was noted about the last bar's contents. */
  void startContents() {
    notes = 0;
    pitchless.clear();
    foreignKinds.clear();
  }

  /** True when the pitch of a note lacks a valid step or octave. */
  boolean isPitchless(int noteInBar) {
    return pitchless.get(noteInBar);
  }

  /** The next text of a {@code kind} outside the standard, trimmed; empty for one without text. */
  String nextForeignKind() {
    return foreignKinds.isEmpty() ? "" : foreignKinds.removeFirst();
  }

  /** The value of an attribute of the current start element, or null. */
  String attribute(String name) {
    for (int i = 0; i < attributeCount; i++) {
      if (attributeNames[i].equals(name)) {
        return attributeValues[i];
      }
    }
    return null;
  }

  void checkTime() {
    if ((System.nanoTime() - startedAt) / 1_000_000 > mostMillis) {
      throw Refusal.beyond(Limit.READING_TIME, mostMillis);
    }
  }

  String part() {
    return part;
  }

  String bar() {
    return bar;
  }

  @Override
  public int next() throws XMLStreamException {
    if (leaf != null) {
      return nextOfLeaf();
    }
    while (true) {
      int raw = super.next();
      switch (raw) {
        case XMLStreamConstants.START_ELEMENT -> {
          if (startElement()) {
            return event;
          }
        }
        case XMLStreamConstants.END_ELEMENT -> {
          rawDepth--;
          current = open[--depth];
          if (current.required != 0) {
            checkRequired();
          }
          event = XMLStreamConstants.END_ELEMENT;
          return event;
        }
        case XMLStreamConstants.END_DOCUMENT -> {
          event = raw;
          return event;
        }
        case XMLStreamConstants.ENTITY_REFERENCE -> reportEntity();
        default -> {
          // White space, comments and stray text carry no music.
        }
      }
    }
  }

  private int nextOfLeaf() {
    if (event == XMLStreamConstants.START_ELEMENT && withText) {
      event = XMLStreamConstants.CHARACTERS;
    } else {
      event = XMLStreamConstants.END_ELEMENT;
      leaf = null;
    }
    return event;
  }

  /** True when the element is given out; otherwise it is already skipped. */
  private boolean startElement() throws XMLStreamException {
    countElement();
    ElementRule parent = open[depth - 1];
    ElementRule rule = parent.child(super.getLocalName());
    if (rule == null) {
      skip();
      return false;
    }
    if (rule.bit != 0) {
      if ((seen[depth - 1] & rule.bit) != 0) {
        problems.add(
            part,
            bar,
            "repeated-element",
            "'" + parent.name + "' holds more than one '" + rule.name + "'",
            "the first one counts");
        skip();
        return false;
      }
    }
    captureAttributes(rule);
    if (rule.value != null) {
      return startLeaf(rule, parent);
    }
    seen[depth - 1] |= rule.bit;
    rawDepth++;
    push(rule);
    if (rule.name.equals("note")) {
      notes++;
    } else if (rule.name.equals("measure")) {
      bar = attributeOrEmpty("number");
    } else if (rule.name.equals("part")) {
      part = attributeOrEmpty("id");
    }
    event = XMLStreamConstants.START_ELEMENT;
    return true;
  }

  private boolean startLeaf(ElementRule rule, ElementRule parent) throws XMLStreamException {
    collectText();
    if (!rule.value.isText() && !isValid(rule)) {
      if (!rule.name.equals("kind")) {
        problems.add(
            part,
            bar,
            "invalid-value",
            "'" + rule.name + "' of '" + parent.name + "' is '" + shown() + "'",
            rule.consequence);
        if ((parent.required & rule.bit) != 0) {
          pitchless.set(notes - 1);
          seen[depth - 1] |= rule.bit;
        }
        return false;
      }
      foreignKinds.add(shown());
      textLength = 0;
    }
    seen[depth - 1] |= rule.bit;
    withText = textLength > 0;
    leaf = rule;
    current = rule;
    event = XMLStreamConstants.START_ELEMENT;
    return true;
  }

  private boolean isValid(ElementRule rule) {
    int before = textLength;
    while (textLength > 0 && text[textStart + textLength - 1] <= ' ') {
      textLength--;
    }
    while (textLength > 0 && text[textStart] <= ' ') {
      textStart++;
      textLength--;
    }
    if (textLength != before && spacesReported.add(rule.name)) {
      problems.add(
          part,
          bar,
          "white-space-in-value",
          "white space around the value of '" + rule.name + "'",
          "it is taken away, here and further on");
    }
    return rule.value.accepts(text, textStart, textLength);
  }

  private String shown() {
    return shown(new String(text, textStart, Math.min(textLength, LONGEST_SHOWN + 1)));
  }

  private static String shown(String value) {
    return PlainText.of(value, LONGEST_SHOWN);
  }

  private void collectText() throws XMLStreamException {
    textStart = 0;
    textLength = 0;
    while (true) {
      switch (super.next()) {
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
          int length = super.getTextLength();
          if (textLength + length > text.length) {
            text = Arrays.copyOf(text, Math.max(textLength + length, 2 * text.length));
          }
          System.arraycopy(
              super.getTextCharacters(), super.getTextStart(), text, textLength, length);
          textLength += length;
        }
        case XMLStreamConstants.START_ELEMENT -> {
          countElement();
          skip();
        }
        case XMLStreamConstants.END_ELEMENT -> {
          return;
        }
        case XMLStreamConstants.ENTITY_REFERENCE -> reportEntity();
        default -> {
          // Comments and processing instructions are no text.
        }
      }
    }
  }

  private void skip() throws XMLStreamException {
    int inside = 1;
    while (inside > 0) {
      int raw = super.next();
      if (raw == XMLStreamConstants.START_ELEMENT) {
        countElement();
        inside++;
        if (rawDepth + inside > deepest) {
          throw Refusal.beyond(Limit.NESTING_DEPTH, deepest);
        }
      } else if (raw == XMLStreamConstants.END_ELEMENT) {
        inside--;
      }
    }
  }

  private void countElement() {
    if (++elements > mostElements) {
      throw Refusal.beyond(Limit.ELEMENT_COUNT, mostElements);
    }
    if (elements % CHECK_EVERY == 0) {
      checkTime();
    }
  }

  private void checkRequired() {
    if ((seen[depth] & current.required) != current.required) {
      pitchless.set(notes - 1);
      problems.add(
          part,
          bar,
          "pitch-not-complete",
          "a pitch without a step or without an octave",
          "the note is kept as an onset without pitch");
    }
  }

  private void reportEntity() {
    problems.add(
        part,
        bar,
        "entity-not-expanded",
        "a reference to the entity '" + shown(String.valueOf(super.getLocalName())) + "'",
        "entities are never expanded; the text is read without it");
  }

  private void captureAttributes(ElementRule rule) {
    attributeCount = 0;
    if (rule.attributes.length == 0) {
      return;
    }
    int count = super.getAttributeCount();
    for (int i = 0; i < count; i++) {
      String name = super.getAttributeLocalName(i);
      for (ElementRule.Attribute attribute : rule.attributes) {
        if (attribute.name().equals(name)) {
          keep(rule, attribute, super.getAttributeValue(i));
          break;
        }
      }
    }
  }

  private void keep(ElementRule rule, ElementRule.Attribute attribute, String value) {
    String kept = value;
    if (!attribute.value().accepts(value)) {
      kept = value.strip();
      if (!attribute.value().accepts(kept)) {
        problems.add(
            part,
            bar,
            "invalid-value",
            "'" + attribute.name() + "' of '" + rule.name + "' is '" + shown(value) + "'",
            attribute.consequence());
        return;
      }
    }
    for (int i = 0; i < attributeCount; i++) {
      if (attributeNames[i].equals(attribute.name())) {
        return; // the same local name in another name space
      }
    }
    attributeNames[attributeCount] = attribute.name();
    attributeValues[attributeCount++] = kept;
  }

  private String attributeOrEmpty(String name) {
    String value = attribute(name);
    return value == null ? "" : shown(value);
  }

  private void push(ElementRule rule) {
    open[depth] = rule;
    seen[depth] = 0;
    depth++;
    current = rule;
  }

  @Override
  public int getEventType() {
    return event;
  }

  @Override
  public String getLocalName() {
    return current.name;
  }

  @Override
  public String getNamespaceURI() {
    return "";
  }

  @Override
  public String getPrefix() {
    return "";
  }

  @Override
  public int getNamespaceCount() {
    return 0;
  }

  @Override
  public int getAttributeCount() {
    return attributeCount;
  }

  @Override
  public String getAttributeNamespace(int index) {
    return "";
  }

  @Override
  public String getAttributePrefix(int index) {
    return "";
  }

  @Override
  public String getAttributeLocalName(int index) {
    return attributeNames[index];
  }

  @Override
  public String getAttributeValue(int index) {
    return attributeValues[index];
  }

  @Override
  public String getAttributeType(int index) {
    return "CDATA";
  }

  @Override
  public char[] getTextCharacters() {
    return text;
  }

  @Override
  public int getTextStart() {
    return textStart;
  }

  @Override
  public int getTextLength() {
    return textLength;
  }

  @Override
  public boolean isStartElement() {
    return event == XMLStreamConstants.START_ELEMENT;
  }

  @Override
  public boolean isEndElement() {
    return event == XMLStreamConstants.END_ELEMENT;
  }

  @Override
  public boolean hasNext() {
    return event != XMLStreamConstants.END_DOCUMENT;
  }

  /** All names given out are interned constants, which spares the binding to intern them. */
  @Override
  public Object getProperty(String name) {
    return name.startsWith("org.codehaus.stax2.intern") ? Boolean.TRUE : super.getProperty(name);
  }
}
