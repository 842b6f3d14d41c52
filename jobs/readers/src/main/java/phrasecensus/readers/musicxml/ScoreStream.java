package phrasecensus.readers.musicxml;

import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import phrasecensus.grammar.ElementRule;
import phrasecensus.grammar.ScoreElements;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.Refusal;

/**
 * A score as {@link ScoreBinding} may see it: only elements and attributes with an {@link
 * ElementRule}, without name spaces, every value checked. An invalid value is a problem and is not
 * passed on.
 *
 * <p>The stream stands at the start or end of an element. An element with a value is met once: its
 * value is asked for, which moves on behind its end.
 *
 * <p>Two facts go past ProxyMusic's objects, which cannot carry them: notes whose pitch lacks a
 * step or an octave, and the words of chord kinds outside the standard.
 */
final class ScoreStream {
  private static final int CHECK_EVERY = 4096;
  private static final int LONGEST_SHOWN = 60;

  private final XMLStreamReader raw;
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

  private char[] text = new char[256];
  private int textStart;
  private int textLength;

  /** The word of the rule that the text is, or null. */
  private String word;

  private String[] attributeNames = new String[16];
  private String[] attributeValues = new String[16];
  private int attributeCount;

  private String part = "";
  private String bar = "";
  private int notes;
  private final BitSet pitchless = new BitSet();
  private final Deque<String> foreignKinds = new ArrayDeque<>();

  ScoreStream(XMLStreamReader reader, ReadSettings settings, ProblemLog problems) {
    this.raw = reader;
    this.problems = problems;
    this.mostElements = settings.limit(Limit.ELEMENT_COUNT);
    this.deepest = settings.limit(Limit.NESTING_DEPTH);
    this.mostMillis = settings.limit(Limit.READING_TIME);
  }

  /** Moves to the root element and gives its local name. */
  String root() throws XMLStreamException {
    while (raw.next() != XMLStreamConstants.START_ELEMENT) {
      // Comments, processing instructions and the document type are of no interest.
    }
    String name = raw.getLocalName();
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

  /** A text as a token of XML Schema: no white space but single spaces inside. */
  static String token(String text) {
    boolean changes = false;
    boolean gap = true;
    for (int i = 0; i < text.length() && !changes; i++) {
      char c = text.charAt(i);
      changes = c == ' ' && gap || c == '\t' || c == '\n' || c == '\r';
      gap = c == ' ';
    }
    if (text.isEmpty() || !changes && !gap) {
      return text;
    }
    StringBuilder token = new StringBuilder(text.length());
    for (String word : text.split("[ \t\n\r]+")) {
      token.append(token.isEmpty() || word.isEmpty() ? "" : " ").append(word);
    }
    return token.toString();
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

  /** Moves to the next start or end of an element, or to the end of the document. */
  void next() throws XMLStreamException {
    while (true) {
      switch (raw.next()) {
        case XMLStreamConstants.START_ELEMENT -> {
          if (startElement()) {
            return;
          }
        }
        case XMLStreamConstants.END_ELEMENT -> {
          rawDepth--;
          current = open[--depth];
          if (current.required() != 0) {
            checkRequired();
          }
          event = XMLStreamConstants.END_ELEMENT;
          return;
        }
        case XMLStreamConstants.END_DOCUMENT -> {
          event = XMLStreamConstants.END_DOCUMENT;
          return;
        }
        case XMLStreamConstants.ENTITY_REFERENCE -> reportEntity();
        default -> {
          // White space, comments and stray text carry no music.
        }
      }
    }
  }

  boolean isAtStart() {
    return event == XMLStreamConstants.START_ELEMENT;
  }

  boolean isAtEnd() {
    return event == XMLStreamConstants.END_ELEMENT;
  }

  boolean isAtEndOfDocument() {
    return event == XMLStreamConstants.END_DOCUMENT;
  }

  /** The interned name of the element. */
  String name() {
    return current.name;
  }

  /** True at the start of an element that has a value and no elements in it. */
  boolean hasValue() {
    return current.value != null;
  }

  /** Moves behind the end of the element that starts here. */
  void passOver() throws XMLStreamException {
    if (!hasValue()) {
      int outside = depth - 1;
      do {
        next();
      } while (depth > outside);
    }
    next();
  }

  /** The value of the element that starts here; moves on behind its end. */
  String text() throws XMLStreamException {
    String value = word == null ? new String(text, textStart, textLength) : word;
    next();
    return value;
  }

  /** The value of an element whose rule asks for a decimal number; moves on behind its end. */
  BigDecimal decimal() throws XMLStreamException {
    BigDecimal value = new BigDecimal(text, textStart, textLength);
    next();
    return value;
  }

  /** The value of an element whose rule asks for a whole number; moves on behind its end. */
  int whole() throws XMLStreamException {
    int value = 0;
    for (int i = textStart; i < textStart + textLength; i++) {
      if (text[i] >= '0') {
        value = 10 * value + text[i] - '0';
      }
    }
    value = text[textStart] == '-' ? -value : value;
    next();
    return value;
  }

  /** True when the element is given out; otherwise it is already skipped. */
  private boolean startElement() throws XMLStreamException {
    countElement();
    ElementRule parent = open[depth - 1];
    ElementRule rule = parent.child(raw.getLocalName());
    if (rule == null) {
      skip();
      return false;
    }
    if (rule.bit() != 0) {
      if ((seen[depth - 1] & rule.bit()) != 0) {
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
    seen[depth - 1] |= rule.bit();
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
    word = null;
    if (!rule.value.isText() && !isValid(rule)) {
      if (!rule.name.equals("kind")) {
        problems.add(
            part,
            bar,
            "invalid-value",
            "'" + rule.name + "' of '" + parent.name + "' is '" + shown() + "'",
            rule.consequence);
        if ((parent.required() & rule.bit()) != 0) {
          pitchless.set(notes - 1);
          seen[depth - 1] |= rule.bit();
        }
        return false;
      }
      foreignKinds.add(shown());
      textLength = 0;
    }
    seen[depth - 1] |= rule.bit();
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
    word = rule.value.word(text, textStart, textLength);
    return word != null || rule.value.accepts(text, textStart, textLength);
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
      switch (raw.next()) {
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
          int length = raw.getTextLength();
          if (textLength + length > text.length) {
            text = Arrays.copyOf(text, Math.max(textLength + length, 2 * text.length));
          }
          System.arraycopy(raw.getTextCharacters(), raw.getTextStart(), text, textLength, length);
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
      int found = raw.next();
      if (found == XMLStreamConstants.START_ELEMENT) {
        countElement();
        inside++;
        if (rawDepth + inside > deepest) {
          throw Refusal.beyond(Limit.NESTING_DEPTH, deepest);
        }
      } else if (found == XMLStreamConstants.END_ELEMENT) {
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
    if ((seen[depth] & current.required()) != current.required()) {
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
        "a reference to the entity '" + shown(String.valueOf(raw.getLocalName())) + "'",
        "entities are never expanded; the text is read without it");
  }

  private void captureAttributes(ElementRule rule) {
    attributeCount = 0;
    if (rule.attributes().length == 0) {
      return;
    }
    int count = raw.getAttributeCount();
    for (int i = 0; i < count; i++) {
      String name = raw.getAttributeLocalName(i);
      for (ElementRule.Attribute attribute : rule.attributes()) {
        if (attribute.name().equals(name)) {
          keep(rule, attribute, raw.getAttributeValue(i));
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
}
