package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import phrasecensus.music.comparison.CoverageSimulation;
import phrasecensus.music.comparison.CoverageSimulation.Figure;
import phrasecensus.music.comparison.CoverageSimulation.Reason;
import phrasecensus.tables.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code simulate}: intervals and tests held against corpora of which the truth is known. */
@Command(
    name = "simulate",
    description =
        "Draws corpora and students from a stated model and counts how often the 95 %% intervals"
            + " hold the truth, and how often a student is found to depart who does, or does not.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Model: a phrase is player + solo + phrase, three independent normal parts of variance 1"
          + " together; 'ICC' is the share of players and solos. Phrases a solo are log-normal with"
          + " median 19. 'Skewed' takes the exponential of each solo's value. Shifts are in"
          + " standard deviations of a solo's value. Last come two groups side by side, whose"
          + " players are dealt. An interval that is not always told ('exists') is counted where it"
          + " is told. The tables are Markdown; a share over R rounds is known to about"
          + " 1/sqrt(R)/2.",
      "",
      "Example:",
      "  phrase-census simulate --rounds 1000"
    })
final class SimulateCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--rounds",
      paramLabel = "N",
      description = "Corpora drawn for each setting. Default: ${DEFAULT-VALUE}.")
  private int rounds = 500;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Seed of the draws; the same one gives the same tables. Default: 5.")
  private long seed = 5;

  @Override
  public Integer call() {
    if (rounds < 1) {
      throw new InputException("Invalid number of rounds: " + rounds + ". Give 1 or more.");
    }
    PrintWriter out = spec.commandLine().getOut();
    Map<String, List<Figure>> bySetting = new LinkedHashMap<>();
    for (Figure figure : CoverageSimulation.usual(rounds, seed)) {
      bySetting.computeIfAbsent(figure.setting(), setting -> new ArrayList<>()).add(figure);
    }
    List<String> columns = List.of();
    List<Reason> reasons = new ArrayList<>();
    for (Map.Entry<String, List<Figure>> setting : bySetting.entrySet()) {
      List<String> own = setting.getValue().stream().map(Figure::what).toList();
      if (!own.equals(columns)) {
        columns = own;
        out.println();
        out.println("| setting | " + String.join(" | ", columns) + " |");
        out.println("|---".repeat(columns.size() + 1) + "|");
      }
      StringBuilder row = new StringBuilder("| ").append(setting.getKey()).append(" |");
      for (Figure figure : setting.getValue()) {
        String mark = figure.off().map(reason -> " " + mark(reason, reasons)).orElse("");
        row.append(
            figure.rounds() == 0
                ? " - |"
                : String.format(Locale.ROOT, " %.3f%s |", figure.share(), mark));
      }
      out.println(row);
    }
    if (!reasons.isEmpty()) {
      out.println();
      out.println(
          "Marked are 95 % intervals that hold the truth other than .93 to .97 of the time, and"
              + " tests at .05 that find other than .04 to .06 where nothing is:");
      for (Reason reason : reasons) {
        out.println(mark(reason, reasons) + ": " + reason.words() + ".");
      }
    }
    out.println();
    out.println(rounds + " rounds, seed " + seed);
    return ExitCode.DONE;
  }

  /** A letter for each reason, in the order in which they are first met. */
  private static char mark(Reason reason, List<Reason> reasons) {
    if (!reasons.contains(reason)) {
      reasons.add(reason);
    }
    return (char) ('a' + reasons.indexOf(reason));
  }
}
