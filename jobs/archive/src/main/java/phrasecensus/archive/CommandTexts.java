package phrasecensus.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import phrasecensus.cli.Main;
import phrasecensus.tables.export.Citation;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.codegen.docgen.manpage.ManPageGenerator;

/**
 * Writes what follows from the commands and the version: the completion of bash and zsh, the source
 * of each man page, and how to cite the program.
 */
public final class CommandTexts {
  private CommandTexts() {}

  /**
   * Writes the texts.
   *
   * @param arguments the folder of the archive's files, the folder of the man pages' sources, the
   *     version
   * @throws IOException if one cannot be written
   */
  public static void main(String... arguments) throws IOException {
    Path files = Path.of(arguments[0]);
    Path pages = Files.createDirectories(Path.of(arguments[1]));
    CommandLine commandLine = Main.commandLine();
    Path completion = Files.createDirectories(files.resolve("completion"));
    Files.writeString(
        completion.resolve("phrase-census.sh"), AutoComplete.bash("phrase-census", commandLine));
    int code =
        ManPageGenerator.generateManPage(
            pages.toFile(), null, new boolean[0], false, commandLine.getCommandSpec());
    if (code != 0) {
      throw new IOException("the sources of the man pages were not written, code " + code);
    }
    Files.writeString(files.resolve(Citation.FILE_NAME), Citation.ofProgram(arguments[2]));
  }
}
