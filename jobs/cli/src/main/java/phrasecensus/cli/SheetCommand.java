package phrasecensus.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import phrasecensus.report.find.FoundPhrase;
import phrasecensus.report.find.PhraseSearch;
import phrasecensus.report.find.QueryTitle;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.sheet.SheetChoice;
import phrasecensus.report.sheet.SheetPhrase;
import phrasecensus.report.sheet.SheetRequest;
import phrasecensus.report.sheet.SheetSetting;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.PhraseQuery;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSource;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code sheet}: corpus phrases that show one thing, as a score to hand out. */
@Command(
    name = "sheet",
    description =
        "Writes a sheet of corpus phrases, chosen by conditions or by one statistic: MusicXML for"
            + " any notation program, a MIDI file and a page to print, transposed to an instrument."
            + " Each phrase stands on a system of its own with its chords and where it comes from.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Examples:",
      "  phrase-census sheet my-study --statistic phrase_length_bars \\",
      "      --from 1.75 --to 2.25 --last-note 3 --for \"Bb clarinet\" --into handout",
      "  phrase-census sheet my-study --where 'bars 2' --where 'over ii-V-I major' \\",
      "      --where 'difficulty 3' --for trumpet --into handout"
    })
final class SheetCommand implements Callable<Integer> {
  private static final int MOST_PHRASES = 60;

  /** So many times the phrases of a sheet are tried before it stays short. */
  private static final int SPARE = 50;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder, or the study file of one.")
  private String location;

  @Mixin private QueryOptions query;

  @Option(
      names = "--statistic",
      paramLabel = "KEY",
      description =
          "In place of conditions, the statistic of phrases by which they are chosen;"
              + " schemas/statistics.json has all.")
  private String statistic = "";

  @Option(
      names = "--from",
      paramLabel = "NUMBER",
      description = "Least value; default: the lower quartile of the corpus.")
  private Double from;

  @Option(
      names = "--to",
      paramLabel = "NUMBER",
      description = "Largest value; default: the upper quartile of the corpus.")
  private Double to;

  @Option(
      names = "--last-note",
      paramLabel = "DEGREE",
      split = ",",
      description = "Only phrases whose last note is one of these over its chord, as in 3 or b7,9.")
  private List<String> lastNote = List.of();

  @Option(
      names = "--only",
      paramLabel = "COLUMN=VALUE",
      description = "Only solos with this value in a column of the table solos, as in style=tidal.")
  private String only = "";

  @Option(
      names = "--count",
      paramLabel = "NUMBER",
      description = "Phrases on the sheet, at most; default: ${DEFAULT-VALUE}.")
  private int count = 8;

  @Option(
      names = "--for",
      paramLabel = "INSTRUMENT",
      description = "Instrument to write for, as in \"Bb clarinet\"; default: ${DEFAULT-VALUE}.")
  private String instrument = "concert pitch";

  @Option(
      names = "--key",
      paramLabel = "KEY",
      description =
          "Key of the phrases: tune (each as in its tune), all (each twelve times, round the circle"
              + " of fifths), or a sounding tonic such as F or Bb, to which the centre of each"
              + " phrase is moved; default: ${DEFAULT-VALUE}.")
  private String key = "tune";

  @Option(
      names = "--level",
      paramLabel = "1-5",
      description =
          "How hard at most, as written for the instrument, from 1 (first steps) to 5; lower levels"
              + " have a smaller range too. Default: ${DEFAULT-VALUE}, which takes all.")
  private int level = SheetSetting.EVERY_LEVEL;

  @Option(
      names = "--answers",
      description =
          "Leave as many empty bars after each phrase as it has, under the same chords, to be"
              + " filled by the player.")
  private boolean answers;

  @Option(
      names = "--title",
      paramLabel = "TEXT",
      description = "Heading; default: what the phrases show.")
  private String title;

  @Option(
      names = "--into",
      paramLabel = "FOLDER",
      required = true,
      description = "Folder of the sheet; it is named after the query or the statistic.")
  private Path into;

  @Option(names = "--force", description = "Replace a sheet that is there.")
  private boolean force;

