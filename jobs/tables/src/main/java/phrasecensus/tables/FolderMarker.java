package phrasecensus.tables;

import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a small file says by which this program knows a folder of its own again. A name proves
 * nothing: other programs and people give folders the same ones. So the content has a checksum, and
 * that of a working folder says how the folder is called.
 *
 * @param kind what the folder is
 * @param name of a working folder; {@code *} for any
 */
public record FolderMarker(Kind kind, String name) {
  /** Name of the file in the folder. */
  public static final String FILE_NAME = ".phrase-census";

  /** What a folder can be. */
  public enum Kind {
    /** A study, finished or begun: what its lists name in it is this program's. */
    STUDY("Phrase Census keeps a study in this folder. Keep files of your own out of tables/."),

    /** An export of a study. */
    EXPORT("Phrase Census wrote this folder, an export of a study."),

    /** What a run writes aside: everything in it is this program's. */
    WORKING("Phrase Census works in this folder, and deletes it with everything in it.");

    private final String words;

    Kind(String words) {
      this.words = words;
    }
  }

  private static final Pattern TEXT =
      Pattern.compile("([^\\n]*\\nkind: ([a-z]+)\\nfolder: ([^\\n/]+)\\n)check: ([0-9a-f]{64})\\n");

  /** The marker of a folder that may be called anything. */
  public static FolderMarker of(Kind kind) {
    return new FolderMarker(kind, "*");
  }

  /** The marker of a working folder. */
  public static FolderMarker working(String name) {
    return new FolderMarker(Kind.WORKING, name);
  }

  /** The content of the file. */
  public byte[] bytes() {
    String checked =
        kind.words
            + "\nkind: "
            + kind.name().toLowerCase(java.util.Locale.ROOT)
            + "\nfolder: "
            + name
            + "\n";
    return (checked + "check: " + Sha256.of(checked.getBytes(StandardCharsets.UTF_8)) + "\n")
        .getBytes(StandardCharsets.UTF_8);
  }

  /** Reads a marker; null for what is none, or damaged. */
  public static FolderMarker parse(byte[] bytes) {
    Matcher matcher = TEXT.matcher(new String(bytes, StandardCharsets.UTF_8));
    if (!matcher.matches()
        || !Sha256.of(matcher.group(1).getBytes(StandardCharsets.UTF_8)).equals(matcher.group(4))) {
      return null;
    }
    for (Kind kind : Kind.values()) {
      if (kind.name().toLowerCase(java.util.Locale.ROOT).equals(matcher.group(2))) {
        return new FolderMarker(kind, matcher.group(3));
      }
    }
    return null;
  }
}
