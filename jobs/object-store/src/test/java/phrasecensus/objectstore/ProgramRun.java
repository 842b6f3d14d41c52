package phrasecensus.objectstore;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;

/**
 * A run of the program in a process of its own, started as users start it, with the libraries for
 * {@code s3a:} that this module fetched.
 *
 * @param exitCode as the shell sees it
 */
record ProgramRun(int exitCode, String out, String err) {
  static final Path ROOT = Path.of(System.getProperty("project.root"));

  /** A run that is not over. */
  static final class Started {
    private final Process process;
    private final Path out;
    private final Path err;

    private Started(Process process, Path out, Path err) {
      this.process = process;
      this.out = out;
      this.err = err;
    }

    /** Ends it as {@code kill -9} does. */
    void kill() {
      process.descendants().forEach(ProcessHandle::destroyForcibly);
      process.destroyForcibly();
    }

    ProgramRun ended() throws IOException, InterruptedException {
      if (!process.waitFor(5, TimeUnit.MINUTES)) {
        kill();
        throw new AssertionError("No end after five minutes: " + Files.readString(err));
      }
      return new ProgramRun(process.exitValue(), Files.readString(out), Files.readString(err));
    }
  }

  /**
   * Starts the program.
   *
   * @param settings of Hadoop, {@code name=value}
   */
  static Started start(
      Path temporary, StoreServer server, List<String> settings, String... arguments)
      throws IOException {
    List<String> all = new ArrayList<>();
    all.add("fs.s3a.endpoint=" + server.endpoint());
    all.add("fs.s3a.endpoint.region=us-east-1");
    all.add("fs.s3a.path.style.access=true");
    all.add("fs.s3a.connection.ssl.enabled=false");
    all.addAll(settings);
    List<String> command = new ArrayList<>();
    command.add(ROOT.resolve("jobs/phrase-census").toString());
    command.addAll(List.of(arguments));
    Path out = Files.createTempFile(temporary, "out", ".txt");
    Path err = Files.createTempFile(temporary, "err", ".txt");
    ProcessBuilder builder =
        new ProcessBuilder(command).redirectOutput(out.toFile()).redirectError(err.toFile());
    builder
        .environment()
        .put(
            "JAVA_OPTS",
            all.stream()
                .map(setting -> "-Dspark.hadoop." + setting)
                .collect(Collectors.joining(" ")));
    builder
        .environment()
        .put(
            "PHRASE_CENSUS_LIBRARIES",
            ROOT.resolve("jobs/object-store/target/libraries").toString());
    builder.environment().put("AWS_ACCESS_KEY_ID", StoreServer.IDENTITY);
    builder.environment().put("AWS_SECRET_ACCESS_KEY", StoreServer.SECRET);
    builder.environment().put("AWS_REQUEST_CHECKSUM_CALCULATION", "WHEN_REQUIRED");
    builder.environment().put("AWS_RESPONSE_CHECKSUM_VALIDATION", "WHEN_REQUIRED");
    return new Started(builder.start(), out, err);
  }

  static ProgramRun of(Path temporary, StoreServer server, String... arguments)
      throws IOException, InterruptedException {
    return start(temporary, server, List.of(), arguments).ended();
  }
}
