package phrasecensus.music.phrase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.phrase.BreathTuning.Example;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Draws solos with the phrases that people marked above the line and those of a rule below it, and
 * counts the boundaries on which the two differ by what is heard there. Arguments: a file to write,
 * the rule, how many solos to draw (the same number from each style, those that differ most).
 */
final class PhrasePictures {
  private static final int BARS_A_LINE = 8;
  private static final double WIDTH = 1160;
  private static final double HEIGHT = 96;

  private PhrasePictures() {}

  public static void main(String[] arguments) throws IOException {
    Path folder = HumanPhrases.folder();
    if (folder == null) {
      System.err.println("Cannot draw: there are no solos with human phrases beside the project.");
      System.exit(3);
    }
    PhraseRule rule = PhraseRules.rule(arguments[1]);
    HumanPhrases.Solos solos = HumanPhrases.read(folder);
    Map<String, Integer> kinds = new TreeMap<>();
    Map<String, List<Example>> byStyle = new TreeMap<>();
    for (int i = 0; i < solos.examples().size(); i++) {
      Example example = solos.examples().get(i);
      byStyle.computeIfAbsent(solos.styles().get(i), style -> new ArrayList<>()).add(example);
      for (Difference each : differences(example, rule)) {
        kinds.merge(each.kind(), 1, Integer::sum);
      }
    }
    kinds.entrySet().stream()
        .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
        .forEach(kind -> System.out.println(kind.getValue() + "\t" + kind.getKey()));
    int each = Math.max(1, Integer.parseInt(arguments[2]) / byStyle.size());
    StringBuilder page =
        new StringBuilder("<!DOCTYPE html><meta charset=utf-8><title>Phrases</title>");
    byStyle.forEach(
        (style, examples) ->
            examples.stream()
                .sorted(
                    Comparator.comparingInt(
                        (Example example) -> -differences(example, rule).size()))
                .limit(each)
                .forEach(example -> draw(example, style, rule, page)));
    Files.writeString(Path.of(arguments[0]), page);
  }

  private record Difference(int note, boolean missed, String kind) {}

  private static List<Difference> differences(Example example, PhraseRule rule) {
    List<Integer> found = rule.boundaries(example.solo());
    TreeSet<Integer> all = new TreeSet<>(found);
    all.addAll(example.truth());
    List<Difference> differences = new ArrayList<>();
    for (int note : all) {
      boolean ours = found.contains(note);
      if (ours != example.truth().contains(note)) {
        boolean near =
            (ours ? example.truth() : found)
                .stream().anyMatch(other -> Math.abs(other - note) <= 2);
        differences.add(
            new Difference(
                note,
                !ours,
                (ours ? "added" : "missed")
                    + (near ? ", the other one or two notes away" : "")
                    + ": "
                    + heard(example.solo(), note)));
      }
    }
    return differences;
  }

  private static String heard(Solo solo, int note) {
    Note before = solo.notes().get(note - 1);
    Note after = solo.notes().get(note);
    Fraction rest = after.onset().minus(before.end());
    if (rest.compareTo(Fraction.ZERO) <= 0) {
      return before.length().compareTo(Fraction.ONE) >= 0
          ? "a note of a quarter or more, no rest"
          : "no rest and no long note";
    }
    double seconds = solo.seconds(before.end(), after.onset()).orElse(rest.toDouble() / 2);
    return seconds < 0.25
        ? "a rest below a quarter of a second"
        : seconds < 0.5
            ? "a rest of a quarter to half a second"
            : "a rest of half a second or more";
  }

  private static void draw(Example example, String style, PhraseRule rule, StringBuilder page) {
    Solo solo = example.solo();
    page.append("<h2>").append(example.name()).append(" (").append(style).append(")</h2>");
    int low = solo.notes().stream().mapToInt(Note::midi).min().orElse(60);
    int high = solo.notes().stream().mapToInt(Note::midi).max().orElse(72);
    List<Phrase> human = Phrases.between(solo, example.truth());
    List<Phrase> ours = rule.phrases(solo);
    List<Difference> differences = differences(example, rule);
    for (int first = 0; first < solo.bars().size(); first += BARS_A_LINE) {
      List<Bar> bars =
          solo.bars().subList(first, Math.min(solo.bars().size(), first + BARS_A_LINE));
      double from = bars.get(0).onset().toDouble();
      Bar last = bars.get(bars.size() - 1);
      double to = last.onset().plus(last.length()).toDouble();
      double scale = WIDTH / (to - from);
      page.append("<svg width=")
          .append(WIDTH + 20)
          .append(" height=")
          .append(HEIGHT + 40)
          .append('>');
      for (Bar bar : bars) {
        double x = (bar.onset().toDouble() - from) * scale;
        line(page, x, 16, x, HEIGHT + 16, "#bbb");
        page.append(
            String.format(
                Locale.ROOT,
                "<text x=%.1f y=12 font-size=10 fill=#777>%s</text>",
                x,
                bar.number()));
      }
      for (Note note : solo.notes()) {
        double x = (note.onset().toDouble() - from) * scale;
        if (x >= 0 && x < WIDTH) {
          page.append(
              String.format(
                  Locale.ROOT,
                  "<rect x=%.1f y=%.1f width=%.1f height=3 />",
                  x,
                  HEIGHT - 6 - (note.midi() - low) * (HEIGHT - 34) / Math.max(1, high - low),
                  Math.max(2, note.length().toDouble() * scale - 1.5)));
        }
      }
      brackets(page, human, from, to, scale, 20, "#06c");
      brackets(page, ours, from, to, scale, HEIGHT + 8, "#c50");
      for (Difference each : differences) {
        double x = (solo.notes().get(each.note()).onset().toDouble() - from) * scale;
        if (x >= 0 && x < WIDTH) {
          page.append(
              String.format(
                  Locale.ROOT,
                  "<text x=%.1f y=%.1f font-size=13 fill=%s>%s</text>",
                  x - 4,
                  HEIGHT + 30,
                  each.missed() ? "#06c" : "#c50",
                  each.missed() ? "missed" : "added"));
        }
      }
      page.append("</svg><br>");
    }
  }

  private static void brackets(
      StringBuilder page,
      List<Phrase> phrases,
      double from,
      double to,
      double scale,
      double y,
      String colour) {
    for (Phrase phrase : phrases) {
      double start = phrase.onset().toDouble();
      double end = phrase.end().toDouble();
      if (end > from && start < to) {
        double left = Math.max(0, (start - from) * scale);
        double right = Math.min(WIDTH, (end - from) * scale - 2);
        line(page, left, y, right, y, colour);
        if (start >= from) {
          line(page, left, y - 4, left, y + 4, colour);
        }
      }
    }
  }

  private static void line(
      StringBuilder page, double x1, double y1, double x2, double y2, String colour) {
    page.append(
        String.format(
            Locale.ROOT,
            "<line x1=%.1f y1=%.1f x2=%.1f y2=%.1f stroke=%s stroke-width=1.5 />",
            x1,
            y1,
            x2,
            y2,
            colour));
  }
}
