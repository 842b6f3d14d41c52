package phrasecensus.report;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import nu.validator.client.EmbeddedValidator;
import nu.validator.validation.SimpleDocumentValidator;
import org.xml.sax.ErrorHandler;
import org.xml.sax.InputSource;
import org.xml.sax.SAXParseException;
import org.xml.sax.helpers.DefaultHandler;
import phrasecensus.report.listen.Player;

/** What is read off a page without a browser. */
final class PageCheck {
  /** Made once: reading its schema takes seconds. */
  private static final SimpleDocumentValidator CHECKER = checker();

  private PageCheck() {}

  /**
   * Messages of the Nu HTML Checker, empty for a valid page. Two are passed over: its CSS part does
   * not know the property paint-order (W3C SVG 2, section 13.9), and it asks for hashes in the
   * Content-Security-Policy without comparing those that are there; browsers do.
   */
  static List<String> validity(String page) throws Exception {
    List<String> messages = new ArrayList<>();
    ErrorHandler collecting =
        new ErrorHandler() {
          @Override
          public void warning(SAXParseException message) {
            messages.add(told(message));
          }

          @Override
          public void error(SAXParseException message) {
            messages.add(told(message));
          }

          @Override
          public void fatalError(SAXParseException message) {
            messages.add(told(message));
          }
        };
    CHECKER.setUpValidatorAndParsers(collecting, false, false);
    CHECKER.checkHtmlInputSource(
        new InputSource(new ByteArrayInputStream(page.getBytes(StandardCharsets.UTF_8))));
    messages.removeIf(message -> message.contains("Property \u201cpaint-order\u201d doesn"));
    messages.removeIf(message -> message.contains("Inline style violates Content Security Policy"));
    messages.removeIf(
        message -> message.contains("Inline script violates Content Security Policy"));
    return messages;
  }

  private static String told(SAXParseException message) {
    return message.getLineNumber() + ":" + message.getColumnNumber() + " " + message.getMessage();
  }

  private static SimpleDocumentValidator checker() {
    try {
      SimpleDocumentValidator checker = new SimpleDocumentValidator();
      checker.setUpMainSchema(EmbeddedValidator.SCHEMA_URL, new DefaultHandler());
      return checker;
    } catch (Exception e) {
      throw new IllegalStateException("Cannot set up the Nu HTML Checker", e);
    }
  }

  /**
   * The words of a page: no tags, neither style sheet nor script, character references resolved.
   */
  static String words(String page) {
    return page.replaceAll("(?s)<(style|script)>.*?</\\1>", " ")
        .replaceAll("<[^>]*>", " ")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&#34;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&")
        .replaceAll("\\s+", " ");
  }

  /** Every match of a pattern's first group. */
  static List<String> all(String page, String pattern) {
    List<String> found = new ArrayList<>();
    Matcher matcher = Pattern.compile(pattern, Pattern.DOTALL).matcher(page);
    while (matcher.find()) {
      found.add(matcher.group(1));
    }
    return found;
  }

  /**
   * The running sentences of a lesson sheet, without titles, labels and the teacher's own words.
   */
  static String said(String page) {
    return all(page, "(<p class=\"say[^\"]*\">.*?</p>)").stream()
        .map(PageCheck::words)
        .map(String::strip)
        .collect(Collectors.joining("\n"));
  }

  /** A page without the one script that belongs there. */
  static String withoutPlayer(String page) {
    return page.replace("<script>" + Player.script() + "</script>", "");
  }

  /** All pages of a study in one text. */
  static String together(Map<String, String> pages) {
    return String.join("\n", pages.values());
  }
}
