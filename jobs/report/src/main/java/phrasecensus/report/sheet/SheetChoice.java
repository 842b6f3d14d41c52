package phrasecensus.report.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.wording.Numbers;
import phrasecensus.tables.InputException;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * Chooses phrases of the corpus by a statistic: those nearest to the middle of the range that is
 * asked for, one a solo before a second one, ties by solo and place. The same tables and request
 * give the same phrases.
 */
public final class SheetChoice {
  private static final Map<String, String> CORPUS = Map.of("role", "corpus");
  private static final int FEWEST_NOTES = 3;

  private final TableSource tables;
  private final SheetRequest request;
  private final Numbers numbers = new Numbers(Locale.ENGLISH);
  private double low;
  private double high;

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

  private Chosen chosen() {
    findRange();
    Map<String, SoloFacts> solos = solos();
    Map<String, String> lastDegrees = lastDegrees();
    Map<String, Integer> notes = notes();
    List<SheetPhrase> all = new ArrayList<>();
    for (TableRow row :
        tables.rows(
            "phrase_statistics",
            Map.of("role", "corpus", "statistic", request.statistic().key()))) {
      SoloFacts solo = solos.get(row.text("solo_id"));
      int phrase = row.integer("phrase_index");
      String key = key(row.text("solo_id"), phrase);
      if (solo != null
          && !row.isMissing("value")
          && notes.getOrDefault(key, 0) >= FEWEST_NOTES
          && (request.lastNote().isEmpty()
              || request.lastNote().contains(lastDegrees.getOrDefault(key, "")))) {
        all.add(new SheetPhrase(solo, phrase, row.number("value"), lastDegrees.get(key)));
      }
    }
    double middle = (low + high) / 2;
    List<SheetPhrase> fitting =
        all.stream()
            .filter(each -> each.value() >= low - 1e-9 && each.value() <= high + 1e-9)
            .sorted(
                Comparator.comparingDouble((SheetPhrase each) -> Math.abs(each.value() - middle))
                    .thenComparing(each -> each.solo().soloId())
                    .thenComparing(SheetPhrase::phraseIndex))
            .toList();
    if (fitting.isEmpty()) {
      throw nothing(all, middle);
    }
    return new Chosen(oneASolo(fitting), low, high, fitting.size());
  }

  private static String key(String soloId, int phrase) {
    return soloId + "#" + phrase;
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
        tables.rows("norms").stream()
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

  private Map<String, SoloFacts> solos() {
    Map<String, SoloFacts> solos = new TreeMap<>();
    Set<String> values = new HashSet<>();
    boolean column = request.group().isEmpty();
    for (TableRow row : tables.rows("solos", CORPUS)) {
      SoloFacts facts = SoloFacts.of(row);
      String value = facts.columns().get(request.group());
      column |= value != null;
      if (request.group().isEmpty() || request.groupValue().equals(value)) {
        solos.put(facts.soloId(), facts);
      } else if (value != null) {
        values.add(value);
      }
    }
    if (!column) {
      throw new InputException(
          "Cannot choose phrases: the solos have no column " + request.group() + ".");
    }
    if (solos.isEmpty()) {
      throw new InputException(
          "Cannot choose phrases: no solo has the "
              + request.group()
              + " "
              + request.groupValue()
              + ". There is: "
              + String.join(", ", values.stream().sorted().toList())
              + ".");
    }
    return solos;
  }

  private Map<String, Integer> notes() {
    Map<String, Integer> notes = new HashMap<>();
    for (TableRow row : tables.rows("phrases", CORPUS)) {
      notes.put(
          key(row.text("solo_id"), row.integer("phrase_index")),
          row.integer("last_note_index") - row.integer("first_note_index") + 1);
    }
    return notes;
  }

  /** Degrees of the last notes of phrases, as far as there is one. */
  private Map<String, String> lastDegrees() {
    Map<String, String> degrees = new HashMap<>();
    for (TableRow row : tables.rows("landings", CORPUS)) {
      if ("phrase-end".equals(row.text("landing_kind")) && row.text("chord_degree") != null) {
        degrees.put(
            key(row.text("solo_id"), row.integer("phrase_index")), row.text("chord_degree"));
      }
    }
    return degrees;
  }

  private List<SheetPhrase> oneASolo(List<SheetPhrase> fitting) {
    List<SheetPhrase> chosen = new ArrayList<>();
    List<SheetPhrase> left = new ArrayList<>(fitting);
    while (chosen.size() < request.count() && !left.isEmpty()) {
      Set<String> solos = new HashSet<>();
      List<SheetPhrase> later = new ArrayList<>();
      for (SheetPhrase each : left) {
        if (chosen.size() < request.count() && solos.add(each.solo().soloId())) {
          chosen.add(each);
        } else {
          later.add(each);
        }
      }
      left = later;
    }
    return chosen;
  }

  private InputException nothing(List<SheetPhrase> all, double middle) {
    String ending =
        request.lastNote().isEmpty()
            ? ""
            : " and ends on " + String.join(" or ", request.lastNote());
    String nearest =
        all.stream()
            .min(Comparator.comparingDouble(each -> Math.abs(each.value() - middle)))
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
