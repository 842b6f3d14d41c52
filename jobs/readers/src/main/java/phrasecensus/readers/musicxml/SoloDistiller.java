package phrasecensus.readers.musicxml;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.StaffSigns;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;
import phrasecensus.readers.Limit;
import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.musicxml.PartReading.ClefReading;
import phrasecensus.readers.musicxml.PartReading.KeyReading;
import phrasecensus.readers.musicxml.PartReading.Stretch;
import phrasecensus.readers.musicxml.PartReading.TempoReading;

/** Makes the solo out of everything read of a score: one part, one voice, one line. */
final class SoloDistiller {
  /** A solo and how many notes were left out of it. */
  record Distilled(Solo solo, int notesInStacks, int notesInOtherVoices) {}

  private final ScoreReading score;
  private final PartChoice choice;
  private final PartReading part;
  private final PlayedBars played;
  private final SoloLine line;
  private final ChordTimeline chords;

  private SoloDistiller(ScoreReading score, ReadSettings settings, ProblemLog problems) {
    this.score = score;
    this.choice = PartChoice.of(score.parts(), settings.preferredPart(), problems);
    this.part = choice.part();
    this.played = new PlayedBars(score, part, settings, problems);
    this.line = new SoloLine(part, played, problems);
    this.chords = new ChordTimeline(score, part, played, problems);
    ConcertPitchSuspicion.of(part.description(), line.notes()).ifPresent(problems::add);
  }

  /**
   * Makes the solo.
   *
   * @throws phrasecensus.readers.Refusal if unfolding gives more bars than the limit, or if times
   *     cannot be kept exactly
   */
  static Distilled distil(ScoreReading score, ReadSettings settings, ProblemLog problems) {
    Distilled distilled = new SoloDistiller(score, settings, problems).distilled();
    ExactTime.check(distilled.solo(), settings.limit(Limit.TIME_PARTS));
    return distilled;
  }

  private Distilled distilled() {
    Solo solo =
        new Solo(
            description(),
            barsWithSigns(),
            line.notes(),
            line.graceNotes(),
            chords.spans(),
            keys(),
            tempi(),
            new MarkTimeline(score, part, played, line).marks(),
            unknownSpans(),
            line.unpitchedOnsets());
    return new Distilled(solo, line.notesInStacks(), line.notesInOtherVoices());
  }

  /** Clefs hold from the bar in which they stand, or from the next one where they come late. */
  private List<Bar> barsWithSigns() {
    int staff = line.staff();
    String[] clefs = new String[part.bars().size() + 1];
    for (ClefReading clef : part.clefs()) {
      if (clef.staff() == staff) {
        clefs[clef.bar() + (clef.offset().isPositive() ? 1 : 0)] = clef.clef();
      }
    }
    List<StaffSigns> written = new ArrayList<>();
    String inForce = "";
    for (int i = 0; i < part.bars().size(); i++) {
      inForce = clefs[i] == null ? inForce : clefs[i];
      BarSigns signs = part.bars().get(i).signs();
      written.add(
          played.isAsWritten()
              ? new StaffSigns(
                  inForce,
                  signs.forwardRepeat(),
                  signs.backwardRepeat(),
                  signs.endingStart().stream().map(String::valueOf).collect(joining(", ")),
                  signs.endingStop())
              : new StaffSigns(inForce, false, false, "", false));
    }
    List<Bar> bars = new ArrayList<>();
    for (int at = 0; at < played.count(); at++) {
      bars.add(played.bar(at).with(written.get(played.written(at))));
    }
    return bars;
  }

  private List<KeyChange> keys() {
    int staff = line.staff();
    boolean own = part.keys().stream().anyMatch(key -> key.staff() == staff);
    List<KeyReading> read =
        part.keys().stream().filter(key -> key.staff() == (own ? staff : 1)).toList();
    List<KeyChange> keys = new ArrayList<>();
    this.<KeyReading>placed(
        read,
        KeyReading::bar,
        KeyReading::offset,
        (onset, key) -> {
          if (!keys.isEmpty() && keys.get(keys.size() - 1).onset().equals(onset)) {
            keys.remove(keys.size() - 1);
          }
          KeyChange change = new KeyChange(onset, key.concert(), key.written(), key.mode());
          KeyChange last = keys.isEmpty() ? null : keys.get(keys.size() - 1);
          if (last == null || !isSameKey(last, change)) {
            keys.add(change);
          }
        });
    return keys;
  }

