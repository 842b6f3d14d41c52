package phrasecensus.readers.robustness;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Damages a file in ways that depend on a seed alone. */
final class Mutations {
  private static final Pattern NUMBER = Pattern.compile(">(-?[0-9]+)<");
  private static final Pattern ELEMENT = Pattern.compile("<([a-z-]+)[^<>]*?(/>|>[^<]*</\\1>)");
  private static final Pattern GROUP =
      Pattern.compile("<(note|measure|attributes|harmony|pitch|part|direction)\\b[^<>]*>");
  private static final String[] NUMBERS = {
    "0",
    "-1",
    "2147483648",
    "-9223372036854775808",
    "99999999999999999999",
    "1e999999999",
    "NaN",
    "",
    "4.5",
    "0.0000001",
    "1000000007",
    "999999937",
    "abc",
    " 7 ",
    "65536"
  };

  private Mutations() {}

  /** A damaged copy of a document; {@code archive} wraps or damages it as a zip archive. */
  static byte[] mutated(byte[] document, long seed) {
    Random random = new Random(seed);
    byte[] mutated = document;
    int times = 1 + random.nextInt(3);
    for (int i = 0; i < times && mutated.length > 0; i++) {
      mutated = once(mutated, random);
    }
    return mutated;
  }

  private static byte[] once(byte[] document, Random random) {
    return switch (random.nextInt(12)) {
      case 0 -> bytesFlipped(document, random);
      case 1 -> Arrays.copyOf(document, random.nextInt(document.length));
      case 2 -> text(document, random, Mutations::numberBlownUp);
      case 3 -> text(document, random, Mutations::elementDeleted);
      case 4 -> text(document, random, Mutations::elementDoubled);
      case 5 -> text(document, random, Mutations::elementsSwapped);
      case 6 -> text(document, random, Mutations::nestedDeep);
      case 7 -> text(document, random, Mutations::groupDeleted);
      case 8 -> zipped(document, random);
      case 9 -> piecesMoved(document, random);
      case 10 -> text(document, random, Mutations::renamed);
      default -> text(document, random, Mutations::numberBlownUp);
    };
  }

  private interface TextMutation {
    String apply(String text, Random random);
  }

  private static byte[] text(byte[] document, Random random, TextMutation mutation) {
    String text = new String(document, StandardCharsets.ISO_8859_1);
    return mutation.apply(text, random).getBytes(StandardCharsets.ISO_8859_1);
  }

  private static byte[] bytesFlipped(byte[] document, Random random) {
    byte[] flipped = document.clone();
    int flips = 1 + random.nextInt(8);
    for (int i = 0; i < flips; i++) {
      flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
    }
    return flipped;
  }

  private static byte[] piecesMoved(byte[] document, Random random) {
    int from = random.nextInt(document.length);
    int length = Math.min(document.length - from, 1 + random.nextInt(2000));
    int to = random.nextInt(document.length - length + 1);
    byte[] piece = Arrays.copyOfRange(document, from, from + length);
    byte[] moved = new byte[document.length];
    byte[] rest = new byte[document.length - length];
    System.arraycopy(document, 0, rest, 0, from);
    System.arraycopy(document, from + length, rest, from, rest.length - from);
    System.arraycopy(rest, 0, moved, 0, to);
    System.arraycopy(piece, 0, moved, to, length);
    System.arraycopy(rest, to, moved, to + length, rest.length - to);
    return moved;
  }

  /** One of the matches near a random place; null when there is none. */
  private static int[] someMatch(Pattern pattern, String text, Random random) {
    if (text.isEmpty()) {
      return null;
    }
    Matcher matcher = pattern.matcher(text);
    boolean found = matcher.find(random.nextInt(text.length())) || matcher.find(0);
    return found ? new int[] {matcher.start(), matcher.end()} : null;
  }

  private static String numberBlownUp(String text, Random random) {
    int[] place = someMatch(NUMBER, text, random);
    return place == null
        ? text
        : text.substring(0, place[0] + 1)
            + NUMBERS[random.nextInt(NUMBERS.length)]
            + text.substring(place[1] - 1);
  }

  private static String elementDeleted(String text, Random random) {
    int[] place = someMatch(ELEMENT, text, random);
    return place == null ? text : text.substring(0, place[0]) + text.substring(place[1]);
  }

  private static String elementDoubled(String text, Random random) {
    int[] place = someMatch(ELEMENT, text, random);
    if (place == null) {
      return text;
    }
    String element = text.substring(place[0], place[1]);
    return text.substring(0, place[1])
        + element.repeat(1 + random.nextInt(50))
        + text.substring(place[1]);
  }

  private static String elementsSwapped(String text, Random random) {
    int[] first = someMatch(ELEMENT, text, random);
    int[] second = someMatch(ELEMENT, text, random);
    if (first == null || second == null || first[1] > second[0]) {
      return text;
    }
    return text.substring(0, first[0])
        + text.substring(second[0], second[1])
        + text.substring(first[1], second[0])
        + text.substring(first[0], first[1])
        + text.substring(second[1]);
  }

  private static String nestedDeep(String text, Random random) {
    int[] place = someMatch(ELEMENT, text, random);
    if (place == null) {
      return text;
    }
    String[] names = {"note", "measure", "x", "direction", "part"};
    String name = names[random.nextInt(names.length)];
    int depth = 1 + random.nextInt(random.nextInt(20) == 0 ? 5000 : 60);
    return text.substring(0, place[0])
        + ("<" + name + ">").repeat(depth)
        + text.substring(place[0], place[1])
        + ("</" + name + ">").repeat(depth)
        + text.substring(place[1]);
  }

  private static String groupDeleted(String text, Random random) {
    int[] place = someMatch(GROUP, text, random);
    if (place == null) {
      return text;
    }
    String name = text.substring(place[0] + 1).split("[^a-z-]", 2)[0];
    int end = text.indexOf("</" + name + ">", place[1]);
    return end < 0 ? text : text.substring(0, place[0]) + text.substring(end + name.length() + 3);
  }

  private static String renamed(String text, Random random) {
    int[] place = someMatch(ELEMENT, text, random);
    if (place == null) {
      return text;
    }
    String element = text.substring(place[0], place[1]);
    String name = element.substring(1).split("[^a-z-]", 2)[0];
    String[] names = {
      "rest", "chord", "grace", "cue", "backup", "forward", "step", "kind", "beats"
    };
    return text.substring(0, place[0])
        + element.replace(name, names[random.nextInt(names.length)])
        + text.substring(place[1]);
  }

  private static byte[] zipped(byte[] document, Random random) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      List<String> names = new ArrayList<>(List.of("score.xml"));
      if (random.nextInt(3) == 0) {
        names.add("other.xml");
      }
      if (random.nextInt(2) == 0) {
        zip.putNextEntry(entry("META-INF/container.xml"));
        String path = random.nextInt(4) == 0 ? "absent.xml" : "score.xml";
        zip.write(
            ("<container><rootfiles><rootfile full-path='" + path + "'/></rootfiles></container>")
                .getBytes(StandardCharsets.UTF_8));
      }
      for (String name : names) {
        zip.putNextEntry(entry(name));
        zip.write(random.nextInt(20) == 0 ? new byte[3_000_000] : document);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return random.nextBoolean() ? bytes.toByteArray() : bytesFlipped(bytes.toByteArray(), random);
  }

  /** Without the time of day, which would get into the bytes. */
  private static ZipEntry entry(String name) {
    ZipEntry entry = new ZipEntry(name);
    entry.setTimeLocal(LocalDateTime.of(2026, 1, 1, 0, 0));
    return entry;
  }
}
