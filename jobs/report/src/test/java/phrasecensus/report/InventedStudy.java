package phrasecensus.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.aim.Answer;
import phrasecensus.music.aim.Answers;
import phrasecensus.music.aim.FirstSteps;
import phrasecensus.music.statistic.NoteValue;
import phrasecensus.music.statistic.StatisticValue;
import phrasecensus.music.time.Fraction;
import phrasecensus.tables.Column;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * A study made of nothing: solos over a twelve-bar form from a seeded dice, by players who do not
 * exist. The statistics that the pages draw beside notes are counted from the notes; the others are
 * numbers of a likely size. Good for looking at pages, not for learning about music.
 */
final class InventedStudy {
  /** Half steps above the tonic and kind of each bar of the form. */
  private static final int[] ROOTS = {0, 5, 0, 0, 5, 5, 0, 9, 2, 7, 0, 7};

  private static final String[] KINDS = {
    "7", "7", "7", "7", "7", "7", "7", "7(♭9)", "m7", "7", "7", "7"
  };
  private static final int[] FLAT_TONICS = {5, 10, 3, 0};
  private static final String[] SHARPS = {
    "C", "D♭", "D", "E♭", "E", "F", "G♭", "G", "A♭", "A", "B♭", "B"
  };

  private final RowsInMemory tables = new RowsInMemory();
  private final Random dice;
  private final List<Played> played = new ArrayList<>();
  private final TableSchema solosSchema =
      TableSchemas.named("solos")
          .withMetadata(List.of("style", "level", "teacher_note", "work_on"));
  private final String title;
  private String reference = "all";
  private int soloBars = 24;

  /** True where the study has the tables that are made on request, be they empty. */
  private boolean onRequest;

  /** What stands in place of the students' own values. */
  private final Map<String, Double> told = new TreeMap<>();

  /** Further columns of the students' solos. */
  private final Map<String, String> metadata = new TreeMap<>();

  private InventedStudy(String title, long seed) {
    this.title = title;
    this.dice = new Random(seed);
  }

  /** How a player plays. */
  record Habit(
      double phraseNotes, double restBeats, double eighths, double longNotes, double chordLanding) {
    static final Habit USUAL = new Habit(13, 2.2, 0.66, 0.1, 0.72);

    Habit toward(Habit other, double part) {
      return new Habit(
          mix(phraseNotes, other.phraseNotes, part),
          mix(restBeats, other.restBeats, part),
          mix(eighths, other.eighths, part),
          mix(longNotes, other.longNotes, part),
          mix(chordLanding, other.chordLanding, part));
    }

    private static double mix(double a, double b, double part) {
      return a + (b - a) * part;
    }
  }

  private record Played(
      String soloId,
      boolean corpus,
      String student,
      String date,
      String player,
      String style,
      String instrument,
      Map<String, Double> values,
      Map<String, Integer> counts) {}

  private record Sound(Fraction onset, Fraction length, int midi, int phrase) {}

  /**
   * Sixty corpus solos of two styles and three instruments, three students with four dated solos.
   */
  static InventedStudy usual() {
    return usual("all");
  }

  /** The same with each student held against solos of the same style first. */
  static InventedStudy besideStyle() {
    return usual("style");
  }

  private static InventedStudy usual(String reference) {
    InventedStudy study = new InventedStudy("Harbour and hill: a study of two invented styles", 11);
    study.reference = reference;
    study.corpus(60, 8);
    Habit[] starts = {
      new Habit(58, 0.8, 0.72, 0.05, 0.7),
      new Habit(8, 3.4, 0.2, 0.7, 0.74),
      new Habit(13, 2.2, 0.6, 0.12, 0.3)
    };
    String[] names = {"Mara Lindgren", "Tobias Achterberg", "Yori Castell"};
    String[] instruments = {"clarinet", "trombone", "vibraphone"};
    for (int s = 0; s < names.length; s++) {
      for (int k = 0; k < 4; k++) {
        study.solo(
            "student",
            names[s].toLowerCase(java.util.Locale.ROOT).replace(' ', '-')
                + "/take-"
                + (k + 1)
                + ".musicxml",
            names[s],
            "2026-0" + (k + 1) + "-1" + (s + 2),
            new String[] {"Low Tide", "Ropewalk", "Third Buoy", "Low Tide again"}[k],
            names[s],
            s == 2 ? "night ferry" : "quayside swing",
            instruments[s],
            starts[s].toward(Habit.USUAL, k * 0.27));
      }
    }
    study.reject("corpus", "broken/half-a-file.musicxml", "The file ends in the middle of bar 7.");
    study.reject("corpus", "notes.txt", "The file is no MusicXML: it begins with plain text.");
    study.problem(
        "corpus", "quayside-swing-03.musicxml", "chord kind 'maj69' is not in MusicXML 4.0");
    study.problem("student", "mara-lindgren/take-2.musicxml", "tempo 0 is not positive");
    study.compare();
    study.sensitivity();
    return study;
  }

  /**
   * Twelve corpus solos and two students whose solos answer as they are told to.
   *
   * @param told values of statistics of their solos
   * @param metadata further columns of their solos, as in {@code level}
   * @param corpus false to leave the corpus out
   */
  static InventedStudy lessons(
      Map<String, Double> told, Map<String, String> metadata, boolean corpus) {
    InventedStudy study = new InventedStudy("Thursday evening", 13);
    study.told.putAll(told);
    study.metadata.putAll(metadata);
    study.soloBars = 16;
    if (corpus) {
      study.corpus(12, 4);
    }
    for (String student : List.of("Orla Finch", "Casimir Wold")) {
      for (int take = 1; take <= 3; take++) {
        study.solo(
            "student",
            student.substring(0, 4).toLowerCase(java.util.Locale.ROOT) + "/" + take + ".musicxml",
            student,
            "2026-0" + take + "-05",
            "Tide " + take,
            student,
            "quayside swing",
            "clarinet",
            Habit.USUAL);
      }
    }
    study.compare();
    return study;
  }

  /** Sixty corpus solos and one student with one rambling solo. */
  static InventedStudy ofOneSolo() {
    InventedStudy study = new InventedStudy("One", 12);
    study.corpus(60, 8);
    study.solo(
        "student",
        "one.musicxml",
        "Solo Student",
        "2026-03-01",
        "One",
        "Solo Student",
        "quayside swing",
        "trombone",
        new Habit(58, 0.8, 0.72, 0.05, 0.7));
    study.compare();
    return study;
  }

