package phrasecensus.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.readers.ReadResult;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

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

  @Mixin private SoloOptions options;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    ReadResult result = options.read(file, spec.commandLine().getErr());
    SoloAnalysis analysis = options.analysis(result.solo());
    if (json) {
      out.println(json(analysis, result));
    } else {
      new SoloText(analysis, result, written).print(out);
    }
    return ExitCode.DONE;
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
