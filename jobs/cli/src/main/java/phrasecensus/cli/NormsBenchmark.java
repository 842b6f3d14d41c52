package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;
import phrasecensus.music.norm.ClusterBootstrap;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.MetadataDefinition;

/**
 * How the time of norms, contrasts and comparison grows with the corpus: a corpus is copied under
 * other names, each copy with players of its own, so that players grow with solos, then read, and
 * only the step after reading is timed, in a fresh process as a user starts it.
 */
final class NormsBenchmark {
  private static final String PLAYER = "performer";

  private final PrintWriter out;
  private final List<Path> scores;
  private final List<byte[]> contents;
  private final Metadata metadata;
  private final BenchmarkCommand.Processes processes;

  /**
   * @param scores of the corpus
   * @param contents of the scores
   * @param table the corpus' metadata; null where it has none
   */
  NormsBenchmark(
      PrintWriter out,
      List<Path> scores,
      List<byte[]> contents,
      byte[] table,
      BenchmarkCommand.Processes processes) {
    this.out = out;
    this.scores = scores;
    this.contents = contents;
    this.processes = processes;
    this.metadata =
        table == null
            ? Metadata.NONE
            : Metadata.read(
                MetadataDefinition.USUAL_FILE,
                table,
                "",
                scores.stream().map(score -> score.getFileName().toString()).toList());
  }

  /**
   * One line for each size, with its time beside that of the size before.
   *
   * @param sizes numbers of solos, in the order in which they are to be measured
   * @param by columns that group the norms; may be empty
   * @param students folder of students; null for none
   */
  void run(List<Integer> sizes, List<String> by, Path students) throws IOException {
    double before = 0;
    int solosBefore = 0;
    for (int solos : sizes) {
      Path folder = Files.createTempDirectory("phrase-census-benchmark-norms");
      try {
        int players = write(folder.resolve("corpus"), solos);
        String study = folder.resolve("study").toString();
        List<String> read =
            new ArrayList<>(List.of("read", folder.resolve("corpus").toString(), "--into", study));
        if (students != null) {
          read.addAll(List.of("--students", students.toString()));
        }
        processes.seconds(read);
        List<String> norms = new ArrayList<>(List.of("norms", study));
        if (!by.isEmpty()) {
          norms.addAll(List.of("--by", String.join(",", by)));
        }
        double seconds = processes.seconds(norms);
        out.println(
            String.format(
                Locale.ROOT,
                "Norms, contrasts and comparison of %d solos by %d players, %d resamples, fresh"
                    + " process: %.1f s%s",
                solos,
                players,
                ClusterBootstrap.USUAL_REPLICATES,
                seconds,
                solosBefore == 0
                    ? ""
                    : String.format(
                        Locale.ROOT,
                        ", %.2f times that of %d solos",
                        seconds / before,
                        solosBefore)));
        out.flush();
        before = seconds;
        solosBefore = solos;
      } finally {
        BenchmarkCommand.delete(folder);
      }
    }
  }

  /** Writes so many solos and what is known of them; how many players they have. */
  private int write(Path folder, int solos) throws IOException {
    Files.createDirectory(folder);
    List<String> columns = metadata.columns();
    StringBuilder table = new StringBuilder("file");
    columns.forEach(column -> table.append(',').append(quoted(column)));
    TreeSet<String> players = new TreeSet<>();
    for (int i = 0; i < solos; i++) {
      String original = scores.get(i % scores.size()).getFileName().toString();
      String name = String.format(Locale.ROOT, "%06d-%s", i, original);
      Files.write(folder.resolve(name), contents.get(i % scores.size()));
      Map<String, String> row = metadata.of(original);
      int copy = i / scores.size() + 1;
      String player = row.getOrDefault(PLAYER, "") + (row.containsKey(PLAYER) ? " " + copy : "");
      players.add(player);
      table
          .append('\n')
          .append(quoted(name))
          .append(
              columns.stream()
                  .map(c -> "," + quoted(c.equals(PLAYER) ? player : row.getOrDefault(c, "")))
                  .collect(Collectors.joining()));
    }
    if (!columns.isEmpty()) {
      Files.writeString(folder.resolve(MetadataDefinition.USUAL_FILE), table.append('\n'));
    }
    players.remove("");
    return players.size();
  }

  private static String quoted(String cell) {
    return '"' + cell.replace("\"", "\"\"") + '"';
  }
}
