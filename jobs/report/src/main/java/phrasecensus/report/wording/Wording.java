package phrasecensus.report.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import phrasecensus.music.norm.PercentileRank;
import phrasecensus.music.phrase.ByMaterialRule.Reason;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Interval;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.Trend;
import phrasecensus.report.rows.Value;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.row.DepartureVerdict;

/**
 * Sentences about values. They say where a value lies in this corpus and how much it rests on, and
 * leave it to the reader whether that is welcome.
 */
public final class Wording {
  /** Percentile ranks closer to 50 than this are called the middle. */
  private static final double MIDDLE = 5;

  private final Numbers numbers;

  public Wording(Numbers numbers) {
    this.numbers = numbers;
  }

  /** A value beside the norm it was compared with. */
  public record Standing(StatisticDefinition definition, Comparison comparison, CorpusNorm norm) {

    /**
     * The same as it is told: where fewer of one thing is called more of the other, every figure is
     * turned to the other, so that 'more notes on the beat' stands beside 60 % and not beside 40 %.
     */
    public Standing told() {
      return isTurned()
          ? new Standing(
              definition.turned(), comparison.ofTheRest(), norm == null ? null : norm.ofTheRest())
          : this;
    }

    /** True where it is told by the rest of the whole. */
    public boolean isTurned() {
      return comparison.isBelow() && definition.complement() != null;
    }
  }

  /** The question that a facet's headline statistics answer. */
  public static String question(String facet) {
    return switch (facet) {
      case "harmony" -> "Does the line sit in the harmony?";
      case "movement" -> "Does it move?";
      case "phrasing" -> "Does it breathe in phrases?";
      default -> "What shape does the line have?";
    };
  }

  /** What a question is about, for a player. */
  public static String questionExplained(String facet) {
    return switch (facet) {
      case "harmony" ->
          "Do the notes that the line rests on or aims at belong to the chord, and does the line"
              + " stay in the key of the moment?";
      case "movement" -> "Which note values carry the line, and how densely does it run?";
      case "phrasing" -> "How long are the phrases, and how much space is left between them?";
      default -> "How far does the line reach, and by which intervals?";
    };
  }

  /** Heading of a facet. */
  public static String facet(String facet) {
    return switch (facet) {
      case "harmony" -> "Harmony";
      case "movement" -> "Movement";
      case "phrasing" -> "Phrasing";
      case "line" -> "Line";
      default -> capitalised(facet);
    };
  }

  /** The answer to a question: which of its figures stand apart, and which way. */
  public String answer(List<Standing> standings) {
    List<String> clear = new ArrayList<>();
    List<String> unclear = new ArrayList<>();
    List<String> reasons = new ArrayList<>();
    boolean differs = false;
    for (Standing standing : standings) {
      Comparison comparison = standing.comparison();
      differs |= comparison.questionDiffers();
      switch (comparison.verdict()) {
        case ABOVE, BELOW ->
            clear.add(
                direction(standing)
                    + (comparison.fewPhrases() ? Text.of("answer.from-few-phrases") : ""));
        case INSIDE, UNRELIABLE -> unclear.add(standing.definition().name());
        case DESCRIBED, TOO_LITTLE, NO_NORM, CONSTANT -> {
          String reason = Text.of("answer." + comparison.verdict().word());
          if (!reasons.contains(reason)) {
            reasons.add(reason);
          }
        }
      }
    }
    List<String> sentences = new ArrayList<>();
    if (!clear.isEmpty()) {
      sentences.add(
          Text.of("answer.clear", capitalised(String.join(", and ", clear)), place(standings)));
    } else if (differs) {
      sentences.add(Text.of("answer.together", place(standings)));
    }
    if (!unclear.isEmpty() && (clear.isEmpty() == !differs || !clear.isEmpty())) {
      sentences.add(
          Text.of(
              clear.isEmpty() ? "answer.unclear" : "answer.unclear.rest",
              place(standings),
              joined(unclear)));
    }
    sentences.addAll(reasons);
    return sentences.isEmpty() ? Text.of("answer.none") : String.join(" ", sentences);
  }

