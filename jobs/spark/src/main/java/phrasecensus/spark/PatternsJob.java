package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.hadoop.fs.Path;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.Function;
import org.apache.spark.api.java.function.PairFlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.comparison.CorpusGroup;
import phrasecensus.music.pattern.FigureChoice;
import phrasecensus.music.pattern.PackedPattern;
import phrasecensus.music.pattern.SoloPatterns;
import phrasecensus.store.Durable;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;
import scala.Tuple2;

/**
 * Builds the tables {@code solo_patterns}, {@code patterns} and {@code pattern_recurrence} from
 * those of reading. What solos repeat is found and written part by part. For the groups equal
 * patterns of all solos meet in one task; counts and the first few patterns of each group come to
 * the driver, never the patterns of the corpus.
 */
final class PatternsJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Patterns that a solo shows of each length, with and without rhythm. */
  static final int MOST_OF_SOLO = 3;

  /** Patterns that a group shows of each length, with and without rhythm. */
  static final int MOST_OF_GROUP = 10;

  /**
   * Figures of each length among which those that are shown are chosen: some are left out for what
   * longer ones hold.
   */
  private static final int MOST_CANDIDATES = 60;

  /** So that what a task sorts at once stays at some tens of megabytes. */
  private static final long NOTES_A_TASK = 100_000;

  private static final int LEAST_TASKS = 4;

  private final ArrayList<Grouping> by;
  private final String tables;

  /**
   * @param by what groups the solos, beside the whole corpus, by columns of table solos
   * @param tables folder in which the parts of {@code solo_patterns} are written
   */
  PatternsJob(List<Grouping> by, String tables) {
    this.by = new ArrayList<>(by);
    this.tables = tables;
  }

  /**
   * What was found.
   *
   * @param ofSolos what was written into {@code solo_patterns}, by name of the file
   * @param rows the other tables' rows, without order
   * @param shared figures that the solos of the corpus share, as they are shown
   */
  record Result(
      Map<String, TableFile.Stored> ofSolos,
      Map<String, List<TableRow>> rows,
      List<FigureChoice.Candidate> shared) {}

  /**
   * @param parts of the tables of reading
   * @param notes in all of them, to choose how many tasks share them
   */
  Result run(TableParts parts, long notes) {
    Broadcast<PatternsJob> job = parts.broadcast(this);
    Function<TableParts.Part, PartFigures> ofSolos = part -> job.value().writeSolos(part);
    Map<String, TableFile.Stored> written = new TreeMap<>();
    Map<GroupKind, long[]> totals = new TreeMap<>();
    for (PartFigures each : parts.all().map(ofSolos).collect()) {
      written.put(each.name(), each.stored());
      each.totals().forEach((kind, total) -> totals.merge(kind, total, PatternsJob::sum));
    }
    int tasks = (int) Math.max(LEAST_TASKS, notes / NOTES_A_TASK);
    PairFlatMapFunction<TableParts.Part, Integer, PatternShare> shares =
        part -> job.value().shares(part, tasks);
    FlatMapFunction<Iterator<Tuple2<Integer, PatternShare>>, Found> meet =
        met -> job.value().meet(met).iterator();
    Map<GroupKind, Found> found = new TreeMap<>();
    for (Found each :
        parts
            .of(InputFile.CORPUS)
            .flatMapToPair(shares)
            .partitionBy(new HashPartitioner(tasks))
            .mapPartitions(meet)
            .collect()) {
      found.merge(each.kind(), each, Found::plus);
    }
    job.destroy();
    List<TableRow> recurrence = new ArrayList<>();
    List<TableRow> patterns = new ArrayList<>();
    List<FigureChoice.Candidate> candidates = new ArrayList<>();
    found.values().forEach(of -> candidates.addAll(of.candidates.inOrder()));
    totals.forEach(
        (kind, total) -> {
          Found of = found.getOrDefault(kind, new Found(kind));
          recurrence.add(of.recurrence(total));
          patterns.addAll(of.patterns());
        });
    return new Result(
        written,
        Map.of("patterns", patterns, "pattern_recurrence", recurrence),
        FigureChoice.shared(candidates));
  }

  /**
   * One group, length and way of counting.
   *
   * @param rhythm true when rhythm counts
   */
  private record GroupKind(String by, String value, int length, boolean rhythm)
      implements Serializable, Comparable<GroupKind> {
    private static final Comparator<GroupKind> ORDER =
        Comparator.comparing(GroupKind::by)
            .thenComparing(GroupKind::value)
            .thenComparing(GroupKind::length)
            .thenComparing(GroupKind::rhythm);

    @Override
    public int compareTo(GroupKind other) {
      return ORDER.compare(this, other);
    }

    TableRow.Builder row(String table) {
      return TableRow.of(TableSchemas.named(table))
          .set("group_by", by)
          .set("group_value", value)
          .set("length", length)
          .set("rhythm", rhythm);
    }
  }

  /** A pattern of a group, with its first place. */
  private record Shown(
      long intervals, long gapRatios, int solos, int windows, String soloId, int note, String bar)
      implements Serializable {
    static final Comparator<Shown> ORDER =
        Comparator.comparingInt(Shown::solos)
            .thenComparingInt(Shown::windows)
            .reversed()
            .thenComparing(Shown::pattern);

    PackedPattern pattern() {
      return new PackedPattern(intervals, gapRatios);
    }
  }

  /** Counts and first patterns of a group, from some of the patterns or all. */
  private static final class Found implements Serializable {
    private static final long serialVersionUID = 1L;

    private final GroupKind kind;
    private final long[] counts = new long[6];
    private final ArrayList<Shown> shown = new ArrayList<>();
    private final Nearest<FigureChoice.Candidate> candidates =
        new Nearest<>(MOST_CANDIDATES, FigureChoice.COMMONEST);

    Found(GroupKind kind) {
      this.kind = kind;
    }

    GroupKind kind() {
      return kind;
    }

    /** Takes a pattern with all the solos of the group that hold it, in order of solo_id. */
    void add(PackedPattern pattern, List<PatternShare.Line> lines) {
      int windows = 0;
      int repeated = 0;
      for (PatternShare.Line line : lines) {
        windows += line.count();
        repeated += line.count() > 1 ? line.count() : 0;
      }
      boolean varied = !pattern.isRunOrRepetition();
      int solos = lines.size();
      count(0, windows > 1 ? windows : 0, varied);
      count(1, repeated, varied);
      count(2, solos > 1 ? windows : 0, varied);
      if (kind.by().equals(CorpusGroup.ALL) && solos > 1 && FigureChoice.isEligible(pattern)) {
        candidates.add(new FigureChoice.Candidate(pattern, solos, windows));
      }
      if (varied && solos > 1) {
        PatternShare.Line first = lines.get(0);
        show(
            new Shown(
                pattern.intervals(),
                pattern.gapRatios(),
                solos,
                windows,
                first.solo().soloId(),
                first.firstNote(),
                first.bar()));
      }
    }

    private void count(int figure, int windows, boolean varied) {
      counts[figure] += windows;
      counts[3 + figure] += varied ? windows : 0;
    }

    private void show(Shown candidate) {
      int place = shown.size();
      while (place > 0 && Shown.ORDER.compare(candidate, shown.get(place - 1)) < 0) {
        place--;
      }
      if (place < MOST_OF_GROUP) {
        shown.add(place, candidate);
        if (shown.size() > MOST_OF_GROUP) {
          shown.remove(MOST_OF_GROUP);
        }
      }
    }

    Found plus(Found other) {
      for (int i = 0; i < counts.length; i++) {
        counts[i] += other.counts[i];
      }
      other.shown.forEach(this::show);
      other.candidates.inOrder().forEach(candidates::add);
      return this;
    }

    /**
     * @param total solos, windows, and windows without runs and repetitions
     */
    TableRow recurrence(long[] total) {
      return kind.row("pattern_recurrence")
          .set("solos", (int) total[0])
          .set("windows", total[1])
          .set("recurring", counts[0])
          .set("repeated", counts[1])
          .set("shared", counts[2])
          .set("windows_varied", total[2])
          .set("recurring_varied", counts[3])
          .set("repeated_varied", counts[4])
          .set("shared_varied", counts[5])
          .build();
    }

    List<TableRow> patterns() {
      List<TableRow> rows = new ArrayList<>();
      for (Shown each : shown) {
        rows.add(
            kind.row("patterns")
                .set("place", rows.size() + 1)
                .set("pattern", each.pattern().unpacked().text())
                .set("solos", each.solos())
                .set("windows", each.windows())
                .set("example_solo_id", each.soloId())
                .set("example_note_index", each.note())
                .set("example_bar_number", each.bar())
                .build());
      }
      return rows;
    }
  }

  /** A solo of a part with its patterns and the bars of its notes. */
  private record SoloOfPart(String soloId, SoloPatterns patterns, List<String> bars) {}

  /** The solos of a part, in its order. */
  private static List<SoloOfPart> solos(TableParts.Part part) throws IOException {
    List<SoloOfPart> solos = new ArrayList<>();
    try (PhraseScan scan = PhraseScan.open(part)) {
      SoloOfPart solo = null;
      for (PhraseScan.Phrase phrase = scan.next(); phrase != null; phrase = scan.next()) {
        if (solo == null || !solo.soloId().equals(phrase.soloId())) {
          solo = new SoloOfPart(phrase.soloId(), new SoloPatterns(), new ArrayList<>());
          solos.add(solo);
        }
        solo.patterns().add(phrase.midi(), phrase.onsets(), phrase.firstNote());
        solo.bars().addAll(phrase.bars());
      }
    }
    return solos;
  }

  /**
   * What a part holds.
   *
   * @param name of its file
   * @param totals solos, windows, and windows without runs and repetitions of each group
   */
  private record PartFigures(
      String name, TableFile.Stored stored, TreeMap<GroupKind, long[]> totals)
      implements Serializable {}

  private static long[] sum(long[] one, long[] two) {
    return new long[] {one[0] + two[0], one[1] + two[1], one[2] + two[2]};
  }

  private PartFigures writeSolos(TableParts.Part part) throws IOException {
    Map<String, ArrayList<String>> groups = groups(part);
    TreeMap<GroupKind, long[]> totals = new TreeMap<>();
    Path file = new Path(tables + "/solo_patterns", part.name());
    try (TableFile into =
        TableFile.create(
            file, TableSchemas.named("solo_patterns"), part.configuration().value().value())) {
      for (SoloOfPart solo : solos(part)) {
        for (TableRow row : rows(part.role(), solo)) {
          into.write(row);
        }
        if (part.role().equals(InputFile.CORPUS)) {
          addWindows(totals, CorpusGroup.ALL, CorpusGroup.ALL, solo.patterns());
          for (int column = 0; column < by.size(); column++) {
            addWindows(
                totals,
                by.get(column).name(),
                groups.get(solo.soloId()).get(column),
                solo.patterns());
          }
        }
      }
      TableFile.Stored stored = into.stored();
      Durable.force(file.getFileSystem(part.configuration().value().value()), List.of(file));
      return new PartFigures(part.name(), stored, totals);
    }
  }

  private static List<TableRow> rows(String role, SoloOfPart solo) {
    Map<Integer, Nearest<Map.Entry<PackedPattern, SoloPatterns.Occurrences>>> first =
        new TreeMap<>();
    Map<Integer, Integer> recurring = new HashMap<>();
    for (Map.Entry<PackedPattern, SoloPatterns.Occurrences> each :
        solo.patterns().occurrences().entrySet()) {
      PackedPattern pattern = each.getKey();
      if (each.getValue().count() > 1) {
        int kind = 2 * pattern.length() + (pattern.hasRhythm() ? 1 : 0);
        recurring.merge(kind, each.getValue().count(), Integer::sum);
        if (!pattern.isRunOrRepetition()) {
          first.computeIfAbsent(kind, of -> mostFrequent()).add(each);
        }
      }
    }
    List<TableRow> rows = new ArrayList<>();
    first.forEach(
        (kind, patterns) -> {
          int place = 0;
          for (Map.Entry<PackedPattern, SoloPatterns.Occurrences> each : patterns.inOrder()) {
            rows.add(
                TableRow.of(TableSchemas.named("solo_patterns"))
                    .set("solo_id", solo.soloId())
                    .set("role", role)
                    .set("file", solo.soloId().substring(role.length() + 1))
                    .set("length", kind / 2)
                    .set("rhythm", kind % 2 == 1)
                    .set("place", ++place)
                    .set("pattern", each.getKey().unpacked().text())
                    .set("windows", each.getValue().count())
                    .set("first_note_index", each.getValue().firstNote())
                    .set("first_bar_number", solo.bars().get(each.getValue().firstNote()))
                    .set("all_windows", solo.patterns().windows(kind / 2, false))
                    .set("recurring_windows", recurring.get(kind))
                    .build());
          }
        });
    return rows;
  }

  private static Nearest<Map.Entry<PackedPattern, SoloPatterns.Occurrences>> mostFrequent() {
    return new Nearest<>(
        MOST_OF_SOLO,
        Comparator.comparingInt(
                (Map.Entry<PackedPattern, SoloPatterns.Occurrences> each) ->
                    -each.getValue().count())
            .thenComparing(each -> each.getValue().firstNote()));
  }

  /** The groups of each solo of a part, in the order of {@link #by}. */
  private Map<String, ArrayList<String>> groups(TableParts.Part part) throws IOException {
    Map<String, ArrayList<String>> groups = new LinkedHashMap<>();
    try (GroupScan scan = GroupScan.open(part, by, "solo_id")) {
      for (GroupScan.Solo solo = scan.next(); solo != null; solo = scan.next()) {
        groups.put(solo.text(0), solo.groups());
      }
    }
    return groups;
  }

  private Iterator<Tuple2<Integer, PatternShare>> shares(TableParts.Part part, int tasks)
      throws IOException {
    Map<String, ArrayList<String>> groups = groups(part);
    PatternShare[] shares = new PatternShare[tasks];
    Arrays.setAll(shares, task -> new PatternShare());
    for (SoloOfPart each : solos(part)) {
      PatternShare.Solo solo = new PatternShare.Solo(each.soloId(), groups.get(each.soloId()));
      for (PatternShare share : shares) {
        share.begin(solo);
      }
      each.patterns()
          .occurrences()
          .forEach(
              (pattern, found) ->
                  shares[Math.floorMod(pattern.hashCode(), tasks)].add(
                      pattern,
                      found.count(),
                      found.firstNote(),
                      each.bars().get(found.firstNote())));
    }
    List<Tuple2<Integer, PatternShare>> numbered = new ArrayList<>();
    for (int i = 0; i < tasks; i++) {
      numbered.add(new Tuple2<>(i, shares[i]));
    }
    return numbered.iterator();
  }

  /** One line of one share. */
  private record At(PatternShare share, int line) {
    static final Comparator<At> ORDER =
        ((Comparator<At>) At::comparePatterns)
            .thenComparing(at -> at.share().solo(at.line()).soloId());

    int comparePatterns(At other) {
      return share.comparePatterns(line, other.share, other.line);
    }
  }

  private List<Found> meet(Iterator<Tuple2<Integer, PatternShare>> met) {
    List<At> lines = new ArrayList<>();
    met.forEachRemaining(
        each -> {
          for (int line = 0; line < each._2().size(); line++) {
            lines.add(new At(each._2(), line));
          }
        });
    lines.sort(At.ORDER);
    Map<GroupKind, Found> found = new TreeMap<>();
    for (int start = 0, end; start < lines.size(); start = end) {
      end = start + 1;
      while (end < lines.size() && lines.get(end).comparePatterns(lines.get(start)) == 0) {
        end++;
      }
      List<PatternShare.Line> same = new ArrayList<>();
      for (At at : lines.subList(start, end)) {
        same.add(at.share().line(at.line()));
      }
      add(found, CorpusGroup.ALL, CorpusGroup.ALL, same);
      for (int column = 0; column < by.size(); column++) {
        Map<String, List<PatternShare.Line>> byValue = new TreeMap<>();
        for (PatternShare.Line line : same) {
          byValue
              .computeIfAbsent(line.solo().groups().get(column), value -> new ArrayList<>())
              .add(line);
        }
        String name = by.get(column).name();
        byValue.forEach((value, ofValue) -> add(found, name, value, ofValue));
      }
    }
    return List.copyOf(found.values());
  }

  private static void add(
      Map<GroupKind, Found> found, String by, String value, List<PatternShare.Line> lines) {
    PackedPattern pattern = lines.get(0).pattern();
    found
        .computeIfAbsent(
            new GroupKind(by, value, pattern.length(), pattern.hasRhythm()), Found::new)
        .add(pattern, lines);
  }

  private static void addWindows(
      Map<GroupKind, long[]> totals, String by, String value, SoloPatterns patterns) {
    for (int length = SoloPatterns.SHORTEST; length <= PackedPattern.LONGEST; length++) {
      for (boolean rhythm : new boolean[] {false, true}) {
        long[] total =
            totals.computeIfAbsent(new GroupKind(by, value, length, rhythm), kind -> new long[3]);
        total[0]++;
        total[1] += patterns.windows(length, false);
        total[2] += patterns.windows(length, true);
      }
    }
  }
}
