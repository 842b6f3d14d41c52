package phrasecensus.report.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.SoloBySolo;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.wording.Numbers;
import phrasecensus.tables.InputException;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.row.LandingKind;
import phrasecensus.tables.row.LandingsRow;
import phrasecensus.tables.row.NormsRow;
import phrasecensus.tables.row.PhraseStatisticsRow;
import phrasecensus.tables.row.PhrasesRow;
import phrasecensus.tables.row.Role;
import phrasecensus.tables.row.SolosRow;

/**
 * Chooses phrases of the corpus by a statistic: those nearest to the middle of the range that is
 * asked for, one a solo before a second one, ties by solo and place. The same tables and request
 * give the same phrases.
 */
public final class SheetChoice {
  private static final Map<String, Set<String>> CORPUS =
      Map.of(SolosRow.ROLE.name(), Set.of(Role.CORPUS.word()));
  private static final int FEWEST_NOTES = 3;

  private final TableSource tables;
  private final SheetRequest request;
  private final Numbers numbers = new Numbers(Locale.ENGLISH);
  private double low;
  private double high;
  private final Set<String> otherValues = new TreeSet<>();
  private boolean anySolo;
  private int fitting;

  /** The phrase with the value nearest to the middle, whether it fits or not; null without any. */
  private Found closest;

  /** What fits of the solos that come nearest, each in order. */
  private final TreeSet<List<Found>> nearest =
      new TreeSet<>(Comparator.comparing(ofSolo -> ofSolo.get(0), Found.ORDER));

  private SheetChoice(TableSource tables, SheetRequest request) {
    this.tables = tables;
    this.request = request;
  }

  /**
   * What was chosen.
   *
   * @param low least value asked for
   * @param high largest value asked for
   * @param fitting how many phrases fit
   */
  public record Chosen(List<SheetPhrase> phrases, double low, double high, int fitting) {
    public Chosen {
      phrases = List.copyOf(phrases);
    }
  }

  /**
   * Chooses.
   *
   * @throws InputException if nothing fits, saying how near the nearest comes
   */
  public static Chosen of(TableSource tables, SheetRequest request) {
    return new SheetChoice(tables, request).chosen();
  }

  /**
   * A phrase that may come on the sheet.
   *
   * @param distance of its value from the middle of the range
   */
  private record Found(
      String soloId, int phraseIndex, double value, double distance, String lastDegree) {
    static final Comparator<Found> ORDER =
        Comparator.comparingDouble(Found::distance)
            .thenComparing(Found::soloId)
            .thenComparing(Found::phraseIndex);
  }

  private Chosen chosen() {
    findRange();
    checkGroup();
    List<String> columns = new ArrayList<>(List.of(SolosRow.SOLO_ID.name()));
    if (!request.group().isEmpty()) {
      columns.add(request.group());
    }
    try (Stream<TableRow> solos = tables.stream(SolosRow.TABLE.name(), columns, CORPUS);
        SoloBySolo phrases =
            SoloBySolo.of(
                tables,
                PhrasesRow.TABLE,
                PhrasesRow.SOLO_ID,
                PhrasesRow.ROLE,
                List.of(
                    PhrasesRow.PHRASE_INDEX,
                    PhrasesRow.FIRST_NOTE_INDEX,
                    PhrasesRow.LAST_NOTE_INDEX));
        SoloBySolo landings =
            SoloBySolo.of(
                tables,
                LandingsRow.TABLE,
                LandingsRow.SOLO_ID,
                LandingsRow.ROLE,
                List.of(LandingsRow.PHRASE_INDEX, LandingsRow.CHORD_DEGREE),
                LandingsRow.LANDING_KIND.is(LandingKind.PHRASE_END));
        SoloBySolo values =
            SoloBySolo.of(
                tables,
                PhraseStatisticsRow.TABLE,
                PhraseStatisticsRow.SOLO_ID,
                PhraseStatisticsRow.ROLE,
                List.of(PhraseStatisticsRow.PHRASE_INDEX, PhraseStatisticsRow.VALUE),
                PhraseStatisticsRow.STATISTIC.is(request.statistic().key()))) {
      solos.forEach(
          solo -> {
            String soloId = solo.get(SolosRow.SOLO_ID);
            List<TableRow> ofPhrases = phrases.of(soloId);
            List<TableRow> ofLandings = landings.of(soloId);
            List<TableRow> ofValues = values.of(soloId);
            if (isInGroup(solo)) {
              look(soloId, notes(ofPhrases), lastDegrees(ofLandings), ofValues);
            }
          });
      phrases.end();
      landings.end();
      values.end();
    }
    if (!anySolo) {
      throw noSolo();
    }
    if (fitting == 0) {
      throw nothing();
    }
    List<Found> all = new ArrayList<>();
    nearest.forEach(all::addAll);
    all.sort(Found.ORDER);
    List<Found> chosen = oneASolo(all);
    Set<String> soloIds = new TreeSet<>();
    chosen.forEach(each -> soloIds.add(each.soloId()));
    Map<String, SoloFacts> facts = new HashMap<>();
    tables.tableRows(SolosRow.TABLE, SolosRow.SOLO_ID.isOneOf(soloIds)).stream()
        .map(SoloFacts::of)
        .forEach(solo -> facts.put(solo.soloId(), solo));
    return new Chosen(
        chosen.stream()
            .map(
                each ->
                    new SheetPhrase(
                        facts.get(each.soloId()),
                        each.phraseIndex(),
                        each.value(),
                        each.lastDegree()))
            .toList(),
        low,
        high,
        fitting);
  }

