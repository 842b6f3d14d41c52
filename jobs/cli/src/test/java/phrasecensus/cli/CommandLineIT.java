package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;

/**
 * The command line as a user meets it: what cannot be done is said in one sentence, with its exit
 * code, and leaves a finished study as it was, to the byte.
 */
class CommandLineIT {
  @TempDir private static Path shared;
  private static Path corpus;
  private static Path finished;
  private static SortedMap<String, String> finishedBytes;

  @TempDir private Path temporary;

  @BeforeAll
  static void finishAStudy() throws IOException {
    corpus = SampleCorpus.firstSolos(shared.resolve("corpus"), 3);
    finished = shared.resolve("finished");
    CommandRun run = CommandRun.of("study", corpus.toString(), "--into", finished.toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    finishedBytes = FolderBytes.of(finished);
  }

  @AfterEach
  void theFinishedStudyIsUntouched() {
    assertThat(FolderBytes.of(finished)).isEqualTo(finishedBytes);
  }

  /** One line on standard error, which says all of these, and nothing on standard output. */
  private static void assertRefused(CommandRun run, int exitCode, String... said) {
    assertThat(run.complaints()).as("complaints").hasSize(1);
    String sentence = run.complaints().get(0);
    assertThat(sentence)
        .contains(said)
        .matches("\\p{Lu}.*[^.]\\.")
        .doesNotContain("Exception", "at phrasecensus.", "null");
    assertThat(run.out()).isEmpty();
    assertThat(run.exitCode()).as(sentence).isEqualTo(exitCode);
  }

  private static void assertUsage(CommandRun run, String... said) {
    assertRefused(run, ExitCode.USAGE, said);
    assertThat(run.complaints().get(0)).contains("Try 'phrase-census").contains("--help'.");
  }

  private static void assertUnusable(CommandRun run, String... said) {
    assertRefused(run, ExitCode.INPUT, said);
  }

  /** A study that would be written into the finished one. */
  private static CommandRun study(Object input, String... options) {
    return CommandRun.of(
        Stream.concat(
                Stream.of("study", input.toString(), "--into", finished.toString()),
                Stream.of(options))
            .toArray(String[]::new));
  }

  private Path file(String name, String content) throws IOException {
    Path file = temporary.resolve(name);
    Files.createDirectories(file.getParent());
    return Files.writeString(file, content);
  }

  // What is typed

  @Test
  void noCommandAsksForOne() {
    assertUsage(CommandRun.of(), "Name a command.");
  }

  @ParameterizedTest(name = "{0} is meant to be {1}")
  @CsvSource({"stduy, study", "inspct, inspect", "reports, report", "normes, norms"})
  void anUnknownCommandSuggestsTheNearest(String typed, String meant) {
    assertUsage(
        CommandRun.of(typed), "Unknown command '" + typed + "'.", "Did you mean '" + meant + "'?");
  }

  @Test
  void anUnknownOptionSuggestsTheNearest() {
    assertUsage(study(corpus, "--stict"), "Unknown option '--stict'.", "Did you mean '--strict'?");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "norms",
        "compare",
        "patterns",
        "players",
        "attribute",
        "report",
        "inspect",
        "benchmark",
        "sheet",
        "phrases"
      })
  void aMissingOperandIsNamed(String command) {
    assertUsage(CommandRun.of(command), "Missing", command + " --help");
  }

  @ParameterizedTest
  @ValueSource(strings = {"study", "read"})
  void aStudyOfNothingIsRefused(String command) {
    assertUsage(CommandRun.of(command), "Cannot make a study of nothing", "--students FOLDER");
  }

  @Test
  void aSecondOperandIsRefused() {
    assertUsage(CommandRun.of("report", finished.toString(), "other"), "'other'");
  }

  @Test
  void anOptionWithoutItsValueIsRefused() {
    assertUsage(CommandRun.of("study", corpus.toString(), "--into"), "--into");
  }

  @Test
  void aSettingWithoutItsValueIsRefused() {
    assertUsage(
        study(corpus, "--phrase-rule-setting", "minimum-beats"),
        "--phrase-rule-setting",
        "as NAME=VALUE, not 'minimum-beats'");
  }

