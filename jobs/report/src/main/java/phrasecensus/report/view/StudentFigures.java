package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.StatisticStrip;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.InOrder;
import phrasecensus.report.rows.Interval;
import phrasecensus.report.rows.Neighbour;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.row.DepartureVerdict;
import phrasecensus.tables.row.ReferenceReason;

/** A student beside the group of the corpus that the pages compare with. */
final class StudentFigures {
  /** The most dated solos that get a line in a strip; the earliest give way. */
  private static final int MOST_LINES = 12;

  private final PageSource source;
  private final Student student;
  private final Group group;
  private final Optional<Comparison> first;

  /** All solos together. */
  StudentFigures(PageSource source, Student student) {
    this(source, student, "");
  }

  /**
   * Some solos, beside the group that the study holds them against first.
   *
   * @param soloId one solo; empty for all together
   */
  StudentFigures(PageSource source, Student student, String soloId) {
    this.source = source;
    this.student = student;
    this.first = student.reference(soloId);
    this.group = first.map(Comparison::group).orElse(Group.ALL);
  }

  Group group() {
    return group;
  }

  /** The group in a sentence: {@code the corpus} or {@code the group}. */
  String beside() {
    return Text.of(group.isWholeCorpus() ? "the.corpus" : "the.group");
  }

  /** Solos and players of the group, and which group it is. */
  String size() {
    String solos = source.wording().counted(source.rows().solosIn(group), "solo");
    int named = source.rows().players(group);
    String players =
        named == 0
            ? Text.of("student.lead.unnamed")
            : source.wording().counted(named, unnamed() == 0 ? "player" : "named player");
    return group.isWholeCorpus()
        ? Text.of("student.lead.corpus", solos, players)
        : Text.of("student.lead.group", solos, players, Wording.group(group));
  }

  /** Why it is this group, and what of it was left out; empty when there is nothing to say. */
  String reason() {
    List<String> sentences = new ArrayList<>();
    first
        .map(Comparison::referenceReason)
        .filter(reason -> reason != ReferenceReason.NO_GROUPS)
        .ifPresent(
            reason ->
                sentences.add(
                    Text.of(
                        "student.reference." + reason.word(),
                        FileText.withoutDirection(group.by()))));
    first
        .filter(comparison -> !comparison.atTempo() && comparison.solos() > 0)
        .ifPresent(comparison -> sentences.add(Text.of("student.tempo-unknown")));
    int unnamed = unnamed();
    if (unnamed > 0) {
      sentences.add(
          Text.of(
              unnamed == 1 ? "student.unnamed.one" : "student.unnamed.many",
              source.numbers().count(unnamed)));
    }
    int asPlayer = first.map(Comparison::leftOutAsPlayer).orElse(0);
    if (asPlayer > 0) {
      sentences.add(
          Text.of(
              asPlayer == 1 ? "student.left-out-player.one" : "student.left-out-player.many",
              source.numbers().count(asPlayer)));
    }
    int leftOut = first.map(Comparison::leftOut).orElse(0);
    if (leftOut > 0) {
      sentences.add(
          Text.of(
              leftOut == 1 ? "student.left-out.one" : "student.left-out.many",
              source.numbers().count(leftOut)));
    }
    return String.join(" ", sentences);
  }

  /** Solos of the group that name no player: the most that any statistic has a value of. */
  private int unnamed() {
    return student.comparisons().stream()
        .filter(comparison -> comparison.group().equals(group))
        .mapToInt(Comparison::normUnnamed)
        .max()
        .orElse(0);
  }

  /** The norm of a statistic in the group; null without one. */
  CorpusNorm norm(String statistic) {
    return source.rows().norm(group, statistic).orElse(null);
  }

  /** The ranked comparisons of one scope, first place first. */
  List<Wording.Standing> ranked(boolean pooled, String soloId) {
    List<Wording.Standing> ranked = new ArrayList<>();
    (pooled ? student.together() : student.comparisons())
        .stream()
            .filter(c -> pooled || c.soloId().equals(soloId))
            .filter(c -> c.group().equals(group) && c.place() != null)
            .sorted(Comparator.comparing(Comparison::place))
            .forEach(
                c ->
                    source
                        .catalogue()
                        .named(c.statistic())
                        .ifPresent(d -> ranked.add(new Wording.Standing(d, c, norm(d.key())))));
    return ranked;
  }

  /** What is not clear but lies outside the middle half, the least likely chance first. */
  List<Wording.Standing> besideBand(String soloId) {
    List<Wording.Standing> beside = new ArrayList<>();
    (soloId.isEmpty() ? student.together() : student.comparisons())
        .stream()
            .filter(c -> soloId.isEmpty() || c.soloId().equals(soloId))
            .filter(c -> c.group().equals(group) && c.isBesideBand())
            .filter(c -> c.verdict() == DepartureVerdict.INSIDE)
            .sorted(Comparator.comparing(Comparison::pValue).thenComparing(Comparison::statistic))
            .forEach(
                c ->
                    source
                        .catalogue()
                        .named(c.statistic())
                        .ifPresent(d -> beside.add(new Wording.Standing(d, c, norm(d.key())))));
    return beside;
  }

  /** Starts a table of comparisons. */
  Grid.Builder comparisons(String caption, String first) {
    return Grid.of(caption)
        .words(first)
        .numbers(
            Text.of("table.value"),
            Text.of("table.n"),
            Text.of(group.isWholeCorpus() ? "table.band" : "table.band.group"),
            Text.of(group.isWholeCorpus() ? "table.corpus-n" : "table.group-n"),
            Text.of("table.chance"))
        .words(Text.of("table.where"));
  }