  /** A student's solo of five minutes: 250 bars in four at 200 quarter notes a minute. */
  static InventedStudy ofLongSolos() {
    InventedStudy study = new InventedStudy("Long", 9);
    study.corpus(30, 6);
    study.soloBars = 250;
    for (int take = 1; take <= 4; take++) {
      study.solo(
          "student",
          "lena/" + take + ".musicxml",
          "Lena",
          "2026-0" + take + "-01",
          "Long " + take,
          "Lena",
          "quayside swing",
          "trombone",
          new Habit(13, 1.4, 0.8, 0.02, 0.4));
    }
    study.compare();
    return study;
  }

  /**
   * The usual corpus 84 times over, which makes 5,040 solos, in 302 styles of which 150 pairs
   * differ clearly and 150 do not, with thousands of problems and files that were not read.
   */
  static InventedStudy large() {
    InventedStudy study = usual();
    for (String table :
        List.of(
            "files",
            "solos",
            "phrases",
            "bars",
            "chords",
            "notes",
            "landings",
            "phrase_statistics")) {
      List<TableRow> rows = study.tables.rows(table, Map.of("role", "corpus"));
      for (int copy = 1; copy < 84; copy++) {
        boolean light = table.equals("solos") || table.equals("files") || table.equals("phrases");
        for (TableRow row : light || copy % 12 == 0 ? rows : List.<TableRow>of()) {
          if (!row.isMissing("solo_id")) {
            String more = "-" + copy;
            study.tables.add(
                copy(
                    row,
                    Map.of(
                        "solo_id", row.text("solo_id") + more, "file", row.text("file") + more)));
          }
        }
      }
    }
    List<TableRow> norms =
        study.tables.rows("norms", Map.of("group_by", "style", "group_value", "quayside swing"));
    TableRow contrast = study.tables.rows("contrasts").get(0);
    for (int group = 1; group <= 300; group++) {
      String style = "another style with a long name " + group;
      norms.forEach(norm -> study.tables.add(copy(norm, Map.of("group_value", style))));
      study.tables.add(
          copy(contrast, Map.of("first_group", style, "p_adjusted", group % 2 == 0 ? 0.01 : 0.9)));
      for (int i = 0; i < 20; i++) {
        study.reject("corpus", "broken/" + group + "-" + i, "The file is empty.");
        study.problem("corpus", "quayside-swing-03.musicxml", "chord kind " + group);
      }
    }
    return study;
  }

  private static TableRow copy(TableRow row, Map<String, ?> changed) {
    TableRow.Builder copy = TableRow.of(row.schema());
    for (Column column : row.schema().columns()) {
      copy.set(
          column.name(),
          changed.containsKey(column.name())
              ? changed.get(column.name())
              : row.value(column.name()));
    }
    return copy.build();
  }

  /** A corpus of few solos, a style with one, a student with one solo without a date. */
  static InventedStudy small() {
    InventedStudy study = new InventedStudy("Small", 5);
    study.corpus(8, 2);
    study.solo(
        "corpus",
        "alone.musicxml",
        null,
        null,
        "Alone",
        "Solitary",
        "lone style",
        "clarinet",
        Habit.USUAL);
    study.solo("student", "only.musicxml", "Only", null, "", "", "", "clarinet", Habit.USUAL);
    study.compare();
    return study;
  }

  /** No norm at all: two corpus solos; a solo without a note among the student's. */
  static InventedStudy bare() {
    InventedStudy study = new InventedStudy("Bare", 6);
    study.corpus(2, 1);
    study.solo(
        "student",
        "a/one.musicxml",
        "A",
        "2026-02-01",
        "One",
        "A",
        "quayside swing",
        "flute",
        Habit.USUAL);
    study.silent("a/two.musicxml", "A");
    study.compare();
    return study;
  }

  /** Every text that a file can bring says {@code text}. */
  static InventedStudy saying(String text) {
    InventedStudy study = new InventedStudy(text, 7);
    study.corpus(12, 4);
    study.solo("corpus", "x/" + text, null, null, text, text, text, text, Habit.USUAL);
    study.solo("student", text, text, "2026-02-01", text, text, text, text, Habit.USUAL);
    study.reject("corpus", text, text);
    study.problem("corpus", text, text);
    study.compare();
    return study;
  }

  RowsInMemory tables() {
    return tables;
  }

  /** The same study with the tables that are made on request, empty. */
  InventedStudy withPatterns() {
    onRequest = true;
    return this;
  }

  /**
   * A figure of five notes, said to start twice in every solo: at its first note, in bar 1, and at
   * its third, in bar 2. Whether the notes have these intervals no page asks.
   *
   * @param owner {@code corpus} or {@code student}
   * @param student empty for the corpus
   * @param ofCorpus corpus solos that hold it, without those that are not listed
   * @param unlisted further corpus solos that count
   */
  InventedStudy withFigure(
      String owner,
      String student,
      int place,
      List<String> ofCorpus,
      int unlisted,
      List<String> ofStudent) {
    onRequest = true;
    boolean own = owner.equals("student");
    tables.add(
        TableRow.of(TableSchemas.named("figures"))
            .set("owner", owner)
            .set("student", student)
            .set("place", place)
            .set("pattern", "+1 -1 -2 -2")
            .set("length", 4)
            .set("corpus_solos", ofCorpus.size() + unlisted)
            .set("corpus_players", ofCorpus.isEmpty() ? 0 : 1)
            .set("corpus_windows", 2 * (ofCorpus.size() + unlisted))
            .set("student_solos", own ? ofStudent.size() : null)
            .set("student_windows", own ? 2 * ofStudent.size() : null)
            .set("example_solo_id", own ? ofStudent.get(0) : ofCorpus.get(0))
            .set("example_note_index", 0)
            .build());
    for (List<String> solos : List.of(ofCorpus, ofStudent)) {
      for (String solo : solos) {
        String role = solo.substring(0, solo.indexOf('/'));
        for (int note = 0; note <= 2; note += 2) {
          tables.add(
              TableRow.of(TableSchemas.named("figure_places"))
                  .set("solo_id", solo)
                  .set("role", role)
                  .set("file", solo.substring(role.length() + 1))
                  .set("owner", owner)
                  .set("student", student)
                  .set("place", place)
                  .set("note_index", note)
                  .set("last_note_index", note + 4)
                  .set("phrase_index", 0)
                  .set("bar_number", note == 0 ? "1" : "2")
                  .build());
        }
      }
    }
    return this;
  }

