package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;

/**
 * Phrases of the corpus that show what is usual: those nearest to the median of a statistic, and
 * among them those whose length, density and range are ordinary too, so that nothing else draws the
 * eye. Each comes from another solo. Of a large corpus an even sample of solos is searched, and of
 * each group another. All are chosen first, so that their notes are read in one pass.
 */
final class Examples {
  /** Solos that are searched. */
  private static final int MOST_SOLOS = 120;

  /** Solos of one group that are searched beside these. */
  private static final int MOST_OF_A_GROUP = 20;

  /** Groups that get examples of their own, so that the page keeps its size. */
  private static final int MOST_GROUPS = 6;

  /** Phrases beside a headline statistic, in a group, and beside any other. */
  private static final int OF_HEADLINE = 3;

  private static final int OF_GROUP = 2;
  private static final int OF_OTHER = 2;

  private static final int LEAST_NOTES = 4;
  private static final double LEAST_BARS = 0.75;
  private static final double MOST_BARS = 5;

  /** What makes a phrase remarkable apart from the statistic it is to show. */
  private static final List<String> ORDINARY =
      List.of("phrase_length_bars", "phrase_notes", "notes_per_beat", "phrase_range");

  /** How much nearness to the median counts beside being ordinary. */
  private static final double NEARNESS = 3;

  private static final double FARTHEST = 5;

  private final PageSource source;
  private final Map<Place, Map<String, Double>> phrases = new LinkedHashMap<>();
  private final List<Group> groups = new ArrayList<>();
  private final Map<Wanted, List<Found>> chosen = new HashMap<>();
  private int made;

  /** A phrase of the corpus. */
  private record Place(String soloId, int phrase) {}

  /** What examples are to show. */
  private record Wanted(String statistic, Group group) {}

  private record Found(Place place, double value, double distance) {}

  /** Examples of one group. */
  record OfGroup(Group group, List<Excerpt> excerpts) {}

  Examples(PageSource source) {
    this.source = source;
    StudyRows rows = source.rows();
    if (source.settings().excerpts()) {
      for (String by : rows.groupings()) {
        rows.groups(by).stream().filter(this::hasNorms).forEach(groups::add);
      }
      if (groups.size() > MOST_GROUPS) {
        groups.subList(MOST_GROUPS, groups.size()).clear();
      }
      Map<Group, Integer> most = new HashMap<>(Map.of(Group.ALL, MOST_SOLOS));
      groups.forEach(group -> most.put(group, MOST_OF_A_GROUP));
      Set<String> searched = rows.spread(most);
      rows.prepareSolos(searched);
      Set<String> statistics = new TreeSet<>(ORDINARY);
      for (StatisticDefinition definition : source.catalogue().all()) {
        if (definition.headline() || definition.compared()) {
          shownBy(definition).ifPresent(shown -> statistics.add(shown.key()));
        }
      }
      for (StudyRows.PhraseValue value : rows.phraseValues(searched, statistics)) {
        phrases
            .computeIfAbsent(
                new Place(value.soloId(), value.phrase()), any -> new LinkedHashMap<>())
            .put(value.statistic(), value.value());
      }
      Set<String> needed = new TreeSet<>();
      for (StatisticDefinition definition : source.catalogue().all()) {
        if (definition.headline()) {
          choose(definition, Group.ALL, OF_HEADLINE, needed);
          groups.forEach(group -> choose(definition, group, OF_GROUP, needed));
        } else if (definition.compared()) {
          choose(definition, Group.ALL, OF_OTHER, needed);
        }
      }
      rows.prepareLines(needed);
    }
  }

  private boolean hasNorms(Group group) {
    return source.catalogue().all().stream()
        .filter(StatisticDefinition::headline)
        .anyMatch(
            definition ->
                source
                    .rows()
                    .norm(group, definition.key())
                    .filter(CorpusNorm::hasBand)
                    .isPresent());
  }

  /** What a phrase can show of a statistic: itself, or what makes it visible; empty without. */
  private Optional<StatisticDefinition> shownBy(StatisticDefinition definition) {
    return definition.visibleIn().flatMap(seen -> source.catalogue().named(seen.statistic()));
  }

  /** Phrases that show a statistic as it is usual in the corpus. */
  List<Excerpt> of(StatisticDefinition definition) {
    return of(definition, Group.ALL);
  }

