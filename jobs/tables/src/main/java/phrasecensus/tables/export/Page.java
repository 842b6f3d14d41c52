package phrasecensus.tables.export;

import java.util.List;

/**
 * A page of headings, paragraphs and tables, written top down in one of two forms. Text between
 * backticks is code in both; everything else is plain text.
 */
interface Page {
  /** A heading that links can lead to by its name. */
  void heading(int level, String text, String name);

  void paragraph(String text);

  /**
   * A table.
   *
   * @param caption what it shows; for readers who hear the page
   * @param firstIsCode true to print the first cell of each row as code
   */
  void table(String caption, List<String> headers, List<List<String>> rows, boolean firstIsCode);

  /** The whole page. */
  String text();

  /** A page in Markdown. */
  static Page markdown() {
    return new Markdown();
  }

  /** A page in HTML that needs no other file. */
  static Page html(String title) {
    return new Html(title);
  }

  /** Markdown with the tables of GitHub's dialect. */
  final class Markdown implements Page {
    private final StringBuilder text = new StringBuilder();

    @Override
    public void heading(int level, String heading, String name) {
      separate();
      text.append("#".repeat(level)).append(' ').append(heading).append('\n');
    }

    @Override
    public void paragraph(String paragraph) {
      separate();
      text.append(escaped(paragraph)).append('\n');
    }

    @Override
    public void table(
        String caption, List<String> headers, List<List<String>> rows, boolean firstIsCode) {
      separate();
      row(headers, false);
      text.append("|---".repeat(headers.size())).append("|\n");
      rows.forEach(cells -> row(cells, firstIsCode));
    }

    private void separate() {
      if (text.length() > 0) {
        text.append('\n');
      }
    }

    private void row(List<String> cells, boolean firstIsCode) {
      for (int i = 0; i < cells.size(); i++) {
        String cell = i == 0 && firstIsCode ? "`" + cells.get(i) + "`" : escaped(cells.get(i));
        text.append("| ").append(cell.replace("|", "\\|").replaceAll("\\s+", " ")).append(' ');
      }
      text.append("|\n");
    }

    private static String escaped(String plain) {
      StringBuilder escaped = new StringBuilder();
      boolean code = false;
      for (char c : plain.toCharArray()) {
        code ^= c == '`';
        if (!code && "*_<>[]".indexOf(c) >= 0) {
          escaped.append('\\');
        }
        escaped.append(c);
      }
      return escaped.toString();
    }

    @Override
    public String text() {
      return text.toString();
    }
  }

  /** HTML with its style inside; no script, nothing from elsewhere. */
  final class Html implements Page {
    private final StringBuilder text = new StringBuilder();

    Html(String title) {
      text.append(
          """
          <!DOCTYPE html>
          <html lang="en">
          <head>
          <meta charset="utf-8">
          <meta name="viewport" content="width=device-width, initial-scale=1">
          <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
          """);
      text.append("<title>").append(escaped(title)).append("</title>\n");
      text.append(
          """
          <style>
          :root { color-scheme: light dark; }
          body { font: 1rem/1.5 system-ui, sans-serif; margin: 1rem auto; max-width: 70rem; padding: 0 1rem; }
          h2 { border-top: 1px solid; margin-top: 2.5rem; padding-top: 1rem; }
          .wide { overflow-x: auto; }
          table { border-collapse: collapse; width: 100%; }
          caption { text-align: left; padding: .25rem 0; font-style: italic; }
          th, td { border-bottom: 1px solid; padding: .25rem .75rem .25rem 0; text-align: left; vertical-align: top; }
          tbody th { font-weight: normal; }
          code { font-family: ui-monospace, monospace; font-size: .9em; }
          @media print { h2 { break-after: avoid; } tr { break-inside: avoid; } }
          </style>
          </head>
          <body>
          <main>
          """);
    }

    @Override
    public void heading(int level, String heading, String name) {
      text.append("<h").append(level).append(" id=\"").append(escaped(name)).append("\">");
      text.append(withCode(heading)).append("</h").append(level).append(">\n");
    }

    @Override
    public void paragraph(String paragraph) {
      text.append("<p>").append(withCode(paragraph)).append("</p>\n");
    }

    @Override
    public void table(
        String caption, List<String> headers, List<List<String>> rows, boolean firstIsCode) {
      text.append("<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"");
      text.append(escaped(caption)).append("\">\n<table>\n<caption>");
      text.append(escaped(caption)).append("</caption>\n<thead><tr>");
      headers.forEach(
          header -> text.append("<th scope=\"col\">").append(escaped(header)).append("</th>"));
      text.append("</tr></thead>\n<tbody>\n");
      for (List<String> cells : rows) {
        text.append("<tr><th scope=\"row\">");
        text.append(firstIsCode ? "<code>" : "").append(escaped(cells.get(0)));
        text.append(firstIsCode ? "</code>" : "").append("</th>");
        for (String cell : cells.subList(1, cells.size())) {
          text.append("<td>").append(withCode(cell)).append("</td>");
        }
        text.append("</tr>\n");
      }
      text.append("</tbody>\n</table>\n</div>\n");
    }

    private static String escaped(String plain) {
      return plain
          .replace("&", "&amp;")
          .replace("<", "&lt;")
          .replace(">", "&gt;")
          .replace("\"", "&quot;");
    }

    private static String withCode(String plain) {
      return escaped(plain).replaceAll("`([^`]*)`", "<code>$1</code>");
    }

    @Override
    public String text() {
      return text + "</main>\n</body>\n</html>\n";
    }
  }
}
