package phrasecensus.rows;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import phrasecensus.music.changes.Changes;
import phrasecensus.music.harmony.ChorusFinder;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.Key;
import phrasecensus.music.harmony.StatedKey;
import phrasecensus.music.harmony.TonalCentreFinder;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.Problem;
import phrasecensus.readers.changes.ChangesText;
import phrasecensus.tables.StudySettings;

/**
 * What a metadata row says that the analysis of a solo must know: its key, the changes under it,
 * the length of a chorus.
 *
 * @param solo with the changes laid under it, where it has no chord symbols of its own
 * @param key as it sounds; empty where none is stated
 * @param choruses those that a stated length tells; empty where none is stated
 * @param problems what could not be taken as it stands
 */
record SoloFacts(
    Solo solo, Optional<Key> key, Optional<Choruses> choruses, List<Problem> problems) {
  /** Metadata column that states the key. */
  static final String KEY = "key";

  /** Metadata column that holds changes as text, or names a lead sheet. */
  static final String CHANGES = "changes";

  /** Metadata column with the bars of the lead sheet that {@link #CHANGES} names. */
  static final String CHANGES_BARS = "changes_bars";

  /** Metadata column with the number of bars in a chorus. */
  static final String CHORUS_BARS = "chorus_bars";

  /** Metadata column with the form of the tune, sections and their lengths. */
  static final String FORM = "form";

  private static final int LONGEST_CHORUS = 512;
  private static final Pattern LENGTHS =
      Pattern.compile("[A-Z]\\d?'*[,:( ]+(\\d{1,3})|[A-Z]'*(\\d{1,3})");

  /**
   * Reads the row of a solo.
   *
   * @param settings how a key of the corpus is meant; a student's is always taken
   */
  static SoloFacts of(
      Solo solo, String role, Map<String, String> metadata, StudySettings settings) {
    List<Problem> problems = new ArrayList<>();
    Optional<Key> key = key(solo, role, metadata.get(KEY), settings.key(), problems);
    Solo over = solo;
    Integer ofChanges = null;
    String changes = metadata.getOrDefault(CHANGES_BARS, metadata.get(CHANGES));
    if (changes != null && namesScore(changes)) {
      problems.add(
          Problem.ofFile(
              "changes-not-found",
              "the lead sheet '"
                  + changes
                  + "', which the metadata name, is not there or unreadable",
              "the solo is read without chords; give its path from the metadata file"));
    } else if (changes != null && !changes.isBlank()) {
      if (hasChords(solo)) {
        problems.add(
            Problem.ofFile(
                "changes-not-needed",
                "changes in the metadata, and chord symbols in the score",
                "the chord symbols of the score are used; delete them there to use the changes"));
      } else {
        Changes read = changes(changes, metadata, problems);
        if (!read.isEmpty()) {
          ofChanges = read.bars().size();
          over = atPitch(read, solo, key, metadata.containsKey(CHANGES_BARS)).under(solo);
          sayWhereChangesEnd(solo, read, problems);
        }
      }
    }
    Integer stated = chorusBars(role, solo, metadata, problems);
    if (stated != null && ofChanges != null && !stated.equals(ofChanges)) {
      problems.add(
          Problem.ofFile(
              "changes-of-another-length",
              "a chorus of " + stated + " bars in the metadata, and changes of " + ofChanges,
              "the changes are laid bar by bar, and choruses have " + stated + " bars"));
    }
    Integer bars = stated != null ? stated : ofChanges;
    return new SoloFacts(
        over, key, bars == null ? Optional.empty() : choruses(solo, bars), List.copyOf(problems));
  }

  /** True for changes that name a lead sheet and do not hold bars. */
  static boolean namesScore(String changes) {
    return changes.strip().toLowerCase(Locale.ROOT).matches("[^|]*\\.(musicxml|xml|mxl)");
  }

  private static boolean hasChords(Solo solo) {
    return solo.chords().stream().anyMatch(span -> !span.concert().isNone());
  }

  private static Optional<Key> key(
      Solo solo, String role, String text, String meant, List<Problem> problems) {
    if (text == null || text.isBlank() || !role.equals("student") && meant.isEmpty()) {
      return Optional.empty();
    }
    Optional<Key> key = Key.parse(text);
    if (key.isEmpty()) {
      problems.add(
          Problem.ofFile(
              "unknown-key",
              "the key '" + text + "' in the metadata",
              "the key is found from the music; write it as G, E minor, Bb blues or D dorian"));
      return Optional.empty();
    }
    StatedKey stated =
        StatedKey.of(
            key.get(),
            meant.isEmpty()
                ? StatedKey.Pitch.UNSAID
                : StatedKey.Pitch.valueOf(meant.toUpperCase(Locale.ROOT)),
            solo);
    if (stated.contradiction()) {
      problems.add(
          Problem.ofFile(
              "key-contradicts-signature",
              "the key '" + text + "' in the metadata, and " + signature(solo),
              "the key of the metadata is used; correct the one that is wrong"));
    }
    return Optional.of(stated.key());
  }

  private static String signature(Solo solo) {
    int fifths =
        solo.keys().stream()
            .map(KeyChange::writtenFifths)
            .filter(java.util.Objects::nonNull)
            .findFirst()
            .orElse(0);
    if (fifths == 0) {
      return "a signature without sharps or flats";
    }
    int count = Math.abs(fifths);
    String sign = fifths > 0 ? "sharp" : "flat";
    return "a signature of " + count + " " + sign + (count == 1 ? "" : "s");
  }

  private static Changes changes(
      String text, Map<String, String> metadata, List<Problem> problems) {
    ChangesText.Reading reading = ChangesText.read(text);
    if (!reading.unread().isEmpty()) {
      problems.add(
          Problem.ofFile(
              "unknown-chord-in-changes",
              "no chord symbol: " + String.join(", ", reading.unread()) + " of the changes",
              "the chord before it goes on; write chords as Gmaj7, Em7, D7(b9) or N.C."));
    }
    if (reading.changes().isEmpty()) {
      problems.add(
          Problem.ofFile(
              "no-changes",
              "changes without a chord, '" + metadata.get(CHANGES) + "'",
              "the solo is read without chords; write bars as 'Gmaj7 | Em7 | Am7 D7'"));
    }
    return reading.changes();
  }

  /** Changes at the pitch of the solo: those of a lead sheet in its key, typed ones as they fit. */
  private static Changes atPitch(
      Changes changes, Solo solo, Optional<Key> stated, boolean fromLeadSheet) {
    Key own = stated.orElseGet(() -> key(solo));
    Key ofChanges = key(changes.under(solo));
    if (own == null || ofChanges == null) {
      return changes;
    }
    int semitones =
        Math.floorMod(own.majorOfSignature() - ofChanges.majorOfSignature() + 5, 12) - 5;
    if (fromLeadSheet) {
      return moved(changes, semitones);
    }
    Transposition toSounding = Changes.transposition(solo);
    boolean written = semitones != 0 && Math.floorMod(semitones - toSounding.semitones(), 12) == 0;
    return written ? changes.moved(toSounding) : changes;
  }

  private static Changes moved(Changes changes, int semitones) {
    return semitones == 0
        ? changes
        : changes.moved(new Transposition(Transposition.diatonicFor(semitones), semitones, 0));
  }

  /** Null where nothing tells it. */
  private static Key key(Solo solo) {
    var centres = TonalCentreFinder.find(solo, Optional.empty());
    return centres.whole().isKnown()
        ? new Key(
            centres.whole(),
            centres.scale() == null ? Key.scaleOf(centres.whole()) : centres.scale())
        : null;
  }

  private static void sayWhereChangesEnd(Solo solo, Changes changes, List<Problem> problems) {
    List<Bar> full =
        solo.bars().stream().filter(bar -> !bar.pickup() && bar.length().isPositive()).toList();
    int over = full.size() % changes.bars().size();
    if (over != 0) {
      Bar last = full.get(full.size() - over);
      problems.add(
          new Problem(
              "",
              last.number(),
              "changes-do-not-fit",
              "changes of "
                  + changes.bars().size()
                  + " bars under a solo of "
                  + full.size()
                  + ": a chorus begins in bar "
                  + last.number()
                  + " and breaks off after "
                  + over
                  + (over == 1 ? " bar" : " bars"),
              "the changes are laid from the first full bar, chorus after chorus"));
    }
  }

  /** The stated length of a chorus; null where none is stated or it is none. */
  private static Integer chorusBars(
      String role, Solo solo, Map<String, String> metadata, List<Problem> problems) {
    String text = metadata.get(CHORUS_BARS);
    if (text != null && !text.isBlank()) {
      if (text.strip().matches("\\d{1,3}")
          && Integer.parseInt(text.strip()) >= 1
          && Integer.parseInt(text.strip()) <= LONGEST_CHORUS) {
        return Integer.parseInt(text.strip());
      }
      problems.add(
          Problem.ofFile(
              "unknown-chorus-length",
              "'" + text + "' as the bars of a chorus in the metadata",
              "choruses are found from the chords; write a whole number, as 12 or 32"));
      return null;
    }
    // A corpus names forms in words of its own; chords tell them better.
    return role.equals("student") || !hasChords(solo) ? sections(metadata.get(FORM)) : null;
  }

  /**
   * Bars of a form that reads as sections with their lengths, as in {@code (A1,8), (A2,8), (B1,8)}
   * or {@code A8 B8}; null for any other text, which stays plain metadata.
   */
  static Integer sections(String form) {
    if (form == null || !form.strip().matches("[(]?[A-Z].*\\d[)]?")) {
      return null;
    }
    String plain = form.strip();
    int bars = 0;
    var lengths = LENGTHS.matcher(plain);
    String left = lengths.replaceAll("").replaceAll("[(),;\\s]", "");
    if (!left.isEmpty()) {
      return null;
    }
    lengths.reset();
    while (lengths.find()) {
      bars += Integer.parseInt(lengths.group(1) == null ? lengths.group(2) : lengths.group(1));
    }
    return bars >= 1 && bars <= LONGEST_CHORUS ? bars : null;
  }

  /** Choruses of a stated length from the first full bar; empty for a solo without a full bar. */
  private static Optional<Choruses> choruses(Solo solo, int bars) {
    return ChorusFinder.ofLength(solo, bars);
  }
}
