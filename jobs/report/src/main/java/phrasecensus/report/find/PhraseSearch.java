package phrasecensus.report.find;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import phrasecensus.report.rows.SoloBySolo;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.tables.Column;
import phrasecensus.tables.InputException;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.PhraseCondition;
import phrasecensus.tables.PhraseQuery;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.TypedColumn;
import phrasecensus.tables.row.LandingKind;
import phrasecensus.tables.row.LandingsRow;
import phrasecensus.tables.row.PhraseContextsRow;
import phrasecensus.tables.row.PhraseStatisticsRow;
import phrasecensus.tables.row.PhrasesRow;
import phrasecensus.tables.row.Role;
import phrasecensus.tables.row.SolosRow;

/**
 * Looks through the corpus of a finished study for phrases, solo by solo: no more than one solo's
 * rows are held beside what was found. The same tables and query give the same phrases.
 */
public final class PhraseSearch {
  private static final Map<String, Set<String>> CORPUS =
      Map.of(SolosRow.ROLE.name(), Set.of(Role.CORPUS.word()));

  /** Statistics stand in tables as they were computed: a bound of two decimals must meet them. */
  private static final double TOLERANCE = 1e-9;

  private final TableSource tables;
  private final PhraseQuery query;
  private final List<Tally> tallies = new ArrayList<>();
  private final List<FoundPhrase> found = new ArrayList<>();
  private int all;

  private PhraseSearch(TableSource tables, PhraseQuery query) {
    this.tables = tables;
    this.query = query;
    for (PhraseCondition condition : query.conditions()) {
      tallies.add(new Tally(condition));
    }
  }

  /**
   * What was found.
   *
   * @param phrases in the order of solos, then of phrases
   * @param all phrases of the corpus
   */
  public record Result(List<FoundPhrase> phrases, int all) {
    public Result {
      phrases = List.copyOf(phrases);
    }

    /**
     * Some of them for people: one of a solo before a second one, solos in an order that follows
     * from their names alone and has nothing to do with the alphabet.
     */
    public List<FoundPhrase> some(int most) {
      List<FoundPhrase> left = new ArrayList<>(phrases);
      left.sort(
          Comparator.comparingInt((FoundPhrase each) -> each.soloId().hashCode() * 0x9E3779B1)
              .thenComparing(FoundPhrase::soloId)
              .thenComparing(FoundPhrase::phraseIndex));
      List<FoundPhrase> chosen = new ArrayList<>();
      while (chosen.size() < most && !left.isEmpty()) {
        Set<String> solos = new HashSet<>();
        List<FoundPhrase> later = new ArrayList<>();
        for (FoundPhrase each : left) {
          if (chosen.size() < most && solos.add(each.soloId())) {
            chosen.add(each);
          } else {
            later.add(each);
          }
        }
        left = later;
      }
      return chosen;
    }
  }

  /**
   * How a phrase stands to a condition.
   *
   * @param distance how far it is from having it, 0 or more; infinite where there is no value
   * @param value in words; null where there is none
   */
  private record Standing(boolean holds, double distance, String value) {
    static final Standing NOTHING = new Standing(false, Double.POSITIVE_INFINITY, null);
  }

  /** What a condition leaves out. */
  private static final class Tally {
    private final PhraseCondition condition;

    /** Phrases without it, and those of them that have everything else. */
    private int without;

    private int aloneWithout;
    private final Nearest nearest = new Nearest();
    private final Nearest nearestAlone = new Nearest();

    Tally(PhraseCondition condition) {
      this.condition = condition;
    }
  }

  /** The values that come nearest, and how often each does. */
  private static final class Nearest {
    private double distance = Double.POSITIVE_INFINITY;
    private final Map<String, Integer> values = new TreeMap<>();

    void add(Standing standing) {
      if (standing.value() == null || standing.distance() > distance) {
        return;
      }
      if (standing.distance() < distance) {
        distance = standing.distance();
        values.clear();
      }
      values.merge(standing.value(), 1, Integer::sum);
    }

    /** The commonest of them; null without any. */
    String value() {
      return values.entrySet().stream()
          .max(
              Map.Entry.<String, Integer>comparingByValue()
                  .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
          .map(Map.Entry::getKey)
          .orElse(null);
    }
  }

  /**
   * Looks.
   *
   * @throws InputException if nothing fits, saying which condition leaves most out and what value
   *     would fit; if the tables lack a column or were made by an earlier version
   */
  public static Result find(TableSource tables, PhraseQuery query) {
    return new PhraseSearch(tables, query).result();
  }