  /** Adds a comparison to such a table. */
  void addTo(Grid.Builder grid, String first, Wording.Standing standing) {
    Comparison comparison = standing.comparison();
    grid.row(
        first,
        source.wording().figure(standing),
        source.numbers().count(comparison.pooled() ? comparison.solos() : comparison.n()),
        source.wording().band(standing),
        source.numbers().count(comparison.normSolos()),
        source.wording().chanceFinds(comparison),
        source.wording().where(standing));
  }

  /** A statistic of all solos and of each, beside the group as it would be at their tempo. */
  Picture strip(String id, Wording.Standing untold) {
    Wording.Standing standing = untold.told();
    Interval band = standing.comparison().band();
    CorpusNorm norm = standing.norm();
    return strip(
        id,
        standing.definition(),
        norm != null && norm.hasBand() && band.hasEnds() ? norm.withBand(band) : norm,
        untold.isTurned());
  }

  /** A statistic of all solos and of each, beside the group. */
  Picture strip(String id, StatisticDefinition definition, CorpusNorm norm) {
    return strip(id, definition, norm, false);
  }

  /**
   * Draws a strip.
   *
   * @param turned true where definition and norm are of the rest of the whole, as values are not
   */
  private Picture strip(
      String id, StatisticDefinition definition, CorpusNorm norm, boolean turned) {
    List<String> labels = source.names().labels(student);
    List<StatisticStrip.Entry> entries = new ArrayList<>();
    int solos = student.solos().size();
    if (solos > 1) {
      student
          .pooled(group, definition.key())
          .ifPresent(
              pooled ->
                  entries.add(
                      new StatisticStrip.Entry(
                          source.wording().allSolos(solos),
                          shown(pooled.value(), turned),
                          pooled.solos(),
                          true)));
    }
    for (int i = Math.max(0, solos - MOST_LINES); i < solos; i++) {
      Value value = student.solos().get(i).value(definition.key());
      entries.add(
          new StatisticStrip.Entry(labels.get(i), shown(value.value(), turned), value.n(), false));
    }
    return new StatisticStrip(source.numbers())
        .picture(
            id,
            definition,
            norm,
            source.rows().corpusValues(group, definition.key()).stream()
                .map(value -> shown(value, turned))
                .sorted()
                .toList(),
            entries);
  }

  /** A value as the picture shows it; null for null. */
  private static Double shown(Double value, boolean turned) {
    return value == null || !turned ? value : Double.valueOf(1 - value);
  }

  /** Instrument, metre, tempo, centre and counts of a solo in a line. */
  String facts(StudentSolo solo) {
    List<String> facts = new ArrayList<>();
    if (!solo.facts().instrument().isBlank()) {
      facts.add(FileText.withoutDirection(solo.facts().instrument()));
    }
    facts.addAll(source.wording().facts(solo.facts()));
    if (source.settings().excerpts()
        && solo.line().notes().stream().anyMatch(SoloLine.Tone::transposed)) {
      facts.add(Wording.asWritten());
    }
    return String.join(" \u00b7 ", facts);
  }

  /** Where a phrase stands, as in {@code bars 3 to 5}. */
  static String bars(SoloLine.PhraseSpan phrase) {
    return bars(phrase.firstBar(), phrase.lastBar());
  }

  /** The same from the numbers of the first and the last bar. */
  static String bars(String firstBar, String lastBar) {
    String first = FileText.withoutDirection(firstBar);
    String last = FileText.withoutDirection(lastBar);
    return first.equals(last)
        ? Text.of("student.apart.bar", first)
        : Text.of("student.apart.bars", first, last);
  }

  /** Title and player of a corpus solo, as far as they are known. */
  static String corpusSolo(String title, String performer, String soloId) {
    String name =
        FileText.withoutDirection(
            title.isBlank() ? soloId.substring(soloId.indexOf('/') + 1) : title);
    return performer.isBlank()
        ? name
        : Text.of("student.near.solo", name, FileText.withoutDirection(performer));
  }

  /** Cells that tell of a neighbour: distance, shared figures, what differs most. */
  List<String> neighbour(Neighbour neighbour) {
    List<String> drivers = new ArrayList<>();
    for (String key : neighbour.drivers()) {
      source.catalogue().named(key).ifPresent(d -> drivers.add(d.name()));
    }
    return List.of(
        corpusSolo(neighbour.title(), neighbour.performer(), neighbour.neighbourId()),
        source.numbers().decimal(neighbour.distance(), 2),
        source.numbers().count(neighbour.shared()),
        String.join("; ", drivers));
  }

  /** Landings of a phrase in words, kind by kind. */
  static String landings(SoloLine line, SoloLine.PhraseSpan phrase) {
    Map<String, List<String>> degrees = new LinkedHashMap<>();
    for (SoloLine.LandingMark landing :
        InOrder.numbered(
            line.landings(),
            SoloLine.LandingMark::noteIndex,
            phrase.firstNote(),
            phrase.lastNote())) {
      degrees
          .computeIfAbsent(MusicText.landing(landing.kind()), any -> new ArrayList<>())
          .add(MusicText.degree(landing.degree()));
    }
    return degrees.entrySet().stream()
        .map(kind -> Text.of("solo.landings", kind.getKey(), String.join(", ", kind.getValue())))
        .collect(Collectors.joining("; "));
  }
}
