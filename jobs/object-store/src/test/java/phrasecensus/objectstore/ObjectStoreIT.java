package phrasecensus.objectstore;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gaul.s3proxy.nio2blob.TransientNio2BlobApiMetadata;
import org.jclouds.blobstore.TransientApiMetadata;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Studies from one bucket of a real S3 server into another: hadoop-aws and the AWS SDK as client,
 * S3Proxy as server, on loopback. Every run is a process of its own.
 */
class ObjectStoreIT {
  private static final int SOLOS = 40;
  private static final int KILLS = 8;

  /** Beside two requests a score, one for its size and one for its content. */
  private static final int MOST_REQUESTS = 320;

  /**
   * A rerun also looks at the footers of the tables that are there, and deletes them in the end.
   */
  private static final int MOST_REQUESTS_OF_A_RERUN = 460;

  private static final String CORPUS = "s3a://corpus/solos";
  private static final String STUDY = "s3a://studies/one";
  private static final List<String> HASTY =
      List.of(
          "fs.s3a.retry.interval=20ms",
          "fs.s3a.retry.throttle.interval=20ms",
          "fs.s3a.attempts.maximum=2");

  @TempDir private static Path temporary;
  private static Path solos;
  private static byte[] expected;
  private static byte[] expectedWithout;

  private StoreServer server;

  @BeforeAll
  static void studyTheSameSolosOnADisk() throws Exception {
    solos = Files.createDirectories(temporary.resolve("solos"));
    Path sample = ProgramRun.ROOT.resolve("sample-corpus/corpus");
    try (Stream<Path> files = Files.list(sample)) {
      for (Path score :
          files
              .filter(file -> file.toString().endsWith(".musicxml"))
              .sorted()
              .limit(SOLOS)
              .toList()) {
        Files.copy(score, solos.resolve(score.getFileName()));
      }
    }
    Files.copy(sample.resolve("solos.csv"), solos.resolve("solos.csv"));
    try (StoreServer unused = new StoreServer(new TransientApiMetadata())) {
      expected = onDisk(unused, "whole");
      Path first = scores().get(0);
      byte[] content = Files.readAllBytes(first);
      Files.delete(first);
      expectedWithout = onDisk(unused, "without");
      Files.write(first, content);
    }
    assertThat(expected).isNotEqualTo(expectedWithout);
  }

  private static byte[] onDisk(StoreServer server, String name) throws Exception {
    Path study = temporary.resolve(name);
    ProgramRun run =
        ProgramRun.of(temporary, server, "study", solos.toString(), "--into", study.toString());
    assertThat(run.exitCode()).as(run.err()).isZero();
    return Files.readAllBytes(study.resolve("manifest.json"));
  }

  private static List<Path> scores() throws IOException {
    try (Stream<Path> files = Files.list(solos)) {
      return files.filter(file -> file.toString().endsWith(".musicxml")).sorted().toList();
    }
  }

  @BeforeEach
  void startAServer() throws Exception {
    server = filled(new StoreServer(new TransientApiMetadata()));
  }

  private static StoreServer filled(StoreServer empty) throws IOException {
    empty.bucket("corpus");
    empty.bucket("studies");
    try (Stream<Path> files = Files.list(solos)) {
      for (Path file : files.toList()) {
        empty.put("corpus", "solos/" + file.getFileName(), Files.readAllBytes(file));
      }
    }
    return empty;
  }

  @AfterEach
  void stopIt() {
    server.close();
  }

  private ProgramRun study(String... further) throws Exception {
    return ended(List.of(), further);
  }

  private ProgramRun ended(List<String> settings, String... further) throws Exception {
    return start(settings, further).ended();
  }

  private ProgramRun.Started start(List<String> settings, String... further) throws IOException {
    String[] arguments =
        Stream.concat(Stream.of("study", CORPUS, "--into", STUDY), Stream.of(further))
            .toArray(String[]::new);
    return ProgramRun.start(temporary, server, settings, arguments);
  }

  private static void assertDone(ProgramRun run) {
    assertThat(run.exitCode()).as(run.out() + run.err()).isZero();
  }