  private static String place(List<Standing> standings) {
    return Text.of(
        standings.get(0).comparison().group().isWholeCorpus() ? "this.corpus" : "this.group");
  }

  /** Which way a value lies, as in {@code longer phrases}. */
  public static String direction(Standing standing) {
    return standing.comparison().isBelow()
        ? standing.definition().lower()
        : standing.definition().higher();
  }

  /** Where a value stands among the corpus solos, as far as there is enough music to tell. */
  public String where(Standing untold) {
    Standing standing = untold.told();
    Comparison comparison = standing.comparison();
    if (comparison.value() == null) {
      return Text.of("where.undefined");
    }
    if (comparison.verdict() == DepartureVerdict.TOO_LITTLE || comparison.below() == null) {
      return Text.of(
          comparison.verdict() == DepartureVerdict.TOO_LITTLE
              ? "where.too-little"
              : "where.no-solos");
    }
    PercentileRank rank =
        new PercentileRank(comparison.below(), comparison.equal(), comparison.normSolos());
    boolean all = rank.equal() == rank.n() || rank.below() == rank.n() || rank.above() == rank.n();
    return !all && Math.abs(rank.percent() - 50) < MIDDLE
        ? Text.of("where.middle", numbers.count(rank.n()))
        : rank.words(standing.definition().higher(), standing.definition().lower(), "solos");
  }

  /** A value with what it rests on and where it stands among the corpus solos. */
  public String standing(Standing untold) {
    Standing standing = untold.told();
    StatisticDefinition definition = standing.definition();
    Comparison comparison = standing.comparison();
    if (comparison.value() == null) {
      return "No value here: "
          + definition.undefined()
          + " (n\u00a0"
          + numbers.count(comparison.n())
          + ").";
    }
    StringBuilder text = new StringBuilder(value(standing));
    String position = where(standing);
    text.append(": ").append(position);
    if (position.endsWith("solos")) {
      text.append(" in ").append(place(List.of(standing)));
      if (comparison.atTempo()) {
        text.append(Text.of("where.at-tempo"));
      }
    }
    text.append('.');
    if (comparison.pooledValue() != null && comparison.n() > 0) {
      text.append(' ')
          .append(
              Text.of(
                  "where.pooled",
                  numbers.count(Math.round(comparison.pooledValue() * comparison.n())),
                  things(definition, comparison.n())));
    }
    return text.toString();
  }

  /** A value with what it rests on. */
  private String value(Standing standing) {
    StatisticDefinition definition = standing.definition();
    Comparison comparison = standing.comparison();
    return numbers.withUnit(definition, comparison.value(), decimals(standing))
        + (comparison.pooled() && comparison.solos() > 0
            ? Text.of("where.together", counted(comparison.solos(), "solo"))
            : ", from " + things(definition, comparison.n()));
  }

  /** The value of a comparison with its unit, in a table cell. */
  public String figure(Standing untold) {
    Standing standing = untold.told();
    Double value = standing.comparison().value();
    return value == null
        ? Text.of("value.none")
        : numbers.withUnit(standing.definition(), value, decimals(standing));
  }

  /** As many more decimals as it takes that no value outside is printed as inside. */
  private int decimals(Standing standing) {
    Comparison comparison = standing.comparison();
    return Math.max(
        numbers.decimalsThatPart(standing.definition(), comparison.value(), comparison.band()),
        numbers.decimalsThatPart(standing.definition(), comparison.value(), comparison.usual()));
  }

  /** A value with what it was computed from. */
  public String valueWithN(StatisticDefinition definition, double value, int n) {
    return numbers.withUnit(definition, value) + ", from " + things(definition, n);
  }

  /** What n counts of a statistic, in words for many. */
  public static String counts(StatisticDefinition definition) {
    String key =
        "n." + definition.n().toLowerCase(Locale.ROOT).replaceAll("[^a-z]+", "-") + ".many";
    return Text.has(key) ? Text.of(key) : definition.n();
  }

