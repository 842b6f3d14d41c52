package phrasecensus.readers.musicxml;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.Bass;
import org.audiveris.proxymusic.Degree;
import org.audiveris.proxymusic.Harmony;
import org.audiveris.proxymusic.HarmonyAlter;
import org.audiveris.proxymusic.Inversion;
import org.audiveris.proxymusic.Kind;
import org.audiveris.proxymusic.Numeral;
import org.audiveris.proxymusic.NumeralMode;
import org.audiveris.proxymusic.Root;
import org.audiveris.proxymusic.StyleText;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordAlteration;
import phrasecensus.music.chord.ChordKind;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Step;
import phrasecensus.readers.ProblemLog;

/** Reads {@code harmony} elements into chords, as written. */
final class ChordSymbols {
  /**
   * A chord with the file's words for it.
   *
   * @param goesOn true when it names no chord, so that the one before it goes on
   */
  record Symbol(Chord chord, boolean goesOn, String kindWord, String text) {}

  /** What is printed for 'no chord' (common practice, no source). */
  private static final Pattern NO_CHORD =
      Pattern.compile(
          "[(\\[]?\\s*(n\\s*[./]?\\s*c\\s*\\.?|no[ -]?chords?|none|tacet|kein akkord)\\s*[)\\]]?",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern BASS_IN_TEXT = Pattern.compile("/[A-G][#b♯♭]?$");
  private static final int[] MAJOR_SCALE = {0, 2, 4, -1, 1, 3, 5};
  private static final int[] MINOR_SCALE = {0, 2, -3, -1, 1, -4, -2};

  private final String part;
  private final ScoreStream stream;
  private final ProblemLog problems;
  private String bar = "";

  ChordSymbols(String part, ScoreStream stream, ProblemLog problems) {
    this.part = part;
    this.stream = stream;
    this.problems = problems;
  }

  /**
   * The chord of one element. Of several stacked chords the first counts.
   *
   * @param barNumber the file's text for the bar, for problems
   * @param keyFifths key signature in force, for numerals; null when there is none
   * @param keyMode its mode; null when the file has none
   */
  Symbol symbol(String barNumber, Harmony harmony, Integer keyFifths, String keyMode) {
    bar = barNumber;
    NoteName root = null;
    boolean rootSeen = false;
    String function = "";
    Object named = null;
    int groups = 0;
    ChordKind kind = null;
    String kindWord = "";
    String text = "";
    int inversion = 0;
    NoteName bass = null;
    boolean otherInWords = false;
    List<ChordAlteration> fromKind = List.of();
    List<ChordAlteration> alterations = new ArrayList<>();
    for (Object item : harmony.getHarmonyChord()) {
      if (item instanceof Root || item instanceof Numeral || item instanceof StyleText) {
        groups++;
        if (groups == 1) {
          rootSeen = true;
          function =
              item instanceof StyleText style
                  ? PlainText.of(style.getValue(), 40)
                  : item instanceof Numeral ? "a Roman numeral" : "";
          named = item;
        }
      } else if (item instanceof Kind element) {
        String foreign = element.getValue() == null ? stream.nextForeignKind() : null;
        if (kind == null && groups < 2) {
          text = PlainText.of(element.getText(), 60);
          if (foreign == null) {
            kindWord = element.getValue().value();
            kind = ChordKind.named(kindWord).orElse(ChordKind.OTHER);
            otherInWords = kind == ChordKind.OTHER;
          } else {
            kindWord = foreign;
            ForeignChordKinds.Meaning meaning = foreignKind(foreign, text);
            kind = meaning.kind();
            fromKind = meaning.alterations();
          }
        }
      } else if (groups < 2) {
        if (item instanceof Inversion element && element.getValue() != null) {
          inversion = element.getValue().intValue();
        } else if (item instanceof Bass element) {
          bass = bass(element);
        } else if (item instanceof Degree element) {
          alteration(element).ifPresent(alterations::add);
        }
      }
    }
    if (groups > 1) {
      problem(
          "several-chords-in-one-symbol",
          groups + " chords stacked in one chord symbol",
          "the first one is taken");
    }
    if (named != null && kind != ChordKind.NONE) {
      root = root(named, keyFifths, keyMode);
    }
    if (kind == null) {
      problem("chord-kind-missing", "a chord symbol without a kind", "its quality is unknown");
      kind = ChordKind.OTHER;
    }
    if (kind == ChordKind.NONE) {
      String words = text.isEmpty() ? function : text;
      return new Symbol(
          new Chord(null, kind, List.of(), null), !saysNoChord(words), kindWord, text);
    }
    if (!rootSeen) {
      problem("chord-root-missing", "a chord symbol without a root", "its root is unknown");
    }
    if (otherInWords && alterations.isEmpty() && !text.isEmpty()) {
      Optional<ForeignChordKinds.Meaning> meaning = ofText(text, root);
      if (meaning.isPresent()) {
        kind = meaning.get().kind();
        fromKind = meaning.get().alterations();
      } else {
        problem(
            "unknown-chord-kind",
            "a chord of the kind 'other' with the text '" + text + "'",
            "the root is kept, the quality is unknown");
      }
    }
    List<ChordAlteration> all = new ArrayList<>(fromKind);
    all.addAll(alterations);
    if (kind == ChordKind.OTHER && all.isEmpty()) {
      return new Symbol(Chord.unread(root, text, bass), false, kindWord, text);
    }
    Chord chord = new Chord(root, kind, all, bass);
    if (bass == null && inversion > 0 && root != null && chord.isContentKnown()) {
      bass = inverted(chord, inversion);
      chord = bass == null ? chord : new Chord(root, kind, all, bass);
    }
    return new Symbol(chord, false, kindWord, text);
  }

  /** Some texts repeat the root before the suffix, or the bass after it. */
  private static Optional<ForeignChordKinds.Meaning> ofText(String text, NoteName root) {
    Optional<ForeignChordKinds.Meaning> meaning = ForeignChordKinds.meaning(text);
    if (meaning.isPresent()) {
      return meaning;
    }
    String plain = BASS_IN_TEXT.matcher(text).replaceFirst("");
    String name = root == null ? "" : root.toString();
    for (String written : List.of(name, name.replace('♭', 'b').replace('♯', '#'))) {
      if (!written.isEmpty() && plain.startsWith(written)) {
        return ForeignChordKinds.meaning(plain.substring(written.length()));
      }
    }
    return plain.equals(text) ? Optional.empty() : ForeignChordKinds.meaning(plain);
  }

  /**
   * Programs write the kind 'none' for what they cannot say: Roman numerals, tensions apart from
   * their chord, strokes and words. Only one that says so, or says nothing, is no chord.
   */
  private boolean saysNoChord(String words) {
    if (words.isEmpty() || NO_CHORD.matcher(words).matches()) {
      return true;
    }
    problem(
        "no-chord-in-doubt",
        "a chord symbol of the kind 'none' that reads '" + words + "'",
        "the chord before it goes on");
    return false;
  }

  private ForeignChordKinds.Meaning foreignKind(String word, String text) {
    Optional<ChordKind> misspelt = ForeignChordKinds.misspelt(word);
    if (misspelt.isPresent()) {
      problem(
          "unknown-chord-kind",
          "the chord kind '" + word + "'",
          "read as '" + misspelt.get().musicXmlName() + "'");
      return new ForeignChordKinds.Meaning(misspelt.get(), List.of());
    }
    Optional<ForeignChordKinds.Meaning> meaning =
        word.isEmpty() ? Optional.empty() : ForeignChordKinds.meaning(word);
    if (meaning.isEmpty()) {
      // Without word and text it is the plain triad, as a symbol of a root alone is.
      meaning =
          word.isEmpty() || !text.isEmpty() ? ForeignChordKinds.meaning(text) : Optional.empty();
    }
    String found =
        word.isEmpty()
            ? "an empty chord kind" + (text.isEmpty() ? "" : " with the text '" + text + "'")
            : "the chord kind '" + word + "'";
    if (meaning.isEmpty()) {
      problem("unknown-chord-kind", found, "the root is kept, the quality is unknown");
      return new ForeignChordKinds.Meaning(ChordKind.OTHER, List.of());
    }
    String degrees =
        meaning.get().alterations().isEmpty() ? "" : " with " + degreeText(meaning.get());
    problem(
        "unknown-chord-kind",
        found,
        "read as '" + meaning.get().kind().musicXmlName() + "'" + degrees);
    return meaning.get();
  }

  private static String degreeText(ForeignChordKinds.Meaning meaning) {
    StringBuilder text = new StringBuilder();
    for (ChordAlteration alteration : meaning.alterations()) {
      text.append(text.isEmpty() ? "" : ", ")
          .append(alteration.alter() < 0 ? "flat " : alteration.alter() > 0 ? "sharp " : "")
          .append(alteration.value());
    }
    return text.toString();
  }

  private NoteName root(Object item, Integer keyFifths, String keyMode) {
    if (item instanceof Root root) {
      if (root.getRootStep() == null || root.getRootStep().getValue() == null) {
        problem("chord-root-missing", "a chord root without a step", "its root is unknown");
        return null;
      }
      return new NoteName(
          Step.valueOf(root.getRootStep().getValue().value()),
          alter(root.getRootAlter(), "root of a chord"));
    }
    if (item instanceof Numeral numeral) {
      return numeralRoot(numeral, keyFifths, keyMode);
    }
    problem(
        "chord-by-function",
        "the chord function '"
            + PlainText.of(((StyleText) item).getValue(), 40)
            + "' without a root",
        "its root is unknown");
    return null;
  }

  private NoteName numeralRoot(Numeral numeral, Integer keyFifths, String keyMode) {
    int degree = numeral.getNumeralRoot() == null ? 0 : numeral.getNumeralRoot().getValue();
    Integer fifths = keyFifths;
    boolean minor = "minor".equals(keyMode) || "aeolian".equals(keyMode);
    NumeralMode mode = minor ? NumeralMode.NATURAL_MINOR : NumeralMode.MAJOR;
    if (numeral.getNumeralKey() != null) {
      if (numeral.getNumeralKey().getNumeralFifths() != null) {
        fifths = numeral.getNumeralKey().getNumeralFifths().intValue();
      }
      if (numeral.getNumeralKey().getNumeralMode() != null) {
        mode = numeral.getNumeralKey().getNumeralMode();
      }
    }
    if (degree < 1 || degree > 7 || fifths == null) {
      problem(
          "chord-by-numeral",
          "a Roman-numeral chord " + (fifths == null ? "without a key" : "without a number"),
          "its root is unknown");
      return null;
    }
    int tonic = fifths + (mode == NumeralMode.MAJOR ? 0 : 3);
    int step = (mode == NumeralMode.MAJOR ? MAJOR_SCALE : MINOR_SCALE)[degree - 1];
    boolean raised =
        degree == 7 && (mode == NumeralMode.HARMONIC_MINOR || mode == NumeralMode.MELODIC_MINOR)
            || degree == 6 && mode == NumeralMode.MELODIC_MINOR;
    NoteName scale = NoteName.atFifths(tonic + step + (raised ? 7 : 0));
    return new NoteName(
        scale.step(), scale.alter() + alter(numeral.getNumeralAlter(), "root of a chord"));
  }

  private NoteName bass(Bass bass) {
    if (bass.getBassStep() == null || bass.getBassStep().getValue() == null) {
      problem("chord-bass-missing", "a chord bass without a step", "the bass is left out");
      return null;
    }
    return new NoteName(
        Step.valueOf(bass.getBassStep().getValue().value()),
        alter(bass.getBassAlter(), "bass of a chord"));
  }

  private int alter(HarmonyAlter alter, String where) {
    return alter == null ? 0 : semitones(alter.getValue(), where);
  }

  private int semitones(BigDecimal alter, String where) {
    if (alter == null) {
      return 0;
    }
    BigDecimal whole = alter.setScale(0, RoundingMode.HALF_DOWN);
    if (whole.compareTo(alter) != 0) {
      problem(
          "chord-microtone",
          "the " + where + " is altered by " + alter.toPlainString() + " semitones",
          "read as " + whole.toPlainString());
    }
    return whole.intValue();
  }

  private Optional<ChordAlteration> alteration(Degree degree) {
    if (degree.getDegreeValue() == null
        || degree.getDegreeValue().getValue() == null
        || degree.getDegreeType() == null
        || degree.getDegreeType().getValue() == null) {
      problem(
          "chord-degree-incomplete",
          "a chord degree without number or without add, alter or subtract",
          "the degree is left out");
      return Optional.empty();
    }
    ChordAlteration.Type type =
        switch (degree.getDegreeType().getValue()) {
          case ADD -> ChordAlteration.Type.ADD;
          case ALTER -> ChordAlteration.Type.ALTER;
          case SUBTRACT -> ChordAlteration.Type.SUBTRACT;
        };
    int alter =
        degree.getDegreeAlter() == null
            ? 0
            : semitones(degree.getDegreeAlter().getValue(), "degree of a chord");
    return Optional.of(
        new ChordAlteration(type, degree.getDegreeValue().getValue().intValue(), alter));
  }

  /** The chord tone that an inversion puts into the bass; null when the chord has too few. */
  static NoteName inverted(Chord chord, int inversion) {
    record Tone(int degree, int semitones) {}
    List<Tone> tones = new ArrayList<>();
    for (int pitchClass : chord.pitchClasses()) {
      int semitones = Math.floorMod(pitchClass - chord.root().pitchClass(), 12);
      String name =
          chord
              .degreeOf(new Pitch(Step.C, pitchClass, 4, 0))
              .orElseThrow()
              .name()
              .replaceAll("[^0-9]", "");
      tones.add(new Tone(Integer.parseInt(name), semitones));
    }
    tones.sort(Comparator.comparingInt(Tone::degree));
    if (inversion >= tones.size()) {
      return null;
    }
    Tone tone = tones.get(inversion);
    Step step = chord.root().step().plus(tone.degree() - 1);
    int alter = chord.root().pitchClass() + tone.semitones() - step.semitones();
    return new NoteName(step, Math.floorMod(alter + 6, 12) - 6);
  }

  private void problem(String code, String found, String done) {
    problems.add(part, bar, code, found, done);
  }
}