  private static void assertRefused(ProgramRun run, String said) {
    assertThat(run.exitCode()).as(run.out() + run.err()).isEqualTo(3);
    assertThat(run.err()).contains(said).doesNotContain("Exception", "\tat ", "fault");
  }

  private static String pointer(StoreServer of) {
    return of.keys("studies", "one/").stream()
        .filter(key -> key.startsWith("one/current-"))
        .max(Comparator.naturalOrder())
        .orElseThrow();
  }

  private static byte[] manifest(StoreServer of) throws IOException {
    Matcher named =
        Pattern.compile("\"generation\" : \"([^\"]+)\"")
            .matcher(new String(of.get("studies", pointer(of)), StandardCharsets.UTF_8));
    assertThat(named.find()).isTrue();
    return of.get("studies", "one/" + named.group(1) + "/manifest.json");
  }

  /** Nothing but the mark of the study, a pointer, the tables and the pages. */
  private static void assertNothingElseIsLeft(StoreServer of) {
    Set<String> names = new TreeSet<>();
    of.keys("studies", "").forEach(key -> names.add(key.split("/")[1]));
    assertThat(names)
        .satisfiesExactly(
            name -> assertThat(name).isEqualTo(".phrase-census"),
            name -> assertThat(name).matches("current-\\d{8}\\.json"),
            name -> assertThat(name).startsWith("generation-"),
            name -> assertThat(name).startsWith("report-"));
  }

  @Test
  void aStudyIsTheOneOfADiskAndKeepsToItsBudget() throws Exception {
    server.count();
    ProgramRun first = study();
    List<StoreServer.Request> ofTheFirst = server.requests();

    assertDone(first);
    assertThat(manifest(server)).isEqualTo(expected);
    assertNothingElseIsLeft(server);

    server.count();
    ProgramRun again = study();
    List<StoreServer.Request> ofTheRerun = server.requests();

    assertDone(again);
    assertThat(again.out()).contains("taken over from it: " + SOLOS + " files");
    assertThat(manifest(server)).isEqualTo(expected);
    assertNothingElseIsLeft(server);

    server.store().removeBlob("corpus", "solos/" + scores().get(0).getFileName());
    ProgramRun changed = study();

    assertDone(changed);
    assertThat(changed.out()).contains("taken over from it: " + (SOLOS - 1) + " files");
    assertThat(manifest(server)).isEqualTo(expectedWithout);
    assertNothingElseIsLeft(server);

    byte[] content = Files.readAllBytes(scores().get(0));
    server.put("corpus", "solos/" + scores().get(1).getFileName(), content);
    ProgramRun replaced = study();
    assertDone(replaced);
    assertThat(replaced.out()).contains("taken over from it: " + (SOLOS - 2) + " files");

    System.out.printf(
        "Requests of %d solos: first run %d, rerun %d%n",
        SOLOS, ofTheFirst.size(), ofTheRerun.size());
    assertThat(ofTheFirst.size())
        .as(byKind(ofTheFirst))
        .isLessThanOrEqualTo(2 * SOLOS + MOST_REQUESTS);
    assertThat(ofTheRerun.size())
        .as(byKind(ofTheRerun))
        .isLessThanOrEqualTo(2 * SOLOS + MOST_REQUESTS_OF_A_RERUN);
  }

  /**
   * How often each kind of request was made: its method and its key, all that is random left out.
   */
  private static String byKind(List<StoreServer.Request> requests) {
    Map<String, Integer> counts = new TreeMap<>();
    for (StoreServer.Request request : requests) {
      counts.merge(request.kind(), 1, Integer::sum);
    }
    StringBuilder text = new StringBuilder();
    counts.forEach((kind, count) -> text.append(count).append(' ').append(kind).append('\n'));
    return text.toString();
  }

  @Test
  void anExportOfItIsThatOfADisk() throws Exception {
    assertDone(study());
    Path fromStore = temporary.resolve("export-of-store");
    Path fromDisk = temporary.resolve("export-of-disk");

    assertDone(ProgramRun.of(temporary, server, "export", STUDY, "--into", fromStore.toString()));
    assertDone(
        ProgramRun.of(
            temporary,
            server,
            "export",
            temporary.resolve("whole").toString(),
            "--into",
            fromDisk.toString()));

    try (Stream<Path> files = Files.walk(fromDisk)) {
      for (Path file : files.filter(each -> each.toString().endsWith(".csv")).toList()) {
        assertThat(fromStore.resolve(fromDisk.relativize(file).toString()))
            .hasSameBinaryContentAs(file);
      }
    }
  }

