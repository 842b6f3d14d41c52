package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.row.AttributionsRow;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code attribute}: which player and which group each solo would be given to by the others. */
@Command(
    name = "attribute",
    description =
        "Leaves each corpus solo out and asks which player, and which group of the study's first"
            + " grouping, the others would give it to; adds table attributions to the study.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "All compared statistics count together, tempo taken out, whitened by how solos of one player"
          + " vary, so that statistics that go together do not count twice. Players with three"
          + " solos or more are asked for; where a group is asked for, all solos of the player are"
          + " left out.",
      "",
      "'by chance' is what guessing finds, 'always the commonest' what naming the one with the most"
          + " solos finds: figures that are no higher tell nobody apart. They say how well these"
          + " statistics know these transcriptions, and nothing about who played a doubtful solo.",
      "",
      "Example:",
      "  phrase-census attribute my-study"
    })
final class AttributeCommand implements Callable<Integer> {
  private static final int FIRST_PLACES = 3;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A study folder.")
  private String location;

  @Override
  public Integer call() {
    List<TableRow> rows;
    String tables;
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.finished(location, session.configuration())) {
      rows = new StudyRunner(session, spec.commandLine().getErr()::println).attributions(folder);
      Steps.printRemarksAndReport(folder, spec.commandLine().getErr());
      tables = folder.tablesLocation() + "/attributions";
    }
    Map<String, List<TableRow>> byQuestion = new LinkedHashMap<>();
    rows.forEach(
        row ->
            byQuestion
                .computeIfAbsent(
                    row.get(AttributionsRow.ATTRIBUTED_BY), question -> new ArrayList<>())
                .add(row));
    PrintWriter out = spec.commandLine().getOut();
    byQuestion.forEach((question, answers) -> print(out, question, answers));
    out.println("Attributions: " + tables);
    return ExitCode.DONE;
  }

  private static void print(PrintWriter out, String question, List<TableRow> answers) {
    Map<String, int[]> counts = new TreeMap<>();
    double chance = 0;
    int right = 0;
    int early = 0;
    for (TableRow answer : answers) {
      int[] count = counts.computeIfAbsent(answer.get(AttributionsRow.ACTUAL), name -> new int[2]);
      count[0]++;
      chance += 1.0 / answer.get(AttributionsRow.CANDIDATES) / answers.size();
      if (answer.get(AttributionsRow.RIGHT)) {
        count[1]++;
        right++;
      }
      early += answer.get(AttributionsRow.ACTUAL_PLACE) <= FIRST_PLACES ? 1 : 0;
    }
    int most = counts.values().stream().mapToInt(count -> count[0]).max().orElse(0);
    int all = answers.size();
    out.println(
        String.format(
            Locale.ROOT,
            "%s: %d of %d solos of %d given to their own (%.2f); by chance %.2f, always the"
                + " commonest %.2f; their own among the first %d: %.2f",
            question,
            right,
            all,
            counts.size(),
            (double) right / all,
            chance,
            (double) most / all,
            FIRST_PLACES,
            (double) early / all));
    out.println();
    out.println("| " + question.replace("|", "\\|") + " | solos | right |");
    out.println("|---|---|---|");
    counts.forEach(
        (name, count) ->
            out.println(
                "| " + name.replace("|", "\\|") + " | " + count[0] + " | " + count[1] + " |"));
    out.println();
  }
}
