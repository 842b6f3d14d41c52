package phrasecensus.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import phrasecensus.comparison.CorpusStatistics;
import phrasecensus.music.comparison.HalvedSolo;
import phrasecensus.music.comparison.Scale;
import phrasecensus.music.comparison.ShippedFigures;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.music.comparison.ShippedTraining;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * {@code shipped-figures}: what the program brings along for every comparison, made from a study.
 * For developers, so it is not listed in the help.
 */
@Command(
    name = "shipped-figures",
    hidden = true,
    description =
        "Makes the figures that every comparison starts from (tempo, length of solos, likeness of a"
            + " player's solos, reliability) from the corpus of a finished study, grouped by the"
            + " first column of its 'by'.",
    mixinStandardHelpOptions = true)
final class ShippedFiguresCommand implements Callable<Integer> {
  private static final String COMMENT =
      """
      # What every comparison starts from, one row a compared statistic. Made by a command; do not
      # edit by hand. Not one number is a number of the data: they are slopes, shares of variance,
      # correlations and phrases that a value needs, estimated from 220 solos grouped by style.
      # Data: 220 solos of the Weimar Jazz Database whose file names have a SHA-1 that begins with 0
      # to 7 (M. Pfleiderer, K. Frieler, J. Abesser, W.-G. Zaddach, B. Burkhart (eds.), Schott
      # Campus, 2017; Open Database License 1.0), through the R data package jazzodata (MIT licence);
      # phrases by the program's usual rule.
      # Commands: phrase-census study FOLDER --by style --into STUDY
      #           phrase-census shipped-figures STUDY --into shipped.csv
      # How: music.comparison.ShippedTraining. Columns: scale; share of the variance of a solo of 19
      # phrases that its length makes; mean of the prior of the correlation of a player's solos;
      # slopes on doublings of tempo above 170 quarters a minute and their square, with the
      # information that a solo holds on them; least and greatest tempo; phrases for reliability .5.
      """;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder.")
  private String location;

  @Option(
      names = "--into",
      paramLabel = "FILE",
      description = "File to write. Default: they are printed.")
  private Path into;

  @Override
  public Integer call() {
    String text;
    try (StudyFolder folder = StudyFolder.finishedToRead(location, StudyFolder.configuration())) {
      List<String> by = folder.manifest().by();
      if (by.isEmpty()) {
        throw new InputException(
            "Cannot make figures of "
                + location
                + ": the study groups its solos by nothing. Run 'phrase-census norms' with --by.");
      }
      text = COMMENT + ShippedTable.text(figures(CorpusStatistics.of(folder.source(), by.get(0))));
    }
    if (into == null) {
      spec.commandLine().getOut().print(text);
      return ExitCode.DONE;
    }
    try {
      Files.writeString(into, text);
    } catch (IOException e) {
      throw new InputException("Cannot write " + into + ": " + e.getMessage() + ".", e);
    }
    return ExitCode.DONE;
  }

  private List<ShippedFigures> figures(CorpusStatistics corpus) {
    List<ShippedFigures> figures = new ArrayList<>();
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().all()) {
      if (definition.compared()) {
        List<HalvedSolo> solos = corpus.solos().get(definition.key());
        try {
          figures.add(
              ShippedTraining.figures(definition.key(), Scale.named(definition.scale()), solos));
        } catch (IllegalArgumentException e) {
          throw new InputException(
              "Cannot make figures of "
                  + location
                  + " in "
                  + definition.name()
                  + ": "
                  + e.getMessage()
                  + ". Every solo needs a tempo, and solos need four phrases.",
              e);
        }
      }
    }
    return figures;
  }
}
