package phrasecensus.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.comparison.AdjustedPValues;
import phrasecensus.comparison.AnswerRows;
import phrasecensus.comparison.Bands;
import phrasecensus.comparison.Comparison;
import phrasecensus.comparison.ComparisonResult;
import phrasecensus.comparison.CorpusGroup;
import phrasecensus.comparison.CorpusStatistics;
import phrasecensus.comparison.DepartureVerdicts;
import phrasecensus.comparison.GroupNeighbourRows;
import phrasecensus.comparison.MarkedSolos;
import phrasecensus.comparison.PlacedCorpus;
import phrasecensus.comparison.PlayerApart;
import phrasecensus.comparison.Resampling;
import phrasecensus.comparison.ShownDepartures;
import phrasecensus.comparison.StatisticPlaces;
import phrasecensus.comparison.Student;
import phrasecensus.comparison.Students;
import phrasecensus.music.comparison.HeldOutPlayer;
import phrasecensus.music.likeness.Attribution;
import phrasecensus.music.likeness.LikenessSpace;
import phrasecensus.music.likeness.PlacedSolo;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.phrase.GivenRule;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.rows.FileRows;
import phrasecensus.rows.LeadSheets;
import phrasecensus.store.BucketResult;
import phrasecensus.store.EarlierReading;
import phrasecensus.store.InputListing;
import phrasecensus.store.InputPaths;
import phrasecensus.store.Program;
import phrasecensus.store.ReportPages;
import phrasecensus.store.Stores;
import phrasecensus.store.StudyFolder;
import phrasecensus.store.ZippedScores;
import phrasecensus.store.parquet.ParquetTables;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.AimsDefinition;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.FileNamePattern;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputException;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.MetadataChoice;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.MetadataDefinition;
import phrasecensus.tables.MetadataType;
import phrasecensus.tables.PhraseMarks;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** Runs the steps of a study and commits their tables. */
public final class StudyRunner {
  /** Names of files that a line shows before it points to where all are. */
  private static final int NAMES_SHOWN = 10;

  /** Characters of a cell that a line shows. */
  private static final int LONGEST_SHOWN = 40;

  private static final List<String> NOT_GROUPING =
      List.of("solo_id", "role", "file", "part_reason", "chord_source");

  /** Columns of table solos that hold numbers by which bands can be made. */
  private static final List<String> NUMBERS =
      List.of("tempo_qpm", "key_fifths", "centre_tonic_pc", "bars", "notes", "phrases");

  /** Key of the setting that names the grouping of reference. */
  private static final String REFERENCE = "reference";

  /** Key of the setting that holds the pattern of students' file names, where it is not usual. */
  private static final String FILE_NAMES = "file-names";

  /** Key of the setting that says that patterns are a part of the study; not there without. */
  private static final String PATTERNS = "patterns";

  private static final String WANTED = "true";

  /** The tables of recurring patterns. */
  private static final List<String> OF_PATTERNS =
      List.of("patterns", "pattern_recurrence", "solo_patterns", "figures", "figure_places");

  /** Tables that depend on the corpus alone: a comparison leaves them as they are. */
  private static final List<String> OF_NORMS =
      List.of("norms", "phrase_norms", "context_norms", "sensitivity", "contrasts");

  private static final List<String> OF_COMPARISON =
      TableSchemas.OF_STUDY.stream().filter(table -> !OF_NORMS.contains(table)).toList();

  /** So many files that are gone while they are read, and more than one in so many: no study. */
  private static final int LEAST_LOST = 10;

  private static final int LOST_OF = 10;

  /** The file of a table that is made in the driver. */
  private static final String ONLY_PART = "part-00000.parquet";

  private static final long LARGEST_METADATA = 64L << 20;

  private final StudySession session;
  private final Configuration configuration;
  private final Consumer<String> progress;
  private final FileProgress files;
  private final boolean fresh;
  private final Function<List<InputFile>, ReadPlan> planning;
  private final FileRows.StageWatch watch;

  /**
   * @param progress told in a line what is being done
   */
  public StudyRunner(StudySession session, Consumer<String> progress) {
    this(session, progress, (done, all) -> {}, false, ReadPlan::of, (stage, file) -> {});
  }

  private StudyRunner(
      StudySession session,
      Consumer<String> progress,
      FileProgress files,
      boolean fresh,
      Function<List<InputFile>, ReadPlan> planning,
      FileRows.StageWatch watch) {
    this.watch = watch;
    this.session = session;
    this.configuration = session.configuration();
    this.progress = progress;
    this.files = files;
    this.fresh = fresh;
    this.planning = planning;
  }

  /** A runner that also tells how far reading has come. */
  public StudyRunner telling(FileProgress told) {
    return new StudyRunner(session, progress, told, fresh, planning, watch);
  }

  /**
   * What a run did.
   *
   * @param read files that were read
   * @param rejected files that were not, path to reason, in order
   * @param faults those of them on which the program failed, path to where, in order
   * @param notes sounding notes
   * @param solos solos by role
   * @param reused files, read or rejected, whose rows are those of an earlier run
   * @param remarks things worth telling, sentences
   */
  public record Outcome(
      int read,
      Map<String, String> rejected,
      Map<String, String> faults,
      long notes,
      Map<String, Integer> solos,
      int reused,
      List<String> remarks) {}

  /** A runner that reads every file again, whatever an earlier run left. */
  public StudyRunner fresh() {
    return new StudyRunner(session, progress, files, true, planning, watch);
  }

  /** A runner that shares the files out in another way; no table depends on it. */
  StudyRunner planning(Function<List<InputFile>, ReadPlan> other) {
    return new StudyRunner(session, progress, files, fresh, other, watch);
  }

  /** A runner that tells every step with a file; what it throws there counts as the step's. */
  StudyRunner watching(FileRows.StageWatch told) {
    return new StudyRunner(session, progress, files, fresh, planning, told);
  }

  /** Reads the files of the study; norms and comparison are left to later steps. */
  public Outcome read(StudyDefinition study, StudyFolder folder) {
    return run(study, folder, false, null);
  }

  /** Reads the files, makes the norms and the comparison. */
  public Outcome study(StudyDefinition study, StudyFolder folder) {
    return run(study, folder, true, null);
  }

  /** The same with the report, which becomes current together with the tables. */
  public Outcome study(StudyDefinition study, StudyFolder folder, ReportPages pages) {
    return run(study, folder, true, pages);
  }

