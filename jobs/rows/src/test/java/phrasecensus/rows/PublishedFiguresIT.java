package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import java.util.zip.GZIPInputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.PhraseMarks;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * Figures of 220 improvised solos with phrases marked by people, and with ours, beside those of the
 * whole data set of 456 solos (Weimar Jazz Database, Pfleiderer et al., Schott Campus 2017), which
 * were computed from its tables without this program. Prints the comparison and leaves it in {@code
 * target/published-figures.txt}.
 */
class PublishedFiguresIT {
  private static final Path SOLOS =
      Path.of(System.getProperty("project.root", "."), "..", "shared", "data", "solos").normalize();

  /** What half of a data set may differ from the whole by, in shares: three percentage points. */
  private static final double GAP = .03;

  /**
   * A figure of the whole data set, and how it is had from ours.
   *
   * @param tolerance what it may differ by; infinite where it says another thing
   */
  private record Figure(
      String name, double published, double tolerance, ToDoubleFunction<Reading> own) {
    double of(String column) {
      return own.applyAsDouble(readings.get(column));
    }
  }

  private static Figure share(String name, double published, boolean fourFour, String statistic) {
    return new Figure(name, published, GAP, reading -> reading.pooled(fourFour, statistic));
  }

  private static Figure ofPhrases(
      String name, double published, double tolerance, boolean fourFour, String statistic) {
    return new Figure(
        name, published, tolerance, reading -> reading.medianOfPhrases(fourFour, statistic));
  }

  private static Figure ofSolos(String name, double published, double tolerance, String statistic) {
    return new Figure(name, published, tolerance, reading -> reading.medianOfSolos(statistic));
  }

  private static final List<Figure> FIGURES =
      List.of(
          ofPhrases("notes per phrase, median", 13, 1, false, "phrase_notes"),
          ofPhrases("bars to last onset, median", 1.542, .1, true, "phrase_onset_span_bars"),
          ofPhrases("bars touched, median", 3, 0, true, "phrase_bars_touched"),
          ofPhrases("range of phrase, median", 12, 1, false, "phrase_range"),
          ofSolos("range of solo, median", 28, 1, "solo_range"),
          share("core chord tones", .494, false, "chord_tone_share"),
          share("core chord tones on beat one", .554, true, "chord_tone_share_beat_one"),
          share("core chord tones off the beat", .480, true, "chord_tone_share_off_beat"),
          share("core chord tones, last notes", .622, false, "phrase_ends_on_chord_tone"),
          share("last notes, root", .225, false, "phrase_ends_on_root"),
          share("last notes, third", .131, false, "phrase_ends_on_third"),
          share("last notes, fifth", .178, false, "phrase_ends_on_fifth"),
          share("last notes, seventh or sixth", .087, false, "phrase_ends_on_seventh"),
          share("starts in beat 1", .292, true, "phrase_starts_beat_1"),
          share("starts in beat 2", .253, true, "phrase_starts_beat_2"),
          share("starts in beat 3", .254, true, "phrase_starts_beat_3"),
          share("starts in beat 4", .200, true, "phrase_starts_beat_4"),
          share("starts on a beat", .348, true, "phrase_starts_on_beat"),
          share("ends in beat 1", .273, true, "phrase_ends_beat_1"),
          share("ends in beat 2", .227, true, "phrase_ends_beat_2"),
          share("ends in beat 3", .252, true, "phrase_ends_beat_3"),
          share("ends in beat 4", .248, true, "phrase_ends_beat_4"),
          share("ends on a beat", .386, true, "phrase_ends_on_beat"),
          share("contour descending", .338, false, "contour_descending"),
          share("contour convex", .292, false, "contour_convex"),
          share("contour ascending", .209, false, "contour_ascending"),
          share("contour concave", .137, false, "contour_concave"),
          share("contour other", .023, false, "contour_other"),
          share("repetitions", .046, false, "repetition_share"),
          share("steps", .561, false, "step_share"),
          share("semitones", .276, false, "semitone_share"),
          share("skips", .265, false, "skip_share"),
          share("leaps", .128, false, "leap_share"),
          share("upwards, of moving intervals", .456 / (.456 + .498), false, "ascending_share"),
          share("off the beat", .678, true, "off_beat_share"),
          ofSolos("nPVI of onset gaps, median", 36.6, 3, "onset_gap_npvi"),
          ofSolos("equal onset gaps, median", .463, GAP, "equal_gap_share"),
          ofSolos("pitch-class entropy, median", 3.387, GAP, "pitch_class_entropy"),
          ofSolos("notes per bar, median", 5.93, .3, "notes_per_bar"),
          ofSolos("sounding share, median", .673, Double.POSITIVE_INFINITY, "sounding_share"));

