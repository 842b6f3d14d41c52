package phrasecensus.composer.line;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.composer.harmony.ChordSymbol;
import phrasecensus.composer.harmony.Key;
import phrasecensus.composer.harmony.NoteName;

/**
 * Names tones: chord and scale notes as the chord names them, the rest by where they go, so that a
 * note on its way up is a raised one and on its way down a lowered one.
 */
final class Speller {
  private Speller() {}

  /**
   * Names every tone.
   *
   * @param tones tones in order
   * @param hearings what the player hears in each phrase, by index of the phrase
   * @param key key of the tune
   */
  static List<Tone> spelled(List<Tone> tones, List<Changes> hearings, Key key) {
    List<Tone> named = new ArrayList<>(tones);
    for (int i = tones.size() - 1; i >= 0; i--) {
      Tone tone = tones.get(i);
      Tone next = i + 1 < tones.size() ? named.get(i + 1) : null;
      named.set(i, tone.spelled(name(tone, next, hearings.get(tone.phrase()), key)));
    }
    return named;
  }

  private static NoteName name(Tone tone, Tone next, Changes changes, Key key) {
    int pitchClass = Math.floorMod(tone.midi(), 12);
    Changes.Span span = changes.of(tone.onset(), tone.length());
    ChordSymbol chord = span.heard();
    for (int offset : chord.core()) {
      NoteName name = chord.root().up(offset);
      if (name.pitchClass() == pitchClass) {
        return name.readable();
      }
    }
    boolean leads = next != null && next.phrase() == tone.phrase();
    if (leads && next.midi() == tone.midi()) {
      return next.name();
    }
    NoteName inScale = span.scale().name(pitchClass);
    if (inScale != null) {
      return plain(inScale, key);
    }
    int step = leads ? next.midi() - tone.midi() : 0;
    if (step == 1) {
      return plain(next.name().up(5), key);
    }
    if (step == -1) {
      return plain(next.name().up(-5), key);
    }
    return nearKey(pitchClass, key);
  }

  /** Avoids names few readers expect: no C flat or E sharp and their like outside such keys. */
  private static NoteName plain(NoteName name, Key key) {
    NoteName readable = name.readable();
    int centre = key.fifths() + 2;
    int place = readable.fifths();
    if (place < centre - 7 || place > centre + 8) {
      return nearKey(readable.pitchClass(), key);
    }
    return readable;
  }

  static NoteName nearKey(int pitchClass, Key key) {
    int lowest = key.fifths() - 4;
    for (int place = lowest; place < lowest + 12; place++) {
      NoteName name = new NoteName(place);
      if (name.pitchClass() == pitchClass) {
        return name.readable();
      }
    }
    throw new IllegalArgumentException("Invalid pitch class: " + pitchClass);
  }
}
