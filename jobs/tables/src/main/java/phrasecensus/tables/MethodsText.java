package phrasecensus.tables;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * What a paper says of a study: corpus and n, phrase rule with its numbers, statistics by catalogue
 * version, seed, versions. Made from the manifest and the tables, so that it cannot say anything
 * else than what was done. The report prints it and an export contains it.
 */
public final class MethodsText {
  private static final String RULE = "phrase-rule";

  /** A rule of more numbers has them in the appendix. */
  private static final int NUMBERS_IN_LINE = 6;

  private MethodsText() {}

  /**
   * The paragraphs, plain text without markup, each one or more sentences.
   *
   * @param tables the tables of the study; {@code solos} is read
   */
  public static List<String> paragraphs(
      Manifest manifest, TableSource tables, StatisticsCatalogue catalogue) {
    List<String> paragraphs = new ArrayList<>();
    paragraphs.add(corpus(manifest, tables));
    paragraphs.add(phrases(manifest.settings()));
    paragraphs.add(statistics(manifest, catalogue));
    paragraphs.add(versions(manifest));
    return List.copyOf(paragraphs);
  }

  private static String corpus(Manifest manifest, TableSource tables) {
    Set<String> players = new HashSet<>();
    long solos = 0;
    long notes = 0;
    long phrases = 0;
    try (Stream<TableRow> rows =
        tables.stream(
            "solos", List.of("performer", "notes", "phrases"), Map.of("role", Set.of("corpus")))) {
      for (TableRow solo : (Iterable<TableRow>) rows::iterator) {
        if (!solo.text("performer").isEmpty()) {
          players.add(solo.text("performer"));
        }
        solos++;
        notes += solo.integer("notes");
        phrases += solo.integer("phrases");
      }
    }
    long files = manifest.inputs().stream().filter(input -> input.role().equals("corpus")).count();
    StringBuilder text = new StringBuilder();
    text.append("The corpus of the study “").append(manifest.study().title()).append("” ");
    DataSource data = manifest.study().data();
    if (!data.name().isEmpty()) {
      text.append("is ").append(data.name());
      if (!data.licence().isEmpty()) {
        text.append(" (").append(data.licence()).append(')');
      }
      text.append(". It ");
    }
    text.append("holds ").append(counted(solos, "solo"));
    if (!players.isEmpty()) {
      text.append(" by ").append(counted(players.size(), "named player"));
    }
    text.append(", read from ")
        .append(counted(files, "MusicXML file"))
        .append(", with ")
        .append(counted(notes, "sounding note"))
        .append(" in ")
        .append(counted(phrases, "phrase"));
    long rejected = files - solos;
    if (rejected > 0) {
      text.append("; ").append(counted(rejected, "file")).append(" could not be read");
    }
    text.append('.');
    String only = manifest.settings().get(StudySettings.ONLY);
    if (only != null) {
      text.append(" It is those files of its folder whose metadata say ")
          .append(MetadataChoice.inWords(only))
          .append('.');
    }
    List<TableRow> theirs = tables.rows("solos", Map.of("role", "student"));
    if (!theirs.isEmpty()) {
      long students = theirs.stream().map(row -> row.text("student")).distinct().count();
      text.append(' ')
          .append(counted(theirs.size(), "solo"))
          .append(" of ")
          .append(counted(students, "student"))
          .append(theirs.size() == 1 ? " was" : " were")
          .append(" compared with it and ")
          .append(theirs.size() == 1 ? "is" : "are")
          .append(" not part of it.");
    }
    if (!data.citation().isEmpty()) {
      text.append(" Data: ").append(data.citation());
      text.append(data.citation().endsWith(".") ? "" : ".");
    }
    return text.toString();
  }

  private static String phrases(Map<String, String> settings) {
    List<String> numbers = new ArrayList<>();
    List<String> limits = new ArrayList<>();
    new TreeMap<>(settings)
        .forEach(
            (name, value) -> {
              if (name.startsWith(RULE + ".")) {
                numbers.add(name.substring(RULE.length() + 1) + " " + value);
              } else if (name.startsWith("limit.")) {
                limits.add(name.substring("limit.".length()) + " " + value);
              }
            });
    StringBuilder text = new StringBuilder();
    String rule = settings.get(RULE);
    if (StudySettings.recordsGivenPhrases(settings)) {
      rule = StudySettings.of(settings).phraseRule();
      text.append("Phrases are those that people marked, in ")
          .append(settings.get("phrase-marks"))
          .append(" (SHA-256 ")
          .append(settings.get("phrase-marks-sha256"))
          .append("); in solos without marks they were found by the rule “");
    } else {
      text.append("Phrases were found by the rule “");
    }
    text.append(rule).append('”');
    if (numbers.size() > NUMBERS_IN_LINE) {
      text.append(" (its ")
          .append(numbers.size())
          .append(" numbers stand among the settings of the study)");
    } else if (!numbers.isEmpty()) {
      text.append(" (").append(String.join(", ", numbers)).append(')');
    }
    text.append(". ");
    if (StudySettings.DEFAULT_PHRASE_RULE.equals(rule)) {
      text.append(
          "It takes the rule “breath” where rests tell the phrases and the rule “for-songs” for a"
              + " song whose rests do not: with words under its notes and no rest before most of"
              + " its lines, or with hardly a rest and long notes in their place. Table solos says"
              + " which it took and why. ");
    }
    text.append(
        Boolean.parseBoolean(settings.get("as-played"))
            ? "Repeats and jumps were unfolded. "
            : "Every bar was read once, as written. ");
    if (Boolean.parseBoolean(settings.get("even-eighths"))) {
      text.append(
          "Quarters divided in a long and a short note, two to one or three to one, were read as"
              + " two even eighths. ");
    }
    if (Boolean.parseBoolean(settings.get("keep-slash-noteheads"))) {
      text.append("Notes with slashes as noteheads were read as notes. ");
    }
    text.append(
        Boolean.parseBoolean(settings.get("anticipation"))
            ? "A note that starts in the last half beat of a chord and sounds into the next was"
                + " judged by the next."
            : "Every note was judged by the chord at its onset.");
    if (!settings.getOrDefault("part", "").isEmpty()) {
      text.append(" The part read was “").append(settings.get("part")).append("”.");
    }
    if (!limits.isEmpty()) {
      text.append(" Limits of reading: ").append(String.join(", ", limits)).append('.');
    }
    return text.toString();
  }

