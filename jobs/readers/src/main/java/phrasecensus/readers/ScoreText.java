package phrasecensus.readers;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The letters of an XML document whose declared encoding may contradict its bytes, as after an
 * editor has saved it again. A byte order mark wins, then the width of a letter that the first
 * bytes show (W3C XML 1.0, appendix F), then the declared encoding where the bytes decode by it,
 * then UTF-8, then Windows-1252, by which nearly everything decodes.
 */
final class ScoreText {
  private static final VarHandle EIGHT_BYTES =
      MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
  private static final long HIGH_BITS = 0x8080_8080_8080_8080L;
  private static final byte[] USUAL_START =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"".getBytes(StandardCharsets.US_ASCII);
  private static final int DECLARATION_BYTES = 400;
  private static final Charset WINDOWS = Charset.forName("windows-1252");
  private static final Charset UTF_32BE = Charset.forName("UTF-32BE");
  private static final Charset UTF_32LE = Charset.forName("UTF-32LE");
  private static final Pattern DECLARATION = Pattern.compile("^\\uFEFF?\\s*<\\?xml\\b([^>]*?)\\?>");
  private static final Pattern ENCODING =
      Pattern.compile("\\bencoding\\s*=\\s*(?:\"([^\"]*)\"|'([^']*)')");
  private static final List<String> WIDE =
      List.of("utf-16", "utf16", "utf-32", "utf32", "ucs-2", "ucs2", "ucs-4", "ucs4", "unicode");

  private ScoreText() {}

  /**
   * The document as it is where its declared encoding is right, else written anew in UTF-8 with a
   * problem.
   *
   * @throws Refusal if its bytes are no text in the encoding that they show
   */
  static byte[] readable(byte[] document, ProblemLog problems) {
    if (startsAs(document, USUAL_START) && !hasHighBytes(document, USUAL_START.length)) {
      return document;
    }
    Charset shown = shown(document);
    boolean marked = isMarked(document);
    String declared = declared(document, shown == null ? StandardCharsets.ISO_8859_1 : shown);
    if (shown != null && !shown.equals(StandardCharsets.UTF_8)) {
      boolean agrees = declared == null ? marked : isWide(declared) && !is32(shown);
      return agrees && (marked || !declared.toLowerCase(Locale.ROOT).endsWith("e"))
          ? document
          : rewritten(document, shown, declared, marked, problems);
    }
    return ofSingleBytes(document, declared, marked, problems);
  }

  private static boolean startsAs(byte[] document, byte[] start) {
    return document.length >= start.length
        && Arrays.equals(document, 0, start.length, start, 0, start.length);
  }

  private static byte[] ofSingleBytes(
      byte[] document, String declared, boolean marked, ProblemLog problems) {
    boolean plain = !hasHighBytes(document, marked ? 3 : 0);
    boolean says8 = declared == null || declared.equalsIgnoreCase("utf-8");
    if (says8 && (plain || decodes(document, StandardCharsets.UTF_8))) {
      return document;
    }
    Optional<Charset> named = says8 || isWide(declared) ? Optional.empty() : charset(declared);
    if (named.isPresent() && !marked) {
      boolean unicode = !plain && decodes(document, StandardCharsets.UTF_8);
      if (plain || !unicode && decodes(document, named.get())) {
        return document;
      }
    }
    Charset decoding =
        plain || decodes(document, StandardCharsets.UTF_8) ? StandardCharsets.UTF_8 : WINDOWS;
    return rewritten(document, decoding, declared, marked, problems);
  }

  private static byte[] rewritten(
      byte[] document, Charset charset, String declared, boolean marked, ProblemLog problems) {
    String text;
    try {
      text = decoded(document, charset);
    } catch (CharacterCodingException e) {
      if (!charset.equals(WINDOWS)) {
        throw new Refusal(
            "Its bytes are no text in "
                + charset.name()
                + (marked ? ", which its byte order mark says" : "")
                + "; open it in the program that wrote it, or in a text editor, and save it again"
                + " as UTF-8.");
      }
      text = new String(document, charset);
    }
    problems.add(
        Problem.ofFile(
            "encoding-contradicts-bytes",
            declared == null
                ? "no encoding is declared, and the bytes are no UTF-8"
                : "the file says that its letters are in '"
                    + (declared.length() > 40 ? declared.substring(0, 40) + "…" : declared)
                    + "', but its bytes are not",
            charset.equals(WINDOWS)
                ? "read as Windows-1252; look whether accented letters are right"
                : "read as " + charset.name() + (marked ? ", as its byte order mark says" : "")));
    return withoutEncoding(text).getBytes(StandardCharsets.UTF_8);
  }

