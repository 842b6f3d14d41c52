package phrasecensus.report.view;

import java.util.List;

/**
 * The page of the figures that solos of the corpus share.
 *
 * @param figures that in most solos first; may be empty
 * @param excerpts false when notes are left out
 */
public record FiguresPage(Shell shell, String title, List<ShownFigure> figures, boolean excerpts) {
  public FiguresPage {
    figures = List.copyOf(figures);
  }
}
