package phrasecensus.report.look;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class StylesheetTest {
  @Test
  void everyVariableThatIsUsedIsAColourOfThePaletteOrSetInTheSheet() {
    String css = Stylesheet.text();

    Pattern.compile("var\\((--[a-z-]+)\\)")
        .matcher(css)
        .results()
        .map(match -> match.group(1))
        .distinct()
        .forEach(name -> assertThat(css).contains(name + ":"));
  }

  @Test
  void coloursStandInThePaletteOnly() {
    String rules = Stylesheet.text().substring(Stylesheet.text().indexOf("*{box-sizing"));

    assertThat(rules.replace("#fff", "")).doesNotContainPattern("#[0-9a-f]{3,6}\\b");
  }

  @Test
  void nothingIsFetched() {
    assertThat(Stylesheet.text()).doesNotContain("@import").doesNotContainPattern("url\\((?!#)");
  }

  @Test
  void thePolicyNamesTheSheetByItsHash() throws Exception {
    byte[] digest =
        MessageDigest.getInstance("SHA-256")
            .digest(Stylesheet.text().getBytes(StandardCharsets.UTF_8));

    assertThat(Stylesheet.securityPolicy(""))
        .startsWith("default-src 'none'; ")
        .contains("style-src 'sha256-" + Base64.getEncoder().encodeToString(digest) + "'")
        .doesNotContain("unsafe", "script-src");
  }

  @Test
  void theOnlyScriptThatMayRunIsNamedByItsHash() {
    // Of the text "abc": FIPS 180-4 examples, SHA-256 ba7816bf…f20015ad, in base 64.
    assertThat(Stylesheet.securityPolicy("abc"))
        .startsWith("default-src 'none'; ")
        .contains("; script-src 'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='; ")
        .doesNotContain("unsafe", "self");
  }
}
