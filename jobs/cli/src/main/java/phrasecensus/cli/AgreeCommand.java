package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import phrasecensus.music.norm.CohensKappa;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.MetadataDefinition;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.Word;
import phrasecensus.tables.row.AnswerScope;
import phrasecensus.tables.row.AnswerVerdict;
import phrasecensus.tables.row.AnswersRow;
import phrasecensus.tables.row.Finding;
import phrasecensus.tables.row.Question;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code agree}: the answers of a study beside a teacher's own verdicts. */
@Command(
    name = "agree",
    description =
        "Holds the answers of a study against a teacher's own verdicts, so that aims can be tuned"
            + " to the teacher's ear. Writes nothing.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "The CSV file has a row a solo: 'file', its path in the students' folder, and any of the"
          + " columns tonal_centre, landings, movement, phrases, own (met, not_yet or not_enough)"
          + " and first (none, outside_key, weak_landings, long_notes, no_breath, fragments, own,"
          + " not_enough). An empty cell is not compared. Kappa is agreement beyond chance (Cohen"
          + " 1960): 1 is perfect, 0 what chance gives; '-' where one verdict for all says nothing"
          + " of chance.",
      "",
      "Example:",
      "  phrase-census agree my-study my-verdicts.csv"
    })
final class AgreeCommand implements Callable<Integer> {
  private static final List<String> QUESTIONS =
      Arrays.stream(Question.values()).map(Word::word).toList();
  private static final List<String> VERDICTS =
      Arrays.stream(AnswerVerdict.values()).map(Word::word).toList();
  private static final String FIRST = "first";
  private static final List<String> FINDINGS =
      Arrays.stream(Finding.values()).map(Word::word).toList();

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder, or the study file it came from.")
  private String location;

  @Parameters(paramLabel = "CSV", description = "The teacher's verdicts.")
  private Path verdicts;