  /** The text with no byte order mark and no encoding in its declaration. */
  private static String withoutEncoding(String text) {
    String unmarked = text.startsWith("\uFEFF") ? text.substring(1) : text;
    Matcher declaration = DECLARATION.matcher(unmarked);
    if (!declaration.lookingAt()) {
      return unmarked;
    }
    String kept = ENCODING.matcher(declaration.group()).replaceFirst("");
    return kept + unmarked.substring(declaration.end());
  }

  /** By the byte order mark or the zeros around the first letter; null for single bytes. */
  private static Charset shown(byte[] document) {
    int first = bytes(document, 0, 2);
    int second = bytes(document, 2, 2);
    if (first == 0xFEFF) {
      return StandardCharsets.UTF_16BE;
    }
    if (first == 0xFFFE) {
      return second == 0 ? UTF_32LE : StandardCharsets.UTF_16LE;
    }
    if (first == 0 && (second == 0xFEFF || second == '<')) {
      return UTF_32BE;
    }
    if (first == '<' << 8) {
      return second == 0 ? UTF_32LE : StandardCharsets.UTF_16LE;
    }
    if (first == '<') {
      return StandardCharsets.UTF_16BE;
    }
    return bytes(document, 0, 3) == 0xEFBBBF ? StandardCharsets.UTF_8 : null;
  }

  private static boolean isMarked(byte[] document) {
    int first = bytes(document, 0, 2);
    return first == 0xFEFF
        || first == 0xFFFE
        || bytes(document, 0, 3) == 0xEFBBBF
        || first == 0 && bytes(document, 2, 2) == 0xFEFF;
  }

  /** Some bytes as one number; -1 beyond the end. */
  private static int bytes(byte[] document, int from, int count) {
    if (document.length < from + count) {
      return -1;
    }
    int number = 0;
    for (int i = from; i < from + count; i++) {
      number = number << 8 | document[i] & 0xff;
    }
    return number;
  }

  /** The encoding in the XML declaration; null when there is none. */
  private static String declared(byte[] document, Charset charset) {
    int length = Math.min(document.length, DECLARATION_BYTES);
    Matcher declaration =
        DECLARATION.matcher(new String(document, 0, length, charset).replace("ï»¿", ""));
    if (!declaration.lookingAt()) {
      return null;
    }
    Matcher encoding = ENCODING.matcher(declaration.group(1));
    if (!encoding.find()) {
      return null;
    }
    return encoding.group(1) == null ? encoding.group(2) : encoding.group(1);
  }

  private static boolean isWide(String declared) {
    String lower = declared.toLowerCase(Locale.ROOT);
    return WIDE.stream().anyMatch(lower::contains);
  }

  private static boolean is32(Charset charset) {
    return charset.equals(UTF_32BE) || charset.equals(UTF_32LE);
  }

  private static Optional<Charset> charset(String name) {
    try {
      return Optional.of(Charset.forName(name));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static boolean hasHighBytes(byte[] document, int from) {
    int at = from;
    for (; at + 32 <= document.length; at += 32) {
      long four =
          (long) EIGHT_BYTES.get(document, at)
              | (long) EIGHT_BYTES.get(document, at + 8)
              | (long) EIGHT_BYTES.get(document, at + 16)
              | (long) EIGHT_BYTES.get(document, at + 24);
      if ((four & HIGH_BITS) != 0) {
        return true;
      }
    }
    for (; at + 8 <= document.length; at += 8) {
      if (((long) EIGHT_BYTES.get(document, at) & HIGH_BITS) != 0) {
        return true;
      }
    }
    for (; at < document.length; at++) {
      if (document[at] < 0) {
        return true;
      }
    }
    return false;
  }

  private static boolean decodes(byte[] document, Charset charset) {
    try {
      decoded(document, charset);
      return true;
    } catch (CharacterCodingException e) {
      return false;
    }
  }

  private static String decoded(byte[] document, Charset charset) throws CharacterCodingException {
    return charset
        .newDecoder()
        .onMalformedInput(CodingErrorAction.REPORT)
        .onUnmappableCharacter(CodingErrorAction.REPORT)
        .decode(ByteBuffer.wrap(document))
        .toString();
  }
}