  private Outcome run(
      StudyDefinition study, StudyFolder folder, boolean withNorms, ReportPages pages) {
    List<String> remarks = new ArrayList<>();
    Inputs inputs = inputs(study, folder, remarks);
    inputs.choose(InputFile.CORPUS, study.only());
    inputs.choose(InputFile.STUDENT, study.studentOnly());
    TableSchema solosSchema = inputs.solosSchema();
    List<Grouping> groupings = groupings(study.by(), solosSchema);
    checkReference(study.reference(), groupings);
    StudySettings settings = withChangedLimits(withCheckedRules(study.settings()));
    Map<String, String> numbers = numbers(settings);
    PhraseMarks marks = inputs.phraseMarks(study.phraseMarks());
    Map<String, String> recorded =
        marks == null
            ? settings.recorded(numbers)
            : settings.recorded(numbers, inputs.marksFile, inputs.marksSha256);
    if (!study.aims().equals(AimsDefinition.DEFAULT)) {
      recorded.put(StudySettings.AIMS, study.aims().text());
    }
    if (!study.fileNames().equals(FileNamePattern.USUAL)) {
      recorded.put(FILE_NAMES, study.fileNames());
    }
    if (!study.only().isAll()) {
      recorded.put(StudySettings.ONLY, study.only().text());
    }
    if (!study.studentOnly().isAll()) {
      recorded.put(StudySettings.STUDENT_ONLY, study.studentOnly().text());
    }
    if (study.patterns()) {
      recorded.put(PATTERNS, WANTED);
    }

    EarlierReading earlier = fresh ? EarlierReading.none() : folder.earlierReading();
    Reading reading =
        reading(
            inputs,
            folder,
            new ReadJob(
                settings,
                solosSchema,
                inputs.metadata,
                marks,
                ReadingKey.of(settings.recorded(numbers), solosSchema),
                earlier,
                folder.nextTables().toString(),
                watch),
            earlier,
            solosSchema);
    Map<String, Manifest.Table> tables = reading.tables();
    Outcome outcome = reading.outcome();
    String needed = study.corpus().isEmpty() ? InputFile.STUDENT : InputFile.CORPUS;
    if (outcome.solos().getOrDefault(needed, 0) == 0) {
      if (outcome.rejected().isEmpty()) {
        throw new InputException(
            "Cannot study "
                + (study.corpus().isEmpty() ? study.students() : study.corpus())
                + ": its scores were read, and none has a pitched note.");
      }
      Map.Entry<String, String> first = outcome.rejected().entrySet().iterator().next();
      throw new InputException(
          "Cannot study "
              + (study.corpus().isEmpty() ? study.students() : study.corpus())
              + ": none of its scores ("
              + reading.inputs().stream().filter(input -> input.role().equals(needed)).count()
              + ") could be read. The first is "
              + first.getKey()
              + ": "
              + first.getValue(),
          outcome.faults().isEmpty()
              ? null
              : new IllegalStateException(outcome.faults().values().iterator().next()));
    }
    try {
      if (withNorms) {
        addNorms(groupings, study.reference(), reading.inputs(), recorded, folder, tables, true);
        addPatternsWhereWanted(groupings, reading.inputs(), recorded, folder, tables);
      }
      folder.commit(
          new Manifest(
              Program.nameAndVersion(),
              new Manifest.Study(
                  study.name(),
                  study.title(),
                  study.description(),
                  study.data(),
                  study.publication()),
              withReference(
                  withNorms ? Resampling.recorded(recorded) : recorded, study.reference()),
              study.by(),
              new Manifest.Report(study.excerpts(), study.pseudonyms()),
              inputs.metadataFiles,
              reading.inputs(),
              StatisticsCatalogue.builtIn().version(),
              tables),
          pages);
    } catch (IOException e) {
      throw new InputException(
          "Cannot finish the study in " + folder.location() + ": " + e.getMessage() + ".", e);
    }
    return outcome;
  }

  /** Lists the scores of a study and reads what its other files say of them. */
  private Inputs inputs(StudyDefinition study, StudyFolder folder, List<String> remarks) {
    Inputs inputs = new Inputs(remarks, namesFolders(study));
    if (!study.corpus().isEmpty()) {
      inputs.add(corpus(study, folder), study.corpus(), study.metadata());
    }
    if (!study.students().isEmpty()) {
      inputs.addStudents(
          students(study.students(), List.of(study.corpus(), folder.location())),
          study.students(),
          study.studentMetadata(),
          study.fileNames());
    }
    inputs.type(declaredTypes(study));
    return inputs;
  }

  /** What a study says of columns by either role: a column of table solos has one type. */
  private static Map<String, MetadataType> declaredTypes(StudyDefinition study) {
    Map<String, MetadataType> declared = new TreeMap<>(study.metadata().types());
    study
        .studentMetadata()
        .types()
        .forEach(
            (column, type) -> {
              MetadataType other = declared.putIfAbsent(column, type);
              if (other != null && other != type) {
                throw new InputException(
                    "Cannot use the types of the metadata: the column '"
                        + column
                        + "' is "
                        + other.word()
                        + " for the corpus and "
                        + type.word()
                        + " for the students. Give it one type, or the students' another name under"
                        + " 'columns'.");
              }
            });
    return declared;
  }

  /** Whether a study groups or chooses solos by the folders they lie in. */
  private static boolean namesFolders(StudyDefinition study) {
    return study.only().wanted().containsKey(MetadataChoice.FOLDER)
        || study.studentOnly().wanted().containsKey(MetadataChoice.FOLDER)
        || study.by().stream()
            .flatMap(text -> Grouping.parse(text).parts().stream())
            .anyMatch(part -> part.column().equals(MetadataChoice.FOLDER));
  }

  private List<InputFile> corpus(StudyDefinition study, StudyFolder folder) {
    List<InputFile> corpus =
        InputListing.scores(
            InputFile.CORPUS,
            study.corpus(),
            List.of(study.students(), folder.location()),
            configuration);
    if (corpus.isEmpty()) {
      throw new InputException(
          "Cannot study "
              + study.corpus()
              + ": the folder holds no scores. Put MusicXML files (.musicxml, .xml or .mxl) in"
              + " it.");
    }
    return corpus;
  }

  /**
   * What is left of reading when the files themselves are of no more use.
   *
   * @param inputs every file with its checksum, in order
   * @param tables what the tables of reading hold
   */
  private record Reading(
      List<Manifest.Input> inputs, Map<String, Manifest.Table> tables, Outcome outcome) {}

  /** Reads the files, and forgets where they lie. */
  private Reading reading(
      Inputs inputs,
      StudyFolder folder,
      ReadJob job,
      EarlierReading earlier,
      TableSchema solosSchema) {
    progress.accept("Reading " + inputs.files.size() + " files");
    ReadPlan plan = planning.apply(inputs.files);
    inputs.files.clear();
    List<BucketResult> results = job.run(session.context(), plan, files);
    checkNotLost(results);
    Set<String> damaged = new TreeSet<>(earlier.damaged());
    for (BucketResult result : results) {
      result
          .tables()
          .forEach((table, stored) -> folder.written().add(table, result.name(), stored));
      damaged.addAll(result.damaged());
    }
    if (!damaged.isEmpty()) {
      inputs.remarks.add(
          "Not as written, but gone, damaged or changed, so that their scores were read anew: "
              + Inputs.listed(List.copyOf(damaged)));
    }
    Map<String, Manifest.Table> tables = new LinkedHashMap<>();
    for (String table : TableSchemas.OF_READING) {
      int version =
          table.equals("solos") ? solosSchema.version() : TableSchemas.named(table).version();
      tables.put(table, folder.written().table(table, version));
    }
    return new Reading(inputs(results), tables, outcome(results, inputs.remarks));
  }