  /** What n counts of a statistic, with the count: {@code 82 phrases}. */
  private String things(StatisticDefinition definition, int n) {
    String key =
        "n."
            + definition.n().toLowerCase(Locale.ROOT).replaceAll("[^a-z]+", "-")
            + (n == 1 ? ".one" : ".many");
    return numbers.count(n) + "\u00a0" + (Text.has(key) ? Text.of(key) : definition.n());
  }

  /** What is usual in a group, with how many solos and players stand behind it. */
  public String norm(StatisticDefinition definition, CorpusNorm norm, List<Double> values) {
    if (norm == null || norm.n() == 0) {
      return "No solo of this group has a value (n\u00a00).";
    }
    String solos = solosAndPlayers(norm);
    StringBuilder text = new StringBuilder();
    switch (norm.shown()) {
      case LIST -> {
        text.append(solos).append(": too few solos for a norm.");
        if (values.isEmpty() && norm.n() == 1) {
          text.append(" The value is ")
              .append(numbers.withUnit(definition, norm.minimum()))
              .append('.');
        } else if (values.isEmpty()) {
          text.append(" The values lie from ")
              .append(numbers.range(definition, norm.minimum(), norm.maximum()))
              .append('.');
        } else {
          text.append(values.size() == 1 ? " The value is " : " The values are ")
              .append(
                  joined(
                      values.stream().map(value -> numbers.withUnit(definition, value)).toList()))
              .append('.');
        }
      }
      case MEDIAN ->
          text.append("The median of ")
              .append(solos)
              .append(" is ")
              .append(numbers.withUnit(definition, norm.p50()))
              .append("; they are too few for a middle half.");
      case QUARTILES, DECILES, FULL ->
          text.append("The middle half of ")
              .append(solos)
              .append(" lies from ")
              .append(numbers.range(definition, norm.p25(), norm.p75()))
              .append("; the median is ")
              .append(numbers.withUnit(definition, norm.p50()))
              .append('.');
    }
    String caution = caution(norm);
    if (!caution.isEmpty()) {
      text.append(' ').append(caution);
    }
    return text.toString();
  }

  /** The middle half in a table cell, or what stands in its place. */
  public String band(StatisticDefinition definition, CorpusNorm norm) {
    if (norm == null || norm.n() == 0) {
      return "no value";
    }
    return norm.hasBand() ? numbers.range(definition, norm.p25(), norm.p75()) : "too few solos";
  }

  /** The middle half of a comparison in a table cell, at the student's tempo. */
  public String band(Standing untold) {
    Standing standing = untold.told();
    Interval band = standing.comparison().band();
    return band.hasEnds()
        ? numbers.range(standing.definition(), band.low(), band.high(), decimals(standing))
        : Text.of(band.isKnown() ? "band.few" : "value.none");
  }

  /** What is usual at the student's tempo, with how many solos stand behind it. */
  public String norm(Standing untold) {
    Standing standing = untold.told();
    StatisticDefinition definition = standing.definition();
    Comparison comparison = standing.comparison();
    Interval band = comparison.band();
    if (!band.isKnown()) {
      return Text.of("where.no-solos.sentence");
    }
    String solos =
        counted(comparison.normSolos(), "solo")
            + (standing.norm() == null ? "" : byPlayers(standing.norm()));
    String sentence =
        Text.of(
            band.hasEnds() ? "band.half" : "band.median",
            solos,
            band.hasEnds()
                ? numbers.range(definition, band.low(), band.high(), decimals(standing))
                : "",
            numbers.withUnit(definition, band.value()));
    String caution = standing.norm() == null ? "" : caution(standing.norm());
    return (Text.of(comparison.atTempo() ? "band.at-tempo" : "band.as-it-stands", sentence)
            + " "
            + caution)
        .strip();
  }

  /** A stretch between two quantiles in a table cell, a dash where too few solos allow it. */
  public String stretch(StatisticDefinition definition, Double low, Double high) {
    return low == null || high == null ? "\u2013" : numbers.range(definition, low, high);
  }

  /** What to know before trusting a norm; empty when there is nothing to say. */
  public static String caution(CorpusNorm norm) {
    String alike =
        norm.n() > 1 && norm.minimum() != null && norm.minimum().equals(norm.maximum())
            ? "All these solos have the same value: how far another lies from it cannot be told."
            : "";
    return (alike + " " + cautionAboutPlayers(norm)).strip();
  }

