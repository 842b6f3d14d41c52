package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.RuleNorm;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;

/**
 * How far the norms of the whole corpus move when another rule ends the phrases.
 *
 * @param sentences what the study's rule is and what each other one changes; how to get this in a
 *     study that did not ask for it
 * @param headlines the headline norms under every rule; null without further rules
 * @param everything the shift of every compared norm; null without further rules
 */
public record RuleTables(List<String> sentences, Grid headlines, Grid everything) {
  /** A shift of this many robust standard deviations is told in words. */
  private static final double WORTH_A_WORD = 0.25;

  /** Statistics that a sentence names. */
  private static final int MOST_NAMED = 3;

  /** Rules beside that of the study that get a column. */
  private static final int MOST_RULES = 6;

  public RuleTables {
    sentences = List.copyOf(sentences);
  }

  static RuleTables of(PageSource source) {
    return new Maker(source).tables();
  }

  /** Holds what every part needs. */
  private static final class Maker {
    private final StudyRows rows;
    private final Numbers numbers;
    private final Wording wording;
    private final List<StatisticDefinition> definitions;
    private final String ownRule;
    private final List<String> otherRules;
    private final Map<String, Map<String, RuleNorm>> byRule = new HashMap<>();

    Maker(PageSource source) {
      this.rows = source.rows();
      this.numbers = source.numbers();
      this.wording = source.wording();
      this.definitions =
          source.catalogue().all().stream().filter(d -> d.compared() || d.headline()).toList();
      this.ownRule =
          rows.ruleNorms().stream()
              .filter(RuleNorm::ruleOfStudy)
              .map(RuleNorm::rule)
              .findFirst()
              .orElse(source.manifest().settings().getOrDefault("phrase-rule", ""));
      this.otherRules =
          rows.ruleNorms().stream()
              .filter(norm -> !norm.ruleOfStudy())
              .map(RuleNorm::rule)
              .distinct()
              .sorted()
              .limit(MOST_RULES)
              .toList();
      for (RuleNorm norm : rows.ruleNorms()) {
        byRule.computeIfAbsent(norm.rule(), any -> new HashMap<>()).put(norm.statistic(), norm);
      }
    }

    RuleTables tables() {
      List<String> sentences = new ArrayList<>();
      sentences.add(
          Text.of(
              "corpus.rules.own",
              FileText.printable(ownRule),
              wording.counted(rows.solosIn(Group.ALL), "solo"),
              wording.counted(rows.players(Group.ALL), "player")));
      if (otherRules.isEmpty()) {
        sentences.add(Text.of("corpus.rules.none"));
        return new RuleTables(sentences, null, null);
      }
      otherRules.forEach(rule -> sentences.add(sentence(rule)));
      return new RuleTables(sentences, headlines(), everything());
    }

    private Optional<RuleNorm> norm(String rule, StatisticDefinition definition) {
      return Optional.ofNullable(byRule.getOrDefault(rule, Map.of()).get(definition.key()));
    }

    private String sentence(String rule) {
      int known = 0;
      List<StatisticDefinition> moved = new ArrayList<>();
      for (StatisticDefinition definition : definitions) {
        Optional<RuleNorm> norm = norm(rule, definition).filter(n -> n.spreads() != null);
        known += norm.isPresent() ? 1 : 0;
        norm.filter(n -> Math.abs(n.spreads()) >= WORTH_A_WORD)
            .ifPresent(any -> moved.add(definition));
      }
      String shown = FileText.printable(rule);
      if (known == 0) {
        return Text.of("corpus.rules.unknown", shown);
      }
      if (moved.isEmpty()) {
        return Text.of("corpus.rules.still", shown, numbers.count(known));
      }
      moved.sort(
          Comparator.comparingDouble(
              (StatisticDefinition d) -> -Math.abs(norm(rule, d).orElseThrow().spreads())));
      return Text.of(
          moved.size() == 1 ? "corpus.rules.moved.one" : "corpus.rules.moved.many",
          shown,
          numbers.count(moved.size()),
          numbers.count(known),
          Wording.joined(moved.stream().limit(MOST_NAMED).map(StatisticDefinition::name).toList()));
    }

    private Grid headlines() {
      Grid.Builder grid =
          Grid.of(Text.of("corpus.rules.headlines"))
              .words(Text.of("table.statistic"))
              .numbers(Text.of("corpus.rules.column.own", FileText.printable(ownRule)));
      otherRules.forEach(rule -> grid.numbers(FileText.printable(rule)));
      for (StatisticDefinition definition : definitions) {
        if (definition.headline()) {
          List<String> cells = new ArrayList<>(List.of(Wording.capitalised(definition.name())));
          cells.add(cell(ownRule, definition));
          otherRules.forEach(rule -> cells.add(cell(rule, definition)));
          grid.row(cells);
        }
      }
      return grid.build();
    }

    private String cell(String rule, StatisticDefinition definition) {
      return norm(rule, definition)
          .map(
              norm ->
                  norm.p50() == null
                      ? Text.of("corpus.rules.few", numbers.count(norm.n()))
                      : norm.p25() == null || norm.p75() == null
                          ? Text.of(
                              "corpus.rules.cell.median",
                              numbers.withUnit(definition, norm.p50()),
                              numbers.count(norm.n()))
                          : Text.of(
                              "corpus.rules.cell",
                              numbers.withUnit(definition, norm.p50()),
                              numbers.range(definition, norm.p25(), norm.p75()),
                              numbers.count(norm.n())))
          .orElse(Text.of("value.dash"));
    }

    private Grid everything() {
      Grid.Builder grid =
          Grid.of(Text.of("corpus.rules.everything")).words(Text.of("table.statistic"));
      for (String rule : otherRules) {
        String shown = FileText.printable(rule);
        grid.numbers(
            Text.of("corpus.rules.column.shift", shown),
            Text.of("corpus.rules.column.changed", shown));
      }
      for (StatisticDefinition definition : definitions) {
        List<String> cells = new ArrayList<>(List.of(Wording.capitalised(definition.name())));
        for (String rule : otherRules) {
          Optional<RuleNorm> norm = norm(rule, definition);
          cells.add(norm.map(n -> shift(definition, n)).orElse(Text.of("value.dash")));
          cells.add(norm.map(n -> changed(definition, n)).orElse(Text.of("value.dash")));
        }
        grid.row(cells);
      }
      return grid.build();
    }

    private String shift(StatisticDefinition definition, RuleNorm norm) {
      if (norm.medianShift() == null) {
        return Text.of("value.dash");
      }
      String shift = numbers.difference(definition, norm.medianShift());
      return norm.spreads() == null
          ? shift
          : Text.of("corpus.rules.shift", shift, numbers.signed(norm.spreads(), 2));
    }

    private String changed(StatisticDefinition definition, RuleNorm norm) {
      return norm.typicalChange() == null
          ? numbers.count(norm.solosChanged())
          : Text.of(
              "corpus.rules.changed",
              numbers.count(norm.solosChanged()),
              numbers.count(norm.n()),
              numbers.size(definition, norm.typicalChange()));
    }
  }
}
