package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import phrasecensus.comparison.CorpusStatistics;
import phrasecensus.music.comparison.CorpusModel;
import phrasecensus.music.comparison.GroupComparison;
import phrasecensus.music.comparison.Planning;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.music.comparison.TestFamily;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code plan}: how many solos it takes to find a difference. */
@Command(
    name = "plan",
    description =
        "Tells how many solos of a student it takes to find a difference from a group of a study's"
            + " corpus, and what more solos or players of the corpus would bring.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "A difference counts in standard deviations of a usual solo about its group, tempo taken out."
          + " Solos of a student are taken to be as long as those of the group. The chance is that"
          + " of one figure tested alone at .05, unless --tests says how many it is tested with;"
          + " then it holds for the only one among them that differs.",
      "",
      "Examples:",
      "  phrase-census plan my-study",
      "  phrase-census plan my-study --group bebop --size 1.5 --tests 6"
    })
final class PlanCommand implements Callable<Integer> {
  private static final int[] SOLOS = {1, 2, 3, 5, 10};
  private static final double USUAL_CHANCE = .8;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder.")
  private String location;

  @Option(
      names = "--group",
      paramLabel = "VALUE",
      description =
          "A group of the first column that the study groups by. Default: the whole corpus.")
  private String group;

  @Option(
      names = "--size",
      paramLabel = "X",
      description = "Size of the difference. Default: ${DEFAULT-VALUE}.")
  private double size = 2;

  @Option(
      names = "--tests",
      paramLabel = "N",
      description = "Figures that are tested together. Default: ${DEFAULT-VALUE}.")
  private int tests = 1;

  @Option(names = "--all", description = "Every compared figure. Default: the headline figures.")
  private boolean all;

  /** One figure with what a student is held against. */
  private record Planned(StatisticDefinition definition, GroupComparison held) {}

  @Override
  public Integer call() {
    if (!(size > 0 && size <= 20)) {
      throw new InputException("Invalid size: " + size + ". Give a number above 0, at most 20.");
    }
    if (tests < 1 || tests > 1000) {
      throw new InputException("Invalid number of tests: " + tests + ". Give 1 to 1000.");
    }
    List<Planned> planned = planned();
    double level = TestFamily.LEVEL / tests;
    PrintWriter out = spec.commandLine().getOut();
    out.println(
        String.format(
            Locale.ROOT,
            "Chance of finding a difference of %s standard deviations beside %s, by solos of the"
                + " student; solos needed for a chance of .8",
            number(size),
            group == null ? "the whole corpus" : "the group " + group));
    out.println();
    out.println("| figure | corpus solos | players | 1 | 2 | 3 | 5 | 10 | needed |");
    out.println("|---|---|---|---|---|---|---|---|---|");
    for (Planned each : planned) {
      out.println(row(each, level));
    }
    out.println();
    out.println("Solos of the student needed if the corpus grew by solos or players like its own:");
    out.println();
    out.println("| figure | as it is | twice the solos of each player | twice the players |");
    out.println("|---|---|---|---|");
    for (Planned each : planned) {
      out.println(
          String.format(
              Locale.ROOT,
              "| %s | %s | %s | %s |",
              each.definition.name(),
              needed(each, 1, 1, level),
              needed(each, 2, 1, level),
              needed(each, 1, 2, level)));
    }
    out.println();
    words(out, planned, level);
    return ExitCode.DONE;
  }

  private List<Planned> planned() {
    try (StudyFolder folder = StudyFolder.finishedToRead(location, StudyFolder.configuration())) {
      List<String> by = folder.manifest().by();
      if (group != null && by.isEmpty()) {
        throw new InputException(
            "Cannot plan beside the group '"
                + group
                + "': the study groups its solos by nothing. Leave --group out, or run"
                + " 'phrase-census norms' with --by.");
      }
      CorpusStatistics corpus =
          CorpusStatistics.of(folder.source(), by.isEmpty() ? "performer" : by.get(0));
      List<Planned> planned = new ArrayList<>();
      boolean known = false;
      for (StatisticDefinition definition : StatisticsCatalogue.builtIn().all()) {
        if (!definition.compared() || !all && !definition.headline()) {
          continue;
        }
        known |=
            corpus.whole(definition.key()).stream().anyMatch(solo -> solo.group().equals(group));
        CorpusModel model =
            CorpusModel.of(
                ShippedTable.builtIn().of(definition.key()).orElseThrow(),
                corpus.whole(definition.key()),
                true);
        planned.add(new Planned(definition, group == null ? model.whole() : model.group(group)));
      }
      if (group != null && !known) {
        throw new InputException(
            "Cannot plan beside the group '"
                + group
                + "': no solo is in it. Groups of '"
                + by.get(0)
                + "' stand in the report.");
      }
      return planned;
    }
  }

  private String row(Planned planned, double level) {
    StringBuilder row =
        new StringBuilder("| ")
            .append(planned.definition.name())
            .append(" | ")
            .append(planned.held.solos())
            .append(" | ")
            .append(planned.held.players())
            .append(" | ");
    Planning planning = planned.held.planning().orElse(null);
    for (int solos : SOLOS) {
      row.append(
              planning == null
                  ? "-"
                  : String.format(
                      Locale.ROOT,
                      "%.2f",
                      planning.power(size, solos, planned.held.meanVariance(), level)))
          .append(" | ");
    }
    return row.append(needed(planned, 1, 1, level)).append(" |").toString();
  }

  private String needed(Planned planned, double solosTimes, double playersTimes, double level) {
    if (planned.held.planning().isEmpty()) {
      return "cannot be told";
    }
    OptionalInt needed =
        planned
            .held
            .planning(solosTimes, playersTimes)
            .orElseThrow()
            .solosNeeded(size, planned.held.meanVariance(), level, USUAL_CHANCE);
    return needed.isPresent() ? String.valueOf(needed.getAsInt()) : "none up to 200";
  }

  private void words(PrintWriter out, List<Planned> planned, double level) {
    int told = 0;
    int reachable = 0;
    int most = 0;
    for (Planned each : planned) {
      if (each.held.planning().isPresent()) {
        told++;
        OptionalInt needed =
            each.held
                .planning()
                .orElseThrow()
                .solosNeeded(size, each.held.meanVariance(), level, USUAL_CHANCE);
        if (needed.isPresent()) {
          reachable++;
          most = Math.max(most, needed.getAsInt());
        }
      }
    }
    if (told == 0) {
      out.println(
          "Nothing can be planned: the corpus has too few solos for a comparison, or nothing varies"
              + " in it.");
      return;
    }
    out.println(
        reachable == 0
            ? "No number of solos up to 200 finds such a difference four times in five: players"
                + " differ from each other by more than this."
            : String.format(
                Locale.ROOT,
                "Such a difference is found four times in five with %d %s of a student or fewer in"
                    + " %d of %d figures%s.",
                most,
                most == 1 ? "solo" : "solos",
                reachable,
                told,
                reachable < told
                    ? "; in the others players differ from each other by more than this"
                    : ""));
  }

  private static String number(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%s", value);
  }
}
