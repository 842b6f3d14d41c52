package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.ToDoubleFunction;
import phrasecensus.comparison.PlayerApart;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code players}: every player of a corpus held against all the others. */
@Command(
    name = "players",
    description =
        "Holds each player of a study's corpus against the solos of all the others, as if a"
            + " student, and writes nothing into the study.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "'outside' is the share of the values of single solos that lie outside the band from the 5 %%"
          + " to the 95 %% quantile of the others; 'expected' is that share if all players were"
          + " one. 'medians outside' counts the statistics in which the median of the player's"
          + " solos lies outside; 'clear' those in which the player differs at 5 %% after"
          + " adjustment over all tested. 'distance' is the mean over all statistics of how far the"
          + " player lies from the others, tempo taken out, in standard deviations of a usual solo,"
          + " discounted by few phrases. The test is that of a student beside the whole corpus. It"
          + " says how unlike the others these transcriptions are, and nothing of how good.",
      "",
      "Example:",
      "  phrase-census players my-study"
    })
final class PlayersCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A study folder.")
  private String location;

  @Option(
      names = "--farthest",
      paramLabel = "N",
      description = "Players to tell more of, the farthest out first. Default: ${DEFAULT-VALUE}.")
  private int farthest = 3;

  @Option(
      names = "--statistics",
      paramLabel = "N",
      description = "Statistics to tell of each of them. Default: ${DEFAULT-VALUE}.")
  private int statistics = 5;

  @Override
  public Integer call() {
    if (farthest < 0) {
      throw new InputException("Invalid number of players: " + farthest + ". Give 0 or more.");
    }
    if (statistics < 1) {
      throw new InputException("Invalid number of statistics: " + statistics + ". Give 1 or more.");
    }
    List<PlayerApart> players;
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.finished(location, session.configuration())) {
      players =
          PlayerApart.farthestFirst(
              new StudyRunner(session, spec.commandLine().getErr()::println).players(folder));
    }
    PrintWriter out = spec.commandLine().getOut();
    out.println(
        "| player | solos | outside | expected | medians outside | of statistics | clear | distance"
            + " |");
    out.println("|---|---|---|---|---|---|---|---|");
    players.forEach(player -> out.println(row(player)));
    out.println();
    summary(out, players);
    for (int i = 0; i < Math.min(farthest, players.size()); i++) {
      out.println();
      out.println(
          String.format(
              Locale.ROOT,
              "%d. %s, distance %.2f",
              i + 1,
              players.get(i).player(),
              players.get(i).distance()));
      players.get(i).drivers().stream()
          .limit(statistics)
          .forEach(each -> out.println("   " + sentence(each)));
    }
    return ExitCode.DONE;
  }

  private static String row(PlayerApart player) {
    return String.format(
        Locale.ROOT,
        "| %s | %d | %s | %s | %d | %d | %d | %.2f |",
        player.player().replace("|", "\\|"),
        player.solos(),
        share(player.outside(), player.values()),
        share(player.expectedOutside(), player.values()),
        player.mediansOutside(),
        player.statistics().size(),
        player.clear(),
        player.distance());
  }

  private static String share(double part, int whole) {
    return whole == 0 ? "-" : String.format(Locale.ROOT, "%.3f", part / whole);
  }

  private static void summary(PrintWriter out, List<PlayerApart> players) {
    int values = (int) sum(players, PlayerApart::values);
    int held = (int) sum(players, player -> player.statistics().size());
    int tests = (int) sum(players, PlayerApart::tests);
    out.println(players.size() + " players");
    out.println(
        String.format(
            Locale.ROOT,
            "Values of single solos outside: %s of %d (expected %s); every player counting alike:"
                + " %.3f",
            share(sum(players, PlayerApart::outside), values),
            values,
            share(sum(players, PlayerApart::expectedOutside), values),
            players.stream()
                .filter(player -> player.values() > 0)
                .mapToDouble(player -> (double) player.outside() / player.values())
                .average()
                .orElse(0)));
    out.println(
        "Medians of players outside: "
            + share(sum(players, PlayerApart::mediansOutside), held)
            + " of "
            + held);
    out.println(
        "Clear after adjustment: "
            + share(sum(players, PlayerApart::clear), tests)
            + " of "
            + tests);
  }

  private static double sum(List<PlayerApart> players, ToDoubleFunction<PlayerApart> figure) {
    return players.stream().mapToDouble(figure).sum();
  }

  private static String sentence(PlayerApart.Statistic statistic) {
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn().named(statistic.key()).orElseThrow();
    return String.format(
        Locale.ROOT,
        "%s: %s %s, the others %s; strength %.2f",
        definition.name(),
        number(definition, statistic.value()),
        definition.unit(),
        number(definition, statistic.others()),
        statistic.strength());
  }

  /** With one decimal more than on pages, so that neighbours differ; shares as they are. */
  private static String number(StatisticDefinition definition, double value) {
    int decimals = definition.percent() ? 3 : definition.decimals() + 1;
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }
}