  /**
   * Refuses to make a study of what is left of a corpus that disappears while it is read.
   *
   * @throws InputException if many files of a role, or of all, are gone or fail
   */
  private static void checkNotLost(List<BucketResult> results) {
    Map<String, List<BucketResult.FileOutcome>> lost = new TreeMap<>();
    Map<String, Integer> listed = new TreeMap<>();
    for (BucketResult result : results) {
      for (BucketResult.FileOutcome file : result.files()) {
        for (String among : List.of(file.role(), "")) {
          listed.merge(among, 1, Integer::sum);
          if (file.lost()) {
            lost.computeIfAbsent(among, role -> new ArrayList<>()).add(file);
          }
        }
      }
    }
    lost.forEach(
        (among, files) -> {
          int all = listed.get(among);
          if (files.size() >= LEAST_LOST && files.size() * LOST_OF > all) {
            BucketResult.FileOutcome first =
                files.stream()
                    .min(Comparator.comparing(BucketResult.FileOutcome::file))
                    .orElseThrow();
            throw new InputException(
                "Cannot finish the study: "
                    + files.size()
                    + " of "
                    + all
                    + " files that were there when the folder was listed were gone, or failed, when"
                    + " they were read. The first is "
                    + first.role()
                    + "/"
                    + first.file()
                    + ": "
                    + first.rejection()
                    + " What was finished before is as it was. See that the disk or the network"
                    + " they lie on is there, and run the same command again.");
          }
        });
  }

  /**
   * Makes norms and comparison anew from the tables of reading.
   *
   * @param by what groups the norms, each as {@link Grouping#text} writes it
   */
  public void norms(StudyFolder folder, List<String> by) {
    Manifest manifest = folder.manifest();
    remake(folder, manifest, by, TableSchemas.OF_STUDY);
  }

  /** Makes the comparison anew; the norms stay as they are. */
  public void compare(StudyFolder folder) {
    Manifest manifest = manifestWithNorms(folder);
    remake(folder, manifest, manifest.by(), OF_COMPARISON);
  }

  /**
   * Makes the index of interval patterns from the tables of reading, with the figures that the
   * report shows; all other tables stay as they are. A later step that reads files or groups solos
   * anew leaves the index out, but in a study that asks for it.
   */
  public void patterns(StudyFolder folder) {
    Manifest manifest = folder.manifest();
    addOnRequest(
        folder,
        OF_PATTERNS,
        tables ->
            addPatterns(
                groupings(manifest.by(), folder.source().schema("solos")),
                manifest.inputs(),
                folder,
                tables));
  }

  /** Makes the patterns where the study asks for them and has none that stay. */
  private void addPatternsWhereWanted(
      List<Grouping> by,
      List<Manifest.Input> inputs,
      Map<String, String> recorded,
      StudyFolder folder,
      Map<String, Manifest.Table> tables)
      throws IOException {
    if (WANTED.equals(recorded.get(PATTERNS)) && !tables.keySet().containsAll(OF_PATTERNS)) {
      addPatterns(by, inputs, folder, tables);
    }
  }

  private void addPatterns(
      List<Grouping> by,
      List<Manifest.Input> inputs,
      StudyFolder folder,
      Map<String, Manifest.Table> tables)
      throws IOException {
    progress.accept("Looking for patterns");
    String next = folder.nextTables().toString();
    TableParts parts = TableParts.of(session.context(), folder.nextTables());
    PatternsJob.Result result = new PatternsJob(by, next).run(parts, tables.get("notes").rows());
    FiguresJob.Result figures =
        new FiguresJob(
                result.shared(),
                Students.ownInCorpus(
                    new ParquetTables(folder.nextTables(), configuration), twins(inputs)),
                next)
            .run(parts);
    parts.release();
    for (String table : List.of("patterns", "pattern_recurrence")) {
      tables.put(table, write(folder, table, result.rows().get(table)));
    }
    tables.put("solo_patterns", written(folder, "solo_patterns", result.ofSolos()));
    tables.put("figures", write(folder, "figures", figures.figures()));
    tables.put("figure_places", written(folder, "figure_places", figures.places()));
  }

  /** Takes the parts of a table that tasks have written. */
  private static Manifest.Table written(
      StudyFolder folder, String table, Map<String, TableFile.Stored> parts) {
    parts.forEach((name, stored) -> folder.written().add(table, name, stored));
    return folder.written().table(table, TableSchemas.named(table).version());
  }

  /**
   * Asks of every solo of the corpus which player and which group of the first grouping the others
   * would give it to, and adds table {@code attributions}; all other tables stay as they are.
   *
   * @return the rows, in order of the table's key
   */
  public List<TableRow> attributions(StudyFolder folder) {
    List<String> by = folder.manifest().by();
    List<PlacedSolo> solos =
        PlacedCorpus.of(CorpusStatistics.of(folder.source(), by.isEmpty() ? "" : by.get(0)));
    progress.accept("Giving solos to players and groups");
    List<TableRow> rows =
        new AttributionJob(solos, by.isEmpty() ? "" : Grouping.parse(by.get(0)).name())
            .run(session.context());
    if (rows.isEmpty()) {
      throw new InputException(
          "Cannot give solos of "
              + folder.location()
              + " to players: two players or more need "
              + Attribution.LEAST_SOLOS_OF_PLAYER
              + " solos each, and ten solos beyond one a player. Name them in a column 'performer'"
              + " of the metadata file, or study a larger corpus.");
    }
    List<TableRow> sorted = new ArrayList<>(rows);
    sorted.sort(ParquetTables.byKey(TableSchemas.named("attributions").key()));
    addOnRequest(
        folder,
        List.of("attributions"),
        tables -> tables.put("attributions", write(folder, "attributions", sorted)));
    return List.copyOf(sorted);
  }

  /** Makes tables on request. */
  private interface Making {
    void into(Map<String, Manifest.Table> tables) throws IOException;
  }

  /** Keeps every table of a study but some that are made anew. */
  private static void addOnRequest(StudyFolder folder, List<String> made, Making making) {
    Manifest manifest = folder.manifest();
    Map<String, Manifest.Table> tables = new LinkedHashMap<>(manifest.tables());
    try {
      for (String table : manifest.tables().keySet()) {
        if (!made.contains(table)) {
          folder.keep(table, "");
        }
      }
      making.into(tables);
      folder.commit(
          new Manifest(
              manifest.program(),
              manifest.study(),
              manifest.settings(),
              manifest.by(),
              manifest.report(),
              manifest.metadata(),
              manifest.inputs(),
              manifest.catalogueVersion(),
              tables));
    } catch (IOException e) {
      throw new InputException(
          "Cannot finish the study in " + folder.location() + ": " + e.getMessage() + ".", e);
    }
  }

