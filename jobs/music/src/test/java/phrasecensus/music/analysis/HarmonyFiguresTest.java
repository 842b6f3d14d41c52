package phrasecensus.music.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.landing.Landing.Approach;
import phrasecensus.music.landing.Landing.Kind;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.score.Solo;

/**
 * Harmony of 220 solos with human phrases (Weimar Jazz Database through the R package jazzodata,
 * development half) against figures that others computed from the same data. Runs where the data
 * lie beside the project.
 */
class HarmonyFiguresTest {
  private static final Map<String, SoloAnalysis> AS_WRITTEN = new TreeMap<>();
  private static final Map<String, SoloAnalysis> ANTICIPATED = new TreeMap<>();
  private static Path folder;

  /** Phrases as people marked them. */
  private record Marked(List<Integer> starts) implements PhraseRule {
    @Override
    public String name() {
      return "given";
    }

    @Override
    public Map<String, String> settings() {
      return Map.of();
    }

    @Override
    public List<Integer> boundaries(Solo solo) {
      return starts.stream().filter(start -> start > 0).toList();
    }
  }

  @BeforeAll
  static void analyse() throws IOException {
    Optional<Path> found = DevelopmentSolos.folder();
    assumeTrue(found.isPresent(), "no development solos beside the project");
    folder = found.get();
    Map<String, List<Integer>> starts = new TreeMap<>();
    for (String line : Files.readAllLines(folder.resolve("phrases.csv"), StandardCharsets.UTF_8)) {
      String[] cells = line.split(",");
      if (!cells[0].equals("song")) {
        starts.computeIfAbsent(cells[0], song -> new ArrayList<>()).add(Integer.parseInt(cells[2]));
      }
    }
    long nanos = 0;
    long notes = 0;
    for (Map.Entry<String, List<Integer>> song : starts.entrySet()) {
      Solo solo = DevelopmentSolos.read(folder.resolve("xml/" + song.getKey() + ".musicxml"));
      PhraseRule rule = new Marked(song.getValue());
      long begin = System.nanoTime();
      ANTICIPATED.put(
          song.getKey(),
          SoloAnalyser.analyse(solo, new AnalysisSettings(rule, true, Optional.empty())));
      nanos += System.nanoTime() - begin;
      notes += solo.notes().size();
      AS_WRITTEN.put(
          song.getKey(),
          SoloAnalyser.analyse(solo, new AnalysisSettings(rule, false, Optional.empty())));
    }
    System.out.printf(
        "Analysis of %d solos, %d notes: %d ms%n", starts.size(), notes, nanos / 1_000_000);
  }

  /**
   * {@code reference_stats.csv}: share of last notes of phrases on 1 3 5 7 of the chord, per solo.
   */
  @Test
  void shareOfPhraseEndsOnChordTonesIsThePublishedOneForEachSolo() {
    Map<String, Map<String, String>> published =
        DevelopmentSolos.table(folder.resolve("reference_stats.csv"));
    int equal = 0;
    List<String> different = new ArrayList<>();
    for (Map.Entry<String, SoloAnalysis> song : AS_WRITTEN.entrySet()) {
      List<NoteHarmony> ends = phraseEnds(song.getValue());
      long verdicts = ends.stream().filter(NoteHarmony::hasVerdict).count();
      long core = ends.stream().filter(NoteHarmony::isCoreChordTone).count();
      Map<String, String> row = published.get(song.getKey());
      String share = row.get("share_last_note_in_core_chord");
      boolean same =
          share.isEmpty()
              ? verdicts == 0
              : verdicts > 0
                  && Math.abs(core / (double) verdicts - Double.parseDouble(share)) < 6e-5;
      if (same) {
        equal++;
      } else {
        different.add(
            song.getKey()
                + " "
                + core
                + "/"
                + verdicts
                + " published "
                + share
                + " of "
                + row.get("phrases_ending_over_a_chord"));
      }
    }
    System.out.println("Phrase ends on chord tones: " + equal + " solos equal; " + different);

    assertThat(equal).isEqualTo(220);
  }

  /** Theory of the corpus: .494 of all tones and .622 of last notes, on 456 solos. */
  @Test
  void chordToneSharesAreNearThoseOfTheWholeDatabase() {
    double all = share(AS_WRITTEN, false);
    double ends = share(AS_WRITTEN, true);
    System.out.printf(
        "Chord tones: all %.3f (anticipated %.3f), phrase ends %.3f (%.3f)%n",
        all, share(ANTICIPATED, false), ends, share(ANTICIPATED, true));

    assertThat(all).isCloseTo(.494, within(.03));
    assertThat(ends).isCloseTo(.622, within(.03));
  }

  /** Last notes of phrases: repetition .088, more than a tone .457 of 10 648, on 456 solos. */
  @Test
  void approachesOfPhraseEndsAreNearThoseOfTheWholeDatabase() {
    Map<Approach, Integer> counts = new EnumMap<>(Approach.class);
    int total = 0;
    for (SoloAnalysis analysis : AS_WRITTEN.values()) {
      for (Landing landing : analysis.landings()) {
        if (landing.kind() == Kind.PHRASE_END && landing.approach() != Approach.NONE) {
          counts.merge(landing.approach(), 1, Integer::sum);
          total++;
        }
      }
    }
    System.out.println("Approaches of " + total + " phrase ends: " + counts);

    assertThat(counts.get(Approach.REPETITION) / (double) total).isCloseTo(.088, within(.03));
    assertThat(counts.get(Approach.LEAP) / (double) total).isCloseTo(.457, within(.03));
  }

  /** First note after a chord change: a guide tone or not; sevenths that go to the next third. */
  @Test
  void guideTonesAtChangesLieAboveChance() {
    int changes = 0;
    int reached = 0;
    int opportunities = 0;
    int resolved = 0;
    for (SoloAnalysis analysis : AS_WRITTEN.values()) {
      GuideTones.AtChanges at = GuideTones.atChanges(analysis);
      GuideTones.Resolutions to = GuideTones.resolutions(analysis);
      changes += at.changes();
      reached += at.reached();
      opportunities += to.opportunities();
      resolved += to.resolved();
    }
    Map<Kind, Integer> kinds = new EnumMap<>(Kind.class);
    AS_WRITTEN
        .values()
        .forEach(a -> a.landings().forEach(l -> kinds.merge(l.kind(), 1, Integer::sum)));
    System.out.printf(
        "Guide tones: %d of %d changes (%.3f); resolved %d of %d (%.3f); landings %s%n",
        reached,
        changes,
        reached / (double) changes,
        resolved,
        opportunities,
        resolved / (double) opportunities,
        kinds);

    assertThat(reached / (double) changes).isBetween(2 / 12.0, .5);
    assertThat(resolved / (double) opportunities).isBetween(.324, .6);
  }

  private static List<NoteHarmony> phraseEnds(SoloAnalysis analysis) {
    return analysis.phrases().stream().map(p -> analysis.harmony().get(p.lastNote())).toList();
  }

  private static double share(Map<String, SoloAnalysis> analyses, boolean ends) {
    long verdicts = 0;
    long core = 0;
    for (SoloAnalysis analysis : analyses.values()) {
      for (NoteHarmony note : ends ? phraseEnds(analysis) : analysis.harmony()) {
        verdicts += note.hasVerdict() ? 1 : 0;
        core += note.isCoreChordTone() ? 1 : 0;
      }
    }
    return core / (double) verdicts;
  }
}
