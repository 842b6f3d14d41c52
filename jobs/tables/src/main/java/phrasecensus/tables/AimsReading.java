package phrasecensus.tables;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;

/** Reads the block {@code aims} of a study file. */
final class AimsReading {
  private static final List<String> KEYS =
      List.of("set", "order", "level-column", "all", "levels", "students");
  private static final List<String> GROUP_KEYS = List.of("set", "aims");
  private static final List<String> AIM_KEYS =
      List.of("answer", "statistic", "range", "low", "high", "least", "finding", "words");
  private static final String EXAMPLE =
      "'{answer: movement, statistic: eighth_or_shorter_share, low: 0.6, words: Let eighths carry"
          + " it}'";

  private final Function<String, InputException> unusable;

  /**
   * @param unusable makes the exception that names the study file, from the sentence that says why
   */
  AimsReading(Function<String, InputException> unusable) {
    this.unusable = unusable;
  }

  AimsDefinition aims(JsonNode node) {
    AimsDefinition usual = AimsDefinition.DEFAULT;
    if (node.isMissingNode() || node.isNull()) {
      return usual;
    }
    if (node.isValueNode()) {
      return new AimsDefinition(
          set(node, "'aims'"),
          usual.order(),
          usual.levelColumn(),
          usual.all(),
          usual.levels(),
          usual.students());
    }
    if (node.isArray()) {
      return new AimsDefinition(
          usual.set(),
          usual.order(),
          usual.levelColumn(),
          group(node, "'aims'"),
          usual.levels(),
          usual.students());
    }
    allow(node, "'aims'", KEYS);
    return new AimsDefinition(
        node.hasNonNull("set") ? set(node.path("set"), "'set' under 'aims'") : usual.set(),
        order(node.path("order")),
        node.hasNonNull("level-column")
            ? Metadata.columnName(value(node, "level-column", "'aims'"))
            : usual.levelColumn(),
        group(node.path("all"), "'all' under 'aims'"),
        groups(node.path("levels"), "levels"),
        groups(node.path("students"), "students"));
  }

  private String set(JsonNode node, String where) {
    String name = node.asText().strip();
    if (!AimsDefinition.SETS.contains(name)) {
      throw unusable.apply(
          where
              + " is '"
              + name
              + "'; use "
              + String.join(" or ", AimsDefinition.SETS)
              + ", or a list of aims.");
    }
    return name;
  }

  private List<String> order(JsonNode node) {
    List<String> order = new ArrayList<>();
    if (node.isMissingNode() || node.isNull()) {
      return order;
    }
    if (!node.isArray()) {
      throw unusable.apply("'order' under 'aims' must be a list of answers: " + answers());
    }
    for (JsonNode each : node) {
      String answer = answer(each.asText(), "'order' under 'aims'");
      if (order.contains(answer)) {
        throw unusable.apply("'order' under 'aims' names '" + answer + "' twice. Name it once.");
      }
      order.add(answer);
    }
    return order;
  }

  private Map<String, AimsDefinition.Group> groups(JsonNode node, String key) {
    Map<String, AimsDefinition.Group> groups = new TreeMap<>();
    if (node.isMissingNode() || node.isNull()) {
      return groups;
    }
    if (!node.isObject()) {
      throw unusable.apply(
          "'" + key + "' under 'aims' must hold 'name: [aims]' lines, or 'name: none'.");
    }
    node.properties()
        .forEach(
            each ->
                groups.put(
                    each.getKey().strip(),
                    group(
                        each.getValue(), "'" + each.getKey() + "' of '" + key + "' under 'aims'")));
    return groups;
  }

  private AimsDefinition.Group group(JsonNode node, String where) {
    if (node.isMissingNode() || node.isNull()) {
      return AimsDefinition.Group.NOTHING;
    }
    if (node.isValueNode()) {
      return new AimsDefinition.Group(set(node, where), List.of());
    }
    if (node.isObject()) {
      allow(node, where, GROUP_KEYS);
      return new AimsDefinition.Group(
          node.hasNonNull("set") ? set(node.path("set"), "'set' of " + where) : null,
          stated(node.path("aims"), where));
    }
    return new AimsDefinition.Group(null, stated(node, where));
  }

  private List<AimsDefinition.Stated> stated(JsonNode node, String where) {
    List<AimsDefinition.Stated> aims = new ArrayList<>();
    if (node.isMissingNode() || node.isNull()) {
      return aims;
    }
    if (!node.isArray()) {
      throw unusable.apply(where + " must hold a list of aims, each as " + EXAMPLE + ".");
    }
    Map<String, String> seen = new LinkedHashMap<>();
    for (JsonNode each : node) {
      AimsDefinition.Stated aim = stated(each, aims.size() + 1, where);
      if (seen.put(aim.answer() + " " + aim.statistic(), "") != null) {
        throw unusable.apply(
            where
                + " has two aims on '"
                + aim.statistic()
                + "' for the answer '"
                + aim.answer()
                + "'. Make them one range.");
      }
      aims.add(aim);
    }
    return aims;
  }

