package phrasecensus.cli;

import java.util.List;
import java.util.Locale;
import phrasecensus.tables.StudyDefinition;
import picocli.CommandLine;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What is wrong with a command line, in a sentence. */
final class UsageText {
  private UsageText() {}

  static String of(ParameterException e) {
    if (e instanceof UnmatchedArgumentException unmatched) {
      return unmatched(unmatched);
    }
    if (e instanceof MissingParameterException missing && missing.getMissing().size() == 1) {
      return missing(missing.getMissing().get(0));
    }
    if (e.getArgSpec() instanceof OptionSpec option
        && option.typeInfo().isMap()
        && e.getValue() != null) {
      return "Write option '"
          + option.longestName()
          + "' as "
          + option.paramLabel()
          + ", not '"
          + e.getValue()
          + "'.";
    }
    String text = e.getMessage().strip().replace("is not an int", "is not a whole number");
    return text.substring(0, 1).toUpperCase(Locale.ROOT)
        + text.substring(1)
        + (text.endsWith(".") ? "" : ".");
  }

  private static String missing(ArgSpec argument) {
    if (argument instanceof OptionSpec option) {
      return "Option '" + option.longestName() + "' needs a " + option.paramLabel() + ".";
    }
    return "Missing " + argument.paramLabel() + ": " + String.join(" ", argument.description());
  }

  private static String unmatched(UnmatchedArgumentException e) {
    String given = e.getUnmatched().get(0);
    CommandSpec command = e.getCommandLine().getCommandSpec();
    List<String> known;
    String what;
    if (e.isUnknownOption()) {
      what = "Unknown option '";
      known = command.optionsMap().keySet().stream().filter(name -> name.startsWith("--")).toList();
    } else if (command.parent() == null) {
      what = "Unknown command '";
      known =
          e.getCommandLine().getSubcommands().values().stream()
              .map(CommandLine::getCommandSpec)
              .filter(each -> !each.usageMessage().hidden())
              .map(CommandSpec::name)
              .toList();
    } else {
      return "One argument too many: '" + given + "'.";
    }
    return what
        + given
        + "'."
        + (e.getSuggestions().isEmpty()
            ? ""
            : " Did you mean '" + StudyDefinition.nearest(given, known) + "'?");
  }
}
