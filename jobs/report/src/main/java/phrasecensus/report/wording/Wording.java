package phrasecensus.report.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.tables.StatisticDefinition;

/**
 * Sentences about values. They say where a value lies in this corpus and how much it rests on, and
 * leave it to the reader whether that is welcome.
 */
public final class Wording {
  private final Numbers numbers;

  public Wording(Numbers numbers) {
    this.numbers = numbers;
  }

  /** A value beside the norm it was compared with. */
  public record Standing(StatisticDefinition definition, Comparison comparison, CorpusNorm norm) {}

  /** The question that a facet's headline statistics answer. */
  public static String question(String facet) {
    return switch (facet) {
      case "harmony" -> "Does the line sit in the harmony?";
      case "movement" -> "Does it move?";
      case "phrasing" -> "Does it speak in phrases?";
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

  /** The answer to a question: which of its figures lie outside the middle half, and which way. */
  public String answer(List<Standing> standings) {
    List<String> outside = new ArrayList<>();
    List<String> inside = new ArrayList<>();
    boolean tooLittle = false;
    boolean noNorm = false;
    for (Standing standing : standings) {
      switch (standing.comparison().verdict()) {
        case ABOVE, BELOW -> outside.add(direction(standing));
        case INSIDE -> inside.add(standing.definition().name());
        case TOO_LITTLE -> tooLittle = true;
        case NO_NORM -> noNorm = true;
      }
    }
    StringBuilder text = new StringBuilder();
    if (!outside.isEmpty()) {
      text.append(capitalised(String.join(", and ", outside)))
          .append(" than in the middle half of this corpus.");
      if (!inside.isEmpty()) {
        text.append(" Inside it: ").append(joined(inside)).append('.');
      }
    } else if (!inside.isEmpty()) {
      text.append("As in the middle half of this corpus: ").append(joined(inside)).append('.');
    }
    if (tooLittle) {
      text.append(" There is too little music here to tell more.");
    }
    if (noNorm) {
      text.append(" The corpus has too few solos for a norm, so only the values are shown.");
    }
    return text.isEmpty() ? "This study has no value to answer it with." : text.toString().strip();
  }

  /** Which way a value lies outside the middle band, as in {@code longer phrases}. */
  public static String direction(Standing standing) {
    return standing.comparison().verdict() == Comparison.Verdict.BELOW
        ? standing.definition().lower()
        : standing.definition().higher();
  }

  /** A value with what it rests on and where it stands among the corpus solos. */
  public String standing(Standing standing) {
    StatisticDefinition definition = standing.definition();
    Comparison comparison = standing.comparison();
    StringBuilder text = new StringBuilder();
    if (comparison.value() == null) {
      text.append("No value here (")
          .append(definition.undefined())
          .append(", n\u00a0")
          .append(numbers.count(comparison.n()))
          .append(").");
      return text.toString();
    }
    text.append(valueWithN(definition, comparison.value(), comparison.n())).append(". ");
    String position = FileText.withoutDirection(comparison.position());
    if (!position.isEmpty()) {
      boolean reads =
          position.startsWith(definition.higher()) || position.startsWith(definition.lower());
      text.append(reads ? "That is " : "Beside the corpus: ").append(position);
      if (position.endsWith("solos")) {
        text.append(" in this corpus");
      }
      text.append('.');
    }
    return text.toString().strip();
  }

  /** A value with its n and what n counts. */
  public String valueWithN(StatisticDefinition definition, double value, int n) {
    return numbers.withUnit(definition, value)
        + " (n\u00a0"
        + numbers.count(n)
        + " "
        + definition.n()
        + ")";
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
        if (values.isEmpty()) {
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

  /** A stretch between two quantiles in a table cell, a dash where too few solos allow it. */
  public String stretch(StatisticDefinition definition, Double low, Double high) {
    return low == null || high == null ? "\u2013" : numbers.range(definition, low, high);
  }

  /** What to know before trusting a norm; empty when there is nothing to say. */
  public static String caution(CorpusNorm norm) {
    if (norm.n() > 0 && norm.dominatedBy() != null) {
      return (norm.players() == 1 ? "All of them are by " : "More than half of these solos are by ")
          + FileText.withoutDirection(norm.dominatedBy())
          + ": read it as that player's.";
    }
    if (norm.n() > 0 && norm.players() < 3) {
      return norm.players() == 1
          ? "One player stands behind it: read it as that player's."
          : "Two players stand behind it: read it as theirs.";
    }
    return "";
  }

  private String solosAndPlayers(CorpusNorm norm) {
    return counted(norm.n(), "solo") + " by " + counted(norm.players(), "player");
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
   * How a value moved from the first dated solo to the last, seen from the middle band.
   *
   * @param n number of dated solos with a value, at least 3
   */
  public String progress(
      StatisticDefinition definition, CorpusNorm norm, double first, double last, int n) {
    String path =
        "from "
            + numbers.bare(definition, first)
            + " to "
            + numbers.withUnit(definition, last)
            + " (n\u00a0"
            + numbers.count(n)
            + " dated solos)";
    if (norm == null || !norm.hasBand()) {
      return capitalised(path) + "; the corpus is too small for a middle band.";
    }
    String band = "the middle band of " + numbers.range(definition, norm.p25(), norm.p75());
    double before = norm.beyondBand(first);
    double after = norm.beyondBand(last);
    double width = norm.p75() - norm.p25();
    String words;
    if (before == 0 && after == 0) {
      words = "At both ends inside " + band;
    } else if (after == 0) {
      words = "Moved into " + band;
    } else if (before == 0) {
      words = "Moved out of " + band;
    } else if ((first < norm.p25()) != (last < norm.p25())) {
      words = "Moved to the other side of " + band;
    } else if (Math.abs(after - before) < 0.1 * width) {
      words = "About as far from " + band + " as before";
    } else {
      words = (after < before ? "Moved toward " : "Moved away from ") + band;
    }
    return words + ": " + path + ".";
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
