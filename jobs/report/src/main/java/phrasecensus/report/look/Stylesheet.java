package phrasecensus.report.look;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.function.Function;
import phrasecensus.report.engraving.Glyph;

/** The one style sheet, printed inside every page. */
public final class Stylesheet {
  private static final String TEXT =
      variables()
          + resource("report.css")
          + Glyph.styles()
          + resource("engraving.css")
          + resource("lesson.css");

  private Stylesheet() {}

  /** The style sheet. */
  public static String text() {
    return TEXT;
  }

  /**
   * The Content-Security-Policy of a page: nothing is fetched, of styles only this sheet counts and
   * of scripts only the given one, each named by its hash (W3C Content Security Policy Level 3).
   *
   * @param script the whole text of the one script that may run; empty where nothing may
   */
  public static String securityPolicy(String script) {
    return "default-src 'none'; style-src "
        + hash(TEXT)
        + "; "
        + (script.isEmpty() ? "" : "script-src " + hash(script) + "; ")
        + "base-uri 'none'; form-action 'none'";
  }

  private static String hash(String text) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Java without SHA-256", e);
    }
  }

  /** Dark paper only on a screen: a printed page is always light. */
  private static String variables() {
    return ":root{color-scheme:light dark;"
        + variables(Palette::light)
        + "}\n@media screen and (prefers-color-scheme:dark){:root{"
        + variables(Palette::dark)
        + "}}\n";
  }

  private static String variables(Function<Palette, String> colour) {
    StringBuilder text = new StringBuilder();
    for (Palette each : Palette.values()) {
      text.append(each.variable()).append(':').append(colour.apply(each)).append(';');
    }
    return text.toString();
  }

  private static String resource(String name) {
    try (InputStream stream = Stylesheet.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find " + name + " in the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
