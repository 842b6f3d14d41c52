package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.Limit;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.Refusal;
import phrasecensus.readers.SoloReader;
import phrasecensus.tables.InputException;
import phrasecensus.tables.ProblemKinds;
import phrasecensus.tables.StudySettings;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** How single files are read and heard, for commands that take files and make no tables. */
final class SoloOptions {
  @Option(names = "--as-played", description = "Unfold repeats and jumps.")
  private boolean asPlayed;

  @Option(
      names = "--keep-slash-noteheads",
      description = "Read notes with slashes as noteheads as notes of the line.")
  private boolean keepSlashNoteheads;

  @Option(
      names = "--part",
      paramLabel = "PART",
      description = "Id or name of the part that is the solo; default: chosen by rule.")
  private String part;

  @Option(
      names = "--phrase-rule",
      paramLabel = "RULE",
      completionCandidates = PhraseRuleNames.class,
      description = "Rule that ends phrases: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
  private String phraseRule = StudySettings.DEFAULT_PHRASE_RULE;

  @Option(
      names = "--phrase-rule-setting",
      paramLabel = "NAME=VALUE",
      description = "A number of the phrase rule, as in minimum-beats=3/4; may be repeated.")
  private Map<String, String> phraseRuleSettings = new TreeMap<>();

  @Mixin private LimitOptions limits;

  /**
   * Finds what is wrong with the options before any file is read.
   *
   * @throws InputException naming the option's value and what is allowed
   */
  void check() {
    readSettings();
    rule();
  }

  /**
   * Reads a file.
   *
   * @param err told the problems of a file that is rejected
   * @throws InputException if it gives no solo, with the reason
   */
  ReadResult read(Path file, PrintWriter err) {
    ReadSettings settings = readSettings();
    ReadResult result =
        SoloReader.read(bytes(file, settings), String.valueOf(file.getFileName()), settings);
    if (!result.isRead()) {
      lines(result.problems()).forEach(err::println);
      throw new InputException("Cannot read " + file + ": " + result.reason());
    }
    return result;
  }

  /**
   * Hears a solo.
   *
   * @throws InputException if the phrase rule or one of its numbers is unknown
   */
  SoloAnalysis analysis(Solo solo) {
    return SoloAnalyser.analyse(solo, new AnalysisSettings(rule(), true, Optional.empty()));
  }

  private ReadSettings readSettings() {
    try {
      ReadSettings settings =
          ReadSettings.defaults()
              .withAsPlayed(asPlayed)
              .withSlashNoteheadsKept(keepSlashNoteheads)
              .withLimits(Limit.parse(limits.over(Map.of())));
      return part == null ? settings : settings.withPreferredPart(part);
    } catch (IllegalArgumentException e) {
      throw new InputException(e.getMessage() + ".", e);
    }
  }

  private static byte[] bytes(Path file, ReadSettings settings) {
    if (Files.isDirectory(file)) {
      throw new InputException("Cannot read " + file + ": it is a folder. Name one file.");
    }
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      throw new InputException(
          "Cannot read "
              + file
              + ": it is a pipe, a socket or a device, which may never come to an end.");
    }
    try {
      long most = settings.limit(Limit.FILE_SIZE);
      if (Files.size(file) > most) {
        throw new InputException(
            "Cannot read " + file + ": " + Refusal.beyond(Limit.FILE_SIZE, most).getMessage());
      }
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new InputException(
          "Cannot read " + file + ": no such file, or no permission to read it.", e);
    }
  }

  /**
   * The phrase rule that was asked for.
   *
   * @throws InputException if it or one of its numbers is unknown
   */
  PhraseRule rule() {
    try {
      return PhraseRules.rule(phraseRule, phraseRuleSettings);
    } catch (IllegalArgumentException e) {
      throw new InputException(e.getMessage() + ".", e);
    }
  }

  /** The problems of a file, a line a kind, the worst first; the tables have all. */
  static List<String> lines(List<Problem> problems) {
    ProblemKinds kinds = new ProblemKinds();
    for (Problem problem : problems) {
      kinds.add(
          problem.code(),
          problem.severity(),
          problem.part(),
          problem.bar(),
          problem.found(),
          problem.done());
    }
    return kinds.worstFirst().stream().map(SoloOptions::line).toList();
  }

  private static String line(ProblemKinds.Kind kind) {
    StringBuilder text = new StringBuilder();
    if (!kind.part().isEmpty()) {
      text.append("part ").append(kind.part()).append(", ");
    }
    if (!kind.bars().isEmpty()) {
      text.append(kind.bars().size() > 1 ? "bars " : "bar ")
          .append(String.join(", ", kind.bars()))
          .append(kind.moreBars() ? " …: " : ": ");
    }
    if (kind.count() > 1) {
      text.append(kind.count()).append(" times, first ");
    }
    return text + kind.found() + "; " + kind.done();
  }
}
