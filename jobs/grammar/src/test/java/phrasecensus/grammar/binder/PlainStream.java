package phrasecensus.grammar.binder;

import java.io.StringReader;
import java.math.BigDecimal;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** What a written binder asks of its stream, without a table. */
public final class PlainStream {
  private final XMLStreamReader raw;

  PlainStream(String document) throws XMLStreamException {
    raw = XMLInputFactory.newDefaultFactory().createXMLStreamReader(new StringReader(document));
    next();
  }

  /** In brackets, so that a test sees where it was asked for. */
  public static String token(String text) {
    return "<" + text.strip().replaceAll("\\s+", " ") + ">";
  }

  public void next() throws XMLStreamException {
    do {
      raw.next();
    } while (!raw.isStartElement() && !raw.isEndElement() && !isAtEndOfDocument());
  }

  public boolean isAtStart() {
    return raw.isStartElement();
  }

  boolean isAtEndOfDocument() {
    return raw.getEventType() == XMLStreamReader.END_DOCUMENT;
  }

  public String name() {
    return raw.getLocalName();
  }

  public String attribute(String name) {
    return raw.getAttributeValue(null, name);
  }

  /** Moves behind the end of the element that starts here. */
  public void passOver() throws XMLStreamException {
    next();
    while (isAtStart()) {
      passOver();
    }
    next();
  }

  /** The text of the element that starts here; moves on behind its end. */
  public String text() throws XMLStreamException {
    String text = raw.getElementText();
    next();
    return text;
  }

  public BigDecimal decimal() throws XMLStreamException {
    return new BigDecimal(text());
  }

  public int whole() throws XMLStreamException {
    return Integer.parseInt(text());
  }
}