  private static String cautionAboutPlayers(CorpusNorm norm) {
    if (norm.n() > 0 && norm.dominatedBy() != null) {
      return (norm.players() == 1 ? "All of them are by " : "More than half of these solos are by ")
          + FileText.withoutDirection(norm.dominatedBy())
          + ": read it as that player's.";
    }
    if (norm.n() > 0 && isUnnamed(norm)) {
      return "Its players are not named: it may be one player's.";
    }
    if (norm.n() > 0 && norm.players() < 3) {
      return norm.players() == 1
          ? "One player stands behind it: read it as that player's."
          : "Two players stand behind it: read it as theirs.";
    }
    return "";
  }

  /** All players without a name count as one, whom nothing dominates. */
  private static boolean isUnnamed(CorpusNorm norm) {
    return norm.players() == 1 && norm.dominatedBy() == null;
  }

  private String byPlayers(CorpusNorm norm) {
    return isUnnamed(norm) ? ", players not named" : " by " + counted(norm.players(), "player");
  }

  private String solosAndPlayers(CorpusNorm norm) {
    return counted(norm.n(), "solo") + byPlayers(norm);
  }

  /** What is held against, in a sentence. */
  private static String beside(Group group) {
    return Text.of(group.isWholeCorpus() ? "the.corpus" : "the.group");
  }

  /** A count with its noun. */
  public String counted(long count, String noun) {
    return numbers.count(count) + "\u00a0" + noun + (count == 1 ? "" : "s");
  }

  /** A group as a heading. */
  public static String group(Group group) {
    return group.isWholeCorpus()
        ? "whole corpus"
        : FileText.withoutDirection(group.by()) + ": " + FileText.withoutDirection(group.value());
  }

  /**
   * How a value moved over the dates.
   *
   * @param trend what the table of trends says; null without it
   * @param n number of dated solos with a value, at least 3
   */
  public String progress(
      StatisticDefinition definition, Trend trend, double first, double last, int n) {
    String path =
        "from "
            + numbers.bare(definition, first)
            + " to "
            + numbers.withUnit(definition, last)
            + " over "
            + counted(n, "dated solo");
    return (trend == null ? capitalised(path) : movement(trend) + ": " + path) + ".";
  }

  /** Which way a statistic moved, seen from the group that it is held against. */
  public String movement(Trend trend) {
    String beside = beside(trend.group());
    String words =
        switch (trend.movement()) {
          case TOWARD_BAND -> "Moved toward the middle half of " + beside;
          case AWAY_FROM_BAND -> "Moved away from the middle half of " + beside;
          case STAYED_INSIDE -> "Stayed inside the middle half of " + beside;
          case TOO_FEW_DATES ->
              "Too few dates with enough music to tell a movement ("
                  + numbers.count(trend.dates())
                  + " of the three it takes)";
          case NO_NORM -> Wording.capitalised(beside) + " is too small for a middle half";
          case NO_CLEAR_MOVEMENT -> "No clear movement";
        };
    return trend.directionOnly() ? words + " (the direction is clear, its size is not)" : words;
  }

  /** A difference with its sign and unit; a dash for null. */
  public String difference(StatisticDefinition definition, Double difference) {
    return difference == null ? "\u2013" : numbers.difference(definition, difference);
  }

  /** Both ends of an interval of differences; a dash where there is none. */
  public String differences(StatisticDefinition definition, Interval shift) {
    return shift.hasEnds() ? numbers.differences(definition, shift.low(), shift.high()) : "\u2013";
  }

  /** How sure the median of a norm is; empty without an interval. */
  public String medianInterval(StatisticDefinition definition, CorpusNorm norm) {
    return norm.median().hasEnds()
        ? "How sure the median is: with "
            + solosAndPlayers(norm)
            + " it lies between "
            + numbers
                .range(definition, norm.median().low(), norm.median().high())
                .replace("\u00a0to\u00a0", " and ")
            + " (95\u00a0% interval)."
        : "";
  }