  /**
   * Holds every named player of the corpus against the solos of all the others, as if a student;
   * nothing is written.
   *
   * @return the players, in order of name
   */
  public List<PlayerApart> players(StudyFolder folder) {
    Set<String> named = new LinkedHashSet<>();
    try (Stream<TableRow> solos =
        folder.source().stream(
            "solos", List.of("solo_id", "performer"), Map.of("role", Set.of(InputFile.CORPUS)))) {
      solos.forEach(solo -> named.add(solo.text("performer").strip()));
    }
    named.remove("");
    if (named.size() <= Norm.LEAST_PLAYERS) {
      throw new InputException(
          "Cannot hold players against each other in "
              + folder.location()
              + ": the corpus names "
              + (named.isEmpty() ? "none" : "only " + String.join(", ", named))
              + ", and at least four are needed. Name them in a column 'performer' of the metadata"
              + " file and run 'phrase-census study' again.");
    }
    try {
      TableParts parts = TableParts.of(session.context(), folder.tables());
      List<PlayerApart> players = new PlayersJob().run(parts);
      parts.release();
      if (players.isEmpty()) {
        throw new InputException(
            "Cannot hold players against each other in "
                + folder.location()
                + ": each needs a solo of three phrases and "
                + HeldOutPlayer.LEAST_OTHERS
                + " solos of others. Study a larger corpus.");
      }
      return players;
    } catch (IOException e) {
      throw new InputException(
          "Cannot read the tables of " + folder.location() + ": " + e.getMessage() + ".", e);
    }
  }

  /** Refuses a study without norms, or with norms of another version of the program. */
  private static Manifest manifestWithNorms(StudyFolder folder) {
    Manifest manifest = folder.manifest();
    for (String table : OF_NORMS) {
      Manifest.Table written = manifest.tables().get(table);
      if (written == null && !table.equals("norms")) {
        // The program that made the study did not know the table yet.
        continue;
      }
      if (written == null || written.version() != TableSchemas.named(table).version()) {
        throw new InputException(
            "Cannot compare in "
                + folder.location()
                + (manifest.tables().containsKey("norms")
                    ? ": its norms were made by another version of the program. Run"
                        + " 'phrase-census norms' on it first."
                    : ": the study has no norms yet. Run 'phrase-census norms' on it first."));
      }
    }
    return manifest;
  }

  /**
   * Reads other students' solos with the study's own settings, puts them in the place of those in
   * the study, and compares them with the norms as they are.
   */
  public Outcome compareWith(StudyFolder folder, String studentsFolder) {
    Manifest manifest = manifestWithNorms(folder);
    List<String> remarks = new ArrayList<>();
    Inputs inputs = new Inputs(remarks, false);
    inputs.addStudents(
        students(studentsFolder, List.of(folder.location())),
        studentsFolder,
        MetadataDefinition.DEFAULT,
        manifest.settings().getOrDefault(FILE_NAMES, FileNamePattern.USUAL));
    Map<String, ColumnType> columns = new TreeMap<>();
    folder.source().schema("solos").columns().stream()
        .filter(MetadataColumns::isAdded)
        .forEach(column -> columns.put(column.name(), column.type()));
    inputs.typeAs(columns);
    inputs.solosSchema().columns().stream()
        .filter(MetadataColumns::isAdded)
        .forEach(column -> columns.put(column.name(), column.type()));
    TableSchema solosSchema = TableSchemas.named("solos").withMetadata(columns);
    StudySettings settings = withChangedLimits(StudySettings.of(manifest.settings()));
    PhraseMarks marks =
        StudySettings.recordsGivenPhrases(manifest.settings()) ? PhraseMarks.NONE : null;
    try {
      for (String table : TableSchemas.OF_READING) {
        folder.keep(table, InputFile.CORPUS);
      }
      List<String> ofNorms = OF_NORMS.stream().filter(manifest.tables()::containsKey).toList();
      for (String table : ofNorms) {
        folder.keep(table, "");
      }
      Reading reading =
          reading(
              inputs,
              folder,
              new ReadJob(
                  settings,
                  solosSchema,
                  inputs.metadata,
                  marks,
                  ReadingKey.of(settings.recorded(numbers(settings)), solosSchema),
                  EarlierReading.none(),
                  folder.nextTables().toString(),
                  watch),
              EarlierReading.none(),
              solosSchema);
      Map<String, Manifest.Table> tables = reading.tables();
      for (String table : ofNorms) {
        tables.put(table, manifest.tables().get(table));
      }
      List<Manifest.Input> all = new ArrayList<>();
      manifest.inputs().stream()
          .filter(input -> input.role().equals(InputFile.CORPUS))
          .forEach(all::add);
      all.addAll(reading.inputs());
      addNorms(
          groupings(manifest.by(), solosSchema),
          reference(manifest),
          all,
          manifest.settings(),
          folder,
          tables,
          false);
      addPatternsWhereWanted(
          groupings(manifest.by(), solosSchema), all, manifest.settings(), folder, tables);
      List<Manifest.MetadataFile> metadataFiles = new ArrayList<>();
      manifest.metadata().stream()
          .filter(input -> input.role().equals(InputFile.CORPUS))
          .forEach(metadataFiles::add);
      metadataFiles.addAll(inputs.metadataFiles);
      Map<String, String> recorded = new LinkedHashMap<>(manifest.settings());
      // It chose among the students who were there before.
      recorded.remove(StudySettings.STUDENT_ONLY);
      folder.commit(
          new Manifest(
              Program.nameAndVersion(),
              manifest.study(),
              Resampling.recorded(recorded),
              manifest.by(),
              manifest.report(),
              metadataFiles,
              all,
              StatisticsCatalogue.builtIn().version(),
              tables));
      return reading.outcome();
    } catch (IOException e) {
      throw new InputException(
          "Cannot finish the study in " + folder.location() + ": " + e.getMessage() + ".", e);
    }
  }

  private void remake(StudyFolder folder, Manifest manifest, List<String> by, List<String> made) {
    List<Grouping> groupings = groupings(by, folder.source().schema("solos"));
    String reference = reference(manifest);
    if (!isKnown(reference, groupings)) {
      progress.accept(
          "The study held students against groups of '"
              + reference
              + "' first; there are none now, so it is the group of the first column, if there is"
              + " one.");
      reference = "";
    }
    Map<String, Manifest.Table> tables = new LinkedHashMap<>(manifest.tables());
    if (!by.equals(manifest.by())) {
      TableSchemas.ON_REQUEST.forEach(tables::remove);
    }
    try {
      for (TableSchema schema : TableSchemas.all()) {
        if (tables.containsKey(schema.table()) && !made.contains(schema.table())) {
          folder.keep(schema.table(), "");
        }
      }
      addNorms(
          groupings,
          reference,
          manifest.inputs(),
          manifest.settings(),
          folder,
          tables,
          made.contains("norms"));
      addPatternsWhereWanted(groupings, manifest.inputs(), manifest.settings(), folder, tables);
      folder.commit(
          new Manifest(
              Program.nameAndVersion(),
              manifest.study(),
              withReference(Resampling.recorded(manifest.settings()), reference),
              by,
              manifest.report(),
              manifest.metadata(),
              manifest.inputs(),
              StatisticsCatalogue.builtIn().version(),
              tables));
    } catch (IOException e) {
      throw new InputException(
          "Cannot finish the study in " + folder.location() + ": " + e.getMessage() + ".", e);
    }
  }

