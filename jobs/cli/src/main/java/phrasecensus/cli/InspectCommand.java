package phrasecensus.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.readers.Problem;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StudySettings;

/** {@code inspect}: how one file is read. */
@Command(
    name = "inspect",
    description = "Shows how one file is read: bars, chords, notes, phrases, landings, problems.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census inspect sample-corpus/corpus/SOLO.musicxml"})
final class InspectCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "A MusicXML file.")
  private Path file;

  @Option(names = "--json", description = "Print JSON for a program.")
  private boolean json;

  @Option(names = "--written", description = "Name notes and chords as the player reads them.")
  private boolean written;

  @Option(names = "--as-played", description = "Unfold repeats and jumps.")
  private boolean asPlayed;

  @Option(
      names = "--part",
      paramLabel = "PART",
      description = "Id or name of the part that is the solo; default: chosen by rule.")
  private String part;

  @Option(
      names = "--phrase-rule",
      paramLabel = "RULE",
      completionCandidates = PhraseRuleNames.class,
      description =
          "Rule that ends phrases: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
  private String phraseRule = StudySettings.DEFAULT_PHRASE_RULE;

  @Option(
      names = "--phrase-rule-setting",
      paramLabel = "NAME=VALUE",
      description = "A number of the phrase rule; may be repeated.")
  private Map<String, String> phraseRuleSettings = new TreeMap<>();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    ReadSettings settings = ReadSettings.defaults().withAsPlayed(asPlayed);
    if (part != null) {
      settings = settings.withPreferredPart(part);
    }
    ReadResult result = SoloReader.read(bytes(), String.valueOf(file.getFileName()), settings);
    if (!result.isRead()) {
      result.problems().forEach(problem -> spec.commandLine().getErr().println(line(problem)));
      throw new InputException("Cannot read " + file + ": " + result.reason());
    }
    SoloAnalysis analysis =
        SoloAnalyser.analyse(result.solo(), new AnalysisSettings(rule(), true, Optional.empty()));
    if (json) {
      out.println(json(analysis, result));
    } else {
      new SoloText(analysis, result, written).print(out);
    }
    return ExitCode.DONE;
  }

  private byte[] bytes() {
    if (Files.isDirectory(file)) {
      throw new InputException("Cannot read " + file + ": it is a folder. Name one file.");
    }
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new InputException(
          "Cannot read " + file + ": no such file, or no permission to read it.", e);
    }
  }

  private PhraseRule rule() {
    try {
      return PhraseRules.rule(phraseRule, phraseRuleSettings);
    } catch (IllegalArgumentException e) {
      throw new InputException(e.getMessage() + ".", e);
    }
  }

  static String line(Problem problem) {
    StringBuilder text = new StringBuilder();
    if (!problem.part().isEmpty()) {
      text.append("part ").append(problem.part()).append(", ");
    }
    if (!problem.bar().isEmpty()) {
      text.append("bar ").append(problem.bar()).append(": ");
    }
    return text + problem.found() + "; " + problem.done();
  }

  private static String json(SoloAnalysis analysis, ReadResult result) {
    try {
      return new ObjectMapper()
          .enable(SerializationFeature.INDENT_OUTPUT)
          .writeValueAsString(SoloJson.of(analysis, result));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }
}
