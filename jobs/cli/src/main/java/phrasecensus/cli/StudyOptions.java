package phrasecensus.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.tables.FileAddress;
import phrasecensus.tables.InputException;
import phrasecensus.tables.MetadataChoice;
import phrasecensus.tables.MetadataDefinition;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.verify.ExpectedResults;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What to study: a study file or a folder, and what the command line says otherwise. */
final class StudyOptions {
  @Parameters(
      paramLabel = "STUDY",
      arity = "0..1",
      description =
          "A study file (.yaml), or the folder of a corpus; with --students it may be left out.")
  private String study;

  @Option(
      names = "--students",
      paramLabel = "FOLDER",
      description = "Students' solos to compare: one folder a student, or named in its solos.csv.")
  private String students;

  @Option(
      names = "--into",
      paramLabel = "FOLDER",
      description = "Study folder to write; default: NAME-study in the current folder.")
  private String into;

  @Option(
      names = "--by",
      paramLabel = "COLUMN",
      split = ",",
      description =
          "Metadata columns that group the norms; 'folder' for the folders of the scores.")
  private List<String> by;

  @Option(
      names = "--only",
      paramLabel = "CHOICE",
      description =
          "Study only the corpus solos whose metadata say so, as in 'style=swing|bebop' or"
              + " 'year=1940..1949'; may be repeated, then all must hold.")
  private List<String> only;

  @Option(
      names = "--student-only",
      paramLabel = "CHOICE",
      description = "The same of the students' solos, as in 'level=beginner'.")
  private List<String> studentOnly;

  @Option(
      names = "--metadata",
      paramLabel = "FILE",
      description =
          "CSV file about the corpus; default: solos.csv in the corpus folder or beside it.")
  private String metadata;

  @Option(
      names = "--metadata-key",
      paramLabel = "COLUMN",
      description = "Its column that names the score; default: file, else found by the values.")
  private String metadataKey;

  @Option(
      names = "--phrase-rule",
      paramLabel = "RULE",
      completionCandidates = PhraseRuleNames.class,
      description =
          "Rule that ends phrases: ${COMPLETION-CANDIDATES}. Default: that of the study file, else"
              + " "
              + StudySettings.DEFAULT_PHRASE_RULE
              + ".")
  private String phraseRule;

  @Option(
      names = "--phrase-rule-setting",
      paramLabel = "NAME=VALUE",
      description = "A number of the phrase rule, as in minimum-beats=3/4; may be repeated.")
  private Map<String, String> phraseRuleSettings;

  @Option(
      names = "--marks",
      paramLabel = "FILE",
      description =
          "CSV file that says where phrases begin, in the place of a rule: one row a phrase, with"
              + " the score and note_index, its first note counted from 0 (tied notes once). The"
              + " rule finds phrases where the file is silent.")
  private String marks;

  @Option(
      names = "--marks-key",
      paramLabel = "COLUMN",
      description = "Its column that names the score; default: file.")
  private String marksKey;

  @Option(
      names = "--sensitivity",
      paramLabel = "RULE",
      split = ",",
      description =
          "Further phrase rules, to see how far the norms move: a name, then numbers if any, as in"
              + " --sensitivity 'silence,silence minimum-beats=1'.")
  private List<String> sensitivity;

  @Option(
      names = "--as-played",
      description = "Unfold repeats and jumps; default: every bar once, as written.")
  private boolean asPlayed;

  @Option(
      names = "--even-eighths",
      description =
          "Read a triplet quarter with its eighth, and a dotted eighth with its sixteenth, as two"
              + " even eighths: for transcriptions that write swing out.")
  private boolean evenEighths;

  @Option(
      names = "--keep-slash-noteheads",
      description =
          "Read notes with slashes as noteheads as notes of the line; default: left out, as"
              + " anything may be played there.")
  private boolean keepSlashNoteheads;