  private void addNorms(
      List<Grouping> by,
      String reference,
      List<Manifest.Input> inputs,
      Map<String, String> recorded,
      StudyFolder folder,
      Map<String, Manifest.Table> tables,
      boolean withNorms)
      throws IOException {
    progress.accept("Making norms and comparing");
    Map<String, List<String>> twins = twins(inputs);
    tell(twins);
    List<Student> students =
        Students.in(new ParquetTables(folder.nextTables(), configuration), by, twins);
    long furtherRules =
        tables.containsKey("rule_statistics") ? tables.get("rule_statistics").rows() : 0;
    long rows =
        tables.get("solo_statistics").rows()
            + tables.get("phrase_statistics").rows()
            + furtherRules;
    TableParts parts = TableParts.of(session.context(), folder.nextTables());
    ComparisonResult result =
        new NormsJob(
                new Comparison(
                    by, reference, students, withNorms, ruleOfStudy(recorded), furtherRules > 0))
            .run(parts, rows);
    if (withNorms) {
      MarkedSolos.ofStudy(
              ruleOfStudy(recorded), new ParquetTables(folder.nextTables(), configuration))
          .forEach(progress);
      MarkedSolos.ofSensitivity(result.of("sensitivity")).forEach(progress);
      Bands.remarks(by, result.of("norms")).forEach(progress);
      tables.put("norms", write(folder, "norms", result.of("norms")));
      tables.put("phrase_norms", write(folder, "phrase_norms", result.of("phrase_norms")));
      tables.put("context_norms", write(folder, "context_norms", new ContextNormsJob().run(parts)));
      tables.put("sensitivity", write(folder, "sensitivity", result.of("sensitivity")));
      tables.put(
          "contrasts",
          write(
              folder,
              "contrasts",
              AdjustedPValues.of(
                  result.of("contrasts"), List.of("group_by", "first_group", "second_group"))));
    }
    List<TableRow> departures = DepartureVerdicts.of(result.departures());
    tables.put("departures", write(folder, "departures", departures));
    ShownDepartures shown =
        ShownDepartures.of(
            departures,
            students,
            result.units(),
            new ParquetTables(folder.nextTables(), configuration));
    LikenessSpace space = StatisticPlaces.space(result.places());
    LikenessJob.Result like =
        new LikenessJob(by, result.places(), space, students, shown.departures()).run(parts);
    parts.release();
    List<TableRow> exemplars = new ArrayList<>(shown.rows());
    exemplars.addAll(like.exemplars());
    tables.put("exemplars", write(folder, "exemplars", exemplars));
    tables.put("mixtures", write(folder, "mixtures", result.of("mixtures")));
    tables.put("trends", write(folder, "trends", result.of("trends")));
    tables.put("neighbours", write(folder, "neighbours", like.neighbours()));
    tables.put(
        "group_neighbours",
        write(
            folder,
            "group_neighbours",
            GroupNeighbourRows.of(
                students,
                result.places(),
                space,
                by.isEmpty() ? "" : by.get(0).name(),
                result.means())));
    AnswerRows answers =
        AnswerRows.of(
            new ParquetTables(folder.nextTables(), configuration),
            AimsDefinition.parse(recorded.get(StudySettings.AIMS)));
    answers.remarks().forEach(progress);
    tables.put("aims", write(folder, "aims", answers.aims()));
    tables.put("answers", write(folder, "answers", answers.answers()));
  }

  private Manifest.Table write(StudyFolder folder, String table, List<TableRow> rows)
      throws IOException {
    TableSchema schema = TableSchemas.named(table);
    List<TableRow> sorted = new ArrayList<>(rows);
    sorted.sort(ParquetTables.byKey(schema.key()));
    Path file = new Path(new Path(folder.nextTables(), table), ONLY_PART);
    TableFile.Stored stored;
    try (TableFile into = TableFile.create(file, schema, configuration)) {
      for (TableRow row : sorted) {
        into.write(row);
      }
      stored = into.stored();
    }
    folder.written().add(table, ONLY_PART, stored);
    return folder.written().table(table, schema.version());
  }

  private List<InputFile> students(String location, List<String> except) {
    List<InputFile> students =
        InputListing.scores(InputFile.STUDENT, location, except, configuration);
    if (students.isEmpty()) {
      throw new InputException(
          "Cannot compare the students in "
              + location
              + ": the folder holds no scores. Put MusicXML files in it, one folder a student, or"
              + " leave the students out.");
    }
    return students;
  }

  /** The phrase rule that recorded settings tell, as tables name it. */
  private static String ruleOfStudy(Map<String, String> recorded) {
    if (StudySettings.recordsGivenPhrases(recorded)) {
      return GivenRule.NAME;
    }
    StudySettings settings = StudySettings.of(recorded);
    return PhraseRules.text(PhraseRules.rule(settings.phraseRule(), settings.phraseRuleSettings()));
  }

  /** The same settings with further phrase rules in the words in which tables name them. */
  private static StudySettings withCheckedRules(StudySettings settings) {
    try {
      return settings.movedBy(
          settings.sensitivity().stream()
              .map(text -> PhraseRules.text(PhraseRules.parse(text)))
              .distinct()
              .toList());
    } catch (IllegalArgumentException e) {
      throw new InputException(e.getMessage() + ".", e);
    }
  }

  /** The numbers of a phrase rule, those left at their defaults included. */
  private static Map<String, String> numbers(StudySettings settings) {
    try {
      return PhraseRules.rule(settings.phraseRule(), settings.phraseRuleSettings()).settings();
    } catch (IllegalArgumentException e) {
      throw new InputException(e.getMessage() + ".", e);
    }
  }

  /** The same settings with the limits that differ from the reader's defaults. */
  private static StudySettings withChangedLimits(StudySettings settings) {
    try {
      Map<String, String> limits = new TreeMap<>();
      FileRows.readSettings(settings)
          .changedLimits()
          .forEach((limit, value) -> limits.put(limit.key(), Long.toString(value)));
      return settings.limitedBy(limits);
    } catch (IllegalArgumentException e) {
      throw new InputException(e.getMessage() + ".", e);
    }
  }

