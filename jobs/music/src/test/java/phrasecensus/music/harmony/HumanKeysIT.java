package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.DevelopmentSolos;
import phrasecensus.music.harmony.ChordCharts.Chart;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.WholeCentre.Weights;
import phrasecensus.music.score.Solo;

/**
 * The centre of the whole solo against the key that people gave (Weimar Jazz Database through the R
 * package jazzodata, development half: 201 solos with a major, minor or blues key). The data name a
 * blues by its tonality type and give it a major or minor key, so a blues centre agrees with major;
 * a modal centre agrees with minor. Runs where the data lie beside the project. {@code
 * -Dgolden.update=true} tunes the weights again and writes them; figures, confusion and the list of
 * misses go to {@code target/human-keys.txt}.
 */
class HumanKeysIT {
  private static final Path RESOURCE =
      Path.of("src/main/resources/phrasecensus/music/harmony/whole-centre.properties");

  private static final int FOLDS = 10;
  private static final int DEALINGS = 5;

  /** Settings that agree in so many points less than the best one are as good. */
  private static final int NEARLY = 4;

  private static final Map<String, Integer> TONICS =
      Map.ofEntries(
          Map.entry("C", 0),
          Map.entry("C#", 1),
          Map.entry("Db", 1),
          Map.entry("D", 2),
          Map.entry("Eb", 3),
          Map.entry("E", 4),
          Map.entry("F", 5),
          Map.entry("F#", 6),
          Map.entry("Gb", 6),
          Map.entry("G", 7),
          Map.entry("Ab", 8),
          Map.entry("A", 9),
          Map.entry("Bb", 10),
          Map.entry("B", 11));

  private static final List<Human> SOLOS = new ArrayList<>();

  /** One chorus of each tune, cut out of its first solo: a chart with a human key. */
  private static final List<Human> CHORUSES = new ArrayList<>();

  private static final List<Human> CHARTS = new ArrayList<>();
  private static int[] unheardRange;
  private static byte[][] soloMarks;
  private static byte[][] chartMarks;

  /** A solo with its human key; the evidence is null where the form alone decides. */
  private record Human(
      String song,
      String tune,
      String key,
      String type,
      int tonic,
      boolean minor,
      TonalCentre found,
      WholeCentre evidence,
      Chart chart) {
    TonalCentre with(Weights weights) {
      return evidence == null ? found : evidence.best(weights);
    }

    boolean isTonic(TonalCentre centre) {
      return centre.tonic() == tonic;
    }

    boolean isTonicAndMode(TonalCentre centre) {
      return isTonic(centre)
          && (chart == null ? minor == isMinor(centre) : chart.isTonicAndMode(centre));
    }
  }

  @BeforeAll
  static void readSolos() {
    Optional<Path> folder = DevelopmentSolos.folder();
    if (folder.isEmpty()) {
      return;
    }
    TreeSet<String> tunes = new TreeSet<>();
    for (Map<String, String> row :
        DevelopmentSolos.table(folder.get().resolve("solos.csv")).values()) {
      String[] key = row.get("key").split("-");
      if (key.length == 2 && key[1].matches("maj|min|blues")) {
        Solo solo =
            DevelopmentSolos.read(folder.get().resolve("xml/" + row.get("song") + ".musicxml"));
        SOLOS.add(human(row, solo));
        if (tunes.add(row.get("title") + row.get("key"))) {
          DevelopmentSolos.oneChorus(solo, row.get("form"))
              .ifPresent(chorus -> CHORUSES.add(human(row, chorus)));
        }
      }
    }
    for (String file : List.of("charts-before.txt", "charts-known.txt")) {
      for (Chart chart : ChordCharts.read(file)) {
        CHARTS.add(
            new Human(
                chart.name(),
                chart.name(),
                "",
                "",
                chart.tonic(),
                false,
                TonalCentreFinder.find(chart.solo(), Optional.empty()).whole(),
                TonalCentreFinder.evidence(chart.solo()).orElse(null),
                chart));
      }
    }
    soloMarks = marks(SOLOS);
    chartMarks = marks(CHARTS);
  }

  private static Human human(Map<String, String> row, Solo solo) {
    String[] key = row.get("key").split("-");
    return new Human(
        row.get("song"),
        row.get("title"),
        row.get("key"),
        row.get("tonality_type"),
        TONICS.get(key[0]),
        key[1].equals("min"),
        TonalCentreFinder.find(solo, Optional.empty()).whole(),
        TonalCentreFinder.evidence(solo).orElse(null),
        null);
  }

  @BeforeEach
  void needsSolos() {
    assumeTrue(!SOLOS.isEmpty(), "no solos with human keys beside the project");
  }

  @Test
  void theWeightsAreWhatTuningGives() throws IOException {
    String tuned = resource(tuned(human -> true));
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(RESOURCE, tuned);
    }