  private Result result() {
    Set<String> solosColumns =
        Stream.of(SolosRow.SOLO_ID, SolosRow.FILE, SolosRow.TITLE, SolosRow.PERFORMER)
            .map(TypedColumn::name)
            .collect(Collectors.toCollection(LinkedHashSet::new));
    Set<String> statistics = new TreeSet<>();
    for (PhraseCondition condition : query.conditions()) {
      if (condition instanceof PhraseCondition.OfSolo ofSolo) {
        solosColumns.add(checked(ofSolo));
      } else if (condition instanceof PhraseCondition.InRange range && !range.isColumn()) {
        statistics.add(range.name());
      } else if (condition instanceof PhraseCondition.Fits fits) {
        instrument(fits);
      }
    }
    try (Stream<TableRow> solos =
            tables.stream(SolosRow.TABLE.name(), List.copyOf(solosColumns), CORPUS);
        SoloBySolo phrases =
            SoloBySolo.of(
                tables,
                PhrasesRow.TABLE,
                PhrasesRow.SOLO_ID,
                PhrasesRow.ROLE,
                List.of(
                    PhrasesRow.PHRASE_INDEX,
                    PhrasesRow.FIRST_BAR_NUMBER,
                    PhrasesRow.LAST_BAR_NUMBER,
                    PhrasesRow.TEMPO_QPM,
                    PhrasesRow.LOWEST_MIDI_CONCERT,
                    PhrasesRow.HIGHEST_MIDI_CONCERT,
                    PhrasesRow.DIFFICULTY));
        SoloBySolo ends =
            SoloBySolo.of(
                tables,
                LandingsRow.TABLE,
                LandingsRow.SOLO_ID,
                LandingsRow.ROLE,
                List.of(LandingsRow.PHRASE_INDEX, LandingsRow.CHORD_DEGREE),
                LandingsRow.LANDING_KIND.is(LandingKind.PHRASE_END));
        SoloBySolo contexts =
            SoloBySolo.of(
                tables,
                PhraseContextsRow.TABLE,
                PhraseContextsRow.SOLO_ID,
                PhraseContextsRow.ROLE,
                List.of(
                    PhraseContextsRow.PHRASE_INDEX,
                    PhraseContextsRow.KIND,
                    PhraseContextsRow.MODE,
                    PhraseContextsRow.IS_OVER,
                    PhraseContextsRow.ENDS_IN,
                    PhraseContextsRow.END_PLACE));
        SoloBySolo values =
            statistics.isEmpty()
                ? null
                : SoloBySolo.of(
                    tables,
                    PhraseStatisticsRow.TABLE,
                    PhraseStatisticsRow.SOLO_ID,
                    PhraseStatisticsRow.ROLE,
                    List.of(
                        PhraseStatisticsRow.PHRASE_INDEX,
                        PhraseStatisticsRow.STATISTIC,
                        PhraseStatisticsRow.VALUE),
                    PhraseStatisticsRow.STATISTIC.isOneOf(statistics))) {
      solos.forEach(
          solo -> {
            String soloId = solo.get(SolosRow.SOLO_ID);
            look(
                solo,
                phrases.of(soloId),
                ends.of(soloId),
                contexts.of(soloId),
                values == null ? List.of() : values.of(soloId));
          });
      phrases.end();
      ends.end();
      contexts.end();
      if (values != null) {
        values.end();
      }
    }
    if (found.isEmpty()) {
      throw nothing();
    }
    return new Result(found, all);
  }

  private String checked(PhraseCondition.OfSolo ofSolo) {
    List<String> columns =
        tables.first(SolosRow.TABLE.name(), 1).stream()
            .flatMap(solo -> solo.schema().columns().stream())
            .filter(MetadataColumns::isInWords)
            .map(Column::name)
            .toList();
    if (!columns.isEmpty() && !columns.contains(ofSolo.column())) {
      throw new InputException(
          "Cannot use the condition '"
              + ofSolo.text()
              + "': the solos have no column "
              + ofSolo.column()
              + " of words. There is: "
              + String.join(", ", columns)
              + ".");
    }
    return ofSolo.column();
  }

  private static Instrument instrument(PhraseCondition.Fits fits) {
    return Instrument.named(fits.instrument())
        .orElseThrow(
            () ->
                new InputException(
                    "Cannot use the condition '"
                        + fits.text()
                        + "': no such instrument. There is: "
                        + Instrument.labels()
                        + "."));
  }

  /** A phrase with what conditions ask of it. */
  private record Seen(
      TableRow solo,
      TableRow phrase,
      String lastDegree,
      List<TableRow> contexts,
      Map<String, Double> values) {}

