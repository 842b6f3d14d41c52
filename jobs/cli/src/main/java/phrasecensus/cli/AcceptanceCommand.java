package phrasecensus.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import phrasecensus.comparison.CorpusStatistics;
import phrasecensus.music.comparison.Acceptance;
import phrasecensus.music.comparison.ShippedFigures;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code acceptance}: the comparison held against real players, with and without known shifts. */
@Command(
    name = "acceptance",
    description =
        "Leaves players of a study's corpus out, one a round, compares them as students with solos"
            + " of others, as played and with known shifts put in, and counts false alarms and what"
            + " is found. Writes nothing into the study.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "The design is a CSV file, a round a line: k, round, group, player, student, reference,"
          + " question, shifted. Student and reference are solos as table solos names them, parted"
          + " by semicolons; groups are those of the first column that the study groups by; shifted"
          + " is statistic:+1 or statistic:-1, parted by semicolons, in standard deviations of the"
          + " group (2 and 3 are put in). Printed is a CSV table: solos of a student, shift,"
          + " measure, value, its standard error with players as independent, rounds, players."
          + " 'predicted' is what the planning formula promises.",
      "",
      "Example:",
      "  phrase-census acceptance my-study --design rounds.csv"
    })
final class AcceptanceCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder.")
  private String location;

  @Option(names = "--design", required = true, paramLabel = "FILE", description = "The rounds.")
  private Path design;

  @Option(
      names = "--p",
      paramLabel = "FILE",
      description = "File to write with p of every round and statistic as played.")
  private Path pFile;

  @Override
  public Integer call() {
    List<Acceptance.Round> rounds = rounds();
    List<Acceptance.Statistic> statistics = statistics();
    Acceptance acceptance = new Acceptance(statistics);
    List<String> lines = new ArrayList<>();
    try {
      for (Acceptance.Round round : rounds) {
        StringBuilder line = new StringBuilder(round.round());
        for (double p : acceptance.run(round)) {
          line.append(',').append(Double.isNaN(p) ? "nan" : Double.toString(p));
        }
        lines.add(line.toString());
      }
    } catch (IllegalArgumentException e) {
      throw new InputException(
          "Cannot use the design " + design + " on " + location + ": " + e.getMessage() + ".", e);
    }
    print(acceptance.figures());
    if (pFile != null) {
      write(statistics, lines);
    }
    return ExitCode.DONE;
  }

  private List<Acceptance.Round> rounds() {
    try {
      return Acceptance.rounds(Files.readString(design));
    } catch (IOException e) {
      throw new InputException("Cannot read the design " + design + ": " + e.getMessage() + ".", e);
    } catch (IllegalArgumentException e) {
      throw new InputException("Cannot use the design " + design + ": " + e.getMessage() + ".", e);
    }
  }

  private List<Acceptance.Statistic> statistics() {
    try (StudyFolder folder = StudyFolder.finishedToRead(location, StudyFolder.configuration())) {
      List<String> by = folder.manifest().by();
      if (by.isEmpty()) {
        throw new InputException(
            "Cannot leave players of "
                + location
                + " out of their groups: the study groups its solos by nothing. Run 'phrase-census"
                + " norms' with --by.");
      }
      CorpusStatistics corpus = CorpusStatistics.of(folder.source(), by.get(0));
      List<Acceptance.Statistic> statistics = new ArrayList<>();
      for (StatisticDefinition definition : StatisticsCatalogue.builtIn().all()) {
        if (definition.compared()) {
          ShippedFigures shipped = ShippedTable.builtIn().of(definition.key()).orElseThrow();
          statistics.add(
              new Acceptance.Statistic(
                  definition.key(),
                  definition.facet(),
                  definition.headline(),
                  shipped,
                  corpus.whole(definition.key())));
        }
      }
      return statistics;
    }
  }

  private void print(List<Acceptance.Figure> figures) {
    PrintWriter out = spec.commandLine().getOut();
    out.println("k,shift,measure,value,se,rounds,players");
    for (Acceptance.Figure figure : figures) {
      out.println(
          String.format(
              Locale.ROOT,
              "%d,%d,%s,%.4f,%.4f,%d,%d",
              figure.k(),
              figure.shift(),
              figure.measure().contains(",") ? '"' + figure.measure() + '"' : figure.measure(),
              figure.value(),
              figure.error(),
              figure.rounds(),
              figure.players()));
    }
    out.flush();
  }

  private void write(List<Acceptance.Statistic> statistics, List<String> lines) {
    try (BufferedWriter writer = Files.newBufferedWriter(pFile)) {
      writer.write(
          "round," + String.join(",", statistics.stream().map(Acceptance.Statistic::key).toList()));
      writer.write('\n');
      for (String line : lines) {
        writer.write(line);
        writer.write('\n');
      }
    } catch (IOException e) {
      throw new InputException("Cannot write " + pFile + ": " + e.getMessage() + ".", e);
    }
  }
}
