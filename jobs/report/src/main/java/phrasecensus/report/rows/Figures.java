package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.row.FigurePlacesRow;
import phrasecensus.tables.row.FiguresRow;
import phrasecensus.tables.row.Role;

/**
 * The recurring figures of a study. Places are taken as they pass by; held are only those that a
 * page lists.
 */
public final class Figures {
  /** Corpus solos of a figure that are listed; the table has all. */
  public static final int MOST_SOLOS = 40;

  /** Places in a solo that are listed. */
  public static final int MOST_PLACES = 8;

  /** No figures at all. */
  static final Figures NONE = new Figures(new LinkedHashMap<>());

  private final Map<Key, List<Figure>> figures;

  private Figures(Map<Key, List<Figure>> figures) {
    this.figures = figures;
  }

  /** Whose figures. */
  private record Key(Role owner, String student) {}

  /** The solos of one figure, while its places come. */
  private static final class Found {
    private final FiguresRow row;
    private final Map<String, Solo> ofStudent = new LinkedHashMap<>();
    private final Map<String, Solo> ofCorpus = new LinkedHashMap<>();

    Found(FiguresRow row) {
      this.row = row;
    }

    void add(Role role, String soloId, int note, String bar) {
      Map<String, Solo> solos = role == Role.CORPUS ? ofCorpus : ofStudent;
      if (role == Role.STUDENT || solos.size() < MOST_SOLOS || solos.containsKey(soloId)) {
        solos.computeIfAbsent(soloId, id -> new Solo(note)).add(bar);
      }
    }

    Figure figure() {
      return new Figure(row, inSolos(ofStudent), inSolos(ofCorpus));
    }

    private static List<Figure.InSolo> inSolos(Map<String, Solo> solos) {
      List<Figure.InSolo> all = new ArrayList<>();
      solos.forEach(
          (id, solo) -> all.add(new Figure.InSolo(id, solo.places, solo.firstNote, solo.bars)));
      return all;
    }
  }

  private static final class Solo {
    private final int firstNote;
    private final List<String> bars = new ArrayList<>();
    private int places;

    Solo(int firstNote) {
      this.firstNote = firstNote;
    }

    void add(String bar) {
      places++;
      if (bars.size() < MOST_PLACES) {
        bars.add(bar);
      }
    }
  }

  static Figures of(TableSource tables) {
    Map<Key, Map<Integer, Found>> found = new LinkedHashMap<>();
    for (FiguresRow row : tables.rows(FiguresRow.TABLE)) {
      found
          .computeIfAbsent(new Key(row.owner(), row.student()), any -> new TreeMap<>())
          .put(row.place(), new Found(row));
    }
    try (Stream<TableRow> rows =
        tables.stream(
            FigurePlacesRow.TABLE,
            List.of(
                FigurePlacesRow.OWNER,
                FigurePlacesRow.STUDENT,
                FigurePlacesRow.PLACE,
                FigurePlacesRow.SOLO_ID,
                FigurePlacesRow.ROLE,
                FigurePlacesRow.NOTE_INDEX,
                FigurePlacesRow.BAR_NUMBER))) {
      rows.forEach(
          row ->
              found
                  .get(new Key(row.get(FigurePlacesRow.OWNER), row.get(FigurePlacesRow.STUDENT)))
                  .get(row.get(FigurePlacesRow.PLACE))
                  .add(
                      row.get(FigurePlacesRow.ROLE),
                      row.get(FigurePlacesRow.SOLO_ID),
                      row.get(FigurePlacesRow.NOTE_INDEX),
                      row.get(FigurePlacesRow.BAR_NUMBER)));
    }
    Map<Key, List<Figure>> figures = new LinkedHashMap<>();
    found.forEach((key, of) -> figures.put(key, of.values().stream().map(Found::figure).toList()));
    return new Figures(figures);
  }

  /** What the solos of the corpus share, that in most solos first. */
  public List<Figure> ofCorpus() {
    return figures.getOrDefault(new Key(Role.CORPUS, ""), List.of());
  }

  /** What a student comes back to, that which takes up most notes first. */
  public List<Figure> ofStudent(String name) {
    return figures.getOrDefault(new Key(Role.STUDENT, name), List.of());
  }
}
