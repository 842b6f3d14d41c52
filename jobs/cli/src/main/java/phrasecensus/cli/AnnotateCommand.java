package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.Annotations;
import phrasecensus.tables.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code annotate}: copies of solos with what was heard in them, for a notation program. */
@Command(
    name = "annotate",
    description =
        "Writes a MusicXML copy of each solo with its phrases under brackets, the degree of each"
            + " landing as text below the note, and a * below every outside note that no step"
            + " explains; for any notation program.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Example:",
      "  phrase-census annotate sample-corpus/corpus/*.musicxml --into annotated"
    })
final class AnnotateCommand implements Callable<Integer> {
  private static final String SUFFIX = "-annotated.musicxml";

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", arity = "1..*", description = "MusicXML files.")
  private List<Path> files;

  @Option(
      names = "--into",
      paramLabel = "FOLDER",
      required = true,
      description = "Folder of the copies; a copy of SOLO.xml is named SOLO" + SUFFIX + ".")
  private Path into;

  @Option(names = "--force", description = "Replace copies that are there. Never a file given.")
  private boolean force;

  @Option(names = "--strict", description = "Exit with 4 when a file was rejected.")
  private boolean strict;

  @Mixin private SoloOptions options;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    options.check();
    Map<Path, Path> copies = copies();
    int written = 0;
    for (Map.Entry<Path, Path> copy : copies.entrySet()) {
      byte[] document;
      SoloAnalysis analysis;
      Annotations annotations;
      try {
        analysis = options.analysis(options.read(copy.getKey(), err).solo());
        annotations = SoloAnnotations.of(analysis);
        document = document(copy.getKey(), analysis, annotations);
      } catch (InputException e) {
        if (copies.size() == 1) {
          throw e;
        }
        err.println(e.getMessage());
        continue;
      }
      write(copy.getValue(), document);
      written++;
      out.println(
          copy.getValue()
              + ": "
              + counted(annotations.phrases().size(), "phrase")
              + ", "
              + counted(analysis.landings().size(), "landing")
              + ", "
              + counted(annotations.markedNotes().size(), "note")
              + " marked");
    }
    if (written == 0) {
      throw new InputException(
          "Cannot annotate: none of the " + copies.size() + " files could be read.");
    }
    return strict && written < copies.size() ? ExitCode.REJECTED_FILES : ExitCode.DONE;
  }

  private static String counted(int number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /** File to copy; everything that may not be written is found before anything is. */
  private Map<Path, Path> copies() {
    if (Files.exists(into) && !Files.isDirectory(into)) {
      throw new InputException(
          "Cannot write into " + into + ": it is a file, not a folder. Choose another --into.");
    }
    Map<Path, Path> byCopy = new LinkedHashMap<>();
    Map<Path, Path> copies = new LinkedHashMap<>();
    for (Path file : files) {
      Path copy = into.resolve(nameWithoutExtension(file) + SUFFIX);
      Path other = byCopy.putIfAbsent(copy, file);
      if (other != null) {
        throw new InputException(
            "Cannot annotate both "
                + other
                + " and "
                + file
                + ": their copies would have one name. Annotate them into two folders.");
      }
      refuseToReplace(copy);
      copies.put(file, copy);
    }
    return copies;
  }

  private static String nameWithoutExtension(Path file) {
    return String.valueOf(file.getFileName()).replaceFirst("(?i)(?<=.)\\.(musicxml|xml|mxl)$", "");
  }

  private void refuseToReplace(Path copy) {
    if (!Files.exists(copy, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (Files.isDirectory(copy)) {
      throw new InputException("Cannot write " + copy + ": there is a folder of that name.");
    }
    for (Path file : files) {
      if (isSame(copy, file)) {
        throw new InputException(
            "Cannot write " + copy + ": it is one of the files given. Choose another --into.");
      }
    }
    if (!force) {
      throw new InputException(
          "Cannot write " + copy + ": it is there already. Give --force to replace it.");
    }
  }

  private static boolean isSame(Path copy, Path file) {
    try {
      return Files.isSameFile(copy, file);
    } catch (IOException e) {
      // A file that is not there is no other file; reading it says so.
      return false;
    }
  }

  private static byte[] document(Path file, SoloAnalysis analysis, Annotations annotations) {
    try {
      return AnnotatedScoreWriter.document(analysis.solo(), annotations);
    } catch (ArithmeticException e) {
      throw new InputException(
          "Cannot annotate " + file + ": no division of the quarter note fits all its lengths.", e);
    }
  }

  /** Writes aside and moves, so that no half copy is ever seen. */
  private void write(Path copy, byte[] document) {
    Path part = copy.resolveSibling("." + copy.getFileName() + ".part");
    try {
      Files.createDirectories(into);
      Files.write(part, document);
      Files.move(part, copy, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } catch (AccessDeniedException e) {
      throw new InputException(
          "Cannot write " + copy + ": permission denied. Choose another --into.", e);
    } catch (FileAlreadyExistsException | NotDirectoryException e) {
      throw new InputException(
          "Cannot write " + copy + ": a part of its path is a file, not a folder.", e);
    } catch (IOException e) {
      throw new InputException("Cannot write " + copy + ": " + e.getMessage() + ".", e);
    }
  }
}