  @Test
  void afterKillsTheEarlierStudyStandsAndTheNextRunEndsWell() throws Exception {
    assertDone(study());
    server.count();
    assertDone(study("--fresh"));
    int all = server.requests().size();
    server.store().removeBlob("corpus", "solos/" + scores().get(0).getFileName());
    server.ageLocks(Duration.ofMinutes(2));
    int earlier = 0;
    for (int kill = 1; kill <= KILLS; kill++) {
      int moment = kill * all / (KILLS + 1);
      CountDownLatch reached = new CountDownLatch(1);
      server.count(
          request -> {
            if (request.number() == moment) {
              reached.countDown();
            }
            return 0;
          });
      ProgramRun.Started run = start(List.of(), "--fresh");
      assertThat(reached.await(5, TimeUnit.MINUTES)).isTrue();
      run.kill();
      run.ended();

      byte[] stands = manifest(server);
      assertThat(List.of(expected, expectedWithout)).anyMatch(one -> same(one, stands));
      earlier += same(expected, stands) ? 1 : 0;
    }
    System.out.printf("%d kills in %d requests: %d left the earlier study%n", KILLS, all, earlier);
    assertThat(earlier).isPositive();

    server.count();
    server.ageLocks(Duration.ZERO);
    start(List.of(), "--fresh").kill();
    assertDone(afterTheLease());

    assertThat(manifest(server)).isEqualTo(expectedWithout);
    assertNothingElseIsLeft(server);
  }

  private static boolean same(byte[] one, byte[] other) {
    return Arrays.equals(one, other);
  }

  /** The lock of a run that was killed just now refuses the next one for a minute, by the clock. */
  private ProgramRun afterTheLease() throws Exception {
    CountDownLatch reading = new CountDownLatch(1);
    server.count(
        request -> {
          if (request.key().startsWith("corpus/solos/")) {
            reading.countDown();
          }
          return 0;
        });
    server.ageLocks(Duration.ofMinutes(2));
    ProgramRun.Started killed = start(List.of(), "--fresh");
    assertThat(reading.await(5, TimeUnit.MINUTES)).isTrue();
    killed.kill();
    killed.ended();
    server.ageLocks(Duration.ZERO);
    long now = System.nanoTime();
    ProgramRun soon = study();
    if (System.nanoTime() - now < TimeUnit.SECONDS.toNanos(45)) {
      assertRefused(soon, "another run is working on it");
      Thread.sleep(61_000);
    }
    return study();
  }

  @Test
  void ofTwoRunsAtOnceOneIsRefused() throws Exception {
    CountDownLatch reading = new CountDownLatch(1);
    CountDownLatch refused = new CountDownLatch(1);
    server.count(
        request -> {
          if (request.key().startsWith("corpus/solos/") && reading.getCount() > 0) {
            reading.countDown();
            await(refused);
          }
          return 0;
        });
    ProgramRun.Started first = start(List.of());
    assertThat(reading.await(5, TimeUnit.MINUTES)).isTrue();
    ProgramRun second = study();
    refused.countDown();

    assertRefused(second, "another run is working on it");
    assertDone(first.ended());
    assertThat(manifest(server)).isEqualTo(expected);
    assertNothingElseIsLeft(server);
  }

