package phrasecensus.music.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreFinder;
import phrasecensus.music.score.Solo;

/**
 * The centre of the whole solo against the key that people gave (Weimar Jazz Database through the R
 * package jazzodata, development half: 201 solos with a major, minor or blues key). The data name a
 * blues by its tonality type and give it a major or minor key, so a blues centre agrees with major;
 * a modal centre agrees with minor. Runs where the data lie beside the project.
 */
class TonalCentreAccuracyTest {
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

  @Test
  void centreOfTheWholeSoloAgreesWithPeople() {
    Optional<Path> folder = DevelopmentSolos.folder();
    assumeTrue(folder.isPresent(), "no development solos beside the project");

    Map<String, Integer> confusion = new LinkedHashMap<>();
    StringBuilder misses = new StringBuilder();
    int solos = 0;
    int tonics = 0;
    int both = 0;
    int strict = 0;
    for (Map<String, String> row :
        DevelopmentSolos.table(folder.get().resolve("solos.csv")).values()) {
      String[] key = row.get("key").split("-");
      if (key.length < 2 || !key[1].matches("maj|min|blues")) {
        continue;
      }
      Solo solo =
          DevelopmentSolos.read(folder.get().resolve("xml/" + row.get("song") + ".musicxml"));
      TonalCentre centre = TonalCentreFinder.find(solo, Optional.empty()).whole();
      boolean minor = key[1].equals("min");
      int tonic = TONICS.get(key[0]);
      boolean mode =
          minor
              ? centre.mode() == Mode.MINOR || centre.mode() == Mode.MODAL
              : centre.mode() == Mode.MAJOR || centre.mode() == Mode.BLUES;
      boolean blues = row.get("tonality_type").equals("BLUES");
      solos++;
      tonics += centre.tonic() == tonic ? 1 : 0;
      both += centre.tonic() == tonic && mode ? 1 : 0;
      strict +=
          centre.tonic() == tonic && mode && (minor || blues == (centre.mode() == Mode.BLUES))
              ? 1
              : 0;
      if (centre.tonic() != tonic || !mode) {
        confusion.merge(confusion(centre, tonic, minor), 1, Integer::sum);
        misses.append(
            String.format(
                "  %s: people %s (%s), found %s%n",
                row.get("song"), row.get("key"), row.get("tonality_type"), centre));
      }
    }
    System.out.printf(
        "Tonal centre of %d solos: tonic %d (%.3f), tonic and mode %d (%.3f), major and blues apart"
            + " %d (%.3f); confusion %s%n%s",
        solos,
        tonics,
        tonics / (double) solos,
        both,
        both / (double) solos,
        strict,
        strict / (double) solos,
        confusion,
        misses);

    assertThat(solos).isEqualTo(201);
    assertThat(tonics).isGreaterThanOrEqualTo(181);
    assertThat(both).isGreaterThanOrEqualTo(179);
  }

  private static String confusion(TonalCentre centre, int tonic, boolean minor) {
    if (!centre.isKnown()) {
      return "unknown";
    }
    boolean foundMinor = centre.mode() == Mode.MINOR || centre.mode() == Mode.MODAL;
    int above = Math.floorMod(centre.tonic() - tonic, 12);
    if (above == 0) {
      return "parallel";
    }
    if (minor != foundMinor && above == (minor ? 3 : 9)) {
      return "relative";
    }
    return above == 7 || above == 5 ? "fifth" : "other";
  }
}