  @Override
  public Integer call() {
    if (query.isGiven() == !statistic.isEmpty()) {
      throw wrong(
          "Say what the phrases must have with --where or --query, or name one --statistic;"
              + " one of the two.");
    }
    SheetRequest request = statistic.isEmpty() ? null : request();
    checkCount();
    PhraseQuery asked = query.isGiven() ? askedFor() : null;
    Instrument player =
        Instrument.named(instrument)
            .orElseThrow(
                () ->
                    wrong(
                        "Invalid value for --for: "
                            + instrument
                            + "."
                            + Instrument.meant(instrument)
                                .map(label -> " Did you mean '" + label + "'?")
                                .orElse("")
                            + " There is: "
                            + Instrument.labels()
                            + "."));
    SheetSetting setting = setting(player);
    String stem = request == null ? query.stem() : statistic.replace('_', '-');
    SheetFiles files = new SheetFiles(into, stem);
    files.refuseToReplace(force);
    try (StudyFolder folder =
        StudyFolder.finishedToRead(QueryOptions.folder(location), StudyFolder.configuration())) {
      if (!folder.manifest().report().excerpts()) {
        throw new InputException(
            "Cannot write a sheet: the study file of "
                + location
                + " keeps excerpts out (report: excerpts: false).");
      }
      if (request == null) {
        byConditions(folder, asked, setting, files);
      } else {
        SheetChoice.Chosen chosen = SheetChoice.of(folder.source(), request);
        String heading = title == null ? heading(request, chosen) : title.strip();
        Sheet sheet = Sheet.of(folder.source(), chosen.phrases(), setting, heading);
        files.write(
            sheet,
            heading,
            how(request.statistic().meaning() + " ", player),
            player,
            folder.manifest().program());
        report(chosen, sheet, setting, files);
      }
    }
    return ExitCode.DONE;
  }

  private PhraseQuery askedFor() {
    if (from != null || to != null || !lastNote.isEmpty() || !only.isEmpty()) {
      throw wrong(
          "--from, --to, --last-note and --only go with --statistic. With --where say"
              + " 'last-note third' or 'COLUMN=VALUE'.");
    }
    return query.query(location);
  }

  private void checkCount() {
    if (count < 1 || count > MOST_PHRASES) {
      throw wrong(
          "Invalid value for --count: " + count + ". It goes from 1 to " + MOST_PHRASES + ".");
    }
  }

  private SheetSetting setting(Instrument player) {
    if (level < 1 || level > SheetSetting.EVERY_LEVEL) {
      throw wrong("Invalid value for --level: " + level + ". It goes from 1 to 5.");
    }
    String wanted = key.strip();
    if (wanted.equals("tune")) {
      return new SheetSetting(player, SheetSetting.Keys.OF_TUNE, 0, answers, level, count);
    }
    if (wanted.equals("all")) {
      if (count * SheetSetting.Keys.ALL.times() > MOST_PHRASES) {
        throw wrong(
            "A sheet in all keys holds "
                + MOST_PHRASES / SheetSetting.Keys.ALL.times()
                + " phrases at most. Say --count "
                + MOST_PHRASES / SheetSetting.Keys.ALL.times()
                + " or less.");
      }
      return new SheetSetting(player, SheetSetting.Keys.ALL, 0, answers, level, count);
    }
    if (!wanted.matches("[A-Ga-g][b#\u266d\u266f]?")) {
      throw wrong(
          "Invalid value for --key: " + key + ". Say tune, all, or a tonic such as F or Bb.");
    }
    int tonic = "C D EF G A B".indexOf(Character.toUpperCase(wanted.charAt(0)));
    if (wanted.length() > 1) {
      tonic += wanted.charAt(1) == 'b' || wanted.charAt(1) == '\u266d' ? -1 : 1;
    }
    return new SheetSetting(
        player, SheetSetting.Keys.ONE, Math.floorMod(tonic, 12), answers, level, count);
  }

  private void byConditions(
      StudyFolder folder, PhraseQuery asked, SheetSetting setting, SheetFiles files) {
    TableSource tables = folder.source();
    PhraseSearch.Result result = PhraseSearch.find(tables, asked);
    // More than the sheet holds, in the place of those that do not suit the player.
    List<FoundPhrase> candidates = result.some(SPARE * count);
    String heading = title == null ? QueryTitle.of(asked) : title.strip();
    Sheet sheet = Sheet.of(tables, FoundPhrase.forSheet(tables, candidates), setting, heading);
    files.write(
        sheet,
        heading,
        how("", setting.instrument()),
        setting.instrument(),
        folder.manifest().program());
    PrintWriter out = spec.commandLine().getOut();
    out.println(heading);
    int number = sheet.phrases().size();
    out.println(
        number
            + (number == 1 ? " phrase" : " phrases")
            + " of "
            + result.phrases().size()
            + " that fit:");
    for (SheetPhrase phrase : sheet.phrases()) {
      candidates.stream()
          .filter(
              each ->
                  each.soloId().equals(phrase.solo().soloId())
                      && each.phraseIndex() == phrase.phraseIndex())
          .forEach(each -> out.println("  " + PhrasesCommand.line(each)));
    }
    tellFiles(sheet, setting, files);
  }