  /** A norm in a table cell: median, middle half, n, or what stands in their place. */
  public String normCell(StatisticDefinition definition, CorpusNorm norm, List<Double> values) {
    String n = " (n\u00a0" + numbers.count(norm.n()) + ")";
    if (norm.n() == 0) {
      return "no value" + n;
    }
    if (norm.hasBand()) {
      return numbers.bare(definition, norm.p50())
          + "; "
          + numbers.range(definition, norm.p25(), norm.p75())
          + n;
    }
    if (norm.p50() != null) {
      return numbers.withUnit(definition, norm.p50()) + n;
    }
    return (values.isEmpty()
            ? numbers.range(definition, norm.minimum(), norm.maximum())
            : "too few: "
                + joined(values.stream().map(value -> numbers.bare(definition, value)).toList()))
        + n;
  }

  /** How far a departure can be relied on, in a few plain sentences. */
  public String sureness(Standing untold) {
    Standing standing = untold.told();
    StatisticDefinition definition = standing.definition();
    Comparison comparison = standing.comparison();
    List<String> sentences = new ArrayList<>();
    if (comparison.verdict() == DepartureVerdict.DESCRIBED) {
      sentences.add(
          Text.of(
              "sure.described",
              counted(comparison.normSolos(), "solo"),
              Text.of(comparison.onePlayer() ? "sure.described.player" : "sure.described.others")));
    } else if (comparison.pAdjusted() == null) {
      sentences.add(Text.of("sure.untold"));
    } else {
      sentences.add(
          Text.of(
              comparison.isOutside() ? "sure.clear" : "sure.unclear",
              counted(comparison.tests(), "figure"),
              atMost(comparison.pAdjusted())));
    }
    if (comparison.fewPhrases() && comparison.isOutside()) {
      sentences.add(Text.of("sure.few-phrases"));
    }
    if (comparison.usual().hasEnds()) {
      sentences.add(
          Text.of(
              comparison.onePlayer() ? "sure.usual.player" : "sure.usual",
              numbers.range(
                  definition,
                  comparison.usual().low(),
                  comparison.usual().high(),
                  decimals(standing)),
              beside(comparison.group()),
              Text.of(comparison.atTempo() ? "sure.at-tempo" : "sure.tempo-unknown")));
    }
    StringBuilder text = new StringBuilder(String.join(" ", sentences)).append(' ');
    shift(definition, comparison.shift(), "Phrase by phrase the typical difference is ", text);
    if (comparison.delta().isKnown() && comparison.delta().value() != 0) {
      boolean higher = comparison.delta().value() > 0;
      text.append("Take one phrase from these solos and one from ")
          .append(beside(comparison.group()))
          .append(" at random: in ")
          .append(pairs(comparison.delta().value(), higher))
          .append(" of 100 such pairs the student's has the ")
          .append(higher ? "higher" : "lower")
          .append(" value");
      ends(comparison.delta(), higher, comparison.verdict() == DepartureVerdict.DESCRIBED, text);
      text.append(". ");
    }
    return text.toString().strip();
  }

  private void shift(
      StatisticDefinition definition, Interval shift, String before, StringBuilder text) {
    if (shift.isKnown() && shift.value() != 0) {
      text.append(before).append(numbers.difference(definition, shift.value()));
      if (shift.hasEnds()) {
        text.append(" (95\u00a0% interval ")
            .append(numbers.differences(definition, shift.low(), shift.high()))
            .append(')');
      }
      text.append(". ");
    }
  }

  /** Pairs in a hundred, ties counted half, from a delta. */
  public String pairs(double delta, boolean higher) {
    return numbers.count(Math.round(50 * (1 + (higher ? delta : -delta))));
  }

  /** A verdict has its own interval and no second one. */
  private void ends(Interval delta, boolean higher, boolean described, StringBuilder text) {
    if (delta.hasEnds()) {
      double low = higher ? delta.low() : -delta.high();
      double high = higher ? delta.high() : -delta.low();
      text.append(" (ties counted half; 95\u00a0% interval ")
          .append(numbers.count(Math.round(50 * (1 + low))))
          .append(" to ")
          .append(numbers.count(Math.round(50 * (1 + high))))
          .append(')');
    } else {
      text.append(
          described
              ? " (ties counted half; too few solos for an interval)"
              : " (ties counted half)");
    }
  }

