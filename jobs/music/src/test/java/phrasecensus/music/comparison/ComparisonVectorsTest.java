package phrasecensus.music.comparison;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;

/**
 * Holds the comparison against figures that two other programs made and agree on to 2.4e-10: one in
 * Python with numpy 1.24 and scipy 1.10, one in R 4.2.2 from whole covariance matrices, which
 * shares no algebra with it. Both are ours and not part of the product; {@code vectors.csv} holds
 * what they were given and what they found.
 */
class ComparisonVectorsTest {
  private static final double TOLERANCE = 1e-9;

  private static int figures(List<Vector> vectors) {
    return vectors.stream()
        .mapToInt(vector -> vector.expected.values().stream().mapToInt(all -> all.length).sum())
        .sum();
  }

  @Test
  void nothingOfTheFileIsPassedOver() throws IOException {
    assertThat(vectors()).hasSize(54);
    assertThat(figures(vectors())).isEqualTo(2082);
  }

  @TestFactory
  Stream<DynamicTest> figuresAreThoseOfTheOtherPrograms() throws IOException {
    return vectors().stream()
        .map(
            vector ->
                DynamicTest.dynamicTest(
                    vector.id + " " + vector.topic, () -> compare(vector, found(vector))));
  }

  private static void compare(Vector vector, Map<String, double[]> found) {
    vector.expected.forEach(
        (name, texts) -> {
          double[] own = found.get(name);
          assertThat(own).as(name).isNotNull().hasSize(texts.length);
          for (int i = 0; i < texts.length; i++) {
            double expected = texts[i].equals("none") ? Double.NaN : Double.parseDouble(texts[i]);
            if (Double.isNaN(expected)) {
              assertThat(own[i]).as(name).isNaN();
            } else {
              assertThat(Math.abs(own[i] - expected) / Math.max(1, Math.abs(expected)))
                  .as(name + " " + i + ": " + own[i] + " for " + expected)
                  .isLessThanOrEqualTo(TOLERANCE);
            }
          }
        });
  }

