package phrasecensus.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;

/**
 * What a command said and how it ended.
 *
 * @param exitCode what the process would end with
 * @param out standard output
 * @param err standard error
 */
record CommandRun(int exitCode, String out, String err) {
  /** Runs a command in this process. */
  static CommandRun of(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int exitCode = Main.run(new PrintWriter(out, true), new PrintWriter(err, true), arguments);
    return new CommandRun(exitCode, out.toString(), err.toString());
  }

  /** Lines of standard error that are not progress. */
  List<String> complaints() {
    return err.lines()
        .filter(
            line ->
                !line.startsWith("Reading ")
                    && !line.startsWith("Making ")
                    && !line.startsWith("Writing "))
        .toList();
  }
}