    assertThat(Files.readString(RESOURCE)).isEqualTo(tuned);
  }

  @Test
  void centreOfTheWholeSoloAgreesWithPeople() throws IOException {
    int tonics = 0;
    int both = 0;
    Map<String, Integer> confusion = new TreeMap<>();
    StringBuilder misses = new StringBuilder();
    for (Human human : SOLOS) {
      TonalCentre centre = human.found();
      tonics += human.isTonic(centre) ? 1 : 0;
      both += human.isTonicAndMode(centre) ? 1 : 0;
      if (!human.isTonicAndMode(centre)) {
        String kind = confusion(centre, human);
        confusion.merge(kind, 1, Integer::sum);
        misses.append(
            String.format(
                Locale.ROOT,
                "  %s: people %s (%s), found %d %s: %s%n",
                human.song(),
                human.key(),
                human.type(),
                centre.tonic(),
                centre.mode().word(),
                kind));
      }
    }
    int[] unheard = unheard();
    String report =
        String.format(
            Locale.ROOT,
            "Tonal centre of %d charts of one chorus cut from them: tonic %d (%.3f), tonic and mode"
                + " %d (%.3f)%n%d charts made up or from memory: tonic and mode %d%nBlues: called"
                + " so without the label %d, not called so %d%nTonal centre of %d solos: tonic %d"
                + " (%.3f), tonic and mode %d (%.3f); cross-validated by tune: tonic %.3f to %.3f,"
                + " tonic and mode %.3f to %.3f; confusion %s%n%s",
            CHORUSES.size(),
            count(CHORUSES, Human::isTonic),
            count(CHORUSES, Human::isTonic) / (double) CHORUSES.size(),
            count(CHORUSES, Human::isTonicAndMode),
            count(CHORUSES, Human::isTonicAndMode) / (double) CHORUSES.size(),
            CHARTS.size(),
            count(CHARTS, Human::isTonicAndMode),
            count(SOLOS, (human, centre) -> isBlues(centre) && !human.type().equals("BLUES")),
            count(
                SOLOS,
                (human, centre) ->
                    !isBlues(centre) && human.type().equals("BLUES") && !human.minor()),
            SOLOS.size(),
            tonics,
            share(tonics),
            both,
            share(both),
            share(unheard[0]),
            share(unheard[1]),
            share(unheard[2]),
            share(unheard[3]),
            confusion,
            misses);
    Files.writeString(Path.of("target", "human-keys.txt"), report, StandardCharsets.UTF_8);

    assertThat(SOLOS).hasSize(201);
    assertThat(share(tonics)).as(report).isGreaterThanOrEqualTo(.92);
    assertThat(share(both)).as(report).isGreaterThanOrEqualTo(.91);
    assertThat(share(unheard[0])).as(report).isGreaterThanOrEqualTo(.92);
    assertThat(share(unheard[2])).as(report).isGreaterThanOrEqualTo(.91);
    assertThat(CHORUSES).hasSize(144);
    assertThat(count(CHORUSES, Human::isTonic)).as(report).isGreaterThanOrEqualTo(129);
  }

  private static String resource(Weights weights) {
    int[] unheard = unheard();
    return String.format(
        Locale.ROOT,
        """
        # How much each kind of evidence speaks for the centre of a whole solo, beside the share of time
        # in which it is the local centre (1). Made by HumanKeysIT; do not edit by hand.
        # Data: key labels of %d solos of the Weimar Jazz Database (M. Pfleiderer, K. Frieler, J. Abesser,
        # W.-G. Zaddach, B. Burkhart (eds.), Schott Campus, 2017; Open Database License 1.0), through the
        # R data package jazzodata (MIT licence). No number here is a number of the data.
        # Beside them %d charts of chords alone, written for the tests (charts-before.txt, charts-known.txt).
        # Of all settings on a grid that name most tonics and most tonics with mode, or up to four less,
        # the middle one.
        # In sample: tonic %.3f, tonic and mode %.3f. Ten-fold cross-validation by tune, %d dealings:
        # tonic %.3f to %.3f, tonic and mode %.3f to %.3f.
        # Command: mvn verify -pl jobs/music -Dit.test=HumanKeysIT -Dgolden.update=true
        tonic-chord=%s
        last-centre=%s
        final-cadence=%s
        first-chord=%s
        led-to-first=%s
        last-chord=%s
        """,
        SOLOS.size(),
        CHARTS.size(),
        share(count(weights, human -> true, Human::isTonic)),
        share(count(weights, human -> true, Human::isTonicAndMode)),
        DEALINGS,
        share(unheard[0]),
        share(unheard[1]),
        share(unheard[2]),
        share(unheard[3]),
        weights.tonicChord(),
        weights.lastCentre(),
        weights.finalCadence(),
        weights.firstChord(),
        weights.ledToFirst(),
        weights.lastChord());
  }

  private static boolean isBlues(TonalCentre centre) {
    return centre.mode() == Mode.BLUES;
  }

  private static int count(List<Human> humans, Agreement agreement) {
    int count = 0;
    for (Human human : humans) {
      count += agreement.holds(human, human.found()) ? 1 : 0;
    }
    return count;
  }

  private static double share(int count) {
    return count / (double) SOLOS.size();
  }

  private interface Agreement {
    boolean holds(Human human, TonalCentre centre);
  }

  private static int count(Weights weights, Predicate<Human> among, Agreement agreement) {
    int count = 0;
    for (Human human : SOLOS) {
      count += among.test(human) && agreement.holds(human, human.with(weights)) ? 1 : 0;
    }
    return count;
  }

  private static final List<Weights> GRID = grid();

  private static List<Weights> grid() {
    List<Weights> grid = new ArrayList<>();
    for (int tonicChord = 4; tonicChord <= 9; tonicChord++) {
      for (int lastCentre = 0; lastCentre <= 3; lastCentre++) {
        for (int finalCadence = 2; finalCadence <= 7; finalCadence++) {
          for (int firstChord = 1; firstChord <= 4; firstChord++) {
            for (int ledToFirst = 0; ledToFirst <= 3; ledToFirst++) {
              for (int lastChord = 0; lastChord <= 2; lastChord++) {
                grid.add(
                    new Weights(
                        tonicChord,
                        .3 * lastCentre,
                        .5 * finalCadence,
                        .5 * firstChord,
                        .5 * ledToFirst,
                        .5 * lastChord));
              }
            }
          }
        }
      }
    }
    return grid;
  }

  /** For each solo and each setting of the grid 0, 1 for the tonic, 2 for tonic and mode. */
  private static byte[][] marks(List<Human> humans) {
    byte[][] marks = new byte[humans.size()][GRID.size()];
    for (int i = 0; i < marks.length; i++) {
      for (int j = 0; j < GRID.size(); j++) {
        TonalCentre centre = humans.get(i).with(GRID.get(j));
        marks[i][j] =
            (byte)
                (humans.get(i).isTonicAndMode(centre) ? 2 : humans.get(i).isTonic(centre) ? 1 : 0);
      }
    }
    return marks;
  }

  /**
   * Of the settings that agree best, or nearly so, with the charts and with some solos the one
   * nearest to the middle of them.
   */
  private static Weights tuned(Predicate<Human> among) {
    int[] right = new int[GRID.size()];
    for (byte[] chart : chartMarks) {
      for (int j = 0; j < right.length; j++) {
        right[j] += chart[j];
      }
    }
    for (int i = 0; i < SOLOS.size(); i++) {
      for (int j = 0; among.test(SOLOS.get(i)) && j < right.length; j++) {
        right[j] += soloMarks[i][j];
      }
    }
    int most = Arrays.stream(right).max().orElseThrow();
    List<double[]> best = new ArrayList<>();
    double[] middle = new double[6];
    for (int j = 0; j < right.length; j++) {
      if (right[j] >= most - NEARLY) {
        best.add(GRID.get(j).numbers());
      }
    }
    for (double[] numbers : best) {
      for (int k = 0; k < middle.length; k++) {
        middle[k] += numbers[k] / best.size();
      }
    }
    double[] nearest = null;
    double least = Double.POSITIVE_INFINITY;
    for (double[] numbers : best) {
      double far = 0;
      for (int k = 0; k < middle.length; k++) {
        far += Math.pow(numbers[k] - middle[k], 2);
      }
      if (far < least) {
        least = far;
        nearest = numbers;
      }
    }
    return new Weights(nearest[0], nearest[1], nearest[2], nearest[3], nearest[4], nearest[5]);
  }

  private static int[] unheard() {
    if (unheardRange == null) {
      unheardRange = crossValidated();
    }
    return unheardRange;
  }

  /**
   * Lowest and highest number of tonics, then of tonics with mode, over dealings of the tunes to
   * folds, each fold judged with weights that were tuned on the others.
   */
  private static int[] crossValidated() {
    int[] range = {SOLOS.size(), 0, SOLOS.size(), 0};
    for (int dealing = 0; dealing < DEALINGS; dealing++) {
      List<String> tunes = new ArrayList<>(new TreeSet<>(SOLOS.stream().map(Human::tune).toList()));
      Collections.shuffle(tunes, new Random(dealing));
      int tonics = 0;
      int both = 0;
      for (int fold = 0; fold < FOLDS; fold++) {
        int left = fold;
        Predicate<Human> unheard = human -> tunes.indexOf(human.tune()) % FOLDS == left;
        Weights weights = tuned(unheard.negate());
        tonics += count(weights, unheard, Human::isTonic);
        both += count(weights, unheard, Human::isTonicAndMode);
      }
      range[0] = Math.min(range[0], tonics);
      range[1] = Math.max(range[1], tonics);
      range[2] = Math.min(range[2], both);
      range[3] = Math.max(range[3], both);
    }
    return range;
  }

  private static boolean isMinor(TonalCentre centre) {
    return centre.mode() == Mode.MINOR || centre.mode() == Mode.MODAL;
  }

  private static String confusion(TonalCentre centre, Human human) {
    if (!centre.isKnown()) {
      return "unknown";
    }
    int above = Math.floorMod(centre.tonic() - human.tonic(), 12);
    if (above == 0) {
      return "parallel";
    }
    if (human.minor() != isMinor(centre) && above == (human.minor() ? 3 : 9)) {
      return "relative";
    }
    return above == 7 || above == 5 ? "fifth" : "other";
  }
}
