package phrasecensus.readers.container;

import com.ctc.wstx.stax.WstxInputFactory;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import phrasecensus.readers.Limit;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.Refusal;

/**
 * Finds the score in a compressed MusicXML file (W3C MusicXML 4.0, container files): {@code
 * META-INF/container.xml} names it; without a usable container, a single score in the archive is
 * taken.
 *
 * <p>Reads the archive's central directory from memory. Sizes that the archive states are never
 * trusted: inflating stops at the limits for decompressed size and ratio.
 */
public final class ScoreArchive {
  private static final int LOCAL_HEADER = 0x04034b50;
  private static final int DIRECTORY_HEADER = 0x02014b50;
  private static final int DIRECTORY_END = 0x06054b50;
  private static final int MOST_ENTRIES = 10_000;
  private static final int RATIO_FREE_BYTES = 1 << 20;
  private static final int LARGEST_CONTAINER = 1 << 20;
  private static final String CONTAINER = "META-INF/container.xml";
  private static final WstxInputFactory XML = containerFactory();

  private record Entry(int method, int crc, int compressedSize, int headerOffset) {}

  private final byte[] archive;
  private final ReadSettings settings;
  private final ProblemLog problems;
  private final Map<String, Entry> entries = new LinkedHashMap<>();

  private ScoreArchive(byte[] archive, ReadSettings settings, ProblemLog problems) {
    this.archive = archive;
    this.settings = settings;
    this.problems = problems;
  }

  /** True for bytes that begin as a zip archive does. */
  public static boolean isArchive(byte[] bytes) {
    return bytes.length >= 4
        && bytes[0] == 'P'
        && bytes[1] == 'K'
        && (bytes[2] == 3 && bytes[3] == 4 || bytes[2] == 5 && bytes[3] == 6);
  }

  /**
   * The bytes of the score inside an archive.
   *
   * @throws Refusal if there is no score, more than one without a container, a damaged archive, or
   *     one beyond a limit
   */
  public static byte[] score(byte[] archive, ReadSettings settings, ProblemLog problems) {
    ScoreArchive outer = new ScoreArchive(archive, settings, problems);
    byte[] score = outer.score();
    if (!isArchive(score)) {
      return score;
    }
    problems.add(
        Problem.ofFile(
            "archive-in-archive",
            "the archive holds another archive instead of a score",
            "the score in the inner archive is read"));
    byte[] inner = new ScoreArchive(score, settings, problems).score();
    if (isArchive(inner)) {
      throw new Refusal("It holds archives inside archives, not a score.");
    }
    return inner;
  }

  private byte[] score() {
    listEntries();
    String name = scoreName();
    return content(name, entries.get(name), settings.limit(Limit.DECOMPRESSED_SIZE));
  }

  private String scoreName() {
    Entry container = entries.get(CONTAINER);
    if (container == null) {
      return onlyScore("no " + CONTAINER);
    }
    List<String> roots = new ArrayList<>();
    String fault = readContainer(content(CONTAINER, container, LARGEST_CONTAINER), roots);
    for (String root : roots) {
      if (entries.containsKey(root)) {
        return root;
      }
    }
    if (!fault.isEmpty()) {
      return onlyScore("a " + CONTAINER + " that is not well-formed");
    }
    return onlyScore(
        roots.isEmpty()
            ? "a " + CONTAINER + " that names no score"
            : "a " + CONTAINER + " that names '" + roots.get(0) + "', which is not there");
  }

  private String onlyScore(String fault) {
    List<String> scores = entries.keySet().stream().filter(ScoreArchive::looksLikeScore).toList();
    if (scores.isEmpty()) {
      throw new Refusal("The archive has " + fault + " and no score with a usual name.");
    }
    if (scores.size() > 1) {
      throw new Refusal(
          "The archive has " + fault + " and " + scores.size() + " scores; which one is meant?");
    }
    problems.add(
        Problem.ofFile(
            "container-not-usable",
            "the archive has " + fault,
            "the only score in it, '" + scores.get(0) + "', is read"));
    return scores.get(0);
  }

  private static boolean looksLikeScore(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    String plain = lower.substring(lower.lastIndexOf('/') + 1);
    return !lower.startsWith("meta-inf/")
        && !lower.startsWith("__macosx/")
        && !plain.startsWith("._")
        && (plain.endsWith(".xml") || plain.endsWith(".musicxml") || plain.endsWith(".mxl"));
  }

  /** Adds the names of the root files, scores by media type first; gives a parser's complaint. */
  private static String readContainer(byte[] container, List<String> roots) {
    List<String> untyped = new ArrayList<>();
    try {
      XMLStreamReader reader = XML.createXMLStreamReader(new ByteArrayInputStream(container));
      while (reader.hasNext()) {
        if (reader.next() == XMLStreamConstants.START_ELEMENT
            && reader.getLocalName().equals("rootfile")) {
          String path = attribute(reader, "full-path");
          String type = attribute(reader, "media-type");
          if (path != null && !path.isEmpty()) {
            String name = path.startsWith("/") ? path.substring(1) : path;
            if (type != null && type.contains("musicxml")) {
              roots.add(name);
            } else if (type == null || type.contains("xml")) {
              untyped.add(name);
            }
          }
        }
      }
      roots.addAll(untyped);
      return "";
    } catch (XMLStreamException e) {
      roots.addAll(untyped);
      return "not well-formed";
    }
  }