  Manifest manifest() {
    Map<String, String> settings = new TreeMap<>();
    settings.put("phrase-rule", "silence");
    settings.put("phrase-rule.minimum-beats", "3/4");
    settings.put("anticipation", "true");
    settings.put("student-only", "{\"student\":[\"Mara Lindgren\",\"Tobias\"]}");
    Map<String, Manifest.Table> written = new LinkedHashMap<>();
    for (TableSchema schema : TableSchemas.all()) {
      if (TableSchemas.ON_REQUEST.contains(schema.table()) && !onRequest) {
        continue;
      }
      written.put(
          schema.table(),
          new Manifest.Table(
              schema.version(), tables.rows(schema.table()).size(), "0".repeat(63) + "a"));
    }
    return new Manifest(
        "phrase-census 0.1.0",
        new Manifest.Study(
            "invented",
            title,
            "Invented from end to end; no recording or tune stands behind it.",
            DataSource.NOT_STATED),
        settings,
        List.of("style", "instrument"),
        new Manifest.Report(true, false),
        List.of(),
        List.of(new Manifest.Input("corpus", "a.musicxml", "0")),
        1,
        written);
  }

  private void corpus(int solos, int players) {
    String[] styles = {"quayside swing", "night ferry"};
    String[] instruments = {"clarinet", "trombone", "vibraphone"};
    for (int i = 0; i < solos; i++) {
      String style = styles[i % 5 < 3 ? 0 : 1];
      Habit habit =
          new Habit(
              8 + 11 * dice.nextDouble(),
              1.4 + 1.8 * dice.nextDouble(),
              0.5 + 0.32 * dice.nextDouble(),
              0.04 + 0.14 * dice.nextDouble(),
              0.58 + 0.3 * dice.nextDouble());
      solo(
          "corpus",
          style.replace(' ', '-') + "-" + (i < 10 ? "0" : "") + i + ".musicxml",
          null,
          null,
          "Invented " + i,
          "Player " + (char) ('A' + i % players),
          style,
          instruments[i * 7 % 3],
          habit);
    }
  }