  @Option(names = "--no-anticipation", description = "Judge every note by the chord at its onset.")
  private boolean noAnticipation;

  @Option(
      names = "--part",
      paramLabel = "PART",
      description = "Id or name of the part that is the solo; default: chosen by rule.")
  private String part;

  @Mixin private LimitOptions limits;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  StudyDefinition definition() {
    StudyDefinition definition;
    if (study == null && students == null) {
      throw new ParameterException(
          spec.commandLine(),
          "Cannot make a study of nothing. Name a study file or the folder of a corpus, or"
              + " students with --students FOLDER.");
    } else if (study == null) {
      definition = StudyDefinition.ofStudents(students);
      definition = definition.writtenInto(definition.name() + "-study");
    } else if (isStudyFile(study)) {
      definition = StudyDefinition.read(Path.of(study));
      checkExpected(definition);
    } else {
      definition = StudyDefinition.ofFolder(study, "");
      definition = definition.writtenInto(definition.name() + "-study");
    }
    if (students != null) {
      definition = definition.comparing(students);
    }
    if (into != null) {
      definition = definition.writtenInto(into);
    }
    if (by != null) {
      definition = definition.groupedBy(by.stream().map(String::strip).toList());
    }
    if (only != null || studentOnly != null) {
      definition =
          definition.choosing(
              only == null ? definition.only() : MetadataChoice.of(only),
              studentOnly == null ? definition.studentOnly() : MetadataChoice.of(studentOnly));
    }
    if (metadata != null || metadataKey != null) {
      MetadataDefinition given = definition.metadata();
      definition =
          definition.describedBy(
              new MetadataDefinition(
                  metadata == null ? given.file() : location(metadata),
                  metadataKey == null ? given.key() : metadataKey,
                  given.columns(),
                  given.types(),
                  given.delimiter(),
                  given.encoding()));
    }
    if (marks != null || marksKey != null) {
      MetadataDefinition given = definition.phraseMarks();
      if (marks == null && !given.isNamed()) {
        throw new InputException(
            "Cannot use --marks-key: no phrase marks are named. Add --marks FILE.");
      }
      definition =
          definition.markedBy(
              new MetadataDefinition(
                  marks == null ? given.file() : location(marks),
                  marksKey == null ? given.key() : marksKey));
    }
    return definition.readWith(settings(definition.settings()));
  }

  /** What a study names as its expected results must be such, whether or not it is verified now. */
  private static void checkExpected(StudyDefinition definition) {
    if (!definition.expected().isEmpty() && Files.exists(Path.of(definition.expected()))) {
      ExpectedResults.read(Path.of(definition.expected()));
    }
  }

  private StudySettings settings(StudySettings given) {
    Map<String, String> numbers = new TreeMap<>(given.phraseRuleSettings());
    if (phraseRule != null && !phraseRule.equals(given.phraseRule())) {
      numbers.clear();
    }
    if (phraseRuleSettings != null) {
      numbers.putAll(phraseRuleSettings);
    }
    return new StudySettings(
        phraseRule == null ? given.phraseRule() : phraseRule,
        numbers,
        given.anticipation() && !noAnticipation,
        given.asPlayed() || asPlayed,
        given.evenEighths() || evenEighths,
        given.keepSlashNoteheads() || keepSlashNoteheads,
        part == null ? given.part() : part,
        sensitivity == null
            ? given.sensitivity()
            : sensitivity.stream().map(String::strip).toList(),
        limits.over(given.limits()),
        given.key());
  }

  /** An address as it is, a path from the current folder. */
  private static String location(String given) {
    return FileAddress.isOne(given) ? given : Path.of(given).toAbsolutePath().toString();
  }

  private static boolean isStudyFile(String location) {
    String lower = location.toLowerCase(Locale.ROOT);
    return (lower.endsWith(".yaml") || lower.endsWith(".yml"))
        && !Files.isDirectory(Path.of(location));
  }
}
