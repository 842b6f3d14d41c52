package phrasecensus.music.chord;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;

/**
 * A chord as its symbol names it. Two chords are equal when root, kind, alterations and bass are,
 * and for a quality that could not be read its text.
 *
 * <p>Core chord tones are the degrees 1 3 5 7 of the symbol, a sixth in place of the seventh in
 * sixth chords, a second or fourth in place of the third in suspended ones; tensions written in the
 * symbol belong to the chord but not to the core (common practice, no source).
 */
public final class Chord {
  /** Semitones above the root of an added degree: the dominant chord's own (MusicXML 4.0). */
  private static final int[] ADDED = {-1, 0, 2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19, 21};

  private static final int ABSENT = Integer.MIN_VALUE;

  /** Degrees of notes that a symbol lacks, by semitones, under their usual names. */
  private static final ChordDegree[] FREE = {
    free(0, "1"), free(1, "b9"), free(2, "9"), free(3, "b3"), free(4, "3"), free(5, "11"),
    free(6, "#11"), free(7, "5"), free(8, "b13"), free(9, "13"), free(10, "b7"), free(11, "7")
  };

  private static final ChordDegree SHARP_NINTH = free(3, "#9");
  private static final ChordDegree FLAT_FIFTH = free(6, "b5");
  private static final ChordDegree SHARP_FIFTH = free(8, "#5");
  private static final ChordDegree NATURAL_THIRD = free(4, "n3");
  private static final ChordDegree NATURAL_FIFTH = free(7, "n5");
  private static final ChordDegree NATURAL_SEVENTH = free(11, "n7");
  private static final ChordDegree SIXTH = free(9, "6");
  private static final ChordDegree DIMINISHED_SEVENTH = free(9, "bb7");

  private final NoteName root;
  private final ChordKind kind;
  private final List<ChordAlteration> alterations;
  private final NoteName bass;
  private final String text;
  private final String symbol;

  private final boolean contentKnown;
  private final int pitchClassMask;
  private final int coreMask;
  private final int guideMask;
  private final ChordDegree[] written = new ChordDegree[12];
  private final ChordDegree freeThird;
  private final ChordDegree freeSixth;
  private final ChordClass chordClass;
  private final boolean third;

  /**
   * @param root null only for {@link ChordKind#NONE} and for symbols whose root could not be read
   * @param bass null when the symbol has none; it does not belong to the chord's content
   */
  public Chord(NoteName root, ChordKind kind, List<ChordAlteration> alterations, NoteName bass) {
    this(root, kind, alterations, bass, "");
  }

  /**
   * A chord whose quality could not be read.
   *
   * @param root null when it could not be read either
   * @param text what stands after the root, to be shown as it is
   */
  public static Chord unread(NoteName root, String text, NoteName bass) {
    return new Chord(root, ChordKind.OTHER, List.of(), bass, text);
  }

  private Chord(
      NoteName root,
      ChordKind kind,
      List<ChordAlteration> alterations,
      NoteName bass,
      String text) {
    this.text = text;
    this.root = root;
    this.kind = kind;
    this.alterations = List.copyOf(alterations);
    this.bass = bass;
    int[] own = ownTones(kind);
    int[] tones = own.clone();
    List<int[]> extra = List.of();
    boolean known =
        root != null
            && kind.isContentKnown()
            && (kind != ChordKind.OTHER || !this.alterations.isEmpty());
    if (known && !this.alterations.isEmpty()) {
      extra = new ArrayList<>();
      boolean[] altered = new boolean[14];
      for (ChordAlteration alteration : this.alterations) {
        apply(alteration, own, altered, tones, extra);
      }
    }
    this.third = known && tones[3] != ABSENT;
    boolean seventh = tones[7] != ABSENT;
    boolean fourth = tones[4] != ABSENT;
    int all = 0;
    int core = 0;
    int guide = 0;
    for (int value = 1; known && value <= 13; value++) {
      if (tones[value] == ABSENT) {
        continue;
      }
      int semitones = Math.floorMod(tones[value], 12);
      boolean isCore =
          switch (value) {
            case 1, 3, 5, 7 -> true;
            case 6 -> !seventh || kind.isSixth();
            case 4 -> !third;
            case 2 -> !third && !fourth;
            default -> false;
          };
      boolean isGuide =
          switch (value) {
            case 3, 7 -> true;
            case 6 -> isCore;
            case 4 -> isCore && seventh;
            default -> false;
          };
      boolean first = (all >> semitones & 1) == 0;
      all |= 1 << semitones;
      core |= isCore ? 1 << semitones : 0;
      guide |= isGuide ? 1 << semitones : 0;
      if (first || isCore) {
        written[semitones] =
            new ChordDegree(semitones, name(value, tones[value]), role(isCore, isGuide));
      }
    }
    for (int[] tone : extra) {
      int semitones = Math.floorMod(tone[1], 12);
      if ((all >> semitones & 1) == 0) {
        boolean isCore = tone[0] <= 7 && tone[0] % 2 == 1;
        all |= 1 << semitones;
        core |= isCore ? 1 << semitones : 0;
        written[semitones] =
            new ChordDegree(semitones, name(tone[0], tone[1]), role(isCore, false));
      }
    }
    // A symbol of another kind without degrees tells its root and nothing of its quality.
    boolean bareRoot = kind == ChordKind.OTHER && this.alterations.isEmpty();
    this.contentKnown = known && all != 0 && !bareRoot;
    this.pitchClassMask = all;
    this.coreMask = core;
    this.guideMask = guide;
    this.chordClass = contentKnown ? ChordClass.of(tones, ABSENT) : null;
    this.freeThird = (all >> 4 & 1) == 1 ? SHARP_NINTH : FREE[3];
    this.freeSixth = seventh ? FREE[9] : chordClass == ChordClass.DIM ? DIMINISHED_SEVENTH : SIXTH;
    this.symbol = spell();
  }

