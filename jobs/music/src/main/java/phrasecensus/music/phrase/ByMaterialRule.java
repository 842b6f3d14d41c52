package phrasecensus.music.phrase;

import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;

/**
 * Chooses the rule by the music: {@link BreathRule} where rests tell the phrases, {@link
 * ForSongsRule} for a song whose rests do not.
 *
 * <p>A line is a song when words stand under at least {@code sungShare} of its notes. Its rests do
 * not tell the phrases when less than half of its lines of verse begin after a rest; where fewer
 * than {@value #FEWEST_LINES} lines can be told, when there is less than one rest of half a beat or
 * more in {@code beatsARest} beats. Without words a line passes for a song when rests are as rare
 * as that in at least half as many beats, it has at most {@code notesABeat} notes a beat, and at
 * least {@code longShare} of the phrases that the rule for songs finds begin after a rest or a long
 * note (one and a half times the median distance of onsets); an unbroken line of even notes is
 * none. Numbers chosen on 220 solos, which all keep {@code breath}, and 150 lead sheets.
 *
 * @param sungShare 0 to 1
 * @param beatsARest positive
 * @param notesABeat positive
 * @param longShare 0 to 1
 * @param breath applied where rests tell the phrases; its numbers are recorded as {@code breath.…}
 * @param forSongs applied to songs; its numbers are recorded as {@code for-songs.…}
 */
public record ByMaterialRule(
    double sungShare,
    double beatsARest,
    double notesABeat,
    double longShare,
    BreathRule breath,
    ForSongsRule forSongs)
    implements PhraseRule {
  /** The name under which studies know the rule. */
  public static final String NAME = "by-material";

  public static final ByMaterialRule DEFAULT =
      new ByMaterialRule(0.5, 32, 2, 0.6, BreathRule.DEFAULT, ForSongsRule.DEFAULT);

  /** Before the names of numbers of the rules to choose from. */
  static final String BREATH = BreathRule.NAME + ".";

  static final String FOR_SONGS = ForSongsRule.NAME + ".";

  private static final int FEWEST_LINES = 4;
  private static final double LONG = 1.5;

  /** Why a rule applies to a solo. */
  public enum Reason {
    /** The study or the command names the rule. */
    STUDY,
    /** People marked the phrases. */
    MARKS,
    /** Marks were asked for, and the score has none. */
    NO_MARKS,
    /** Rests tell the phrases. */
    RESTS,
    /** Words stand under the notes, and rests do not tell the phrases. */
    WORDS,
    /** Rests are rare, and long notes end the phrases. */
    LONG_NOTES,
    /** Rests are rare, and nothing else tells a song. */
    NEITHER;

    /** The word in tables: lower case with hyphens, as in {@code long-notes}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The reason said to a musician, without a full stop. */
    public String sentence() {
      return switch (this) {
        case STUDY -> "as asked for";
        case MARKS -> "as people marked them";
        case NO_MARKS -> "its score has no slurs, breath marks or fermatas that mark phrases";
        case RESTS -> "its rests tell the phrases";
        case WORDS -> "it has words, and most of its lines begin without a rest";
        case LONG_NOTES -> "it has few rests, and long notes end its phrases, as in a song";
        case NEITHER -> "it has few rests, but neither words nor long notes as a song has";
      };
    }
  }

  /**
   * @throws IllegalArgumentException if a number is out of range
   */
  public ByMaterialRule {
    check("sung-share", sungShare, sungShare >= 0 && sungShare <= 1, "0 to 1");
    check("beats-a-rest", beatsARest, beatsARest > 0, "above 0");
    check("notes-a-beat", notesABeat, notesABeat > 0, "above 0");
    check("long-share", longShare, longShare >= 0 && longShare <= 1, "0 to 1");
  }

  private static void check(String name, double value, boolean holds, String range) {
    if (!holds || Double.isInfinite(value)) {
      throw new IllegalArgumentException("Invalid " + name + ": " + value + " is not " + range);
    }
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Map<String, String> settings() {
    Map<String, String> settings = new LinkedHashMap<>();
    settings.put("sung-share", Double.toString(sungShare));
    settings.put("beats-a-rest", Double.toString(beatsARest));
    settings.put("notes-a-beat", Double.toString(notesABeat));
    settings.put("long-share", Double.toString(longShare));
    breath.settings().forEach((name, value) -> settings.put(BREATH + name, value));
    forSongs.settings().forEach((name, value) -> settings.put(FOR_SONGS + name, value));
    return Collections.unmodifiableMap(settings);
  }

  @Override
  public List<Integer> boundaries(Solo solo) {
    return ruleFor(reason(solo)).boundaries(solo);
  }

  PhraseRule ruleFor(Reason reason) {
    return switch (reason) {
      case WORDS, LONG_NOTES -> forSongs;
      case STUDY, MARKS, NO_MARKS, RESTS, NEITHER -> breath;
    };
  }

  /** Why a rule is chosen for a solo. */
  public Reason reason(Solo solo) {
    List<Joint> joints = Joint.of(solo);
    double beats = 0;
    int rests = 0;
    for (Joint joint : joints) {
      double beat = joint.beatLength().toDouble();
      beats += joint.onsetGap().toDouble() / beat;
      rests += joint.silence().toDouble() >= beat / 2 || joint.unknown() ? 1 : 0;
    }
    boolean rare = rests * beatsARest < beats;
    if (VerseLines.sungShare(solo) >= sungShare && !joints.isEmpty()) {
      List<Integer> lines = VerseLines.beginnings(solo);
      boolean told =
          lines.size() < FEWEST_LINES ? !rare : 2 * afterRests(solo, lines) >= lines.size() - 1;
      return told ? Reason.RESTS : Reason.WORDS;
    }
    if (!rare) {
      return Reason.RESTS;
    }
    return beats >= beatsARest / 2
            && joints.size() <= notesABeat * beats
            && isPartedByLongNotes(solo)
        ? Reason.LONG_NOTES
        : Reason.NEITHER;
  }

  private static int afterRests(Solo solo, List<Integer> notes) {
    int after = 0;
    for (int note : notes) {
      after +=
          note > 0 && solo.notes().get(note).onset().isAfter(solo.notes().get(note - 1).end())
              ? 1
              : 0;
    }
    return after;
  }

  private boolean isPartedByLongNotes(Solo solo) {
    List<Note> notes = solo.notes();
    List<Integer> boundaries = forSongs.boundaries(solo);
    double[] gaps = new double[notes.size() - 1];
    for (int i = 0; i < gaps.length; i++) {
      gaps[i] = notes.get(i + 1).onset().minus(notes.get(i).onset()).toDouble();
    }
    double[] sorted = gaps.clone();
    Arrays.sort(sorted);
    double least = LONG * sorted[sorted.length / 2];
    int parted = 0;
    for (int boundary : boundaries) {
      parted += gaps[boundary - 1] >= least ? 1 : 0;
    }
    return !boundaries.isEmpty() && parted >= longShare * boundaries.size();
  }
}