  private void look(
      TableRow solo,
      List<TableRow> phrases,
      List<TableRow> ends,
      List<TableRow> contexts,
      List<TableRow> values) {
    Map<Integer, String> degrees = new HashMap<>();
    ends.forEach(
        row -> degrees.put(row.get(LandingsRow.PHRASE_INDEX), row.get(LandingsRow.CHORD_DEGREE)));
    Map<Integer, List<TableRow>> over = new HashMap<>();
    for (TableRow row : contexts) {
      over.computeIfAbsent(row.get(PhraseContextsRow.PHRASE_INDEX), any -> new ArrayList<>())
          .add(row);
    }
    Map<Integer, Map<String, Double>> numbers = new HashMap<>();
    for (TableRow row : values) {
      if (row.get(PhraseStatisticsRow.VALUE) != null) {
        numbers
            .computeIfAbsent(row.get(PhraseStatisticsRow.PHRASE_INDEX), any -> new HashMap<>())
            .put(row.get(PhraseStatisticsRow.STATISTIC), row.get(PhraseStatisticsRow.VALUE));
      }
    }
    for (TableRow phrase : phrases) {
      int index = phrase.get(PhrasesRow.PHRASE_INDEX);
      look(
          new Seen(
              solo,
              phrase,
              degrees.get(index),
              over.getOrDefault(index, List.of()),
              numbers.getOrDefault(index, Map.of())));
    }
  }

  private void look(Seen seen) {
    all++;
    List<Standing> standings = new ArrayList<>();
    int missing = 0;
    for (Tally tally : tallies) {
      Standing standing = standing(tally.condition, seen);
      standings.add(standing);
      missing += standing.holds() ? 0 : 1;
    }
    for (int i = 0; i < tallies.size(); i++) {
      if (!standings.get(i).holds()) {
        Tally tally = tallies.get(i);
        tally.without++;
        tally.nearest.add(standings.get(i));
        if (missing == 1) {
          tally.aloneWithout++;
          tally.nearestAlone.add(standings.get(i));
        }
      }
    }
    if (missing == 0) {
      found.add(found(seen));
    }
  }

  private FoundPhrase found(Seen seen) {
    Set<String> over = new LinkedHashSet<>();
    for (TableRow context : seen.contexts()) {
      if (context.get(PhraseContextsRow.IS_OVER)) {
        over.add(
            context.get(PhraseContextsRow.KIND).word()
                + " "
                + context.get(PhraseContextsRow.MODE).word());
      }
    }
    Map<String, Double> values = new LinkedHashMap<>();
    for (PhraseCondition condition : query.conditions()) {
      if (condition instanceof PhraseCondition.InRange range) {
        values.put(range.name(), number(range, seen));
      }
    }
    return new FoundPhrase(
        seen.solo().get(SolosRow.SOLO_ID),
        seen.solo().get(SolosRow.FILE),
        seen.solo().get(SolosRow.TITLE),
        seen.solo().get(SolosRow.PERFORMER),
        seen.phrase().get(PhrasesRow.PHRASE_INDEX),
        seen.phrase().get(PhrasesRow.FIRST_BAR_NUMBER),
        seen.phrase().get(PhrasesRow.LAST_BAR_NUMBER),
        seen.lastDegree(),
        seen.phrase().get(PhrasesRow.DIFFICULTY),
        List.copyOf(over),
        values);
  }

  /** What a phrase has of what a range is of; null for nothing. */
  private static Double number(PhraseCondition.InRange range, Seen seen) {
    return switch (range.name()) {
      case "tempo" ->
          seen.phrase().get(PhrasesRow.TEMPO_QPM) == null
              ? null
              : seen.phrase().get(PhrasesRow.TEMPO_QPM);
      case "difficulty" -> (double) seen.phrase().get(PhrasesRow.DIFFICULTY);
      default -> seen.values().get(range.name());
    };
  }

