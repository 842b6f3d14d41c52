package phrasecensus.report.view;

import java.util.List;
import phrasecensus.report.listen.Player;
import phrasecensus.report.look.Stylesheet;
import phrasecensus.report.wording.FileText;

/**
 * What every page has around its content.
 *
 * @param title of the window
 * @param generator program and version
 * @param pitch which pitch notes stand at, in a sentence; empty where none are shown
 * @param listening true where phrases can be heard
 * @param norms true where norms are told, so that the footer says what they are
 * @param home true on the corpus page
 * @param sections links within the page, in order
 * @param pages links to the other pages, in order
 */
public record Shell(
    String title,
    String generator,
    String pitch,
    boolean listening,
    boolean norms,
    boolean home,
    List<Link> sections,
    List<Link> pages) {
  public Shell {
    title = FileText.withoutDirection(title);
    generator = FileText.withoutDirection(generator);
    sections = List.copyOf(sections);
    pages = List.copyOf(pages);
  }

  /**
   * A link.
   *
   * @param target of our own making: a page of the folder or a place in the page
   */
  public record Link(String target, String text) {}

  /** Of a page that stands alone: no links, and nothing of norms. */
  static Shell alone(String title, String generator, String pitch, boolean listening) {
    return new Shell(title, generator, pitch, listening, false, false, List.of(), List.of());
  }

  public String securityPolicy() {
    return Stylesheet.securityPolicy(script());
  }

  /** The script of the page; empty where nothing can be heard. */
  public String script() {
    return listening ? Player.script() : "";
  }

  public String style() {
    return Stylesheet.text();
  }
}
