package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import phrasecensus.music.harmony.TonalCentreFinder;
import phrasecensus.music.harmony.TonalCentres;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Solo;

/**
 * Keys of 150 lead sheets (OpenEWLD) whose chord symbols are taken out, against the centres that
 * are found with them and were frozen; and keys of 220 solos (Weimar Jazz Database) from notes
 * alone against the key that people gave. Runs where the data lie beside the project.
 */
class LeadSheetKeysTest {
  private static final Path DATA = Path.of(System.getProperty("project.root"), "../shared/data");
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

  private static int sheets;
  private static int withSignature;
  private static int bySignature;
  private static int byNotes;

  @BeforeAll
  static void findKeys() throws IOException {
    Path truth = DATA.resolve("leadsheets/centres_with_chords.csv");
    assumeTrue(Files.exists(truth), "no lead sheets beside the project");
    for (String line :
        Files.readAllLines(truth, StandardCharsets.UTF_8).stream().skip(1).toList()) {
      String[] cells = line.split(",");
      Solo solo = solo(DATA.resolve("leadsheets").resolve(cells[0]));
      int tonic = Integer.parseInt(cells[2]);
      sheets++;
      byNotes += find(solo, List.of()).whole().tonic() == tonic ? 1 : 0;
      if (!cells[1].isEmpty()) {
        withSignature++;
        bySignature += find(solo, solo.keys()).whole().tonic() == tonic ? 1 : 0;
      }
    }
    System.out.printf(
        "Lead sheets without chords: tonic from signature and notes %d of %d, from notes alone %d"
            + " of %d%n",
        bySignature, withSignature, byNotes, sheets);
  }

  private static Solo solo(Path file) throws IOException {
    return SoloReader.read(
            Files.readAllBytes(file), file.getFileName().toString(), ReadSettings.defaults())
        .solo();
  }

  private static TonalCentres find(Solo solo, List<KeyChange> keys) {
    return TonalCentreFinder.find(
        new Solo(
            solo.description(),
            solo.bars(),
            solo.notes(),
            solo.graceNotes(),
            List.of(),
            keys,
            solo.tempi(),
            solo.marks(),
            solo.unknownSpans(),
            solo.unpitchedOnsets()),
        Optional.empty());
  }

  @Test
  void signatureAndNotesTellTheTonicOfNineteenInTwenty() {
    assertThat(withSignature).isEqualTo(144);
    assertThat((double) bySignature / withSignature).isGreaterThanOrEqualTo(.95);
  }

  @Test
  void notesAloneTellTheTonicOfNineInTen() {
    assertThat((double) byNotes / sheets).isGreaterThanOrEqualTo(.92);
  }

  /** For the record: improvised lines say less of their key than tunes do. */
  @Test
  void notesOfSolosAloneTellTheHumanTonicOfHalf() throws IOException {
    Path table = DATA.resolve("solos/solos.csv");
    assumeTrue(Files.exists(table), "no solos beside the project");
    List<String> lines = Files.readAllLines(table, StandardCharsets.UTF_8);
    List<String> header = List.of(lines.get(0).split(","));
    Map<String, String> keys = new HashMap<>();
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)");
      keys.put(cells[header.indexOf("song")], cells[header.indexOf("key")]);
    }
    int solos = 0;
    int right = 0;
    for (Map.Entry<String, String> key : keys.entrySet()) {
      Integer tonic = TONICS.get(key.getValue().split("-")[0]);
      if (tonic != null) {
        Solo solo = solo(DATA.resolve("solos/xml").resolve(key.getKey() + ".musicxml"));
        solos++;
        right += find(solo, List.of()).whole().tonic() == tonic ? 1 : 0;
      }
    }
    System.out.printf("Solos: human tonic from notes alone %d of %d%n", right, solos);

    assertThat((double) right / solos).isGreaterThan(.5);
  }
}