  @Test
  void aWordInThePlaceOfANumberIsRefused() {
    assertUsage(
        CommandRun.of("benchmark", corpus.toString(), "--files", "many"), "--files", "'many'");
  }

  // The corpus folder

  @ParameterizedTest
  @ValueSource(strings = {"study", "read"})
  void anEmptyFolderHoldsNoScores(String command) throws IOException {
    Path empty = Files.createDirectory(temporary.resolve("empty"));

    CommandRun run = CommandRun.of(command, empty.toString(), "--into", finished.toString());

    assertUnusable(run, empty.toString(), "holds no scores", "Put MusicXML files");
  }

  @Test
  void aMissingFolderIsNamed() {
    Path missing = temporary.resolve("missing");

    assertUnusable(study(missing), missing.toString(), "Cannot find", "Check the path.");
  }

  @Test
  void aFolderWithoutScoresHoldsNoScores() throws IOException {
    file("scans/blues.pdf", "%PDF");
    file("scans/solos.csv", "file\nblues.pdf\n");

    assertUnusable(study(temporary.resolve("scans")), "scans", "holds no scores");
  }

  @Test
  void aFileIsNoCorpusFolder() throws IOException {
    Path score = file("solo.musicxml", "<score-partwise/>");

    assertUnusable(study(score), score.toString(), "it is a file, not a folder");
  }

  @Test
  void aFolderWhoseScoresAreAllRejectedGivesTheFirstReason() throws IOException {
    file("all-bad/a.musicxml", "not XML");
    file("all-bad/b.mxl", "not a zip file");

    assertUnusable(
        study(temporary.resolve("all-bad")), "none of its scores (2) could be read", "a.musicxml");
  }

  @Test
  void aFailedRunLeavesNoNewFolderBehind() throws IOException {
    file("bad/a.musicxml", "not XML");
    Path into = temporary.resolve("new-study");

    CommandRun run =
        CommandRun.of("study", temporary.resolve("bad").toString(), "--into", into.toString());

    assertUnusable(run, "could be read");
    assertThat(into).doesNotExist();
  }

  // Files that cannot be read

  /** A folder of good solos and of files that cannot be read: those are told, the run goes on. */
  @Test
  void unreadableFilesAreRowsAndTheRunGoesOn() throws IOException {
    Path mixed = SampleCorpus.firstSolos(temporary.resolve("mixed"), 2);
    Files.createSymbolicLink(mixed.resolve("gone.musicxml"), temporary.resolve("nowhere"));
    file("mixed/letter.xml", "<letter>Dear teacher</letter>");
    file("mixed/torn.mxl", "PK");
    Path into = temporary.resolve("mixed-study");

    CommandRun run = CommandRun.of("read", mixed.toString(), "--into", into.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out()).contains("Read 2 of 5 files").contains("rejected 3.");
    assertThat(run.complaints())
        .filteredOn(line -> line.startsWith("Cannot read "))
        .hasSize(3)
        .allMatch(line -> line.endsWith(".") && !line.contains("Exception"));
    try (StudyFolder folder = StudyFolder.finished(into.toString(), StudyFolder.configuration())) {
      List<TableRow> rejected = folder.source().rows("files", Map.of("outcome", "rejected"));
      assertThat(rejected)
          .extracting(row -> row.text("file"))
          .containsExactlyInAnyOrder("gone.musicxml", "letter.xml", "torn.mxl");
      assertThat(rejected).allMatch(row -> row.text("reason").endsWith("."));
    }
  }

  @Test
  void aFolderThatLeadsBackToItselfIsReadOnce() throws IOException {
    Path ring = SampleCorpus.firstSolos(temporary.resolve("ring"), 2);
    Files.createSymbolicLink(ring.resolve("again"), ring);

    CommandRun run =
        CommandRun.of("read", ring.toString(), "--into", temporary.resolve("study").toString());

    assertThat(run.out()).contains("Read 2 of 2 files");
  }

  @Test
  void strictRunsEndWithFourWhenAFileIsRejected() throws IOException {
    Path mixed = SampleCorpus.firstSolos(temporary.resolve("mixed"), 1);
    file("mixed/letter.xml", "<letter>Dear teacher</letter>");
    Path into = temporary.resolve("strict-study");

    CommandRun run =
        CommandRun.of("study", mixed.toString(), "--into", into.toString(), "--strict");

    assertThat(run.exitCode()).isEqualTo(ExitCode.REJECTED_FILES);
    assertThat(run.out()).contains("rejected 1.");
    assertThat(into.resolve("report/index.html")).exists();
  }

