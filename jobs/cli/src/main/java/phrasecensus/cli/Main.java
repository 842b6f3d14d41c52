package phrasecensus.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import phrasecensus.store.Program;
import phrasecensus.tables.InputException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ScopeType;

/** Phrase Census on the command line. */
@Command(
    name = "phrase-census",
    description =
        "Studies the phrases of transcribed solos: reads MusicXML files, finds and describes the"
            + " phrases, makes the norms of a corpus and holds students' solos against them.",
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:a fault of the program",
      "2:the command line is wrong",
      "3:the input or the study cannot be used",
      "4:done, but files were rejected (with --strict)",
      "5:a verified study gave other results than expected"
    },
    footer = {
      "",
      "Example:",
      "  phrase-census study sample-corpus/study.yaml",
      "  phrase-census study my-solos --by style --into my-study"
    })
public final class Main implements Runnable {
  /** In the order of the help. */
  private static final List<Class<?>> COMMANDS =
      List.of(
          StudyCommand.class,
          ReadCommand.class,
          NormsCommand.class,
          CompareCommand.class,
          PatternsCommand.class,
          PlayersCommand.class,
          AgreeCommand.class,
          AttributeCommand.class,
          AcceptanceCommand.class,
          PlanCommand.class,
          ReportCommand.class,
          ExportCommand.class,
          VerifyCommand.class,
          InspectCommand.class,
          AnnotateCommand.class,
          PhrasesCommand.class,
          SheetCommand.class,
          ExercisesCommand.class,
          ScorePhrasesCommand.class,
          SimulateCommand.class,
          BenchmarkCommand.class,
          EmptySessionCommand.class,
          SameMusicCommand.class,
          ShippedFiguresCommand.class,
          HelpCommand.class);

  @CommandLine.Spec private CommandSpec spec;

  @Option(
      names = "--debug",
      scope = ScopeType.INHERIT,
      description = "Show stack traces and the log of Spark.")
  private boolean debug;

  /** Runs a command and ends the process with its exit code. */
  public static void main(String[] arguments) {
    PrintWriter out = shown(System.out);
    PrintWriter err = shown(System.err);
    silence(arguments);
    int exitCode;
    Path temporary = null;
    try {
      temporary = TemporaryFolder.ensure(arguments);
      exitCode = run(out, err, arguments);
    } catch (InputException e) {
      err.println(e.getMessage());
      exitCode = ExitCode.OUR_FAULT;
    } finally {
      Steps.delete(temporary);
    }
    out.flush();
    err.flush();
    tellLauncher(exitCode);
    System.exit(exitCode);
  }

