package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The launcher with a Java and a Maven of the test's own: what it says where something is missing.
 */
@Timeout(value = 2, unit = TimeUnit.MINUTES)
class LauncherIT {
  private static final Path LAUNCHER =
      Path.of(System.getProperty("project.root"), "jobs", "phrase-census");

  private static final List<String> TOOLS =
      List.of(
          "awk",
          "basename",
          "bash",
          "cat",
          "chmod",
          "cksum",
          "df",
          "dirname",
          "env",
          "find",
          "flock",
          "grep",
          "head",
          "locale",
          "mkdir",
          "mktemp",
          "mv",
          "rm",
          "sed",
          "seq",
          "sh",
          "sleep",
          "stat",
          "tail",
          "touch",
          "tr",
          "uname",
          "wc");

  @TempDir private Path folder;
  private Path program;
  private Path target;
  private Path tools;

  @BeforeEach
  void program() throws IOException {
    assumeTrue(Files.isExecutable(Path.of("/bin/bash")), "there is no bash");
    program = Files.createDirectories(folder.resolve("jobs")).resolve("phrase-census");
    Files.copy(LAUNCHER, program);
    program.toFile().setExecutable(true);
    Path shared = Files.createDirectories(folder.resolve("jobs/cli/src/main/launcher"));
    for (String name : List.of("launch.sh", "java.options")) {
      Files.copy(
          LAUNCHER.resolveSibling("cli/src/main/launcher").resolve(name), shared.resolve(name));
    }
    target = Files.createDirectories(folder.resolve("jobs/cli/target"));
    Files.createDirectories(target.resolve("lib"));
    for (String name : List.of("schemas", "notebooks-export")) {
      Files.createDirectories(folder.resolve(name));
    }
    Files.writeString(folder.resolve("pom.xml"), "");
    Files.writeString(target.resolve("phrase-census.jar"), "jar");
    // The system's tools in a folder of their own, without its Java and Maven.
    tools = Files.createDirectories(folder.resolve("tools"));
    for (String name : TOOLS) {
      for (Path system : List.of(Path.of("/usr/bin"), Path.of("/bin"))) {
        if (Files.exists(system.resolve(name)) && !Files.exists(tools.resolve(name))) {
          tool(name, "exec " + system.resolve(name) + " \"$@\"");
        }
      }
    }
    tool("id", "[ \"$1\" = -u ] && echo 1000 || echo somebody");
    java("17.0.15", "echo \"$@\" >" + folder.resolve("arguments"));
  }

  private void tool(String name, String script) throws IOException {
    Path tool = tools.resolve(name);
    Files.deleteIfExists(tool);
    Files.writeString(tool, "#!/bin/bash\n" + script + "\n");
    tool.toFile().setExecutable(true);
  }

  private void java(String version, String running) throws IOException {
    tool(
        "java",
        "if [ \"$1\" = -version ]; then echo 'openjdk version \""
            + version
            + "\" 2025-04-15' >&2; exit 0; fi\n"
            + running);
  }

  private record Run(int exitCode, String said) {}

