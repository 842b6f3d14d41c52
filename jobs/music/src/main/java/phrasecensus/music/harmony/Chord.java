package phrasecensus.music.harmony;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;

/**
 * A chord as its symbol names it. Two chords are equal when root, kind, alterations and bass are.
 *
 * <p>Core chord tones are the degrees 1 3 5 7 of the symbol, a sixth in place of the seventh in
 * sixth chords, a second or fourth in place of the third in suspended ones; tensions written in the
 * symbol belong to the chord but not to the core (common practice, no source).
 */
public final class Chord {
  /** Semitones above the root of an added degree: the dominant chord's own (MusicXML 4.0). */
  private static final int[] ADDED = {-1, 0, 2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19, 21};

  private static final String[] PLAIN_NAMES = {
    "1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"
  };

  private final NoteName root;
  private final ChordKind kind;
  private final List<ChordAlteration> alterations;
  private final NoteName bass;
  private final String symbol;

  private final boolean contentKnown;
  private final int pitchClassMask;
  private final int coreMask;
  private final int guideMask;
  private final String[] degreeNames = new String[12];

  /**
   * @param root null only for {@link ChordKind#NONE} and for symbols whose root could not be read
   * @param bass null when the symbol has none; it does not belong to the chord's content
   */
  public Chord(NoteName root, ChordKind kind, List<ChordAlteration> alterations, NoteName bass) {
    this.root = root;
    this.kind = kind;
    this.alterations = List.copyOf(alterations);
    this.bass = bass;
    boolean known = kind.isContentKnown() && root != null;
    int[] tones = new int[14];
    Arrays.fill(tones, Integer.MIN_VALUE);
    if (known) {
      tones[1] = 0;
      int third = kind.degreeSemitones(0);
      if (kind == ChordKind.SUSPENDED_SECOND) {
        tones[2] = third;
      } else if (kind == ChordKind.SUSPENDED_FOURTH) {
        tones[4] = third;
      } else {
        set(tones, 3, third);
      }
      set(tones, 5, kind.degreeSemitones(1));
      set(tones, kind.isSixth() ? 6 : 7, kind.degreeSemitones(2));
      set(tones, 9, kind.degreeSemitones(3));
      set(tones, 11, kind.degreeSemitones(4));
      set(tones, 13, kind.degreeSemitones(5));
    }
    List<int[]> extra = new ArrayList<>();
    if (root != null && (known || kind == ChordKind.OTHER)) {
      for (ChordAlteration alteration : this.alterations) {
        apply(alteration, tones, extra);
      }
    }
    int all = 0;
    int core = 0;
    int guide = 0;
    for (int value = 1; value <= 13; value++) {
      if (tones[value] != Integer.MIN_VALUE) {
        int semitones = Math.floorMod(tones[value], 12);
        all |= 1 << semitones;
        if (isCore(value, kind)) {
          core |= 1 << semitones;
          if (isGuide(value, kind, tones[7] != Integer.MIN_VALUE)) {
            guide |= 1 << semitones;
          }
        }
        degreeNames[semitones] = name(value, tones[value]);
      }
    }
    for (int[] tone : extra) {
      int semitones = Math.floorMod(tone[1], 12);
      all |= 1 << semitones;
      if (degreeNames[semitones] == null) {
        degreeNames[semitones] = name(tone[0], tone[1]);
      }
      if (tone[0] == 5 || tone[0] == 3 || tone[0] == 1 || tone[0] == 7) {
        core |= 1 << semitones;
      }
    }
    this.contentKnown = known && all != 0 || kind == ChordKind.OTHER && all != 0;
    this.pitchClassMask = all;
    this.coreMask = core;
    this.guideMask = guide;
    this.symbol = spell();
  }

  private static void set(int[] tones, int value, int semitones) {
    if (semitones >= 0) {
      tones[value] = semitones;
    }
  }

  private static void apply(ChordAlteration alteration, int[] tones, List<int[]> extra) {
    int value = alteration.value();
    if (value < 1 || value > 13) {
      return;
    }
    boolean present = tones[value] != Integer.MIN_VALUE;
    switch (alteration.type()) {
      case ADD -> addTone(tones, extra, value, ADDED[value] + alteration.alter());
      case ALTER -> {
        if (present) {
          tones[value] += alteration.alter();
        } else {
          // Exporters write alter for a degree that the kind lacks; read as an added one.
          addTone(tones, extra, value, ADDED[value] + alteration.alter());
        }
      }
      case SUBTRACT -> tones[value] = Integer.MIN_VALUE;
    }
  }

  private static void addTone(int[] tones, List<int[]> extra, int value, int semitones) {
    if (tones[value] == Integer.MIN_VALUE) {
      tones[value] = semitones;
    } else if (Math.floorMod(tones[value] - semitones, 12) != 0) {
      extra.add(new int[] {value, semitones});
    }
  }

  private static boolean isCore(int value, ChordKind kind) {
    return switch (value) {
      case 1, 3, 5, 7 -> true;
      case 6 -> kind.isSixth();
      case 2 -> kind == ChordKind.SUSPENDED_SECOND;
      case 4 -> kind == ChordKind.SUSPENDED_FOURTH;
      default -> false;
    };
  }