  private static String attribute(XMLStreamReader reader, String name) {
    for (int i = 0; i < reader.getAttributeCount(); i++) {
      if (reader.getAttributeLocalName(i).equals(name)) {
        return reader.getAttributeValue(i);
      }
    }
    return null;
  }

  private static WstxInputFactory containerFactory() {
    WstxInputFactory factory = new WstxInputFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    return factory;
  }

  private void listEntries() {
    int end = directoryEnd();
    int count = unsignedShort(end + 10);
    long offset = unsignedInt(end + 16);
    for (int i = 0; i < count && i < MOST_ENTRIES; i++) {
      if (offset + 46 > archive.length || integer((int) offset) != DIRECTORY_HEADER) {
        throw damaged("its list of contents is broken");
      }
      int at = (int) offset;
      int flags = unsignedShort(at + 8);
      int nameLength = unsignedShort(at + 28);
      long next = offset + 46L + nameLength + unsignedShort(at + 30) + unsignedShort(at + 32);
      if (next > archive.length) {
        throw damaged("its list of contents is cut off");
      }
      String name = new String(archive, at + 46, nameLength, StandardCharsets.UTF_8);
      if ((flags & 1) == 1 && looksLikeScore(name)) {
        throw new Refusal("The archive is encrypted.");
      }
      long size = unsignedInt(at + 20);
      long header = unsignedInt(at + 42);
      if (size > archive.length || header + 30 > archive.length) {
        throw damaged("'" + printable(name) + "' lies outside the file");
      }
      entries.putIfAbsent(
          name, new Entry(unsignedShort(at + 10), integer(at + 16), (int) size, (int) header));
      offset = next;
    }
  }

  private int directoryEnd() {
    for (int at = archive.length - 22; at >= 0 && at >= archive.length - 22 - 65_535; at--) {
      if (archive[at] == 'P' && integer(at) == DIRECTORY_END) {
        return at;
      }
    }
    throw damaged("its end is missing");
  }

  /** The bytes of an entry, when they have the checksum that was taken as they were put in. */
  private byte[] content(String name, Entry entry, long mostBytes) {
    byte[] content = unchecked(name, entry, mostBytes);
    CRC32 crc = new CRC32();
    crc.update(content);
    if ((int) crc.getValue() != entry.crc()) {
      throw damaged("'" + printable(name) + "' is not what was put into it, by its checksum");
    }
    return content;
  }

  private byte[] unchecked(String name, Entry entry, long mostBytes) {
    int at = entry.headerOffset();
    if (integer(at) != LOCAL_HEADER) {
      throw damaged("'" + printable(name) + "' is not where the list of contents says");
    }
    long start = at + 30L + unsignedShort(at + 26) + unsignedShort(at + 28);
    if (start + entry.compressedSize() > archive.length) {
      throw damaged("'" + printable(name) + "' is cut off");
    }
    if (entry.method() == 0) {
      if (entry.compressedSize() > mostBytes) {
        throw Refusal.beyond(Limit.DECOMPRESSED_SIZE, mostBytes);
      }
      return Arrays.copyOfRange(archive, (int) start, (int) start + entry.compressedSize());
    }
    if (entry.method() != 8) {
      throw new Refusal(
          "'" + printable(name) + "' is compressed by a method other than the usual one.");
    }
    return inflated(name, (int) start, entry.compressedSize(), mostBytes);
  }

  private byte[] inflated(String name, int start, int compressedSize, long mostBytes) {
    long ratio = settings.limit(Limit.DECOMPRESSION_RATIO);
    long most = Math.min(mostBytes, Integer.MAX_VALUE - 8);
    Inflater inflater = new Inflater(true);
    try {
      inflater.setInput(archive, start, compressedSize);
      byte[] content = new byte[(int) Math.min(most, Math.max(4096L, 12L * compressedSize))];
      int length = 0;
      while (!inflater.finished()) {
        int more = inflater.inflate(content, length, content.length - length);
        length += more;
        if (length > RATIO_FREE_BYTES && length / Math.max(1, compressedSize) > ratio) {
          throw Refusal.beyond(Limit.DECOMPRESSION_RATIO, ratio);
        }
        if (length == content.length && !inflater.finished()) {
          if (length >= most) {
            throw Refusal.beyond(Limit.DECOMPRESSED_SIZE, mostBytes);
          }
          content = Arrays.copyOf(content, (int) Math.min(most, 2L * content.length));
        } else if (more == 0 && (inflater.needsInput() || inflater.needsDictionary())) {
          throw damaged("'" + printable(name) + "' is cut off");
        }
      }
      return Arrays.copyOf(content, length);
    } catch (DataFormatException e) {
      throw damaged("'" + printable(name) + "' cannot be decompressed");
    } finally {
      inflater.end();
    }
  }

  private static Refusal damaged(String how) {
    return new Refusal("The archive is damaged: " + how + ".");
  }

  private static String printable(String name) {
    String plain = name.replaceAll("\\p{Cntrl}", "?");
    return plain.length() > 80 ? plain.substring(0, 80) + "…" : plain;
  }

  private int unsignedShort(int at) {
    return archive[at] & 0xff | (archive[at + 1] & 0xff) << 8;
  }

  private int integer(int at) {
    return unsignedShort(at) | unsignedShort(at + 2) << 16;
  }

  private long unsignedInt(int at) {
    return integer(at) & 0xffff_ffffL;
  }
}
