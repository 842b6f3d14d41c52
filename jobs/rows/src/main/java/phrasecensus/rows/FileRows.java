package phrasecensus.rows;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.SwingNotation;
import phrasecensus.readers.Limit;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;
import phrasecensus.tables.PhraseMarks;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * One file as rows of every table of reading: opened, read and analysed once. Plain Java: a loop
 * over files gives the same rows as a Spark job.
 */
public final class FileRows {
  private static final String CORPUS = "corpus";

  private final TableSchema solosSchema;
  private final ReadSettings readSettings;
  private final PhraseRule phraseRule;
  private final List<PhraseRule> furtherRules;
  private final boolean anticipation;
  private final boolean evenEighths;
  private final PhraseMarks marks;
  private final StageWatch watch;
  private final StudySettings settings;

  /**
   * @param solosSchema table {@code solos} with the study's metadata columns
   * @throws IllegalArgumentException if the settings name an unknown phrase rule, number or limit
   */
  public FileRows(StudySettings settings, TableSchema solosSchema) {
    this(settings, solosSchema, null);
  }

  /**
   * @param solosSchema table {@code solos} with the study's metadata columns
   * @param marks where people say that phrases begin; null to find phrases by the rule alone
   * @throws IllegalArgumentException if the settings name an unknown phrase rule, number or limit
   */
  public FileRows(StudySettings settings, TableSchema solosSchema, PhraseMarks marks) {
    this(settings, solosSchema, marks, (stage, file) -> {});
  }

  /**
   * @param solosSchema table {@code solos} with the study's metadata columns
   * @param marks where people say that phrases begin; null to find phrases by the rule alone
   * @param watch told of every step
   * @throws IllegalArgumentException if the settings name an unknown phrase rule, number or limit
   */
  public FileRows(
      StudySettings settings, TableSchema solosSchema, PhraseMarks marks, StageWatch watch) {
    this.watch = watch;
    this.settings = settings;
    this.solosSchema = solosSchema;
    this.readSettings = readSettings(settings);
    this.phraseRule = PhraseRules.rule(settings.phraseRule(), settings.phraseRuleSettings());
    this.furtherRules =
        settings.sensitivity().stream()
            .map(PhraseRules::parse)
            .filter(rule -> marks != null || !rule.equals(phraseRule))
            .distinct()
            .toList();
    this.anticipation = settings.anticipation();
    this.evenEighths = settings.evenEighths();
    this.marks = marks;
  }

  /**
   * How a study's files are read.
   *
   * @throws IllegalArgumentException if the settings name an unknown limit or an unusable value
   */
  public static ReadSettings readSettings(StudySettings settings) {
    ReadSettings reading =
        ReadSettings.defaults()
            .withAsPlayed(settings.asPlayed())
            .withSlashNoteheadsKept(settings.keepSlashNoteheads())
            .withLimits(Limit.parse(settings.limits()));
    return settings.part().isEmpty() ? reading : reading.withPreferredPart(settings.part());
  }

  /** The largest file that is opened, in bytes. */
  public long largestFile() {
    return readSettings.limit(Limit.FILE_SIZE);
  }

  /** How many times its compressed size a file in an archive may have, beyond a megabyte. */
  public long largestRatio() {
    return readSettings.limit(Limit.DECOMPRESSION_RATIO);
  }

  /**
   * What a file gave.
   *
   * @param rows table to rows, in the order of the tables' keys
   * @param sha256 checksum of its bytes
   * @param rejection why it was rejected; null when it was read
   * @param notes notes of the line; 0 when rejected
   * @param line digest of the line; null when it was rejected or has too few notes
   * @param fault where the program failed on it; null unless that is why it was rejected
   */
  public record Result(
      Map<String, List<TableRow>> rows,
      String sha256,
      String rejection,
      int notes,
      String line,
      FileFault fault) {}

  /** What is done with a file, step by step. */
  public enum Stage {
    READING,
    ANALYSIS,
    ROWS
  }

  /** Is told of every step with a file before it begins; what it throws counts as the step's. */
  @FunctionalInterface
  public interface StageWatch extends Serializable {
    void begins(Stage stage, String file);
  }

  /**
   * Reads and analyses a file. A fault of the program on it becomes its row.
   *
   * @param role corpus or student
   * @param file path in its folder
   * @param bytes its content
   * @param metadata what the metadata file says about it; may be empty
   * @throws OutOfMemoryError if the memory is used up, by this file or by others at the same time
   */
  public Result of(String role, String file, byte[] bytes, Map<String, String> metadata) {
    try {
      return read(role, file, bytes, metadata);
    } catch (OutOfMemoryError e) {
      throw e;
    } catch (Exception | Error e) {
      return failed(role, file, bytes.length, Sha256.of(bytes), e);
    }
  }

