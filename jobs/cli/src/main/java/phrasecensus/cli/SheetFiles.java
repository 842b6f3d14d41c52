package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.Annotations;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.SheetLayout;
import phrasecensus.report.StudyReport;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.wording.MusicText;
import phrasecensus.tables.InputException;

/**
 * What a sheet is written to: a score, a MIDI file and a page to print.
 *
 * @param into their folder
 * @param stem their name without ending
 */
record SheetFiles(Path into, String stem) {
  private List<Path> all() {
    return List.of(score(), page(), midi());
  }

  private Path score() {
    return into.resolve(stem + ".musicxml");
  }

  private Path page() {
    return into.resolve(stem + ".html");
  }

  private Path midi() {
    return into.resolve(stem + ".mid");
  }

  /**
   * Looks before anything is made.
   *
   * @param force true where files that are there may be replaced
   * @throws InputException if one is there and may not, or the folder is none
   */
  void refuseToReplace(boolean force) {
    if (Files.exists(into) && !Files.isDirectory(into)) {
      throw new InputException(
          "Cannot write into " + into + ": it is a file, not a folder. Choose another --into.");
    }
    for (Path file : all()) {
      if (Files.exists(file, LinkOption.NOFOLLOW_LINKS) && !force) {
        throw new InputException(
            "Cannot write " + file + ": it is there already. Give --force to replace it.");
      }
    }
  }

  /**
   * Writes all three.
   *
   * @param how what stands under the title
   * @param generator program and version
   */
  void write(Sheet sheet, String title, String how, Instrument player, String generator) {
    write(score(), document(sheet, how));
    write(midi(), sheet.midi(title, player));
    write(
        page(),
        StudyReport.sheet(sheet, stem, title, how, player, generator)
            .getBytes(StandardCharsets.UTF_8));
  }

  /** Says where they are. */
  void tell(PrintWriter out) {
    out.println("Sheet: " + score());
    out.println("To print: " + page());
    out.println("MIDI: " + midi());
  }

  private static byte[] document(Sheet sheet, String how) {
    Map<Integer, String> degrees =
        sheet.lastDegrees().entrySet().stream()
            .collect(Collectors.toMap(Map.Entry::getKey, e -> MusicText.degree(e.getValue())));
    try {
      return AnnotatedScoreWriter.document(
          sheet.solo(),
          new Annotations(List.of(), degrees, Set.of()),
          new SheetLayout(
              sheet.systemStarts(),
              sheet.emptyBars(),
              sheet.captions(),
              List.of(how),
              sheet.phrases().isEmpty() ? "" : Sheet.RIGHTS));
    } catch (ArithmeticException e) {
      throw new InputException(
          "Cannot write the sheet: no division of the quarter note fits the lengths of all its"
              + " phrases. Ask for fewer.",
          e);
    }
  }

  /** Writes aside and moves, so that no half sheet is ever seen. */
  private void write(Path file, byte[] content) {
    Path part = file.resolveSibling("." + file.getFileName() + ".part");
    try {
      Files.createDirectories(into);
      Files.write(part, content);
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new InputException(
          "Cannot write " + file + ": " + e.getMessage() + ". Choose another --into.", e);
    }
  }
}
