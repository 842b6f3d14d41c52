package phrasecensus.tables;

import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A list of files with the SHA-256 of their bytes and a checksum of its own: what a study is
 * checked by before anything in it is believed, and what proves that a file is this program's
 * before it is deleted. The lines are those that {@code sha256sum} writes and checks; what is ours
 * beside them stands in lines that it takes for remarks.
 *
 * @param subject what the files are: {@link #STUDY}, {@link #REPORT} or {@link #PART}, and after a
 *     blank what they belong to
 * @param files SHA-256 by path, relative to the folder of the list, with {@code /}
 * @param whole true when the list's own checksum holds; without it each line still proves the file
 *     whose bytes it fits, and says nothing of files that it does not name
 */
public record FileList(String subject, Map<String, String> files, boolean whole) {
  /** Name of the file, beside what it lists. */
  public static final String FILE_NAME = "files.sha256";

  /** Manifest and tables of a study. */
  public static final String STUDY = "study";

  /** Pages of a report; the SHA-256 of the manifest of their tables follows. */
  public static final String REPORT = "report";

  /** Files that one task of reading wrote. */
  public static final String PART = "part";

  private static final String HEAD =
      "# Phrase Census: files with the SHA-256 of their bytes. 'sha256sum -c "
          + FILE_NAME
          + "' checks them.";
  private static final String SUBJECT = "# Of: ";
  private static final String CHECK = "# SHA-256 of the lines above: ";
  private static final Pattern LINE = Pattern.compile("([0-9a-f]{64})  ([^\\r\\n\\\\]+)");

  /** No list: nothing is proven. */
  public static final FileList NONE = new FileList("", Map.of(), false);

  public FileList {
    files = Collections.unmodifiableMap(new TreeMap<>(files));
    for (String file : files.keySet()) {
      if (file.indexOf('\n') >= 0 || file.indexOf('\r') >= 0 || file.indexOf('\\') >= 0) {
        throw new IllegalArgumentException("No list can hold the name " + file);
      }
    }
  }

  /** A list to be written. */
  public static FileList of(String subject, Map<String, String> files) {
    return new FileList(subject, files, true);
  }

  /** Whether the list is whole and of a kind. */
  public boolean isWhole(String kind) {
    return whole && (subject.equals(kind) || subject.startsWith(kind + " "));
  }

  /** What follows the kind in the subject; empty for nothing. */
  public String belongsTo() {
    int blank = subject.indexOf(' ');
    return blank < 0 ? "" : subject.substring(blank + 1);
  }

  /** The list as it is written, sorted by path. */
  public byte[] bytes() {
    StringBuilder text = new StringBuilder(HEAD).append('\n');
    text.append(SUBJECT).append(subject).append('\n');
    files.forEach((file, sha256) -> text.append(sha256).append("  ").append(file).append('\n'));
    String checked = text.toString();
    return (checked + CHECK + Sha256.of(checked.getBytes(StandardCharsets.UTF_8)) + "\n")
        .getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Reads a list. Where its own checksum does not hold, the lines that are lines are kept, as long
   * as the list says in its first line or its last that it is this program's.
   *
   * @return {@link #NONE} for what is no list of this program
   */
  public static FileList parse(byte[] bytes) {
    String text = new String(bytes, StandardCharsets.UTF_8);
    int check = text.lastIndexOf(CHECK);
    boolean begins = text.startsWith(HEAD + "\n");
    boolean whole =
        begins
            && check > 0
            && text.substring(check)
                .equals(
                    CHECK
                        + Sha256.of(text.substring(0, check).getBytes(StandardCharsets.UTF_8))
                        + "\n");
    if (!begins && check < 0) {
      return NONE;
    }
    String subject = "";
    Map<String, String> files = new TreeMap<>();
    for (String line : text.split("\n", -1)) {
      Matcher matcher = LINE.matcher(line);
      if (matcher.matches()) {
        files.put(matcher.group(2), matcher.group(1));
      } else if (line.startsWith(SUBJECT)) {
        subject = line.substring(SUBJECT.length());
      }
    }
    return new FileList(subject, files, whole);
  }
}
