package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.SortedMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Annotated copies as a user makes them, and the files that must be left alone. */
class AnnotateIT {
  private static final String COPY = "tarpaulin-blues-marrack-quayside-annotated.musicxml";

  @TempDir private Path temporary;
  private Path into;

  @BeforeEach
  void chooseAFolder() {
    into = temporary.resolve("copies");
  }

  private CommandRun annotate(Object... arguments) {
    String[] all = new String[arguments.length + 3];
    all[0] = "annotate";
    for (int i = 0; i < arguments.length; i++) {
      all[i + 1] = arguments[i].toString();
    }
    all[all.length - 2] = "--into";
    all[all.length - 1] = into.toString();
    return CommandRun.of(all);
  }

  private static void assertRefused(CommandRun run, String... said) {
    assertThat(run.err().lines()).hasSize(1);
    assertThat(run.err().strip()).contains(said).matches("\\p{Lu}.*[^.]\\.");
    assertThat(run.out()).isEmpty();
    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
  }

  private Path file(String name, String content) throws IOException {
    Path file = temporary.resolve(name);
    Files.createDirectories(file.getParent());
    return Files.writeString(file, content);
  }

  private static int count(String pattern, String text) {
    Matcher matcher = Pattern.compile(pattern).matcher(text);
    int count = 0;
    while (matcher.find()) {
      count++;
    }
    return count;
  }

  @Test
  void theCopyHasTheMusicOfItsScore() {
    annotate(SampleCorpus.A_SOLO);

    CommandRun run =
        CommandRun.of("same-music", SampleCorpus.A_SOLO.toString(), into.resolve(COPY).toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out()).startsWith("Same music: 36 bars, 189 notes, 36 chords");
  }

  /** What inspect tells of phrases, degrees and unexplained notes is what stands in the copy. */
  @Test
  void theCopyShowsWhatInspectTells() throws IOException {
    CommandRun run = annotate(SampleCorpus.A_SOLO);
    String copy = Files.readString(into.resolve(COPY));
    JsonNode heard =
        new ObjectMapper()
            .readTree(CommandRun.of("inspect", SampleCorpus.A_SOLO.toString(), "--json").out());
    int degrees = 0;
    for (JsonNode landing : heard.path("landings")) {
      degrees += landing.path("degree").isTextual() ? 1 : 0;
    }
    int unexplained = 0;
    for (JsonNode note : heard.path("notes")) {
      unexplained += note.path("unexplained").booleanValue() ? 1 : 0;
    }

    assertThat(unexplained).isPositive();
    assertThat(count("<bracket [^>]*type=\"start\"", copy)).isEqualTo(heard.path("phrases").size());
    assertThat(count("<lyric ", copy)).isEqualTo(degrees + unexplained);
    assertThat(count("<text>\\*</text>", copy)).isEqualTo(unexplained);
    assertThat(run.out())
        .isEqualTo(
            into.resolve(COPY)
                + ": "
                + heard.path("phrases").size()
                + " phrases, "
                + heard.path("landings").size()
                + " landings, "
                + unexplained
                + " notes marked"
                + System.lineSeparator());
  }

  @Test
  void thePhraseRuleDecidesAboutTheBrackets() throws IOException {
    annotate(
        SampleCorpus.A_SOLO,
        "--phrase-rule",
        "silence",
        "--phrase-rule-setting",
        "minimum-beats=100");

    assertThat(count("<bracket [^>]*type=\"start\"", Files.readString(into.resolve(COPY))))
        .isEqualTo(1);
  }

  @Test
  void aSecondRunAsksForForce() {
    annotate(SampleCorpus.A_SOLO);
    SortedMap<String, String> before = FolderBytes.of(into);

    assertRefused(annotate(SampleCorpus.A_SOLO), COPY, "--force");
    assertThat(FolderBytes.of(into)).isEqualTo(before);
  }

  @Test
  void forceWritesTheSameBytesAgain() throws IOException {
    annotate(SampleCorpus.A_SOLO);
    byte[] first = Files.readAllBytes(into.resolve(COPY));
    Files.writeString(into.resolve(COPY), "worn out");

    CommandRun run = annotate(SampleCorpus.A_SOLO, "--force");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(Files.readAllBytes(into.resolve(COPY))).isEqualTo(first);
    assertThat(into.toFile().list()).containsExactly(COPY);
  }

  @Test
  void nothingIsWrittenWhenOneOfTheCopiesIsThere() throws IOException {
    Path other = file("other.musicxml", Files.readString(SampleCorpus.A_SOLO));
    annotate(SampleCorpus.A_SOLO);

    assertRefused(annotate(other, SampleCorpus.A_SOLO), COPY);
    assertThat(into.toFile().list()).containsExactly(COPY);
  }

