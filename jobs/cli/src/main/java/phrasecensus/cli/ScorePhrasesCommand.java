package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import phrasecensus.music.phrase.BoundaryAgreement;
import phrasecensus.music.phrase.BoundaryAgreement.FirstNote;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.score.Solo;
import phrasecensus.tables.InputException;
import phrasecensus.tables.PhraseMarks;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code score-phrases}: how far a phrase rule agrees with phrase marks made by people. */
@Command(
    name = "score-phrases",
    description =
        "Holds a phrase rule against phrase marks made by people: precision, recall, F1, Cohen's"
            + " kappa and Krippendorff's alpha of the boundaries, on the very note and with"
            + " tolerance.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "The marks are a CSV file with one row a phrase: a column that names the score and a column"
          + " note_index, the phrase's first note counted from 0 (tied notes once).",
      "",
      "Example:",
      "  phrase-census score-phrases my-solos --marks phrases.csv \\",
      "      --marks-key song --each",
      "  phrase-census score-phrases my-solos --marks phrases.csv \\",
      "      --table agreement.csv"
    })
final class ScorePhrasesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A folder of scores.")
  private Path folder;

  @Option(
      names = "--marks",
      paramLabel = "FILE",
      required = true,
      description = "CSV file with the phrase marks.")
  private Path marks;

  @Option(
      names = "--more-marks",
      paramLabel = "FILE",
      description =
          "Marks of further people for the same scores, as Krippendorff's alpha takes them; may be"
              + " repeated.")
  private List<Path> moreMarks = List.of();

  @Option(
      names = "--marks-key",
      paramLabel = "COLUMN",
      description = "Its column that names the score. Default: ${DEFAULT-VALUE}.")
  private String key = PhraseMarks.USUAL_KEY;

  @Mixin private SoloOptions options;

  @Option(names = "--each", description = "Print a line for every score as well.")
  private boolean each;

  @Option(
      names = "--table",
      paramLabel = "FILE",
      description =
          "Write a CSV file with a row for every score, convention and tolerance: counts,"
              + " precision, recall, F1, kappa.")
  private Path table;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    options.check();
    PhraseRule phraseRule = options.rule();
    PhraseMarks truth = PhraseMarks.read(marks.toString(), bytes(marks), key);
    List<PhraseMarks> people = new ArrayList<>(List.of(truth));
    moreMarks.forEach(each -> people.add(PhraseMarks.read(each.toString(), bytes(each), key)));
    BoundaryObservers observers = new BoundaryObservers(people.size());
    Map<String, List<BoundaryAgreement>> agreements = new LinkedHashMap<>();
    PhraseScores scores = new PhraseScores();
    int scored = 0;
    for (Path file : scores()) {
      String name = folder.relativize(file).toString().replace('\\', '/');
      Optional<List<Integer>> human = truth.of(name);
      if (human.isEmpty()) {
        spec.commandLine().getErr().println("No phrase marks for " + name + ": left out.");
        continue;
      }
      Solo solo;
      try {
        solo = options.read(file, spec.commandLine().getErr()).solo();
        checkMarks(name, human.get(), solo);
      } catch (InputException e) {
        spec.commandLine().getErr().println(e.getMessage());
        continue;
      }
      score(name, solo, human.get(), phraseRule, agreements, scores);
      observers.add(
          solo.notes().size(),
          phraseRule.boundaries(solo),
          people.stream().map(person -> person.of(name)).toList());
      scored++;
    }
    if (scored == 0) {
      throw new InputException(
          "Cannot score the phrases of "
              + folder
              + ": no score that was read has marks in "
              + marks
              + ". Check --marks-key.");
    }
    if (table != null) {
      scores.write(table);
    }
    out.println("Rule " + phraseRule.name() + ", " + scored + " scores");
    out.println(
        phraseRule.settings().entrySet().stream()
            .map(Object::toString)
            .collect(Collectors.joining(", ")));
    out.println(line("", "precision", "recall", "F1", "kappa"));
    agreements.forEach(
        (convention, list) -> {
          out.println(line(convention + ", mean over scores", BoundaryAgreement.mean(list)));
          out.println(line(convention + ", pooled", BoundaryAgreement.pooled(list).scores()));
        });
    out.println(line("Krippendorff's alpha, inner boundaries, exact", "alpha"));
    out.println(line("the rule and the marks", number(observers.ruleAndFirst())));
    if (people.size() > 1) {
      out.println(line(people.size() + " people", number(observers.people())));
      out.println(line(people.size() + " people and the rule", number(observers.all())));
    }
    return ExitCode.DONE;
  }

  private static void checkMarks(String name, List<Integer> human, Solo solo) {
    int last = human.stream().mapToInt(Integer::intValue).max().orElse(0);
    if (last > 0 && last >= solo.notes().size()) {
      throw new InputException(
          "Cannot score the phrases of "
              + name
              + ": the marks name note "
              + last
              + ", the line has "
              + solo.notes().size()
              + " notes, counted from 0. Look whether the marks are of this line; left out.");
    }
  }

  private void score(
      String name,
      Solo solo,
      List<Integer> human,
      PhraseRule phraseRule,
      Map<String, List<BoundaryAgreement>> agreements,
      PhraseScores scores) {
    int notes = solo.notes().size();
    List<Integer> inner = human.stream().filter(note -> note > 0).toList();
    List<Integer> found = phraseRule.boundaries(solo);
    for (FirstNote firstNote : FirstNote.values()) {
      for (PhraseScores.Tolerance tolerance : PhraseScores.Tolerance.values()) {
        BoundaryAgreement agreement = tolerance.agreement(inner, found, solo, firstNote);
        String convention =
            firstNote == FirstNote.COUNTED ? "first note counted" : "inner boundaries only";
        agreements
            .computeIfAbsent(convention + ", " + tolerance.words(), n -> new ArrayList<>())
            .add(agreement);
        scores.add(name, firstNote, tolerance, agreement);
      }
    }
    if (each) {
      BoundaryAgreement exact = BoundaryAgreement.exact(inner, found, notes, FirstNote.NOT_COUNTED);
      spec.commandLine().getOut().println(line(name, exact.scores()));
    }
  }

  private static String line(String name, BoundaryAgreement.Scores scores) {
    return line(
        name,
        number(scores.precision()),
        number(scores.recall()),
        number(scores.f1()),
        number(scores.kappa()));
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, "%.3f", value);
  }

  private static String line(String name, String... cells) {
    StringBuilder text = new StringBuilder(String.format(Locale.ROOT, "%-60s", name));
    for (String cell : cells) {
      text.append(String.format(Locale.ROOT, " %9s", cell));
    }
    return text.toString().stripTrailing();
  }

  private List<Path> scores() {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(path -> path.toString().matches(".*\\.(musicxml|xml|mxl)"))
          .filter(Files::isRegularFile)
          .sorted(Comparator.comparing(Path::toString))
          .toList();
    } catch (IOException e) {
      throw new InputException("Cannot find the folder " + folder + ". Check the path.", e);
    }
  }

  private static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new InputException("Cannot read " + file + ": no such file, or no permission.", e);
    }
  }
}