  /** Pitch classes. */
  private static final int CLASSES = 12;

  private static final List<String> COLUMNS = List.of("human", "strict", "breath", "silence");
  private static final Map<String, Map<String, String>> SONGS = new TreeMap<>();
  private static Reading human;
  private static Reading strict;
  private static Reading breath;
  private static Reading silence;
  private static Map<String, Reading> readings;

  /** Every solo under one way of finding phrases. */
  private static final class Reading {
    private final Map<String, FileRows.Result> solos = new TreeMap<>();

    Reading(String rule, boolean anticipation, PhraseMarks marks) throws IOException {
      StudySettings settings =
          new StudySettings(rule, Map.of(), anticipation, false, "", List.of(), Map.of());
      FileRows reader = new FileRows(settings, TableSchemas.named("solos"), marks);
      for (String song : SONGS.keySet()) {
        String name = song + ".musicxml";
        FileRows.Result result =
            reader.of(
                "corpus", name, Files.readAllBytes(SOLOS.resolve("xml").resolve(name)), Map.of());
        assertThat(result.rejection()).as(song).isNull();
        solos.put(song, result);
      }
    }

    List<TableRow> rows(String song, String table) {
      return solos.get(song).rows().getOrDefault(table, List.of());
    }

    private Double value(String song, String statistic) {
      return rows(song, "solo_statistics").stream()
          .filter(row -> row.text("statistic").equals(statistic))
          .findFirst()
          .orElseThrow()
          .number("value");
    }

    /** A share of everything in the solos: each solo weighs as much as it has of it. */
    double pooled(boolean fourFour, String statistic) {
      double sum = 0;
      double all = 0;
      for (String song : songs(fourFour)) {
        for (TableRow row : rows(song, "solo_statistics")) {
          if (row.text("statistic").equals(statistic) && !row.isMissing("value")) {
            sum += row.number("value") * row.integer("n");
            all += row.integer("n");
          }
        }
      }
      return sum / all;
    }

    double medianOfSolos(String statistic) {
      List<Double> values = new ArrayList<>();
      for (String song : SONGS.keySet()) {
        Double value = value(song, statistic);
        if (value != null) {
          values.add(value);
        }
      }
      return median(values);
    }

    double medianOfPhrases(boolean fourFour, String statistic) {
      List<Double> values = new ArrayList<>();
      for (String song : songs(fourFour)) {
        for (TableRow row : rows(song, "phrase_statistics")) {
          if (row.text("statistic").equals(statistic) && !row.isMissing("value")) {
            values.add(row.number("value"));
          }
        }
      }
      return median(values);
    }
  }

  private static List<String> songs(boolean fourFour) {
    return SONGS.keySet().stream()
        .filter(song -> !fourFour || SONGS.get(song).get("signature").equals("4/4"))
        .toList();
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(each -> each).sorted().toArray();
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }

  @BeforeAll
  static void solos() throws IOException {
    assumeThat(SOLOS).as("the development solos are not beside the checkout").isDirectory();
    try (InputStream stream = Files.newInputStream(SOLOS.resolve("solos.csv"))) {
      for (CSVRecord record : records(stream)) {
        SONGS.put(record.get("song"), record.toMap());
      }
    }
    PhraseMarks marks =
        PhraseMarks.read("phrases.csv", Files.readAllBytes(SOLOS.resolve("phrases.csv")), "song");
    human = new Reading("breath", true, marks);
    strict = new Reading("breath", false, marks);
    breath = new Reading("breath", true, null);
    silence = new Reading("silence", true, null);
    readings = Map.of("human", human, "strict", strict, "breath", breath, "silence", silence);
  }

