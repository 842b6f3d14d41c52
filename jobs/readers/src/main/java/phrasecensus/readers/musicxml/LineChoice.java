package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import phrasecensus.music.time.Fraction;

/**
 * Which voice of a part makes the line (our own rule).
 *
 * <p>First the voice that strikes most often, a stack counting half and only once; of equals the
 * lowest label. Another voice goes before it when it sounds for at least half as long and either is
 * mostly single notes and lies above it wherever the two sound together, with a sixth of its onsets
 * or more: a tune over an accompaniment; or stands on a staff above it, with half of its onsets or
 * more.
 *
 * @param byStaff true when voices are told apart by staff too, as one label stands on two staves
 * @param key voice, with its staff where {@code byStaff}
 * @param reason why, in a sentence; empty where there is one voice only
 */
record LineChoice(boolean byStaff, String key, String reason) {
  private static final int PART_OF_ONSETS_ABOVE = 6;
  private static final int PART_OF_ONSETS_UPPER_STAFF = 2;
  private static final int PART_OF_TIME = 2;
  private static final double ABOVE = 0.9;

  static LineChoice of(PartReading part) {
    boolean byStaff = part.staves() > 1 && voiceStandsOnTwoStavesAtOnce(part);
    Set<String> pitched = new HashSet<>();
    Map<String, Integer> others = new HashMap<>();
    String last = null;
    for (NoteReading note : part.notes()) {
      if (!note.grace() && note.isMelody()) {
        String key = key(note, byStaff);
        if (!note.isPitched()) {
          others.merge(key, 1, Integer::sum);
        } else if (!key.equals(last)) {
          pitched.add(key);
          last = key;
        }
      }
    }
    if (pitched.size() == 1) {
      return new LineChoice(byStaff, pitched.iterator().next(), "");
    }
    if (pitched.isEmpty()) {
      String most =
          others.keySet().stream()
              .min(
                  Comparator.<String>comparingInt(key -> -others.get(key))
                      .thenComparing(LineChoice::compareLabels))
              .orElse("1");
      return new LineChoice(byStaff, most, "");
    }
    return ofSeveral(part, byStaff);
  }

  boolean holds(NoteReading note) {
    return key(note, byStaff).equals(key);
  }

  /** The voice's label in the file. */
  String voice() {
    return byStaff ? key.substring(0, key.lastIndexOf('/')) : key;
  }

  private static String voice(NoteReading note) {
    return note.voice().isEmpty() ? "1" : note.voice();
  }

  private static String key(NoteReading note, boolean byStaff) {
    return byStaff ? voice(note) + "/" + note.staff() : voice(note);
  }

  private static boolean voiceStandsOnTwoStavesAtOnce(PartReading part) {
    record Moment(String voice, int bar, Fraction offset) {}
    Map<Moment, Integer> staves = new HashMap<>();
    for (NoteReading note : part.notes()) {
      if (!note.grace() && !note.stacked()) {
        Integer staff =
            staves.put(new Moment(voice(note), note.bar(), note.offset()), note.staff());
        if (staff != null && staff != note.staff()) {
          return true;
        }
      }
    }
    return false;
  }

  /** Numbers by size, before words. */
  private static int compareLabels(String first, String second) {
    boolean firstIsNumber = first.matches("[0-9]{1,9}");
    boolean secondIsNumber = second.matches("[0-9]{1,9}");
    if (firstIsNumber && secondIsNumber) {
      int byNumber = Integer.compare(Integer.parseInt(first), Integer.parseInt(second));
      return byNumber != 0 ? byNumber : first.compareTo(second);
    }
    return firstIsNumber == secondIsNumber ? first.compareTo(second) : firstIsNumber ? -1 : 1;
  }

  /** One voice: what it strikes, in order of time. */
  private static final class Voice {
    private final String key;
    private final String label;
    private final TreeMap<Fraction, Struck> struck = new TreeMap<>();
    private final Map<Integer, Integer> onStaff = new TreeMap<>();
    private double weight;
    private int singles;
    private double time;
    private int staff;

    Voice(String key, String label) {
      this.key = key;
      this.label = label;
    }

