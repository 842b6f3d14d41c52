package phrasecensus.readers.robustness;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.Node;
import org.w3c.dom.Text;
import org.xml.sax.SAXException;

/**
 * Damages a score as a tree, in ways that depend on a seed alone: the result is well-formed XML and
 * still looks much like a score, so that it gets far beyond the parser.
 */
final class TreeMutations {
  /** Elements above which a damaged score does not grow. */
  private static final int MOST_ELEMENTS = 6000;

  private static final int DEEPEST = 1500;
  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");

  private static final String[] NUMBERS = {
    "0",
    "-1",
    "1",
    "2",
    "3",
    "7",
    "64",
    "127",
    "1000000000",
    "1000000007",
    "999999937",
    "2147483647",
    "2147483648",
    "-2147483648",
    "4294967296",
    "4611686018427387904",
    "9223372036854775807",
    "-9223372036854775808",
    "100000000000000000000",
    "1e9",
    "1e300",
    "0.5",
    "0.3333333",
    "0.0000001",
    "123456789.987654321",
    "-0.25",
    "NaN",
    "",
    " 8 ",
    "1/3",
    "65537"
  };

  /** Whose numbers time is made of. */
  private static final List<String> TIMES =
      List.of(
          "divisions",
          "duration",
          "beats",
          "beat-type",
          "actual-notes",
          "normal-notes",
          "offset",
          "per-minute");

  private static final String[] TEXTS = {
    "<script>alert(1)</script>",
    "\u202Eevil",
    "\uD83C\uDFB7",
    "a\u0301\u0301\u0301",
    "%s%n%d",
    "${x}",
    "../../etc",
    "D.C. al Coda",
    "Fine",
    "Intro",
    "A",
    "B",
    "breath",
    "N.C.",
    "\u0000",
    "\uFFFF",
    "]]>",
    "&amp;",
    "0x7f",
    "none",
    "other",
    "start",
    "stop",
    "yes",
    "up",
    "natural"
  };

  private static final int[] PRIMES = {
    2, 3, 5, 7, 11, 13, 101, 499, 1009, 9973, 65537, 99991, 999983, 15485863, 179424673, 999999937
  };

  private TreeMutations() {}

