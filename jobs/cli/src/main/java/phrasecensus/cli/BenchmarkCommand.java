package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.StudyReport;
import phrasecensus.rows.FileRows;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.MetadataDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code benchmark}: how fast reading and a whole study are here, side by side in one run. */
@Command(
    name = "benchmark",
    description =
        "Measures reading and analysis alone, an empty Spark session, and a whole study of a"
            + " folder, in one run.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Example:",
      "  phrase-census benchmark sample-corpus/corpus",
      "  phrase-census benchmark my-solos --files 5000",
      "  phrase-census benchmark my-solos --analysis --rounds 10",
      "  phrase-census benchmark my-solos --norms 1250,2500,5000 --by style"
    })
final class BenchmarkCommand implements Callable<Integer> {
  /** Rounds of one page, an odd number. */
  private static final int WARM_ROUNDS = 15;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A folder of scores.")
  private Path corpus;

  @Option(
      names = "--files",
      paramLabel = "NUMBER",
      description = "Also study the corpus copied under other names up to this many files.")
  private int files;

  @Option(
      names = "--rounds",
      paramLabel = "NUMBER",
      description = "Rounds of reading; the last is reported. Default: ${DEFAULT-VALUE}.")
  private int rounds = 5;

  @Option(
      names = "--analysis",
      description =
          "Only compare analysis with reading, and solos of growing length; nothing of Spark.")
  private boolean analysis;

  @Option(
      names = "--report",
      paramLabel = "STUDY",
      description = "Also measure the report of this finished study, tables read anew each round.")
  private String reported;

  @Option(
      names = "--norms",
      paramLabel = "NUMBER",
      split = ",",
      description =
          "Only measure norms, contrasts and comparison, of the corpus copied under other names and"
              + " players up to each of these numbers of solos. What is known of the solos is taken"
              + " from solos.csv in the folder.")
  private List<Integer> norms = List.of();

  @Option(
      names = "--by",
      paramLabel = "COLUMN",
      split = ",",
      description = "With --norms: metadata columns that group the norms.")
  private List<String> by = List.of();

  @Option(
      names = "--students",
      paramLabel = "FOLDER",
      description = "With --norms: students to compare.")
  private Path students;