  /** Third and seventh, sixth in sixth chords, and the suspended fourth beside a seventh. */
  private static boolean isGuide(int value, ChordKind kind, boolean seventhPresent) {
    return switch (value) {
      case 3, 7 -> true;
      case 6 -> kind.isSixth();
      case 4 -> seventhPresent;
      default -> false;
    };
  }

  private static String name(int value, int semitones) {
    int natural = value == 7 ? 11 : ADDED[value];
    int alter = semitones - natural;
    return (alter < 0 ? "b".repeat(-alter) : "#".repeat(alter)) + value;
  }

  /** Root; null for no chord or an unreadable root. */
  public NoteName root() {
    return root;
  }

  public ChordKind kind() {
    return kind;
  }

  public List<ChordAlteration> alterations() {
    return alterations;
  }

  /** Bass named in the symbol; null when there is none. */
  public NoteName bass() {
    return bass;
  }

  /** True when the symbol says 'no chord' (N.C.). */
  public boolean isNone() {
    return kind == ChordKind.NONE;
  }

  /**
   * True when the pitches of the chord are known: a root and a kind with content in the standard, or
   * spelled by degrees. Without it no verdict is possible on a note.
   */
  public boolean isContentKnown() {
    return contentKnown;
  }

  /**
   * Pitch classes of the whole symbol without the bass, 0 (C) to 11, ascending from the root; empty
   * when unknown.
   */
  public List<Integer> pitchClasses() {
    return absolute(pitchClassMask);
  }

  /** Pitch classes of the core chord tones, ascending from the root; empty when unknown. */
  public List<Integer> corePitchClasses() {
    return absolute(coreMask);
  }

  /** Pitch classes of the guide tones, ascending from the root; may be empty. */
  public List<Integer> guidePitchClasses() {
    return absolute(guideMask);
  }

  private List<Integer> absolute(int mask) {
    if (root == null) {
      return List.of();
    }
    List<Integer> classes = new ArrayList<>();
    for (int semitones = 0; semitones < 12; semitones++) {
      if ((mask >> semitones & 1) == 1) {
        classes.add((root.pitchClass() + semitones) % 12);
      }
    }
    return classes;
  }

  /** What a note is over this chord; empty for no chord or unknown content. */
  public Optional<ChordDegree> degreeOf(Pitch pitch) {
    if (!contentKnown) {
      return Optional.empty();
    }
    int semitones = Math.floorMod(pitch.pitchClass() - root.pitchClass(), 12);
    if ((pitchClassMask >> semitones & 1) == 1) {
      ChordDegree.Role role =
          (guideMask >> semitones & 1) == 1
              ? ChordDegree.Role.GUIDE_TONE
              : (coreMask >> semitones & 1) == 1
                  ? ChordDegree.Role.CHORD_TONE
                  : ChordDegree.Role.WRITTEN_TENSION;
      return Optional.of(new ChordDegree(semitones, degreeNames[semitones], role));
    }
    return Optional.of(
        new ChordDegree(
            semitones, freeName(semitones, pitch), ChordDegree.Role.NOT_IN_CHORD));
  }

  /** Names a note that the symbol lacks: by the chord's third and, where two names are usual, the spelling. */
  private String freeName(int semitones, Pitch pitch) {
    int letters = Math.floorMod(pitch.step().ordinal() - root.step().ordinal(), 7);
    return switch (semitones) {
      case 3 -> has(4) ? "#9" : "b3";
      case 4 -> "3";
      case 6 -> letters == 4 ? "b5" : "#11";
      case 8 -> letters == 4 ? "#5" : "b13";
      default -> PLAIN_NAMES[semitones];
    };
  }

  private boolean has(int semitones) {
    return (pitchClassMask >> semitones & 1) == 1;
  }

  /** The same chord with root and bass moved from written to sounding. */
  public Chord sounding(Transposition transposition) {
    if (transposition.fifths() == 0) {
      return this;
    }
    return new Chord(
        root == null ? null : transposition.sounding(root),
        kind,
        alterations,
        bass == null ? null : transposition.sounding(bass));
  }

  private String spell() {
    if (isNone()) {
      return "N.C.";
    }
    StringBuilder text = new StringBuilder(root == null ? "?" : root.toString());
    text.append(kind.suffix());
    if (!alterations.isEmpty()) {
      text.append(
          alterations.stream()
              .map(
                  a -> {
                    String sign =
                        a.alter() == 0
                            ? ""
                            : (a.alter() < 0 ? "♭" : "♯").repeat(Math.abs(a.alter()));
                    return switch (a.type()) {
                      case ADD -> (a.alter() == 0 ? "add" : sign) + a.value();
                      case ALTER -> sign + a.value();
                      case SUBTRACT -> "no" + a.value();
                    };
                  })
              .collect(Collectors.joining(" ", "(", ")")));
    }
    if (bass != null) {
      text.append('/').append(bass);
    }
    return text.toString();
  }

  /** The chord symbol in our own uniform spelling, as in {@code B♭m7} or {@code C7(♭9)/E}. */
  public String symbol() {
    return symbol;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Chord chord
        && Objects.equals(root, chord.root)
        && kind == chord.kind
        && alterations.equals(chord.alterations)
        && Objects.equals(bass, chord.bass);
  }

  @Override
  public int hashCode() {
    return Objects.hash(root, kind.name(), alterations, bass);
  }

  @Override
  public String toString() {
    return symbol;
  }
}
