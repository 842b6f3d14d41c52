package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
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

  /** A solo with its human key; the evidence is null where the form alone decides. */
  private record Human(
      String song,
      String tune,
      String key,
      String type,
      int tonic,
      boolean minor,
      TonalCentre found,
      WholeCentre evidence) {
    TonalCentre with(Weights weights) {
      return evidence == null ? found : evidence.best(weights);
    }

    boolean isTonic(TonalCentre centre) {
      return centre.tonic() == tonic;
    }

    boolean isTonicAndMode(TonalCentre centre) {
      return isTonic(centre) && minor == isMinor(centre);
    }
  }

  @BeforeAll
  static void readSolos() {
    Optional<Path> folder = DevelopmentSolos.folder();
    if (folder.isEmpty()) {
      return;
    }
    for (Map<String, String> row :
        DevelopmentSolos.table(folder.get().resolve("solos.csv")).values()) {
      String[] key = row.get("key").split("-");
      if (key.length == 2 && key[1].matches("maj|min|blues")) {
        Solo solo =
            DevelopmentSolos.read(folder.get().resolve("xml/" + row.get("song") + ".musicxml"));
        SOLOS.add(
            new Human(
                row.get("song"),
                row.get("title"),
                row.get("key"),
                row.get("tonality_type"),
                TONICS.get(key[0]),
                key[1].equals("min"),
                TonalCentreFinder.find(solo, Optional.empty()).whole(),
                TonalCentreFinder.evidence(solo).orElse(null)));
      }
    }
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
    int[] unheard = crossValidated();
    String report =
        String.format(
            Locale.ROOT,
            "Tonal centre of %d solos: tonic %d (%.3f), tonic and mode %d (%.3f); "
                + "cross-validated by tune: tonic %.3f to %.3f, tonic and mode %.3f to %.3f; "
                + "confusion %s%n%s",
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
    assertThat(share(unheard[0])).as(report).isGreaterThanOrEqualTo(.91);
  }

  private static String resource(Weights weights) {
    int[] unheard = crossValidated();
    return String.format(
        Locale.ROOT,
        """
        # How much each kind of evidence speaks for the centre of a whole solo, beside the share of time
        # in which it is the local centre (1). Made by HumanKeysIT; do not edit by hand.
        # Data: key labels of %d solos of the Weimar Jazz Database (M. Pfleiderer, K. Frieler, J. Abesser,
        # W.-G. Zaddach, B. Burkhart (eds.), Schott Campus, 2017; Open Database License 1.0), through the
        # R data package jazzodata (MIT licence). No number here is a number of the data.
        # Of all settings on a grid that name most tonics and most tonics with mode, the middle one.
        # In sample: tonic %.3f, tonic and mode %.3f. Ten-fold cross-validation by tune, %d dealings:
        # tonic %.3f to %.3f, tonic and mode %.3f to %.3f.
        # Command: mvn verify -pl jobs/music -Dit.test=HumanKeysIT -Dgolden.update=true
        tonic-chord=%s
        last-centre=%s
        final-cadence=%s
        """,
        SOLOS.size(),
        share(count(weights, human -> true, Human::isTonic)),
        share(count(weights, human -> true, Human::isTonicAndMode)),
        DEALINGS,
        share(unheard[0]),
        share(unheard[1]),
        share(unheard[2]),
        share(unheard[3]),
        weights.tonicChord(),
        weights.lastCentre(),
        weights.finalCadence());
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

  /** Of the settings that agree best with some solos the one nearest to the middle of them. */
  private static Weights tuned(Predicate<Human> among) {
    List<Weights> best = new ArrayList<>();
    int most = -1;
    for (int tonicChord = 2; tonicChord <= 8; tonicChord++) {
      for (int lastCentre = 0; lastCentre <= 2; lastCentre++) {
        for (int finalCadence = 0; finalCadence <= 6; finalCadence++) {
          Weights weights = new Weights(tonicChord, .3 * lastCentre, .5 * finalCadence);
          int right =
              count(weights, among, Human::isTonic) + count(weights, among, Human::isTonicAndMode);
          if (right > most) {
            best.clear();
            most = right;
          }
          if (right == most) {
            best.add(weights);
          }
        }
      }
    }
    double tonicChord = best.stream().mapToDouble(Weights::tonicChord).average().orElseThrow();
    double lastCentre = best.stream().mapToDouble(Weights::lastCentre).average().orElseThrow();
    double finalCadence = best.stream().mapToDouble(Weights::finalCadence).average().orElseThrow();
    Weights middle = null;
    double least = Double.POSITIVE_INFINITY;
    for (Weights weights : best) {
      double far =
          Math.pow(weights.tonicChord() - tonicChord, 2)
              + Math.pow(weights.lastCentre() - lastCentre, 2)
              + Math.pow(weights.finalCadence() - finalCadence, 2);
      if (far < least) {
        least = far;
        middle = weights;
      }
    }
    return middle;
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