  private ProcessBuilder builder(String... command) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.redirectOutput(Files.createTempFile(folder, "said", "").toFile());
    builder.environment().put("PATH", tools.toString());
    for (String name : List.of("JAVA_HOME", "JAVA_OPTS", "PHRASE_CENSUS_LIBRARIES")) {
      builder.environment().remove(name);
    }
    return builder;
  }

  private Run run(String... command) throws Exception {
    ProcessBuilder builder = builder(command);
    int exitCode = builder.start().waitFor();
    return new Run(exitCode, Files.readString(builder.redirectOutput().file().toPath()).strip());
  }

  private String arguments() throws IOException {
    return Files.readString(folder.resolve("arguments"));
  }

  @Test
  void shStartsItAsBashDoes() throws Exception {
    assertThat(run("sh", program.toString(), "inspect", "a b")).isEqualTo(new Run(0, ""));
    assertThat(arguments()).endsWith("phrasecensus.cli.Main inspect a b\n");
  }

  @Test
  void missingJavaIsTold() throws Exception {
    Files.delete(tools.resolve("java"));

    assertThat(run(program.toString()))
        .isEqualTo(
            new Run(
                1,
                "Cannot run: there is no Java on this computer. Install a JDK 17 or newer, or let"
                    + " JAVA_HOME name one."));
  }

  @Test
  void oldJavaIsTold() throws Exception {
    java("11.0.2", "exit 0");
    assertThat(run(program.toString()).said())
        .startsWith("Cannot run: the Java here is version 11. Install a JDK 17 or newer");

    java("1.8.0_392", "exit 0");
    assertThat(run(program.toString()).said())
        .startsWith("Cannot run: the Java here is version 8.");

    java("21", "exit 0");
    assertThat(run(program.toString())).isEqualTo(new Run(0, ""));
  }

  @Test
  void javaThatDoesNotStartIsTold() throws Exception {
    tool("java", "echo 'Error: could not find libjava.so'; exit 1");

    assertThat(run(program.toString()))
        .isEqualTo(
            new Run(
                1, "Cannot run: Java does not start. It says: Error: could not find libjava.so"));
  }

  @Test
  void tooFewOpenFilesAreTold() throws Exception {
    assertThat(run("bash", "-c", "ulimit -n 64; " + program))
        .isEqualTo(
            new Run(
                1,
                "Cannot run: this shell allows 64 open files at once, and at least 256 are needed."
                    + " Allow more, as in 'ulimit -n 1024'."));
    assertThat(run("bash", "-c", "ulimit -Sn 64; " + program).exitCode()).isZero();
  }

  @Test
  void tooFewProcessesAreTold() throws Exception {
    assertThat(run("bash", "-c", "ulimit -u 60; exec " + program))
        .isEqualTo(
            new Run(
                1,
                "Cannot run: this shell allows 60 processes and threads at once, and at least 200"
                    + " are needed. Allow more, as in 'ulimit -u 1000'."));
  }

  @Test
  void missingMavenIsTold() throws Exception {
    Files.delete(target.resolve("phrase-census.jar"));

    assertThat(run(program.toString()).said())
        .endsWith(
            "Cannot run: there is no Maven on this computer, which builds the program. Install"
                + " Maven 3.8.6 or newer.");
  }

  @Test
  void ofTwoFirstStartsOneBuildsAndOneWaits() throws Exception {
    assumeTrue(Files.exists(tools.resolve("flock")), "there is no flock");
    Files.delete(target.resolve("phrase-census.jar"));
    tool(
        "mvn",
        "echo built >>"
            + folder.resolve("builds")
            + "; sleep 2; echo jar >"
            + target.resolve("phrase-census.jar"));

    Process first = builder(program.toString()).start();
    Process second = builder(program.toString()).start();

    assertThat(first.waitFor()).isZero();
    assertThat(second.waitFor()).isZero();
    assertThat(Files.readString(folder.resolve("builds"))).isEqualTo("built\n");
  }

  @Test
  void failedBuildShowsWhatMavenSaid() throws Exception {
    Files.delete(target.resolve("phrase-census.jar"));
    tool("mvn", "echo 'no such plugin'; exit 1");

    Run run = run(program.toString());

    assertThat(run.exitCode()).isEqualTo(1);
    assertThat(run.said()).contains("no such plugin").contains("Cannot build Phrase Census");
  }

  @Test
  void javaEndsWithTheLauncherInTheFirstStudyToo() throws Exception {
    java(
        "17.0.15",
        "trap 'echo told >"
            + folder.resolve("told")
            + "; exit 143' TERM; touch "
            + folder.resolve("running")
            + "; for i in $(seq 600); do sleep 0.1; done");
    Process study = builder(program.toString(), "study", "corpus").start();
    while (!Files.exists(folder.resolve("running"))) {
      Thread.sleep(20);
    }

    study.destroy();

    assertThat(study.waitFor()).isEqualTo(143);
    assertThat(folder.resolve("told")).exists();
  }

  @Test
  void firstStudyMakesAnArchiveThatLaterRunsUseWhileItIsWhole() throws Exception {
    java(
        "17.0.15",
        "echo \"$@\" >"
            + folder.resolve("arguments")
            + "; for a in \"$@\"; do case $a in -XX:ArchiveClassesAtExit=*) echo classes"
            + " >${a#*=};; esac; done");
    assertThat(run(program.toString(), "study", "corpus").exitCode()).isZero();
    assertThat(arguments()).contains("-XX:ArchiveClassesAtExit=");

    run(program.toString(), "inspect", "x");
    assertThat(arguments()).contains("-XX:SharedArchiveFile=");

    Path archive;
    try (Stream<Path> files = Files.list(target)) {
      archive = files.filter(file -> file.toString().endsWith(".jsa")).findFirst().orElseThrow();
    }
    archive.toFile().setWritable(true);
    Files.writeString(archive, "class");
    run(program.toString(), "inspect", "x");
    assertThat(arguments()).doesNotContain("-XX:SharedArchiveFile=");

    run(program.toString(), "study", "corpus");
    assertThat(arguments()).contains("-XX:ArchiveClassesAtExit=");
    assertThat(Files.readString(archive)).isEqualTo("classes\n");
  }

  /** Java ends with 1 where there is no room for the archive, whatever the study did. */
  @Test
  void exitCodeOfTheStudyStandsWhateverBecomesOfTheArchive() throws Exception {
    java(
        "17.0.15",
        "for a in \"$@\"; do case $a in -Dphrasecensus.exit=*) echo 4 >${a#*=};; esac; done; exit"
            + " 1");

    assertThat(run(program.toString(), "study", "corpus").exitCode()).isEqualTo(4);
    try (Stream<Path> files = Files.list(target)) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .containsExactlyInAnyOrder("lib", "phrase-census.jar");
    }
  }
}
