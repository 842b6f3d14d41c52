package phrasecensus.report.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import phrasecensus.report.lesson.Course;
import phrasecensus.report.lesson.Example;
import phrasecensus.report.lesson.GoodThing;
import phrasecensus.report.lesson.Home;
import phrasecensus.report.lesson.Lead;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.lesson.Stretch;
import phrasecensus.report.rows.Answer;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * What a lesson sheet says, for a reader of fifteen: short sentences, no word of statistics, mostly
 * one number each.
 */
public final class LessonWording {
  /** Up to so many things are counted one by one; more are told of ten. */
  private static final int COUNTED = 20;

  private static final int NUMBERS_IN_WORDS = 20;

  private final StatisticsCatalogue catalogue;
  private final Numbers numbers;

  public LessonWording(StatisticsCatalogue catalogue, Numbers numbers) {
    this.catalogue = catalogue;
    this.numbers = numbers;
  }

  /** A number in words where it is small. */
  public String number(long number) {
    return number >= 0 && number <= NUMBERS_IN_WORDS
        ? Text.of("lesson.number").split("\\|")[(int) number]
        : numbers.count(number);
  }

  /** A length to the nearest half: {@code two}, {@code two and a half}. */
  String about(double bars) {
    long halves = Math.round(2 * bars);
    if (halves <= 1) {
      return Text.of("lesson.half");
    }
    return halves % 2 == 0 ? number(halves / 2) : Text.of("lesson.and-a-half", number(halves / 2));
  }

  private static String bars(double bars) {
    return Math.round(2 * bars) <= 2 ? Text.of("lesson.bar") : Text.of("lesson.bars");
  }

  /** Which key is home and who says so, and what stops are judged by where there are no chords. */
  public String key(SoloFacts facts, Optional<Home> home, LessonLine line) {
    if (line.solo().notes().isEmpty()) {
      return "";
    }
    List<String> sentences = new ArrayList<>();
    String source = facts.columns().getOrDefault("centre_source", "none");
    if (home.isEmpty()) {
      sentences.add(Text.of("lesson.key.none"));
    } else {
      boolean blank = source.equals("notes") && facts.keyFifths() != null;
      sentences.add(
          Text.of(blank ? "lesson.key.blank" : "lesson.key." + source, home.get().words()));
    }
    if (!line.hasChords() && home.isPresent()) {
      sentences.add(Text.of("lesson.no-chords"));
    }
    return String.join(" ", sentences);
  }

  /** How a solo stands to a question, in one or two sentences. */
  public String answer(Answer answer, LessonLine line) {
    if (answer.isUntold()) {
      return untold(answer);
    }
    if (!answer.isMet() && !answer.isNotYet()) {
      return Text.of("lesson.no-aim");
    }
    String aim = answer.aim();
    String stem = "lesson.told." + aim + (answer.isMet() ? ".met" : ".not-yet");
    String chords = Text.of(line.hasChords() ? "lesson.chord" : "lesson.key");
    return switch (aim) {
      case "in_key_share" -> {
        String home = Text.of(line.hasChords() ? "lesson.key-or-chord" : "lesson.key");
        yield isNone(answer)
            ? Text.of("lesson.told.in_key_share.none", home)
            : Text.of(stem, notes(answer), home);
      }
      case "other_scale_excess" -> Text.of(stem);
      case "resting_chord_tone_share" -> Text.of(stem, stops(answer), chords);
      case "eighth_or_shorter_share" ->
          isNone(answer)
              ? Text.of("lesson.told.eighth_or_shorter_share.none")
              : Text.of(
                  stem,
                  notes(answer),
                  Text.of(part(answer) == 1 ? "lesson.eighth" : "lesson.eighths"));
      case "unbroken_time_share", "scrap_time_share" -> phrases(answer, line);
      default -> other(answer);
    };
  }

  private String phrases(Answer answer, LessonLine line) {
    if (answer.isMet()) {
      double middle = line.middleLength();
      return Text.of("lesson.phrases.met", about(middle), bars(middle));
    }
    if (answer.aim().equals("scrap_time_share")) {
      int all = line.stretches().size();
      return Text.of("lesson.phrases.fragments", ofYours(line.scraps(), all, "phrases"));
    }
    double longest = line.longest().map(Stretch::bars).orElse(0.0);
    return Text.of("lesson.phrases.no-breath", number(Math.max(1, Math.round(longest))));
  }

