package phrasecensus.music.changes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * The changes of one chorus, bar by bar.
 *
 * @param bars in order; a bar without a chord goes on with the one before it
 */
public record Changes(List<List<Placed>> bars) {
  /** Slots to a bar in {@link #text}, the fewest that hold every chord. */
  private static final int[] SLOTS = {1, 2, 3, 4, 5, 6, 7, 8, 12, 16, 24};

  public Changes {
    bars = bars.stream().map(List::copyOf).toList();
  }

  /**
   * A chord in a bar.
   *
   * @param at where it begins, as a part of the bar: 0 on its first beat, 1/2 in its middle
   * @param chord never null; one without a root for N.C.
   */
  public record Placed(Fraction at, Chord chord) {}

  /** The changes of a lead sheet, as they sound; its pickup is left out. */
  public static Changes of(Solo leadSheet) {
    List<List<Placed>> bars = new ArrayList<>();
    for (Bar bar : fullBars(leadSheet)) {
      List<Placed> chords = new ArrayList<>();
      for (ChordSpan span : leadSheet.chords()) {
        if (span.onset().isBefore(bar.end()) && span.end().isAfter(bar.onset())) {
          boolean begins = span.onset().isAtLeast(bar.onset());
          if (begins || chords.isEmpty() && bars.isEmpty()) {
            chords.add(
                new Placed(
                    begins
                        ? span.onset().minus(bar.onset()).dividedBy(bar.length())
                        : Fraction.ZERO,
                    span.concert()));
          }
        }
      }
      bars.add(chords);
    }
    return new Changes(bars);
  }

  static List<Bar> fullBars(Solo solo) {
    return solo.bars().stream().filter(bar -> !bar.pickup() && bar.length().isPositive()).toList();
  }

  /** How many of them hold a chord that is one. */
  public boolean isEmpty() {
    return bars.stream().allMatch(List::isEmpty);
  }

  /**
   * As text: bars parted by {@code |}, each in slots of equal length that hold a chord symbol or go
   * on with {@code /}. Chords that no 24th of the bar tells apart move to the slot before.
   */
  public String text() {
    List<String> texts = new ArrayList<>();
    for (List<Placed> bar : bars) {
      int slots = slots(bar);
      String[] words = new String[slots];
      java.util.Arrays.fill(words, "/");
      for (Placed placed : bar) {
        words[(int) placed.at().times(slots).floor()] = placed.chord().symbol().replace(" ", ",");
      }
      texts.add(bar.isEmpty() ? "%" : String.join(" ", words));
    }
    return String.join(" | ", texts);
  }

  private static int slots(List<Placed> bar) {
    for (int slots : SLOTS) {
      int count = slots;
      if (bar.stream().allMatch(placed -> placed.at().times(count).isWhole())) {
        return slots;
      }
    }
    return SLOTS[SLOTS.length - 1];
  }

  /** The same changes at another pitch. */
  public Changes moved(Transposition interval) {
    return new Changes(
        bars.stream()
            .map(
                bar ->
                    bar.stream()
                        .map(placed -> new Placed(placed.at(), placed.chord().sounding(interval)))
                        .toList())
            .toList());
  }

  /**
   * A solo over these changes as they sound, chorus after chorus from its first full bar; chords
   * that it has are left out.
   */
  public Solo under(Solo solo) {
    Transposition toWritten = transposition(solo).inverse();
    List<Fraction> onsets = new ArrayList<>();
    List<Chord> chords = new ArrayList<>();
    int index = 0;
    for (Bar bar : fullBars(solo)) {
      for (Placed placed : bars.get(index % bars.size())) {
        onsets.add(bar.onset().plus(bar.length().times(placed.at())));
        chords.add(placed.chord());
      }
      index++;
    }
    List<ChordSpan> spans = new ArrayList<>();
    for (int i = 0; i < onsets.size(); i++) {
      Fraction end = i + 1 < onsets.size() ? onsets.get(i + 1) : solo.length();
      spans.add(
          new ChordSpan(onsets.get(i), end, chords.get(i), chords.get(i).sounding(toWritten), ""));
    }
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        solo.graceNotes(),
        spans,
        solo.keys(),
        solo.tempi(),
        solo.marks(),
        solo.unknownSpans(),
        solo.unpitchedOnsets());
  }

  /** From what the player reads to what sounds, told by the first note, else by the signature. */
  public static Transposition transposition(Solo solo) {
    Optional<Note> note = solo.notes().stream().findFirst();
    if (note.isPresent()) {
      return new Transposition(
          note.get().concert().staffSteps() - note.get().written().staffSteps(),
          note.get().concert().midi() - note.get().written().midi(),
          0);
    }
    return solo.keys().stream()
        .filter(key -> key.concertFifths() != null && key.writtenFifths() != null)
        .findFirst()
        .map(
            key -> {
              int semitones = 7 * (key.concertFifths() - key.writtenFifths()) % 12;
              return new Transposition(Transposition.diatonicFor(semitones), semitones, 0);
            })
        .orElse(Transposition.NONE);
  }
}
