package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.Help;

/** Help on a terminal of 80 columns: whole sentences, wrapped by picocli and not by hand. */
class HelpTest {
  private static Stream<CommandLine> shown() {
    return Main.commandLine().getSubcommands().values().stream()
        .filter(command -> !command.getCommandSpec().usageMessage().hidden());
  }

  private static String run(String... arguments) {
    StringWriter out = new StringWriter();
    Main.run(new PrintWriter(out), new PrintWriter(out), arguments);
    return out.toString();
  }

  @Test
  void helpNamesACommandAsItsOptionDoes() {
    assertThat(run("help", "study")).isEqualTo(run("study", "--help")).contains("--students");
    assertThat(run("help")).isEqualTo(run("--help")).contains("Exit codes:");
  }

  /** The list of commands shows the first line of a description alone. */
  @ParameterizedTest
  @MethodSource("shown")
  void summaryInTheListIsWhole(CommandLine command) {
    assertThat(command.getCommandSpec().usageMessage().description())
        .singleElement()
        .asString()
        .endsWith(".");
  }

  /** A paragraph of two strings would break in its middle, and again where the terminal ends. */
  @ParameterizedTest
  @MethodSource("shown")
  void proseIsLeftToPicocliToWrap(CommandLine command) {
    List<String> footer = List.of(command.getCommandSpec().usageMessage().footer());
    for (int i = 1; i < footer.size(); i++) {
      String before = footer.get(i - 1);
      assertThat(
              before.isEmpty()
                  || before.endsWith(":")
                  || footer.get(i).startsWith("  ")
                  || footer.get(i).isEmpty())
          .as(before)
          .isTrue();
    }
  }

  @ParameterizedTest
  @MethodSource("shown")
  void examplesFitIntoALine(CommandLine command) {
    assertThat(command.getCommandSpec().usageMessage().footer())
        .filteredOn(line -> line.startsWith("  "))
        .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
  }

  @ParameterizedTest
  @MethodSource("shown")
  void everyOptionIsASentence(CommandLine command) {
    assertThat(command.getCommandSpec().options())
        .filteredOn(option -> !option.hidden())
        .allSatisfy(
            option ->
                assertThat(String.join(" ", option.description()))
                    .as(option.longestName())
                    .matches("(?s).*[.)]"));
    Help help = command.getHelp();
    Collection<String> lines = help.optionList().lines().toList();
    assertThat(lines).allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
  }
}
