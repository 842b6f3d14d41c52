package phrasecensus.report.listen;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The script that plays the sounds of a page. It stands in the page and fetches nothing. */
public final class Player {
  private static final String SCRIPT = read();

  private Player() {}

  /** The whole script. */
  public static String script() {
    return SCRIPT;
  }

  private static String read() {
    try (InputStream stream = Player.class.getResourceAsStream("listen.js")) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find listen.js in the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