  private static ChordDegree free(int semitones, String name) {
    return new ChordDegree(semitones, name, ChordDegree.Role.NOT_IN_CHORD);
  }

  private static ChordDegree.Role role(boolean isCore, boolean isGuide) {
    return isGuide
        ? ChordDegree.Role.GUIDE_TONE
        : isCore ? ChordDegree.Role.CHORD_TONE : ChordDegree.Role.WRITTEN_TENSION;
  }

  /** Semitones above the root by degree number, as the kind alone has them. */
  private static int[] ownTones(ChordKind kind) {
    int[] tones = new int[14];
    Arrays.fill(tones, ABSENT);
    if (kind.isContentKnown()) {
      tones[1] = 0;
      int thirdPlace =
          switch (kind) {
            case SUSPENDED_SECOND -> 2;
            case SUSPENDED_FOURTH -> 4;
            default -> 3;
          };
      set(tones, thirdPlace, kind.degreeSemitones(0));
      set(tones, 5, kind.degreeSemitones(1));
      set(tones, kind.isSixth() ? 6 : 7, kind.degreeSemitones(2));
      set(tones, 9, kind.degreeSemitones(3));
      set(tones, 11, kind.degreeSemitones(4));
      set(tones, 13, kind.degreeSemitones(5));
    }
    return tones;
  }

  private static void set(int[] tones, int value, int semitones) {
    if (semitones >= 0) {
      tones[value] = semitones;
    }
  }

  private static void apply(
      ChordAlteration alteration, int[] own, boolean[] altered, int[] tones, List<int[]> extra) {
    int value = alteration.value();
    if (value < 1 || value > 13) {
      return;
    }
    switch (alteration.type()) {
      case ADD -> addTone(tones, extra, value, ADDED[value] + alteration.alter());
      case ALTER -> {
        if (own[value] == ABSENT) {
          // Exporters write alter for a degree that the kind lacks; read as an added one.
          addTone(tones, extra, value, ADDED[value] + alteration.alter());
        } else if (altered[value]) {
          // Flat and sharp fifth or ninth together: the second is a tone of its own.
          addTone(tones, extra, value, own[value] + alteration.alter());
        } else {
          tones[value] = own[value] + alteration.alter();
          altered[value] = true;
        }
      }
      case SUBTRACT -> tones[value] = ABSENT;
    }
  }