  /**
   * Libraries and threads that nobody waits for print traces of what they run into. Whoever wants
   * to see them asks for {@code --debug}; what concerns users is told by the command itself.
   */
  static void silence(String... arguments) {
    if (!Arrays.asList(arguments).contains("--debug")) {
      System.setErr(
          new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8));
    }
  }

  /**
   * Writes the exit code where the launcher asks for it: Java ends with another one where the
   * archive of classes that it makes at last does not fit on the disk.
   */
  private static void tellLauncher(int exitCode) {
    String file = System.getProperty("phrasecensus.exit");
    if (file != null) {
      try {
        Files.writeString(Path.of(file), exitCode + "\n");
      } catch (IOException e) {
        // The launcher takes what Java ends with.
      }
    }
  }

  private static PrintWriter shown(OutputStream stream) {
    Writer buffered = new BufferedWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8));
    return new PrintWriter(new ShownText(buffered), true);
  }

  /** Runs a command with its own output and returns the exit code. */
  static int run(PrintWriter out, PrintWriter err, String... arguments) {
    Main main = new Main();
    CommandLine commandLine = commandLine(main, commands(arguments));
    commandLine.setOut(out);
    commandLine.setErr(err);
    commandLine.setUsageHelpAutoWidth(true);
    commandLine.setParameterExceptionHandler((e, given) -> main.wrongUsage(e));
    commandLine.setExecutionExceptionHandler((e, command, result) -> main.failed(e, command));
    try {
      return commandLine.execute(arguments);
    } catch (Error e) {
      // Hadoop's local file system throws errors for what is wrong with a disk.
      return main.failed(e, commandLine);
    }
  }

  /** Every command with its options, for what is made of them: help, man pages, completion. */
  public static CommandLine commandLine() {
    return commandLine(new Main(), COMMANDS);
  }

  private static CommandLine commandLine(Main main, List<Class<?>> commands) {
    CommandLine commandLine = new CommandLine(main);
    commands.forEach(commandLine::addSubcommand);
    CommandLine help = commandLine.getSubcommands().get("help");
    if (help != null) {
      help.getCommandSpec()
          .usageMessage()
          .header(new String[0])
          .description("Shows the help of a command, as in 'help study'.");
    }
    commandLine.setExpandAtFiles(false);
    return commandLine;
  }

  /** Whether a command was given {@code --debug}. */
  static boolean isDebugging(CommandSpec command) {
    return command.root().userObject() instanceof Main main && main.debug;
  }

  /** The one command that is meant, all others left unmade; all where none is, or help is. */
  private static List<Class<?>> commands(String... arguments) {
    for (Class<?> command : COMMANDS) {
      if (command != HelpCommand.class
          && arguments.length > 0
          && command.getAnnotation(Command.class).name().equals(arguments[0])) {
        return List.of(command);
      }
    }
    return COMMANDS;
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Name a command.");
  }

  /** The launcher sees to it that this does not happen; {@code spark-submit} does not. */
  private static String cannotBeTold(InvalidPathException name) {
    return "Cannot use the name "
        + name.getInput()
        + ": Java was started with an encoding ("
        + System.getProperty("sun.jnu.encoding")
        + ") that cannot hold it, or no file can have it. Set LC_ALL=C.UTF-8 and run the same"
        + " command again.";
  }

  private int wrongUsage(ParameterException e) {
    CommandLine command = e.getCommandLine();
    InvalidPathException name = cause(e, InvalidPathException.class);
    if (name != null) {
      command.getErr().println(cannotBeTold(name));
      return ExitCode.USAGE;
    }
    command
        .getErr()
        .println(
            UsageText.of(e) + " Try '" + command.getCommandSpec().qualifiedName() + " --help'.");
    return ExitCode.USAGE;
  }

  private int failed(Throwable e, CommandLine command) {
    PrintWriter err = command.getErr();
    if (Interruption.isStopping()) {
      return ExitCode.OUR_FAULT;
    }
    if (debug) {
      e.printStackTrace(err);
    }
    if (isFullDisk(e)) {
      err.println(
          "Cannot finish: No space left on the device. What was finished before is as it was; make"
              + " room and run the same command again.");
      return ExitCode.INPUT;
    }
    if (isOutOfThreads(e)) {
      err.println(
          "Cannot finish: the system allows no further thread. Allow more processes, as in 'ulimit"
              + " -u 1000', and run the same command again.");
      return ExitCode.OUR_FAULT;
    }
    if (isOutOfMemory(e)) {
      err.println(
          "Cannot finish: the memory that Java may use ("
              + (Runtime.getRuntime().maxMemory() >> 20)
              + " MB) is too small. Give it more, as in JAVA_OPTS=-Xmx4g, and run the same command"
              + " again.");
      return ExitCode.INPUT;
    }
    InvalidPathException name = cause(e, InvalidPathException.class);
    if (name != null) {
      err.println(cannotBeTold(name));
      return ExitCode.INPUT;
    }
    InputException input = cause(e, InputException.class);
    if (input != null) {
      err.println(input.getMessage());
      return ExitCode.INPUT;
    }
    err.println(
        "A fault of the program: "
            + e.getClass().getSimpleName()
            + (e.getMessage() == null ? "" : ", " + e.getMessage().lines().findFirst().orElse(""))
            + (debug ? "" : ". Run the same command with --debug to see where."));
    return ExitCode.OUR_FAULT;
  }

  /** Spark tells what a task ran into as text alone. */
  private static boolean isFullDisk(Throwable thrown) {
    return says(thrown, "No space left on device") || says(thrown, "Disk quota exceeded");
  }

  private static boolean isOutOfThreads(Throwable thrown) {
    return says(thrown, "unable to create native thread")
        || says(thrown, "unable to create new native thread");
  }

  private static boolean isOutOfMemory(Throwable thrown) {
    return thrown instanceof OutOfMemoryError || says(thrown, "java.lang.OutOfMemoryError");
  }

  private static boolean says(Throwable thrown, String text) {
    for (Throwable each = thrown; each != null; each = each.getCause()) {
      if (each.toString().contains(text)) {
        return true;
      }
    }
    return false;
  }

  private static <T extends Throwable> T cause(Throwable thrown, Class<T> kind) {
    for (Throwable each = thrown; each != null; each = each.getCause()) {
      if (kind.isInstance(each)) {
        return kind.cast(each);
      }
    }
    return null;
  }

  /** The version of the build. */
  static final class Version implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {Program.nameAndVersion()};
    }
  }
}