    void add(NoteReading note, Fraction onset) {
      Struck before = struck.get(onset);
      Fraction end = onset.plus(note.length());
      int midi = note.concert().midi();
      struck.put(
          onset,
          before == null
              ? new Struck(end, midi, 1)
              : new Struck(
                  Fraction.larger(end, before.end()),
                  Math.max(midi, before.top()),
                  before.notes() + 1));
      onStaff.merge(note.staff(), 1, Integer::sum);
    }

    void measure() {
      Fraction reached = Fraction.ZERO;
      for (Map.Entry<Fraction, Struck> entry : struck.entrySet()) {
        boolean single = entry.getValue().notes() == 1;
        weight += single ? 1 : 0.5;
        singles += single ? 1 : 0;
        Fraction from = Fraction.larger(reached, entry.getKey());
        if (entry.getValue().end().isAfter(from)) {
          time += entry.getValue().end().minus(from).toDouble();
          reached = entry.getValue().end();
        }
      }
      staff = Collections.max(onStaff.entrySet(), Map.Entry.comparingByValue()).getKey();
    }

    /**
     * True when it is higher, or at most touches, wherever it sounds as the other strikes, which
     * must happen.
     */
    boolean isAbove(Voice other) {
      int together = 0;
      int lower = 0;
      int higher = 0;
      for (Map.Entry<Fraction, Struck> theirs : other.struck.entrySet()) {
        Map.Entry<Fraction, Struck> mine = struck.floorEntry(theirs.getKey());
        if (mine != null && mine.getValue().end().isAfter(theirs.getKey())) {
          together++;
          int interval = mine.getValue().top() - theirs.getValue().top();
          lower += interval < 0 ? 1 : 0;
          higher += interval > 0 ? 1 : 0;
        }
      }
      return lower <= (1 - ABOVE) * together && higher > together / 2;
    }
  }

  private record Struck(Fraction end, int top, int notes) {}

  private static LineChoice ofSeveral(PartReading part, boolean byStaff) {
    Map<String, Voice> byKey = new HashMap<>();
    for (NoteReading note : part.notes()) {
      if (!note.grace() && note.isMelody() && note.isPitched()) {
        byKey
            .computeIfAbsent(key(note, byStaff), key -> new Voice(key, voice(note)))
            .add(note, part.onsetOf(note.bar()).plus(note.offset()));
      }
    }
    List<Voice> voices = new ArrayList<>(byKey.values());
    voices.forEach(Voice::measure);
    voices.sort(
        Comparator.<Voice>comparingDouble(voice -> -voice.weight)
            .thenComparing(voice -> voice.key, LineChoice::compareLabels));
    Voice line = voices.get(0);
    Voice passed = null;
    boolean above = false;
    for (int round = 0; round < voices.size(); round++) {
      Voice better = null;
      for (Voice voice : voices) {
        if (voice != line && better == null && goesBefore(voice, line)) {
          better = voice;
        }
      }
      if (better == null) {
        break;
      }
      passed = line;
      above = better.isAbove(line);
      line = better;
    }
    String name = name(part, line, byKey.size(), byStaff);
    String reason =
        passed == null
            ? "no other strikes more often"
            : above
                ? "it lies above " + name(part, passed, byKey.size(), byStaff)
                : "it stands on the upper of the staves and strikes nearly as often";
    return new LineChoice(byStaff, line.key, "Its line is " + name + ": " + reason + ".");
  }

  private static boolean goesBefore(Voice voice, Voice line) {
    if (voice.time * PART_OF_TIME < line.time) {
      return false;
    }
    int onsets = voice.struck.size();
    boolean upper =
        voice.staff < line.staff && onsets * PART_OF_ONSETS_UPPER_STAFF >= line.struck.size();
    boolean tune =
        2 * voice.singles >= onsets
            && onsets * PART_OF_ONSETS_ABOVE >= line.struck.size()
            && voice.isAbove(line);
    return tune && voice.staff <= line.staff || upper && !line.isAbove(voice);
  }

  private static String name(PartReading part, Voice voice, int voices, boolean byStaff) {
    String staff =
        part.staves() == 1
            ? ""
            : part.staves() > 2
                ? "staff " + voice.staff
                : voice.staff == 1 ? "the upper staff" : "the lower staff";
    if (staff.isEmpty()) {
      return "voice " + voice.label;
    }
    return voices == 2 || byStaff && voices == part.staves()
        ? staff
        : staff + ", voice " + voice.label;
  }
}