  /** What the study and the teacher say of one thing; the study's figure is for reading. */
  private record Pair(String file, String study, String teacher, String figure) {}

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Map<String, Map<String, TableRow>> answers = answers();
    Metadata teacher =
        Metadata.read(verdicts.toString(), bytes(), MetadataDefinition.DEFAULT, answers.keySet());
    Map<String, List<Pair>> pairs = pairs(answers, teacher);
    if (pairs.values().stream().allMatch(List::isEmpty)) {
      throw new InputException(
          "Cannot compare with "
              + verdicts
              + ": it has no verdict on a solo of the study. It needs a column 'file' with paths as"
              + " '"
              + answers.keySet().iterator().next()
              + "', and columns "
              + String.join(", ", QUESTIONS)
              + " or "
              + FIRST
              + ".");
    }
    List<String> beyond = teacher.rowsWithoutFile(answers.keySet());
    if (!beyond.isEmpty()) {
      spec.commandLine()
          .getErr()
          .println(
              "Rows of "
                  + verdicts
                  + " without a solo in the study, "
                  + beyond.size()
                  + ": "
                  + String.join(", ", beyond)
                  + ".");
    }
    print(out, pairs);
    return ExitCode.DONE;
  }

  private void print(PrintWriter out, Map<String, List<Pair>> pairs) {
    out.println("| answer | solos | alike | agreement | kappa |");
    out.println("|---|---|---|---|---|");
    pairs.forEach(
        (question, own) -> {
          if (!own.isEmpty()) {
            CohensKappa agreement =
                CohensKappa.of(
                    own.stream().map(Pair::study).toList(),
                    own.stream().map(Pair::teacher).toList());
            out.println(
                String.format(
                    Locale.ROOT,
                    "| %s | %d | %d | %.3f | %s |",
                    question,
                    agreement.things(),
                    agreement.alike(),
                    (double) agreement.alike() / agreement.things(),
                    agreement.kappa() == null
                        ? "-"
                        : String.format(Locale.ROOT, "%.3f", agreement.kappa())));
          }
        });
    out.println();
    boolean all = true;
    for (Map.Entry<String, List<Pair>> each : pairs.entrySet()) {
      for (Pair pair : each.getValue()) {
        if (!pair.study().equals(pair.teacher())) {
          all = false;
          out.println(
              pair.file()
                  + ": "
                  + each.getKey()
                  + " is "
                  + pair.study()
                  + pair.figure()
                  + "; the teacher says "
                  + pair.teacher());
        }
      }
    }
    if (all) {
      out.println("No solo on which they differ.");
    }
  }

  private Map<String, List<Pair>> pairs(
      Map<String, Map<String, TableRow>> answers, Metadata teacher) {
    Map<String, List<Pair>> pairs = new LinkedHashMap<>();
    QUESTIONS.forEach(question -> pairs.put(question, new ArrayList<>()));
    pairs.put(FIRST, new ArrayList<>());
    answers.forEach(
        (file, own) -> {
          Map<String, String> said = teacher.of(file);
          for (String question : QUESTIONS) {
            String verdict = verdict(said.get(question), VERDICTS, file, question);
            if (verdict != null) {
              TableRow row = own.get(question);
              pairs
                  .get(question)
                  .add(
                      new Pair(
                          file,
                          row == null
                              ? AnswerVerdict.NO_AIM.word()
                              : row.get(AnswersRow.VERDICT).word(),
                          verdict,
                          row == null ? "" : figure(row)));
            }
          }
          String first = verdict(said.get(FIRST), FINDINGS, file, FIRST);
          if (first != null) {
            pairs.get(FIRST).add(new Pair(file, first(own), first, ""));
          }
        });
    return pairs;
  }

  private static String first(Map<String, TableRow> answers) {
    return answers.values().stream()
        .filter(row -> row.get(AnswersRow.FIRST))
        .map(row -> row.get(AnswersRow.FINDING).word())
        .findFirst()
        .orElse(Finding.NONE.word());
  }

  private static String figure(TableRow row) {
    if (row.get(AnswersRow.AIM) == null) {
      return "";
    }
    return " ("
        + row.get(AnswersRow.AIM)
        + " "
        + (row.get(AnswersRow.VALUE) == null
            ? "without a value"
            : String.format(Locale.ROOT, "%.3f", row.get(AnswersRow.VALUE)))
        + ", n "
        + row.get(AnswersRow.N)
        + ")";
  }

  private String verdict(String text, List<String> known, String file, String column) {
    String word = text == null ? "" : text.strip().toLowerCase(Locale.ROOT).replace(' ', '_');
    if (word.isEmpty()) {
      return null;
    }
    if (!known.contains(word)) {
      throw new InputException(
          "Cannot use "
              + verdicts
              + ": the row of "
              + file
              + " has '"
              + text
              + "' under "
              + column
              + ". Did you mean '"
              + StudyDefinition.nearest(word, known)
              + "'? Words: "
              + String.join(", ", known)
              + ".");
    }
    return word;
  }

  /** The answers on single solos by file, then question, in order. */
  private Map<String, Map<String, TableRow>> answers() {
    Map<String, Map<String, TableRow>> answers = new TreeMap<>();
    try (StudyFolder folder = StudyFolder.finishedToRead(folder(), StudyFolder.configuration())) {
      Manifest manifest = folder.manifest();
      if (!manifest.tables().containsKey("answers")) {
        throw new InputException(
            "Cannot compare with "
                + location
                + ": the study has no answers yet. Run 'phrase-census study' again.");
      }
      for (TableRow row :
          folder.source().tableRows(AnswersRow.TABLE, AnswersRow.SCOPE.is(AnswerScope.SOLO))) {
        answers
            .computeIfAbsent(row.get(AnswersRow.FILE), file -> new LinkedHashMap<>())
            .put(row.get(AnswersRow.QUESTION).word(), row);
      }
    }
    if (answers.isEmpty()) {
      throw new InputException(
          "Cannot compare with "
              + location
              + ": the study has no students. Name their folder with 'students' or --students.");
    }
    return answers;
  }

  private String folder() {
    boolean file = location.matches(".*\\.ya?ml") && Files.isRegularFile(Path.of(location));
    return file ? StudyDefinition.read(Path.of(location)).into() : location;
  }

  private byte[] bytes() {
    try {
      return Files.readAllBytes(verdicts);
    } catch (NoSuchFileException e) {
      throw new InputException("Cannot read " + verdicts + ": no such file.", e);
    } catch (IOException e) {
      throw new InputException(
          "Cannot read " + verdicts + ": it may not be read. Check its permissions.", e);
    }
  }
}
