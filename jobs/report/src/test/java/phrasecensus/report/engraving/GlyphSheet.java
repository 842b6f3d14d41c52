package phrasecensus.report.engraving;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes a page with every sign, large, on a staff: for looking at. */
final class GlyphSheet {
  private GlyphSheet() {}

  public static void main(String[] arguments) throws IOException {
    StringBuilder page =
        new StringBuilder("<!DOCTYPE html><title>Signs</title><svg width='1280' height='1000'>");
    int i = 0;
    for (Glyph glyph : Glyph.values()) {
      int x = 40 + i % 8 * 155;
      int y = 130 + i / 8 * 190;
      for (int line = -2; line <= 2; line++) {
        double at = glyph == Glyph.G_CLEF ? line - 1 : glyph == Glyph.F_CLEF ? line + 1 : line;
        page.append(
            "<path stroke='#999' stroke-width='.13' transform='translate("
                + x
                + " "
                + y
                + ") scale(20)' d='M-1 "
                + at
                + "H4'/>");
      }
      page.append(
          "<path transform='translate("
              + x
              + " "
              + y
              + ") scale(20)' d='"
              + glyph.outline()
              + "'/>");
      i++;
    }
    Files.writeString(Path.of(arguments[0]), page.append("</svg>").toString());
  }
}
