package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Files of a finished study that are flipped, cut, emptied, swapped and deleted: {@code verify}
 * names each, no command that has no scores works with one, and the next {@code study} makes the
 * study that an undisturbed run makes, whether a score has changed meanwhile or not. So many trials
 * as the property {@code faults.damages} says, from the seed {@code faults.seed}.
 */
class DamagedStudyIT {
  private static final int TRIALS = Integer.getInteger("faults.damages", 12);
  private static final long SEED = Long.getLong("faults.seed", 1);
  private static final String ADVICE = "Run 'phrase-census study' into it again";

  @TempDir private static Path temporary;
  private static Path corpus;
  private static Path students;
  private static Path base;
  private static Path other;
  private static Path score;
  private static byte[] asItWas;
  private static byte[] changed;

  /** What an undisturbed run leaves, by whether the score has changed. */
  private static final Map<Boolean, SortedMap<String, String>> UNDISTURBED = new TreeMap<>();

  /** What is done to a file. */
  private enum Damage {
    FLIP_A_BIT,
    FLIP_A_BYTE_IN_THE_MIDDLE,
    CUT,
    EMPTY,
    ZERO_A_BLOCK,
    SWAP_WITH_ANOTHER_STUDY,
    SWAP_WITH_ANOTHER_FILE,
    DELETE
  }

  @BeforeAll
  static void makeTheStudies() throws IOException {
    corpus = SampleCorpus.firstSolos(temporary.resolve("corpus"), 4);
    students = SampleCorpus.studentSolos(temporary.resolve("students"), "jory-venn");
    try (Stream<Path> files = Files.list(students.resolve("jory-venn"))) {
      for (Path file : files.sorted().skip(1).toList()) {
        Files.delete(file);
      }
    }
    try (Stream<Path> files = Files.list(corpus)) {
      score = files.filter(file -> file.toString().endsWith("l")).sorted().toList().get(1);
    }
    asItWas = Files.readAllBytes(score);
    changed =
        new String(asItWas, StandardCharsets.UTF_8)
            .replaceFirst("<octave>4</octave>", "<octave>3</octave>")
            .getBytes(StandardCharsets.UTF_8);
    assertThat(changed).isNotEqualTo(asItWas);
    base = temporary.resolve("base");
    done(study(base));
    other = temporary.resolve("other");
    Path others = SampleCorpus.firstSolos(temporary.resolve("others"), 5);
    done(
        CommandRun.of(
            "study",
            others.toString(),
            "--students",
            students.toString(),
            "--into",
            other.toString()));
    UNDISTURBED.put(false, contents(base));
    setScore(true);
    Path again = copy(base, "undisturbed");
    done(study(again));
    UNDISTURBED.put(true, contents(again));
    setScore(false);
    assertThat(UNDISTURBED.get(true)).isNotEqualTo(UNDISTURBED.get(false));
  }

  private static CommandRun study(Path into) {
    return CommandRun.of(
        "study", corpus.toString(), "--students", students.toString(), "--into", into.toString());
  }

  private static void done(CommandRun run) {
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
  }

  private static void setScore(boolean other) throws IOException {
    Files.write(score, other ? changed : asItWas);
  }

  /** Everything that a study is, without what was set aside. */
  private static SortedMap<String, String> contents(Path study) {
    SortedMap<String, String> contents = FolderBytes.of(study);
    contents.keySet().removeIf(name -> name.startsWith("set-aside-"));
    return contents;
  }

  private static Path copy(Path study, String name) {
    Path copy = temporary.resolve(name);
    if (Files.exists(copy)) {
      FolderBytes.delete(copy);
    }
    return FolderBytes.copy(study, copy);
  }

  /** Files of every kind: parts of reading, made tables, manifest, lists, marker, pages. */
  private static String chosen(Random random) {
    List<String> files = new ArrayList<>();
    UNDISTURBED
        .get(false)
        .forEach(
            (name, digest) -> {
              if (!digest.equals("folder")) {
                files.add(name);
              }
            });
    List<String> of =
        switch (random.nextInt(8)) {
          case 0 -> List.of("manifest.json");
          case 1 -> List.of("files.sha256", "report/files.sha256", ".phrase-census");
          case 2 -> files.stream().filter(file -> file.startsWith("report/")).toList();
          case 3 -> files.stream().filter(file -> file.contains("/part-0")).toList();
          case 4 -> files.stream().filter(file -> file.matches("tables/(files|solos)/.*")).toList();
          default -> files.stream().filter(file -> file.matches("tables/.*/(c|s).*")).toList();
        };
    return of.get(random.nextInt(of.size()));
  }

  /** Whether the file has other bytes now. */
  private static boolean damage(Path study, String name, Damage how, Random random)
      throws IOException {
    Path file = study.resolve(name);
    byte[] before = Files.readAllBytes(file);
    byte[] bytes = before.clone();
    switch (how) {
      case FLIP_A_BIT -> bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
      case FLIP_A_BYTE_IN_THE_MIDDLE ->
          bytes[bytes.length / 4 + random.nextInt(bytes.length / 2)] ^= 0x55;
      case CUT -> bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
      case EMPTY -> bytes = new byte[0];
      case ZERO_A_BLOCK -> {
        int at = random.nextInt(bytes.length);
        Arrays.fill(bytes, at, Math.min(bytes.length, at + 512), (byte) 0);
      }
      case SWAP_WITH_ANOTHER_STUDY ->
          bytes =
              Files.exists(other.resolve(name))
                  ? Files.readAllBytes(other.resolve(name))
                  : new byte[] {1};
      case SWAP_WITH_ANOTHER_FILE -> bytes = Files.readAllBytes(study.resolve(chosen(random)));
      default -> {
        Files.delete(file);
        return true;
      }
    }
    Files.write(file, bytes);
    return !Arrays.equals(bytes, before);
  }