  /** What groups the norms, by columns of table solos. */
  private static List<Grouping> groupings(List<String> by, TableSchema solosSchema) {
    Set<String> known = new LinkedHashSet<>();
    Set<String> numbers = new LinkedHashSet<>();
    for (Column column : solosSchema.columns()) {
      if (MetadataColumns.isInWords(column) && !NOT_GROUPING.contains(column.name())) {
        known.add(column.name());
      } else if (NUMBERS.contains(column.name())) {
        numbers.add(column.name());
      }
    }
    List<Grouping> groupings = new ArrayList<>();
    Set<String> names = new LinkedHashSet<>();
    for (String text : by) {
      Grouping given = Grouping.parse(text);
      for (Grouping.Part part : given.parts()) {
        String column =
            numbers.contains(part.column())
                ? part.column()
                : MetadataColumns.inSolos(part.column());
        if (!known.contains(column) && !numbers.contains(column)) {
          List<String> all = new ArrayList<>(known);
          all.addAll(numbers);
          throw new InputException(
              "Cannot group by '"
                  + part.column()
                  + "': the solos have no such column. Did you mean '"
                  + StudyDefinition.nearest(part.column(), all)
                  + "'? Columns: "
                  + String.join(", ", all)
                  + ".");
        }
        if (numbers.contains(column) && !part.isBanded()) {
          throw new InputException(
              "Cannot group by '"
                  + column
                  + "': it holds numbers, and every solo would be a group. Give bands, as in"
                  + " 'by: [{"
                  + column
                  + ": [0, 100, 200]}]' or '--by \""
                  + column
                  + " in 0 100 200\"'.");
        }
      }
      Grouping grouping =
          given.named(
              column -> numbers.contains(column) ? column : MetadataColumns.inSolos(column));
      if (grouping.name().equals(CorpusGroup.ALL) || !names.add(grouping.name())) {
        throw new InputException(
            "Cannot group by '" + text + "': a grouping of that name is there already.");
      }
      groupings.add(grouping);
    }
    return groupings;
  }

  private static void checkReference(String reference, List<Grouping> by) {
    if (!isKnown(reference, by)) {
      List<String> names = new ArrayList<>(List.of(CorpusGroup.ALL));
      by.forEach(grouping -> names.add(grouping.name()));
      throw new InputException(
          "Cannot hold students against groups of '"
              + reference
              + "' first: the study does not group by it. 'reference' can be: "
              + String.join(", ", names)
              + ".");
    }
  }

  private static boolean isKnown(String reference, List<Grouping> by) {
    return reference.isEmpty()
        || reference.equals(CorpusGroup.ALL)
        || by.stream().anyMatch(grouping -> grouping.name().equals(reference));
  }

  private static String reference(Manifest manifest) {
    return manifest.settings().getOrDefault(REFERENCE, "");
  }

  private static Map<String, String> withReference(Map<String, String> settings, String reference) {
    Map<String, String> recorded = new LinkedHashMap<>(settings);
    recorded.remove(REFERENCE);
    if (!reference.isEmpty()) {
      recorded.put(REFERENCE, reference);
    }
    return recorded;
  }

  /** Solos of the corpus by the student's solo that is the same file, told by their bytes. */
  private static Map<String, List<String>> twins(List<Manifest.Input> inputs) {
    Map<String, List<String>> corpus = new TreeMap<>();
    for (Manifest.Input input : inputs) {
      if (input.role().equals(InputFile.STUDENT) && input.sha256() != null) {
        corpus.put(input.sha256(), new ArrayList<>());
      }
    }
    for (Manifest.Input input : inputs) {
      if (input.role().equals(InputFile.CORPUS)
          && input.sha256() != null
          && corpus.containsKey(input.sha256())) {
        corpus.get(input.sha256()).add(input.role() + "/" + input.file());
      }
    }
    Map<String, List<String>> twins = new TreeMap<>();
    for (Manifest.Input input : inputs) {
      if (input.role().equals(InputFile.STUDENT) && input.sha256() != null) {
        List<String> same = corpus.get(input.sha256());
        if (!same.isEmpty()) {
          twins.put(input.role() + "/" + input.file(), same);
        }
      }
    }
    return twins;
  }

  private void tell(Map<String, List<String>> twins) {
    twins.forEach(
        (student, same) ->
            progress.accept(
                "The student's file "
                    + student.substring(InputFile.STUDENT.length() + 1)
                    + " is also in the corpus, as "
                    + same.get(0).substring(InputFile.CORPUS.length() + 1)
                    + (same.size() > 1 ? " and " + (same.size() - 1) + " more" : "")
                    + ". The student is compared with the corpus without it; the norms keep it."
                    + " Remove one of the two."));
  }

  private static Outcome outcome(List<BucketResult> results, List<String> remarks) {
    Map<String, String> rejected = new TreeMap<>();
    Map<String, String> faults = new TreeMap<>();
    Map<String, Integer> solos = new TreeMap<>();
    int read = 0;
    int reused = 0;
    long notes = 0;
    List<String> withoutNotes = new ArrayList<>();
    for (BucketResult result : results) {
      for (BucketResult.FileOutcome file : result.files()) {
        reused += file.reused() ? 1 : 0;
        if (file.rejection() == null) {
          read++;
          notes += file.notes();
          if (file.notes() > 0 || !file.role().equals(InputFile.CORPUS)) {
            solos.merge(file.role(), 1, Integer::sum);
          } else {
            withoutNotes.add(file.file());
          }
        } else {
          rejected.put(file.role() + "/" + file.file(), file.rejection());
          if (file.fault() != null) {
            faults.put(file.role() + "/" + file.file(), file.fault());
          }
        }
      }
    }
    List<String> told = new ArrayList<>(remarks);
    if (!withoutNotes.isEmpty()) {
      told.add(
          "Corpus files without a pitched note, which are no solos though their bars and chords are"
              + " kept: "
              + withoutNotes.size()
              + ". The first is "
              + withoutNotes.stream().min(Comparator.naturalOrder()).orElseThrow()
              + ".");
    }
    told.addAll(
        SameSolos.remarks(results.stream().flatMap(result -> result.files().stream()).toList()));
    return new Outcome(read, rejected, faults, notes, solos, reused, told);
  }

  private static List<Manifest.Input> inputs(List<BucketResult> results) {
    return results.stream()
        .flatMap(result -> result.files().stream())
        .map(file -> new Manifest.Input(file.role(), file.file(), file.sha256()))
        .sorted(Comparator.comparing(Manifest.Input::role).thenComparing(Manifest.Input::file))
        .toList();
  }

  /** The files of a study and what is known about them. */
  private final class Inputs {
    private final List<InputFile> files = new ArrayList<>();
    private final Map<String, Metadata> metadata = new LinkedHashMap<>();
    private final List<Manifest.MetadataFile> metadataFiles = new ArrayList<>();
    private final List<String> remarks;
    private final boolean namesFolders;
    private final Set<String> passedOver = new LinkedHashSet<>();
    private Map<String, MetadataType> types = Map.of();
    private String marksFile;
    private String marksSha256;

    /**
     * @param namesFolders whether the folder of a score is wanted as if metadata named it
     */
    Inputs(List<String> remarks, boolean namesFolders) {
      this.remarks = remarks;
      this.namesFolders = namesFolders;
    }

    /** Passes over the files of a role that the study is not about. */
    void choose(String role, MetadataChoice only) {
      List<String> names =
          files.stream().filter(file -> file.role().equals(role)).map(InputFile::file).toList();
      if (only.isAll()) {
        return;
      }
      if (names.isEmpty()) {
        throw new InputException(
            "Cannot choose among the files of the " + role + ": the study has none.");
      }
      Set<String> chosen = Set.copyOf(only.of(role, names, metadata.get(role)));
      files.removeIf(file -> file.role().equals(role) && !chosen.contains(file.file()));
      names.stream().filter(name -> !chosen.contains(name)).forEach(passedOver::add);
      remarks.add(
          "Of "
              + names.size()
              + " files of the "
              + role
              + " "
              + chosen.size()
              + (chosen.size() == 1 ? " is" : " are")
              + " studied, as the study asks ("
              + only.inWords()
              + ").");
    }