  private void tellFiles(Sheet sheet, SheetSetting setting, SheetFiles files) {
    PrintWriter out = spec.commandLine().getOut();
    if (!sheet.leftOut().isEmpty()) {
      out.println("Left out: " + Sheet.leftOutInWords(sheet.leftOut(), setting) + ".");
    }
    files.tell(out);
  }

  private SheetRequest request() {
    StatisticsCatalogue catalogue = StatisticsCatalogue.builtIn();
    StatisticDefinition definition =
        catalogue
            .named(statistic)
            .orElseThrow(
                () ->
                    wrong(
                        "Invalid value for --statistic: "
                            + statistic
                            + ". Perhaps you mean "
                            + nearest(catalogue)
                            + "."));
    if (!definition.levels().contains("phrase")) {
      throw wrong(
          "Invalid value for --statistic: "
              + statistic
              + " is a number about whole solos, which no phrase has. Perhaps you mean "
              + nearest(catalogue)
              + ".");
    }
    String[] both = only.split("=", 2);
    if (!only.isEmpty() && (both.length < 2 || both[0].isBlank())) {
      throw wrong("Invalid value for --only: " + only + ". Say COLUMN=VALUE.");
    }
    return new SheetRequest(
        definition,
        from,
        to,
        lastNote.stream().map(SheetCommand::degree).toList(),
        only.isEmpty() ? "" : both[0].strip(),
        only.isEmpty() ? "" : both[1].strip(),
        count);
  }

  private static String degree(String text) {
    return text.strip().replace('♭', 'b').replace('♯', '#');
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }

  /** Statistics of phrases that have most words in common with what was asked for. */
  private String nearest(StatisticsCatalogue catalogue) {
    Set<String> words = new HashSet<>(List.of(statistic.toLowerCase(Locale.ROOT).split("[^a-z]+")));
    return catalogue.ofLevel("phrase").stream()
        .map(StatisticDefinition::key)
        .sorted(
            Comparator.<String>comparingLong(
                    key -> -List.of(key.split("_")).stream().filter(words::contains).count())
                .thenComparing(Comparator.naturalOrder()))
        .limit(3)
        .collect(Collectors.joining(", "));
  }

  private static String heading(SheetRequest request, SheetChoice.Chosen chosen) {
    Numbers numbers = new Numbers(Locale.ENGLISH);
    String name = request.statistic().name();
    return name.substring(0, 1).toUpperCase(Locale.ROOT)
        + name.substring(1)
        + ": "
        + numbers.range(request.statistic(), chosen.low(), chosen.high())
        + (request.lastNote().isEmpty()
            ? ""
            : ", ending on "
                + request.lastNote().stream()
                    .map(MusicText::degree)
                    .collect(Collectors.joining(" or ")));
  }

  /**
   * @param meaning of what the phrases show, a sentence and a blank; empty where the title tells
   */
  private static String how(String meaning, Instrument player) {
    return "For "
        + player.label()
        + ". "
        + meaning
        + "Under each last note stands its degree over the chord.";
  }

  private void report(
      SheetChoice.Chosen chosen, Sheet sheet, SheetSetting setting, SheetFiles files) {
    PrintWriter out = spec.commandLine().getOut();
    int number = sheet.phrases().size();
    out.println(
        number + (number == 1 ? " phrase" : " phrases") + " of " + chosen.fitting() + " that fit:");
    Numbers numbers = new Numbers(Locale.ENGLISH);
    StatisticDefinition definition = StatisticsCatalogue.builtIn().named(statistic).orElseThrow();
    for (SheetPhrase phrase : sheet.phrases()) {
      out.println(
          "  "
              + phrase.solo().file()
              + ", phrase "
              + (phrase.phraseIndex() + 1)
              + ": "
              + numbers.withUnit(definition, phrase.value())
              + (phrase.lastDegree() == null
                  ? ""
                  : ", ends on " + MusicText.degree(phrase.lastDegree())));
    }
    tellFiles(sheet, setting, files);
  }
}