  private static Map<String, double[]> found(Vector v) {
    String topic = v.topic.contains(":") ? v.topic.substring(0, v.topic.indexOf(':')) : v.topic;
    Map<String, double[]> found = new LinkedHashMap<>();
    switch (topic) {
      case "transform" -> {
        Scale scale = Scale.named(v.text("kind"));
        double y = scale.forward(v.number("value"), v.number("n"));
        found.put("y", one(y));
        found.put("back", one(scale.backward(y, v.number("n"))));
      }
      case "back" ->
          found.put(
              "back", one(Scale.named(v.text("kind")).backward(v.number("y"), v.number("n"))));
      case "variance" -> found.put("v", relative(v, "count"));
      case "basis" -> {
        double[][] basis = basis(v.numbers("qpm"), v);
        found.put("u", basis[0]);
        found.put("u2", basis[1]);
      }
      case "slopes" -> {
        double[][] basis = basis(v.numbers("qpm"), v);
        int[] group = codes(v.texts("group"));
        TempoSlopes.Sums sums =
            TempoSlopes.sums(
                v.numbers("x"),
                basis[0],
                basis[1],
                group,
                Arrays.stream(group).max().orElseThrow() + 1,
                v.numbers("v"));
        found.put("sums", new double[] {sums.uu(), sums.uq(), sums.uq(), sums.qq()});
        found.put("products", new double[] {sums.ux(), sums.qx()});
        found.put("weights", one(sums.weight()));
        found.put("slope", slopes(sums.drawnToward(shipped(v), 40)));
      }
      case "rho_prior" -> found.put("weight", Correlation.prior(v.number("mean")));
      case "group alone" -> {
        double[] relative = relative(v, "count");
        int[] player = codes(v.texts("player"));
        GroupSums sums = GroupSums.of(v.numbers("z"), player, relative);
        found.put("mu", grid(sums::mean));
        found.put("U", grid(sums::information));
        found.put("Q", grid(sums::squares));
        found.put("D", grid(sums::halfLogDeterminant));
        PredictiveMixture mixture =
            PredictiveMixture.of(
                    v.numbers("z"),
                    player,
                    relative,
                    Correlation.prior(v.number("prior_mean")),
                    OtherGroups.SILENT)
                .orElseThrow();
        int cap = v.text("cap").equals("none") ? Freedom.UNLIMITED : (int) v.number("cap");
        put(found, mixture, student(v), cap);
        StudentMean mean = student(v);
        found.put("each_p", mixture.eachP(mean.value(), mean.omega(), cap));
      }
      case "other groups" -> {
        OtherGroups others = others(v, relative(v, "count"), Correlation.prior(.25), null);
        found.put("groups", one(others.groups()));
        found.put("freedom", one(others.freedom()));
        if (others.speak()) {
          found.put("variance", one(others.variance()));
          found.put("variance_within", one(others.varianceWithin()));
          found.put("mean", one(others.mean()));
          found.put("rho", one(others.correlation()));
          found.put(
              "weight",
              OtherGroups.Pooled.of(
                      groups(v, v.numbers("z"), relative(v, "count"), null).stream()
                          .filter(group -> group.values().length >= OtherGroups.LEAST_SOLOS)
                          .map(
                              group ->
                                  GroupSums.of(group.values(), group.player(), group.variance()))
                          .toList(),
                      Correlation.prior(.25))
                  .weights());
        }
      }
      case "whole model" -> {
        OtherGroups others =
            new OtherGroups(
                (int) v.number("others_groups"),
                (int) v.number("others_freedom"),
                v.number("others_variance"),
                0,
                v.number("others_mean"),
                0);
        PredictiveMixture mixture =
            PredictiveMixture.of(
                    v.numbers("z"),
                    codes(v.texts("player")),
                    relative(v, "count"),
                    Correlation.prior(v.number("prior_mean")),
                    others)
                .orElseThrow();
        StudentMean mean = student(v);
        int cap = Freedom.cap(mean.solos(), others.freedom());
        put(found, mixture, mean, cap);
        found.put("cap", one(cap == Freedom.UNLIMITED ? Double.NaN : cap));
        found.put("centre", one(mixture.centre()));
        found.put("rho", one(mixture.correlation()));
        double[] pulls = new double[4];
        double[] weights = mixture.weights();
        for (int i = 0; i < weights.length; i++) {
          pulls[i / Correlation.SIZE] += weights[i];
        }
        found.put("pull_weight", pulls);
      }
      case "one player" -> {
        OtherGroups others =
            v.given.containsKey("others_within")
                ? new OtherGroups(
                    4, (int) v.number("others_freedom"), 1, v.number("others_within"), 0, 0)
                : OtherGroups.SILENT;
        PredictiveMixture mixture =
            PredictiveMixture.ofOnePlayer(v.numbers("z"), relative(v, "count"), others)
                .orElseThrow();
        StudentMean mean = student(v);
        put(found, mixture, mean, Freedom.cap(mean.solos(), others.freedom()));
        found.put("mu", one(mixture.centre()));
      }
      case "cauchy" -> found.put("p", one(CombinedTest.p(v.numbers("p"))));
      case "family" -> {
        TestFamily family = TestFamily.of(v.numbers("p"));
        found.put("adjusted", family.adjusted());
        found.put("level", one(family.level()));
        found.put(
            "clear", Arrays.stream(v.numbers("p")).map(p -> p <= family.level() ? 1 : 0).toArray());
      }
      case "planning" ->
          found.put(
              "solos",
              one(
                  new Planning(
                          v.number("rho"),
                          v.number("vmu"),
                          (int) v.number("freedom"),
                          (int) v.number("others_freedom"))
                          .solosNeeded(
                              v.number("shift"),
                              v.number("v"),
                              v.number("level"),
                              v.number("wanted"))
                          .stream()
                          .mapToDouble(solos -> solos)
                          .findFirst()
                          .orElse(Double.NaN)));
      case "band at a tempo" -> {
        double[][] basis = basis(v.numbers("qpm"), v);
        TempoSlopes slope = new TempoSlopes(v.numbers("slope")[0], v.numbers("slope")[1]);
        double[] residuals = v.numbers("y");
        for (int i = 0; i < residuals.length; i++) {
          residuals[i] -= slope.at(basis[0][i], basis[1][i]);
        }
        double[][] at = basis(v.numbers("tempo"), v);
        double up = slope.at(at[0][0], at[1][0]);
        Scale scale = Scale.named(v.text("kind"));
        found.put(
            "band",
            Arrays.stream(new double[] {.25, .5, .75})
                .map(q -> scale.backward(Quantiles.of(Sample.of(residuals), q) + up, v.number("n")))
                .toArray());
      }
      case "reliability" -> {
        List<Reliability.Halves> halves = new ArrayList<>();
        for (int i = 0; i < v.numbers("odd").length; i++) {
          halves.add(
              new Reliability.Halves(
                  v.numbers("odd")[i],
                  v.numbers("even")[i],
                  v.numbers("odd_phrases")[i],
                  v.numbers("even_phrases")[i]));
        }
        Reliability reliability = Reliability.of(halves);
        found.put("phrase_variance", one(reliability.phraseVariance()));
        found.put("phrases_for_50", one(reliability.phrasesForHalf()));
        found.put("phrases_for_80", one(reliability.phrasesForFourFifths()));
        found.put("r_at_19", one(reliability.at(19)));
      }
      case "from values to an interval" -> fromValuesToAnInterval(v, found);
      default -> throw new IllegalArgumentException(topic);
    }
    return found;
  }