  private void silent(String file, String student) {
    String soloId = "student/" + file;
    soloRow("student", file, student, null, "Silent", "", "quayside swing", "flute", 0, 1, 0, 0);
    Map<String, Double> values = new LinkedHashMap<>();
    Map<String, Integer> counts = new LinkedHashMap<>();
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().ofLevel("solo")) {
      values.put(definition.key(), null);
      counts.put(definition.key(), 0);
    }
    statistics(soloId, "student", file, values, counts);
    played.add(
        new Played(soloId, false, student, null, "", "quayside swing", "flute", values, counts));
  }

  /** Stands for a file's bytes: one student handed in a file of the corpus. */
  private static String bytes(String file) {
    return file.equals("mara-lindgren/take-3.musicxml") ? "quayside-swing-05.musicxml" : file;
  }

  private void reject(String role, String file, String reason) {
    tables.add(
        TableRow.of(TableSchemas.named("files"))
            .set("role", role)
            .set("file", file)
            .set("bytes", 10L)
            .set("format", "unknown")
            .set("outcome", "rejected")
            .set("reason", reason)
            .set("problem_count", 0)
            .build());
  }

  private void problem(String role, String file, String found) {
    tables.add(
        TableRow.of(TableSchemas.named("problems"))
            .set("role", role)
            .set("file", file)
            .set("solo_id", role + "/" + file)
            .set("problem_index", 0)
            .set("part", "P1")
            .set("bar", "12")
            .set("code", "unknown-chord-kind")
            .set("severity", 2)
            .set("found", found)
            .set("done", "root kept, quality unknown")
            .build());
  }

  private void solo(
      String role,
      String file,
      String student,
      String date,
      String soloTitle,
      String player,
      String style,
      String instrument,
      Habit habit) {
    String soloId = role + "/" + file;
    int tonic = FLAT_TONICS[dice.nextInt(FLAT_TONICS.length)];
    int transposed = "clarinet".equals(instrument) ? 2 : 0;
    boolean pickup = dice.nextBoolean();
    int bars = soloBars;
    Fraction start = pickup ? Fraction.ONE : Fraction.ZERO;
    List<Sound> sounds = sounds(habit, tonic, bars, start, pickup);
    int phrases = sounds.get(sounds.size() - 1).phrase() + 1;
    // Of the corpus some solos have their notes: those that examples are taken from.
    boolean drawn = role.equals("student") || played.size() < 8;
    soloRow(
        role,
        file,
        student,
        date,
        soloTitle,
        player,
        style,
        instrument,
        tonic,
        bars + (pickup ? 1 : 0),
        sounds.size(),
        phrases);
    if (drawn) {
      bars(soloId, role, file, bars, pickup);
      chords(soloId, role, file, tonic, transposed, bars, start);
    }
    Map<String, Double> values = new LinkedHashMap<>();
    Map<String, Integer> counts = new LinkedHashMap<>();
    count(soloId, role, file, sounds, tonic, transposed, start, drawn, values, counts);
    if (role.equals("student")) {
      values.putAll(told);
    }
    statistics(soloId, role, file, values, counts);
    played.add(
        new Played(
            soloId,
            role.equals("corpus"),
            student,
            date,
            player,
            style,
            instrument,
            values,
            counts));
  }

  private List<Sound> sounds(Habit habit, int tonic, int bars, Fraction start, boolean pickup) {
    List<Sound> sounds = new ArrayList<>();
    Fraction end = start.plus(Fraction.of(bars * 4L - 2));
    Fraction time = pickup ? Fraction.ZERO : Fraction.of(1, 2);
    int phrase = 0;
    double place = 64 + dice.nextInt(8);
    double direction = 1;
    while (time.isBefore(end)) {
      int notes =
          Math.max(3, (int) Math.round(habit.phraseNotes() * (0.35 + 1.3 * dice.nextDouble())));
      for (int i = 0; i < notes && time.isBefore(end); i++) {
        Fraction length = length(habit);
        if (!length.isWhole() && length.denominator() == 3) {
          for (int k = 0; k < 3; k++) {
            place = step(place, direction);
            sounds.add(new Sound(time, length, (int) Math.round(place), phrase));
            time = time.plus(length);
          }
          continue;
        }
        if (dice.nextDouble() < 0.22) {
          direction = -direction;
        }
        if (place > 81) {
          direction = -1;
        } else if (place < 58) {
          direction = 1;
        }
        place = step(place, direction);
        boolean last = i == notes - 1;
        if (last) {
          length = dice.nextInt(3) == 0 ? Fraction.of(3, 2) : Fraction.ONE;
          if (dice.nextDouble() < habit.chordLanding()) {
            place = nearest((int) Math.round(place), tonic, time.minus(start));
          }
        }
        sounds.add(new Sound(time, length, (int) Math.round(place), phrase));
        time = time.plus(length);
      }
      long rest = Math.max(2, Math.round(habit.restBeats() * 2 * (0.5 + dice.nextDouble())));
      // Back to the grid of eighths, after at least a beat of rest.
      Fraction next = Fraction.of(time.times(2).floor() + 1 + rest, 2);
      time = next;
      phrase++;
    }
    return sounds;
  }

  private double step(double place, double direction) {
    double[] sizes = {1, 1, 2, 2, 2, 3, 4};
    return Math.max(55, Math.min(84, place + direction * sizes[dice.nextInt(sizes.length)]));
  }

  private Fraction length(Habit habit) {
    double throwOf = dice.nextDouble();
    if (throwOf < habit.eighths()) {
      return Fraction.HALF;
    }
    if (throwOf < habit.eighths() + habit.longNotes()) {
      return dice.nextInt(4) == 0 ? Fraction.of(3) : Fraction.of(2);
    }
    return switch (dice.nextInt(6)) {
      case 0 -> Fraction.of(1, 3);
      case 1, 2 -> Fraction.ONE;
      case 3 -> Fraction.of(3, 2);
      case 4 -> Fraction.of(1, 4);
      default -> Fraction.HALF;
    };
  }

  private static int chordAt(Fraction sinceForm) {
    return (int) Math.floorMod(Math.floorDiv(sinceForm.floor(), 4L), 12L);
  }

  private static int[] tones(int bar) {
    return KINDS[bar].startsWith("m") ? new int[] {0, 3, 7, 10} : new int[] {0, 4, 7, 10};
  }

  private static boolean isCore(int midi, int tonic, Fraction sinceForm) {
    return Arrays.stream(tones(chordAt(sinceForm)))
        .anyMatch(t -> t == above(midi, tonic, sinceForm));
  }

  private static int above(int midi, int tonic, Fraction sinceForm) {
    return Math.floorMod(midi - tonic - ROOTS[chordAt(sinceForm)], 12);
  }

  private static int nearest(int midi, int tonic, Fraction sinceForm) {
    for (int d = 0; d < 4; d++) {
      if (isCore(midi + d, tonic, sinceForm)) {
        return midi + d;
      }
      if (isCore(midi - d, tonic, sinceForm)) {
        return midi - d;
      }
    }
    return midi;
  }

  private void soloRow(
      String role,
      String file,
      String student,
      String date,
      String soloTitle,
      String player,
      String style,
      String instrument,
      int tonic,
      int bars,
      int notes,
      int phrases) {
    tables.add(
        TableRow.of(TableSchemas.named("files"))
            .set("role", role)
            .set("file", file)
            .set("solo_id", role + "/" + file)
            .set("sha256", bytes(file))
            .set("bytes", 1000L)
            .set("format", "musicxml")
            .set("outcome", "read")
            .set("problem_count", 0)
            .set("left_out_notes", 0)
            .build());
    tables.add(
        TableRow.of(solosSchema)
            .set("solo_id", role + "/" + file)
            .set("role", role)
            .set("file", file)
            .set("student", student)
            .set("date", day(date))
            .set("title", soloTitle)
            .set("performer", player)
            .set("instrument", instrument)
            .set("part", "P1")
            .set("part_reason", "the only part")
            .set("chord_source", "chord symbols of the solo part")
            .set("metre", "4/4")
            .set("tempo_qpm", 152.0)
            .set("key_fifths", -1)
            .set("centre_tonic_pc", tonic)
            .set("centre_mode", "blues")
            .set("centre_scale", "blues")
            .set("centre_source", "chords")
            .set("bars", bars)
            .set("notes", notes)
            .set("phrases", phrases)
            .set("phrase_rule", "silence")
            .set("phrase_rule_reason", "the study says so")
            .fraction("length", bars * 4L, 1)
            .set("style", style)
            .set("level", student == null ? null : metadata.get("level"))
            .set("teacher_note", student == null ? null : metadata.get("teacher_note"))
            .set("work_on", student == null ? null : metadata.get("work_on"))
            .build());
  }

  private TableRow.Builder row(String table, String soloId, String role, String file) {
    return TableRow.of(TableSchemas.named(table))
        .set("solo_id", soloId)
        .set("role", role)
        .set("file", file);
  }

  private TableRow.Builder bar(String soloId, String role, String file) {
    return row("bars", soloId, role, file)
        .set("starts_repeat", false)
        .set("ends_repeat", false)
        .set("ends_ending", false)
        .set("ends_double", false);
  }

  private void bars(String soloId, String role, String file, int bars, boolean pickup) {
    int index = 0;
    if (pickup) {
      tables.add(
          bar(soloId, role, file)
              .set("bar_index", index++)
              .set("bar_number", "0")
              .fraction("onset", 0, 1)
              .fraction("length", 1, 1)
              .set("metre", "4/4")
              .fraction("metrical_offset", 3, 1)
              .set("pickup", true)
              .build());
    }
    for (int i = 0; i < bars; i++) {
      tables.add(
          bar(soloId, role, file)
              .set("bar_index", index++)
              .set("bar_number", String.valueOf(i + 1))
              .fraction("onset", i * 4L + (pickup ? 1 : 0), 1)
              .fraction("length", 4, 1)
              .set("metre", "4/4")
              .fraction("metrical_offset", 0, 1)
              .set("pickup", false)
              .set("section", i % 12 == 0 ? String.valueOf((char) ('A' + i / 12)) : null)
              .build());
    }
  }

  private void chords(
      String soloId,
      String role,
      String file,
      int tonic,
      int transposed,
      int bars,
      Fraction start) {
    for (int i = 0; i < bars; i++) {
      int root = Math.floorMod(tonic + ROOTS[i % 12], 12);
      tables.add(
          row("chords", soloId, role, file)
              .set("chord_index", i)
              .fraction("onset", start.numerator() + i * 4L, 1)
              .fraction("end", start.numerator() + i * 4L + 4, 1)
              .set("symbol", SHARPS[root] + KINDS[i % 12])
              .set("symbol_written", SHARPS[(root + transposed) % 12] + KINDS[i % 12])
              .set("text", "")
              .set("root_pc", root)
              .set("pitch_classes", List.of(root))
              .set("core_pitch_classes", List.of(root))
              .set("kind", "dominant")
              .build());
    }
  }

  private void count(
      String soloId,
      String role,
      String file,
      List<Sound> sounds,
      int tonic,
      int transposed,
      Fraction start,
      boolean drawn,
      Map<String, Double> values,
      Map<String, Integer> counts) {
    String[] degrees = {"1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"};
    Map<NoteValue, Integer> byCount = new TreeMap<>();
    Map<NoteValue, Double> byTime = new TreeMap<>();
    double sounding = 0;
    int core = 0;
    int landings = 0;
    int landingCore = 0;
    List<Double> phraseBars = new ArrayList<>();
    List<Double> phraseNotes = new ArrayList<>();
    int inScale = 0;
    int inKey = 0;
    int eighths = 0;
    int steps = 0;
    int first = 0;
    for (int i = 0; i < sounds.size(); i++) {
      Sound sound = sounds.get(i);
      Fraction since = sound.onset().minus(start);
      boolean isCore = isCore(sound.midi(), tonic, since);
      core += isCore ? 1 : 0;
      int scaleStep = Math.floorMod(sound.midi() - tonic, 12);
      boolean isInScale = List.of(0, 2, 3, 4, 5, 6, 7, 9, 10).contains(scaleStep);
      boolean isInKey = isCore || isInScale;
      inScale += isInScale ? 1 : 0;
      inKey += isInKey ? 1 : 0;
      eighths += sound.length().compareTo(Fraction.HALF) <= 0 ? 1 : 0;
      NoteValue value = NoteValue.of(sound.length());
      byCount.merge(value, 1, Integer::sum);
      byTime.merge(value, sound.length().toDouble(), Double::sum);
      sounding += sound.length().toDouble();
      boolean last = i == sounds.size() - 1 || sounds.get(i + 1).phrase() != sound.phrase();
      if (!last) {
        steps += Math.abs(sounds.get(i + 1).midi() - sound.midi()) <= 2 ? 1 : 0;
      }
      boolean onBeat = since.isWhole();
      boolean arrival = onBeat && Math.floorMod(since.numerator(), 4L) == 0;
      boolean held = sound.length().isAtLeast(Fraction.of(3, 2)) && !last;
      String landing = last ? "phrase-end" : held ? "held" : arrival ? "chord-arrival" : null;
      String degree = degrees[above(sound.midi(), tonic, since)];
      if (landing != null) {
        landings++;
        landingCore += isCore ? 1 : 0;
      }
      if (drawn) {
        String written = pitch(sound.midi() + transposed);
        int bar = (int) Math.floorDiv(since.floor(), 4L);
        tables.add(
            row("notes", soloId, role, file)
                .set("note_index", i)
                .set("bar_index", Math.max(0, bar + (start.isZero() ? 0 : 1)))
                .set("bar_number", String.valueOf(bar + 1))
                .fraction("onset", sound.onset().numerator(), sound.onset().denominator())
                .fraction("length", sound.length().numerator(), sound.length().denominator())
                .fraction("position", 0, 1)
                .set("midi_concert", sound.midi())
                .set("midi_written", sound.midi() + transposed)
                .set("name_concert", pitch(sound.midi()))
                .set("name_written", written)
                .set("phrase_index", sound.phrase())
                .set("chord_index", Math.max(0, bar))
                .set("chord_degree", degree)
                .set("degree_role", isCore ? "chord-tone" : "not-in-chord")
                .set("anticipated", false)
                .set("in_centre_scale", true)
                .set("in_key", isInKey)
                .set("stretch_index", sound.phrase())
                .set("resting", last ? "breath" : held ? "held" : null)
                .set("resting_degree", last || held ? degree : null)
                .set("resting_on_chord_tone", last || held ? isCore : null)
                .set("landing_kind", landing)
                .set("grace_before", 0)
                .build());
        if (landing != null) {
          tables.add(
              row("landings", soloId, role, file)
                  .set("note_index", i)
                  .set("phrase_index", sound.phrase())
                  .set("landing_kind", landing)
                  .set("landing_kinds", List.of(landing))
                  .set("approach", "step")
                  .set("chord_symbol", "C7")
                  .set("chord_degree", degree)
                  .set("core_chord_tone", isCore)
                  .build());
        }
      }
      if (last) {
        Fraction end = sound.onset().plus(sound.length());
        double length = end.minus(sounds.get(first).onset()).toDouble() / 4;
        phraseBars.add(length);
        phraseNotes.add((double) (i - first + 1));
        tables.add(
            row("phrases", soloId, role, file)
                .set("phrase_index", sound.phrase())
                .set("first_note_index", first)
                .set("last_note_index", i)
                .fraction(
                    "onset",
                    sounds.get(first).onset().numerator(),
                    sounds.get(first).onset().denominator())
                .fraction("end", end.numerator(), end.denominator())
                .set(
                    "first_bar_number",
                    String.valueOf(sounds.get(first).onset().minus(start).floor() / 4 + 1))
                .set("last_bar_number", String.valueOf(since.floor() / 4 + 1))
                .set("length_bars", length)
                .set("chord_qualities", List.of("dominant"))
                .set("lowest_midi_concert", 60)
                .set("highest_midi_concert", 72)
                .set("difficulty", 2)
                .build());
        phrase(soloId, role, file, sounds.subList(first, i + 1), length);
        first = i + 1;
      }
    }
    int n = sounds.size();
    Sound end = sounds.get(n - 1);
    double quarters = end.onset().plus(end.length()).minus(sounds.get(0).onset()).toDouble();
    for (NoteValue value : NoteValue.values()) {
      values.put("value_share_" + value.word(), byCount.getOrDefault(value, 0) / (double) n);
      values.put("time_share_" + value.word(), byTime.getOrDefault(value, 0.0) / sounding);
    }
    values.put("notes_per_bar", n / (quarters / 4));
    values.put("sounding_share", sounding / quarters);
    values.put("phrase_length_bars", quantile(phraseBars, 0.5));
    values.put("phrase_notes", quantile(phraseNotes, 0.5));
    values.put("chord_tone_share", core / (double) n);
    values.put("landing_chord_tone_share", landingCore / (double) landings);
    values.put("centre_scale_share", inScale / (double) n);
    values.put("centre_scale_chance", 0.75);
    values.put("step_share", steps / (double) n);
    values.put("in_key_share", inKey / (double) n);
    values.put("other_scale_excess", -0.05);
    values.put("resting_chord_tone_share", landingCore / (double) landings);
    values.put("eighth_or_shorter_share", eighths / (double) n);
    values.put("unbroken_time_share", 0.1);
    values.put("scrap_time_share", 0.1);
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().ofLevel("solo")) {
      double size = 0.2 + Math.floorMod(definition.key().hashCode(), 50) / 100.0;
      double number = size * (1 + 0.16 * dice.nextGaussian());
      values.computeIfAbsent(
          definition.key(),
          key -> definition.percent() ? Math.max(0, Math.min(1, number)) : 4 * Math.abs(number));
      counts.put(
          definition.key(),
          definition.key().startsWith("landing") || definition.key().startsWith("resting")
              ? landings
              : definition.key().startsWith("phrase") || definition.key().equals(Answers.STRETCHES)
                  ? phraseBars.size()
                  : definition.key().endsWith("time_share") ? soloBars : n);
    }
    values.keySet().retainAll(counts.keySet());
    // Now and then a statistic has no value.
    if (dice.nextInt(12) == 0) {
      values.put("guide_tone_resolution_share", null);
      counts.put("guide_tone_resolution_share", 0);
    }
  }

  private void phrase(String soloId, String role, String file, List<Sound> sounds, double length) {
    int low = sounds.stream().mapToInt(Sound::midi).min().orElseThrow();
    int high = sounds.stream().mapToInt(Sound::midi).max().orElseThrow();
    Map<String, Double> values = new TreeMap<>();
    values.put("phrase_length_bars", length);
    values.put("phrase_notes", (double) sounds.size());
    values.put("phrase_range", (double) (high - low));
    values.put("notes_per_beat", sounds.size() / (4 * length));
    values.put("phrase_start_beat", 1.5);
    values.put("phrase_end_beat", 3.0);
    values.put("silence_after_beats", null);
    values.forEach(
        (statistic, value) ->
            tables.add(
                row("phrase_statistics", soloId, role, file)
                    .set("phrase_index", sounds.get(0).phrase())
                    .set("statistic", statistic)
                    .set("value", value)
                    .set("n", sounds.size())
                    .build()));
  }

  private static String pitch(int midi) {
    return SHARPS[midi % 12] + (midi / 12 - 1);
  }

  private void statistics(
      String soloId,
      String role,
      String file,
      Map<String, Double> values,
      Map<String, Integer> counts) {
    for (String key : new TreeSet<>(counts.keySet())) {
      tables.add(
          row("solo_statistics", soloId, role, file)
              .set("statistic", key)
              .set("value", values.get(key))
              .set("n", counts.get(key))
              .build());
    }
  }

  /**
   * Norms of the whole corpus, of styles and instruments; departures from the whole and the style.
   */
  /** As a study does it, but that all together are the newest. */
  private void answers(String student, List<Played> solos) {
    for (int i = 0; i < solos.size(); i++) {
      answers(student, "solo", solos.get(i));
    }
    answers(student, "latest", solos.get(solos.size() - 1));
    answers(student, "all", solos.get(solos.size() - 1));
  }

  private void answers(String student, String scope, Played solo) {
    boolean all = scope.equals("all");
    int notes = solo.counts().getOrDefault("in_key_share", 0);
    List<Answer> answers =
        Answers.of(
            FirstSteps.AIMS,
            notes,
            key ->
                new StatisticValue(
                    key, solo.values().get(key), solo.counts().getOrDefault(key, 0)));
    for (int i = 0; i < answers.size(); i++) {
      Answer answer = answers.get(i);
      tables.add(
          TableRow.of(TableSchemas.named("answers"))
              .set("student", student)
              .set("scope", scope)
              .set("solo_id", all ? "" : solo.soloId())
              .set("file", all ? "" : solo.soloId().substring("student/".length()))
              .set("date", all ? null : day(solo.date()))
              .set("question", answer.question().word())
              .set("place", i + 1)
              .set("verdict", answer.verdict().word())
              .set("finding", answer.finding().word())
              .set("aim", answer.aim() == null ? null : answer.aim().statistic())
              .set("value", answer.value())
              .set("low", answer.aim() == null ? null : answer.aim().low())
              .set("high", answer.aim() == null ? null : answer.aim().high())
              .set("counted", answer.aim() == null ? null : answer.aim().counted().word())
              .set("n", answer.n())
              .set("shortage", answer.shortage() == null ? null : answer.shortage().word())
              .set("words", null)
              .set("first", answer.first())
              .build());
    }
  }

  private void compare() {
    List<Played> corpus = played.stream().filter(Played::corpus).toList();
    if (!corpus.isEmpty()) {
      norms("all", "all", corpus);
    }
    for (String style : new TreeSet<>(corpus.stream().map(Played::style).toList())) {
      norms("style", style, corpus.stream().filter(p -> p.style().equals(style)).toList());
    }
    for (String instrument : new TreeSet<>(corpus.stream().map(Played::instrument).toList())) {
      norms(
          "instrument",
          instrument,
          corpus.stream().filter(p -> p.instrument().equals(instrument)).toList());
    }
    Map<String, List<Played>> students = new TreeMap<>();
    played.stream()
        .filter(p -> !p.corpus())
        .forEach(p -> students.computeIfAbsent(p.student(), any -> new ArrayList<>()).add(p));
    students.forEach(
        (student, solos) -> {
          if (corpus.isEmpty()) {
            answers(student, solos);
            return;
          }
          if (solos.size() > 1) {
            // As a study does: the only solo of a student stands for itself.
            departures(student, "pooled", "", null, solos, "all", "all", corpus);
            String style = solos.get(0).style();
            departures(
                student,
                "pooled",
                "",
                null,
                solos,
                "style",
                style,
                corpus.stream().filter(p -> p.style().equals(style)).toList());
          }
          answers(student, solos);
          for (Played solo : solos) {
            departures(
                student, "solo", solo.soloId(), solo.date(), List.of(solo), "all", "all", corpus);
            neighbour(student, solo, corpus.get(0));
          }
          trend(student, solos, "phrase_length_bars", "toward-band");
          trend(student, solos, "step_share", "away-from-band");
          mixture(student, 1, "value_share_eighth", 0.6, 0.4);
          mixture(student, 2, "value_share_quarter", 0.1, 0.3);
          exemplar(student, solos.get(0), "phrase_notes", "student");
          exemplar(student, corpus.get(0), "phrase_notes", "corpus");
        });
    contrast("notes_per_bar", 0.01);
    contrast("step_share", 0.7);
  }

  private void neighbour(String student, Played solo, Played near) {
    tables.add(
        TableRow.of(TableSchemas.named("neighbours"))
            .set("student", student)
            .set("solo_id", solo.soloId())
            .set("place", 1)
            .set("neighbour_id", near.soloId())
            .set("performer", near.player())
            .set("title", title)
            .set("distance", 0.84)
            .set("shared", 44)
            .set("drivers", List.of("leap_share", "phrase_notes", "sounding_share"))
            .set("greatest_difference", -2.1)
            .set("unlike_distance", 1.2)
            .set("alike", true)
            .set("whitened_about", "player")
            .build());
  }

  private void trend(String student, List<Played> solos, String statistic, String movement) {
    boolean dated = solos.size() >= 3;
    tables.add(
        TableRow.of(TableSchemas.named("trends"))
            .set("student", student)
            .set("group_by", "all")
            .set("group_value", "all")
            .set("statistic", statistic)
            .set("facet", "phrasing")
            .set("solos", solos.size())
            .set("dates", dated ? solos.size() : 1)
            .set("change", dated ? (Double) (-2.5) : null)
            .set("movement", dated ? movement : "too-few-dates")
            .set("statement", "invented")
            .set("direction_only", false)
            .build());
  }

  private void mixture(String student, int rank, String part, double own, double usual) {
    tables.add(
        TableRow.of(TableSchemas.named("mixtures"))
            .set("student", student)
            .set("scope", "pooled")
            .set("solo_id", "")
            .set("group_by", "all")
            .set("group_value", "all")
            .set("mix", "note_values")
            .set("class", part)
            .set("solos", 60)
            .set("student_share", own)
            .set("group_share", usual)
            .set("contribution", 0.04 / rank)
            .set("rank", rank)
            .set("distance", 0.246)
            .set("usual_distance", 0.1)
            .build());
  }

  private void exemplar(String student, Played solo, String statistic, String role) {
    tables.add(
        TableRow.of(TableSchemas.named("exemplars"))
            .set("student", student)
            .set("scope", "pooled")
            .set("solo_id", "")
            .set("group_by", "all")
            .set("group_value", "all")
            .set("statistic", statistic)
            .set("role", role)
            .set("rank", 1)
            .set("place", 1)
            .set("verdict", "above")
            .set("phrase_solo_id", solo.soloId())
            .set("phrase_index", 0)
            .set("shown_by", statistic)
            .set("value", 12.0)
            .set("n", 12)
            .set("middle", 12.0)
            .set("distance", 0.5)
            .set("value_distance", 0.5)
            .set("reason", "invented")
            .build());
  }

  private void contrast(String statistic, double adjusted) {
    tables.add(
        TableRow.of(TableSchemas.named("contrasts"))
            .set("group_by", "style")
            .set("first_group", "night ferry")
            .set("second_group", "quayside swing")
            .set("statistic", statistic)
            .set("facet", "movement")
            .set("first_n", 24)
            .set("second_n", 36)
            .set("first_players", 8)
            .set("second_players", 8)
            .set("shift", 0.4)
            .set("cliffs_delta", 0.5)
            .set("wasserstein", 0.4)
            .set("difference", 0.4)
            .set("difference_low", 0.1)
            .set("difference_high", 0.7)
            .set("effect", 0.9)
            .set("unnamed_solos", 0)
            .set("dealt", "players")
            .set("p_value", adjusted)
            .set("p_adjusted", adjusted)
            .set("tests", 2)
            .build());
  }

  /** The norms of the whole corpus again: under breath phrases are half a bar longer. */
  private void sensitivity() {
    for (TableRow norm : tables.rows("norms", Map.of("group_by", "all"))) {
      for (String rule : List.of("silence", "breath")) {
        boolean moved =
            rule.equals("breath") && norm.text("statistic").equals("phrase_length_bars");
        double shift = moved ? 0.5 : 0;
        Double median = norm.number("p50");
        tables.add(
            TableRow.of(TableSchemas.named("sensitivity"))
                .set("group_by", "all")
                .set("group_value", "all")
                .set("statistic", norm.text("statistic"))
                .set("rule", rule)
                .set("rule_of_study", rule.equals("silence"))
                .set("n", norm.integer("n"))
                .set("p25", norm.number("p25"))
                .set("p50", median == null ? null : (Double) (median + shift))
                .set("p75", norm.number("p75"))
                .set("median_shift", median == null ? null : (Double) shift)
                .set("median_shift_spreads", norm.isMissing("p25") ? null : (Double) (shift * 1.5))
                .set("typical_change", median == null ? null : (Double) shift)
                .set("solos_changed", moved ? norm.integer("n") : 0)
                .set("solos_defined_once", 0)
                .build());
      }
    }
  }

  private void norms(String by, String value, List<Played> group) {
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().ofLevel("solo")) {
      List<Double> values = defined(group, definition.key());
      int n = values.size();
      String shown =
          n < 6 ? "list" : n < 11 ? "median" : n < 29 ? "quartiles" : n < 59 ? "deciles" : "full";
      List<String> players =
          group.stream()
              .filter(p -> p.values().get(definition.key()) != null)
              .map(Played::player)
              .toList();
      String dominant =
          players.stream()
              .filter(p -> 2 * players.stream().filter(p::equals).count() > n)
              .findFirst()
              .orElse(null);
      Double median = n < 6 ? null : quantile(values, 0.5);
      tables.add(
          TableRow.of(TableSchemas.named("norms"))
              .set("group_by", by)
              .set("group_value", value)
              .set("statistic", definition.key())
              .set("n", n)
              .set("undefined", group.size() - n)
              .set("players", (int) players.stream().distinct().count())
              .set("shown", shown)
              .set("dominated_by", dominant)
              .set("minimum", n == 0 ? null : quantile(values, 0))
              .set("p05", n < 59 ? null : quantile(values, 0.05))
              .set("p10", n < 29 ? null : quantile(values, 0.10))
              .set("p25", n < 11 ? null : quantile(values, 0.25))
              .set("p50", median)
              .set("p75", n < 11 ? null : quantile(values, 0.75))
              .set("p90", n < 29 ? null : quantile(values, 0.90))
              .set("p95", n < 59 ? null : quantile(values, 0.95))
              .set("maximum", n == 0 ? null : quantile(values, 1))
              .set("mean", n == 0 ? null : values.stream().mapToDouble(x -> x).sum() / n)
              .set("median_absolute_deviation", n == 0 ? null : 0.1)
              .build());
    }
  }

  private void departures(
      String student,
      String scope,
      String soloId,
      String date,
      List<Played> solos,
      String by,
      String value,
      List<Played> group) {
    record Made(
        StatisticDefinition definition, Double value, int n, List<Double> norm, double size) {}
    List<Made> made = new ArrayList<>();
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().ofLevel("solo")) {
      if (!definition.compared()) {
        continue;
      }
      List<Double> own = defined(solos, definition.key());
      List<Double> norm = defined(group, definition.key());
      Double middle = own.isEmpty() ? null : quantile(own, 0.5);
      int n = solos.stream().mapToInt(s -> s.counts().get(definition.key())).sum();
      double size = 0;
      if (middle != null && norm.size() >= 11) {
        double low = quantile(norm, 0.25);
        double high = quantile(norm, 0.75);
        size =
            (middle < low ? middle - low : middle > high ? middle - high : 0) / (high - low + 1e-9);
      }
      made.add(new Made(definition, middle, n, norm, size));
    }
    List<Made> ranked =
        made.stream()
            .filter(m -> m.size() != 0)
            .sorted((a, b) -> Double.compare(Math.abs(b.size()), Math.abs(a.size())))
            .toList();
    for (Made each : made) {
      boolean hasNorm = each.norm().size() >= 11;
      long below =
          each.value() == null ? 0 : each.norm().stream().filter(x -> x < each.value()).count();
      int all = each.norm().size();
      long equal =
          each.value() == null
              ? 0
              : each.norm().stream().filter(x -> x.equals(each.value())).count();
      boolean tested = each.value() != null && hasNorm;
      boolean clear = solos.size() > 1 && ranked.contains(each);
      Double low = tested ? (Double) quantile(each.norm(), 0.25) : null;
      Double high = tested ? (Double) quantile(each.norm(), 0.75) : null;
      String verdict =
          each.value() == null
              ? "too-little"
              : !hasNorm ? "no-norm" : !clear ? "inside" : each.size() < 0 ? "below" : "above";
      boolean told = each.value() != null && hasNorm;
      tables.add(
          TableRow.of(TableSchemas.named("departures"))
              .set("student", student)
              .set("scope", scope)
              .set("solo_id", soloId)
              .set("date", day(date))
              .set("group_by", by)
              .set("group_value", value)
              .set("reference", by.equals(reference))
              .set(
                  "reference_reason",
                  !by.equals(reference) ? null : by.equals("all") ? "no-groups" : "named")
              .set("left_out", by.equals("all") ? 0 : 1)
              .set("left_out_as_player", 0)
              .set("statistic", each.definition().key())
              .set("facet", each.definition().facet())
              .set("value", each.value())
              .set("n", each.n())
              .set("solos", each.value() == null ? 0 : solos.size())
              .set("norm_n", all)
              .set("norm_players", Math.min(all, 4))
              .set("norm_unnamed", 0)
              .set("one_player", false)
              .set("tempo_taken_out", tested)
              .set("band_low", low)
              .set("band_median", tested ? (Double) quantile(each.norm(), 0.5) : null)
              .set("band_high", high)
              .set("norm_below", each.value() == null || all == 0 ? null : (Integer) (int) below)
              .set("norm_equal", each.value() == null || all == 0 ? null : (Integer) (int) equal)
              .set("percentile_rank", each.value() == null || all == 0 ? null : 100.0 * below / all)
              .set(
                  "position", each.value() == null ? "undefined" : all == 0 ? "no-solos" : "middle")
              .set("verdict", verdict)
              .set("distance", told ? (Double) each.size() : null)
              .set("place", clear ? (Integer) (ranked.indexOf(each) + 1) : null)
              .set("p_value", tested ? (Double) (clear ? 0.0004 : 0.6) : null)
              .set("family", tested ? each.definition().headline() ? "headlines" : "others" : null)
              .set("tests", tested ? (Integer) 6 : null)
              .set("p_adjusted", tested ? (Double) (clear ? 0.004 : 0.7) : null)
              .set("level", tested ? (Double) 0.02 : null)
              .set("interval_low", low == null ? null : (Double) (low - Math.abs(low) / 4))
              .set("interval_high", high == null ? null : (Double) (high + Math.abs(high) / 4))
              .set("question_differs", each.definition().headline() && tested ? clear : null)
              .set("question_together", each.definition().headline() && tested ? clear : null)
              .set("question_p_adjusted", each.definition().headline() && tested ? 0.01 : null)
              .set("phrases", each.n())
              .set("phrases_for_half", 10.0)
              .set("reliability", each.n() / (each.n() + 10.0))
              .set("reliability_source", "shipped")
              .build());
    }
  }

  private static List<Double> defined(List<Played> solos, String key) {
    return solos.stream().map(p -> p.values().get(key)).filter(v -> v != null).sorted().toList();
  }

  /** Hyndman-Fan type 8. */
  private static double quantile(List<Double> values, double p) {
    List<Double> sorted = values.stream().sorted().toList();
    int n = sorted.size();
    double place = n * p + 1 / 3.0 + p / 3;
    int below = (int) Math.floor(place);
    double rest = place - below;
    double low = sorted.get(Math.max(0, Math.min(n - 1, below - 1)));
    double high = sorted.get(Math.max(0, Math.min(n - 1, below)));
    return low + rest * (high - low);
  }

  private static LocalDate day(String date) {
    return date == null ? null : LocalDate.parse(date);
  }
}
