package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import phrasecensus.report.rows.ContextEnd;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;

/** What the phrases of a corpus end on, chord by chord, as a table for reading. */
final class ContextEnds {
  /** Fewer phrases, or fewer solos, tell of themselves and not of what is usual. */
  private static final int FEWEST_PHRASES = 20;

  private static final int FEWEST_SOLOS = 6;

  /** Degrees that are told of each chord. */
  private static final int MOST_DEGREES = 3;

  /** The chords that are told, in this order: those of cadences, then whole contexts. */
  private static final List<String> TOLD =
      List.of(
          "ii-V-I major ii",
          "ii-V-I major V",
          "ii-V-I major I",
          "ii-V-I minor ii",
          "ii-V-I minor V",
          "ii-V-I minor I",
          "ii-V major ii",
          "ii-V major V",
          "ii-V minor ii",
          "ii-V minor V",
          "turnaround major all",
          "I-vi-ii-V major all",
          "blues-bars-1-4 blues all",
          "blues-bars-5-8 blues all",
          "blues-bars-9-12 blues all",
          "blues-bars-1-4 minor all",
          "blues-bars-5-8 minor all",
          "blues-bars-9-12 minor all",
          "vamp minor all",
          "vamp major all",
          "vamp blues all");

  private ContextEnds() {}

  /** Null where nothing is heard often enough. */
  static Grid of(List<ContextEnd> ends, Numbers numbers) {
    Map<String, List<ContextEnd>> byPlace = new LinkedHashMap<>();
    for (ContextEnd end : ends) {
      byPlace
          .computeIfAbsent(
              end.kind() + " " + end.mode() + " " + end.place(), place -> new ArrayList<>())
          .add(end);
    }
    String[] columns = Text.of("corpus.contexts.columns").split("\\|");
    Grid.Builder grid =
        Grid.of(Text.of("corpus.contexts.table"))
            .words(columns[0], columns[1])
            .numbers(columns[2], columns[3], columns[4]);
    for (String place : TOLD) {
      List<ContextEnd> degrees = byPlace.getOrDefault(place, List.of());
      if (degrees.isEmpty()
          || degrees.get(0).allPhrases() < FEWEST_PHRASES
          || degrees.get(0).solos() < FEWEST_SOLOS) {
        continue;
      }
      grid.row(
          Text.of("corpus.context." + place.replace(' ', '.')),
          degrees.stream()
              .sorted(
                  Comparator.comparingInt((ContextEnd end) -> -end.phrases())
                      .thenComparing(ContextEnd::degree))
              .limit(MOST_DEGREES)
              .map(
                  end ->
                      Text.of(
                          "corpus.contexts.degree",
                          MusicText.degree(end.degree()),
                          numbers.count(Math.round(100.0 * end.phrases() / end.allPhrases()))))
              .collect(Collectors.joining(", ")),
          numbers.count(degrees.get(0).allPhrases()),
          numbers.count(degrees.get(0).solos()),
          numbers.count(degrees.get(0).players()));
    }
    return grid.size() == 0 ? null : grid.build();
  }
}
