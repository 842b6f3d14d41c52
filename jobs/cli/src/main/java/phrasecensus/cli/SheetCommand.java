package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.Annotations;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.SheetLayout;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.sheet.SheetChoice;
import phrasecensus.report.sheet.SheetPhrase;
import phrasecensus.report.sheet.SheetRequest;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.spark.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code sheet}: corpus phrases that show one thing, as a score to hand out. */
@Command(
    name = "sheet",
    description =
        "Writes a sheet of corpus phrases that show one thing, chosen by a statistic: MusicXML for"
            + " any notation program and a MIDI file, transposed to an instrument. Each phrase"
            + " stands on a system of its own with its chords and where it comes from.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Examples:",
      "  phrase-census sheet my-study --statistic phrase_length_bars \\",
      "      --from 1.75 --to 2.25 --last-note 3 --for \"Bb clarinet\" --into handout",
      "  phrase-census sheet my-study --statistic notes_per_beat \\",
      "      --count 4 --into handout"
    })
final class SheetCommand implements Callable<Integer> {
  private static final String RIGHTS =
      "Solos under copyright are for your own study; ask before you hand out more.";
  private static final int MOST_PHRASES = 60;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder.")
  private String location;

  @Option(
      names = "--statistic",
      paramLabel = "KEY",
      required = true,
      description = "Statistic of phrases by which they are chosen; schemas/statistics.json has all.")
  private String statistic;

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
      names = "--title",
      paramLabel = "TEXT",
      description = "Heading; default: what the phrases show.")
  private String title;

  @Option(
      names = "--into",
      paramLabel = "FOLDER",
      required = true,
      description = "Folder of the sheet; it is named after the statistic.")
  private Path into;

  @Option(names = "--force", description = "Replace a sheet that is there.")
  private boolean force;

  @Override
  public Integer call() {
    SheetRequest request = request();
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
    Path score = into.resolve(statistic.replace('_', '-') + ".musicxml");
    Path midi = into.resolve(statistic.replace('_', '-') + ".mid");
    refuseToReplace(score);
    refuseToReplace(midi);
    try (StudyFolder folder = StudyFolder.finishedToRead(location, StudyFolder.configuration())) {
      if (!folder.manifest().report().excerpts()) {
        throw new InputException(
            "Cannot write a sheet: the study file of "
                + location
                + " keeps excerpts out (report: excerpts: false).");
      }
      SheetChoice.Chosen chosen = SheetChoice.of(folder.source(), request);
      String heading = title == null ? heading(request, chosen) : title.strip();
      Sheet sheet = Sheet.of(folder.source(), chosen.phrases(), player, heading);
      write(score, document(sheet, request, player));
      write(midi, sheet.midi(heading, player));
      report(chosen, score, midi);
    }
    return ExitCode.DONE;
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
    if (count < 1 || count > MOST_PHRASES) {
      throw wrong(
          "Invalid value for --count: " + count + ". It goes from 1 to " + MOST_PHRASES + ".");
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
    Set<String> words =
        new HashSet<>(List.of(statistic.toLowerCase(Locale.ROOT).split("[^a-z]+")));
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

  private static byte[] document(Sheet sheet, SheetRequest request, Instrument player) {
    Map<Integer, String> degrees =
        sheet.lastDegrees().entrySet().stream()
            .collect(Collectors.toMap(Map.Entry::getKey, e -> MusicText.degree(e.getValue())));
    List<String> paragraphs = new ArrayList<>();
    paragraphs.add(
        "For "
            + player.label()
            + ". "
            + request.statistic().meaning()
            + " Under each last note stands its degree over the chord.");
    try {
      return AnnotatedScoreWriter.document(
          sheet.solo(),
          new Annotations(List.of(), degrees, Set.of()),
          new SheetLayout(sheet.systemStarts(), sheet.captions(), paragraphs, RIGHTS));
    } catch (ArithmeticException e) {
      throw new InputException(
          "Cannot write the sheet: no division of the quarter note fits the lengths of all its"
              + " phrases. Ask for fewer with --count.",
          e);
    }
  }

  private void report(SheetChoice.Chosen chosen, Path score, Path midi) {
    PrintWriter out = spec.commandLine().getOut();
    int number = chosen.phrases().size();
    out.println(
        number + (number == 1 ? " phrase" : " phrases") + " of " + chosen.fitting() + " that fit:");
    Numbers numbers = new Numbers(Locale.ENGLISH);
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn().named(statistic).orElseThrow();
    for (SheetPhrase phrase : chosen.phrases()) {
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
    out.println("Sheet: " + score);
    out.println("MIDI: " + midi);
    out.println(RIGHTS);
  }

  private void refuseToReplace(Path file) {
    if (Files.exists(into) && !Files.isDirectory(into)) {
      throw new InputException(
          "Cannot write into " + into + ": it is a file, not a folder. Choose another --into.");
    }
    if (Files.exists(file, LinkOption.NOFOLLOW_LINKS) && !force) {
      throw new InputException(
          "Cannot write " + file + ": it is there already. Give --force to replace it.");
    }
  }

  /** Writes aside and moves, so that no half sheet is ever seen. */
  private void write(Path file, byte[] content) {
    Path part = file.resolveSibling("." + file.getFileName() + ".part");
    try {
      Files.createDirectories(into);
      Files.write(part, content);
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new InputException(
          "Cannot write " + file + ": " + e.getMessage() + ". Choose another --into.", e);
    }
  }
}
