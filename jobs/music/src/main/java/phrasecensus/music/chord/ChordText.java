package phrasecensus.music.chord;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Step;

/**
 * Reads chord symbols in the spelling of {@link Chord#symbol()} back. The spelling does not tell an
 * altered degree from an added one; the pitch classes do.
 */
public final class ChordText {
  private static final Pattern NAME = Pattern.compile("[A-G](?:♯+|♭+)?");
  private static final Pattern BASS = Pattern.compile("/([A-G](?:♯+|♭+)?)$");
  private static final Pattern ALTERATIONS = Pattern.compile("\\(([^()]*)\\)$");
  private static final Pattern ALTERATION = Pattern.compile("(add|no|♯+|♭+)?([0-9]{1,2})");

  /** No chord of music has eight alterations; a damaged file may have any number. */
  private static final int MOST_READINGS = 256;

  private ChordText() {}

  /**
   * The chord of a symbol.
   *
   * @param symbol as {@link Chord#symbol()} spells it
   * @param kind MusicXML's word for its kind, which tells where the root ends
   * @param pitchClasses those of {@link Chord#pitchClasses()}
   * @return empty when the symbol is no such spelling
   */
  public static Optional<Chord> chord(String symbol, String kind, List<Integer> pitchClasses) {
    Optional<ChordKind> named = ChordKind.named(kind);
    if (named.isEmpty()) {
      return Optional.empty();
    }
    if (named.get() == ChordKind.NONE) {
      return Optional.of(new Chord(null, ChordKind.NONE, List.of(), null));
    }
    Matcher root = NAME.matcher(symbol);
    if (!root.lookingAt()) {
      return Optional.empty();
    }
    String tail = symbol.substring(root.end());
    Matcher low = BASS.matcher(tail);
    boolean hasBass = low.find();
    NoteName bass = hasBass ? name(low.group(1)) : null;
    String rest = hasBass ? tail.substring(0, low.start()) : tail;
    Optional<Chord> plain = plain(name(root.group()), rest, named.get(), bass, pitchClasses);
    if (plain.isPresent()) {
      return plain;
    }
    return ChordSuffix.read(rest)
        .map(suffix -> new Chord(name(root.group()), suffix.kind(), suffix.alterations(), bass))
        .filter(chord -> chord.pitchClasses().equals(pitchClasses))
        .or(() -> unread(name(root.group()), rest, named.get(), bass));
  }

  private static Optional<Chord> unread(
      NoteName root, String suffix, ChordKind kind, NoteName bass) {
    return kind == ChordKind.OTHER
        ? Optional.of(Chord.unread(root, suffix.equals("?") ? "" : suffix, bass))
        : Optional.empty();
  }

  /** The chord of a symbol that has the suffix of its kind, then changed degrees in brackets. */
  private static Optional<Chord> plain(
      NoteName root, String suffix, ChordKind kind, NoteName bass, List<Integer> pitchClasses) {
    if (!suffix.startsWith(kind.suffix())) {
      return Optional.empty();
    }
    String rest = suffix.substring(kind.suffix().length());
    List<List<ChordAlteration>> readings = List.of(List.of());
    Matcher changed = ALTERATIONS.matcher(rest);
    if (changed.matches()) {
      for (String each : changed.group(1).split(" ")) {
        Matcher alteration = ALTERATION.matcher(each);
        if (!alteration.matches()) {
          return Optional.empty();
        }
        List<ChordAlteration> choices = alterations(alteration, kind);
        boolean many = readings.size() * choices.size() > MOST_READINGS;
        readings = longer(readings, many ? choices.subList(0, 1) : choices);
      }
    } else if (!rest.isEmpty()) {
      return Optional.empty();
    }
    List<Chord> chords = new ArrayList<>();
    for (List<ChordAlteration> reading : readings) {
      chords.add(new Chord(root, kind, reading, bass));
    }
    return chords.stream()
        .filter(chord -> chord.pitchClasses().equals(pitchClasses))
        .findFirst()
        .or(() -> Optional.of(chords.get(0)));
  }

  /** What a sign before a degree may mean, the likelier first. */
  private static List<ChordAlteration> alterations(Matcher parts, ChordKind kind) {
    String sign = parts.group(1) == null ? "" : parts.group(1);
    int value = Integer.parseInt(parts.group(2));
    if (sign.equals("no")) {
      return List.of(new ChordAlteration(ChordAlteration.Type.SUBTRACT, value, 0));
    }
    if (sign.equals("add")) {
      return List.of(new ChordAlteration(ChordAlteration.Type.ADD, value, 0));
    }
    int alter = sign.startsWith("♭") ? -sign.length() : sign.length();
    ChordAlteration altered = new ChordAlteration(ChordAlteration.Type.ALTER, value, alter);
    ChordAlteration added = new ChordAlteration(ChordAlteration.Type.ADD, value, alter);
    return sign.isEmpty()
        ? List.of(altered)
        : kind.hasDegree(value) ? List.of(altered, added) : List.of(added, altered);
  }

  private static List<List<ChordAlteration>> longer(
      List<List<ChordAlteration>> readings, List<ChordAlteration> choices) {
    List<List<ChordAlteration>> longer = new ArrayList<>();
    for (List<ChordAlteration> reading : readings) {
      for (ChordAlteration choice : choices) {
        List<ChordAlteration> next = new ArrayList<>(reading);
        next.add(choice);
        longer.add(next);
      }
    }
    return longer;
  }

  private static NoteName name(String text) {
    int alter = text.length() - 1;
    return new NoteName(Step.valueOf(text.substring(0, 1)), text.indexOf('♭') > 0 ? -alter : alter);
  }
}