  @AfterAll
  static void print() throws IOException {
    if (SONGS.isEmpty()) {
      return;
    }
    StringBuilder text = new StringBuilder();
    text.append(
        """
        Strict: phrases marked by people, every note judged by the chord at its onset. The published
        sounding share is that of notes as performed; here notes last as written in the scores.
        """);
    line(text, "%-34s %9s", "", "published");
    COLUMNS.forEach(column -> line(text, " %8s", column));
    for (Figure figure : FIGURES) {
      line(text, "%n%-34s %9.3f", figure.name(), figure.published());
      COLUMNS.forEach(column -> line(text, " %8.3f", figure.of(column)));
    }
    text.append("\n\n");
    text.append(tones().text());
    System.out.print(text);
    Files.writeString(
        Files.createDirectories(Path.of("target")).resolve("published-figures.txt"), text);
  }

  private static void line(StringBuilder text, String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values).replace(System.lineSeparator(), "\n"));
  }

  private static List<CSVRecord> records(InputStream stream) throws IOException {
    return CSVFormat.RFC4180
        .builder()
        .setHeader()
        .setSkipHeaderRecord(true)
        .get()
        .parse(new InputStreamReader(stream, StandardCharsets.UTF_8))
        .getRecords();
  }

  private static Map<String, CSVRecord> bySong(String file) throws IOException {
    Map<String, CSVRecord> rows = new LinkedHashMap<>();
    try (InputStream stream = Files.newInputStream(SOLOS.resolve(file))) {
      records(stream).forEach(record -> rows.put(record.get("song"), record));
    }
    return rows;
  }

  @Test
  void figuresOfHumanPhrasesAreThoseOfTheWholeDataSet() {
    for (Figure figure : FIGURES) {
      assertThat(Math.abs(figure.of("human") - figure.published()))
          .as(figure.name())
          .isLessThanOrEqualTo(figure.tolerance());
    }
  }

  /** So that nobody has to mark phrases to study how they end. */
  @Test
  void ourPhrasesMoveNoShareByThreePoints() {
    for (Figure figure : FIGURES) {
      if (figure.tolerance() == GAP) {
        for (String rule : List.of("breath", "silence")) {
          assertThat(figure.of(rule))
              .as(figure.name() + " under " + rule)
              .isCloseTo(figure.of("human"), within(GAP));
        }
      }
    }
  }

  /** Counted from the phrase marks and chords by another program, to four decimals. */
  @Test
  void phrasesAndTheirEndingsAreThoseCountedBefore() throws IOException {
    Map<String, CSVRecord> counted = bySong("reference_stats.csv");
    int endings = 0;
    for (String song : SONGS.keySet()) {
      CSVRecord row = counted.get(song);
      int phrases = human.rows(song, "phrases").size();
      assertThat(phrases).as(song).isEqualTo(Integer.parseInt(row.get("phrases")));
      assertThat((double) human.rows(song, "notes").size() / phrases)
          .as(song)
          .isCloseTo(number(row, "mean_notes_per_phrase"), within(6e-5));
      Double onChord = strict.value(song, "phrase_ends_on_chord_tone");
      if (onChord != null) {
        assertThat(onChord)
            .as(song)
            .isCloseTo(number(row, "share_last_note_in_core_chord"), within(6e-5));
        endings++;
      }
    }
    assertThat(endings).isGreaterThan(210);
  }

  /** Published for each solo; the entropy relative to that of twelve equal classes. */
  @Test
  void rangeAndEntropyOfEachSoloAreThosePublished() throws IOException {
    Map<String, CSVRecord> features = bySong("features_published.csv");
    for (String song : SONGS.keySet()) {
      CSVRecord row = features.get(song);
      assertThat(human.value(song, "solo_range")).as(song).isEqualTo(number(row, "pitch_range"));
      assertThat(human.value(song, "pitch_class_entropy") * Math.log(2) / Math.log(12))
          .as(song)
          .isCloseTo(number(row, "pc_entropy"), within(1e-6));
    }
  }

  /**
   * Tones by semitones above the chord's root. The data set dealt chords by clock time, so that
   * some notes just before a change count with another chord there than where they are written.
   */
  @Test
  void tonesAboveTheRootAreThosePublished() throws IOException {
    Tones tones = tones();

    assertThat(tones.solos()).isGreaterThan(210);
    assertThat((double) tones.differing() / tones.notes()).isLessThan(.03);
    for (int semitones = 0; semitones < CLASSES; semitones++) {
      assertThat(tones.gaps()[semitones]).as("%d", semitones).isLessThan(.01);
      assertThat(tones.gapsWithout()[semitones]).as("%d", semitones).isLessThan(.001);
    }
  }

  private static double number(CSVRecord row, String column) {
    return Double.parseDouble(row.get(column));
  }

  /**
   * Our tones above the root beside the published ones.
   *
   * @param solos with chords
   * @param notes of all solos
   * @param differing notes whose class is another, or that have one on one side alone
   * @param gaps mean absolute difference of the shares in a solo, by class
   * @param gapsWithout the same without the differing notes
   */
  private record Tones(int solos, int notes, int differing, double[] gaps, double[] gapsWithout) {
    String text() {
      StringBuilder text = new StringBuilder();
      line(
          text,
          "Tones above the root, %d solos, %d notes, %d with another class in the data%n",
          solos,
          notes,
          differing);
      line(text, "%-34s %9s %9s%n", "mean absolute difference of", "all notes", "without");
      for (int semitones = 0; semitones < CLASSES; semitones++) {
        line(
            text,
            "%-34s %9.5f %9.5f%n",
            semitones + " semitones",
            gaps[semitones],
            gapsWithout[semitones]);
      }
      return text.toString();
    }
  }

  private static Tones tones() throws IOException {
    Map<String, CSVRecord> features = bySong("features_published.csv");
    Map<String, List<Integer>> given = new TreeMap<>();
    try (InputStream stream =
        new GZIPInputStream(Files.newInputStream(SOLOS.resolve("notes.csv.gz")))) {
      for (CSVRecord record : records(stream)) {
        given
            .computeIfAbsent(record.get("song"), song -> new ArrayList<>())
            .add(Integer.valueOf(record.get("cpc")));
      }
    }
    double[] gaps = new double[CLASSES];
    double[] gapsWithout = new double[CLASSES];
    int solos = 0;
    int notes = 0;
    int differing = 0;
    for (String song : SONGS.keySet()) {
      List<Integer> theirs = given.get(song);
      List<Integer> ours = tonesAboveRoot(song);
      assertThat(ours).as(song).hasSameSizeAs(theirs);
      notes += ours.size();
      double[] own = new double[CLASSES];
      double[] same = new double[CLASSES];
      double[] onlyTheirs = new double[CLASSES];
      for (int i = 0; i < ours.size(); i++) {
        int our = ours.get(i);
        int their = theirs.get(i);
        if (our >= 0) {
          own[our]++;
        }
        if (our != their) {
          differing++;
          if (their >= 0) {
            onlyTheirs[their]++;
          }
        } else if (our >= 0) {
          same[our]++;
        }
      }
      double shared = Arrays.stream(same).sum();
      if (shared == 0) {
        continue;
      }
      solos++;
      double published = shared + Arrays.stream(onlyTheirs).sum();
      for (int c = 0; c < CLASSES; c++) {
        double share =
            number(features.get(song), String.format(Locale.ROOT, "cpc_hist_density_%02d", c));
        gaps[c] += Math.abs(share - own[c] / Arrays.stream(own).sum());
        gapsWithout[c] += Math.abs(share * published - onlyTheirs[c] - same[c]) / shared;
      }
    }
    int all = solos;
    return new Tones(
        solos,
        notes,
        differing,
        Arrays.stream(gaps).map(gap -> gap / all).toArray(),
        Arrays.stream(gapsWithout).map(gap -> gap / all).toArray());
  }

  /** Semitones above the root of the chord at each onset; -1 without a root. */
  private static List<Integer> tonesAboveRoot(String song) {
    List<TableRow> chords = strict.rows(song, "chords");
    List<Integer> tones = new ArrayList<>();
    for (TableRow note : strict.rows(song, "notes")) {
      TableRow chord =
          note.isMissing("chord_index") ? null : chords.get(note.integer("chord_index"));
      tones.add(
          chord == null || chord.isMissing("root_pc")
              ? -1
              : Math.floorMod(note.integer("midi_concert") - chord.integer("root_pc"), CLASSES));
    }
    return tones;
  }
}