  private static void fromValuesToAnInterval(Vector v, Map<String, double[]> found) {
    List<ComparedSolo> corpus = new ArrayList<>();
    for (int i = 0; i < v.texts("group").length; i++) {
      corpus.add(
          new ComparedSolo(
              "solo " + i,
              v.texts("player")[i],
              v.texts("group")[i],
              v.numbers("value")[i],
              v.numbers("n")[i],
              v.numbers("phrases")[i],
              v.numbers("qpm")[i]));
    }
    List<ComparedSolo> student = new ArrayList<>();
    for (int i = 0; i < v.numbers("student_value").length; i++) {
      student.add(
          new ComparedSolo(
              "student " + i,
              "student",
              "",
              v.numbers("student_value")[i],
              v.numbers("student_n")[i],
              v.numbers("student_phrases")[i],
              v.numbers("student_qpm")[i]));
    }
    ShippedFigures shipped =
        new ShippedFigures(
            "made",
            Scale.named(v.text("kind")),
            v.number("noise"),
            v.number("prior_mean"),
            shipped(v),
            new TempoScale(v.number("tempo_low"), v.number("tempo_high")),
            Double.POSITIVE_INFINITY);
    GroupComparison group = CorpusModel.of(shipped, corpus, true).group(v.text("compared"));
    StudentComparison compared = StudentComparison.of(group, student);
    found.put("slope", slopes(group.slopes()));
    found.put("others_mean", one(group.others().mean()));
    found.put("others_variance", one(group.others().variance()));
    found.put("freedom", one(group.mixture().orElseThrow().freedom()));
    found.put("y", one(compared.mean().value()));
    found.put("omega", one(compared.mean().omega()));
    found.put("p", one(compared.p()));
    PredictiveMixture.Range range = compared.range(v.number("level"));
    found.put("low", one(range.low()));
    found.put("high", one(range.high()));
    found.put("shown", one(compared.shown()));
    found.put("shown_low", one(compared.shown(range.low())));
    found.put("shown_high", one(compared.shown(range.high())));
  }

  private static void put(
      Map<String, double[]> found, PredictiveMixture mixture, StudentMean mean, int cap) {
    double y = mean.value();
    double omega = mean.omega();
    found.put("tau2", mixture.variances());
    found.put("weight", mixture.weights());
    found.put("freedom", one(mixture.freedom()));
    found.put("y", one(y));
    found.put("omega", one(omega));
    found.put("below", one(mixture.below(y, omega, cap)));
    found.put("above", one(mixture.above(y, omega, cap)));
    found.put("p", one(mixture.p(y, omega, cap)));
    PredictiveMixture.Range wide = mixture.interval(.05 / 6, omega, cap);
    PredictiveMixture.Range narrow = mixture.interval(.05, omega, cap);
    found.put("low_05", one(narrow.low()));
    found.put("high_05", one(narrow.high()));
    found.put("low_6", one(wide.low()));
    found.put("high_6", one(wide.high()));
  }