  private AimsDefinition.Stated stated(JsonNode node, int place, String where) {
    String aim = "aim " + place + " in " + where;
    if (!node.isObject()) {
      throw unusable.apply(aim + " must be as " + EXAMPLE + ".");
    }
    allow(node, aim, AIM_KEYS);
    String statistic = value(node, "statistic", aim);
    List<String> known =
        StatisticsCatalogue.builtIn().ofLevel("solo").stream()
            .map(StatisticDefinition::key)
            .toList();
    if (!known.contains(statistic)) {
      throw unusable.apply(
          aim
              + (statistic.isEmpty()
                  ? " names no statistic."
                  : " names the statistic '"
                      + statistic
                      + "', which no solo has. Did you mean '"
                      + StudyDefinition.nearest(statistic, known)
                      + "'?")
              + " All are in schemas/README.md.");
    }
    Double low = number(node.path("low"), "low", aim);
    Double high = number(node.path("high"), "high", aim);
    if (node.hasNonNull("range")) {
      JsonNode range = node.path("range");
      if (!range.isArray() || range.size() != 2 || low != null || high != null) {
        throw unusable.apply(
            aim + " must have one range, as 'range: [0.5, 1]', or 'low' and 'high'.");
      }
      low = number(range.get(0), "range", aim);
      high = number(range.get(1), "range", aim);
    }
    if (low == null && high == null) {
      throw unusable.apply(
          aim + " has no range. Say from where to where, as 'low: 0.5', 'high: 4' or both.");
    }
    if (low != null && high != null && low > high) {
      throw unusable.apply(
          aim
              + " has an empty range: no value lies from "
              + low
              + " to "
              + high
              + ". Write the smaller number first.");
    }
    StatisticDefinition definition = StatisticsCatalogue.builtIn().named(statistic).orElseThrow();
    if (definition.range().equals("0 to 1")
        && (low != null && low > 1 || high != null && high < 0)) {
      throw unusable.apply(
          aim
              + " can never be met: '"
              + statistic
              + "' is a share from 0 to 1. Write nine of ten as 0.9.");
    }
    Double least = number(node.path("least"), "least", aim);
    if (least != null && (least < 1 || least != Math.rint(least) || least > Integer.MAX_VALUE)) {
      throw unusable.apply(
          aim + " has 'least: " + node.path("least").asText() + "'; use a whole number from 1.");
    }
    String finding = text(node, "finding");
    if (!finding.isEmpty() && !AimsDefinition.FINDINGS.contains(finding)) {
      throw unusable.apply(
          aim
              + " has the finding '"
              + finding
              + "'; use one of "
              + String.join(", ", AimsDefinition.FINDINGS)
              + ".");
    }
    return new AimsDefinition.Stated(
        node.hasNonNull("answer") ? answer(node.path("answer").asText(), aim) : "own",
        statistic,
        low,
        high,
        least == null ? null : least.intValue(),
        finding.isEmpty() ? null : finding,
        text(node, "words"));
  }

  private String answer(String given, String where) {
    String answer = given.strip();
    if (!AimsDefinition.ANSWERS.contains(answer)) {
      throw unusable.apply(
          where
              + " names the answer '"
              + answer
              + "'. Did you mean '"
              + StudyDefinition.nearest(answer, AimsDefinition.ANSWERS)
              + "'? Answers: "
              + answers());
    }
    return answer;
  }

  private static String answers() {
    return String.join(", ", AimsDefinition.ANSWERS) + ".";
  }

  private Double number(JsonNode node, String key, String where) {
    if (node.isMissingNode() || node.isNull()) {
      return null;
    }
    if (!node.isNumber() || !Double.isFinite(node.doubleValue())) {
      throw unusable.apply(
          where + " has '" + key + ": " + node.asText() + "'; write a number, as in 0.5.");
    }
    return node.doubleValue();
  }

  private String value(JsonNode node, String key, String where) {
    JsonNode value = node.path(key);
    if (!value.isMissingNode() && !value.isNull() && !value.isValueNode()) {
      throw unusable.apply("'" + key + "' of " + where + " must be a single value.");
    }
    return text(node, key);
  }

  private static String text(JsonNode node, String key) {
    return node.hasNonNull(key) ? node.path(key).asText().strip() : "";
  }

  private void allow(JsonNode node, String where, List<String> keys) {
    node.fieldNames()
        .forEachRemaining(
            key -> {
              if (!keys.contains(key)) {
                throw unusable.apply(
                    "unknown key '"
                        + key
                        + "' in "
                        + where
                        + ". Did you mean '"
                        + StudyDefinition.nearest(key, keys)
                        + "'? Known keys: "
                        + String.join(", ", keys)
                        + ".");
              }
            });
  }
}
