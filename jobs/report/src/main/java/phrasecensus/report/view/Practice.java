package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;

/**
 * What a student might try next, by rule. The departures are taken in the order of their ranking;
 * one is passed over that is not clear, or that speaks of what an earlier one has spoken of. The
 * first round takes one of each facet, the second what is left, up to three. The words stand in
 * {@code practice.properties} of the wording.
 */
final class Practice {
  private static final int MOST = 3;

  /** The tempo to begin at, as a share of that of the latest solo. */
  private static final double START = 0.6;

  private static final int LEAST_NOTES = 4;
  private static final double MOST_BARS = 6;

  private final PageSource source;
  private final Student student;

  Practice(PageSource source, Student student) {
    this.source = source;
    this.student = student;
  }

  /**
   * The suggestions, first one first.
   *
   * @param departures what has a place on the page
   */
  List<StudentPage.Suggestion> suggestions(StudentDepartures departures) {
    List<Wording.Standing> ranked = departures.ranked();
    List<StudentDepartures.Item> shown = departures.items();
    List<Integer> chosen = new ArrayList<>();
    Set<String> facets = new HashSet<>();
    Set<String> families = new HashSet<>();
    for (boolean newFacetOnly : new boolean[] {true, false}) {
      for (int i = 0; i < Math.min(ranked.size(), shown.size()); i++) {
        Wording.Standing standing = ranked.get(i);
        String family = family(standing.definition());
        if (chosen.size() < MOST
            && StudentDepartures.isShown(standing.comparison())
            && Text.hasPractice(key(standing, "task"))
            && !undoes(standing)
            && !families.contains(family)
            && !(newFacetOnly && facets.contains(standing.definition().facet()))) {
          chosen.add(i);
          families.add(family);
          facets.add(standing.definition().facet());
        }
      }
    }
    List<Integer> inOrder = new ArrayList<>(chosen.stream().sorted().toList());
    // A measure of variety says least of what to do: it never comes first, and not alone.
    List<Integer> varieties =
        inOrder.stream().filter(i -> isVariety(ranked.get(i).definition())).toList();
    if (!inOrder.isEmpty() && varieties.contains(inOrder.get(0))) {
      inOrder.removeAll(varieties);
      inOrder.addAll(inOrder.isEmpty() ? List.of() : varieties);
    }
    return inOrder.stream().map(i -> suggestion(i, ranked.get(i), shown.get(i))).toList();
  }

  private static boolean isVariety(StatisticDefinition definition) {
    return definition.key().contains("entropy");
  }

  /** True for what would lead away from something that the student is asked for. */
  private boolean undoes(Wording.Standing standing) {
    String key = key(standing, "undoes");
    return Text.hasPractice(key)
        && student.answers().stream()
            .anyMatch(
                answer -> answer.aim() != null && answer.question().equals(Text.practice(key)));
  }

  private static String family(StatisticDefinition definition) {
    String key = definition.key() + ".family";
    return Text.hasPractice(key) ? Text.practice(key) : definition.key();
  }

  private static String key(Wording.Standing standing, String part) {
    return standing.definition().key()
        + (standing.comparison().isBelow() ? ".below." : ".above.")
        + part;
  }

  private StudentPage.Suggestion suggestion(
      int place, Wording.Standing standing, StudentDepartures.Item shown) {
    List<String> material = new ArrayList<>();
    if (shown.other() != null) {
      material.add(Text.of("student.practice.material.corpus", place + 1));
    }
    Optional<Own> own = own(standing);
    own.ifPresent(found -> material.add(found.words()));
    if (material.isEmpty()) {
      material.add(Text.of("student.practice.material.tune"));
    }
    return new StudentPage.Suggestion(
        Text.practice(key(standing, "title")),
        "#" + shown.id(),
        shown.direction(),
        Text.practice(key(standing, "task")),
        material,
        tempo(),
        Text.practice(key(standing, "sign")),
        source.settings().excerpts()
            ? own.map(found -> found.excerpt(source.scores(), "practice-" + (place + 1)))
                .orElse(null)
            : null);
  }

  private String tempo() {
    Double tempo = student.latest().map(solo -> solo.facts().tempo()).orElse(null);
    return tempo == null
        ? Text.of("student.practice.tempo.unknown")
        : Text.of(
            "student.practice.tempo.known",
            source.numbers().count(Math.round(START * tempo / 4) * 4),
            source.numbers().count(Math.round(tempo)));
  }

  /** A phrase of the student that lies on the other side of the middle band's near edge. */
  private record Own(
      StudentSolo solo, SoloLine.PhraseSpan phrase, String words, String value, String caption) {
    Excerpt excerpt(Scores scores, String id) {
      return Excerpt.of(scores, id, caption, value, solo.facts(), solo.line(), phrase);
    }
  }

  private Optional<Own> own(Wording.Standing standing) {
    CorpusNorm norm = standing.norm();
    StatisticDefinition definition = standing.definition();
    if (norm == null || !norm.hasBand()) {
      return Optional.empty();
    }
    boolean below = standing.comparison().isBelow();
    record Found(int solo, SoloLine.PhraseSpan phrase, double value) {}
    List<Found> found = new ArrayList<>();
    for (int i = 0; i < student.solos().size(); i++) {
      StudentSolo solo = student.solos().get(i);
      for (SoloLine.PhraseSpan phrase : solo.line().phrases()) {
        Value value = solo.value(phrase.index(), definition.key());
        if (value.isDefined()
            && phrase.notes() >= LEAST_NOTES
            && phrase.lengthBars() != null
            && phrase.lengthBars() <= MOST_BARS
            && (below ? value.value() >= norm.p25() : value.value() <= norm.p75())) {
          found.add(new Found(i, phrase, value.value()));
        }
      }
    }
    return found.stream()
        .min(
            Comparator.comparingDouble((Found f) -> Math.abs(f.value() - norm.p50()))
                .thenComparing(f -> -f.phrase().notes())
                .thenComparing(f -> -f.solo())
                .thenComparing(f -> f.phrase().index()))
        .map(
            f -> {
              String title = FileText.withoutDirection(source.names().solo(student, f.solo()));
              String bars = StudentFigures.bars(f.phrase());
              String value = source.numbers().ofPhrase(definition, f.value());
              return new Own(
                  student.solos().get(f.solo()),
                  f.phrase(),
                  Text.of("student.practice.material.own", title, bars, definition.name(), value),
                  Text.of("student.apart.value", Wording.capitalised(definition.name()), value),
                  Text.of("student.apart.own", Text.of("student.apart.excerpt", title, bars)));
            });
  }
}
