package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The launchers of the archive with a Java of the test's own that writes its arguments down. That
 * of Windows does not run here: its options and class path are taken out of its text.
 */
class ArchiveLauncherIT {
  private static final Path JOBS = Path.of(System.getProperty("project.root"), "jobs");
  private static final Path BIN = JOBS.resolve("archive/src/main/bin");

  @TempDir private Path folder;
  private Path program;
  private Path link;

  @BeforeEach
  void unpack() throws IOException {
    assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "there is no POSIX shell");
    Path home = folder.resolve("a place/phrase-census-1");
    program = Files.createDirectories(home.resolve("program"));
    Files.createDirectories(home.resolve("bin"));
    for (String name : List.of("launch.sh", "java.options")) {
      Files.copy(JOBS.resolve("cli/src/main/launcher").resolve(name), program.resolve(name));
    }
    Files.writeString(program.resolve("phrase-census.jar"), "jar");
    Path launcher = Files.copy(BIN.resolve("phrase-census"), home.resolve("bin/phrase-census"));
    launcher.toFile().setExecutable(true);
    Path first = Files.createSymbolicLink(folder.resolve("first link"), launcher);
    link = Files.createSymbolicLink(folder.resolve("second"), first.getFileName());

    Path java = Files.createDirectories(folder.resolve("java home/bin")).resolve("java");
    Files.writeString(
        java,
        """
        #!/bin/sh
        if [ "$1" = -version ]; then echo 'openjdk version "21"' >&2; exit 0; fi
        for argument in "$@"; do printf '%s\\n' "$argument"; done >"$WRITTEN"
        """);
    java.toFile().setExecutable(true);
  }

  private List<String> fromShell(Map<String, String> environment, String... arguments)
      throws Exception {
    List<String> command = new ArrayList<>(List.of(link.toString()));
    command.addAll(List.of(arguments));
    File said = folder.resolve("said").toFile();
    Path written = folder.resolve("written");
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .directory(new File("/"))
            .redirectErrorStream(true)
            .redirectOutput(said);
    builder.environment().remove("JAVA_OPTS");
    builder.environment().remove("PHRASE_CENSUS_LIBRARIES");
    builder.environment().putAll(environment);
    builder.environment().put("JAVA_HOME", folder.resolve("java home").toString());
    builder.environment().put("WRITTEN", written.toString());
    assertThat(builder.start().waitFor()).as(Files.readString(said.toPath())).isZero();
    return Files.readAllLines(written);
  }

  /** What the last start of Java in the text becomes with values for its variables. */
  private List<String> fromText(boolean small, Map<String, String> environment, String... arguments)
      throws IOException {
    String text = Files.readString(BIN.resolve("phrase-census.cmd"));
    assertThat(text.replace("\r\n", ""))
        .as("every line ends as Windows wants it")
        .doesNotContain("\n");
    String start =
        text.lines().filter(line -> line.startsWith("\"%java%\" \"@")).findFirst().orElseThrow();
    String libraries = environment.getOrDefault("PHRASE_CENSUS_LIBRARIES", "");
    boolean debug = List.of(arguments).contains("--debug");
    String line =
        start
            .replace("%speed%", set(text, small ? "if \"%small%\"==\"yes\" " : "", "speed"))
            .replace("%log%", set(text, debug ? "if \"%~1\"==\"--debug\" " : "", "log"))
            .replace(
                "%further%",
                libraries.isEmpty()
                    ? set(text, "", "further")
                    : set(text, "if defined PHRASE_CENSUS_LIBRARIES ", "further")
                        .replace("%PHRASE_CENSUS_LIBRARIES%", libraries))
            .replace("%program%", program.toAbsolutePath().toString())
            .replace("%JAVA_OPTS%", environment.getOrDefault("JAVA_OPTS", ""))
            .replace("%*", String.join(" ", arguments))
            .replace('\\', '/')
            .replace(';', ':');
    List<String> words = new ArrayList<>();
    Matcher word = Pattern.compile("\"([^\"]*)\"|([^\\s\"]+)").matcher(line);
    while (word.find()) {
      words.add(word.group(1) == null ? word.group(2) : word.group(1));
    }
    return words.subList(1, words.size());
  }

  private static String set(String text, String condition, String variable) {
    Matcher set =
        Pattern.compile(
                "(?m)^" + Pattern.quote(condition + "set \"" + variable + "=") + "([^\"]*)\"")
            .matcher(text);
    assertThat(set.find()).as(condition + variable).isTrue();
    return set.group(1);
  }

  private List<String> both(boolean small, Map<String, String> environment, String... arguments)
      throws Exception {
    List<String> shell = fromShell(environment, arguments);
    assertThat(fromText(small, environment, arguments)).isEqualTo(shell);
    return shell;
  }

  @Test
  void startsAreTheSame() throws Exception {
    assertThat(both(true, Map.of(), "inspect", "solo.xml"))
        .startsWith("@" + program.toRealPath() + "/java.options")
        .endsWith(
            "-cp",
            program.toRealPath() + "/phrase-census.jar",
            "phrasecensus.cli.Main",
            "inspect",
            "solo.xml");
  }

  @Test
  void startsWithLibrariesAndOptionsAreTheSame() throws Exception {
    assertThat(
            both(
                true,
                Map.of("PHRASE_CENSUS_LIBRARIES", "/connectors", "JAVA_OPTS", "-Xmx2g -Da=b"),
                "inspect",
                "--debug",
                "solo.xml"))
        .contains("-Xmx2g", "-Da=b", "-Dphrasecensus.log=warn")
        .contains(program.toRealPath() + "/phrase-census.jar:/connectors/*");
  }

  @Test
  void startsForManyFilesAreTheSame() throws Exception {
    Path many = Files.createDirectory(folder.resolve("many"));
    for (int i = 0; i < 3000; i++) {
      Files.createFile(many.resolve(i + ".xml"));
    }
    assertThat(both(false, Map.of(), "inspect", many.toString())).contains("-XX:+UseParallelGC");
  }

  @Test
  void argumentsStayWholeThroughLinksAndSpaces() throws Exception {
    assertThat(fromShell(Map.of(), "inspect", "a b", "", "*", "$HOME 'x'"))
        .endsWith("phrasecensus.cli.Main", "inspect", "a b", "", "*", "$HOME 'x'");
  }

  @Test
  void windowsCountsAsManyFilesAsTheShell() throws IOException {
    assertThat(Files.readString(BIN.resolve("phrase-census.cmd"))).contains("GEQ 3000");
    assertThat(Files.readString(program.resolve("launch.sh"))).contains("-ge 3000");
  }
}