  private static double[] one(double value) {
    return new double[] {value};
  }

  private static double[] slopes(TempoSlopes slopes) {
    return new double[] {slopes.first(), slopes.second()};
  }

  private static double[] grid(java.util.function.IntToDoubleFunction figure) {
    double[] all = new double[Correlation.SIZE];
    Arrays.setAll(all, figure);
    return all;
  }

  private static double[] relative(Vector v, String counts) {
    return Arrays.stream(v.numbers(counts))
        .map(count -> RelativeVariance.of(v.number("noise"), count))
        .toArray();
  }

  private static StudentMean student(Vector v) {
    return StudentMean.of(v.numbers("student"), relative(v, "student_count"));
  }

  private static double[][] basis(double[] tempos, Vector v) {
    TempoScale scale = new TempoScale(v.number("low"), v.number("high"));
    double[] u = Arrays.stream(tempos).map(scale::doublings).toArray();
    return new double[][] {u, Arrays.stream(u).map(each -> each * each).toArray()};
  }

  private static TempoSlopes.Shipped shipped(Vector v) {
    double[] slope = v.numbers("shipped_slope");
    double[] info = v.numbers("shipped_info");
    return new TempoSlopes.Shipped(new TempoSlopes(slope[0], slope[1]), info[0], info[1], info[3]);
  }

  private static int[] codes(String[] names) {
    Map<String, Integer> codes = new TreeMap<>();
    int[] found = new int[names.length];
    for (int i = 0; i < names.length; i++) {
      found[i] = codes.computeIfAbsent(names[i], name -> codes.size());
    }
    return found;
  }

  private static OtherGroups others(Vector v, double[] relative, double[] prior, String leftOut) {
    return OtherGroups.of(groups(v, v.numbers("z"), relative, leftOut), prior);
  }

  private static List<OtherGroups.Group> groups(
      Vector v, double[] z, double[] relative, String leftOut) {
    List<OtherGroups.Group> groups = new ArrayList<>();
    for (String name : Arrays.stream(v.texts("group")).distinct().sorted().toList()) {
      int[] places =
          java.util.stream.IntStream.range(0, z.length)
              .filter(i -> v.texts("group")[i].equals(name) && !name.equals(leftOut))
              .toArray();
      groups.add(
          new OtherGroups.Group(
              Arrays.stream(places).mapToDouble(i -> z[i]).toArray(),
              codes(
                  Arrays.stream(places).mapToObj(i -> v.texts("player")[i]).toArray(String[]::new)),
              Arrays.stream(places).mapToDouble(i -> relative[i]).toArray()));
    }
    return groups;
  }

  /** One row of the file. */
  private record Vector(
      String id, String topic, Map<String, String[]> given, Map<String, String[]> expected) {
    String text(String name) {
      return given.get(name)[0];
    }

    String[] texts(String name) {
      return given.get(name);
    }

    double number(String name) {
      return Double.parseDouble(text(name));
    }

    double[] numbers(String name) {
      return Arrays.stream(given.get(name)).mapToDouble(Double::parseDouble).toArray();
    }
  }

  private static List<Vector> vectors() throws IOException {
    List<Vector> vectors = new ArrayList<>();
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(
                ComparisonVectorsTest.class.getResourceAsStream("vectors.csv"),
                StandardCharsets.UTF_8))) {
      reader.readLine();
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        String[] cells = line.split(",", -1);
        vectors.add(new Vector(cells[0], cells[1], parts(cells[2]), parts(cells[3])));
      }
    }
    return vectors;
  }

  private static Map<String, String[]> parts(String cell) {
    Map<String, String[]> parts = new LinkedHashMap<>();
    for (String part : cell.split(";")) {
      int at = part.indexOf('=');
      parts.put(part.substring(0, at), part.substring(at + 1).split(" "));
    }
    return parts;
  }
}