  /** The same for each group that has a norm, groups without an example left out. */
  List<OfGroup> byGroup(StatisticDefinition definition) {
    return groups.stream()
        .map(group -> new OfGroup(group, of(definition, group)))
        .filter(ofGroup -> !ofGroup.excerpts().isEmpty())
        .toList();
  }

  private List<Excerpt> of(StatisticDefinition definition, Group group) {
    List<Excerpt> excerpts = new ArrayList<>();
    for (Found each : chosen.getOrDefault(new Wanted(definition.key(), group), List.of())) {
      Excerpt excerpt = excerpt(shownBy(definition).orElseThrow(), each.place(), each.value());
      if (excerpt != null && !excerpt.score().isEmpty()) {
        excerpts.add(excerpt);
      }
    }
    return excerpts;
  }

  private void choose(StatisticDefinition definition, Group group, int most, Set<String> needed) {
    Optional<StatisticDefinition> shownBy = shownBy(definition);
    if (shownBy.isPresent()) {
      List<Found> nearest = nearest(shownBy.get(), group, most);
      chosen.put(new Wanted(definition.key(), group), nearest);
      nearest.forEach(found -> needed.add(found.place().soloId()));
    }
  }

  private List<Found> nearest(StatisticDefinition definition, Group group, int most) {
    Optional<CorpusNorm> norm = source.rows().norm(group, definition.key());
    if (norm.isEmpty() || !norm.get().hasBand()) {
      return List.of();
    }
    List<Found> found = new ArrayList<>();
    boolean graded = false;
    for (Map.Entry<Place, Map<String, Double>> phrase : phrases.entrySet()) {
      Double value = phrase.getValue().get(definition.key());
      Double bars = phrase.getValue().get("phrase_length_bars");
      double notes = phrase.getValue().getOrDefault("phrase_notes", 0.0);
      if (value != null
          && notes >= LEAST_NOTES
          && bars != null
          && bars >= LEAST_BARS
          && bars <= MOST_BARS
          && source.rows().isIn(group, phrase.getKey().soloId())) {
        graded |= value != 0 && value != 1;
        double distance = NEARNESS * distance(norm.get(), value);
        for (String key : ORDINARY) {
          Double other = phrase.getValue().get(key);
          Optional<CorpusNorm> usual = source.rows().norm(group, key);
          if (other != null && usual.isPresent() && usual.get().hasBand()) {
            distance += Math.min(FARTHEST, distance(usual.get(), other)) / ORDINARY.size();
          }
        }
        found.add(new Found(phrase.getKey(), value, distance));
      }
    }
    if (!graded) {
      // One phrase has it or has it not: none is near a share.
      return List.of();
    }
    found.sort(
        Comparator.comparingDouble(Found::distance)
            .thenComparing(f -> f.place().soloId())
            .thenComparing(f -> f.place().phrase()));
    List<Found> nearest = new ArrayList<>();
    Set<String> solos = new HashSet<>();
    for (Found each : found) {
      if (nearest.size() < most && solos.add(each.place().soloId())) {
        nearest.add(each);
      }
    }
    return nearest;
  }

  private static double distance(CorpusNorm norm, double value) {
    double band = norm.p75() - norm.p25();
    return Math.abs(value - norm.p50()) / (band > 0 ? band : Math.max(1e-9, Math.abs(norm.p50())));
  }

  private Excerpt excerpt(StatisticDefinition definition, Place place, double value) {
    SoloFacts facts = source.rows().corpusSolo(place.soloId()).orElse(null);
    SoloLine line = source.rows().corpusLine(place.soloId());
    Optional<SoloLine.PhraseSpan> phrase = line.phrase(place.phrase());
    if (facts == null || phrase.isEmpty()) {
      return null;
    }
    made++;
    return Excerpt.of(
        source.scores(),
        "example-" + made,
        Text.of(
            "student.apart.excerpt",
            StudentFigures.corpusSolo(facts.title(), facts.performer(), facts.soloId()),
            StudentFigures.bars(phrase.get())),
        Text.of(
            "student.apart.value",
            Wording.capitalised(definition.name()),
            FileText.withoutDirection(source.numbers().ofPhrase(definition, value))),
        facts,
        line,
        phrase.get());
  }
}
