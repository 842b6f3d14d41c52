package phrasecensus.report.lesson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.lang.management.ManagementFactory;
import java.util.AbstractList;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.RandomAccess;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.ToLongFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.StudentSolo;

/**
 * What a lesson costs that is four times as long: four times as much, not sixteen times. Work is
 * counted, in elements looked at and in bytes asked for, and never timed.
 */
class LongSoloTest {
  private static final int BARS = 1_000;

  /** Searching halves, so a little more than four; with the square it would be sixteen. */
  private static final double MOST_TIMES = 5;

  private static final int PHRASE_BARS = 2;

  /** Tells how often one of its elements was asked for. */
  private static final class Counted<T> extends AbstractList<T> implements RandomAccess {
    private final List<T> all;
    private final AtomicLong visits;

    Counted(List<T> all, AtomicLong visits) {
      this.all = all;
      this.visits = visits;
    }

    @Override
    public T get(int index) {
      visits.incrementAndGet();
      return all.get(index);
    }

    @Override
    public int size() {
      return all.size();
    }
  }

  /** Eighths of C major in phrases of a bar and a half, with a chord for each bar. */
  private static SoloLine line(int bars) {
    List<SoloLine.BarSpan> spans = new ArrayList<>();
    List<SoloLine.ChordSpan> chords = new ArrayList<>();
    List<SoloLine.Tone> notes = new ArrayList<>();
    for (int i = 0; i < bars; i++) {
      spans.add(
          new SoloLine.BarSpan(
              i,
              String.valueOf(i + 1),
              Fraction.of(4L * i),
              Fraction.of(4),
              "4/4",
              Fraction.ZERO,
              false,
              null));
      chords.add(new SoloLine.ChordSpan(Fraction.of(4L * i), Fraction.of(4L * i + 4), "C"));
      boolean ends = i % PHRASE_BARS == PHRASE_BARS - 1;
      int eighths = ends ? 4 : 8;
      for (int eighth = 0; eighth < eighths; eighth++) {
        notes.add(
            new SoloLine.Tone(
                notes.size(),
                Fraction.of(8L * i + eighth, 2),
                Fraction.HALF,
                60,
                "C4",
                0,
                "C4",
                "chord-tone",
                true,
                i / PHRASE_BARS,
                ends && eighth == eighths - 1 ? new SoloLine.Resting("breath", "1", true) : null));
      }
    }
    return new SoloLine(spans, chords, notes, List.of(), List.of());
  }

  private static SoloFacts facts(String soloId, int bars) {
    return new SoloFacts(
        soloId,
        soloId,
        "a student",
        null,
        "",
        "",
        null,
        "4/4",
        120.0,
        0,
        0,
        "major",
        bars,
        6 * bars,
        bars / PHRASE_BARS,
        Map.of(),
        Map.of());
  }

  private static void assertAboutLinear(ToLongFunction<SoloLine> work) {
    long once = work.applyAsLong(line(BARS));
    long fourTimes = work.applyAsLong(line(4 * BARS));

    assertThat(once).isPositive();
    assertThat(fourTimes).isLessThanOrEqualTo((long) (MOST_TIMES * once));
  }

  @Test
  void barsAreFoundForEachStretchWithoutGoingThroughAll() {
    assertAboutLinear(
        line -> {
          AtomicLong visits = new AtomicLong();
          LessonLine.stretches(new Counted<>(line.bars(), visits), line.notes());
          return visits.get();
        });
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"outside_key", "weak_landings", "long_notes", "no_breath", "fragments", "none"})
  void eachNoteIsWeighedOnce(String finding) {
    assertAboutLinear(
        line -> {
          AtomicLong visits = new AtomicLong();
          List<TellingBars.Passage> groups = new ArrayList<>();
          for (int from = 0; from < line.bars().size(); from += 4) {
            groups.add(new TellingBars.Passage(from, from + 3));
          }
          TellingBars.weights(
              new Counted<>(line.bars(), visits),
              new Counted<>(line.notes(), visits),
              finding,
              Set.of(0),
              groups);
          return visits.get();
        });
  }

  @Test
  void anExampleOfTheStudentsOwnDrawsTheLineOnce() {
    assertAboutLinear(
        line -> {
          ExampleChoice choice = choice(line);
          return bytes(() -> assertThat(choice.of("none", List.of(), 0)).isPresent());
        });
  }

  @Test
  void anExampleOfTheCorpusHearsTheKeyOfItsSoloOnce() {
    ExampleChoice choice = choice(SoloLine.NONE);
    assertAboutLinear(
        line -> {
          List<ExampleChoice.CorpusSolo> corpus =
              List.of(
                  new ExampleChoice.CorpusSolo(
                      facts("of the corpus", line.bars().size()), LessonLine.of(line)));
          return bytes(() -> assertThat(choice.of("none", corpus, 0)).isPresent());
        });
  }

  private static ExampleChoice choice(SoloLine line) {
    return new ExampleChoice(
        List.of(
            new StudentSolo(
                facts("of the student", line.bars().size()), Map.of(), Map.of(), line, List.of())),
        2);
  }

  /** Bytes that the second of two calls asks for: the first loads classes too. */
  private static long bytes(Runnable call) {
    assumeTrue(
        ManagementFactory.getThreadMXBean() instanceof com.sun.management.ThreadMXBean,
        "this Java does not tell what a thread asks for");
    com.sun.management.ThreadMXBean threads =
        (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    call.run();
    long before = threads.getCurrentThreadAllocatedBytes();
    call.run();
    return threads.getCurrentThreadAllocatedBytes() - before;
  }
}
