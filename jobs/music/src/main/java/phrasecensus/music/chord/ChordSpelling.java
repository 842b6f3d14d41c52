package phrasecensus.music.chord;

import static phrasecensus.music.chord.ChordAlteration.Type.ADD;
import static phrasecensus.music.chord.ChordAlteration.Type.ALTER;
import static phrasecensus.music.chord.ChordAlteration.Type.SUBTRACT;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Names a kind and its changed degrees as musicians do (common practice, no source): programs write
 * {@code sus4(add7)} for 7sus4, {@code (♯7)} for maj7, {@code 6(add9)} for 6/9, {@code 7(5 no3
 * add4)} for 7sus4. The name tells the same notes; what it does not cover stays in brackets.
 */
final class ChordSpelling {
  private ChordKind kind;
  private final List<ChordAlteration> left = new ArrayList<>();

  private ChordSpelling(ChordKind kind, List<ChordAlteration> alterations) {
    this.kind = kind;
    this.left.addAll(alterations);
  }

  /** What stands after the root. */
  static String suffix(ChordKind kind, List<ChordAlteration> alterations) {
    if (alterations.isEmpty()) {
      return kind.suffix();
    }
    if (!kind.isContentKnown() || kind == ChordKind.OTHER || kind == ChordKind.PEDAL) {
      return kind.suffix() + brackets(alterations);
    }
    return new ChordSpelling(kind, alterations).suffix();
  }

  private String suffix() {
    left.removeIf(this::changesNothing);
    if (kind == ChordKind.DOMINANT
        && left.size() == ChordSuffix.ALTERED.alterations().size()
        && left.containsAll(ChordSuffix.ALTERED.alterations())) {
      return "7alt";
    }
    String suspension = suspension();
    if (!suspension.isEmpty()) {
      return suspended(suspension);
    }
    takeSeventhOrSixth();
    String more = "";
    if (kind.isSixth() && take(9, 0)) {
      more = "/9";
    } else if (hasNinthKind() && take(9, 0)) {
      kind = ninth();
      if (take(11, 0)) {
        kind = eleventh();
      }
    }
    return kind.suffix() + more + brackets(left);
  }

  /** A degree that the kind has as it is. */
  private boolean changesNothing(ChordAlteration change) {
    return change.alter() == 0
        && kind.hasDegree(change.value())
        && (change.type() == ALTER
            || change.type() == ADD && change.value() == 5 && kind.degreeSemitones(1) == 7);
  }

  /** Takes an added degree; altering a degree that the kind lacks adds it too. */
  private boolean take(int value, int alter) {
    for (ChordAlteration change : left) {
      boolean adds =
          change.type() == ADD || change.type() == ALTER && !kind.hasDegree(change.value());
      if (adds && change.value() == value && change.alter() == alter) {
        left.remove(change);
        return true;
      }
    }
    return false;
  }

  private String suspension() {
    if (kind.isSuspended()) {
      String word = kind.suffix();
      kind = ChordKind.MAJOR;
      return word;
    }
    ChordAlteration noThird = new ChordAlteration(SUBTRACT, 3, 0);
    boolean named =
        switch (kind) {
          case MAJOR, MINOR, MAJOR_SIXTH, MINOR_SIXTH -> true;
          case DOMINANT, MINOR_SEVENTH, MAJOR_SEVENTH, MAJOR_MINOR -> true;
          case DOMINANT_NINTH, MINOR_NINTH, MAJOR_NINTH -> true;
          default -> false;
        };
    if (named && left.contains(noThird)) {
      boolean fourth = take(4, 0) || !kind.hasDegree(11) && take(11, 0);
      if (fourth || take(2, 0) || !kind.hasDegree(9) && take(9, 0)) {
        left.remove(noThird);
        return fourth ? "sus4" : "sus2";
      }
    }
    return "";
  }

  private String suspended(String word) {
    String seventh =
        switch (kind) {
          case DOMINANT, MINOR_SEVENTH -> "7";
          case MAJOR_SEVENTH, MAJOR_MINOR -> "maj7";
          case DOMINANT_NINTH, MINOR_NINTH -> "9";
          case MAJOR_NINTH -> "maj9";
          case MAJOR_SIXTH, MINOR_SIXTH -> "6";
          default -> take(7, 0) ? "7" : take(7, 1) ? "maj7" : take(6, 0) ? "6" : "";
        };
    if (seventh.endsWith("7") && word.equals("sus4") && take(9, 0)) {
      seventh = seventh.replace("7", "9");
      if (seventh.equals("9") && take(13, 0)) {
        seventh = "13";
      }
    }
    return seventh + word + brackets(left);
  }

  private void takeSeventhOrSixth() {
    switch (kind) {
      case MAJOR ->
          kind =
              take(7, 0)
                  ? ChordKind.DOMINANT
                  : take(7, 1)
                      ? ChordKind.MAJOR_SEVENTH
                      : take(6, 0) ? ChordKind.MAJOR_SIXTH : kind;
      case MINOR ->
          kind =
              take(7, 0)
                  ? ChordKind.MINOR_SEVENTH
                  : take(7, 1) ? ChordKind.MAJOR_MINOR : take(6, 0) ? ChordKind.MINOR_SIXTH : kind;
      case DIMINISHED ->
          kind =
              take(7, 0)
                  ? ChordKind.HALF_DIMINISHED
                  : take(7, -1) ? ChordKind.DIMINISHED_SEVENTH : kind;
      case AUGMENTED -> kind = take(7, 0) ? ChordKind.AUGMENTED_SEVENTH : kind;
      default -> {
        // Its own name says its seventh.
      }
    }
  }

  private boolean hasNinthKind() {
    return kind == ChordKind.DOMINANT
        || kind == ChordKind.MAJOR_SEVENTH
        || kind == ChordKind.MINOR_SEVENTH;
  }

  private ChordKind ninth() {
    return switch (kind) {
      case DOMINANT -> ChordKind.DOMINANT_NINTH;
      case MAJOR_SEVENTH -> ChordKind.MAJOR_NINTH;
      default -> ChordKind.MINOR_NINTH;
    };
  }

  private ChordKind eleventh() {
    return switch (kind) {
      case DOMINANT_NINTH -> ChordKind.DOMINANT_11TH;
      case MAJOR_NINTH -> ChordKind.MAJOR_11TH;
      default -> ChordKind.MINOR_11TH;
    };
  }

  private static String brackets(List<ChordAlteration> alterations) {
    return alterations.isEmpty()
        ? ""
        : alterations.stream().map(ChordSpelling::text).collect(Collectors.joining(" ", "(", ")"));
  }

  private static String text(ChordAlteration change) {
    String sign =
        change.alter() == 0
            ? ""
            : (change.alter() < 0 ? "♭" : "♯").repeat(Math.abs(change.alter()));
    return switch (change.type()) {
      case ADD -> (change.alter() == 0 ? "add" : sign) + change.value();
      case ALTER -> sign + change.value();
      case SUBTRACT -> "no" + change.value();
    };
  }
}