  private static Standing standing(PhraseCondition condition, Seen seen) {
    if (condition instanceof PhraseCondition.InRange range) {
      Double value = number(range, seen);
      if (value == null) {
        return Standing.NOTHING;
      }
      double distance = Math.max(0, Math.max(range.low() - value, value - range.high()));
      return new Standing(distance <= TOLERANCE, distance, words(range, value));
    }
    if (condition instanceof PhraseCondition.LastNote lastNote) {
      return new Standing(
          lastNote.degrees().contains(String.valueOf(seen.lastDegree())),
          1,
          seen.lastDegree() == null ? null : "on " + MusicText.degree(seen.lastDegree()));
    }
    if (condition instanceof PhraseCondition.InContext inContext) {
      return standing(inContext, seen);
    }
    if (condition instanceof PhraseCondition.Fits fits) {
      int beyond =
          instrument(fits)
              .beyond(
                  seen.phrase().get(PhrasesRow.LOWEST_MIDI_CONCERT),
                  seen.phrase().get(PhrasesRow.HIGHEST_MIDI_CONCERT));
      return new Standing(
          beyond == 0, beyond, beyond + (beyond == 1 ? " semitone" : " semitones") + " outside");
    }
    PhraseCondition.OfSolo ofSolo = (PhraseCondition.OfSolo) condition;
    String text = seen.solo().words(ofSolo.column());
    String value = text == null ? "" : text.strip();
    return new Standing(
        ofSolo.value().equalsIgnoreCase(value),
        lettersApart(ofSolo.value(), value),
        value.isEmpty() ? null : value);
  }

  /** Letters put in, taken out or changed that lead from one word to the other, case apart. */
  private static int lettersApart(String first, String second) {
    String upper = first.toLowerCase(Locale.ROOT);
    String left = second.toLowerCase(Locale.ROOT);
    int[] above = new int[upper.length() + 1];
    for (int i = 0; i < above.length; i++) {
      above[i] = i;
    }
    for (int k = 1; k <= left.length(); k++) {
      int[] row = new int[above.length];
      row[0] = k;
      for (int i = 1; i < row.length; i++) {
        int change = above[i - 1] + (upper.charAt(i - 1) == left.charAt(k - 1) ? 0 : 1);
        row[i] = Math.min(change, Math.min(above[i], row[i - 1]) + 1);
      }
      above = row;
    }
    return above[upper.length()];
  }

  private static Standing standing(PhraseCondition.InContext wanted, Seen seen) {
    String nearest = null;
    double distance = Double.POSITIVE_INFINITY;
    for (TableRow context : seen.contexts()) {
      boolean here =
          context.get(wanted.ends() ? PhraseContextsRow.ENDS_IN : PhraseContextsRow.IS_OVER);
      if (!here) {
        continue;
      }
      String place = context.get(PhraseContextsRow.END_PLACE);
      boolean kind = wanted.kind().equals(context.get(PhraseContextsRow.KIND).word());
      boolean mode =
          wanted.mode().isEmpty()
              || wanted.mode().equals(context.get(PhraseContextsRow.MODE).word());
      boolean chord = wanted.place().isEmpty() || wanted.place().equals(place);
      String value =
          context.get(PhraseContextsRow.KIND).word()
              + " "
              + context.get(PhraseContextsRow.MODE).word()
              + (wanted.place().isEmpty() || place == null ? "" : " " + place);
      if (kind && mode && chord) {
        return new Standing(true, 0, value);
      }
      double away = (kind ? 0 : 2) + (mode ? 0 : 1) + (chord ? 0 : 1);
      if (away < distance) {
        distance = away;
        nearest = value;
      }
    }
    return nearest == null ? Standing.NOTHING : new Standing(false, distance, nearest);
  }

  private static String words(PhraseCondition.InRange range, double value) {
    Numbers numbers = new Numbers(Locale.ENGLISH);
    if (range.isColumn()) {
      return numbers.decimal(value, value == Math.rint(value) ? 0 : 1);
    }
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn().named(range.name()).orElseThrow();
    return numbers.ofPhrase(definition, value);
  }

  private InputException nothing() {
    if (all == 0) {
      return new InputException("No phrase fits: the study has no corpus with phrases.");
    }
    Tally most =
        tallies.stream()
            .max(
                Comparator.comparingInt((Tally tally) -> tally.aloneWithout)
                    .thenComparingInt(tally -> tally.without))
            .orElseThrow();
    Numbers numbers = new Numbers(Locale.ENGLISH);
    boolean alone = most.aloneWithout > 0;
    String nearest = (alone ? most.nearestAlone : most.nearest).value();
    return new InputException(
        "No phrase of the corpus fits. The condition that leaves most out is '"
            + most.condition.text()
            + "': "
            + (alone && tallies.size() > 1
                ? numbers.count(most.aloneWithout)
                    + (most.aloneWithout == 1 ? " phrase has" : " phrases have")
                    + " everything else"
                : numbers.count(most.without)
                    + " of "
                    + numbers.count(all)
                    + " phrases do not have it"
                    + (tallies.size() > 1 ? ", and leaving it out would not do alone" : ""))
            + (nearest == null
                ? ". None has a value of it."
                : ". The nearest there is: " + nearest + "."));
  }
}
