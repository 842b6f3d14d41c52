package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.StudyReport;
import phrasecensus.report.find.FoundPhrase;
import phrasecensus.report.find.PhraseSearch;
import phrasecensus.report.find.QueryTitle;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.PhraseCondition;
import phrasecensus.tables.PhraseQuery;
import phrasecensus.tables.StatisticsCatalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code phrases}: corpus phrases that have everything that is asked for. */
@Command(
    name = "phrases",
    description =
        "Finds phrases of the corpus of a finished study by any conditions together: what they are,"
            + " what they end on, over which harmony and where in the form, how hard, by whom. As a"
            + " list, as rows for a program, or as a page with notation and sound; 'sheet' makes a"
            + " handout of the same.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Examples:",
      "  phrase-census phrases my-study --where 'bars 2' --where 'last-note third' \\",
      "      --where 'over ii-V-I major' --page found.html",
      "  phrase-census phrases my-study --where 'over blues-bars-9-12' \\",
      "      --where pickup --csv",
      "  phrase-census phrases study.yaml --query monday"
    })
final class PhrasesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder, or the study file of one.")
  private String location;

  @Mixin private QueryOptions options;

  @Option(
      names = "--count",
      paramLabel = "NUMBER",
      description =
          "Phrases in the list and on the page, at most, one of a solo before a second one;"
              + " default: ${DEFAULT-VALUE}. Rows are always all.")
  private int count = 20;

  @Option(names = "--csv", description = "Print every phrase as a row, and nothing else.")
  private boolean csv;

  @Option(
      names = "--page",
      paramLabel = "FILE",
      description = "Write a page with notation and sound, one file that opens from disk.")
  private Path page;

  @Option(names = "--force", description = "Replace a page that is there.")
  private boolean force;

  @Override
  public Integer call() {
    if (!options.isGiven()) {
      throw new ParameterException(
          spec.commandLine(),
          "Say what to look for with --where or --query. " + PhraseCondition.FORMS + ".");
    }
    if (count < 1) {
      throw new ParameterException(
          spec.commandLine(), "Invalid value for --count: " + count + ". It is at least 1.");
    }
    if (page != null && Files.exists(page, LinkOption.NOFOLLOW_LINKS) && !force) {
      throw new InputException(
          "Cannot write " + page + ": it is there already. Give --force to replace it.");
    }
    PhraseQuery query = options.query(location);
    String folderName = QueryOptions.folder(location);
    try (StudyFolder folder = StudyFolder.finishedToRead(folderName, StudyFolder.configuration())) {
      boolean excerpts = folder.manifest().report().excerpts();
      if (page != null && !excerpts) {
        throw new InputException(
            "Cannot write a page: the study file of "
                + folderName
                + " keeps excerpts out (report: excerpts: false).");
      }
      PhraseSearch.Result result = PhraseSearch.find(folder.source(), query);
      List<FoundPhrase> shown = result.some(count);
      if (csv) {
        rows(query, result);
      } else {
        list(query, result, shown);
      }
      if (page != null) {
        write(
            StudyReport.phrases(
                folder.source(),
                folder.manifest(),
                StatisticsCatalogue.builtIn(),
                ReportSettings.usual(),
                QueryTitle.of(query),
                query.conditions().stream().map(PhraseCondition::text).toList(),
                shown,
                result.phrases().size()));
        spec.commandLine().getErr().println("Page: " + page);
      }
    }
    return ExitCode.DONE;
  }

  private void list(PhraseQuery query, PhraseSearch.Result result, List<FoundPhrase> shown) {
    PrintWriter out = spec.commandLine().getOut();
    out.println(QueryTitle.of(query));
    int found = result.phrases().size();
    out.println(
        found
            + " of "
            + result.all()
            + " phrases of the corpus fit"
            + (shown.size() < found ? "; " + shown.size() + " of them:" : ":"));
    for (FoundPhrase phrase : shown) {
      out.println("  " + line(phrase));
    }
  }

  /** A phrase for the list. */
  static String line(FoundPhrase phrase) {
    return FileText.printable(phrase.file())
        + ", phrase "
        + (phrase.phraseIndex() + 1)
        + (phrase.firstBar().equals(phrase.lastBar())
            ? ", bar " + FileText.printable(phrase.firstBar())
            : ", bars "
                + FileText.printable(phrase.firstBar())
                + "\u2013"
                + FileText.printable(phrase.lastBar()))
        + (phrase.lastDegree() == null ? "" : ", ends on " + MusicText.degree(phrase.lastDegree()))
        + (phrase.contexts().isEmpty() ? "" : ", over " + String.join(", ", phrase.contexts()))
        + ", level "
        + phrase.difficulty();
  }

  private void rows(PhraseQuery query, PhraseSearch.Result result) {
    List<String> header =
        new ArrayList<>(
            List.of(
                "solo_id",
                "phrase_index",
                "file",
                "title",
                "performer",
                "first_bar_number",
                "last_bar_number",
                "last_degree",
                "difficulty",
                "contexts"));
    List<String> asked = new ArrayList<>();
    for (PhraseCondition condition : query.conditions()) {
      if (condition instanceof PhraseCondition.InRange range
          && !range.name().equals("difficulty")
          && !asked.contains(range.name())) {
        asked.add(range.name());
      }
    }
    header.addAll(asked);
    PrintWriter out = spec.commandLine().getOut();
    try {
      CSVPrinter printer =
          new CSVPrinter(out, CSVFormat.RFC4180.builder().setRecordSeparator('\n').get());
      printer.printRecord(header);
      for (FoundPhrase phrase : result.phrases()) {
        List<Object> row = new ArrayList<>();
        row.add(phrase.soloId());
        row.add(phrase.phraseIndex());
        row.add(phrase.file());
        row.add(phrase.title());
        row.add(phrase.performer());
        row.add(phrase.firstBar());
        row.add(phrase.lastBar());
        row.add(phrase.lastDegree());
        row.add(phrase.difficulty());
        row.add(String.join("; ", phrase.contexts()));
        asked.forEach(name -> row.add(phrase.values().get(name)));
        printer.printRecord(row);
      }
      printer.flush();
    } catch (IOException e) {
      throw new InputException("Cannot print the rows: " + e.getMessage() + ".", e);
    }
  }

  private void write(String text) {
    try {
      Path folder = page.toAbsolutePath().getParent();
      Files.createDirectories(folder);
      Path part = folder.resolve("." + page.getFileName() + ".part");
      Files.writeString(part, text, StandardCharsets.UTF_8);
      Files.move(
          part,
          page,
          java.nio.file.StandardCopyOption.REPLACE_EXISTING,
          java.nio.file.StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new InputException(
          "Cannot write " + page + ": " + e.getMessage() + ". Choose another --page.", e);
    }
  }
}
