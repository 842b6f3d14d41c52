package phrasecensus.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;

/** Name and version of the program, as every output names it. */
public final class Program {
  /** Name for people. */
  public static final String NAME = "Phrase Census";

  private static final Properties PROPERTIES = properties();

  private Program() {}

  private static Properties properties() {
    try (InputStream stream = Program.class.getResourceAsStream("program.properties")) {
      Properties properties = new Properties();
      properties.load(stream);
      return properties;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Version of the build, as in {@code 0.1.0}. */
  public static String version() {
    return PROPERTIES.getProperty("version");
  }

  /** Name and version, as in {@code Phrase Census 0.1.0}. */
  public static String nameAndVersion() {
    return NAME + " " + version();
  }

  /** Names and versions of the libraries that can change what a file gives. */
  public static String libraries() {
    return PROPERTIES.getProperty("libraries");
  }
}
