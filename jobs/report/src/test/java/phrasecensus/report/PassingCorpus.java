package phrasecensus.report;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.TableSource;

/**
 * An invented study whose corpus is there many times over, each copy of a solo under a name of its
 * own. A row of it is made when it is asked for, and the source does not hold it: it knows how many
 * of them others still hold.
 */
final class PassingCorpus implements TableSource {
  private static final String ROLE = "role";
  private static final String CORPUS = "corpus";
  private static final Set<String> NAMES = Set.of("solo_id", "file");

  private final RowsInMemory study;
  private final int copies;
  private final List<WeakReference<String>> names = new ArrayList<>();
  private final Map<String, Integer> passed = new TreeMap<>();
  private int mostHeld;

  PassingCorpus(RowsInMemory study, int copies) {
    this.study = study;
    this.copies = copies;
  }

  /** Rows of the corpus that went by in streams over all solos of a table, in all together. */
  int passed(String table) {
    return passed.getOrDefault(table, 0);
  }

  /** The most corpus rows of a stream that somebody held when the stream was at its end. */
  int mostHeld() {
    return mostHeld;
  }

  /** Names of corpus solos and files, one a row that was made, that somebody holds now. */
  long namesHeld() {
    return held(names);
  }

  @Override
  public List<TableRow> rows(String table, Map<String, String> equal) {
    boolean ofCorpus = !equal.getOrDefault(ROLE, CORPUS).equals("student");
    if (TableSchemas.OF_READING.contains(table) && ofCorpus) {
      throw new AssertionError("Every corpus row of " + table + " is asked for at once");
    }
    return study.rows(table, equal);
  }

  @Override
  public List<TableRow> rows(String table, String column, Set<String> texts) {
    return everyRow(table, Map.of(column, texts)).toList();
  }

  @Override
  public List<TableRow> first(String table, int most) {
    return everyRow(table, Map.of()).limit(most).toList();
  }

  @Override
  public Stream<TableRow> stream(
      String table, List<String> columns, Map<String, Set<String>> among) {
    List<WeakReference<TableRow>> ofStream = new ArrayList<>();
    return everyRow(table, among)
        .peek(
            row -> {
              if (CORPUS.equals(row.text(ROLE))) {
                ofStream.add(new WeakReference<>(row));
                // What is looked up for single solos is no pass over the corpus.
                passed.merge(table, among.containsKey("solo_id") ? 0 : 1, Integer::sum);
              }
            })
        .onClose(() -> mostHeld = Math.max(mostHeld, (int) held(ofStream)));
  }

  private static long held(List<? extends WeakReference<?>> references) {
    System.gc();
    return references.stream().filter(reference -> reference.get() != null).count();
  }

  private Stream<TableRow> everyRow(String table, Map<String, Set<String>> among) {
    List<TableRow> corpus = study.rows(table, Map.of(ROLE, CORPUS));
    return Stream.concat(
        IntStream.range(0, copies * corpus.size())
            .filter(i -> isAmong(corpus.get(i % corpus.size()), i / corpus.size(), among))
            .mapToObj(i -> copy(corpus.get(i % corpus.size()), i / corpus.size())),
        study.rows(table, Map.of(ROLE, "student")).stream().filter(row -> isAmong(row, 0, among)));
  }

  private static boolean isAmong(TableRow row, int number, Map<String, Set<String>> among) {
    return among.entrySet().stream()
        .allMatch(
            one ->
                one.getValue()
                    .contains(
                        NAMES.contains(one.getKey())
                            ? name(row.text(one.getKey()), number)
                            : row.text(one.getKey())));
  }

  private TableRow copy(TableRow row, int number) {
    TableRow.Builder copy = TableRow.copyOf(row);
    for (String column : NAMES) {
      if (row.schema().has(column) && !row.isMissing(column)) {
        // Never the study's own text, which is held by the study.
        String name = new String(name(row.text(column), number));
        names.add(new WeakReference<>(name));
        copy.set(column, name);
      }
    }
    return copy.build();
  }

  /** The first copy has the names of the study, so that its other tables speak of it. */
  private static String name(String own, int number) {
    return own == null || number == 0 ? own : own + "~" + number;
  }
}