  /** An aim on a statistic of which there are no words of its own. */
  private String other(Answer answer) {
    StatisticDefinition definition = catalogue.named(answer.aim()).orElse(null);
    if (definition == null || answer.value() == null) {
      return Text.of("lesson.own." + (answer.isMet() ? "met" : "not-yet"));
    }
    return Text.of(
        "lesson.own." + (answer.isMet() ? "met.value" : "not-yet.value"),
        numbers.withUnit(definition, answer.value()),
        asked(definition, answer));
  }

  private String asked(StatisticDefinition definition, Answer answer) {
    if (answer.low() == null) {
      return Text.of("lesson.asked.most", numbers.withUnit(definition, answer.high()));
    }
    return answer.high() == null
        ? Text.of("lesson.asked.least", numbers.withUnit(definition, answer.low()))
        : numbers.range(definition, answer.low(), answer.high());
  }

  private String untold(Answer answer) {
    String shortage = answer.shortage() == null ? "no_value" : answer.shortage();
    if (shortage.equals("too_few")) {
      String counted = answer.counted() == null ? "notes" : answer.counted();
      String thing = "lesson.thing." + counted + (answer.n() == 1 ? ".one" : ".many");
      return Text.of(
          "lesson.untold.too_few",
          answer.n() == 0 ? Text.of("lesson.no") : number(answer.n()),
          Text.has(thing) ? Text.of(thing) : counted);
    }
    return Text.of("lesson.untold." + shortage);
  }

  /** The name of an answer above it: the teacher's own words where there are some. */
  public String heading(Answer answer) {
    if (answer.words() != null && !answer.words().isBlank()) {
      return FileText.printable(answer.words());
    }
    return answer.question().equals("own")
        ? catalogue
            .named(String.valueOf(answer.aim()))
            .map(definition -> Wording.capitalised(definition.name()))
            .orElse(Text.of("lesson.own"))
        : Text.of("lesson.answer." + answer.question());
  }

  private String notes(Answer answer) {
    double value = answer.value();
    int n = answer.n();
    long count = Math.round(value * n);
    if (count == n) {
      return Text.of("lesson.notes.all");
    }
    long of = n <= COUNTED ? n : 10;
    long part = part(answer);
    if (part >= of) {
      return Text.of("lesson.notes.nearly-all");
    }
    if (part == 0) {
      return Text.of("lesson.notes.hardly-any");
    }
    return Text.of(part == 1 ? "lesson.notes.one" : "lesson.notes.some", part, of);
  }

  private static boolean isNone(Answer answer) {
    return Math.round(answer.value() * answer.n()) == 0;
  }

  /** The heading over an example. */
  public static String model(String finding) {
    String key = "lesson.model." + finding;
    return Text.has(key) ? Text.of(key) : Text.of("lesson.model");
  }

  /** How many of the notes, or of ten where there are many. */
  private static long part(Answer answer) {
    return Math.round(answer.value() * (answer.n() <= COUNTED ? answer.n() : 10));
  }

  private String stops(Answer answer) {
    return ofYours(Math.round(answer.value() * answer.n()), answer.n(), "stops");
  }

  /** A part of a few things, with its verb. */
  private String ofYours(long part, int all, String things) {
    String stem = "lesson.part." + things;
    if (part >= all) {
      return Text.of(stem + ".all");
    }
    if (part == 0) {
      return Text.of(stem + ".none");
    }
    if (all > COUNTED) {
      long ofTen = Math.max(1, Math.min(9, Math.round(10.0 * part / all)));
      return Text.of(ofTen == 1 ? stem + ".one" : stem + ".some", ofTen, 10);
    }
    return Text.of(part == 1 ? stem + ".one" : stem + ".some", part, all);
  }

  /** What goes well. */
  public static String good(GoodThing thing, boolean chords) {
    List<String> places = thing.places();
    String key = "lesson.good." + thing.kind().name().toLowerCase(Locale.ROOT);
    boolean sameBar = places.size() == 2 && places.get(0).equals(places.get(1));
    List<Object> words = new ArrayList<>();
    places.forEach(place -> words.add(FileText.withoutDirection(place)));
    words.add(Text.of(chords ? "lesson.chord" : "lesson.key"));
    return Text.of(sameBar ? key + ".bar" : key, words.toArray());
  }