  private static boolean isSameKey(KeyChange first, KeyChange second) {
    return first.concertFifths() != null
        && first.concertFifths().equals(second.concertFifths())
        && first.writtenFifths().equals(second.writtenFifths())
        && Objects.equals(first.mode(), second.mode());
  }

  private List<TempoChange> tempi() {
    List<TempoReading> read = part.tempi();
    if (read.isEmpty()) {
      read =
          score.parts().stream()
              .map(PartReading::tempi)
              .filter(tempi -> !tempi.isEmpty())
              .findFirst()
              .orElse(List.of());
    }
    // Where a sounding tempo and a printed one stand at one place, the sounding one counts.
    List<TempoReading> ordered = new ArrayList<>(read);
    ordered.sort(
        Comparator.comparingInt(TempoReading::bar)
            .thenComparing(TempoReading::offset)
            .thenComparing(TempoReading::sounded));
    List<TempoChange> tempi = new ArrayList<>();
    this.<TempoReading>placed(
        ordered,
        TempoReading::bar,
        TempoReading::offset,
        (onset, tempo) -> {
          if (!tempi.isEmpty() && tempi.get(tempi.size() - 1).onset().equals(onset)) {
            tempi.remove(tempi.size() - 1);
          }
          if (tempi.isEmpty()
              || tempi.get(tempi.size() - 1).quartersPerMinute() != tempo.quartersPerMinute()) {
            tempi.add(new TempoChange(onset, tempo.quartersPerMinute()));
          }
        });
    return tempi;
  }

  private interface AtOnset<T> {
    void accept(Fraction onset, T item);
  }

  /**
   * Gives every item at each onset where it is played, in order of onset; after a jump also the one
   * that was in force at the target as written.
   */
  private <T> void placed(
      List<T> items, Function<T, Integer> bar, Function<T, Fraction> offset, AtOnset<T> to) {
    Map<Integer, List<T>> byBar = new HashMap<>();
    items.forEach(item -> byBar.computeIfAbsent(bar.apply(item), b -> new ArrayList<>()).add(item));
    List<T> inForce = new ArrayList<>();
    T current = null;
    for (int i = 0; i < part.bars().size(); i++) {
      inForce.add(current);
      List<T> here = byBar.getOrDefault(i, List.of());
      current = here.isEmpty() ? current : here.get(here.size() - 1);
    }
    for (int at = 0; at < played.count(); at++) {
      int index = played.written(at);
      boolean jump = at > 0 && played.written(at - 1) != index - 1;
      if (jump && inForce.get(index) != null) {
        to.accept(played.bar(at).onset(), inForce.get(index));
      }
      for (T item : byBar.getOrDefault(index, List.of())) {
        to.accept(Fraction.larger(Fraction.ZERO, played.moment(at, offset.apply(item))), item);
      }
    }
  }

  private List<Span> unknownSpans() {
    List<Span> placed = new ArrayList<>();
    for (Stretch stretch : part.unknown()) {
      for (int at : played.playedAt(stretch.bar())) {
        Fraction onset = played.bar(at).onset();
        placed.add(new Span(onset.plus(stretch.offset()), onset.plus(stretch.end())));
      }
    }
    placed.addAll(line.slashHeads());
    placed.sort(Comparator.comparing(Span::onset));
    List<Span> joined = new ArrayList<>();
    for (Span span : placed) {
      Span last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (last != null && span.onset().compareTo(last.end()) <= 0) {
        joined.set(
            joined.size() - 1, new Span(last.onset(), Fraction.larger(last.end(), span.end())));
      } else {
        joined.add(span);
      }
    }
    return joined;
  }

  private SoloDescription description() {
    PartReading.PartDescription names = part.description();
    return new SoloDescription(
        score.title(),
        score.creators(),
        score.miscellaneous(),
        names.id(),
        names.name(),
        names.instrument().isEmpty() ? names.name() : names.instrument(),
        line.voice(),
        line.staff(),
        line.reason().isEmpty() ? choice.reason() : choice.reason() + " " + line.reason(),
        chords.sourceText());
  }
}
