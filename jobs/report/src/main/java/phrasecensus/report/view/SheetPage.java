package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.engraving.Layout;
import phrasecensus.report.listen.Sound;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.sheet.SheetLine;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;

/**
 * A sheet as a page to print or to look at: the same bars as in its score, with sound.
 *
 * @param title of the sheet
 * @param how what the sheet is for and how it is read
 * @param parts its phrases and the empty bars after them
 * @param rights what to know before it is handed out; empty for what is the student's own
 */
public record SheetPage(Shell shell, String title, String how, List<Part> parts, String rights) {
  public SheetPage {
    parts = List.copyOf(parts);
  }

  /**
   * What stands on a system of its own.
   *
   * @param caption where it comes from, or what the player is to do
   * @param answer true for empty bars
   * @param sound null for empty bars
   */
  public record Part(String caption, Score score, boolean answer, Sound sound) {}

  /**
   * Makes the page.
   *
   * @param file name of the sheet's files without ending
   * @param how the paragraphs under the title
   */
  public static SheetPage of(
      Sheet sheet, String file, String title, String how, Instrument player, String generator) {
    String plain = FileText.printable(title);
    return new SheetPage(
        Shell.alone(
            plain,
            generator,
            Text.of(player == Instrument.CONCERT ? "shell.pitch.concert" : "sheet.pitch"),
            true),
        plain,
        how,
        parts(sheet, "part-", file, player),
        sheet.phrases().isEmpty() ? "" : Sheet.RIGHTS);
  }

  /**
   * Everything that stands on a system of its own.
   *
   * @param ids start of the ids, unique in the page
   * @param file start of the names of sounds
   */
  static List<Part> parts(Sheet sheet, String ids, String file, Instrument player) {
    SoloLine line = SheetLine.of(sheet);
    Scores scores = new Scores();
    List<Part> parts = new ArrayList<>();
    for (Sheet.Stretch stretch : sheet.stretches()) {
      String id = ids + (parts.size() + 1);
      Layout wide = layout(Layout.wide(), stretch);
      Layout narrow = layout(Layout.narrow(), stretch);
      Fraction from = line.bars().get(stretch.firstBar()).exactOnset();
      SoloLine.BarSpan last = line.bars().get(stretch.lastBar());
      Fraction to = last.exactOnset().plus(last.exactLength());
      List<SoloLine.Tone> notes =
          line.notes().stream()
              .filter(note -> !note.exactOnset().isBefore(from) && note.exactOnset().isBefore(to))
              .toList();
      parts.add(
          new Part(
              stretch.caption(),
              scores.of(id, line, null, wide, narrow),
              stretch.answer(),
              Sound.of(
                  file + "-" + (parts.size() + 1),
                  player.program(),
                  line,
                  notes,
                  sheet.solo().tempoAt(from).orElse(null),
                  null)));
    }
    return parts;
  }

  private static Layout layout(Layout all, Sheet.Stretch stretch) {
    Layout part = all.bars(stretch.firstBar(), stretch.lastBar());
    return stretch.answer() ? part.blank() : part;
  }
}
