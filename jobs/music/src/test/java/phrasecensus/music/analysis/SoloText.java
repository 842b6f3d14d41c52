package phrasecensus.music.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordAlteration;
import phrasecensus.music.chord.ChordKind;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.time.Fraction;

/** Solos for tests, written as short text. */
public final class SoloText {
  private static final Map<String, ChordKind> KINDS =
      Map.ofEntries(
          Map.entry("", ChordKind.MAJOR),
          Map.entry("6", ChordKind.MAJOR_SIXTH),
          Map.entry("maj7", ChordKind.MAJOR_SEVENTH),
          Map.entry("7", ChordKind.DOMINANT),
          Map.entry("9", ChordKind.DOMINANT_NINTH),
          Map.entry("+", ChordKind.AUGMENTED),
          Map.entry("m", ChordKind.MINOR),
          Map.entry("m6", ChordKind.MINOR_SIXTH),
          Map.entry("m7", ChordKind.MINOR_SEVENTH),
          Map.entry("mmaj7", ChordKind.MAJOR_MINOR),
          Map.entry("m7b5", ChordKind.HALF_DIMINISHED),
          Map.entry("o7", ChordKind.DIMINISHED_SEVENTH),
          Map.entry("dim", ChordKind.DIMINISHED),
          Map.entry("maj9", ChordKind.MAJOR_NINTH),
          Map.entry("m9", ChordKind.MINOR_NINTH),
          Map.entry("m11", ChordKind.MINOR_11TH),
          Map.entry("13", ChordKind.DOMINANT_13TH),
          Map.entry("+7", ChordKind.AUGMENTED_SEVENTH),
          Map.entry("sus4", ChordKind.SUSPENDED_FOURTH),
          Map.entry("sus2", ChordKind.SUSPENDED_SECOND),
          Map.entry("5", ChordKind.POWER),
          Map.entry("Tristan", ChordKind.TRISTAN));

  private SoloText() {}

  /**
   * A solo.
   *
   * @param metre of all bars
   * @param bars how many
   * @param notes as {@code onset:pitch:length}, parted by spaces, in quarters: {@code 3/2:Eb4:1/2}
   * @param chords as {@code onset:symbol}, each holding to the next or the end: {@code 0:Dm7 4:NC}
   */
  public static Solo solo(Metre metre, int bars, String notes, String chords) {
    return solo(metre, bars, Fraction.ZERO, notes, chords);
  }

  /** The same with a pickup of a length before the full bars; onsets count from its start. */
  public static Solo solo(Metre metre, int bars, Fraction pickup, String notes, String chords) {
    List<Bar> made = new ArrayList<>();
    Fraction at = Fraction.ZERO;
    if (pickup.isPositive()) {
      made.add(new Bar(0, "0", at, pickup, metre, metre.barLength().minus(pickup), true));
      at = pickup;
    }
    Fraction length = metre.isFree() ? Fraction.of(4) : metre.barLength();
    for (int i = 0; i < bars; i++) {
      made.add(new Bar(made.size(), "" + (i + 1), at, length, metre, Fraction.ZERO, false));
      at = at.plus(length);
    }
    List<ChordSpan> spans = new ArrayList<>();
    String[] symbols = words(chords);
    for (int i = 0; i < symbols.length; i++) {
      String[] parts = symbols[i].split(":");
      Fraction end = i + 1 < symbols.length ? Fraction.parse(symbols[i + 1].split(":")[0]) : at;
      Chord chord = chord(parts[1]);
      spans.add(new ChordSpan(Fraction.parse(parts[0]), end, chord, chord, parts[1]));
    }
    List<Note> line = new ArrayList<>();
    for (String word : words(notes)) {
      String[] parts = word.split(":");
      Fraction onset = Fraction.parse(parts[0]);
      int barIndex = 0;
      while (barIndex + 1 < made.size() && !made.get(barIndex + 1).onset().isAfter(onset)) {
        barIndex++;
      }
      line.add(Note.plain(line.size(), onset, Fraction.parse(parts[2]), pitch(parts[1]), barIndex));
    }
    return new Solo(
        new SoloDescription("", Map.of(), Map.of(), "P1", "", "", "only part", "same part"),
        made,
        line,
        List.of(),
        spans,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  private static String[] words(String text) {
    return text.isBlank() ? new String[0] : text.trim().split("\\s+");
  }

  /** A pitch as in {@code Eb4}, {@code F#5}. */
  public static Pitch pitch(String text) {
    NoteName name = name(text.substring(0, text.length() - 1));
    return Pitch.of(name.step(), name.alter(), text.charAt(text.length() - 1) - '0');
  }

  /** A note name as in {@code Bb}, {@code F#}. */
  public static NoteName name(String text) {
    int alter = 0;
    for (char sign : text.substring(1).toCharArray()) {
      alter += sign == '#' ? 1 : -1;
    }
    return new NoteName(Step.valueOf(text.substring(0, 1)), alter);
  }

  /** A chord as in {@code Bbm7}, {@code C7/E}, {@code NC}. */
  public static Chord chord(String text) {
    if (text.equals("NC")) {
      return new Chord(null, ChordKind.NONE, List.of(), null);
    }
    String[] parts = text.split("/");
    int end = 1;
    while (end < parts[0].length() && "b#".indexOf(parts[0].charAt(end)) >= 0) {
      end++;
    }
    NoteName bass = parts.length > 1 ? name(parts[1]) : null;
    String rest = parts[0].substring(end);
    NoteName root = name(parts[0].substring(0, end));
    return rest.equals("7sus4")
        ? new Chord(
            root,
            ChordKind.SUSPENDED_FOURTH,
            List.of(new ChordAlteration(ChordAlteration.Type.ADD, 7, 0)),
            bass)
        : new Chord(root, KINDS.get(rest), List.of(), bass);
  }
}