    /** The folders of files, as metadata that no file holds. */
    private void addFolders(List<InputFile> found, String role) {
      if (!namesFolders) {
        return;
      }
      Map<String, Map<String, String>> folders = new LinkedHashMap<>();
      for (InputFile file : found) {
        int last = file.file().lastIndexOf('/');
        if (last > 0) {
          folders.put(file.file(), Map.of(MetadataChoice.FOLDER, file.file().substring(0, last)));
        }
      }
      metadata.computeIfPresent(
          role,
          (name, read) ->
              read.columns().contains(MetadataChoice.FOLDER) ? read : read.completedBy(folders));
    }

    /** The students' files, whose names may say what no metadata file does. */
    void addStudents(
        List<InputFile> found, String folder, MetadataDefinition definition, String fileNames) {
      add(found, folder, definition);
      FileNamePattern pattern = FileNamePattern.of(fileNames);
      Map<String, Map<String, String>> known = new LinkedHashMap<>();
      for (InputFile file : found) {
        FileNamePattern.Match match = pattern.match(file.file());
        known.put(file.file(), match.values());
        if (match.remark() != null) {
          remarks.add(match.remark());
        }
      }
      metadata.computeIfPresent(InputFile.STUDENT, (role, read) -> read.completedBy(known));
    }

    void add(List<InputFile> found, String folder, MetadataDefinition definition) {
      String role = found.get(0).role();
      describe(found, role, folder, definition);
      addFolders(found, role);
    }

    private void describe(
        List<InputFile> found, String role, String folder, MetadataDefinition definition) {
      files.addAll(found);
      List<String> names = found.stream().map(InputFile::file).toList();
      Path path = null;
      byte[] bytes = null;
      for (Path candidate : candidates(folder, definition)) {
        bytes = bytes(candidate);
        path = candidate;
        if (bytes != null) {
          break;
        }
      }
      if (bytes == null) {
        if (definition.isNamed()) {
          throw new InputException(
              "Cannot find the metadata file " + definition.file() + ". Check its path.");
        }
        metadata.put(role, Metadata.NONE);
        return;
      }
      Metadata read = Metadata.read(StudyFolder.address(path), bytes, definition, names);
      boolean beside = !definition.isNamed() && !path.getParent().equals(qualified(folder));
      if (beside && read.rowsWithoutFile(names).size() == read.size()) {
        // A file of that name beside the folder that speaks of other scores.
        metadata.put(role, Metadata.NONE);
        return;
      }
      Path home = path.getParent();
      metadata.put(role, LeadSheets.written(read, sheet -> sheet(sheet, home, folder)));
      leaveOut(LeadSheets.named(read).values(), role, folder, home);
      names = files.stream().filter(file -> file.role().equals(role)).map(InputFile::file).toList();
      remarks.addAll(read.remarks());
      List<String> unused = read.rowsWithoutFile(names);
      List<String> without = read.filesWithoutRow(names);
      metadataFiles.add(
          new Manifest.MetadataFile(
              role,
              path.getName(),
              Sha256.of(bytes),
              definition.columns(),
              Map.of(),
              List.of(),
              List.of(),
              unused,
              without));
      if (!unused.isEmpty()) {
        remarks.add(
            "Rows of the metadata file "
                + path.getName()
                + " without a file, "
                + unused.size()
                + " of "
                + read.size()
                + ": "
                + listed(unused));
      }
      if (!without.isEmpty()) {
        remarks.add(
            "Files of the "
                + role
                + " without a row in the metadata file "
                + path.getName()
                + ", "
                + without.size()
                + " of "
                + found.size()
                + ": "
                + listed(without));
      }
    }

    /** A lead sheet beside the metadata file, else in the folder; null when there is none. */
    private byte[] sheet(String name, Path home, String folder) {
      byte[] found = bytes(InputPaths.child(home, name));
      return found == null ? bytes(InputPaths.child(qualified(folder), name)) : found;
    }

    /** A lead sheet that lies among the solos is none of them. */
    private void leaveOut(Collection<String> sheets, String role, String folder, Path home) {
      Path root = qualified(folder);
      Set<String> paths = new LinkedHashSet<>();
      for (String sheet : sheets) {
        paths.add(InputPaths.child(home, sheet).toString());
        paths.add(InputPaths.child(root, sheet).toString());
      }
      files.removeIf(
          file ->
              file.role().equals(role)
                  && paths.contains(InputPaths.child(root, file.file()).toString()));
    }

    /** The phrase marks of the study; null when it names none. */
    PhraseMarks phraseMarks(MetadataDefinition definition) {
      if (!definition.isNamed()) {
        return null;
      }
      Path path = InputPaths.of(definition.file());
      byte[] bytes = bytes(path);
      if (bytes == null) {
        throw new InputException(
            "Cannot find the phrase marks " + definition.file() + ". Check their path.");
      }
      String key = definition.key().isEmpty() ? PhraseMarks.USUAL_KEY : definition.key();
      PhraseMarks marks = PhraseMarks.read(path.getName(), bytes, key);
      List<String> names = files.stream().map(InputFile::file).toList();
      List<String> beyond =
          marks.scoresBeyond(Stream.concat(names.stream(), passedOver.stream()).toList());
      if (beyond.size() == marks.size()) {
        throw new InputException(
            "Cannot use the phrase marks "
                + path.getName()
                + ": they speak of no score of the study"
                + (beyond.isEmpty()
                    ? ""
                    : ", but of '" + beyond.get(0) + "', as its column '" + key + "' says")
                + ". Name the column that names the scores.");
      }
      if (!beyond.isEmpty()) {
        remarks.add(
            "The phrase marks "
                + path.getName()
                + " speak of scores ("
                + beyond.size()
                + ") that are not in the study, the first is '"
                + beyond.get(0)
                + "'.");
      }
      long without = names.stream().filter(name -> marks.asWritten(name).isEmpty()).count();
      if (without > 0) {
        remarks.add(
            without
                + " of "
                + names.size()
                + " files have no phrase marks in "
                + path.getName()
                + "; a rule finds their phrases.");
      }
      marksFile = path.getName();
      marksSha256 = Sha256.of(bytes);
      return marks;
    }

    private static String listed(List<String> names) {
      return String.join(", ", names.subList(0, Math.min(names.size(), NAMES_SHOWN)))
          + (names.size() > NAMES_SHOWN
              ? " and " + (names.size() - NAMES_SHOWN) + " more, listed in manifest.json."
              : ".");
    }

    private List<Path> candidates(String folder, MetadataDefinition definition) {
      Path root = qualified(folder);
      if (definition.isNamed()) {
        Path named = InputPaths.of(definition.file());
        return List.of(named.isAbsolute() ? named : new Path(root, named));
      }
      Path inside = new Path(root, MetadataDefinition.USUAL_FILE);
      return root.getParent() == null
          ? List.of(inside)
          : List.of(inside, new Path(root.getParent(), MetadataDefinition.USUAL_FILE));
    }

