package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.statistic.SoloStatistics;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

/** Times that are fractions without a common denominator; which ones fit is arithmetic. */
class ExactTimeTest {
  /** Primes, so that no two share a factor. */
  private static final int[] PRIMES = {9973, 9967, 9949, 9941, 9931, 9929, 9923, 9907, 9901, 9887};

  @Test
  void firstBarThatCannotBeAddedUpIsNamedWithTheLimit() {
    StringBuilder bars = new StringBuilder();
    for (int i = 0; i < PRIMES.length; i++) {
      bars.append(bar(i + 1, PRIMES[i], "4", "4", PRIMES[i] + 1));
    }

    ReadResult result = read(bars.toString(), ReadSettings.defaults());

    // 9973 · 9967 · 9949 is 9.9e11 parts of a quarter note, over 13 quarters; the fourth prime
    // brings
    // it beyond 1e15.
    assertThat(result.reason())
        .isEqualTo(
            "The times up to bar 4 cannot be added up exactly: they are beyond the limit time-parts"
                + " of 1000000000000000 parts. Look at the divisions, durations and time"
                + " signatures there.");
  }

  @Test
  void usualTupletsOfEveryKindInOnePieceAreFarWithinTheLimit() {
    StringBuilder bars = new StringBuilder();
    for (int i = 0; i < 400; i++) {
      int parts = i % 15 + 1;
      bars.append(
          bar(i + 1, 480 * parts, Integer.toString(2 + i % 10), i % 2 == 0 ? "4" : "8", 480));
    }

    assertThat(read(bars.toString(), ReadSettings.defaults()).isRead()).isTrue();
  }

  @Test
  void limitCanBeLowered() {
    ReadSettings settings =
        ReadSettings.defaults().withLimits(Limit.parse(Map.of("time-parts", "100")));

    assertThat(read(bar(1, 480, "4", "4", 1920) + bar(2, 7, "4", "4", 29), settings).reason())
        .contains("bar 2")
        .contains("time-parts of 100 parts");
  }

  @Test
  void whatIsReadIsAnalysedWithoutOverflow() {
    Random random = new Random(20_261_129);
    int read = 0;
    for (int i = 0; i < 400; i++) {
      StringBuilder bars = new StringBuilder();
      for (int bar = 1; bar <= 4 + random.nextInt(8); bar++) {
        bars.append(
            bar(
                bar,
                oneOf(random, 1, 480, 9973, 7 * 11, 1 << random.nextInt(30)),
                Integer.toString(oneOf(random, 4, 3, 1 + random.nextInt(97), 999_983)),
                Integer.toString(oneOf(random, 4, 8, 16, 1 << random.nextInt(16))),
                1 + random.nextInt(oneOf(random, 8, 2000, 1_000_000_000))));
      }
      ReadResult result = read(bars.toString(), ReadSettings.defaults());
      if (result.isRead()) {
        read++;
        SoloStatistics.withPhrases(
            SoloAnalyser.analyse(
                result.solo(),
                new AnalysisSettings(
                    PhraseRules.rule("silence", Map.of()), true, Optional.empty())));
      }
    }

    assertThat(read).isBetween(50, 390);
  }

  private static int oneOf(Random random, int... values) {
    return values[random.nextInt(values.length)];
  }

  private static ReadResult read(String bars, ReadSettings settings) {
    return SoloReader.read(
        ("<score-partwise><part-list><score-part id='P1'><part-name>Solo</part-name></score-part>"
                + "</part-list><part id='P1'>"
                + bars
                + "</part></score-partwise>")
            .getBytes(StandardCharsets.UTF_8),
        "a.musicxml",
        settings);
  }

  private static String bar(int number, int divisions, String beats, String beatType, int length) {
    return "<measure number='"
        + number
        + "'><attributes><divisions>"
        + divisions
        + "</divisions><time><beats>"
        + beats
        + "</beats><beat-type>"
        + beatType
        + "</beat-type></time></attributes><harmony><root><root-step>C</root-step></root>"
        + "<kind>dominant</kind></harmony><note><pitch><step>C</step><octave>5</octave></pitch>"
        + "<duration>"
        + length
        + "</duration></note><note><pitch><step>E</step><octave>5</octave></pitch><duration>"
        + length
        + "</duration></note></measure>";
  }
}