  @Override
  public Integer call() throws IOException {
    for (int solos : norms) {
      if (solos < 1) {
        throw new InputException("Invalid number of solos: " + solos + ". Give 1 or more.");
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    List<Path> scores = scores();
    List<byte[]> contents = new ArrayList<>();
    long bytes = 0;
    for (Path score : scores) {
      contents.add(Files.readAllBytes(score));
      bytes += contents.get(contents.size() - 1).length;
    }
    out.println(
        String.format(
            Locale.ROOT,
            "Corpus: %d files, %.1f MB; %d cores, Java %s",
            scores.size(),
            bytes / 1e6,
            Runtime.getRuntime().availableProcessors(),
            System.getProperty("java.version")));
    if (analysis) {
      new AnalysisBenchmark(out, rounds)
          .run(scores.stream().map(score -> score.getFileName().toString()).toList(), contents);
      return ExitCode.DONE;
    }
    if (!norms.isEmpty()) {
      Path table = corpus.resolve(MetadataDefinition.USUAL_FILE);
      new NormsBenchmark(
              out,
              scores,
              contents,
              Files.exists(table) ? Files.readAllBytes(table) : null,
              arguments -> process(arguments.toArray(String[]::new)))
          .run(norms, by, students);
      return ExitCode.DONE;
    }
    reading(out, scores, contents, bytes);
    double empty = emptySession(out);
    study(out, corpus, scores.size(), empty);
    if (files > scores.size()) {
      Path many = Files.createTempDirectory("phrase-census-benchmark");
      try {
        for (int i = 0; i < files; i++) {
          String name = scores.get(i % scores.size()).getFileName().toString();
          Files.write(
              many.resolve(String.format(Locale.ROOT, "%06d-%s", i, name)),
              contents.get(i % contents.size()));
        }
        study(out, many, files, empty);
      } finally {
        delete(many);
      }
    }
    if (reported != null) {
      report(out);
    }
    return ExitCode.DONE;
  }

  /** Runs this program anew. */
  interface Processes {
    /** Wall time in seconds of a run with these arguments. */
    double seconds(List<String> arguments) throws IOException;
  }

  /** The page of one student made anew from rows that have been read; the median time. */
  private void studentPage(PrintWriter out) throws IOException {
    try (StudyFolder study = StudyFolder.finished(reported, StudyFolder.configuration())) {
      StudyReport.Warm warm =
          StudyReport.warm(
              study.source(),
              study.manifest(),
              StatisticsCatalogue.builtIn(),
              ReportSettings.usual());
      if (warm.students() == 0) {
        return;
      }
      double[] times = new double[WARM_ROUNDS];
      int bytes = 0;
      for (int round = -WARM_ROUNDS; round < WARM_ROUNDS; round++) {
        long start = System.nanoTime();
        bytes = warm.studentPage(0).length();
        times[Math.max(0, round)] = (System.nanoTime() - start) / 1e6;
      }
      Arrays.sort(times);
      out.println(
          String.format(
              Locale.ROOT,
              "Student page, warm: %.0f ms (median of %d rounds after as many others), %d kB",
              times[WARM_ROUNDS / 2],
              WARM_ROUNDS,
              bytes / 1000));
    }
  }

  /** All pages of a study from its tables, first and last round. */
  private void report(PrintWriter out) throws IOException {
    Path pages = Files.createTempDirectory("phrase-census-report");
    try {
      double first = 0;
      double last = 0;
      for (int round = 1; round <= rounds; round++) {
        long start = System.nanoTime();
        try (StudyFolder study = StudyFolder.finished(reported, StudyFolder.configuration())) {
          StudyReport.write(
              study.source(),
              study.manifest(),
              StatisticsCatalogue.builtIn(),
              ReportSettings.usual(),
              pages);
        }
        last = (System.nanoTime() - start) / 1e9;
        first = round == 1 ? last : first;
      }
      try (Stream<Path> files = Files.list(pages)) {
        long count = files.count();
        out.println(
            String.format(
                Locale.ROOT,
                "Report: %d pages; first round %.2f s, round %d %.2f s, %.0f ms a page",
                count,
                first,
                rounds,
                last,
                1000 * last / count));
      }
      studentPage(out);
    } finally {
      delete(pages);
    }
  }

  private List<Path> scores() {
    try (Stream<Path> walk = Files.walk(corpus)) {
      List<Path> scores =
          walk.filter(path -> path.toString().matches(".*\\.(musicxml|xml|mxl)"))
              .sorted(Comparator.comparing(Path::toString))
              .toList();
      if (scores.isEmpty()) {
        throw new InputException("Cannot measure " + corpus + ": it holds no scores.");
      }
      return scores;
    } catch (IOException e) {
      throw new InputException("Cannot list " + corpus + ": " + e.getMessage(), e);
    }
  }

  /** One thread, warm: bytes in memory to the rows of every table. */
  private void reading(PrintWriter out, List<Path> scores, List<byte[]> contents, long bytes) {
    FileRows rows = new FileRows(StudySettings.defaults(), TableSchemas.named("solos"));
    for (int round = 1; round <= rounds; round++) {
      long cpu = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
      long notes = 0;
      for (int i = 0; i < scores.size(); i++) {
        notes +=
            rows.of("corpus", scores.get(i).getFileName().toString(), contents.get(i), Map.of())
                .notes();
      }
      double seconds = (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpu) / 1e9;
      if (round == 1 || round == rounds) {
        out.println(
            String.format(
                Locale.ROOT,
                "Reading and analysis, one thread, %s: %.2f CPU s, %.0f files/s, %.0f notes/s,"
                    + " %.1f MB/s",
                round == 1 ? "cold" : "warm",
                seconds,
                scores.size() / seconds,
                notes / seconds,
                bytes / 1e6 / seconds));
      }
    }
  }

  /** Wall time of a fresh process with an empty session and one trivial job. */
  private double emptySession(PrintWriter out) throws IOException {
    double seconds = process("empty-session");
    out.println(
        String.format(
            Locale.ROOT,
            "Empty Spark session with one trivial job, fresh process: %.1f s",
            seconds));
    return seconds;
  }

  /** Wall time of a whole study in a fresh process. */
  private void study(PrintWriter out, Path folder, int count, double empty) throws IOException {
    Path into = Files.createTempDirectory("phrase-census-benchmark-study");
    try {
      double seconds =
          process("study", folder.toString(), "--into", into.resolve("study").toString());
      out.println(
          String.format(
              Locale.ROOT,
              "Study of %d files, fresh process: %.1f s, %.0f files/s, %.2f times the empty"
                  + " session",
              count,
              seconds,
              count / seconds,
              seconds / empty));
    } finally {
      delete(into);
    }
  }

  /** Runs this program again as a user starts it. */
  private static double process(String... arguments) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    ManagementFactory.getRuntimeMXBean().getInputArguments().stream()
        .filter(argument -> !argument.startsWith("-agentlib"))
        .forEach(command::add);
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(Main.class.getName());
    command.addAll(List.of(arguments));
    Path said = Files.createTempFile("phrase-census-benchmark", ".txt");
    long start = System.nanoTime();
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(said.toFile())
            .start();
    try {
      int exit = process.waitFor();
      double seconds = (System.nanoTime() - start) / 1e9;
      requireDone(arguments[0], exit, Files.readString(said));
      return seconds;
    } catch (InterruptedException e) {
      process.destroy();
      Thread.currentThread().interrupt();
      throw new IllegalStateException("Interrupted", e);
    } finally {
      Files.delete(said);
    }
  }

  /**
   * @param said what the process complained of; its last line is why it would not go on
   * @throws InputException with that line where the input was refused
   */
  static void requireDone(String name, int exit, String said) {
    if (exit == ExitCode.INPUT) {
      throw new InputException(
          "Cannot measure '"
              + name
              + "', which says: "
              + said.strip().lines().reduce((before, last) -> last).orElse("nothing"));
    }
    if (exit != ExitCode.DONE) {
      throw new IllegalStateException("Process " + name + " ended with " + exit);
    }
  }

  static void delete(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      for (Path path : walk.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }
}