    private Path qualified(String folder) {
      try {
        Path path = InputPaths.of(folder);
        return Stores.of(path, configuration).makeQualified(path);
      } catch (IOException e) {
        throw new InputException("Cannot use " + folder + ": " + e.getMessage() + ".", e);
      }
    }

    private byte[] bytes(Path path) {
      try {
        FileSystem fileSystem = InputPaths.fileSystem(path, configuration);
        Path qualified = fileSystem.makeQualified(path);
        if (InputPaths.isNoFile(qualified)) {
          throw new InputException(
              "Cannot read the file "
                  + StudyFolder.address(qualified)
                  + ": it is a pipe, a socket or a device, which may never come to an end. Put a"
                  + " file there, or take it away.");
        }
        if (ZippedScores.isArchive(path.getParent().getName())
            && fileSystem.getFileStatus(path.getParent()).isFile()) {
          return bytesInArchive(path);
        }
        long size = fileSystem.getFileStatus(qualified).getLen();
        if (size > LARGEST_METADATA) {
          throw new InputException(
              "Cannot read the file "
                  + StudyFolder.address(qualified)
                  + ": it has "
                  + size
                  + " bytes; the limit is "
                  + LARGEST_METADATA
                  + ".");
        }
        try (InputStream stream = fileSystem.open(path)) {
          return stream.readAllBytes();
        }
      } catch (FileNotFoundException e) {
        refuseUnreadable(path);
        return null;
      } catch (IOException e) {
        throw new InputException(
            "Cannot read the file " + StudyFolder.address(path) + ": " + e.getMessage() + ".", e);
      }
    }

    /**
     * A file that is there and cannot be opened must not be passed over as if it were not: what it
     * says of the scores would be missing in silence.
     */
    private void refuseUnreadable(Path path) {
      String name;
      String why = null;
      try {
        FileSystem fileSystem = InputPaths.fileSystem(path, configuration);
        Path qualified = fileSystem.makeQualified(path);
        name = StudyFolder.address(qualified);
        try {
          FileStatus status = fileSystem.getFileStatus(qualified);
          why =
              status.isDirectory()
                  ? "it is a folder. Give it another name, or put the file in its place."
                  : "permission denied ("
                      + status.getPermission()
                      + ", owner "
                      + status.getOwner()
                      + "). Let it be read, as with 'chmod a+r', or move it away.";
        } catch (FileNotFoundException e) {
          if (InputPaths.isLocal(qualified)
              && Files.isSymbolicLink(java.nio.file.Path.of(qualified.toUri().getPath()))) {
            why = "it is a link to a file that is not there. Mend it, or take it away.";
          }
        }
      } catch (IOException e) {
        throw new InputException("Cannot read the file " + path + ": " + Stores.reason(e) + ".", e);
      }
      if (why != null) {
        throw new InputException("Cannot read the file " + name + ": " + why);
      }
    }

    private byte[] bytesInArchive(Path path) throws IOException {
      try (ZippedScores archive = ZippedScores.open(path.getParent(), configuration)) {
        return archive.has(path.getName())
            ? archive.bytes(path.getName(), LARGEST_METADATA, Long.MAX_VALUE)
            : null;
      }
    }

    /**
     * Settles what the cells of each column are, tells of cells that are something else, and leaves
     * them out.
     *
     * @param declared types that the study gives to columns
     * @throws InputException if it gives one to a column that is not there
     */
    void type(Map<String, MetadataType> declared) {
      Set<String> columns = new TreeSet<>();
      metadata.values().forEach(read -> columns.addAll(read.columns()));
      for (String column : declared.keySet()) {
        if (!columns.contains(column)) {
          throw new InputException(
              "Cannot use the types of the metadata: there is no column '"
                  + column
                  + "'. "
                  + (columns.isEmpty()
                      ? "There are no metadata. Put a file solos.csv into the folder, or name one."
                      : "Did you mean '"
                          + StudyDefinition.nearest(column, List.copyOf(columns))
                          + "'? Columns: "
                          + String.join(", ", columns)
                          + "."));
        }
      }
      settle(declared, declared.keySet());
    }

    /** The same after the columns of a table that stays; what it has not, the cells tell. */
    void typeAs(Map<String, ColumnType> table) {
      Map<String, MetadataType> known = new TreeMap<>();
      for (Metadata read : metadata.values()) {
        for (String column : read.columns()) {
          ColumnType type = table.get(MetadataColumns.inTable(column));
          if (type != null) {
            known.put(column, MetadataType.of(type));
          }
        }
      }
      settle(known, Set.of());
    }

    private void settle(Map<String, MetadataType> known, Set<String> declared) {
      types = MetadataColumns.types(known, metadata.values());
      for (Map.Entry<String, Metadata> read : metadata.entrySet()) {
        List<String> columns = read.getValue().columns();
        Metadata.Typed typed = read.getValue().typed(types);
        read.setValue(typed.metadata());
        metadataFiles.replaceAll(
            file ->
                file.role().equals(read.getKey()) ? typed(file, columns, declared, typed) : file);
      }
    }

    /** What the manifest says of a metadata file, with types; misfits are told. */
    private Manifest.MetadataFile typed(
        Manifest.MetadataFile file,
        List<String> columns,
        Set<String> declared,
        Metadata.Typed typed) {
      Map<String, List<String>> misfits = new TreeMap<>();
      for (Metadata.Misfit misfit : typed.misfits()) {
        misfits
            .computeIfAbsent(misfit.column(), column -> new ArrayList<>())
            .add("row " + misfit.row() + " '" + shortened(misfit.cell()) + "'");
      }
      misfits.forEach(
          (column, cells) -> {
            MetadataType type = types.get(column);
            remarks.add(
                "Cells of the metadata file "
                    + file.file()
                    + " that are empty in the tables, because column '"
                    + column
                    + "' is of type "
                    + type.word()
                    + ", "
                    + cells.size()
                    + ": "
                    + listed(cells)
                    + " Write each as "
                    + type.inWords()
                    + ", or declare the column as text in the study file.");
          });
      Map<String, MetadataType> own = new TreeMap<>(types);
      own.keySet().retainAll(columns);
      return new Manifest.MetadataFile(
          file.role(),
          file.file(),
          file.sha256(),
          file.columns(),
          own,
          own.keySet().stream().filter(declared::contains).toList(),
          typed.misfits().stream()
              .map(misfit -> new Manifest.EmptiedCell(misfit.row(), misfit.column(), misfit.cell()))
              .toList(),
          file.rowsWithoutFile(),
          file.filesWithoutRow());
    }

    private static String shortened(String cell) {
      return cell.length() <= LONGEST_SHOWN ? cell : cell.substring(0, LONGEST_SHOWN) + "…";
    }

    TableSchema solosSchema() {
      return MetadataColumns.solosSchema(types);
    }
  }
}
