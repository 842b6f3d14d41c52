package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordAlteration;
import phrasecensus.music.chord.ChordKind;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Step;

/** Reads chord symbols that people type, as in {@code F#m7b5}, {@code Bb7(b9 #11)}, {@code C/E}. */
public final class ChordSymbolText {
  private static final Pattern SYMBOL =
      Pattern.compile("([A-G])([#b♯♭]{0,2})(.*?)(?:/([A-G])([#b♯♭]{0,2}))?");
  private static final Pattern LAST_ALTERATION =
      Pattern.compile("(.*?)[(\\s,]*(add|no)?([#b♯♭+-]?)(13|11|9|6|5|4|3|2)[)\\s]*");

  private ChordSymbolText() {}

  /** The chord of a symbol; empty when it is none. */
  public static Optional<Chord> chord(String text) {
    String symbol = text.strip();
    if (symbol.matches("(?i)n\\.? ?c\\.?")) {
      return Optional.of(new Chord(null, ChordKind.NONE, List.of(), null));
    }
    Matcher parts = SYMBOL.matcher(symbol);
    if (!parts.matches()) {
      return Optional.empty();
    }
    NoteName root = name(parts.group(1), parts.group(2));
    NoteName bass = parts.group(4) == null ? null : name(parts.group(4), parts.group(5));
    return content(parts.group(3).strip())
        .map(meaning -> new Chord(root, meaning.kind(), meaning.alterations(), bass));
  }

  private static NoteName name(String letter, String signs) {
    int alter = 0;
    for (char sign : signs.toCharArray()) {
      alter += sign == '#' || sign == '♯' ? 1 : -1;
    }
    return new NoteName(Step.valueOf(letter), alter);
  }

  /** Takes alterations off the end until what is left is a kind. */
  private static Optional<ForeignChordKinds.Meaning> content(String suffix) {
    List<ChordAlteration> further = new ArrayList<>();
    String left = suffix;
    while (true) {
      Optional<ForeignChordKinds.Meaning> kind = kind(left);
      if (kind.isPresent()) {
        List<ChordAlteration> all = new ArrayList<>(kind.get().alterations());
        for (ChordAlteration alteration : further) {
          all.add(fitted(alteration, kind.get().kind()));
        }
        return Optional.of(new ForeignChordKinds.Meaning(kind.get().kind(), all));
      }
      Matcher last = LAST_ALTERATION.matcher(left);
      if (left.isEmpty() || !last.matches() || last.group(1).equals(left)) {
        return Optional.empty();
      }
      further.add(0, alteration(last.group(2), last.group(3), Integer.parseInt(last.group(4))));
      left = last.group(1).strip();
    }
  }

  private static ChordAlteration alteration(String word, String sign, int degree) {
    int alter =
        switch (sign) {
          case "#", "♯", "+" -> 1;
          case "b", "♭", "-" -> -1;
          default -> 0;
        };
    return new ChordAlteration(
        "no".equals(word) ? ChordAlteration.Type.SUBTRACT : ChordAlteration.Type.ADD,
        degree,
        alter);
  }

  /** A degree that the kind has is altered, any other is added. */
  private static ChordAlteration fitted(ChordAlteration alteration, ChordKind kind) {
    return alteration.type() == ChordAlteration.Type.ADD && kind.hasDegree(alteration.value())
        ? new ChordAlteration(ChordAlteration.Type.ALTER, alteration.value(), alteration.alter())
        : alteration;
  }

  private static Optional<ForeignChordKinds.Meaning> kind(String suffix) {
    if (suffix.isEmpty()) {
      return Optional.of(new ForeignChordKinds.Meaning(ChordKind.MAJOR, List.of()));
    }
    for (ChordKind kind : ChordKind.values()) {
      if (!kind.suffix().isEmpty() && kind.suffix().equals(suffix)) {
        return Optional.of(new ForeignChordKinds.Meaning(kind, List.of()));
      }
    }
    if (suffix.equals("7alt") || suffix.equals("alt")) {
      return Optional.of(
          new ForeignChordKinds.Meaning(
              ChordKind.DOMINANT,
              List.of(
                  new ChordAlteration(ChordAlteration.Type.ALTER, 5, 1),
                  new ChordAlteration(ChordAlteration.Type.ADD, 9, -1),
                  new ChordAlteration(ChordAlteration.Type.ADD, 9, 1))));
    }
    return ForeignChordKinds.meaning(suffix);
  }
}