  /** A document as a tree, its type declaration passed over; empty for what is no sound XML. */
  static Optional<Document> tree(byte[] document) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
      DocumentBuilder builder = factory.newDocumentBuilder();
      builder.setErrorHandler(null);
      return Optional.of(builder.parse(new ByteArrayInputStream(document)));
    } catch (SAXException e) {
      return Optional.empty();
    } catch (IOException | ParserConfigurationException e) {
      throw new IllegalStateException(e);
    }
  }

  /** A damaged copy. */
  static byte[] mutated(Document base, long seed) {
    Random random = new Random(seed * 0x9E3779B97F4A7C15L + 1);
    Document tree = (Document) base.cloneNode(true);
    int times = 1 + random.nextInt(4);
    for (int i = 0; i < times; i++) {
      once(tree, random);
    }
    StringBuilder text = new StringBuilder(20_000);
    write(tree.getDocumentElement(), text);
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static void once(Document tree, Random random) {
    List<Element> all = elements(tree);
    Element element = all.get(random.nextInt(all.size()));
    Element other = all.get(random.nextInt(all.size()));
    switch (random.nextInt(16)) {
      case 0 -> move(element, other, random);
      case 1 -> copy(element, other, random, all.size());
      case 2 -> repeat(element, random, all.size());
      case 3 -> delete(element);
      case 4 -> swap(element, other);
      case 5, 6 -> number(all, random, false);
      case 7, 8 -> number(all, random, true);
      case 9 -> coprimeTimes(all, random);
      case 10 -> attribute(all, random);
      case 11 -> blowUpText(element, random);
      case 12 -> nest(element, random);
      case 13 -> rename(element, other, all, random);
      case 14 -> element.setTextContent(text(random));
      default -> deleteAll(all, element.getTagName(), random);
    }
  }

  private static List<Element> elements(Document tree) {
    List<Element> all = new ArrayList<>();
    add(tree.getDocumentElement(), all);
    return all;
  }

  private static void add(Element element, List<Element> all) {
    all.add(element);
    for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
      if (child instanceof Element inner) {
        add(inner, all);
      }
    }
  }

  private static boolean isLeaf(Element element) {
    for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
      if (child instanceof Element) {
        return false;
      }
    }
    return true;
  }

  private static boolean isRoot(Element element) {
    return !(element.getParentNode() instanceof Element);
  }

  private static boolean holds(Node outer, Node inner) {
    for (Node each = inner; each != null; each = each.getParentNode()) {
      if (each == outer) {
        return true;
      }
    }
    return false;
  }

  private static Node someChild(Element element, Random random) {
    int count = element.getChildNodes().getLength();
    int place = random.nextInt(count + 1);
    return place == count ? null : element.getChildNodes().item(place);
  }

  private static void move(Element element, Element to, Random random) {
    if (!isRoot(element) && !holds(element, to)) {
      element.getParentNode().removeChild(element);
      to.insertBefore(element, someChild(to, random));
    }
  }

  private static void copy(Element element, Element to, Random random, int count) {
    if (count + size(element) <= MOST_ELEMENTS) {
      to.insertBefore(element.cloneNode(true), someChild(to, random));
    }
  }

  private static void repeat(Element element, Random random, int count) {
    int times = 1 + random.nextInt(random.nextInt(10) == 0 ? 300 : 6);
    if (isRoot(element)) {
      return;
    }
    int size = size(element);
    for (int i = 0; i < times && count + (i + 1) * size <= MOST_ELEMENTS; i++) {
      element.getParentNode().insertBefore(element.cloneNode(true), element);
    }
  }

  private static int size(Element element) {
    return 1 + element.getElementsByTagName("*").getLength();
  }

  private static void delete(Element element) {
    if (!isRoot(element)) {
      element.getParentNode().removeChild(element);
    }
  }

  private static void deleteAll(List<Element> all, String name, Random random) {
    for (Element element : all) {
      if (element.getTagName().equals(name) && !isRoot(element) && random.nextInt(4) > 0) {
        element.getParentNode().removeChild(element);
      }
    }
  }

  private static void swap(Element first, Element second) {
    if (isRoot(first) || isRoot(second) || holds(first, second) || holds(second, first)) {
      return;
    }
    Node place = first.getOwnerDocument().createTextNode("");
    first.getParentNode().replaceChild(place, first);
    second.getParentNode().replaceChild(first, second);
    place.getParentNode().replaceChild(second, place);
  }

  private static void number(List<Element> all, Random random, boolean ofTime) {
    List<Element> numbers =
        all.stream()
            .filter(
                element ->
                    ofTime
                        ? TIMES.contains(element.getTagName())
                        : isLeaf(element)
                            && NUMBER.matcher(element.getTextContent().strip()).matches())
            .toList();
    if (numbers.isEmpty()) {
      return;
    }
    String value = NUMBERS[random.nextInt(NUMBERS.length)];
    if (random.nextInt(3) == 0) {
      value = Long.toString(1 + random.nextInt(1 << (1 + random.nextInt(30))));
    }
    String name = numbers.get(random.nextInt(numbers.size())).getTagName();
    boolean everywhere = random.nextInt(4) == 0;
    for (Element number : numbers) {
      if (number.getTagName().equals(name) && (everywhere || random.nextInt(6) == 0)) {
        number.setTextContent(value);
      }
    }
  }

  /** Bars whose divisions, and notes whose durations, share no factor. */
  private static void coprimeTimes(List<Element> all, Random random) {
    int largest = 3 + random.nextInt(PRIMES.length - 2);
    for (Element element : all) {
      switch (element.getTagName()) {
        case "measure" -> {
          if (random.nextInt(2) == 0) {
            Element attributes = element.getOwnerDocument().createElement("attributes");
            Element divisions = element.getOwnerDocument().createElement("divisions");
            divisions.setTextContent(Integer.toString(PRIMES[random.nextInt(largest)]));
            attributes.appendChild(divisions);
            element.insertBefore(attributes, element.getFirstChild());
          }
        }
        case "duration" -> {
          if (random.nextInt(3) == 0) {
            element.setTextContent(Integer.toString(PRIMES[random.nextInt(largest)]));
          }
        }
        default -> {
          // Times are made of these two.
        }
      }
    }
  }

  private static void attribute(List<Element> all, Random random) {
    List<Element> having = all.stream().filter(Element::hasAttributes).toList();
    if (having.isEmpty()) {
      return;
    }
    Element element = having.get(random.nextInt(having.size()));
    NamedNodeMap attributes = element.getAttributes();
    Node attribute = attributes.item(random.nextInt(attributes.getLength()));
    if (random.nextInt(4) == 0) {
      element.removeAttribute(attribute.getNodeName());
    } else {
      attribute.setNodeValue(text(random));
    }
  }

  private static String text(Random random) {
    return random.nextBoolean()
        ? NUMBERS[random.nextInt(NUMBERS.length)]
        : TEXTS[random.nextInt(TEXTS.length)];
  }

  private static void blowUpText(Element element, Random random) {
    String text = TEXTS[random.nextInt(TEXTS.length)];
    int length = 1 << random.nextInt(random.nextInt(20) == 0 ? 20 : 13);
    element.setTextContent(text.repeat(Math.max(1, length / text.length())));
  }

  private static void nest(Element element, Random random) {
    if (isRoot(element)) {
      return;
    }
    int depth = 1 + random.nextInt(random.nextInt(8) == 0 ? DEEPEST : 60);
    Node place = element;
    for (int i = 0; i < depth; i++) {
      Element around = element.getOwnerDocument().createElement(element.getTagName());
      place.getParentNode().replaceChild(around, place);
      around.appendChild(place);
      place = around;
    }
  }

  private static void rename(Element element, Element other, List<Element> all, Random random) {
    boolean everywhere = random.nextInt(5) == 0;
    String from = element.getTagName();
    for (Element each : all) {
      if (each == element || everywhere && each.getTagName().equals(from)) {
        if (!isRoot(each)) {
          each.getOwnerDocument().renameNode(each, null, other.getTagName());
        }
      }
    }
  }

  private static void write(Element element, StringBuilder into) {
    into.append('<').append(element.getTagName());
    NamedNodeMap attributes = element.getAttributes();
    for (int i = 0; i < attributes.getLength(); i++) {
      Node attribute = attributes.item(i);
      into.append(' ').append(attribute.getNodeName()).append("=\"");
      escape(attribute.getNodeValue(), into);
      into.append('"');
    }
    into.append('>');
    for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
      if (child instanceof Element inner) {
        write(inner, into);
      } else if (child instanceof Text words) {
        escape(words.getData(), into);
      }
    }
    into.append("</").append(element.getTagName()).append('>');
  }

  /**
   * Characters that XML forbids become a reference now and then: the parser has to refuse those.
   */
  private static void escape(String text, StringBuilder into) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      switch (c) {
        case '<' -> into.append("&lt;");
        case '>' -> into.append("&gt;");
        case '&' -> into.append("&amp;");
        case '"' -> into.append("&quot;");
        default -> into.append(c);
      }
    }
  }
}