  /** Looks at the phrases of one solo. */
  private void look(
      String soloId,
      Map<Integer, Integer> notes,
      Map<Integer, String> lastDegrees,
      List<TableRow> values) {
    double middle = (low + high) / 2;
    List<Found> own = new ArrayList<>();
    for (TableRow row : values) {
      int phrase = row.get(PhraseStatisticsRow.PHRASE_INDEX);
      if (row.get(PhraseStatisticsRow.VALUE) != null
          && notes.getOrDefault(phrase, 0) >= FEWEST_NOTES
          && (request.lastNote().isEmpty()
              || request.lastNote().contains(lastDegrees.getOrDefault(phrase, "")))) {
        double value = row.get(PhraseStatisticsRow.VALUE);
        Found found =
            new Found(soloId, phrase, value, Math.abs(value - middle), lastDegrees.get(phrase));
        if (closest == null || found.distance() < closest.distance()) {
          closest = found;
        }
        if (value >= low - 1e-9 && value <= high + 1e-9) {
          own.add(found);
        }
      }
    }
    fitting += own.size();
    if (!own.isEmpty()) {
      // A sheet of n phrases can hold n of one solo, and phrases of n solos: no others matter.
      own.sort(Found.ORDER);
      nearest.add(new ArrayList<>(own.subList(0, Math.min(own.size(), request.count()))));
      if (nearest.size() > request.count()) {
        nearest.pollLast();
      }
    }
  }

  private void findRange() {
    low = request.from() == null ? Double.NEGATIVE_INFINITY : request.from();
    high = request.to() == null ? Double.POSITIVE_INFINITY : request.to();
    if (request.from() != null && request.to() != null) {
      if (low > high) {
        throw new InputException("Cannot choose phrases: --from is larger than --to.");
      }
      return;
    }
    CorpusNorm norm =
        tables.rows(NormsRow.TABLE).stream()
            .map(CorpusNorm::of)
            .filter(each -> each.statistic().equals(request.statistic().key()))
            .filter(each -> each.group().equals(Group.ALL))
            .findFirst()
            .orElse(null);
    if (norm == null || !norm.hasBand()) {
      throw new InputException(
          "Cannot choose phrases: the corpus has no norm of "
              + request.statistic().name()
              + ". Give both --from and --to.");
    }
    if (request.from() == null) {
      low = request.to() == null ? norm.p25() : Math.min(high, norm.p25());
    }
    if (request.to() == null) {
      high = Math.max(low, norm.p75());
    }
  }

  private void checkGroup() {
    boolean column =
        request.group().isEmpty()
            || tables.first(SolosRow.TABLE.name(), 1).stream()
                .flatMap(solo -> solo.schema().columns().stream())
                .anyMatch(
                    each -> each.name().equals(request.group()) && MetadataColumns.isInWords(each));
    if (!column) {
      throw new InputException(
          "Cannot choose phrases: the solos have no column " + request.group() + ".");
    }
  }

  private boolean isInGroup(TableRow solo) {
    if (!request.group().isEmpty()) {
      String words = solo.words(request.group());
      String value = words == null ? "" : words;
      if (!request.groupValue().equals(value)) {
        otherValues.add(value);
        return false;
      }
    }
    anySolo = true;
    return true;
  }

  private InputException noSolo() {
    return new InputException(
        "Cannot choose phrases: no solo has the "
            + request.group()
            + " "
            + request.groupValue()
            + ". There is: "
            + String.join(", ", otherValues)
            + ".");
  }

  private static Map<Integer, Integer> notes(List<TableRow> phrases) {
    Map<Integer, Integer> notes = new HashMap<>();
    for (TableRow row : phrases) {
      notes.put(
          row.get(PhrasesRow.PHRASE_INDEX),
          row.get(PhrasesRow.LAST_NOTE_INDEX) - row.get(PhrasesRow.FIRST_NOTE_INDEX) + 1);
    }
    return notes;
  }

  /** Degrees of the last notes of phrases, as far as there is one. */
  private static Map<Integer, String> lastDegrees(List<TableRow> landings) {
    Map<Integer, String> degrees = new HashMap<>();
    for (TableRow row : landings) {
      if (row.get(LandingsRow.CHORD_DEGREE) != null) {
        degrees.put(row.get(LandingsRow.PHRASE_INDEX), row.get(LandingsRow.CHORD_DEGREE));
      }
    }
    return degrees;
  }

  private List<Found> oneASolo(List<Found> fitting) {
    List<Found> chosen = new ArrayList<>();
    List<Found> left = new ArrayList<>(fitting);
    while (chosen.size() < request.count() && !left.isEmpty()) {
      Set<String> solos = new HashSet<>();
      List<Found> later = new ArrayList<>();
      for (Found each : left) {
        if (chosen.size() < request.count() && solos.add(each.soloId())) {
          chosen.add(each);
        } else {
          later.add(each);
        }
      }
      left = later;
    }
    return chosen;
  }

  private InputException nothing() {
    String ending =
        request.lastNote().isEmpty()
            ? ""
            : " and ends on " + String.join(" or ", request.lastNote());
    String nearest =
        Optional.ofNullable(closest)
            .map(
                each ->
                    " The nearest is "
                        + numbers.withUnit(request.statistic(), each.value())
                        + ". Give other bounds with --from and --to.")
            .orElse(
                request.lastNote().isEmpty()
                    ? " None has a value of it. Choose another statistic."
                    : " None ends so. Choose another --last-note, as in 3 or b7.");
    return new InputException(
        "No phrase of the corpus has "
            + request.statistic().name()
            + " from "
            + numbers.range(request.statistic(), low, high)
            + ending
            + "."
            + nearest);
  }
}