  @Test
  void strictRunsEndWithZeroWhenEveryFileIsRead() {
    Path into = temporary.resolve("strict-study");

    CommandRun run =
        CommandRun.of("read", corpus.toString(), "--into", into.toString(), "--strict");

    assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
  }

  // Where the study is written

  @Test
  void aFolderThatIsNotOursIsLeftAlone() throws IOException {
    file("holiday/photo.txt", "by the sea");
    Path holiday = temporary.resolve("holiday");
    SortedMap<String, String> before = FolderBytes.of(holiday);

    CommandRun run = CommandRun.of("study", corpus.toString(), "--into", holiday.toString());

    assertUnusable(run, holiday.toString(), "is not empty", "--into");
    assertThat(FolderBytes.of(holiday)).isEqualTo(before);
  }

  @Test
  void aFolderWithAManifestOfSomethingElseIsLeftAlone() throws IOException {
    file("other/manifest.json", "{\"program\": \"Weather Station 2\"}");
    Path other = temporary.resolve("other");
    SortedMap<String, String> before = FolderBytes.of(other);

    CommandRun run = CommandRun.of("study", corpus.toString(), "--into", other.toString());

    assertUnusable(run, other.toString(), "--into");
    assertThat(FolderBytes.of(other)).isEqualTo(before);
  }

  @Test
  void theFolderOfTheCorpusIsNotWrittenInto() throws IOException {
    SortedMap<String, String> before = FolderBytes.of(corpus);

    CommandRun run = CommandRun.of("study", corpus.toString(), "--into", corpus.toString());

    assertUnusable(run, corpus.toString(), "--into");
    assertThat(FolderBytes.of(corpus)).isEqualTo(before);
  }

  @Test
  void aFileIsNoStudyFolder() throws IOException {
    Path notes = file("notes.txt", "practise more");

    CommandRun run = CommandRun.of("study", corpus.toString(), "--into", notes.toString());

    assertUnusable(run, notes.toString(), "it is a file, not a folder");
    assertThat(notes).hasContent("practise more");
  }

  @Test
  void aFolderBelowAFileCannotBeMade() throws IOException {
    Path notes = file("notes.txt", "practise more");
    Path below = notes.resolve("study");

    CommandRun run = CommandRun.of("study", corpus.toString(), "--into", below.toString());

    assertUnusable(run, below.toString());
    assertThat(notes).hasContent("practise more");
  }

  // What the study asks for

  @Test
  void anUnknownGroupSuggestsTheNearestColumn() {
    assertUnusable(
        study(corpus, "--by", "style,instrumnet"),
        "Cannot group by 'instrumnet'",
        "Did you mean 'instrument'?",
        "style");
  }

  @Test
  void normsByAnUnknownColumnAreRefused() {
    assertUnusable(
        CommandRun.of("norms", finished.toString(), "--by", "stile"),
        "Cannot group by 'stile'",
        "Did you mean 'style'?");
  }

  @Test
  void anEmptyStudentFolderHoldsNoScores() throws IOException {
    Path students = Files.createDirectory(temporary.resolve("students"));

    assertUnusable(
        study(corpus, "--students", students.toString()), students.toString(), "holds no scores");
  }

  @Test
  void aMissingStudentFolderIsNamed() {
    Path students = temporary.resolve("students");

    assertUnusable(
        study(corpus, "--students", students.toString()), students.toString(), "Cannot find");
  }