  private static String statistics(Manifest manifest, StatisticsCatalogue catalogue) {
    Map<String, String> settings = manifest.settings();
    StringBuilder text = new StringBuilder();
    text.append("Each solo was described by ")
        .append(counted(catalogue.ofLevel("solo").size(), "statistic"))
        .append(" of the program's catalogue, version ")
        .append(manifest.catalogueVersion())
        .append(", where each has its formula, unit and source.");
    if (manifest.tables().containsKey("norms")) {
      text.append(
          " A norm is the distribution of one value a solo over the corpus, with quantiles after"
              + " Hyndman and Fan (1996), type 8");
      if (!manifest.by().isEmpty()) {
        text.append(", for the whole corpus and by ").append(String.join(", ", manifest.by()));
      }
      text.append('.');
    }
    List<String> furtherRules = StudySettings.of(settings).sensitivity();
    if (!furtherRules.isEmpty()) {
      text.append(" Norms were also made with phrases by ")
          .append(furtherRules.size() == 1 ? "the rule " : "the rules ")
          .append(String.join(", ", furtherRules))
          .append("; table sensitivity says how far they lie apart.");
    }
    if (settings.containsKey("resampling-seed")) {
      text.append(" Intervals of means rest on ")
          .append(number(Long.parseLong(settings.get("resamples"))))
          .append(" resamples with the seed ")
          .append(settings.get("resampling-seed"))
          .append(
              ", of whole players where there are enough of them and else of solos; intervals of"
                  + " quantiles are computed. Two groups were tested, and the interval of their"
                  + " difference made, by dealing whole players, and solos within players of both"
                  + " groups, in every way where there are no more than so many, else at random"
                  + " with the same seed; means of unequally many solos were first made equally"
                  + " sure, as residuals after Huh and Jhun (2001). Whether a student departs from"
                  + " a group was tested by one model of how solos and players vary: on a scale of"
                  + " each statistic, solos weighted by their phrases, tempo taken out, the"
                  + " intraclass correlation averaged over what is known of it, variance and centre"
                  + " drawn toward the other groups; the verdict and its one interval come from one"
                  + " mixture of t distributions, without resampling. p-values are adjusted after"
                  + " Benjamini and Hochberg (1995), of students in three families: questions,"
                  + " headlines and the other statistics that rest on enough phrases.");
    }
    return text.toString();
  }

  private static String versions(Manifest manifest) {
    List<String> versions = new ArrayList<>();
    manifest.tables().forEach((table, written) -> versions.add(table + " " + written.version()));
    return "Made with "
        + manifest.program()
        + "; versions of the tables: "
        + String.join(", ", versions)
        + ". The manifest of the study lists every input file with its SHA-256 and every table with"
        + " a digest; its own SHA-256 is "
        + manifest.sha256()
        + ".";
  }

  private static String counted(long count, String thing) {
    return number(count) + " " + thing + (count == 1 ? "" : "s");
  }

  private static String number(long count) {
    return String.format(Locale.ROOT, "%,d", count);
  }

  /** The paragraphs and the definition of every statistic, as a page in Markdown. */
  public static String markdown(
      Manifest manifest, TableSource tables, StatisticsCatalogue catalogue) {
    StringBuilder text = new StringBuilder("# Methods\n");
    for (String paragraph : paragraphs(manifest, tables, catalogue)) {
      text.append('\n').append(escaped(paragraph)).append('\n');
    }
    text.append(
        """

        What these figures do not say: a norm describes the transcriptions that were read. It is no
        target and no grade. Transcribers differ in where they write rests and pickups, and figures
        about phrases inherit it.

        ## Statistics

        """);
    text.append("Catalogue version ").append(manifest.catalogueVersion()).append(".\n\n");
    text.append("| key | name | unit | formula | a solo's value | undefined | source |\n");
    text.append("|---|---|---|---|---|---|---|\n");
    for (StatisticDefinition each : catalogue.all()) {
      text.append("| `").append(each.key()).append('`');
      for (String cell :
          List.of(
              each.name(),
              each.unit(),
              each.formula(),
              each.aggregation(),
              each.undefined(),
              each.source())) {
        text.append(" | ").append(cell.replace("|", "\\|"));
      }
      text.append(" |\n");
    }
    text.append("\n## Settings of the study\n\n| setting | value |\n|---|---|\n");
    new TreeMap<>(manifest.settings())
        .forEach(
            (name, value) ->
                text.append("| `")
                    .append(name)
                    .append("` | ")
                    .append(escaped(value))
                    .append(" |\n"));
    return text.toString();
  }

  /** Text of the study's author, kept from being taken for markup. */
  private static String escaped(String text) {
    return text.replaceAll("([\\\\*_`<>\\[\\]#|])", "\\\\$1");
  }
}