  /**
   * A file on which the program failed.
   *
   * @param sha256 of its bytes; null when they could not be read
   */
  public Result failed(String role, String file, long size, String sha256, Throwable thrown) {
    FileFault fault = FileFault.of(thrown);
    return rejected(role, file, size, sha256, fault.sentence(), fault);
  }

  private Result read(String role, String file, byte[] bytes, Map<String, String> metadata) {
    String soloId = role + "/" + file;
    String sha256 = Sha256.of(bytes);
    watch.begins(Stage.READING, file);
    ReadResult result = SoloReader.read(bytes, file, readSettings);
    Map<String, List<TableRow>> rows = new LinkedHashMap<>();
    boolean read = result.isRead();
    int notes = 0;
    String line = null;
    boolean solo = false;
    List<Problem> problems = new ArrayList<>(result.problems());
    if (read) {
      notes = result.solo().notes().size();
      line = LineDigest.of(result.solo().notes());
      solo = notes > 0 || !role.equals(CORPUS);
      GivenPhrases phrases = phrases(file, notes);
      problems.addAll(phrases.problems());
      watch.begins(Stage.ANALYSIS, file);
      SoloFacts facts = SoloFacts.of(result.solo(), role, metadata, settings);
      problems.addAll(facts.problems());
      SoloAnalysis analysis =
          SoloAnalyser.analyse(
              evenEighths ? SwingNotation.evened(facts.solo()) : facts.solo(),
              new AnalysisSettings(phrases.rule(), anticipation, facts.key(), facts.choruses()));
      watch.begins(Stage.ROWS, file);
      SoloRows soloRows = new SoloRows(soloId, role, file, analysis, rows);
      soloRows.add(solosSchema, metadata, student(role, file, metadata));
      if (role.equals(CORPUS) && solo) {
        furtherRules.forEach(soloRows::addUnder);
      }
      if (!solo) {
        // A chart is no solo of the corpus: no norm counts it, and its bars and chords are kept.
        rows.keySet().retainAll(List.of("bars", "chords"));
      }
    }
    addProblems(role, file, solo ? soloId : null, problems, rows);
    rows.put(
        "files",
        List.of(
            TableRow.of(TableSchemas.named("files"))
                .set("role", role)
                .set("file", file)
                .set("solo_id", solo ? soloId : null)
                .set("sha256", sha256)
                .set("line_digest", line)
                .set("bytes", (long) bytes.length)
                .set("format", result.format())
                .set("outcome", read ? "read" : "rejected")
                .set("reason", read ? null : result.reason())
                .set("problem_count", problems.size())
                .set(
                    "left_out_notes",
                    read
                        ? result.notesInStacksLeftOut() + result.notesInOtherVoicesLeftOut()
                        : null)
                .build()));
    return new Result(rows, sha256, read ? null : result.reason(), notes, line, null);
  }

  private GivenPhrases phrases(String file, int notes) {
    if (marks == null) {
      return new GivenPhrases(phraseRule, List.of());
    }
    return marks
        .asWritten(file)
        .map(given -> GivenPhrases.of(given, notes))
        .orElseGet(() -> GivenPhrases.none(phraseRule));
  }

  /**
   * A file whose bytes could not be had.
   *
   * @param reason a sentence
   */
  public Result unreadable(String role, String file, long size, String reason) {
    return rejected(role, file, size, null, reason, null);
  }

  private static Result rejected(
      String role, String file, long size, String sha256, String reason, FileFault fault) {
    TableRow row =
        TableRow.of(TableSchemas.named("files"))
            .set("role", role)
            .set("file", file)
            .set("sha256", sha256)
            .set("bytes", size)
            .set("format", "unknown")
            .set("outcome", "rejected")
            .set("reason", reason)
            .set("problem_count", 0)
            .build();
    return new Result(Map.of("files", List.of(row)), sha256, reason, 0, null, fault);
  }

  /** The student a file belongs to: by the metadata, else by the first folder, else by its name. */
  private static String student(String role, String file, Map<String, String> metadata) {
    if (!role.equals("student")) {
      return null;
    }
    String named = metadata.get("student");
    if (named != null) {
      return named;
    }
    int slash = file.indexOf('/');
    return slash > 0 ? file.substring(0, slash) : file.replaceAll("\\.[^.]*$", "");
  }

  private static void addProblems(
      String role,
      String file,
      String soloId,
      List<Problem> problems,
      Map<String, List<TableRow>> rows) {
    List<TableRow> built = new ArrayList<>();
    for (Problem problem : problems) {
      built.add(
          TableRow.of(TableSchemas.named("problems"))
              .set("role", role)
              .set("file", file)
              .set("solo_id", soloId)
              .set("problem_index", built.size())
              .set("part", problem.part())
              .set("bar", problem.bar())
              .set("code", problem.code())
              .set("severity", problem.severity())
              .set("found", problem.found())
              .set("done", problem.done())
              .build());
    }
    rows.put("problems", built);
  }
}