  @ParameterizedTest
  @ValueSource(strings = {"study", "read", "inspect"})
  void anUnknownPhraseRuleNamesTheRules(String command) {
    CommandRun run =
        command.equals("inspect")
            ? CommandRun.of(command, SampleCorpus.A_SOLO.toString(), "--phrase-rule", "breeze")
            : CommandRun.of(
                command,
                corpus.toString(),
                "--into",
                finished.toString(),
                "--phrase-rule",
                "breeze");

    assertUnusable(run, "breeze", "silence", "marked", "boundary-strength");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "minimum-beats=long, long is not a number",
    "minimum-beats=-1, minimum",
    "minimum-beats=1/0, 1/0",
    "minimum-bars=2, minimum-beats",
    "minimum-seconds=NaN, NaN"
  })
  void aBadNumberOfThePhraseRuleIsRefused(String setting, String said) {
    assertUnusable(
        study(corpus, "--phrase-rule", "silence", "--phrase-rule-setting", setting),
        setting.split("=")[0],
        said);
  }

  @Test
  void aNumberOfAnotherRuleIsToldWhoseItIs() {
    assertUnusable(
        study(corpus, "--phrase-rule-setting", "minimum-beats=1"),
        "phrase rule by-material",
        "it is a setting of the phrase rule silence");
  }

  // The study file

  @Test
  void aMissingStudyFileIsNamed() {
    Path missing = temporary.resolve("study.yaml");

    assertUnusable(study(missing), missing.toString(), "no such file");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "corpsu: corpus | unknown key 'corpsu' | Did you mean 'corpus'?",
        "corpus: c\\nsettings: {phrase-rul: marked} | unknown key 'phrase-rul' under 'settings'"
            + " | Did you mean 'phrase-rule'?",
        "title: no corpus | it names no corpus | corpus: FOLDER",
        "corpus: [a, b] | 'corpus' must be a single value | study.yaml",
        "corpus: c\\nreport: {excerpts: maybe} | 'excerpts' is 'maybe' | use true or false",
        "corpus: c\\ncorpus: d | line 2 | corpus",
        "corpus: [ | line | it is not YAML",
        "just words | it has no keys | corpus: FOLDER",
        "# nothing | it has no keys | corpus: FOLDER",
        "corpus: c\\nby: {style: 1} | 'by' must be a list | [style, instrument]"
      })
  void aStudyFileThatCannotBeUsedSaysWhereAndWhy(String text, String why, String cure)
      throws IOException {
    Path file = file("study.yaml", text.replace("\\n", "\n"));

    assertUnusable(study(file), file.toString(), why, cure);
  }

  @Test
  void aStudyFileMayBeAnythingButAFolder() throws IOException {
    Path file = temporary.resolve("study.yaml");
    Files.write(file, new byte[] {(byte) 0xff, (byte) 0xfe, 0, 1, 2, (byte) 0x80});

    assertUnusable(study(file), file.toString());
  }

  // Metadata

  @Test
  void aMissingMetadataFileIsNamed() {
    assertUnusable(
        study(corpus, "--metadata", temporary.resolve("facts.csv").toString()),
        "facts.csv",
        "Check its path.");
  }

  @Test
  void aMissingKeyColumnListsTheColumns() throws IOException {
    Path facts = file("facts.csv", "song,style\nbarnacle,bop\n");

    assertUnusable(
        study(corpus, "--metadata", facts.toString(), "--metadata-key", "score"),
        "facts.csv",
        "no column 'score'",
        "song, style");
  }

  @Test
  void rowsThatNameAFileTwiceAreRefused() throws IOException {
    Path facts = file("facts.csv", "file,style\na.musicxml,bop\na.musicxml,swing\n");

    assertUnusable(
        study(corpus, "--metadata", facts.toString()), "facts.csv", "'a.musicxml'", "row 3");
  }

  @Test
  void aDateInAnotherFormIsRefused() throws IOException {
    Path facts = file("facts.csv", "file,date\na.musicxml,14.3.2026\n");

    assertUnusable(
        study(corpus, "--metadata", facts.toString()),
        "facts.csv",
        "row 2",
        "'14.3.2026'",
        "2026-03-14");
  }

  @Test
  void aColumnThatStandsTwiceIsRefused() throws IOException {
    Path facts = file("facts.csv", "file,style,style\na.musicxml,bop,swing\n");

    assertUnusable(study(corpus, "--metadata", facts.toString()), "facts.csv", "style");
  }

  @Test
  void anUnclosedQuoteIsRefused() throws IOException {
    Path facts = file("facts.csv", "file,style\n\"a.musicxml,bop\n");

    assertUnusable(study(corpus, "--metadata", facts.toString()), "facts.csv");
  }

  // Steps on a study folder

  @ParameterizedTest
  @ValueSource(strings = {"norms", "compare", "report"})
  void aStepOnAFolderWithoutAStudySaysWhatToRunFirst(String command) throws IOException {
    Path folder = Files.createDirectory(temporary.resolve("folder"));

    assertUnusable(
        CommandRun.of(command, folder.toString()), folder.toString(), "phrase-census study");
    assertThat(folder).isEmptyDirectory();
  }

  @ParameterizedTest
  @ValueSource(strings = {"norms", "compare", "report"})
  void aStepOnAMissingFolderDoesNotMakeIt(String command) {
    Path folder = temporary.resolve("folder");

    assertUnusable(CommandRun.of(command, folder.toString()), folder.toString());
    assertThat(folder).doesNotExist();
  }

  @ParameterizedTest
  @ValueSource(strings = {"norms", "compare", "report"})
  void aStepOnAFileSaysThatItIsNoStudy(String command) throws IOException {
    Path file = file("notes.txt", "practise more");

    assertUnusable(CommandRun.of(command, file.toString()), file.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"compare", "report"})
  void aStudyThatWasOnlyReadNeedsItsNormsFirst(String command) {
    Path read = temporary.resolve("read");
    CommandRun.of("read", corpus.toString(), "--into", read.toString());
    SortedMap<String, String> before = FolderBytes.of(read);

    CommandRun run = CommandRun.of(command, read.toString());

    assertUnusable(run, read.toString(), "no norms", "phrase-census norms");
    assertThat(FolderBytes.of(read)).isEqualTo(before);
  }

  @Test
  void readNormsAndReportGiveWhatStudyGives() {
    Path steps = temporary.resolve("steps");

    for (String[] step :
        new String[][] {
          {"read", corpus.toString(), "--into", steps.toString()},
          {"norms", steps.toString()},
          {"report", steps.toString()}
        }) {
      CommandRun run = CommandRun.of(step);
      assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    }

    assertThat(FolderBytes.of(steps)).isEqualTo(finishedBytes);
  }

  @Test
  void compareTakesOtherStudentsIntoTheStudy() throws IOException {
    Path students = SampleCorpus.studentSolos(temporary.resolve("students"), "pim-garrow");
    Path study = temporary.resolve("study");
    CommandRun.of("study", corpus.toString(), "--into", study.toString());

    CommandRun run = CommandRun.of("compare", study.toString(), "--students", students.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out()).contains("Read 5 of 5 files");
    assertThat(CommandRun.of("report", study.toString()).exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(study.resolve("report/student-pim-garrow.html")).exists();
  }

  @Test
  void compareWithAnEmptyStudentFolderLeavesTheStudy() throws IOException {
    Path students = Files.createDirectory(temporary.resolve("students"));

    assertUnusable(
        CommandRun.of("compare", finished.toString(), "--students", students.toString()),
        students.toString(),
        "holds no scores");
  }

  @Test
  void playersOfACorpusThatNamesTooFewAreNotHeldAgainstEachOther() {
    assertUnusable(
        CommandRun.of("players", finished.toString()),
        finished.toString(),
        "at least four are needed",
        "'performer'");
  }

  @Test
  void numbersOfPlayersToTellMoreOfMustBeNumbersThatCanBe() {
    assertUnusable(
        CommandRun.of("players", finished.toString(), "--farthest", "-1"), "-1", "0 or more");
    assertUnusable(
        CommandRun.of("players", finished.toString(), "--statistics", "0"), "0", "1 or more");
  }

  // Inspect

  @Test
  void inspectNamesAMissingFile() {
    Path missing = temporary.resolve("missing.musicxml");

    assertUnusable(
        CommandRun.of("inspect", missing.toString()), missing.toString(), "no such file");
  }

  @Test
  void inspectAsksForOneFileOfAFolder() {
    assertUnusable(
        CommandRun.of("inspect", corpus.toString()), corpus.toString(), "it is a folder");
  }

  @Test
  void inspectSaysWhyAFileIsNoScore() throws IOException {
    Path letter = file("letter.xml", "<letter>Dear teacher</letter>");

    assertUnusable(CommandRun.of("inspect", letter.toString()), letter.toString(), "'letter'");
  }

  @Test
  void inspectShowsBarsChordsPhrasesAndLandings() {
    CommandRun run = CommandRun.of("inspect", SampleCorpus.A_SOLO.toString());

    assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .startsWith("Tarpaulin Blues")
        .containsPattern("(?m)^bar 1 +\\| F7")
        .containsPattern("(?m)^ +1 +bars \\d+ to \\d+, \\d+ notes, ends on ")
        .contains("→")
        .doesNotContain("null", "NaN", "phrasecensus.");
  }

  @Test
  void inspectGivesProgramsTheSameAsJson() throws IOException {
    JsonNode json =
        new ObjectMapper()
            .readTree(CommandRun.of("inspect", SampleCorpus.A_SOLO.toString(), "--json").out());
    String text = CommandRun.of("inspect", SampleCorpus.A_SOLO.toString()).out();

    Matcher counts = Pattern.compile("(\\d+) bars, (\\d+) notes, (\\d+) phrases").matcher(text);
    assertThat(counts.find()).isTrue();
    assertThat(json.path("title").textValue()).isEqualTo(text.lines().findFirst().orElseThrow());
    assertThat(json.path("bars")).hasSize(Integer.parseInt(counts.group(1)));
    assertThat(json.path("notes")).hasSize(Integer.parseInt(counts.group(2)));
    assertThat(json.path("phrases")).hasSize(Integer.parseInt(counts.group(3)));
    assertThat(json.path("chords")).isNotEmpty();
    assertThat(json.path("landings")).isNotEmpty();
    assertThat(json.path("notes").get(0).path("onset").textValue()).matches("\\d+(/\\d+)?");
    JsonNode phrase = json.path("phrases").get(0);
    assertThat(phrase.path("parsons").textValue())
        .matches("\\*[udr]*")
        .hasSize(phrase.path("lastNote").intValue() - phrase.path("firstNote").intValue() + 1);
  }

  // Help

  @Test
  void theHelpListsWhatThereIs() {
    CommandRun run = CommandRun.of("--help");

    assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(run.out())
        .contains("study", "read", "norms", "compare", "report", "inspect", "Exit codes", "Example")
        .contains("export", "patterns")
        .doesNotContain("empty-session");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "norms",
        "compare",
        "patterns",
        "players",
        "attribute",
        "report",
        "inspect",
        "benchmark",
        "sheet",
        "phrases"
      })
  void everyCommandHasOptionsAndAnExampleInItsHelp(String command) {
    CommandRun run = CommandRun.of(command, "--help");

    assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .contains("--help")
        .containsPattern("(?m)^Examples?:$")
        .contains("  phrase-census " + command + " ")
        .doesNotContain("${");
  }

  @Test
  void theVersionIsThatOfTheBuild() {
    assertThat(CommandRun.of("--version").out()).matches("Phrase Census \\d+\\.\\d+\\.\\d+\\R");
  }

  // A fault of the program

  @Test
  void aFaultOfTheProgramIsToldWithoutAStackTrace() {
    System.setProperty("spark.master", "no-such-master");
    try {
      CommandRun run = study(corpus);

      assertThat(run.exitCode()).isEqualTo(ExitCode.OUR_FAULT);
      assertThat(run.complaints()).hasSize(1);
      assertThat(run.complaints().get(0))
          .startsWith("A fault of the program: ")
          .contains("no-such-master")
          .endsWith("Run the same command with --debug to see where.");
      assertThat(study(corpus, "--debug").err()).contains("at phrasecensus.spark.");
    } finally {
      System.clearProperty("spark.master");
    }
  }

  // Two runs at once

  @Test
  void aStudyThatAnotherRunIsWritingIsLeftAlone() throws IOException {
    Path study = temporary.resolve("study");
    CommandRun.of("read", corpus.toString(), "--into", study.toString());
    Process other = new ProcessBuilder("sleep", "60").start();
    try {
      Files.writeString(study.resolve(ListedFiles.LOCK), "Phrase Census run " + other.pid());
      SortedMap<String, String> before = FolderBytes.of(study);

      CommandRun run = CommandRun.of("read", corpus.toString(), "--into", study.toString());

      assertUnusable(run, study.toString(), "another run is working on it", ListedFiles.LOCK);
      assertThat(FolderBytes.of(study)).isEqualTo(before);
      assertThat(Files.exists(study.resolve(ListedFiles.LOCK), LinkOption.NOFOLLOW_LINKS)).isTrue();
    } finally {
      other.destroy();
    }
  }
}