  private static void addTone(int[] tones, List<int[]> extra, int value, int semitones) {
    if (tones[value] == ABSENT) {
      tones[value] = semitones;
    } else if (Math.floorMod(tones[value] - semitones, 12) != 0) {
      extra.add(new int[] {value, semitones});
    }
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
   * True when the pitches of the chord are known: a root and a kind with content in the standard,
   * or spelled by degrees. Without it no verdict is possible on a note.
   */
  public boolean isContentKnown() {
    return contentKnown;
  }

  /**
   * Pitch classes of the whole symbol without the bass, 0 (C) to 11, ascending from the root; empty
   * when unknown; the root alone for {@link ChordKind#OTHER} without degrees.
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

  /** True when it has at least one guide tone. */
  public boolean hasGuideTones() {
    return root != null && guideMask != 0;
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

  /**
   * What a note is over this chord; empty for no chord or unknown content.
   *
   * <p>Tones of the symbol carry the symbol's name. Others are named by the chord: three semitones
   * are {@code #9} over a major third and {@code b3} otherwise, nine are {@code 13} over a seventh,
   * {@code 6} over a triad, {@code bb7} over a diminished one; and by their spelling where two
   * names are usual: {@code b5} or {@code #11}, {@code #5} or {@code b13} (common practice, no
   * source).
   */
  public Optional<ChordDegree> degreeOf(Pitch pitch) {
    if (!contentKnown) {
      return Optional.empty();
    }
    int semitones = Math.floorMod(pitch.pitchClass() - root.pitchClass(), 12);
    ChordDegree degree = written[semitones];
    return Optional.of(degree != null ? degree : freeDegree(semitones, pitch));
  }

  private ChordDegree freeDegree(int semitones, Pitch pitch) {
    return switch (semitones) {
      case 3 -> freeThird;
      case 4 -> hasOwn(3, "b3") ? NATURAL_THIRD : FREE[4];
      case 7 -> hasOwn(6, "b5") || hasOwn(8, "#5") ? NATURAL_FIFTH : FREE[7];
      case 11 -> hasOwn(10, "b7") || hasOwn(9, "bb7") ? NATURAL_SEVENTH : FREE[11];
      case 6 -> isFifthAbove(pitch) ? FLAT_FIFTH : FREE[6];
      case 8 -> isFifthAbove(pitch) ? SHARP_FIFTH : FREE[8];
      case 9 -> freeSixth;
      default -> FREE[semitones];
    };
  }

  /** True where the chord has a tone of its own that a free one must not be taken for. */
  private boolean hasOwn(int semitones, String name) {
    return written[semitones] != null && written[semitones].name().equals(name);
  }

  private boolean isFifthAbove(Pitch pitch) {
    return Math.floorMod(pitch.step().ordinal() - root.step().ordinal(), 7) == 4;
  }

  /** True when the pitch class, 0 to 11 concert, is the third of the chord. */
  public boolean isThird(int pitchClass) {
    return isNamed(pitchClass, "3", "b3");
  }

  /** True when the pitch class, 0 to 11 concert, is a minor or diminished seventh of the chord. */
  public boolean isFallingSeventh(int pitchClass) {
    return isNamed(pitchClass, "b7", "bb7");
  }

  private boolean isNamed(int pitchClass, String name, String otherName) {
    if (!contentKnown) {
      return false;
    }
    ChordDegree degree = written[Math.floorMod(pitchClass - root.pitchClass(), 12)];
    return degree != null && (degree.name().equals(name) || degree.name().equals(otherName));
  }

  /** True when the chord has a major or minor third. */
  public boolean hasThird() {
    return third;
  }

  /** What the chord does in a key; empty for no chord, unknown content, power chords and pedals. */
  public Optional<ChordClass> chordClass() {
    return Optional.ofNullable(chordClass);
  }

  /**
   * True when this chord is a change after another: another root or other pitch classes. A new bass
   * alone is none, and neither is the same symbol again.
   *
   * @param previous null before the first chord, and then nothing changes
   */
  public boolean isChangeFrom(Chord previous) {
    return previous != null
        && !isNone()
        && (previous.isNone()
            || contentKnown != previous.contentKnown
            || pitchClassMask != previous.pitchClassMask
            || !Objects.equals(root, previous.root) && !sameRootPitch(previous)
            || !contentKnown && kind != previous.kind);
  }

  private boolean sameRootPitch(Chord other) {
    return root != null && other.root != null && root.pitchClass() == other.root.pitchClass();
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
        bass == null ? null : transposition.sounding(bass),
        text);
  }

  /**
   * The same chord under the name that is easiest to read: its root as {@link NoteName#simplest}
   * has it, its bass moved along, without a double sharp or flat.
   */
  public Chord simplest() {
    if (root == null) {
      return this;
    }
    NoteName easy = root.simplest();
    NoteName low =
        bass == null
            ? null
            : NoteName.atFifths(bass.fifths() + easy.fifths() - root.fifths()).withoutDoubles();
    return easy.equals(root) && Objects.equals(low, bass)
        ? this
        : new Chord(easy, kind, alterations, low, text);
  }

  private String spell() {
    if (isNone()) {
      return "N.C.";
    }
    StringBuilder symbol = new StringBuilder(root == null ? "?" : root.toString());
    if (kind == ChordKind.OTHER && alterations.isEmpty()) {
      symbol.append(text.isEmpty() ? "?" : text);
    } else {
      symbol.append(ChordSpelling.suffix(kind, alterations));
    }
    if (bass != null) {
      symbol.append('/').append(bass);
    }
    return symbol.toString();
  }

  /**
   * The chord symbol in our own uniform spelling, as in {@code B♭m7} or {@code C7(♭9)/E}; of a
   * chord whose quality is unknown with the file's own text after the root, or with {@code ?}.
   */
  public String symbol() {
    return symbol;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Chord chord
        && Objects.equals(root, chord.root)
        && kind == chord.kind
        && alterations.equals(chord.alterations)
        && text.equals(chord.text)
        && Objects.equals(bass, chord.bass);
  }

  @Override
  public int hashCode() {
    return Objects.hash(root, kind.name(), alterations, bass, text);
  }

  @Override
  public String toString() {
    return symbol;
  }
}
