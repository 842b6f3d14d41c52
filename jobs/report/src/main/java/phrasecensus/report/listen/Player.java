package phrasecensus.report.listen;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The script that plays the sounds of a page. It is a file of its own and fetches nothing. */
public final class Player {
  /** Its name beside the pages. */
  public static final String FILE = "listen.js";

  private static final String TEXT = read();

  private Player() {}

  /** The script. */
  public static String text() {
    return TEXT;
  }

  private static String read() {
    try (InputStream stream = Player.class.getResourceAsStream(FILE)) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find " + FILE + " in the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