  @Test
  void noFileGivenIsReplacedEvenByForce() throws IOException {
    Files.createDirectories(into);
    Path solo = Files.copy(SampleCorpus.A_SOLO, into.resolve("solo.musicxml"));
    Path named = Files.copy(SampleCorpus.A_SOLO, into.resolve("solo-annotated.musicxml"));
    SortedMap<String, String> before = FolderBytes.of(into);

    assertRefused(annotate(solo, named, "--force"), "it is one of the files given");
    assertThat(FolderBytes.of(into)).isEqualTo(before);
  }

  @Test
  void aLinkToAFileGivenIsThatFile() throws IOException {
    Files.createDirectories(into);
    Path solo = Files.copy(SampleCorpus.A_SOLO, temporary.resolve("solo.musicxml"));
    Files.createSymbolicLink(into.resolve("solo-annotated.musicxml"), solo);

    assertRefused(annotate(solo, "--force"), "it is one of the files given");
    assertThat(Files.mismatch(solo, SampleCorpus.A_SOLO)).isEqualTo(-1);
  }

  @Test
  void twoFilesOfOneNameAreRefused() throws IOException {
    Path first = file("a/solo.musicxml", Files.readString(SampleCorpus.A_SOLO));
    Path second = file("b/solo.xml", Files.readString(SampleCorpus.A_SOLO));

    assertRefused(annotate(first, second), first.toString(), second.toString(), "one name");
    assertThat(into).doesNotExist();
  }

  @Test
  void aRejectedFileAloneIsAnErrorAndLeavesNothing() throws IOException {
    Path letter = file("letter.xml", "<letter>Dear teacher</letter>");

    assertRefused(annotate(letter), letter.toString(), "'letter'");
    assertThat(into).doesNotExist();
  }

  @Test
  void aRejectedFileAmongOthersIsToldAndTheRunGoesOn() throws IOException {
    Path letter = file("letter.xml", "<letter>Dear teacher</letter>");

    CommandRun run = annotate(letter, SampleCorpus.A_SOLO);

    assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(run.err()).startsWith("Cannot read " + letter);
    assertThat(into.resolve(COPY)).exists();
    assertThat(annotate(letter, SampleCorpus.A_SOLO, "--force", "--strict").exitCode())
        .isEqualTo(ExitCode.REJECTED_FILES);
  }

  @Test
  void onlyRejectedFilesAreAnError() throws IOException {
    CommandRun run = annotate(file("a.xml", "<a/>"), file("b.xml", "<b/>"));

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err().lines())
        .hasSize(3)
        .last()
        .isEqualTo("Cannot annotate: none of the 2 files could be read.");
  }

  @Test
  void aFileIsNoFolderForCopies() throws IOException {
    into = file("notes.txt", "practise more");

    assertRefused(annotate(SampleCorpus.A_SOLO), into.toString(), "it is a file, not a folder");
    assertThat(into).hasContent("practise more");
  }

  @Test
  void aFolderBelowAFileCannotBeMade() throws IOException {
    into = file("notes.txt", "practise more").resolve("copies");

    assertRefused(annotate(SampleCorpus.A_SOLO), into.toString());
  }

  @Test
  void anUnknownPhraseRuleIsToldOnceBeforeAnyFileIsRead() throws IOException {
    Path letter = file("letter.xml", "<letter>Dear teacher</letter>");

    assertRefused(
        annotate(letter, SampleCorpus.A_SOLO, "--phrase-rule", "breeze"), "breeze", "silence");
  }

  @Test
  void theFolderMustBeNamed() {
    CommandRun run = CommandRun.of("annotate", SampleCorpus.A_SOLO.toString());

    assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(run.err()).contains("'--into' needs a FOLDER");
  }

  @Test
  void differentMusicIsToldByItsFirstDifference() throws IOException {
    String score = Files.readString(SampleCorpus.A_SOLO);
    Path changed =
        file("changed.musicxml", score.replaceFirst("<octave>4</octave>", "<octave>5</octave>"));

    assertRefused(
        CommandRun.of("same-music", SampleCorpus.A_SOLO.toString(), changed.toString()),
        "Different music",
        "note A4 written B4 from",
        "against note A5 written B5 from");
  }

  @Test
  void theHelpTellsTheOptionsAndTheLimits() {
    CommandRun run = CommandRun.of("annotate", "--help");

    assertThat(run.out())
        .contains("--force", "--limit", "--phrase-rule", "file-size", "67108864 bytes")
        .contains("  phrase-census annotate ")
        .doesNotContain("${");
    assertThat(CommandRun.of("--help").out()).contains("annotate").doesNotContain("same-music");
    assertThat(Arrays.asList(CommandRun.of("anotate").err().split("'"))).contains("annotate");
  }
}