  /**
   * Last lesson's task, and whether this solo shows it.
   *
   * @param lead what that lesson was about
   * @param task what it was called
   * @param now how this solo stands to that lesson's question; null where it does not tell
   */
  public static String last(Lead lead, String task, Answer now) {
    String shown =
        lead.finding().equals(Lead.NONE) || lead.question().equals("own") || now == null
            ? "ear"
            : now.isMet() ? "shown" : now.isNotYet() ? "not-yet" : "untold";
    return Text.of("lesson.last." + shown, task);
  }

  /** Why a phrase is shown. */
  public String example(String finding, Example example, boolean chords) {
    Stretch stretch = example.stretch();
    return switch (finding) {
      case "outside_key" -> Text.of("lesson.example.outside_key");
      case "weak_landings" ->
          Text.of(
              "lesson.example.weak_landings",
              degree(stretch.last().resting().degree()),
              Text.of(chords ? "lesson.chord" : "lesson.key"));
      case "long_notes" -> Text.of("lesson.example.long_notes");
      case "no_breath", "fragments" ->
          Text.of("lesson.example.no_breath", about(stretch.bars()), bars(stretch.bars()));
      default -> Text.of(example.own() ? "lesson.example.own" : "lesson.example.corpus");
    };
  }

  private static String degree(String degree) {
    String number = String.valueOf(degree).replaceAll("[^0-9]", "");
    String key = "lesson.degree." + number;
    return Text.has(key) ? Text.of(key) : Text.of("lesson.degree.other");
  }

  /**
   * How the answers over the dates follow each other, oldest first: {@code In the key: 67, 73 of
   * 100 notes}.
   *
   * @param answers of one question, at least one with a value
   */
  public String course(List<Answer> answers) {
    Answer last = answers.get(answers.size() - 1);
    StatisticDefinition definition = catalogue.named(String.valueOf(last.aim())).orElse(null);
    if (definition == null) {
      return "";
    }
    List<String> values = new ArrayList<>();
    for (Answer answer : answers) {
      values.add(
          answer.value() == null || !last.aim().equals(answer.aim())
              ? Text.of("value.dash")
              : definition.percent()
                  ? numbers.count(Math.round(100 * answer.value()))
                  : numbers.decimal(answer.value(), definition.decimals()));
    }
    String thing = "lesson.course." + last.aim();
    String name = Text.has(thing) ? Text.of(thing) : Wording.capitalised(definition.name());
    String row = String.join(", ", values);
    return definition.percent()
        ? Text.of(
            "lesson.course.share", name, row, Text.of("lesson.thing." + last.counted() + ".many"))
        : Text.of(
            "lesson.course.value",
            name,
            row,
            definition.unit().equals("none") ? "" : " " + definition.unit());
  }

  /** Which way an answer goes, in a sentence; empty where it goes none clearly. */
  public static String way(Course course) {
    return switch (course) {
      case RISE -> Text.of("lesson.course.rise");
      case FALL -> Text.of("lesson.course.fall");
      case OPEN -> "";
    };
  }

  /** What changed since the solo before, in a sentence. */
  public String change(String date, Answer before, Answer now, boolean more) {
    String day = numbers.date(date);
    if (before == null) {
      return Text.of("lesson.change.none", day);
    }
    StatisticDefinition definition = catalogue.named(String.valueOf(now.aim())).orElse(null);
    if (definition == null) {
      return "";
    }
    String key = "lesson.change." + now.aim() + (more ? ".up" : ".down");
    boolean turned = !more && !Text.has(key) && definition.complement() != null;
    return Text.of(
        definition.percent() ? "lesson.change.share" : "lesson.change.value",
        day,
        Text.has(key)
            ? Text.of(key)
            : Text.of("lesson.change.other", more ? definition.higher() : definition.lower()),
        value(definition, now, turned),
        value(definition, before, turned));
  }

  private String value(StatisticDefinition definition, Answer answer, boolean turned) {
    return definition.percent()
        ? numbers.count(Math.round(100 * (turned ? 1 - answer.value() : answer.value())))
        : numbers.withUnit(definition, answer.value());
  }
}