  /** A bound on chance finds among a hundred, in words. */
  private String atMost(double share) {
    return share < 0.01
        ? Text.of("sure.fewer-than-one")
        : Text.of("sure.at-most", numbers.count((long) Math.ceil(100 * share - 1e-9)));
  }

  /** The same in a table cell. */
  public String chanceFinds(Comparison comparison) {
    if (comparison.verdict() == DepartureVerdict.UNRELIABLE) {
      return Text.of("chance.few-phrases");
    }
    return chanceFinds(comparison.pAdjusted());
  }

  /** The same of a contrast of groups in a table cell. */
  public String chanceFinds(Double share) {
    return share == null
        ? Text.of("chance.untested")
        : share < 0.01
            ? Text.of("chance.below-one")
            : Text.of("chance.at-most", numbers.count((long) Math.ceil(100 * share - 1e-9)));
  }

  /** The share of scale notes that chance would give. */
  public String scaleChance(double share, int solos) {
    return "A note picked at random would lie in the scale "
        + numbers.percent(share)
        + " of the time (n\u00a0"
        + counted(solos, "solo")
        + ").";
  }

  /** What stands for all solos of a student. */
  public String allSolos(int solos) {
    return "all " + counted(solos, "solo");
  }

  /** A value with its n in a table cell. */
  public String cell(StatisticDefinition definition, Value value) {
    return (value.isDefined() ? numbers.bare(definition, value.value()) : "no value")
        + " (n\u00a0"
        + numbers.count(value.n())
        + ")";
  }

  /** The middle half with its n in a table cell. */
  public String bandWithN(StatisticDefinition definition, CorpusNorm norm) {
    return band(definition, norm) + " (n\u00a0" + numbers.count(norm == null ? 0 : norm.n()) + ")";
  }

  /** A count as n: {@code n 5 solos}. */
  public String n(long count, String noun) {
    return "n\u00a0" + counted(count, noun);
  }

  /** A share as a percentage; a dash for null. */
  public String share(Double share) {
    return share == null ? "\u2013" : numbers.percent(share);
  }

  /** Metre, tempo, centre and counts of a solo. */
  public List<String> facts(SoloFacts solo) {
    List<String> facts = new ArrayList<>();
    facts.add(solo.metre());
    if (solo.tempo() != null) {
      facts.add(numbers.decimal(solo.tempo(), 0) + " quarter notes a minute");
    }
    String centre = MusicText.centre(solo.centreTonic(), solo.centreMode());
    if (!centre.isEmpty()) {
      facts.add(centre + " (concert)");
    }
    facts.add(counted(solo.bars(), "bar"));
    facts.add(counted(solo.notes(), "note"));
    facts.add(counted(solo.phrases(), "phrase") + phraseRule(solo));
    return facts;
  }

  /** How the phrases were found, where that is not as in other solos. */
  private static String phraseRule(SoloFacts solo) {
    String chosen = solo.columns().get("phrase_rule_reason");
    for (Reason reason : List.of(Reason.WORDS, Reason.LONG_NOTES)) {
      if (reason.word().equals(chosen)) {
        return " as the rule for songs finds them: " + reason.sentence();
      }
    }
    if (Reason.NO_MARKS.word().equals(chosen)) {
      return " found without marks: " + Reason.NO_MARKS.sentence();
    }
    return "";
  }

  /** Says that pitches are written ones. */
  public static String asWritten() {
    return "pitches and chords as the player reads them";
  }

  /** Words in a row: {@code a, b and c}. */
  public static String joined(List<String> words) {
    if (words.isEmpty()) {
      return "";
    }
    if (words.size() == 1) {
      return words.get(0);
    }
    return String.join(", ", words.subList(0, words.size() - 1))
        + " and "
        + words.get(words.size() - 1);
  }

  /** The text with a capital first letter. */
  public static String capitalised(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