  @Test
  void noDamageChangesAResultInSilenceAndEveryStudyHeals() throws IOException {
    Map<String, Integer> counts = new TreeMap<>();
    Random random = new Random(SEED);
    List<String> failures = new ArrayList<>();
    for (int trial = 1; trial <= TRIALS; trial++) {
      String name = chosen(random);
      Damage how = Damage.values()[random.nextInt(Damage.values().length)];
      Path study = copy(base, "study");
      if (!damage(study, name, how, random)) {
        counts.merge("the same bytes again", 1, Integer::sum);
        continue;
      }
      counts.merge(
          name.startsWith("tables/")
              ? name.contains("/part-0") ? "made tables" : "tables of reading"
              : name.startsWith("report/") ? "pages" : name,
          1,
          Integer::sum);
      boolean withChange = random.nextBoolean();
      String what =
          "trial " + trial + ", " + how + " " + name + (withChange ? ", a score changed" : "");
      try {
        assertNamed(study, name, random.nextInt(8));
        setScore(withChange);
        assertHealed(study, name, withChange);
      } catch (AssertionError e) {
        failures.add(what + ": " + e.getMessage());
      } finally {
        setScore(false);
      }
    }
    System.out.println(TRIALS + " damages (seed " + SEED + "): " + counts);
    assertThat(failures).isEmpty();
  }

  /** By {@code verify}, and by a command without scores where the file is one that it reads. */
  private static void assertNamed(Path study, String name, int command) throws IOException {
    CommandRun verify = CommandRun.of("verify", study.toString());
    assertThat(verify.exitCode())
        .as("verify: %s%s", verify.out(), verify.err())
        .isEqualTo(ExitCode.OTHER_RESULTS);
    assertThat(verify.out()).as("verify").contains(name);
    boolean read =
        name.startsWith("tables/") || name.equals("manifest.json") || name.equals("files.sha256");
    if (!read) {
      return;
    }
    String[] arguments =
        switch (command) {
          case 0 -> new String[] {"norms", study.toString()};
          case 1 -> new String[] {"report", study.toString()};
          case 2 -> new String[] {"patterns", study.toString()};
          case 3 -> new String[] {"compare", study.toString(), "--students", students.toString()};
          default ->
              new String[] {
                "export", study.toString(), "--into", temporary.resolve("export").toString()
              };
        };
    SortedMap<String, String> before = FolderBytes.of(study);
    CommandRun run = CommandRun.of(arguments);
    assertThat(run.exitCode()).as(arguments[0] + ": " + run.err()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints()).as(arguments[0]).hasSize(1);
    assertThat(run.complaints().get(0)).as(arguments[0]).contains(name).contains(ADVICE);
    assertThat(FolderBytes.of(study)).as("after " + arguments[0]).isEqualTo(before);
  }

  private static void assertHealed(Path study, String name, boolean withChange) {
    CommandRun run = study(study);
    assertThat(run.exitCode()).as("study: " + run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.err()).as("study").doesNotContain("Exception", "fault of the program");
    assertThat(contents(study))
        .as("the study that came out")
        .isEqualTo(UNDISTURBED.get(withChange));
    CommandRun verify = CommandRun.of("verify", study.toString());
    assertThat(verify.exitCode()).as("verify after it: " + verify.out()).isEqualTo(ExitCode.DONE);
    List<String> told = run.complaints().stream().filter(line -> line.contains(name)).toList();
    if (Files.exists(study.resolve(name)) && !isQuietlyReplaced(name, study)) {
      assertThat(told).as("what study said: " + run.err()).isNotEmpty();
    }
  }

  /** A file that was gone, and that every run writes anew, needs no word. */
  private static boolean isQuietlyReplaced(String name, Path study) {
    try (Stream<Path> files = Files.list(study)) {
      boolean setAside =
          files.anyMatch(file -> file.getFileName().toString().startsWith("set-aside-"));
      return !setAside
          && (name.contains("/part-0")
              || name.startsWith("report/")
              || name.equals(".phrase-census"));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** A part of another study passes every check but that of its bytes. */
  @Test
  void aPartOfAnotherStudyIsReadAnew() throws IOException {
    for (String table : List.of("notes", "solo_statistics")) {
      String name = "tables/" + table + "/corpus-00000.parquet";
      Path study = copy(base, "swapped-" + table);
      Files.copy(other.resolve(name), study.resolve(name), StandardCopyOption.REPLACE_EXISTING);

      CommandRun run = study(study);

      assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
      assertThat(run.complaints())
          .contains(
              "Not as written, but gone, damaged or changed, so that their scores were read anew: "
                  + name
                  + ".");
      assertThat(contents(study)).isEqualTo(UNDISTURBED.get(false));
    }
  }
}