  private static void await(CountDownLatch latch) {
    try {
      latch.await(5, TimeUnit.MINUTES);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Another run that passed the lock as well, and whose pointer comes just before that of ours. */
  private AtomicBoolean overtakeAtThePointer() throws IOException {
    byte[] pointer = server.get("studies", pointer(server));
    AtomicBoolean overtaken = new AtomicBoolean();
    server.count(
        request -> {
          if (request.method().equals("PUT")
              && request.key().startsWith("studies/one/current-")
              && !overtaken.getAndSet(true)) {
            server.put("studies", request.key().substring("studies/".length()), pointer);
          }
          return 0;
        });
    return overtaken;
  }

  @Test
  void aPointerIsOnlyEverCreatedWhereTheStoreCanDoThat() throws Exception {
    assertDone(study());
    AtomicBoolean overtaken = overtakeAtThePointer();

    ProgramRun run = study("--fresh");

    assertThat(overtaken).isTrue();
    assertRefused(run, "another run has changed the study meanwhile");
    assertThat(server.requests())
        .filteredOn(request -> request.key().startsWith("studies/one/current-"))
        .filteredOn(request -> request.method().equals("PUT"))
        .isNotEmpty()
        .allMatch(StoreServer.Request::conditional);
    assertThat(manifest(server)).isEqualTo(expected);
    server.count();
    assertDone(study());
    assertNothingElseIsLeft(server);
  }

  @Test
  void withoutConditionalWritesOneOfTwoRunsStandsWhole() throws Exception {
    List<String> unconditional = List.of("fs.s3a.create.conditional.enabled=false");
    server.count();
    assertDone(ended(unconditional));
    assertThat(server.requests()).noneMatch(StoreServer.Request::conditional);
    AtomicBoolean overtaken = overtakeAtThePointer();

    ended(unconditional, "--fresh");

    assertThat(overtaken).isTrue();
    assertThat(manifest(server)).isEqualTo(expected);
    server.count();
    assertDone(ended(unconditional));
    assertThat(manifest(server)).isEqualTo(expected);
    assertNothingElseIsLeft(server);
  }

  @Test
  void aServerThatAnswers500And503ForAWhileCostsNothingButTime() throws Exception {
    int[] refusals = new int[1];
    server.count(
        request -> {
          int answer = request.number() % 7 == 3 ? 503 : request.number() % 11 == 5 ? 500 : 0;
          synchronized (refusals) {
            refusals[0] += answer == 0 ? 0 : 1;
          }
          return answer;
        });
    ProgramRun run = ended(HASTY);

    assertDone(run);
    assertThat(run.out()).contains("rejected 0");
    assertThat(manifest(server)).isEqualTo(expected);
    server.count();
    assertDone(study());
    assertNothingElseIsLeft(server);
    System.out.printf("A study through %d answers of 500 and 503%n", refusals[0]);
    assertThat(refusals[0]).isGreaterThan(50);
  }

  @Test
  void aServerThatIsGoneForGoodLeavesTheEarlierStudy() throws Exception {
    assertDone(study());
    List<String> impatient =
        Stream.concat(
                HASTY.stream(), Stream.of("fs.s3a.retry.limit=2", "fs.s3a.retry.throttle.limit=2"))
            .toList();
    for (String place :
        List.of("corpus/solos/", "studies/one/generation-", "studies/one/report-")) {
      AtomicBoolean gone = new AtomicBoolean();
      server.count(
          request -> {
            if (request.method().matches("GET|PUT")
                && request.key().startsWith(place)
                && request.number() > 15) {
              gone.set(true);
            }
            return gone.get() ? 503 : 0;
          });
      server.ageLocks(Duration.ofMinutes(2));

      ProgramRun run = ended(impatient, "--fresh");

      assertThat(gone).isTrue();
      assertThat(run.exitCode()).as(place + run.err()).isEqualTo(3);
      assertThat(run.err()).doesNotContain("\tat ", "A fault of the program");
      assertThat(manifest(server)).isEqualTo(expected);
    }
    server.count();
    assertDone(study());
    assertNothingElseIsLeft(server);
  }

  /**
   * This backend keeps a mark of an empty folder as a folder, and then answers for its name without
   * the slash too, which S3 does not: only the marks have a slash there.
   */
  @Test
  void aStoreThatHasFoldersIsNoTrouble() throws Exception {
    try (StoreServer folders = filled(new StoreServer(new TransientNio2BlobApiMetadata()))) {
      folders.put("studies", "one/", new byte[0]);
      for (String toldOf : List.of("rejected 0", "taken over from it: " + SOLOS)) {
        folders.count();
        ProgramRun run = ProgramRun.of(temporary, folders, "study", CORPUS, "--into", STUDY);
        assertDone(run);
        assertThat(run.out()).contains(toldOf);
        assertThat(manifest(folders)).isEqualTo(expected);
        assertNothingElseIsLeft(folders);
      }
    }
  }
}
